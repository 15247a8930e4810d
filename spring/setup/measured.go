package setup

import (
	"fmt"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// A sweep that reaches less or more than these shares of the travel is none of the fork.
const leastSwept, mostSwept = 0.9, 1.05

// AsMeasured is the specification of a fork that at rest, in the air it was closed in, does what a
// slow sweep of the whole fork has shown: a measured spring beside the main one adds what the model lacks,
//
//	F(x, n) = F_model(x, n) + F_sweep(x) − F_model(x, 1)
//
// so that speed, warmth, weather and altitude still act on the gas of the model, and the level is the
// bench's. Beyond the sweep the last difference stays. A sweep in and out tells the friction as well,
// half of its loss over its stroke; of one way only it is the force with friction in it.
//
// The sweep begins at full extension and reaches 90 % to 105 % of the travel; another is a *units.RangeError,
// as is a specification that [New] refuses. Source: superposition of forces on one axis.
func (s Spec) AsMeasured(sweep spring.MeasuredSpec) (Spec, error) {
	model, err := New(s)
	if err != nil {
		return Spec{}, err
	}
	shown, err := spring.NewMeasured(sweep)
	if err != nil {
		return Spec{}, err
	}
	rest, f := model.Curve(gas.Isothermal), check.Of("Sweep")
	end := min(shown.Stroke(), rest.Stroke(), s.Travel)
	if least, most := leastSwept*rest.Stroke(), mostSwept*s.Travel; !(shown.Stroke() >= least && shown.Stroke() <= most) {
		f.Report("Stroke", shown.Stroke(), fmt.Sprintf("%.0f to %.0f of this fork", least, most),
			"sweep the fork to the end of its travel")
	}
	if friction := units.Force(float64(shown.Loss()) / (2 * float64(shown.Stroke()))); sweep.Unloading != nil {
		s.Friction = max(0, friction)
		check.Between(f, "Friction", s.Friction, 0, MostFriction)
	}
	if err := f.Err(); err != nil {
		return Spec{}, err
	}
	const samples = 301
	var lacks spring.MeasuredSpec
	for i := range samples {
		x := end * units.Length(i) / (samples - 1)
		lacks.Loading = append(lacks.Loading, spring.Reading{Travel: x, Force: shown.Force(x) - rest.Force(x)})
	}
	if beyond := s.Travel + 1*units.Millimeter; end < s.Travel {
		lacks.Loading = append(lacks.Loading, spring.Reading{Travel: beyond, Force: lacks.Loading[samples-1].Force})
	}
	s = s.Clone()
	leg := &s.Left
	if s.Left.Air == nil && len(s.Left.Springs) == 0 {
		leg = &s.Right
	}
	leg.Springs = append(leg.Springs, lacks)
	_, err = New(s)
	return s, err
}
