package jobfile

import (
	"math"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// known is how well the numbers of a job are known: what a workshop reads, and of what it does
// not read, as far as the record of the fork says how far it may be off. The standard uncertainty
// of the rider is the record's where it is 0.
func known(fork data.Fork, rider, uncertain units.Mass) *setup.Tolerance {
	t := setup.Usual()
	const g = float64(units.StandardGravity)
	up := g * math.Cos(float64(fork.Chassis.Rake.Value))
	share, all := fork.Chassis.FrontShareRidden, float64(fork.Chassis.Mass.Value+rider)
	if uncertain == 0 {
		uncertain = fork.Rider.Mass.Spread.SD
	}
	if u := uncertain; u > 0 {
		t.Rider, t.Load = min(200, units.Force(float64(u)*float64(share.Value)*up)), 0
	}
	t.Stance = min(200, units.Force(float64(share.Spread.SD)*all*up))
	t.Friction = min(300, fork.Friction.Spread.SD)
	t.Residual = max(t.Residual, min(300*units.Milliliter, fork.Gap.Residual.Spread.SD))
	for _, l := range []data.Leg{fork.Left, fork.Right} {
		if v := l.Air.Volume; v.Value > 0 {
			t.Chambers = min(0.3, units.Share(v.Spread.SD/v.Value))
		}
	}
	return &t
}

// labeled is the rate of a coil of the shelf and its standard uncertainty: half of what is written
// beside it, as "8.4 N/mm ± 0.1 N/mm", or of what its class of EN 15800 permits; 0 where neither is there.
func labeled(t *strict.Table) (rate units.Stiffness, spread func(helical.Spring) units.Share) {
	rate, off := strict.Toleranced(t, "rate", strict.Between(0.5*nmm, 100*nmm))
	grade, graded := t.OptionalNumber("grade", float64(helical.Grade1), float64(helical.Grade3))
	return rate, func(s helical.Spring) units.Share {
		switch {
		case off > 0:
			return min(0.1, units.Share(off/rate)/2)
		case graded:
			if of := s.RateTolerance(helical.Grade(grade)); of > 0 { // else no class has so few coils
				return of / 2
			}
		}
		return 0
	}
}
