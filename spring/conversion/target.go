package conversion

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// targets are the rates that stand in for the present springs, by each criterion, beside what
// the converted fork has without its coils.
func (p *planner) targets(bare *setup.Setup) ([]Target, error) {
	still, ridden := bare.Curve(gas.Isothermal), bare.Curve(p.RideExponent)
	f, end := check.Of("Job"), p.depth(0.9)
	if !(ridden.Stroke() >= end) {
		f.Report("OilVolume.Aim", p.OilVolume.Aim, "oil that leaves the leg its travel",
			fmt.Sprintf("the leg locks on its oil at %.0f", ridden.Stroke()))
	}
	if p.now.Stroke < end {
		f.Report("Present", p.now.Stroke, fmt.Sprintf("a present fork that moves %.0f and more", end),
			"it binds or locks before; there is nothing to match")
	}
	if err := f.Err(); err != nil {
		return nil, err
	}
	rates := [...]units.Stiffness{SagForce: p.rateAt(still, p.goal), Energy: p.byEnergy(ridden),
		LeastSquares: p.byLeastSquares(ridden)}
	targets := make([]Target, len(rates))
	for i, k := range rates {
		if !(k > 0 && k < 1000*units.NewtonPerMillimeter) {
			f.Report("Present", k, "a present fork that a coil of positive rate can stand in for",
				"the gas over the oil alone does its work; check the pressure of the present fill and the oil")
			return nil, f.Err()
		}
		targets[i] = Target{Criterion: Criterion(i), Rate: k, Each: k / units.Stiffness(len(p.Legs))}
	}
	return targets, nil
}

// byEnergy matches the energy to 90 % of travel.
func (p *planner) byEnergy(rest spring.Curve) units.Stiffness {
	end := p.depth(0.9)
	return constantRate(p.now.Energy90-rest.Energy(end), end, p.Preload.Aim)
}

// byLeastSquares matches the forces from 10 % to 85 % of travel, evenly weighted.
func (p *planner) byLeastSquares(rest spring.Curve) units.Stiffness {
	now := p.now.Setup.Curve(p.RideExponent)
	return p.leastSquares(0, p.Preload.Aim, func(x units.Length) units.Force { return now.Force(x) - rest.Force(x) })
}

// constantRate is that of a coil that stores the energy from full extension, at that
// preload, to a travel.
func constantRate(e units.Energy, end, preload units.Length) units.Stiffness {
	return units.Stiffness(2 * float64(e) / float64((end+preload)*(end+preload)-preload*preload))
}

// leastSquares is the rate of the coil, at that preload, that comes nearest to a force from
// a start on, and 10 % of travel.
func (p *planner) leastSquares(start, preload units.Length, force func(units.Length) units.Force) units.Stiffness {
	const samples = 76 // one each percent
	var product, square float64
	for i := range samples {
		x := p.depth(0.10 + 0.75*units.Share(i)/(samples-1))
		if x < start {
			continue
		}
		s := float64(x + preload)
		product += float64(force(x)) * s
		square += s * s
	}
	return units.Stiffness(product / square)
}

// withoutCoils is what the converted fork has beside its coils: the gas over the aimed oil,
// dampers and top-out springs. The spring's own metal is the mean.
func (p *planner) withoutCoils() (*setup.Setup, error) {
	return setup.New(p.fork(p.meanMetal(), p.OilVolume.Aim))
}

// meanMetal is that of a spring, over the shelf.
func (p *planner) meanMetal() (metal units.Volume) {
	for _, s := range p.parts {
		metal += s.metal / units.Volume(len(p.parts))
	}
	return metal
}

// deviation is how far a rate is from the one asked for.
func deviation(k, target units.Stiffness) float64 { return float64(k/target) - 1 }

// distance of a relative error, the same for a rate too high and too low by one
// factor.
func distance(deviation float64) float64 { return math.Abs(math.Log1p(deviation)) }
