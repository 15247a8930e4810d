package check

import "example.org/forkcurve/units"

// Absolute reports p unless lo ≤ p ≤ hi above vacuum. NaN is never between.
func Absolute(f *Faults, field string, p units.AbsolutePressure, lo, hi units.Pressure) bool {
	if v := units.Pressure(p.In(units.Pascal)); v >= lo && v <= hi {
		return true
	}
	f.outside(field, p, units.Absolute(lo), units.Absolute(hi))
	return false
}

// Gauge reports p unless lo ≤ p ≤ hi above ambient. NaN is never between.
func Gauge(f *Faults, field string, p units.GaugePressure, lo, hi units.Pressure) bool {
	if v := units.Pressure(p.In(units.Pascal)); v >= lo && v <= hi {
		return true
	}
	f.outside(field, p, units.Gauge(lo), units.Gauge(hi))
	return false
}

// Temperature reports t unless lo ≤ t ≤ hi. NaN is never between.
func Temperature(f *Faults, field string, t, lo, hi units.Temperature) bool {
	if k := t.Kelvin(); k >= lo.Kelvin() && k <= hi.Kelvin() {
		return true
	}
	f.outside(field, t, lo, hi)
	return false
}
