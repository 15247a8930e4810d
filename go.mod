module example.org/forkcurve

go 1.26.0
