package conversion

import (
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Band is the rate asked for with what is not known of it: by which criterion it should match,
// whether a stroke begins at full extension or at the sag, how fast the gas gives up its heat,
// and how warm it is.
type Band struct {
	Asked  units.Stiffness `json:"asked"`  // the target of the job
	Least  units.Stiffness `json:"least"`  // that any choice asks for
	Most   units.Stiffness `json:"most"`   // that any choice asks for
	Rows   []BandRow       `json:"rows"`   // one for each choice
	Inside []string        `json:"inside"` // the coils of the shelf within
}

// BandRow is the rate of the whole fork that one choice asks for.
type BandRow struct {
	Criterion   Criterion         `json:"criterion"`   // that is met
	Start       units.Length      `json:"start"`       // of the stroke, from rest
	Exponent    float64           `json:"exponent"`    // of the ridden gas; 1 at rest
	Temperature units.Temperature `json:"temperature"` // of oil and gas
	Rate        units.Stiffness   `json:"rate"`        // of the whole fork
}

// exponentSpread is how far below the exponent of the job a slow stroke may lie. Above it is
// bounded by gas.Adiabatic, which a landing from the sag comes near to.
const exponentSpread = 0.1

// band tries every choice on the present fork and on the converted one without its coils.
func (p *planner) band(now, bare *setup.Setup, asked units.Stiffness) Band {
	b := Band{Asked: asked, Least: asked, Most: asked}
	exponents := []float64{max(LeastRideExponent, p.RideExponent-exponentSpread), p.RideExponent, gas.Adiabatic}
	for _, t := range []units.Temperature{p.Workshop.Temperature, p.warm} {
		air := gas.Ambient{Temperature: t, Pressure: p.Workshop.Pressure}
		present, err1 := now.At(air)
		rest, err2 := bare.At(air)
		if err1 != nil || err2 != nil {
			continue
		}
		sag := p.goal
		if p.TargetSag == 0 {
			if warm, err := present.Sag(p.rider.Axial); err == nil {
				sag = warm.Middle
			}
		}
		b.add(BandRow{SagForce, sag, gas.Isothermal, t, p.rateAt(rest.Curve(gas.Isothermal), sag)})
		for _, start := range []units.Length{0, sag} {
			for _, n := range exponents {
				then, without := present.CurveAbout(start, n), rest.CurveAbout(start, n)
				if spring.Err(then) != nil || spring.Err(without) != nil || min(then.Stroke(), without.Stroke()) < p.depth(0.9) {
					continue
				}
				b.add(BandRow{Energy, start, n, t, p.rateOver(then, without, start)})
				if n == p.RideExponent {
					b.add(BandRow{LeastSquares, start, n, t, p.leastSquares(start, p.Preload.Aim,
						func(x units.Length) units.Force { return then.Force(x) - without.Force(x) })})
				}
			}
		}
	}
	return b
}

// add takes a row in, if its rate is one.
func (b *Band) add(r BandRow) {
	if !(r.Rate > 0 && r.Rate < 1000*units.NewtonPerMillimeter) {
		return
	}
	b.Least, b.Most, b.Rows = min(b.Least, r.Rate), max(b.Most, r.Rate), append(b.Rows, r)
}

// inside are the coils of the shelf within the band.
func (p *planner) inside(b Band) (names []string) {
	for _, s := range p.parts {
		if each, err := p.equivalent(s, p.Preload.Aim); err == nil {
			if k := each * units.Stiffness(len(p.Legs)); k >= b.Least && k <= b.Most {
				names = append(names, s.Name)
			}
		}
	}
	return names
}

// rateAt matches the load at a sag, at rest.
func (p *planner) rateAt(rest spring.Curve, x units.Length) units.Stiffness {
	return units.Stiffness(float64(p.rider.Axial-rest.Force(x)) / float64(x+p.Preload.Aim))
}

// rateOver matches the energy from a start to 90 % of travel.
func (p *planner) rateOver(now, rest spring.Curve, start units.Length) units.Stiffness {
	end, preload := p.depth(0.9), p.Preload.Aim
	e := now.Energy(end) - now.Energy(start) - (rest.Energy(end) - rest.Energy(start))
	return units.Stiffness(2 * float64(e) / float64((end+preload)*(end+preload)-(start+preload)*(start+preload)))
}
