module example.org/forkcurve

go 1.26.0

require (
	github.com/BurntSushi/toml v1.6.0
	github.com/google/go-cmp v0.7.0
	gonum.org/v1/gonum v0.17.0
)
