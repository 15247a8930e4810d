package bench

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Fork is what readings are about: a fork, the machine around it, the oil in its legs, and
// the gauge it is read with.
type Fork struct {
	Spec     setup.Spec       // of the fork, as far as it is known
	Chassis  geometry.Chassis // the machine around it
	Oil      [2]Oil           // left, right
	Gauge    units.Pressure   // that the pump gauge shows too much, with nothing on it
	Scale    units.Share      // that it shows too much, of what is on it
	Exponent float64          // of a bounce about sag, 1 to 5/3
	Damping  float64          // ratio of the bounce, 0 to 1
	Leak     units.Time       // time constant of the air spring; 0: not asked for

	springs   [2]adjusted // what was done to those of the specification
	corrected bool        // the fills of the specification are pressures, no longer what the gauge showed
}

// adjusted is how the springs of a leg differ from those that were specified.
type adjusted struct {
	stiffer, balance float64 // as a part of every rate, of the main springs and of the balance spring
	preload          units.Length
}

// Oil is what the oil of one leg finds; zero where nothing is known of it. With an
// interior and a volume the gas at full travel follows: Interior − Metal − Volume. A leg
// without a volume is one that stands empty: its gas is that of the specification.
type Oil struct {
	Interior units.Volume // of the leg at full travel, spring and oil out
	Column   units.Area   // that the level moves over
	Metal    units.Volume // of spring, spacer and guide
	Volume   units.Volume // of oil
}

// filled is the fork with the gas that its oil leaves, and with the pressure that is there where
// the gauge shows that of the specification.
func (f Fork) filled() Fork {
	if !f.corrected && (f.Gauge != 0 || f.Scale != 0) {
		for _, l := range []*setup.Leg{&f.Spec.Left, &f.Spec.Right} {
			if l.Air == nil || !(l.Air.Fill.Gauge.In(units.Pascal) > 0) {
				continue
			}
			a := *l.Air
			a.Fill.Gauge = f.behind(a.Fill.Gauge)
			ratio := a.Fill.Gauge.In(units.Pascal) / l.Air.Fill.Gauge.In(units.Pascal)
			a.NegativeGauge, a.SecondGauge = a.NegativeGauge.Times(ratio), a.SecondGauge.Times(ratio)
			l.Air = &a
		}
	}
	f.corrected = true
	for i, l := range []*setup.Leg{&f.Spec.Left, &f.Spec.Right} {
		if o := f.Oil[i]; o.Interior != 0 && o.Volume != 0 && l.Gap != nil {
			gap := *l.Gap
			gap.Residual = o.Interior - o.Metal - o.Volume
			l.Gap = &gap
		}
	}
	return f
}

// behind is the pressure where the gauge shows that.
func (f Fork) behind(shown units.GaugePressure) units.GaugePressure {
	return shown.Add(-f.Gauge).Times(1 / (1 + float64(f.Scale)))
}

// shows is what the gauge shows at a pressure, in Pa.
func (f Fork) shows(p units.GaugePressure) float64 {
	return p.In(units.Pascal)*(1+float64(f.Scale)) + float64(f.Gauge)
}

// field is a number of a fork that may be unknown.
type field struct {
	positive bool
	zero     bool // of what is positive: 0 is a number too, not that it is missing
	get      func(f *Fork) float64
	set      func(f *Fork, v float64) // in copies of what the fork points to
	text     func(v float64) string
}

// has tells whether the fork has the field: its value is a number, and not 0 for one that is
// above 0 where it is.
func (d field) has(f *Fork) bool {
	v := d.get(f)
	return !math.IsNaN(v) && (v > 0 || !d.positive || d.zero && v == 0)
}

func plain(v float64) string { return fmt.Sprintf("%.3g", v) }

func as[Q ~float64](format string) func(float64) string {
	return func(v float64) string { return fmt.Sprintf(format, Q(v)) }
}

func direct[Q ~float64](positive bool, format string, of func(*Fork) *Q) field {
	return field{positive, false, func(f *Fork) float64 { return float64(*of(f)) },
		func(f *Fork, v float64) { *of(f) = Q(v) }, as[Q](format)}
}

