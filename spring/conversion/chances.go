package conversion

import (
	"math"

	"example.org/forkcurve/units"
)

// chances are those of a coil as set.
func (p *planner) chances(c Candidate, s part) Chances {
	var ch Chances
	if u := c.Behavior.Uncertainty; u != nil {
		lo, hi := p.depth(p.SagWindow[0]), p.depth(p.SagWindow[1])
		ch.SagInWindow = below(float64(hi-c.Behavior.Sag.Middle), float64(u.Sag)) -
			below(float64(lo-c.Behavior.Sag.Middle), float64(u.Sag))
	}
	known := p.known()
	ch.Bind = below(-float64(c.BindMargin), math.Hypot(float64(known.Preload), LengthSpread*float64(s.free)))
	for _, l := range p.Legs {
		left := p.gasLeft(l, s.metal, c.OilVolume)
		own := p.oilIn(l, s.metal, c.OilVolume)
		u := float64(p.gasSpread(l, p.byLevel()))
		swollen := p.Oil.Expand(own, p.Workshop.Temperature, p.warm) - own
		ch.Lock = max(ch.Lock, below(float64(swollen-left), u))
		// The gas left at which the pressure reaches its limit.
		least := nearest(-float64(max(left, p.swept(l))), -float64(swollen)/2, func(minus float64) float64 {
			g := p.gasAt(l, own, units.Volume(-minus), p.warm)
			if g.locks() {
				return 1
			}
			return g.Peak.In(units.Pascal)/float64(StopGapPressure) - 1
		})
		ch.OverPressure = max(ch.OverPressure, below(-least-float64(left), u))
	}
	return ch
}

// below is the probability of a normal error of that standard uncertainty below a limit.
func below(limit, u float64) units.Share {
	if u == 0 {
		if limit > 0 {
			return 1
		}
		return 0
	}
	return units.Share(math.Erfc(-limit/(u*math.Sqrt2)) / 2)
}
