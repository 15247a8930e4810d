package spring

import (
	"reflect"
	"slices"

	"example.org/forkcurve/units"
)

// Spec is a spring as it is specified, before a fork of some travel takes it up:
// every specification of a mechanical spring in this package, and [Given].
type Spec interface {
	// Curve makes the spring for a fork of that travel, which takes the place of a
	// travel in the specification. It reports every fault as a *units.RangeError.
	Curve(travel units.Length) (Curve, error)
}

// Adjustable is the Spec of a main spring, one with rates and a preload that differ
// from spring to spring and from build to build.
type Adjustable interface {
	Spec
	// Adjusted is the same spring with every rate multiplied and the preload raised.
	Adjusted(rate float64, preload units.Length) Spec
}

// Given is a curve made elsewhere, taken as it is up to the travel of the fork.
type Given struct{ Of Curve }

// Equal reports whether both are the same curve, for go-cmp and others that look for the method.
func (s Given) Equal(o Given) bool { return reflect.DeepEqual(s, o) }

// Curve is the given one, ended at the travel.
func (s Given) Curve(travel units.Length) (Curve, error) {
	if err := Err(s.Of); s.Of != nil && err != nil {
		return nil, err
	}
	if s.Of == nil || !(s.Of.Stroke() > 0) {
		return nil, &units.RangeError{Field: "Given.Of", Value: "no stroke", Want: "a curve of a stroke above 0"}
	}
	return Limit(s.Of, travel), nil
}

// asCurve is what a constructor returns as a Curve, nil with an error.
func asCurve[C Curve](c C, err error) (Curve, error) {
	if err != nil {
		return nil, err
	}
	return c, nil
}

// Curve is [NewCoil] in a fork of that travel.
func (s CoilSpec) Curve(travel units.Length) (Curve, error) {
	s.Travel = travel
	return asCurve(NewCoil(s))
}

// Adjusted multiplies the rate and raises the preload.
func (s CoilSpec) Adjusted(rate float64, preload units.Length) Spec {
	s.Rate *= units.Stiffness(rate)
	s.Preload += preload
	return s
}

// Curve is [NewProgressive] in a fork of that travel.
func (s ProgressiveSpec) Curve(travel units.Length) (Curve, error) {
	s.Travel = travel
	return asCurve(NewProgressive(s))
}

// Adjusted multiplies the rate of every coil and raises the preload.
func (s ProgressiveSpec) Adjusted(rate float64, preload units.Length) Spec {
	s.Coils = slices.Clone(s.Coils)
	for i := range s.Coils {
		s.Coils[i].Rate *= units.Stiffness(rate)
	}
	s.Preload += preload
	return s
}

// Curve is [NewRateTable] in a fork of that travel.
func (s RateTableSpec) Curve(travel units.Length) (Curve, error) {
	s.Travel = travel
	return asCurve(NewRateTable(s))
}

// Adjusted multiplies every rate of the table and raises the preload.
func (s RateTableSpec) Adjusted(rate float64, preload units.Length) Spec {
	s.Rates = slices.Clone(s.Rates)
	for i := range s.Rates {
		s.Rates[i].Rate *= units.Stiffness(rate)
	}
	s.Preload += preload
	return s
}

// Curve is [NewStack] in a fork of that travel.
func (s StackSpec) Curve(travel units.Length) (Curve, error) {
	s.Travel = travel
	return asCurve(NewStack(s))
}

// Adjusted multiplies both rates and raises the preload.
func (s StackSpec) Adjusted(rate float64, preload units.Length) Spec {
	s.Soft.Rate *= units.Stiffness(rate)
	s.Hard.Rate *= units.Stiffness(rate)
	s.Preload += preload
	return s
}

// Curve is [NewNested] in a fork of that travel.
func (s NestedSpec) Curve(travel units.Length) (Curve, error) {
	s.Travel = travel
	return asCurve(NewNested(s))
}

// Adjusted multiplies both rates and raises the preload.
func (s NestedSpec) Adjusted(rate float64, preload units.Length) Spec {
	s.Outer.Rate *= units.Stiffness(rate)
	s.Inner.Rate *= units.Stiffness(rate)
	s.Preload += preload
	return s
}

// Curve is [NewTopOut] in a fork of that travel.
func (s TopOutSpec) Curve(travel units.Length) (Curve, error) {
	s.Travel = travel
	return asCurve(NewTopOut(s))
}

// Curve is [NewBumpStop] in a fork of that travel.
func (s BumpStopSpec) Curve(travel units.Length) (Curve, error) {
	s.Travel = travel
	return asCurve(NewBumpStop(s))
}

// Curve is [NewMeasured], ended at the travel of the fork.
func (s MeasuredSpec) Curve(travel units.Length) (Curve, error) {
	m, err := NewMeasured(s)
	if err != nil {
		return nil, err
	}
	return Limit(m, travel), nil
}

// Adjusted multiplies every force and raises the preload.
func (s MeasuredSpec) Adjusted(rate float64, preload units.Length) Spec {
	times := func(readings []Reading) []Reading {
		readings = slices.Clone(readings)
		for i := range readings {
			readings[i].Force *= units.Force(rate)
		}
		return readings
	}
	s.Loading, s.Unloading = times(s.Loading), times(s.Unloading)
	s.Preload += preload
	return s
}

var (
	_ Adjustable = CoilSpec{}
	_ Adjustable = ProgressiveSpec{}
	_ Adjustable = RateTableSpec{}
	_ Adjustable = StackSpec{}
	_ Adjustable = NestedSpec{}
	_ Spec       = TopOutSpec{}
	_ Spec       = BumpStopSpec{}
	_ Adjustable = MeasuredSpec{}
	_ Spec       = Given{}
)