// fields by name. Those of a leg stand twice, after "left." and "right.".
var fields = sync.OnceValue(func() map[string]field {
	m := map[string]field{
		"friction":           direct(true, "%.0f", func(f *Fork) *units.Force { return &f.Spec.Friction }),
		"gauge":              direct(false, "%.2f", func(f *Fork) *units.Pressure { return &f.Gauge }),
		"gauge-scale":        direct(false, "%+.1f", func(f *Fork) *units.Share { return &f.Scale }),
		"exponent":           direct(true, "%.2f", func(f *Fork) *float64 { return &f.Exponent }),
		"damping-ratio":      direct(true, "%.2f", func(f *Fork) *float64 { return &f.Damping }),
		"leak":               direct(true, "%.0f", func(f *Fork) *units.Time { return &f.Leak }),
		"machine-mass":       direct(true, "%.1f", func(f *Fork) *units.Mass { return &f.Chassis.Mass }),
		"rake":               direct(true, "%.2f", func(f *Fork) *units.Angle { return &f.Chassis.Rake }),
		"offset":             direct(false, "%.1f", func(f *Fork) *units.Length { return &f.Chassis.Offset }),
		"wheel-radius":       direct(true, "%.0f", func(f *Fork) *units.Length { return &f.Chassis.WheelRadius }),
		"unsprung-mass":      direct(true, "%.2f", func(f *Fork) *units.Mass { return &f.Chassis.UnsprungMass }),
		"front-share":        direct(true, "%.1f", func(f *Fork) *units.Share { return &f.Chassis.FrontShare }),
		"front-share-ridden": direct(true, "%.1f", func(f *Fork) *units.Share { return &f.Chassis.FrontShareRidden }),
	}
	for i, side := range []string{"left.", "right."} {
		leg := func(f *Fork) *setup.Leg { return [...]*setup.Leg{&f.Spec.Left, &f.Spec.Right}[i] }
		air := func(of func(*setup.Air) *units.Volume) field {
			return field{true, false, func(f *Fork) float64 {
				if a := leg(f).Air; a != nil {
					return float64(*of(a))
				}
				return math.NaN()
			}, func(f *Fork, v float64) {
				a := *leg(f).Air
				*of(&a) = units.Volume(v)
				leg(f).Air = &a
			}, as[units.Volume]("%.1f")}
		}
		m[side+"air.volume"] = air(func(a *setup.Air) *units.Volume { return &a.Volume })
		m[side+"air.negative-volume"] = air(func(a *setup.Air) *units.Volume { return &a.NegativeVolume })
		m[side+"air.second-volume"] = air(func(a *setup.Air) *units.Volume { return &a.SecondVolume })
		m[side+"air.linked"] = air(func(a *setup.Air) *units.Volume { return &a.Linked })
		// A chamber with a valve of its own, by its gauge pressure over that of the positive one.
		ratio := func(of func(*setup.Air) *units.GaugePressure) field {
			own := func(a *setup.Air) float64 { return of(a).In(units.Pascal) / a.Fill.Gauge.In(units.Pascal) }
			return field{true, false, func(f *Fork) float64 {
				if a := leg(f).Air; a != nil {
					return own(a)
				}
				return math.NaN()
			}, func(f *Fork, v float64) {
				a := *leg(f).Air
				*of(&a) = units.Gauge(units.Pressure(v * a.Fill.Gauge.In(units.Pascal)))
				leg(f).Air = &a
			}, plain}
		}
		m[side+"air.negative-ratio"] = ratio(func(a *setup.Air) *units.GaugePressure { return &a.NegativeGauge })
		m[side+"air.second-ratio"] = ratio(func(a *setup.Air) *units.GaugePressure { return &a.SecondGauge })
		m[side+"air.port"] = field{true, true, func(f *Fork) float64 {
			if a := leg(f).Air; a != nil && a.NegativeVolume != 0 && a.NegativeGauge == (units.GaugePressure{}) {
				return float64(a.Port)
			}
			return math.NaN()
		}, func(f *Fork, v float64) {
			a := *leg(f).Air
			a.Port = units.Length(v)
			leg(f).Air = &a
		}, as[units.Length]("%.1f")}
		// Of the main springs: their rate against what was specified, and preload as a length added.
		m[side+"rate"] = field{true, false, func(f *Fork) float64 { return sprung(*leg(f), 1+f.springs[i].stiffer) },
			func(f *Fork, v float64) {
				adjust(leg(f), v/(1+f.springs[i].stiffer), 0)
				f.springs[i].stiffer = v - 1
			}, as[units.Share]("%.1f")}
		m[side+"preload"] = field{false, false,
			func(f *Fork) float64 { return sprung(*leg(f), float64(f.springs[i].preload)) },
			func(f *Fork, v float64) {
				adjust(leg(f), 1, units.Length(v)-f.springs[i].preload)
				f.springs[i].preload = units.Length(v)
			}, as[units.Length]("%+.1f")}
		m[side+"balance"] = field{true, false, func(f *Fork) float64 {
			if _, ok := setup.Find[spring.TopOutSpec](*leg(f)); ok {
				return 1 + f.springs[i].balance
			}
			return math.NaN()
		}, func(f *Fork, v float64) {
			adjustBalance(leg(f), v/(1+f.springs[i].balance))
			f.springs[i].balance = v - 1
		}, as[units.Share]("%.1f")}
		m[side+"damper.volume"] = ofDamper(leg, func(d *setup.Damper) float64 { return float64(d.Volume) },
			func(d *setup.Damper, v float64) { d.Volume = units.Volume(v) }, as[units.Volume]("%.1f"))
		m[side+"damper.pressure"] = ofDamper(leg, func(d *setup.Damper) float64 { return d.Fill.Gauge.In(units.Pascal) },
			func(d *setup.Damper, v float64) { d.Fill.Gauge = units.Gauge(units.Pressure(v)) }, as[units.Pressure]("%.2f"))
		m[side+"interior"] = direct(true, "%.0f", func(f *Fork) *units.Volume { return &f.Oil[i].Interior })
		m[side+"metal"] = direct(true, "%.0f", func(f *Fork) *units.Volume { return &f.Oil[i].Metal })
		m[side+"oil"] = direct(true, "%.0f", func(f *Fork) *units.Volume { return &f.Oil[i].Volume })
		m[side+"gap"] = field{true, false, func(f *Fork) float64 {
			if g := leg(f).Gap; g != nil && (f.Oil[i].Interior == 0 || f.Oil[i].Volume == 0) {
				return float64(g.Residual)
			}
			return math.NaN()
		}, func(f *Fork, v float64) {
			g := *leg(f).Gap
			g.Residual = units.Volume(v)
			leg(f).Gap = &g
		}, as[units.Volume]("%.0f")}
	}
	return m
})

