package ride

import (
	"example.org/forkcurve/spring/setup"
)

const molarGas = 8.31446261815324 // R, J/(mol·K)

// Heat capacities of a gas of diatomic molecules over R: γ = 1.4.
const (
	atVolume   = 2.5
	atPressure = atVolume + 1
)

// cell is one gas space in motion. Its temperature is a state of the run.
type cell struct {
	area, volume float64 // m², m³ at full extension
	length       float64 // volume over area, m
	amount       float64 // N·R, J/K
	joint        joint
	port         float64 // m; of a negative chamber
}

// joint says how a cell is joined to the main one, the last before it that is alone.
type joint int

const (
	alone    joint = iota // a negative chamber with a valve of its own too
	apart                 // a linked volume, cut off while the fork moves
	piston                // behind a floating piston
	throttle              // a negative chamber, open to the main one up to its port
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
		c := cell{area: float64(s.Area), volume: float64(s.Gas.Volume), amount: molarGas * float64(settled[i].Gas.Amount()),
			port: float64(s.Port)}
		c.length = c.volume / c.area
		switch {
		case s.Chamber == setup.Linked:
			c.joint = apart
		case s.Chamber == setup.Second:
			c.joint = piston
		case s.Chamber == setup.Negative && !s.Valve:
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

// around is what the gas has about it: air of a pressure, Pa, and walls of a temperature, K,
// which it takes on at a rate, 1/s.
type around struct{ pressure, wall, perTau float64 }

// force of a cell by itself at x and a temperature t, whose rate of change it fills in for a
// speed v. Heat is what the walls take up, in W.
func (c *cell) force(x, v float64, a *around, t float64, dt *float64) (force, heat float64) {
	perLength := 1 / (c.length - x)
	flow := (t - a.wall) * a.perTau
	*dt = t*v*perLength*(1/atVolume) - flow
	return c.amount*t*perLength - c.area*a.pressure, atVolume * c.amount * flow
}

// force of the group, as that of a cell.
func (g *group) force(x, v float64, a *around, t, dt []float64) (force, heat float64) {
	joined := 0 // the cell that is one with the main one
	switch {
	case g.open:
		joined = g.negative
	case g.second > 0 && g.lead(x, t) > 0:
		joined = g.second
	}
	for i := range g.cells {
		f, h := g.cells[i].force(x, v, a, t[i], &dt[i])
		heat += h
		if joined == 0 || i != 0 && i != joined {
			force += f
		}
	}
	switch {
	case joined == 0:
	case g.open:
		force += g.mixed(x, v, a, t, dt)
	default:
		force += g.paired(x, v, a, t, dt)
	}
	return force, heat
}

// mixed is the force of a main and a negative cell that the port makes one.
func (g *group) mixed(x, v float64, a *around, t, dt []float64) float64 {
	main, other := &g.cells[0], &g.cells[g.negative]
	area, perVolume := main.area+other.area, 1/(main.at(x)+other.at(x))
	warming := area * v * perVolume * (1 / atVolume)
	for _, i := range [...]int{0, g.negative} {
		dt[i] = t[i]*warming - (t[i]-a.wall)*a.perTau
	}
	return area * ((main.amount*t[0]+other.amount*t[g.negative])*perVolume - a.pressure)
}

// lead is by how much the pressure of the main cell is above that behind a floating piston on
// its stop, times both volumes. Above 0 the piston has left it.
func (g *group) lead(x float64, t []float64) float64 {
	main, second := &g.cells[0], &g.cells[g.second]
	return main.amount*t[0]*second.volume - second.amount*t[g.second]*main.at(x)
}

// paired is the force of both cells beside a floating piston off its stop. They share
// one pressure, and each takes up its own heat q_i:
//
//	ṗ = −γ·(p/V)·(V̇ − R/(p·cp)·Σq)        Ṫ_i = (q_i + V_i·ṗ)/(N_i·cp)
func (g *group) paired(x, v float64, a *around, t, dt []float64) float64 {
	main, second := &g.cells[0], &g.cells[g.second]
	volume := main.at(x) + second.volume
	p := (main.amount*t[0] + second.amount*t[g.second]) / volume
	q1 := -main.amount * atVolume * (t[0] - a.wall) * a.perTau
	q2 := -second.amount * atVolume * (t[g.second] - a.wall) * a.perTau
	rise := (atPressure / atVolume) * p / volume * (main.area*v + (q1+q2)/(p*atPressure))
	dt[0] = (q1 + main.amount*t[0]/p*rise) / (main.amount * atPressure)
	dt[g.second] = (q2 + second.amount*t[g.second]/p*rise) / (second.amount * atPressure)
	return main.area * (p - a.pressure)
}

// energy is the internal energy of the gas and the work done on the ambient since full
// extension.
func (g *group) energy(x, ambient float64, t []float64) float64 {
	var e float64
	for i := range g.cells {
		c := &g.cells[i]
		e += c.amount*atVolume*t[i] - ambient*c.area*x
	}
	return e
}

// openPort lets main and negative cell mix at x without heat from the walls.
func (g *group) openPort(t []float64) {
	main, other := &g.cells[0], &g.cells[g.negative]
	mixed := (main.amount*t[0] + other.amount*t[g.negative]) / (main.amount + other.amount)
	t[0], t[g.negative] = mixed, mixed
	g.open = true
}

// closePort leaves each its share of the gas.
func (g *group) closePort(x float64) {
	main, other := &g.cells[0], &g.cells[g.negative]
	all, volume := main.amount+other.amount, main.at(x)+other.at(x)
	main.amount, other.amount = all*main.at(x)/volume, all*other.at(x)/volume
	g.open = false
}
