package setup_test

import (
	"testing"

	"example.org/forkcurve/internal/shared"
	"example.org/forkcurve/units"
)

func TestShared(t *testing.T) {
	f, event := must(t, enduroBike), room
	event.Temperature = units.Celsius(0)
	shared.Read(t, func() any {
		sag, errSag := f.Sag(600)
		drift, errDrift := f.Drift(600, event)
		return []any{sag, errSag, drift, errDrift, f.Curve(1.3).Force(50 * mm),
			f.CurveAbout(sag.Middle, 1.3).Rate(sag.Middle)}
	})
}
