package conversion

import (
	"math"

	"example.org/forkcurve/internal/solve"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// settings are the preload and the oil within their ranges that come nearest to the
// sag and the energy aimed for. Preload sees the gas only at its weakest and oil sees
// preload only through the energy, so that a few turns settle both.
func (p *planner) settings(s part) (units.Length, units.Volume) {
	if p.stands != nil {
		return p.stands.preload, p.stands.volume
	}
	preload, volume := p.Preload.Aim, p.OilVolume.Aim
	most := p.mostOil(s)
	for turn := range 4 {
		was := preload
		if preload = p.solvePreload(s, volume); turn > 0 && preload == was {
			break // the oil follows from it
		}
		volume = p.solveOil(s, preload, most)
	}
	return preload, volume
}

// leastPreload keeps the spring on its seats, where the range allows.
func (j Job) leastPreload() units.Length { return min(max(j.Preload.Min, LeastPreload), j.Preload.Max) }

// solvePreload is the preload within the range, and not below LeastPreload, whose
// sag is nearest to the goal. It stays at its aim where that would better the sag by no more
// than is known of it, unless the job names a sag.
func (p *planner) solvePreload(s part, volume units.Volume) units.Length {
	still := append(make(parallel, 0, mostCurves), p.stays[atRest])
	for _, l := range p.Legs {
		gap, err := p.gap(l, s.metal, volume, gas.Isothermal)
		if err != nil {
			return p.Preload.Aim
		}
		still = append(still, gap)
	}
	least := p.leastPreload()
	over := func(preload float64, at units.Length) float64 {
		// Before the goal where the fork binds or locks.
		end, force := s.compressed(units.Length(preload), min(still.stroke(), at))
		return float64(still.force(end)+units.Force(len(p.Legs))*force) - float64(p.rider.Axial)
	}
	miss := func(preload float64) float64 { return over(preload, p.goal) }
	best := nearest(float64(least), float64(p.Preload.Max), miss)
	if u := p.now.Uncertainty; u != nil && p.TargetSag == 0 && p.Preload.Aim >= least {
		aim := float64(p.Preload.Aim)
		gain := math.Abs(miss(aim)) - math.Abs(miss(best))
		if known := u.Sag / 2; gain <= over(aim, p.goal+known)-over(aim, p.goal-known) {
			return p.Preload.Aim
		}
	}
	return units.Length(best)
}

// solveOil is the oil within the range whose energy to full travel is nearest to
// the present fork's, with no more than is safe.
func (p *planner) solveOil(s part, preload units.Length, most units.Volume) units.Volume {
	if most <= p.OilVolume.Min {
		return p.OilVolume.Min
	}
	c, err := s.spec(preload).Curve(p.Fork.Travel)
	if err != nil {
		return p.OilVolume.Min
	}
	rest := append(make(parallel, 0, mostCurves), p.stays[atRest], c)
	ridden := append(make(parallel, 0, mostCurves), p.stays[inLanding], c)
	if len(p.Legs) == 2 {
		rest, ridden = append(rest, c), append(ridden, c)
	}
	var slow, fast [2]oil.AirGap
	for i := range p.Legs {
		rest, ridden = append(rest, &slow[i]), append(ridden, &fast[i])
	}
	return units.Volume(nearest(float64(p.OilVolume.Min), float64(most), func(volume float64) float64 {
		for i, l := range p.Legs {
			var err1, err2 error
			slow[i], err1 = p.gap(l, s.metal, units.Volume(volume), gas.Isothermal)
			fast[i], err2 = p.gap(l, s.metal, units.Volume(volume), p.RideExponent)
			if err1 != nil || err2 != nil {
				return math.NaN()
			}
		}
		end := rest.stroke()
		if rest.force(end) < p.rider.Axial {
			return -1 // it does not carry the rider: more oil
		}
		return float64(ridden.energy(end) - p.now.EnergyFull)
	}))
}

// nearest is the x in [lo, hi] that brings a rising f nearest to 0: its root, or
// the end on the root's side.
func nearest(lo, hi float64, f func(float64) float64) float64 {
	if !(hi > lo) || f(lo) >= 0 {
		return lo
	}
	if f(hi) <= 0 {
		return hi
	}
	x, ok := solve.Root(f, lo, hi, (hi-lo)*1e-6)
	if !ok {
		return lo
	}
	return x
}

// gap is the gas over that much oil in a converted leg.
func (p *planner) gap(l ConvertedLeg, metal, volume units.Volume, n float64) (oil.AirGap, error) {
	return oil.NewAirGap(oil.AirGapSpec{Area: l.Bath.Area, Residual: p.residual(l, metal, volume),
		Travel:   p.Fork.Travel,
		Pressure: p.Workshop.Pressure, Ambient: p.Workshop.Pressure, Exponent: n})
}

// parallel is what shares the travel of a fork on trial.
type parallel []spring.Curve

// mostCurves of a fork on trial: what stays, and a spring and a gap for each of two legs.
const mostCurves = 5

func (t parallel) stroke() units.Length {
	end := t[0].Stroke()
	for _, c := range t[1:] {
		end = min(end, c.Stroke())
	}
	return end
}

func (t parallel) force(x units.Length) (sum units.Force) {
	for _, c := range t {
		sum += c.Force(x)
	}
	return sum
}

func (t parallel) energy(x units.Length) (sum units.Energy) {
	for _, c := range t {
		sum += c.Energy(x)
	}
	return sum
}
