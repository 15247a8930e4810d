package helical_test

import (
	"testing"

	"example.org/forkcurve/internal/shared"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

func TestShared(t *testing.T) {
	s := fork(t)
	shared.Read(t, func() any {
		return []any{s.Rate(), s.CorrectedStress(s.Force(150 * mm)), s.Material().Name(),
			s.Fatigue(30*units.Newton, 1400*units.Newton, helical.Peened)}
	})
}
