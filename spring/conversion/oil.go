package conversion

import (
	"math"

	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// LegBuild is what one converted leg gets, and what the gas over its oil does.
type LegBuild struct {
	Side      setup.Side   `json:"side"`       // the leg
	Spacer    units.Length `json:"spacer"`     // negative: the spring is too long for the leg
	OilVolume units.Volume `json:"oil_volume"` // what the level takes, by the inside of the leg

	// OilLevel is to be set: fork compressed, spring out. It leaves the gas that was planned
	// whatever the leg holds. nil where no level is read, so that the volume counts.
	OilLevel *units.Length `json:"oil_level"`

	// At the 97.5th percentile of what is known, safe where it is poured by volume, and of a reading.
	OilMost    units.Volume  `json:"oil_most"`
	LevelLeast *units.Length `json:"level_least"` // nil where no level is read

	Cold  Gas `json:"cold"`  // over the oil in the workshop, fork at full travel
	Warm  Gas `json:"warm"`  // once warm
	Worst Gas `json:"worst"` // warm, at the 97.5th percentile of the fill as it is advised
}

// Gas is the gas over the oil of a leg at full travel, in a landing.
type Gas struct {
	Temperature units.Temperature   `json:"temperature"` // of oil and gas
	Ratio       float64             `json:"ratio"`       // of compression; 0 where the leg locks on its oil
	Peak        units.GaugePressure `json:"peak"`        // 0 there
}

// Standard deviations of a normal distribution: percentile97 is the 97.5th percentile, by which a
// fill is refused, planned that by which one is chosen, so that of a thousand forks none fails.
const (
	percentile97 = 1.959964
	planned      = 4
)

// running is the temperature of oil and gas once ridden.
func (j Job) running() units.Temperature {
	if j.Running != nil {
		return *j.Running
	}
	return j.Workshop.Temperature.Add(OilWarming)
}

// gasSpread is the standard uncertainty of the gas left in a leg: filled to a level, of the
// level; else of the volume poured and of the inside of the leg.
func (p *planner) gasSpread(l ConvertedLeg, byLevel bool) units.Volume {
	if column := p.column(l); byLevel && column != 0 {
		return units.Volume(float64(column) * float64(LevelSpread))
	}
	return units.Volume(math.Hypot(float64(max(l.Bath.Spread, min(LeastInteriorSpread, l.Bath.Interior/50))),
		float64(min(LeastFillSpread, l.Bath.Interior/50))))
}

// gasAt is the gas over an amount of oil that was closed in the workshop, fork extended,
// with left of it at full travel, and has come to a temperature.
func (p *planner) gasAt(l ConvertedLeg, oilVolume, left units.Volume, t units.Temperature) Gas {
	here := p.Workshop
	closed := left + p.swept(l)
	left -= p.Oil.Expand(oilVolume, here.Temperature, t) - oilVolume
	g := Gas{Temperature: t}
	if !(left > 0 && closed > 0) {
		return g
	}
	extended := left + p.swept(l)
	g.Ratio = float64(extended / left)
	p0 := here.Pressure.In(units.Pascal) * float64(closed/extended) * t.Kelvin() / here.Temperature.Kelvin()
	peak := units.Absolute(units.Pressure(p0 * math.Pow(g.Ratio, p.RideExponent)))
	g.Peak = peak.Gauge(here.Pressure)
	return g
}

// locks reports that no gas is left.
func (g Gas) locks() bool { return g.Ratio == 0 || g.Ratio > oil.LockRatio }

// beyond is how far the gas is past the limits: above 0 refused, 1 where the leg locks.
func (g Gas) beyond() float64 {
	if g.locks() {
		return 1
	}
	return max(g.Ratio/StopGapRatio, g.Peak.In(units.Pascal)/float64(StopGapPressure)) - 1
}

// mostOil is the most of it in the first leg with which the gas of every converted leg stays
// within GoodGapRatio in the workshop, and within the limits once warm for 97.5 % of fills.
func (p *planner) mostOil(s part) units.Volume {
	most := p.OilVolume.Max
	first := p.Legs[0]
	for _, l := range p.Legs {
		most = min(most, first.Bath.Interior-p.metal(first, s.metal)-p.swept(l)/(GoodGapRatio-1))
		most = p.withinLimits(l, s, most, true, planned)
	}
	return most
}

// withinLimits is the most oil in the first leg, up to a volume, with which the gas of a
// leg, filled to its level or by volume and so many deviations off, is within the limits.
func (p *planner) withinLimits(l ConvertedLeg, s part, most units.Volume, byLevel bool, off float64) units.Volume {
	return units.Volume(nearest(0, float64(most), func(volume float64) float64 {
		return p.worstGas(l, s, units.Volume(volume), byLevel, off).beyond()
	}))
}

// worstGas is that of a leg once warm, so many standard deviations of what is known off.
func (p *planner) worstGas(l ConvertedLeg, s part, volume units.Volume, byLevel bool, off float64) Gas {
	left := p.gasLeft(l, s.metal, volume) - units.Volume(off)*p.gasSpread(l, byLevel)
	return p.gasAt(l, p.oilIn(l, s.metal, volume), left, p.warm)
}

// build is what a converted leg gets with that much oil in the first one.
func (p *planner) build(l ConvertedLeg, s part, preload units.Length, volume units.Volume) LegBuild {
	own, left := p.oilIn(l, s.metal, volume), p.gasLeft(l, s.metal, volume)
	b := LegBuild{Side: l.Side, Spacer: l.Room.Spacer(s.free, preload), OilVolume: own,
		Cold:  p.gasAt(l, own, left, p.Workshop.Temperature),
		Warm:  p.gasAt(l, own, left, p.warm),
		Worst: p.worstGas(l, s, volume, p.byLevel(), percentile97),
	}
	inner := l.Bath.Interior - p.metal(l, s.metal)
	b.OilMost = p.oilIn(l, s.metal, p.withinLimits(l, s, volume+inner-own, false, percentile97))
	if fill, err := p.fill(l, s.metal, own); err == nil && p.column(l) != 0 {
		level, least := fill.Level(), fill.LevelOf(p.oilIn(l, s.metal, p.withinLimits(l, s, volume+inner-own, true,
			percentile97)))
		b.OilLevel, b.LevelLeast = &level, &least
	}
	return b
}

// warmed is the converted fork once oil and gas are as warm as the job says: the oil has
// swollen into the gas that was closed in, and the springs have softened. The oil of a leg
// that is not converted is not counted.
func (p *planner) warmed(s part, preload units.Length, volume units.Volume) (*setup.Setup, error) {
	factor := 1.0
	if s.wire != nil {
		m := s.wire.Material()
		factor = m.ModulusFactor(p.warm) / m.ModulusFactor(p.Workshop.Temperature)
	}
	spec := p.fork(s.metal, volume, s.softened(preload, factor))
	for _, l := range p.Legs {
		gap := legOf(&spec, l.Side).Gap
		own := p.oilIn(l, s.metal, volume)
		closed := gap.Residual + p.swept(l)
		gap.Residual = max(gap.Residual-(p.Oil.Expand(own, p.Workshop.Temperature, p.warm)-own), -p.swept(l)*19/20,
			-1*units.Liter)
		rise := float64(closed/(gap.Residual+p.swept(l))) - 1
		gap.Gauge = units.Gauge(units.Pressure(p.Workshop.Pressure.In(units.Pascal) * rise))
	}
	set, err := setup.New(spec)
	if err != nil {
		return nil, err
	}
	here := p.Workshop
	here.Temperature = p.warm
	return set.At(here)
}
