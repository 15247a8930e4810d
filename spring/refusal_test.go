package spring_test

import (
	"slices"
	"testing"

	"example.org/forkcurve/internal/refusal"
	"example.org/forkcurve/spring"
)

// refused is the error of a constructor alone.
func refused[S, C any](build func(S) (C, error)) func(S) error {
	return func(s S) error {
		_, err := build(s)
		return err
	}
}

func TestEveryFieldIsChecked(t *testing.T) {
	refusal.Fields(t, func() spring.CoilSpec {
		s := coil
		s.FreeLength, s.SolidLength = 450*mm, 150*mm
		return s
	}, refused(spring.NewCoil))
	refusal.Fields(t, func() spring.AirSpec { return air }, refused(spring.NewAir))
	refusal.Fields(t, func() spring.AirSpec {
		s := air
		s.NegativePressure, s.Port = s.Pressure, 0
		return s
	}, refused(spring.NewAir))
	refusal.Fields(t, func() spring.ChamberSpec { return gap }, refused(spring.NewChamber))
	refusal.Fields(t, func() spring.FloatingPistonSpec { return second }, refused(spring.NewFloatingPiston))
	refusal.Fields(t, func() spring.TopOutSpec { return topOut }, refused(spring.NewTopOut))
	refusal.Fields(t, func() spring.ProgressiveSpec {
		s := progressive
		s.Coils = slices.Clone(s.Coils)
		return s
	}, refused(spring.NewProgressive))
	refusal.Fields(t, func() spring.RateTableSpec {
		s := rates
		s.Rates = slices.Clone(s.Rates)
		return s
	}, refused(spring.NewRateTable))
	refusal.Fields(t, func() spring.StackSpec { return stack }, refused(spring.NewStack))
	refusal.Fields(t, func() spring.NestedSpec { return nested }, refused(spring.NewNested))
	refusal.Fields(t, func() spring.BumpStopSpec { return bumpStop }, refused(spring.NewBumpStop))
	refusal.Fields(t, func() spring.MeasuredSpec { return loop }, refused(spring.NewMeasured))
}
