package units

// AbsolutePressure is a pressure counted from vacuum, the one gas laws need. The
// zero value is vacuum. A value below vacuum can be made, as an out-of-range input
// to be reported by whoever checks it. Values compare with == and Compare. It prints as
// "1.01325 bar abs" and is read from "1.013 bar", "1.013 bar abs", "1.013 bar(a)" or
// "14.7 psia"; a gauge pressure is refused.
type AbsolutePressure struct{ absolute float64 } // Pa

// GaugePressure is a pressure counted from the ambient, the one a gauge on a valve
// shows. The zero value is the ambient itself; less than zero is a partial vacuum.
// It becomes an AbsolutePressure only by naming the ambient. Values compare with ==
// and Compare. It prints as "9.6 bar" and is read from "9.6 bar", "9.6 bar(g)", "9.6 barg"
// or "139 psig"; an absolute pressure is refused.
type GaugePressure struct{ gauge float64 } // Pa

// The two structs name their fields differently on purpose: with the same name they
// would convert into each other, in every package.

// Absolute is the pressure p above vacuum.
func Absolute(p Pressure) AbsolutePressure { return AbsolutePressure{absolute: float64(p)} }

// Gauge is the pressure p above the ambient.
func Gauge(p Pressure) GaugePressure { return GaugePressure{gauge: float64(p)} }

// In is the number of units above vacuum.
func (p AbsolutePressure) In(unit Pressure) float64 { return p.absolute / float64(unit) }

// Gauge is what a gauge in that ambient shows: p − ambient.
func (p AbsolutePressure) Gauge(ambient AbsolutePressure) GaugePressure {
	return GaugePressure{gauge: p.absolute - ambient.absolute}
}

// Add is the absolute pressure d above p.
func (p AbsolutePressure) Add(d Pressure) AbsolutePressure {
	return AbsolutePressure{absolute: p.absolute + float64(d)}
}

// Sub is the difference p − o.
func (p AbsolutePressure) Sub(o AbsolutePressure) Pressure { return Pressure(p.absolute - o.absolute) }

// In is the number of units above the ambient.
func (p GaugePressure) In(unit Pressure) float64 { return p.gauge / float64(unit) }

// Absolute is the pressure above vacuum in that ambient: p + ambient.
func (p GaugePressure) Absolute(ambient AbsolutePressure) AbsolutePressure {
	return AbsolutePressure{absolute: p.gauge + ambient.absolute}
}

// Add is the gauge pressure d above p.
func (p GaugePressure) Add(d Pressure) GaugePressure {
	return GaugePressure{gauge: p.gauge + float64(d)}
}

// Times is the reading that has a ratio to p, as that of one chamber of a spring to another's in the same ambient.
func (p GaugePressure) Times(ratio float64) GaugePressure {
	return GaugePressure{gauge: p.gauge * ratio}
}

// Sub is the difference p − o of two readings in the same ambient.
func (p GaugePressure) Sub(o GaugePressure) Pressure { return Pressure(p.gauge - o.gauge) }

var absolutePressureKind = kind{
	name: "AbsolutePressure", noun: "an absolute pressure",
	units: pressureUnits,
	datum: absolute,
	mark:  " abs",
}

var gaugePressureKind = kind{
	name: "GaugePressure", noun: "a gauge pressure",
	units: pressureUnits,
	datum: gauge,
}

// datum says what a kind of pressure counts from; empty for all other quantities.
type datum string

const (
	difference datum = "difference"
	absolute   datum = "absolute"
	gauge      datum = "gauge"
)

// cutDatum splits the mark of a datum off a symbol: "barg" is "bar" and gauge.
func cutDatum(symbol string) (base string, d datum) {
	for _, m := range [...]struct {
		suffix string
		datum  datum
	}{
		{"(g)", gauge}, {" gauge", gauge}, {"g", gauge},
		{"(a)", absolute}, {"(abs)", absolute}, {" abs", absolute}, {"a", absolute},
	} {
		if n := len(symbol) - len(m.suffix); n > 0 && symbol[n:] == m.suffix {
			if symbol[n-1] == ' ' {
				n-- // "bar (g)"
			}
			return symbol[:n], m.datum
		}
	}
	return symbol, ""
}

// origin is what a pressure of that datum counts from.
func (d datum) origin() string {
	if d == absolute {
		return "vacuum"
	}
	return "the ambient"
}
