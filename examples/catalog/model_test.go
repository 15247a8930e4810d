package main

import (
	"testing"

	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// The pressures on page and drawing give the force of the fork's curve, through piston areas and the gas over the
// oil. Forks with a balance coil have one more.
func TestChamberForces(t *testing.T) {
	for _, m := range models(t) {
		if m.Left.Air.BalanceRate.Given() || !m.Left.Role.HasAir() {
			continue
		}
		for _, n := range []float64{1, m.ride} {
			curve := m.setup.Curve(n)
			for i := range 11 {
				x := min(m.Travel.Value*units.Length(i)/10, m.Travel.Value)
				c, ok := m.chambers(setup.Left, x, n)
				if !ok {
					t.Fatalf("%s: no chambers at %v", m.ID, x)
				}
				a := circle(radius(m.Left.Air.Bore.Value)) * 1e-6
				rod := circle(radius(m.Left.Air.Rod.Value)) * 1e-6
				force := c.positiveGauge.In(units.Pascal)*a - c.negativeGauge.In(units.Pascal)*(a-rod)
				for side := setup.Left; side <= setup.Right; side++ {
					if gap, err := m.setup.Gap(side, n); err == nil {
						force += float64(gap.Force(x))
					}
				}
				if want := float64(curve.Force(x)); !near(force, want, 1e-6*max(want, 1)) {
					t.Errorf("%s at %v, n = %.2f: %.6f N, want %.6f", m.ID, x, n, force, want)
				}
			}
		}
	}
}
