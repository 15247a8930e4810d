package check

import (
	"fmt"

	"example.org/forkcurve/units"
)

// Absolute reports p unless lo ≤ p ≤ hi above vacuum.
func Absolute(f *Faults, field string, p units.AbsolutePressure, lo, hi units.Pressure) bool {
	return point(f, field, p, p.In(units.Pascal), float64(lo), float64(hi), units.Absolute(lo), units.Absolute(hi))
}

// Gauge reports p unless lo ≤ p ≤ hi above ambient.
func Gauge(f *Faults, field string, p units.GaugePressure, lo, hi units.Pressure) bool {
	return point(f, field, p, p.In(units.Pascal), float64(lo), float64(hi), units.Gauge(lo), units.Gauge(hi))
}

// Temperature reports t unless lo ≤ t ≤ hi.
func Temperature(f *Faults, field string, t, lo, hi units.Temperature) bool {
	return point(f, field, t, t.Kelvin(), lo.Kelvin(), hi.Kelvin(), lo, hi)
}

// point compares v, the number behind value; NaN is never between.
func point(f *Faults, field string, value any, v, lo, hi float64, from, to any) bool {
	if v >= lo && v <= hi {
		return true
	}
	f.Report(field, value, fmt.Sprintf("%.6g to %.6g", from, to), "")
	return false
}
