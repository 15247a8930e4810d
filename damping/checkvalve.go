package damping

import (
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// CheckSpec is a spring-loaded plate or poppet that opens one way.
type CheckSpec struct {
	Area      units.Area     // fully open, 0.001 mm² to 1000 mm²
	Discharge float64        // 0.3 to 1; see Discharge
	Crack     units.Pressure // at which it starts to open, 0 to 400 bar
	FullOpen  units.Pressure // at which it is fully open, Crack to 400 bar
}

// Check is a check valve, or a blow-off valve where Crack is high. It is closed up to Crack and against negative
// pressure; its area then grows with pressure up to FullOpen:
//
//	q = C·A(p)·√(2·p/ρ),  A(p) = A·(p − p₀)/(p₁ − p₀)
type Check struct {
	crack, open float64 // Pa
	capacity    float64 // C·A·√2, m²
}

// NewCheck checks the specification.
func NewCheck(s CheckSpec) (Check, error) {
	f := check.Of("CheckSpec")
	checkOpening(f, s.Area, s.Discharge)
	if check.Between(f, "Crack", s.Crack, 0, 400*units.Bar) {
		check.Between(f, "FullOpen", s.FullOpen, s.Crack, 400*units.Bar)
	}
	if err := f.Err(); err != nil {
		return Check{}, err
	}
	return Check{crack: float64(s.Crack), open: float64(s.FullOpen),
		capacity: s.Discharge * float64(s.Area) * math.Sqrt2}, nil
}

// Flow is 0 up to the cracking pressure.
func (c Check) Flow(p units.Pressure, o Oil) units.Flow { return units.Flow(c.flow(float64(p), o)) }

func (c Check) flow(p float64, o Oil) float64 {
	if p <= c.crack {
		return 0
	}
	opening := 1.0
	if p < c.open {
		opening = (p - c.crack) / (c.open - c.crack)
	}
	return c.capacity * opening * math.Sqrt(p/float64(o.Density))
}

// Drop is the pressure difference that drives q; no pressure drives a negative flow.
func (c Check) Drop(q units.Flow, o Oil) units.Pressure {
	if q <= 0 || c.capacity == 0 {
		return blocked(q)
	}
	root := float64(q) / c.capacity
	if p := root * root * float64(o.Density); p >= c.open {
		return units.Pressure(p)
	}
	if c.open == c.crack {
		return units.Pressure(c.crack)
	}
	return units.Pressure(increasing(func(p float64) float64 { return c.flow(p, o) - float64(q) }, c.crack, c.open))
}
