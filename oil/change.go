package oil

import "example.org/forkcurve/units"

// Change is the difference between two gaps at the end of the travel both have.
type Change struct {
	Force    units.Force // of one leg, second less first
	From, To float64     // compression ratios of the first and the second, +Inf where the leg locks
}

// Difference is what a leg with gap b has over one with gap a. For the left and
// right leg of one fork the force twists the axle.
func Difference(a, b AirGap) Change {
	end := min(a.Stroke(), b.Stroke())
	return Change{Force: b.Force(end) - a.Force(end), From: a.CompressionRatio(), To: b.CompressionRatio()}
}

// Sensitivity is what a step of the fill does to one leg. The two steps are those in use at the bench.
type Sensitivity struct {
	Level  Change // oil 5 mm higher
	Volume Change // 5 mL more oil
}

// Sensitivity is that of the fill under the gap of the specification, whose Residual is not used.
func (f Fill) Sensitivity(s AirGapSpec) (Sensitivity, error) {
	more := func(v units.Volume) (AirGap, error) {
		s.Residual = f.Residual() - v
		return NewAirGap(s)
	}
	now, err := more(0)
	if err != nil {
		return Sensitivity{}, err
	}
	higher, err := more(cylinder(f.column, 5*units.Millimeter))
	if err != nil {
		return Sensitivity{}, err
	}
	fuller, err := more(5 * units.Milliliter)
	if err != nil {
		return Sensitivity{}, err
	}
	return Sensitivity{Level: Difference(now, higher), Volume: Difference(now, fuller)}, nil
}
