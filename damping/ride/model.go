package ride

import (
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
//	body, its speed; wheel, its speed; with a rear that of the body, its speed     m, m/s
//	temperatures of the gas, of legs that warm up                                  K
//	damper, friction, tire and gas losses, work of the road                        J
//	with a rear or a brake its work, and the losses there                          J
type model struct {
	sprung, unsprung, cos, sin     float64
	perSprung, perUnsprung, perCos float64 // 1 over them
	tire, tireDamping              float64
	topOut, bottom, stroke         float64      // N/m, N/m, m
	springs                        spring.Curve // nil: none
	damper                         damping.Damper
	friction                       float64 // N
	air                            float64 // its temperature, K
	around                         around  // of the gas, in the legs of the moment
	capacity, loss                 float64 // J/K, W/K of the legs; capacity 0: they keep their temperature
	rear                           *rear   // nil: the front moves by itself

	groups []group
	start  []float64 // temperatures of the gas at the start
	sag    float64   // travel at rest

	gas, legs, work, size int // in the state: where the temperatures and the energies begin, and its length

	contact contact // that holds until the next event
	now     parts   // of the moment evaluated last
}

// contact is what touches. It holds from one event to the next, so that the law of the
// motion has no kink in between.
type contact struct {
	pressed, grip  bool // the tire is pressed in; it pushes, its damping does not let it go
	topOut, bottom bool
}

// rear is the other end of the body.
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
)

// indices among the energies
const (
	inDamper = iota
	inFriction
	inTire
	inGas
	byRoad
	accounts // of a front by itself without a brake
)

const (
	byBrake = accounts + iota
	inRear
	allAccounts
)

const gravity = float64(units.StandardGravity)

// arrange lays out the state.
func (m *model) arrange(brake bool) {
	m.gas, m.size = rearEnd, accounts
	if m.rear != nil {
		m.gas = rearSpeed + 1
	}
	if m.rear != nil || brake {
		m.size = allAccounts
	}
	m.legs = m.gas + len(m.start)
	m.work = m.legs
	if m.capacity != 0 {
		m.work++
	}
	m.size += m.work
}

// wall is the temperature of the legs.
func (m *model) wall(y []float64) float64 {
	if m.capacity == 0 {
		return m.air
	}
	return y[m.legs]
}

// travel of the fork and its speed.
func (m *model) travel(y []float64) (x, v float64) {
	return (y[wheel] - y[body]) * m.perCos, (y[wheelSpeed] - y[bodySpeed]) * m.perCos
}

// touch takes up what touches in a state.
func (m *model) touch(road *excitation, y []float64) {
	x, v := m.travel(y)
	m.contact = contact{topOut: x < 0 || x == 0 && v < 0, bottom: x > m.stroke || x == m.stroke && v > 0}
	sink, sinking := road.height-y[wheel], road.speed-y[wheelSpeed]
	m.contact.pressed = sink > 0 || sink == 0 && sinking > 0
	m.contact.grip = m.contact.pressed && (sinking >= 0 || m.grip(sink, sinking) > 0)
}

// grip is above 0 while a tire pushes that is pressed in by sink, in m.
func (m *model) grip(sink, sinking float64) float64 {
	return min(sink, sink+m.tireDamping/m.tire*sinking)
}

// parts is everything that acts at one moment.
type parts struct {
	x, v           float64 // travel and its speed
	still, damper  float64 // axial force of springs, gas and stops; of the damper
	tire, tireLoss float64 // N, W
	heat           float64 // of the gas into its walls, W
	rear, rearLoss float64
	road           *excitation
}

// evaluate fills in what acts at a moment but friction, and the rates of the temperatures.
// It stands until the next evaluation.
func (m *model) evaluate(road *excitation, y, d []float64) *parts {
	x, v := m.travel(y)
	var still, heat float64
	if m.springs != nil {
		still = float64(m.springs.Force(units.Length(m.within(x))))
	}
	m.around.wall = m.wall(y)
	for i := range m.groups {
		g := &m.groups[i]
		at := m.gas + g.first
		var force, into float64
		if len(g.cells) == 1 { // most are
			force, into = g.cells[0].force(x, v, &m.around, y[at], &d[at])
		} else {
			force, into = g.force(x, v, &m.around, y[at:], d[at:])
		}
		still += force
		heat += into
	}
	switch {
	case m.contact.topOut:
		still += m.topOut * x
	case m.contact.bottom:
		still += m.bottom * (x - m.stroke)
	}
	p := &m.now
	p.road, p.x, p.v, p.still, p.heat = road, x, v, still, heat
	if m.damper != nil {
		p.damper = float64(m.damper.Force(units.Speed(v)))
	}
	p.tire, p.tireLoss = 0, 0
	if m.contact.pressed {
		sink, sinking := road.height-y[wheel], road.speed-y[wheelSpeed]
		if m.contact.grip {
			p.tire = m.tire*sink + m.tireDamping*sinking
		}
		p.tireLoss = (p.tire - m.tire*sink) * sinking
	}
	if r := m.rear; r != nil {
		p.rear = -r.stiffness*y[rearEnd] - r.damping*y[rearSpeed] + r.load
		p.rearLoss = r.damping * y[rearSpeed] * y[rearSpeed]
	}
	return p
}

