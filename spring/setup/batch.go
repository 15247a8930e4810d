package setup

import (
	"math"

	"example.org/forkcurve/internal/propagate"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// batch asks many forks within their tolerances at once: coils, each a straight line, chambers, each with
// its own gas, and curves that do not change. A sample that is more than that, as one whose spring binds,
// goes to the model that builds its fork, which is what all of them would come to.
type batch struct {
	one    propagate.Model
	sample []float64 // for one

	inputs []input
	ask    Question
	travel float64
	here   gas.Ambient
	guess  float64 // the sag of the fork itself
	area   float64 // of all pistons

	coils []line
	still []spring.Curve // springs without errors
	gases []sealed

	load, exponent, temperature, pressure column // of the question
	rate, start                           column // of all coils: sum of rates, force at travel 0 less load and ambient
	taut                                  column // travel from which no coil is loose
	x, away, force, slope                 column
}

// column is a number of every sample of a batch.
type column []float64

// line is a coil while it is neither loose nor bound.
type line struct {
	leg                 int
	spec                spring.CoilSpec
	rate, preload, room column // room left to bind at the end of the travel
}

// sealed is a chamber with its gas extended: of p and v, the force is A·(p·v/(v − A·x) − p_a).
type sealed struct {
	space
	leg             int
	warmer          float64 // temperature of the closed fork over that of the filling
	solid           float64 // what takes up room in it, m³
	main            int     // the chamber that sets its pressure through the port; −1: none
	p, v            column
	weight, inverse column // A·p and A/v
}

// newBatch is nil where the fork has chambers that share their gas, or springs that errors bend.
func newBatch(known *Setup, one propagate.Model, inputs []input, q Question, t Tolerance) *batch {
	b := &batch{one: one, inputs: inputs, ask: q, sample: make([]float64, len(inputs)),
		travel: float64(known.spec.Travel), here: known.ambient}
	for i, l := range known.spec.legs() {
		for _, s := range l.Springs {
			if coil, ok := s.(spring.CoilSpec); ok {
				b.coils = append(b.coils, line{leg: i, spec: coil})
				continue
			}
			if _, main := s.(spring.Adjustable); main && (t.Rate != 0 || t.Preload != 0 || t.FreeLength != 0) {
				return nil
			}
			c, err := s.Curve(known.spec.Travel)
			if err != nil || c.Stroke() < known.spec.Travel {
				return nil
			}
			b.still = append(b.still, c)
		}
		for g := range groups(known.legs[i]) {
			main := len(b.gases)
			for _, s := range g {
				if s.joint != alone && s.joint != byPort {
					return nil
				}
				c := sealed{space: s, leg: i, warmer: 1, main: -1}
				if s.joint == byPort && !s.set {
					c.main = main
				}
				if s.part == airSpring {
					c.warmer = known.ambient.Temperature.Kelvin() / l.Air.Fill.Ambient.Temperature.Kelvin()
				}
				if s.chamber() == Positive {
					c.solid = float64(l.Air.Reducers)
				}
				b.gases, b.area = append(b.gases, c), b.area+float64(s.area)
			}
		}
	}
	sag, err := spring.Equilibrium(&known.rest, q.Load)
	if err != nil {
		return nil
	}
	b.guess = float64(sag)
	b.columns()
	return b
}

// columns makes room for the samples.
func (b *batch) columns() {
	list := []*column{&b.load, &b.exponent, &b.temperature, &b.pressure, &b.rate, &b.start, &b.taut, &b.x, &b.away,
		&b.force, &b.slope}
	for i := range b.coils {
		list = append(list, &b.coils[i].rate, &b.coils[i].preload, &b.coils[i].room)
	}
	for i := range b.gases {
		g := &b.gases[i]
		list = append(list, &g.p, &g.v, &g.weight, &g.inverse)
	}
	all := make(column, len(list)*propagate.Size)
	for i, c := range list {
		*c = all[i*propagate.Size : (i+1)*propagate.Size : (i+1)*propagate.Size]
	}
}

func (c column) fill(v float64) {
	for i := range c {
		c[i] = v
	}
}

func (c column) add(e []float64) {
	for i, e := range e {
		c[i] += e
	}
}

// evaluate fills in sag, energy and drift.
func (b *batch) evaluate(x, y [][]float64, ok []bool) {
	n := len(ok)
	b.reset()
	for i, in := range b.inputs {
		if in.u != 0 {
			in.many(b, x[i])
		}
	}
	b.prepare(ok)
	b.x.fill(b.guess)
	b.settle(b.x[:n])
	b.carry(n)
	copy(b.away, b.x)
	b.settle(b.away[:n])
	b.energy(y[1])
	for s := range ok {
		low, high := min(b.x[s], b.away[s]), max(b.x[s], b.away[s])
		ok[s] = ok[s] && low > b.taut[s] && high < b.travel && !math.IsNaN(y[1][s])
		if ok[s] {
			y[0][s], y[2][s] = b.x[s], b.away[s]-b.x[s]
			continue
		}
		for i := range x {
			b.sample[i] = x[i][s]
		}
		var one [3]float64
		ok[s] = b.one(b.sample, one[:])
		y[0][s], y[1][s], y[2][s] = one[0], one[1], one[2]
	}
}

// reset takes every sample to the fork itself.
func (b *batch) reset() {
	b.load.fill(float64(b.ask.Load))
	b.exponent.fill(b.ask.Exponent)
	b.temperature.fill(b.ask.There.Temperature.Kelvin())
	b.pressure.fill(b.ask.There.Pressure.In(units.Pascal))
	for i := range b.coils {
		c := &b.coils[i]
		c.rate.fill(float64(c.spec.Rate))
		c.preload.fill(float64(c.spec.Preload))
		c.room.fill(math.Inf(1))
		if c.spec.FreeLength != 0 || c.spec.SolidLength != 0 {
			c.room.fill(float64(c.spec.FreeLength-c.spec.SolidLength-c.spec.Preload) - b.travel)
		}
	}
	for i := range b.gases {
		g := &b.gases[i]
		g.p.fill(g.gas.Pressure.In(units.Pascal))
		g.v.fill(float64(g.gas.Volume))
	}
}

// prepare sums up what does not change with travel, and leaves to the model of one what is not within
// the limits here.
func (b *batch) prepare(ok []bool) {
	n := len(ok)
	rate, start := b.rate[:n], b.start[:n]
	outer := b.area * b.here.Pressure.In(units.Pascal)
	rate.fill(0)
	b.taut.fill(0)
	for s := range ok {
		ok[s] = b.exponent[s] >= gas.Isothermal && b.pressure[s] > 0 && b.temperature[s] > 0
		start[s] = -b.load[s] - outer
	}
	for i := range b.coils {
		c := &b.coils[i]
		ks, ps := c.rate[:n], c.preload[:n]
		for s, k := range ks {
			p := ps[s]
			rate[s] += k
			start[s] += k * p
			b.taut[s] = max(b.taut[s], -p)
			ok[s] = ok[s] && k > 0 && c.room[s] >= 0
		}
	}
	closed := b.here.Temperature.Kelvin()
	for i := range b.gases {
		g := &b.gases[i]
		area, limits := float64(g.area), parts[g.part]
		low, high, port := float64(limits.lowest), float64(limits.highest), float64(g.port)
		for s := range ok {
			v, p := g.v[s], g.p[s]
			if g.main >= 0 {
				m := &b.gases[g.main]
				p = m.p[s] * m.v[s] / (m.v[s] - float64(m.area)*port) * (v - area*port) / v
			}
			there := p * b.temperature[s] / closed
			g.weight[s], g.inverse[s], g.p[s] = area*p, area/v, p
			ok[s] = ok[s] && v > 0 && v < (v-area*b.travel)*oil.LockRatio && min(p, there) >= low && max(p, there) <= high
		}
	}
}

// carry takes the sums to the other place: another pressure outside, and gas of another temperature.
func (b *batch) carry(n int) {
	here, closed := b.here.Pressure.In(units.Pascal), b.here.Temperature.Kelvin()
	for s, p := range b.pressure[:n] {
		b.start[s] += b.area * (here - p)
	}
	for i := range b.gases {
		weight := b.gases[i].weight[:n]
		for s, t := range b.temperature[:n] {
			weight[s] *= t / closed
		}
	}
}

// settle takes x to where the forks rest, by Newton's method: all samples at once, until none moves.
// A sample that does not come to rest ends outside the stroke.
func (b *batch) settle(x []float64) {
	const most, still = 12, 1e-6 // m: then the next step is below 1e-11
	n := len(x)
	force, slope, start, rate := b.force[:n], b.slope[:n], b.start[:n], b.rate[:n]
	for turn := range most {
		for s := range force {
			force[s] = start[s] + rate[s]*x[s]
			slope[s] = rate[s]
		}
		for i := range b.gases {
			weight, inverse := b.gases[i].weight[:n], b.gases[i].inverse[:n]
			for s := range force {
				u := 1 / (1 - inverse[s]*x[s])
				w := weight[s] * u
				force[s] += w
				slope[s] += w * inverse[s] * u
			}
		}
		for _, c := range b.still {
			for s := range force {
				force[s] += float64(c.Force(units.Length(x[s])))
				slope[s] += float64(c.Rate(units.Length(x[s])))
			}
		}
		moved := 0.0
		for s := range force {
			step := force[s] / slope[s]
			x[s] -= step
			if far := math.Abs(step); far > moved {
				moved = far
			}
			if turn == most-1 && math.Abs(step) > still {
				x[s] = math.NaN()
			}
		}
		if moved < still {
			return
		}
	}
}

// energy from full extension to the end of the stroke.
func (b *batch) energy(y []float64) {
	x, n, here := b.travel, len(y), b.here.Pressure.In(units.Pascal)
	var fixed float64
	for _, c := range b.still {
		fixed += float64(c.Energy(units.Length(x)))
	}
	for s := range y {
		y[s] = fixed
	}
	for i := range b.coils {
		rate, preload := b.coils[i].rate[:n], b.coils[i].preload[:n]
		for s := range y {
			p := preload[s]
			y[s] += rate[s] * x * (x/2 + p)
			if p < 0 { // while it is loose
				y[s] += rate[s] * p * p / 2
			}
		}
	}
	for i := range b.gases {
		g := &b.gases[i]
		outer := here * float64(g.area) * x
		var known, log float64 // of the last sample: often that of all
		for s := range y {
			if u := 1 - g.inverse[s]*x; u != known {
				known, log = u, math.Log(u)
			}
			work := -log
			if m := b.exponent[s] - 1; m*log < -0.1 {
				work = (math.Exp(-m*log) - 1) / m
			} else if m > 0 {
				work = math.Expm1(-m*log) / m // small: without the digits that the difference loses
			}
			y[s] += g.p[s]*g.v[s]*work - outer
		}
	}
}

// of are the chambers of a leg with that name.
func (b *batch) of(leg int, c Chamber, change func(g *sealed)) {
	for i := range b.gases {
		if g := &b.gases[i]; g.leg == leg && g.chamber() == c {
			change(g)
		}
	}
}
