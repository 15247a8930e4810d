package bench

import (
	"fmt"
	"slices"
	"strings"

	"example.org/forkcurve/internal/enum"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Reading is something read at the bench. The types of this package are all there are.
type Reading interface {
	String() string // what is read, as "sag from above with 79 kg, 9.0 bar"
	// read is what was read and its standard uncertainty, in SI.
	read() (value, sd float64)
	// model is what the fork would show, in SI.
	model(b *bench) (float64, error)
	with(v float64) Reading // the same reading with v read
	text(v float64) string
	slips() []string // why it may be off, the likeliest first
}

// bench is a fork as the readings find it, set to one pressure after another.
type bench struct {
	fork Fork
	room gas.Ambient
	sets []setTo
}

type setTo struct {
	gauge units.GaugePressure
	fork  *setup.Setup
}

// at is the fork with its air springs set to a reading of the gauge; a zero one leaves it
// as it stands.
func (b *bench) at(gauge units.GaugePressure) (*setup.Setup, error) {
	for _, s := range b.sets {
		if s.gauge == gauge {
			return s.fork, nil
		}
	}
	spec := b.fork.Spec
	if gauge != (units.GaugePressure{}) {
		var err error
		if spec, err = spec.Filled(gas.Fill{Gauge: b.fork.behind(gauge), Ambient: b.room}); err != nil {
			return nil, err
		}
	}
	f, err := setup.New(spec)
	if err != nil {
		return nil, err
	}
	b.sets = append(b.sets, setTo{gauge, f})
	return f, nil
}

// load on the axis of the fork with a rider on, or of the machine alone.
func (b *bench) load(rider units.Mass) units.Force {
	if rider == 0 {
		return b.fork.Chassis.MachineLoad().Axial
	}
	return b.fork.Chassis.RiddenLoad(rider).Axial
}

// From says which way a fork came to rest.
type From int

const (
	Above  From = iota // let down from full extension: it stays high
	Below              // pushed down and let up: it stays low
	Middle             // the mean of both
)

var froms = enum.Names[From]{Above: "above", Below: "below", Middle: "middle"}

// String is "above", "below" or "middle".
func (f From) String() string { return froms.String(f) }

// MarshalText writes the name.
func (f From) MarshalText() ([]byte, error) { return froms.Marshal(f) }

// UnmarshalText reads a name.
func (f *From) UnmarshalText(text []byte) error { return froms.Unmarshal(text, f) }

// Sag is the travel that a fork rests at.
type Sag struct {
	Rider  units.Mass          // with kit, in stance; 0: the machine alone
	From   From                // the side that friction leaves it on
	Gauge  units.GaugePressure // that the air spring was set to for it; zero: as the fork stands
	Travel units.Length        // read off
	SD     units.Length        // 2 mm is usual
}

func (r Sag) String() string {
	on := "the machine alone"
	if r.Rider != 0 {
		on = fmt.Sprintf("%.0f on", r.Rider)
	}
	return fmt.Sprintf("sag %s with %s%s", r.From.way(), on, set(r.Gauge))
}

// way is the From in a sentence.
func (f From) way() string {
	if f == Middle {
		return "between both ways"
	}
	return "from " + f.String()
}

func set(g units.GaugePressure) string {
	if g == (units.GaugePressure{}) {
		return ""
	}
	return fmt.Sprintf(", at %.2f", g)
}

func (r Sag) read() (float64, float64) { return float64(r.Travel), float64(r.SD) }
func (r Sag) text(v float64) string    { return as[units.Length]("%.1f")(v) }
func (r Sag) slips() []string {
	return []string{"the fork stuck, or was not let down gently", "the rider moved", "read from the other side",
		"another pressure"}
}

func (r Sag) with(v float64) Reading {
	r.Travel = units.Length(v)
	return r
}

func (r Sag) model(b *bench) (float64, error) {
	return b.rest(r.Gauge, b.load(r.Rider), r.From)
}

// rest is the travel at which the fork rests under a load on its axis.
func (b *bench) rest(gauge units.GaugePressure, load units.Force, from From) (float64, error) {
	f, err := b.at(gauge)
	if err != nil {
		return 0, err
	}
	switch from {
	case Above:
		load -= f.Friction()
	case Below:
		load += f.Friction()
	}
	c := f.Curve(gas.Isothermal)
	if end := c.Stroke(); load > c.Force(end) {
		// Beyond its stroke it goes on by its last rate, so that the search finds back.
		return float64(end) + float64(load-c.Force(end))/float64(c.Rate(end)), nil
	}
	if top := c.Force(0); load < top { // topped out
		if k := c.Rate(0); k > 0 {
			return float64(load-top) / float64(k), nil
		}
		return 0, nil // where the spring is loose, nothing tells how far
	}
	x, err := spring.Equilibrium(c, load)
	return float64(x), err
}

// Pressed is the travel that a known force along the axis reaches: of weights on a plate over
// the fork in a stand, or in a press.
type Pressed struct {
	Load   units.Force         // along the axis
	From   From                // the side that friction leaves it on
	Gauge  units.GaugePressure // that the air spring was set to for it; zero: as the fork stands
	Travel units.Length        // read off
	SD     units.Length        // 1 mm is usual
}

func (r Pressed) String() string {
	return fmt.Sprintf("travel %s under %.0f%s", r.From.way(), r.Load, set(r.Gauge))
}
func (r Pressed) read() (float64, float64)        { return float64(r.Travel), float64(r.SD) }
func (r Pressed) text(v float64) string           { return as[units.Length]("%.1f")(v) }
func (r Pressed) model(b *bench) (float64, error) { return b.rest(r.Gauge, r.Load, r.From) }
func (r Pressed) slips() []string {
	return []string{"the load stood off the axis", "the fork stuck", "another pressure"}
}

func (r Pressed) with(v float64) Reading {
	r.Travel = units.Length(v)
	return r
}

// Force is that on a scale or press along the axis, moved slowly.
type Force struct {
	Travel units.Length        // from full extension
	Out    bool                // while it extends; else while it is pushed in
	Gauge  units.GaugePressure // zero: as the fork stands
	Force  units.Force         // along the axis, friction in it
	SD     units.Force         // 10 N is usual
}

func (r Force) String() string {
	way := "in"
	if r.Out {
		way = "out"
	}
	return fmt.Sprintf("force at %.0f on the way %s%s", r.Travel, way, set(r.Gauge))
}
func (r Force) read() (float64, float64) { return float64(r.Force), float64(r.SD) }
func (r Force) text(v float64) string    { return as[units.Force]("%.0f")(v) }
func (r Force) slips() []string {
	return []string{"the scale stands crooked", "the fork was moving", "travel read wrong"}
}

func (r Force) with(v float64) Reading {
	r.Force = units.Force(v)
	return r
}

func (r Force) model(b *bench) (float64, error) {
	f, err := b.at(r.Gauge)
	if err != nil {
		return 0, err
	}
	c := f.Curve(gas.Isothermal)
	x := min(r.Travel, c.Stroke())
	v := c.Force(x) + units.Force(float64(c.Rate(x))*float64(r.Travel-x))
	if r.Out {
		return float64(v - f.Friction()), nil
	}
	return float64(v + f.Friction()), nil
}

// Record is a force–travel record of a bench as readings, in and out, at most 25 of each
// spread evenly over it: neighbors in a record tell the same twice. The standard
// uncertainty is that of one reading, 10 N is usual.
func Record(m spring.MeasuredSpec, gauge units.GaugePressure, sd units.Force) []Reading {
	var list []Reading
	for way, branch := range [][]spring.Reading{m.Loading, m.Unloading} {
		for len(branch) > 0 && branch[0].Travel < 0 {
			branch = branch[1:]
		}
		if n := len(branch); way == 1 && n > 0 && slices.Contains(m.Loading, branch[n-1]) {
			branch = branch[:n-1] // where it turned, which is on the way in
		}
		const most = 25
		n := min(len(branch), most)
		for i := range n {
			at := branch[i*(len(branch)-1)/max(n-1, 1)]
			list = append(list, Force{Travel: at.Travel, Out: way == 1, Gauge: gauge, Force: at.Force, SD: sd})
		}
	}
	return list
}

// such is a number of the fork read as such.
type such struct {
	name      string
	value, sd float64
}

// Direct is a number of the fork read as such, by the name that it has as an unknown: rake by
// an angle gauge, the port by where the hiss ends, a volume from the maker's drawing.
func Direct[Q ~float64](name string, read, sd Q) Reading {
	return such{name, float64(read), float64(sd)}
}

func (r such) String() string           { return strings.ReplaceAll(r.name, ".", " ") + ", read as such" }
func (r such) read() (float64, float64) { return r.value, r.sd }
func (r such) text(v float64) string {
	if d, ok := fields()[r.name]; ok {
		return d.text(v)
	}
	return plain(v)
}
func (r such) slips() []string {
	return []string{"read at another place", "another unit", "a number of another fork"}
}
func (r such) with(v float64) Reading {
	r.value = v
	return r
}

func (r such) model(b *bench) (float64, error) {
	d, ok := fields()[r.name]
	if !ok || !d.has(&b.fork) {
		return 0, &units.RangeError{Field: "Direct", Value: r.name,
			Want: "a number that the fork has: " + strings.Join(b.fork.Names(), ", ")}
	}
	return d.get(&b.fork), nil
}

// Breakaway is the force at which the extended fork begins to move.
type Breakaway struct {
	Gauge units.GaugePressure // zero: as the fork stands
	Force units.Force         // along the axis, friction in it
	SD    units.Force         // 8 N is usual
}

func (r Breakaway) String() string           { return "force that moves the extended fork" + set(r.Gauge) }
func (r Breakaway) read() (float64, float64) { return float64(r.Force), float64(r.SD) }
func (r Breakaway) text(v float64) string    { return as[units.Force]("%.0f")(v) }
func (r Breakaway) slips() []string {
	return []string{"the fork had stood for long", "pushed aslant"}
}
func (r Breakaway) with(v float64) Reading {
	r.Force = units.Force(v)
	return r
}

func (r Breakaway) model(b *bench) (float64, error) {
	f, err := b.at(r.Gauge)
	if err != nil {
		return 0, err
	}
	return float64(f.Curve(gas.Isothermal).Force(0) + f.Friction()), nil
}

// Shown is what the gauge shows with the fork held at a travel, set to another pressure when
// extended: at full travel it tells the volume of the chamber.
type Shown struct {
	Travel units.Length        // from full extension
	Gauge  units.GaugePressure // extended; zero: as the fork stands
	Shown  units.GaugePressure // at that travel
	SD     units.Pressure      // 0.1 bar is usual
}

func (r Shown) String() string {
	return fmt.Sprintf("gauge at %.0f%s", r.Travel, set(r.Gauge))
}
func (r Shown) read() (float64, float64) { return r.Shown.In(units.Pascal), float64(r.SD) }
func (r Shown) text(v float64) string    { return fmt.Sprintf("%.2f", units.Gauge(units.Pressure(v))) }
func (r Shown) slips() []string {
	return []string{"air lost to the hose of the pump", "another unit on the gauge", "the travel was not reached"}
}
func (r Shown) with(v float64) Reading {
	r.Shown = units.Gauge(units.Pressure(v))
	return r
}

func (r Shown) model(b *bench) (float64, error) {
	f, err := b.at(r.Gauge)
	if err != nil {
		return 0, err
	}
	spaces, err := f.Spaces(min(r.Travel, f.Curve(gas.Isothermal).Stroke()), gas.Isothermal)
	if err != nil {
		return 0, err
	}
	for _, s := range spaces {
		if s.Chamber == setup.Positive {
			return b.fork.shows(s.Gas.Pressure.Gauge(b.room.Pressure)), nil
		}
	}
	return 0, &units.RangeError{Field: "Shown", Value: r.String(), Want: "a fork with an air spring"}
}

// PumpedIn is a known volume of the room's air, as that of a pump's strokes or a syringe, let
// into the extended air spring: the rise tells the volume of its chambers.
type PumpedIn struct {
	Air    units.Volume        // at the pressure of the room
	Before units.GaugePressure // that the gauge shows
	After  units.GaugePressure // that the gauge shows then
	SD     units.Pressure      // of the rise, 0.05 bar is usual
}

func (r PumpedIn) String() string {
	return fmt.Sprintf("rise by %.0f of air from %.2f", r.Air, r.Before)
}
func (r PumpedIn) read() (float64, float64) {
	return r.After.In(units.Pascal) - r.Before.In(units.Pascal), float64(r.SD)
}
func (r PumpedIn) text(v float64) string { return as[units.Pressure]("%.2f")(v) }
func (r PumpedIn) slips() []string {
	return []string{"air lost to the hose of the pump", "pumped fast: the air was warm", "strokes not counted"}
}
func (r PumpedIn) with(v float64) Reading {
	r.After = r.Before.Add(units.Pressure(v))
	return r
}

func (r PumpedIn) model(b *bench) (float64, error) {
	f, err := b.at(r.Before)
	if err != nil {
		return 0, err
	}
	spaces, err := f.Spaces(0, gas.Isothermal)
	if err != nil {
		return 0, err
	}
	var room units.Volume
	for _, s := range spaces {
		switch s.Chamber {
		case setup.Positive, setup.Linked:
			room += s.Gas.Volume
		case setup.Negative:
			if !s.Valve {
				room += s.Gas.Volume // through the port, with the fork extended
			}
		}
	}
	if room == 0 {
		return 0, &units.RangeError{Field: "PumpedIn", Value: r.String(), Want: "a fork with an air spring"}
	}
	return b.room.Pressure.In(units.Pascal) * float64(r.Air) / float64(room) * (1 + float64(b.fork.Scale)), nil
}
