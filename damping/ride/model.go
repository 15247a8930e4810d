package ride

import (
	"math"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// model is a vehicle in plain SI numbers. Heights are up from where the extended fork
// stands on a tire without load on level ground; the fork axis leans by the rake, so that
// x of travel lowers the body by x·cos ε.
//
// Its state is
//
//	body, its speed; wheel, its speed; rear of the body, its speed     m, m/s
//	temperatures of the gas, of the legs                               K
//	damper, friction, tire, gas and rear losses, road and brake work   J
type model struct {
	sprung, unsprung, cos, sin float64
	tire, tireDamping          float64
	topOut, bottom, stroke     float64      // N/m, N/m, m
	springs                    spring.Curve // nil: none
	damper                     damping.Damper
	friction                   float64 // N
	ambient, air               float64 // Pa, K around
	tau                        float64 // s
	capacity, loss             float64 // J/K, W/K of the legs; capacity +Inf: they keep their temperature
	rear                       rear

	now parts // of the moment evaluated last

	groups []group
	start  []float64 // temperatures of the gas at the start
	sag    float64   // travel at rest
}

// rear is the other end of the body; without one its mass is 0.
type rear struct {
	stiffness, damping float64
	lever              float64    // height of the center of gravity over the wheelbase
	inverse            [3]float64 // of the mass matrix at both ends: front, across, rear, 1/kg
	load               float64    // weight there, N
}

// indices in the state
const (
	body = iota
	bodySpeed
	wheel
	wheelSpeed
	rearEnd
	rearSpeed
	temperatures
)

// indices after the temperatures of the gas and of the legs
const (
	inDamper = iota
	inFriction
	inTire
	inGas
	inRear
	byRoad
	byBrake
	accounts
)

const gravity = float64(units.StandardGravity)

func (m *model) size() int { return temperatures + len(m.start) + 1 + accounts }

func (m *model) legs() int { return temperatures + len(m.start) }

// travel of the fork and its speed.
func (m *model) travel(y []float64) (x, v float64) {
	return (y[wheel] - y[body]) / m.cos, (y[wheelSpeed] - y[bodySpeed]) / m.cos
}

// parts is everything that acts at one moment.
type parts struct {
	x, v           float64 // travel and its speed
	still, damper  float64 // axial force of springs, gas and stops; of the damper
	tire, tireLoss float64 // N, W
	heat           float64 // of the gas into its walls, W
	rear, rearLoss float64
	road           excitation
}

// evaluate fills in what acts at a moment but friction, and the rates of the temperatures.
// It stands until the next evaluation.
func (m *model) evaluate(road excitation, y, d []float64) *parts {
	p := &m.now
	p.road = road
	p.x, p.v = m.travel(y)
	x := min(max(p.x, 0), m.stroke)
	p.still, p.heat = 0, 0
	if m.springs != nil {
		p.still = float64(m.springs.Force(units.Length(x)))
	}
	wall := y[m.legs()]
	for i := range m.groups {
		g := &m.groups[i]
		at := temperatures + g.first
		end := at + len(g.cells)
		force, heat := g.force(p.x, p.v, m.ambient, wall, m.tau, y[at:end], d[at:end])
		p.still += force
		p.heat += heat
	}
	p.still += m.stops(p.x)
	if m.damper != nil {
		p.damper = float64(m.damper.Force(units.Speed(p.v)))
	}
	sink, sinking := road.height-y[wheel], road.speed-y[wheelSpeed]
	p.tire, p.tireLoss = 0, 0
	if sink > 0 {
		p.tire = max(0, m.tire*sink+m.tireDamping*sinking)
		p.tireLoss = (p.tire - m.tire*sink) * sinking
	}
	if m.rear.stiffness != 0 {
		p.rear = -m.rear.stiffness*y[rearEnd] - m.rear.damping*y[rearSpeed] + m.rear.load
		p.rearLoss = m.rear.damping * y[rearSpeed] * y[rearSpeed]
	}
	return p
}

// stops is the force of the stop springs, beyond either end of the stroke.
func (m *model) stops(x float64) float64 {
	switch {
	case x < 0:
		return m.topOut * x
	case x > m.stroke:
		return m.bottom * (x - m.stroke)
	}
	return 0
}

// stiction is the friction that would keep the fork from moving along its axis: with it both
// ends have one acceleration.
func (m *model) stiction(p *parts) float64 {
	free := m.accelerations(p, 0)
	// How the difference of the accelerations follows from an axial force.
	unit := -(m.bodyMobility() + 1/m.unsprung) / m.cos
	return -(free.wheel - free.body) / unit
}

func (m *model) bodyMobility() float64 {
	if m.rear.stiffness != 0 {
		return m.rear.inverse[0]
	}
	return 1 / m.sprung
}

type accelerations struct{ body, wheel, rear float64 }

// accelerations under what acts and an axial friction that resists compression.
func (m *model) accelerations(p *parts, friction float64) accelerations {
	axial := p.still + p.damper + friction
	brake := p.road.brake
	lift := (axial - brake*m.sin) / m.cos // what the fork carries of the body
	a := accelerations{wheel: (p.tire-lift)/m.unsprung - gravity}
	// Braking presses the front down and lifts the rear: the pair of forces brake·h.
	front := lift - m.sprung*gravity - brake*m.rear.lever
	if m.rear.stiffness == 0 {
		a.body = front / m.sprung
		return a
	}
	back := p.rear - m.rear.load + brake*m.rear.lever
	a.body = m.rear.inverse[0]*front + m.rear.inverse[1]*back
	a.rear = m.rear.inverse[1]*front + m.rear.inverse[2]*back
	return a
}

// stored energy of a state, J.
func (m *model) stored(road excitation, y []float64) float64 {
	x, _ := m.travel(y)
	e := 0.5*m.unsprung*square(y[wheelSpeed]) + gravity*m.unsprung*y[wheel]
	if m.rear.stiffness == 0 {
		e += 0.5*m.sprung*square(y[bodySpeed]) + gravity*m.sprung*y[body]
	} else {
		i := m.rear.inverse
		det := i[0]*i[2] - i[1]*i[1]
		f, r := y[bodySpeed], y[rearSpeed]
		e += 0.5 * (i[2]*f*f - 2*i[1]*f*r + i[0]*r*r) / det
		e += gravity*m.sprung*y[body] + 0.5*m.rear.stiffness*square(y[rearEnd])
	}
	if m.springs != nil {
		e += float64(m.springs.Energy(units.Length(min(max(x, 0), m.stroke))))
		e += float64(m.springs.Force(units.Length(min(max(x, 0), m.stroke)))) * (x - min(max(x, 0), m.stroke))
	}
	switch {
	case x < 0:
		e += 0.5 * m.topOut * x * x
	case x > m.stroke:
		e += 0.5 * m.bottom * square(x-m.stroke)
	}
	for i := range m.groups {
		g := &m.groups[i]
		at := temperatures + g.first
		e += g.energy(x, m.ambient, y[at:at+len(g.cells)])
	}
	if sink := road.height - y[wheel]; sink > 0 {
		e += 0.5 * m.tire * sink * sink
	}
	return e
}

func square(x float64) float64 { return x * x }

// rest is the model at rest on level ground with the fork at a travel: the body above
// the wheel above the tire.
func (m *model) rest() []float64 {
	y := make([]float64, m.size())
	load := (m.sprung + m.unsprung) * gravity
	y[wheel] = -load / m.tire
	y[body] = y[wheel] - m.sag*m.cos
	copy(y[temperatures:], m.start)
	y[m.legs()] = m.air
	return y
}

// derivative is that of the state while the fork moves against friction in one
// direction, sign +1 in compression; stick, with both ends moving as one.
func (m *model) derivative(road func(t float64) excitation, mode *mode) func(t float64, y, d []float64) {
	return func(t float64, y, d []float64) {
		p := m.evaluate(road(t), y, d)
		friction := m.friction * float64(*mode)
		if *mode == stuck {
			friction = m.stiction(p)
		}
		a := m.accelerations(p, friction)
		d[body], d[bodySpeed] = y[bodySpeed], a.body
		d[wheel], d[wheelSpeed] = y[wheelSpeed], a.wheel
		d[rearEnd], d[rearSpeed] = y[rearSpeed], a.rear
		work := d[m.legs()+1:]
		work[inDamper] = p.damper * p.v
		work[inFriction] = friction * p.v
		work[inTire] = p.tireLoss
		work[inGas] = p.heat
		work[inRear] = p.rearLoss
		work[byRoad] = p.tire * p.road.speed
		work[byBrake] = m.brakeWork(p, y)
		d[m.legs()] = 0
		if !math.IsInf(m.capacity, 1) {
			d[m.legs()] = (work[inDamper] + work[inFriction] + p.heat - m.loss*(y[m.legs()]-m.air)) / m.capacity
		}
	}
}

// brakeWork is what braking does on the front as it sinks and, with a rear, as that rises.
func (m *model) brakeWork(p *parts, y []float64) float64 {
	b := p.road.brake
	if b == 0 {
		return 0
	}
	return b*m.sin*p.v + b*m.rear.lever*(y[rearSpeed]-y[bodySpeed])
}

// mode of the friction.
type mode float64

const (
	compressing mode = 1
	extending   mode = -1
	stuck       mode = 0
)
