package ride

import (
	"example.org/forkcurve/spring/setup"
)

// Heat capacities of a gas of diatomic molecules, per mole, and R, in J/(mol·K).
const (
	molarGas    = 8.31446261815324
	molarHeat   = 2.5 * molarGas // at constant volume: γ = 1.4
	molarHeatCp = molarHeat + molarGas
)

// cell is one gas space in motion. Its temperature is a state of the run.
type cell struct {
	area, volume float64 // m², m³ at full extension
	moles        float64
	joint        joint
	port         float64 // m; of a negative chamber
}

// joint says how a cell is joined to the main one, the last before it that is alone.
type joint int

const (
	alone    joint = iota
	apart          // a linked volume, cut off while the fork moves
	piston         // behind a floating piston
	throttle       // a negative chamber, open to the main one up to its port
)

// group is a main cell and those joined to it.
type group struct {
	cells []cell
	first int // of its temperatures among those of the fork

	// indices in cells; 0: none
	second, negative int
	open             bool // the port is
}

// groupsOf is the gas of a fork that has settled at rest, by what it holds extended and
// there: a linked volume keeps the share it has then.
func groupsOf(extended, settled []setup.Space) (groups []group, temperatures []float64) {
	for i, s := range extended {
		c := cell{area: float64(s.Area), volume: float64(s.Gas.Volume), moles: float64(settled[i].Gas.Amount()),
			port: float64(s.Port)}
		switch s.Chamber {
		case setup.Linked:
			c.joint = apart
		case setup.Second:
			c.joint = piston
		case setup.Negative:
			c.joint = throttle
		default:
			groups = append(groups, group{first: len(temperatures)})
		}
		g := &groups[len(groups)-1]
		switch at := len(g.cells); c.joint {
		case piston:
			g.second = at
		case throttle:
			g.negative = at
		}
		g.cells = append(g.cells, c)
		temperatures = append(temperatures, s.Gas.Temperature.Kelvin())
	}
	return groups, temperatures
}

func (c *cell) at(x float64) float64 { return c.volume - c.area*x }

// force of the group at x in air of pressure ambient and temperatures t, whose rates of
// change dt it fills in for a speed v and walls at a temperature, with the time constant
// tau. Heat is what the walls take up, in W.
func (g *group) force(x, v, ambient, wall, tau float64, t, dt []float64) (force, heat float64) {
	for i := range g.cells {
		flow := (t[i] - wall) / tau
		dt[i] = -flow
		heat += g.cells[i].moles * molarHeat * flow
	}
	main := &g.cells[0]
	switch {
	case g.open:
		other := &g.cells[g.negative]
		area, volume := main.area+other.area, main.at(x)+other.at(x)
		pressure := molarGas * (main.moles*t[0] + other.moles*t[g.negative]) / volume
		force = area * (pressure - ambient)
		warming := (molarGas / molarHeat) * area * v / volume
		dt[0] += t[0] * warming
		dt[g.negative] += t[g.negative] * warming
	case g.second > 0 && g.moved(x, t):
		force = g.paired(x, v, ambient, t, dt)
	default:
		force = main.work(x, v, ambient, t[0], &dt[0])
	}
	if g.negative > 0 && !g.open {
		force += g.cells[g.negative].work(x, v, ambient, t[g.negative], &dt[g.negative])
	}
	return force, heat
}

// work is the force of a cell by itself, and what the motion adds to the rate of change
// of its temperature, −(γ−1)·T·V̇/V.
func (c *cell) work(x, v, ambient, t float64, dt *float64) float64 {
	volume := c.at(x)
	*dt += (molarGas / molarHeat) * t * c.area * v / volume
	return c.area * (c.moles*molarGas*t/volume - ambient)
}

// moved reports whether the main cell has driven the floating piston off its stop.
func (g *group) moved(x float64, t []float64) bool {
	main, second := &g.cells[0], &g.cells[g.second]
	return main.moles*t[0]*second.volume > second.moles*t[g.second]*main.at(x)
}

// paired is the force of both cells beside a floating piston off its stop. They share
// one pressure, and each takes up its own heat q_i:
//
//	ṗ = −γ·(p/V)·(V̇ − R/(p·cp)·Σq)        Ṫ_i = (q_i + V_i·ṗ)/(N_i·cp)
func (g *group) paired(x, v, ambient float64, t, dt []float64) float64 {
	main, second := &g.cells[0], &g.cells[g.second]
	volume := main.at(x) + second.volume
	p := molarGas * (main.moles*t[0] + second.moles*t[g.second]) / volume
	q1, q2 := main.moles*molarHeat*dt[0], second.moles*molarHeat*dt[g.second]
	rise := (molarHeatCp / molarHeat) * p / volume * (main.area*v + molarGas/(p*molarHeatCp)*(q1+q2))
	dt[0] = (q1 + main.moles*molarGas*t[0]/p*rise) / (main.moles * molarHeatCp)
	dt[g.second] = (q2 + second.moles*molarGas*t[g.second]/p*rise) / (second.moles * molarHeatCp)
	return main.area * (p - ambient)
}

// energy is the internal energy of the gas and the work done on the ambient since full
// extension.
func (g *group) energy(x, ambient float64, t []float64) float64 {
	var e float64
	for i := range g.cells {
		c := &g.cells[i]
		e += c.moles*molarHeat*t[i] - ambient*c.area*x
	}
	return e
}

// openPort lets main and negative cell mix at x without heat from the walls.
func (g *group) openPort(t []float64) {
	main, other := &g.cells[0], &g.cells[g.negative]
	mixed := (main.moles*t[0] + other.moles*t[g.negative]) / (main.moles + other.moles)
	t[0], t[g.negative] = mixed, mixed
	g.open = true
}

// closePort leaves each its share of the gas.
func (g *group) closePort(x float64) {
	main, other := &g.cells[0], &g.cells[g.negative]
	all, volume := main.moles+other.moles, main.at(x)+other.at(x)
	main.moles, other.moles = all*main.at(x)/volume, all*other.at(x)/volume
	g.open = false
}
