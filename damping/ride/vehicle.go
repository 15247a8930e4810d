package ride

import (
	"math"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Spec is the front of a machine on its fork and tire.
type Spec struct {
	Fork   *setup.Setup   // its springs, its gas and its friction
	Damper damping.Damper // of both legs along the fork axis; nil: none

	Sprung   units.Mass  // that the fork carries, 0.5 kg to 500 kg
	Unsprung units.Mass  // wheel, brake and sliding tubes, 0.2 kg to 100 kg
	Rake     units.Angle // of the fork axis from the vertical, 0° to 45°
	Tire     Tire        // of this wheel
	Stops    Stops       // at both ends of the travel
	Rear     *Rear       // nil: the front moves by itself

	Exchange gas.Exchange // between each gas space and its wall, 10 ms to 1 h; zero: UsualExchange
	Legs     Legs         // that warm up
}

// Tire is a spring with a little damping that pushes and never pulls.
type Tire struct {
	Stiffness units.Stiffness   // 5 N/mm to 2000 N/mm
	Damping   units.DampingRate // 0 to 20 000 N·s/m
}

// Stops end the travel: beyond full extension and beyond the stroke a linear spring
// goes on. Zero: DefaultTopOut and DefaultBottom.
type Stops struct {
	TopOut, Bottom units.Stiffness // 10 N/mm to 20 kN/mm
}

// Stops of rubber and metal as forks have them (from memory, to a factor of two).
const (
	DefaultTopOut = 300 * units.NewtonPerMillimeter
	DefaultBottom = 1000 * units.NewtonPerMillimeter
)

// UsualExchange is the time constant of a fork's gas beside its wall, by
// [gas.EstimateExchange] some 2 s to 6 s, to ±50 %.
const UsualExchange = 3 * units.Second

// Legs are what the fork's heat goes into, one lump with its oil. Zero: they stay at the
// temperature of the air.
type Legs struct {
	Mass units.Mass               // of oil and tubes, 0.1 kg to 20 kg
	Heat units.SpecificHeat       // their mean, 400 J/(kg·K) to 3000 J/(kg·K)
	Loss units.ThermalConductance // to the air, 0 to 50 W/K
}

// Rear is the rest of the body, with the rear suspension as a spring on the ground.
type Rear struct {
	Wheelbase       units.Length      // 500 mm to 2500 mm
	Sprung          units.Mass        // that the rear carries, 0.5 kg to 500 kg
	Gyration        units.Length      // radius of gyration of the whole body in pitch, 150 mm to 1500 mm
	Stiffness       units.Stiffness   // vertical at the rear axle, 1 N/mm to 500 N/mm
	Damping         units.DampingRate // 0 to 20 000 N·s/m
	CenterOfGravity units.Length      // height over the ground, 200 mm to 1500 mm
}

// Sag is the travel at rest, in the middle of the friction band.
func (v *Vehicle) Sag() units.Length { return v.sag }

// Of is the front of a machine with its rider on the given fork: masses and rake by the
// chassis, a tire of TypicalTire.
func Of(fork *setup.Setup, c geometry.Chassis, rider units.Mass, damper damping.Damper) Spec {
	load := c.RiddenLoad(rider)
	const g = float64(units.StandardGravity)
	return Spec{Fork: fork, Damper: damper, Sprung: units.Mass(float64(load.Sprung) / g), Unsprung: c.UnsprungMass,
		Rake: c.Rake,
		Tire: TypicalTire(load.Wheel)}
}

// TypicalRear is the rest of the machine with its rider: a body frequency of 2 Hz and a
// damping ratio of 0.3 at the rear, a radius of gyration that leaves both ends to
// themselves (from memory: it is near that).
func TypicalRear(c geometry.Chassis, rider units.Mass) *Rear {
	front := Of(nil, c, rider, nil).Sprung
	rear := c.Mass + rider - front - c.UnsprungMass
	omega := 2 * math.Pi * 2.0
	share := float64(front / (front + rear))
	return &Rear{Wheelbase: c.Wheelbase, Sprung: rear, Gyration: c.Wheelbase * units.Length(math.Sqrt(share*(1-share))),
		Stiffness: units.Stiffness(float64(rear) * omega * omega), Damping: units.DampingRate(0.6 * float64(rear) * omega),
		CenterOfGravity: c.CenterOfGravity}
}

// TypicalTire sinks by 15 mm under its load at rest and has a damping ratio of some 5 %
// under the wheel (from memory).
func TypicalTire(load units.Force) Tire {
	k := units.Stiffness(float64(load) / 0.015)
	return Tire{Stiffness: k, Damping: units.DampingRate(0.0008 * float64(k))}
}

// Vehicle is a specification that has been checked. It is immutable and safe for
// concurrent use.
type Vehicle struct {
	spec Spec
	sag  units.Length // at rest, without friction
}

// New checks the specification, and that the fork carries the sprung mass.
func New(s Spec) (*Vehicle, error) {
	f := check.Of("Spec")
	if s.Fork == nil {
		f.Report("Fork", "none", "a fork", "")
	}
	sprung := check.Between(f, "Sprung", s.Sprung, 0.5*units.Kilogram, 500*units.Kilogram)
	check.Between(f, "Unsprung", s.Unsprung, 0.2*units.Kilogram, 100*units.Kilogram)
	rake := check.Between(f, "Rake", s.Rake, 0, 45*units.Degree)
	check.Between(f, "Tire.Stiffness", s.Tire.Stiffness, 5*units.NewtonPerMillimeter, 2000*units.NewtonPerMillimeter)
	check.Between(f, "Tire.Damping", s.Tire.Damping, 0, 20_000)
	stop := func(field string, k *units.Stiffness, usual units.Stiffness) {
		if *k == 0 {
			*k = usual
		}
		check.Between(f, field, *k, 10*units.NewtonPerMillimeter, 20_000*units.NewtonPerMillimeter)
	}
	stop("Stops.TopOut", &s.Stops.TopOut, DefaultTopOut)
	stop("Stops.Bottom", &s.Stops.Bottom, DefaultBottom)
	if s.Exchange.TimeConstant == 0 {
		s.Exchange.TimeConstant = UsualExchange
	}
	check.Between(f, "Exchange.TimeConstant", s.Exchange.TimeConstant, 0.01*units.Second, units.Hour)
	if s.Legs != (Legs{}) {
		check.Between(f, "Legs.Mass", s.Legs.Mass, 0.1*units.Kilogram, 20*units.Kilogram)
		check.Between(f, "Legs.Heat", s.Legs.Heat, 400, 3000)
		check.Between(f, "Legs.Loss", s.Legs.Loss, 0, 50)
	}
	if r := s.Rear; r != nil {
		check.Between(f, "Rear.Wheelbase", r.Wheelbase, 500*units.Millimeter, 2500*units.Millimeter)
		check.Between(f, "Rear.Sprung", r.Sprung, 0.5*units.Kilogram, 500*units.Kilogram)
		check.Between(f, "Rear.Gyration", r.Gyration, 150*units.Millimeter, 1500*units.Millimeter)
		check.Between(f, "Rear.Stiffness", r.Stiffness, 1*units.NewtonPerMillimeter, 500*units.NewtonPerMillimeter)
		check.Between(f, "Rear.Damping", r.Damping, 0, 20_000)
		check.Between(f, "Rear.CenterOfGravity", r.CenterOfGravity, 200*units.Millimeter, 1500*units.Millimeter)
	}
	var sag setup.Sag
	if s.Fork != nil && sprung && rake {
		var err error
		if sag, err = s.Fork.Sag(units.Force(float64(s.Sprung) * gravity * math.Cos(float64(s.Rake)))); err != nil {
			f.Report("Sprung", s.Sprung, "a mass that the fork carries", err.Error())
		}
	}
	if err := f.Err(); err != nil {
		return nil, err
	}
	return &Vehicle{spec: s, sag: sag.Middle}, nil
}

// model of the vehicle, with its gas settled at rest at a travel, for a course with a brake or
// without.
func (v *Vehicle) model(settled units.Length, brake bool) (*model, error) {
	s := v.spec
	extended, err := s.Fork.Spaces(0, gas.Isothermal)
	if err != nil {
		return nil, err
	}
	there, err := s.Fork.Spaces(settled, gas.Isothermal)
	if err != nil {
		return nil, err
	}
	sin, cos := math.Sincos(float64(s.Rake))
	m := &model{
		sprung: float64(s.Sprung), unsprung: float64(s.Unsprung), sin: sin, cos: cos,
		perSprung: 1 / float64(s.Sprung), perUnsprung: 1 / float64(s.Unsprung), perCos: 1 / cos,
		tire: float64(s.Tire.Stiffness), tireDamping: float64(s.Tire.Damping),
		topOut: float64(s.Stops.TopOut), bottom: float64(s.Stops.Bottom),
		stroke: float64(s.Fork.Curve(gas.Isothermal).Stroke()),
		damper: s.Damper, friction: float64(s.Fork.Friction()),
		air:      s.Fork.Ambient().Temperature.Kelvin(),
		around:   around{pressure: s.Fork.Ambient().Pressure.In(units.Pascal), perTau: 1 / float64(s.Exchange.TimeConstant)},
		capacity: float64(s.Legs.Mass) * float64(s.Legs.Heat), loss: float64(s.Legs.Loss), sag: float64(settled),
	}
	if c, ok := s.Fork.Springs(); ok {
		m.springs = c
	}
	if s.Rear != nil {
		m.rear = s.Rear.ends(m.sprung)
	}
	m.groups, m.start = groupsOf(extended, there)
	m.arrange(brake)
	return m, nil
}

// ends is the body as masses at both ends that pitch couples.
func (r *Rear) ends(front float64) *rear {
	back, w, gyration := float64(r.Sprung), float64(r.Wheelbase), float64(r.Gyration)
	all := front + back
	toFront, toRear := back/all*w, front/all*w // from the center of gravity
	f, x, b := all*(square(toRear)+square(gyration))/square(w), all*(toFront*toRear-square(gyration))/square(w),
		all*(square(toFront)+square(gyration))/square(w)
	det := f*b - x*x
	return &rear{stiffness: float64(r.Stiffness), damping: float64(r.Damping), lever: float64(r.CenterOfGravity) / w,
		inverse: [3]float64{b / det, -x / det, f / det}, load: back * gravity}
}

// WithDamper is the vehicle with another damper.
func (v *Vehicle) WithDamper(d damping.Damper) *Vehicle {
	other := *v
	other.spec.Damper = d
	return &other
}

// Spec is what the vehicle was made of, defaults filled in.
func (v *Vehicle) Spec() Spec { return v.spec }
