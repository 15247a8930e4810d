package conversion_test

import (
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/refusal"
	"example.org/forkcurve/spring/conversion"
)

func TestEveryFieldHasLimits(t *testing.T) {
	refusal.Fields(t, func() conversion.Job {
		j := motocross(t)
		j.Shelf = j.Shelf[:1]
		j.Legs[0].Room.Guide = 20 * mm
		j.Caliper = &geometry.Caliper{Loose: 12 * mm}
		return j
	}, func(j conversion.Job) error {
		_, err := conversion.Plan(j)
		return err
	})
}
