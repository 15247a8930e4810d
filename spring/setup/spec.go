package setup

import (
	"fmt"
	"slices"
	"strings"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// MostFriction is several times that of any fork that still moves.
const MostFriction = 1 * units.Kilonewton

// Spec is a fork as it was put together. A leg holds whatever springs it has;
// the fork's curve is the sum of both legs.
type Spec struct {
	Travel      units.Length // 20 mm to 400 mm
	Left, Right Leg          // as the rider sees them
	Closed      gas.Ambient  // air in which the legs were closed, fork extended
	Friction    units.Force  // of the whole fork, half the band between pushed-down and lifted-up, 0 to MostFriction
}

// Leg is what one leg holds. A nil part is absent; a leg with none is a damper
// leg whose trapped gas does not matter.
type Leg struct {
	Springs []spring.Spec // coils of any kind, top-out springs, bump stops, measured curves; their travel is the fork's
	Air     *Air          // air spring
	Gap     *Gap          // gas trapped over the oil
	Damper  *Damper       // pressurized damper
}

// Find is the first spring of one kind in a leg, as Find[spring.CoilSpec](leg).
func Find[S spring.Spec](l Leg) (S, bool) {
	for _, spec := range l.Springs {
		if s, ok := spec.(S); ok {
			return s, true
		}
	}
	var none S
	return none, false
}

// Filled is the specification with every air spring set to another reading;
// chambers with a valve of their own keep their ratio to the positive one. A fork
// without an air spring is a *units.RangeError.
func (s Spec) Filled(fill gas.Fill) (Spec, error) {
	if s.Left.Air == nil && s.Right.Air == nil {
		return Spec{}, &units.RangeError{Field: "Spec.Left.Air", Value: "none",
			Want: "an air spring in one leg at least, to be filled"}
	}
	for _, l := range s.legs() {
		if l.Air == nil {
			continue
		}
		a := *l.Air
		if old := a.Fill.Gauge.In(units.Pascal); old > 0 {
			ratio := fill.Gauge.In(units.Pascal) / old
			a.NegativeGauge, a.SecondGauge = a.NegativeGauge.Times(ratio), a.SecondGauge.Times(ratio)
		}
		a.Fill = fill
		l.Air = &a
	}
	return s, nil
}

// Stiffer is the specification with every main spring so many times as stiff, coils by their rate and air springs by
// all their gauge pressures; gas over the oil stays as it is. A factor that no spring can have is an error of [New].
func (s Spec) Stiffer(times float64) Spec {
	s = s.Clone()
	for _, l := range s.legs() {
		for i, one := range l.Springs {
			if main, ok := one.(spring.Adjustable); ok {
				l.Springs[i] = main.Adjusted(times, 0)
			}
		}
		if a := l.Air; a != nil {
			a.Fill.Gauge, a.NegativeGauge = a.Fill.Gauge.Times(times), a.NegativeGauge.Times(times)
			a.SecondGauge = a.SecondGauge.Times(times)
		}
	}
	return s
}

func (s *Spec) legs() [2]*Leg { return [2]*Leg{&s.Left, &s.Right} }

// String names what a leg holds, as "coil, gas over the oil", and "nothing" else.
func (l Leg) String() string {
	var words []string
	for _, s := range l.Springs {
		words = append(words, spring.Kind(s))
	}
	if l.Air != nil {
		words = append(words, fmt.Sprintf("air %.1f", l.Air.Fill.Gauge))
	}
	if l.Damper != nil {
		words = append(words, fmt.Sprintf("damper gas %.1f", l.Damper.Fill.Gauge))
	}
	if l.Gap != nil {
		words = append(words, "gas over the oil")
	}
	if words == nil {
		return "nothing"
	}
	return strings.Join(words, ", ")
}

// Clone is the same fork with parts of its own: what is set in them is not set in the first.
func (s Spec) Clone() Spec {
	for _, l := range s.legs() {
		l.Springs = slices.Clone(l.Springs)
		l.Air, l.Gap, l.Damper = clone(l.Air), clone(l.Gap), clone(l.Damper)
	}
	return s
}

func clone[T any](p *T) *T {
	if p == nil {
		return nil
	}
	v := *p
	return &v
}
