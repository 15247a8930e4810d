package explore

import (
	"fmt"
	"sync"

	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Fork is one of the two forks in the state of the page.
type Fork struct {
	Record data.Fork
	Kind   string       // "air", "coil"
	Oil    units.Volume // in each leg, more than the record has
	Name   string
	Spec   setup.Spec            // as closed and filled at home
	Home   *setup.Setup          // there
	Now    *setup.Setup          // after all that has happened since
	Load   units.Force           // of the rider, on the axis
	Builds []conversion.LegBuild // by the plan; nil of a recorded fork
}

// Air is the ambient at home and where the fork is now.
func (s State) Air() (home, now gas.Ambient, err error) {
	if home, err = weathered(s.HomeAltitude, s.HomeTemperature, s.HomeWeather); err == nil {
		now, err = weathered(s.Altitude, s.Temperature, s.Weather)
	}
	return
}

// weathered is the standard atmosphere with the weather, which scales the column of air: 10 hPa less at sea level are
// 1 % less everywhere.
func weathered(altitude units.Length, t units.Temperature, off units.Pressure) (gas.Ambient, error) {
	a, err := gas.StandardAt(altitude, t)
	sea := units.Pressure(101325)
	a.Pressure = units.Absolute(units.Pressure(a.Pressure.In(units.Pascal)) * (sea + off) / sea)
	return a, err
}

// recorded is a fork as its record has it, or as its plan picks it, closed at home.
func (s *State) recorded(i int) (setup.Spec, data.Fork, error) {
	home, _, err := s.Air()
	if err != nil {
		return setup.Spec{}, data.Fork{}, err
	}
	id := s.Forks[i].ID
	if id != Planned {
		f, err := data.Reference().Fork(id)
		return f.Spec(home), f, err
	}
	f, err := data.Reference().Fork(s.Forks[0].ID)
	if err != nil {
		return setup.Spec{}, f, err
	}
	coil, err := planned(f.ID)
	coil.spec.Closed = home
	return coil.spec, f, err
}

var plans sync.Map // by id; a plan takes longer than all the rest of a picture

// build is a fork as a plan has it built.
type build struct {
	spec setup.Spec
	legs []conversion.LegBuild
}

// planned is the fork on the coil that a plan for its typical rider picks.
func planned(id string) (build, error) {
	if b, ok := plans.Load(id); ok {
		return b.(build), nil
	}
	file, err := jobfile.Typical(id, data.Reference())
	if err != nil {
		return build{}, err
	}
	report, err := conversion.Plan(file.Job)
	if err != nil {
		return build{}, err
	}
	coil, ok := report.Chosen()
	if !ok {
		return build{}, fmt.Errorf("fork %s: no coil of the plan is safe", id)
	}
	b := build{coil.Behavior.Setup.Spec(), coil.Builds}
	plans.Store(id, b)
	return b, nil
}

// Fork builds one of the two; false where the second is none.
func (s State) Fork(i int) (Fork, bool, error) {
	c := s.Forks[i]
	if c.ID == None {
		return Fork{}, false, nil
	}
	spec, record, err := s.recorded(i)
	if err != nil {
		return Fork{}, true, err
	}
	f := Fork{Record: record, Name: c.ID, Load: record.Load(s.Rider), Oil: c.Oil}
	if c.ID == Planned {
		f.Name = record.ID + " on a coil"
		b, _ := planned(record.ID) // which recorded has made
		f.Builds = b.legs
	}
	if f.Spec, err = c.put(spec); err != nil {
		return f, true, err
	}
	f.Kind = map[bool]string{true: "air", false: "coil"}[airOf(f.Spec) != nil]
	if f.Home, err = setup.New(f.Spec); err != nil {
		return f, true, err
	}
	f.Now, err = s.since(f.Home, f.Load)
	return f, true, err
}

// put sets a fork as chosen.
func (c Choice) put(spec setup.Spec) (setup.Spec, error) {
	if airOf(spec) != nil {
		var err error
		if spec, err = spec.Filled(gas.Fill{Gauge: c.Pressure, Ambient: spec.Closed}); err != nil {
			return spec, err
		}
	}
	for _, l := range []*setup.Leg{&spec.Left, &spec.Right} {
		springs := make([]spring.Spec, len(l.Springs))
		for i, s := range l.Springs {
			if coil, ok := s.(spring.CoilSpec); ok {
				coil.Rate, coil.Preload = c.Rate, c.Preload
				s = coil
			}
			springs[i] = s
		}
		l.Springs = springs
		switch {
		case l.Gap != nil:
			gap := *l.Gap
			gap.Residual -= c.Oil
			l.Gap = &gap
		case l.Air != nil && c.Oil != 0: // the whole leg is the air spring
			air := *l.Air
			air.Volume -= c.Oil
			l.Air = &air
		}
	}
	return spec, nil
}

// since is what has happened to a fork: it leaked, to the air and past the piston, was carried here, vented and set
// again, in this order.
func (s State) since(f *setup.Setup, load units.Force) (*setup.Setup, error) {
	_, now, err := s.Air()
	if err != nil {
		return nil, err
	}
	if s.Leak > 0 {
		if f, err = f.Leaked(1 - float64(s.Leak)); err != nil {
			return nil, err
		}
	}
	if s.Past {
		sag, err := f.Sag(load)
		if err != nil {
			return nil, err
		}
		if f, err = f.Equalized(sag.Middle); err != nil {
			return nil, err
		}
	}
	if f, err = f.At(now); err != nil {
		return nil, err
	}
	switch s.Vent {
	case Extended:
		f = f.Vented()
	case Loaded:
		sag, err := f.Sag(load)
		if err != nil {
			return nil, err
		}
		if f, err = f.VentedAt(min(sag.Middle, 0.9*f.Curve(gas.Isothermal).Stroke())); err != nil {
			return nil, err
		}
	}
	switch s.Again {
	case Nothing:
	case Everything:
		f = f.Refilled()
	default:
		var c setup.Chamber
		if err := c.UnmarshalText([]byte(s.Again)); err != nil {
			return nil, err
		}
		f = f.Refilled(c)
	}
	return f, nil
}

// oil is what a leg holds of it, and its level as it is set at the bench, fork compressed and spring out; 0 where no
// level is read.
func (f Fork) oil(side setup.Side) (volume units.Volume, level units.Length) {
	fill, err := f.Record.Fill(side)
	if err != nil {
		return 0, 0
	}
	volume = fill.Volume()
	if f.Record.Kit.SpringInOil {
		level = fill.Level()
	}
	for _, b := range f.Builds {
		if b.Side == side {
			volume, level = b.OilVolume, 0
			if b.OilLevel != nil {
				level = *b.OilLevel
			}
		}
	}
	if level != 0 {
		level -= units.Length(float64(f.Oil) / float64(fill.Column()))
	}
	return volume + f.Oil, level
}

func airOf(s setup.Spec) *setup.Air {
	if s.Left.Air != nil {
		return s.Left.Air
	}
	return s.Right.Air
}

func coilOf(s setup.Spec) (spring.CoilSpec, bool) {
	if c, ok := setup.Find[spring.CoilSpec](s.Left); ok {
		return c, true
	}
	return setup.Find[spring.CoilSpec](s.Right)
}

// oilRoom is the gas that oil can take up: what is left over it at full travel.
func oilRoom(s setup.Spec) units.Volume {
	for _, l := range []setup.Leg{s.Left, s.Right} {
		switch {
		case l.Gap != nil:
			return max(0, l.Gap.Residual)
		case l.Air != nil: // the whole leg is the air spring
			swept := float64(geometry.Circle(l.Air.Bore)) * float64(s.Travel)
			return max(0, l.Air.Volume-l.Air.Reducers-units.Volume(swept))
		}
	}
	return 0
}