// sprung is v in a leg with a main spring, else NaN.
func sprung(l setup.Leg, v float64) float64 {
	if slices.ContainsFunc(l.Springs, func(s spring.Spec) bool { _, ok := s.(spring.Adjustable); return ok }) {
		return v
	}
	return math.NaN()
}

func adjust(l *setup.Leg, rate float64, preload units.Length) {
	l.Springs = slices.Clone(l.Springs)
	for i, s := range l.Springs {
		if main, ok := s.(spring.Adjustable); ok {
			l.Springs[i] = main.Adjusted(rate, preload)
		}
	}
}

func adjustBalance(l *setup.Leg, rate float64) {
	l.Springs = slices.Clone(l.Springs)
	for i, s := range l.Springs {
		if balance, ok := s.(spring.TopOutSpec); ok {
			balance.Rate *= units.Stiffness(rate)
			l.Springs[i] = balance
		}
	}
}

// ofDamper is a number of the gas of a pressurized damper.
func ofDamper(leg func(*Fork) *setup.Leg, get func(*setup.Damper) float64, set func(*setup.Damper, float64),
	text func(float64) string) field {
	return field{true, false, func(f *Fork) float64 {
		if d := leg(f).Damper; d != nil {
			return get(d)
		}
		return math.NaN()
	}, func(f *Fork, v float64) {
		d := *leg(f).Damper
		set(&d, v)
		leg(f).Damper = &d
	}, text}
}

// Unknown is a number of a fork that is not known exactly.
type Unknown struct {
	Name      string  // by which [Fork.Names] lists it
	sd        float64 // SI
	low, high float64 // where it is between them, no other number likelier than another
}

// Uncertain is an unknown by its name, as "left.air.volume", with its standard uncertainty in
// the fork as it is given; [Fork.Names] lists the names. Rates of a leg's main springs and of its
// balance spring are factors, its preload a length added. What is above 0 stays there.
func Uncertain[Q ~float64](name string, sd Q) Unknown { return Unknown{Name: name, sd: float64(sd)} }

// Between is an unknown of which only limits are known, and every number between them is as
// likely: a tolerance, an adjuster that nobody looked at. The fork's own number does not count.
func Between[Q ~float64](name string, low, high Q) Unknown {
	return Unknown{name, float64(high-low) / math.Sqrt(12), float64(low), float64(high)}
}

// Names are the numbers that this fork has and that may be unknown.
func (f Fork) Names() []string {
	var list []string
	for name, d := range fields() {
		if d.has(&f) {
			list = append(list, name)
		}
	}
	slices.Sort(list)
	return list
}

// validate reports the faults of a fork and of what is unknown of it.
func validate(f Fork, unknowns []Unknown) error {
	faults := check.Of("Learn")
	if _, err := setup.New(f.filled().Spec); err != nil {
		faults.Nest("fork", err)
	}
	faults.Nest("fork.Chassis", f.Chassis.Validate())
	check.Between(faults, "fork.Exponent", f.Exponent, 1, 5.0/3)
	check.Between(faults, "fork.Damping", f.Damping, 0, 1)
	if len(unknowns) == 0 {
		faults.Report("unknowns", "none", "one number at least that is not known exactly", "")
	}
	seen := map[string]bool{}
	for i, u := range unknowns {
		at := fmt.Sprintf("unknowns[%d]", i)
		d, ok := fields()[u.Name]
		switch {
		case !ok || !d.has(&f):
			faults.Report(at, u.Name, "one that the fork has: "+strings.Join(f.Names(), ", "), "")
		case seen[u.Name]:
			faults.Report(at, u.Name, "each once", "")
		case u.low != u.high && !(u.low < u.high && (u.low > 0 || !d.positive || d.zero && u.low == 0)):
			faults.Report(at, fmt.Sprintf("%g to %g", u.low, u.high), "the lower limit first, both such as the fork may have",
				"")
		case u.low == u.high && d.zero && d.get(&f) == 0:
			faults.Report(at, u.Name, "limits, by Between: in the fork it is 0, where no number lies below", "")
		case !(u.sd > 0) || math.IsInf(u.sd, 0):
			faults.Report(at+".SD", u.sd, "a standard uncertainty above 0", "leave out what is known exactly")
		}
		seen[u.Name] = true
	}
	return faults.Err()
}
