package units

// AbsolutePressure counts from vacuum. GaugePressure counts from the ambient.
type AbsolutePressure struct{ absolute float64 }

// GaugePressure is what a gauge shows.
type GaugePressure struct{ gauge float64 }

// Absolute is the pressure p above vacuum.
func Absolute(p Pressure) AbsolutePressure { return AbsolutePressure{absolute: float64(p)} }

// Gauge is the pressure p above ambient.
func Gauge(p Pressure) GaugePressure { return GaugePressure{gauge: float64(p)} }

// In is the number of units above vacuum.
func (p AbsolutePressure) In(unit Pressure) float64 { return p.absolute / float64(unit) }

// In is the number of units above ambient.
func (p GaugePressure) In(unit Pressure) float64 { return p.gauge / float64(unit) }

// Gauge is what a gauge in that ambient shows.
func (p AbsolutePressure) Gauge(ambient AbsolutePressure) GaugePressure {
	return GaugePressure{gauge: p.absolute - ambient.absolute}
}

// Absolute is the gauge reading plus the ambient.
func (p GaugePressure) Absolute(ambient AbsolutePressure) AbsolutePressure {
	return AbsolutePressure{absolute: p.gauge + ambient.absolute}
}

// Sub is p - o.
func (p AbsolutePressure) Sub(o AbsolutePressure) Pressure { return Pressure(p.absolute - o.absolute) }
