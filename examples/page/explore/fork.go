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
	Spec   setup.Spec   // as closed and filled at home
	Home   *setup.Setup // there
	Now    *setup.Setup // after all that has happened since
	Load   units.Force  // of the rider, on the axis
}

// Air is the ambient at home and where the fork is now.
func (s State) Air() (home, now gas.Ambient, err error) {
	if home, err = gas.StandardAt(s.HomeAltitude, s.HomeTemperature); err != nil {
		return
	}
	if now, err = gas.StandardAt(s.Altitude, s.Temperature); err != nil {
		return
	}
	// Weather scales the column of air: 10 hPa less at sea level are 1 % less everywhere.
	sea := units.Pressure(101325)
	now.Pressure = units.Absolute(units.Pressure(now.Pressure.In(units.Pascal)) * (sea + s.Weather) / sea)
	return
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
	spec, err := planned(f.ID)
	spec.Closed = home
	return spec, f, err
}

var plans sync.Map // by id; a plan takes longer than all the rest of a picture

// planned is the fork on the coil that a plan for its typical rider picks.
func planned(id string) (setup.Spec, error) {
	if spec, ok := plans.Load(id); ok {
		return spec.(setup.Spec), nil
	}
	file, err := jobfile.Typical(id, data.Reference())
	if err != nil {
		return setup.Spec{}, err
	}
	report, err := conversion.Plan(file.Job)
	if err != nil {
		return setup.Spec{}, err
	}
	coil, ok := report.Chosen()
	if !ok {
		return setup.Spec{}, fmt.Errorf("fork %s: no coil of the plan is safe", id)
	}
	spec := coil.Behavior.Setup.Spec()
	plans.Store(id, spec)
	return spec, nil
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

// since is what has happened to a fork: it leaked, was carried here, vented and set again, in this order.
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
	if s.SetAgain {
		f = f.Refilled()
	}
	return f, nil
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