// within is a travel within the stroke: beyond either end a spring keeps its force.
func (m *model) within(x float64) float64 {
	switch {
	case x < 0:
		return 0
	case x > m.stroke:
		return m.stroke
	}
	return x
}

// stiction is the friction that would keep the fork from moving along its axis: with it both
// ends have one acceleration.
func (m *model) stiction(p *parts) float64 {
	free := m.accelerations(p, 0)
	// How the difference of the accelerations follows from an axial force.
	unit := -(m.bodyMobility() + m.perUnsprung) * m.perCos
	return -(free.wheel - free.body) / unit
}

func (m *model) bodyMobility() float64 {
	if m.rear != nil {
		return m.rear.inverse[0]
	}
	return m.perSprung
}

type accelerations struct{ body, wheel, rear float64 }

// accelerations under what acts and an axial friction that resists compression.
func (m *model) accelerations(p *parts, friction float64) accelerations {
	axial := p.still + p.damper + friction
	lift := (axial - p.road.brake*m.sin) * m.perCos // what the fork carries of the body
	a := accelerations{body: lift*m.perSprung - gravity, wheel: (p.tire-lift)*m.perUnsprung - gravity}
	if m.rear != nil {
		a.body, a.rear = m.rear.pitch(lift-m.sprung*gravity, p)
	}
	return a
}

// pitch is how the front, under a force, and the rear of the body move. Braking presses
// the front down and lifts the rear: the pair of forces brake·h.
func (r *rear) pitch(lift float64, p *parts) (body, rear float64) {
	front, back := lift-p.road.brake*r.lever, p.rear-r.load+p.road.brake*r.lever
	return r.inverse[0]*front + r.inverse[1]*back, r.inverse[1]*front + r.inverse[2]*back
}

// stored energy of a state, J.
func (m *model) stored(road *excitation, y []float64) float64 {
	x, _ := m.travel(y)
	e := 0.5*m.unsprung*square(y[wheelSpeed]) + gravity*m.unsprung*y[wheel]
	if m.rear == nil {
		e += 0.5*m.sprung*square(y[bodySpeed]) + gravity*m.sprung*y[body]
	} else {
		i := m.rear.inverse
		det := i[0]*i[2] - i[1]*i[1]
		f, r := y[bodySpeed], y[rearSpeed]
		e += 0.5 * (i[2]*f*f - 2*i[1]*f*r + i[0]*r*r) / det
		e += gravity*m.sprung*y[body] + 0.5*m.rear.stiffness*square(y[rearEnd])
	}
	if m.springs != nil {
		within := m.within(x)
		e += float64(m.springs.Energy(units.Length(within)))
		e += float64(m.springs.Force(units.Length(within))) * (x - within)
	}
	switch {
	case x < 0:
		e += 0.5 * m.topOut * x * x
	case x > m.stroke:
		e += 0.5 * m.bottom * square(x-m.stroke)
	}
	for i := range m.groups {
		g := &m.groups[i]
		e += g.energy(x, m.around.pressure, m.temperatures(g, y))
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
	y := make([]float64, m.size)
	load := (m.sprung + m.unsprung) * gravity
	y[wheel] = -load / m.tire
	y[body] = y[wheel] - m.sag*m.cos
	copy(y[m.gas:], m.start)
	if m.capacity != 0 {
		y[m.legs] = m.air
	}
	return y
}

// temperatures of the gas of a group.
func (m *model) temperatures(g *group, y []float64) []float64 {
	return y[m.gas+g.first : m.gas+g.first+len(g.cells)]
}

// derivative is that of the state while the fork moves against friction in one
// direction, sign +1 in compression; stick, with both ends moving as one.
func (m *model) derivative(road *ground, mode *mode) func(t float64, y, d []float64) {
	return func(t float64, y, d []float64) {
		p := m.evaluate(road.at(t), y, d)
		friction := m.friction * float64(*mode)
		if *mode == stuck {
			friction = m.stiction(p)
		}
		a := m.accelerations(p, friction)
		d[body], d[bodySpeed] = y[bodySpeed], a.body
		d[wheel], d[wheelSpeed] = y[wheelSpeed], a.wheel
		work := d[m.work:]
		work[inDamper] = p.damper * p.v
		work[inFriction] = friction * p.v
		work[inTire] = p.tireLoss
		work[inGas] = p.heat
		work[byRoad] = p.tire * p.road.speed
		if len(work) == allAccounts {
			work[byBrake], work[inRear] = p.road.brake*m.sin*p.v, p.rearLoss
		}
		if m.rear != nil {
			d[rearEnd], d[rearSpeed] = y[rearSpeed], a.rear
			work[byBrake] += p.road.brake * m.rear.lever * (y[rearSpeed] - y[bodySpeed])
		}
		if m.capacity != 0 {
			d[m.legs] = (work[inDamper] + work[inFriction] + p.heat - m.loss*(y[m.legs]-m.air)) / m.capacity
		}
	}
}

// mode of the friction.
type mode float64

const (
	compressing mode = 1
	extending   mode = -1
	stuck       mode = 0
)
