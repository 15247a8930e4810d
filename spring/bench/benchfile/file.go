// Package benchfile reads what was read at the bench from a TOML text, for a fork of the
// dataset, and writes the fork as it is known then as a record of the dataset.
//
//	title = "Fork on the bench"
//	fork = "M07"
//
//	[room]
//	altitude = "240 m"
//	temperature = "20 °C"
//
//	[set]
//	pressure = "9.0 bar"           # as it stands on the bench; left out: that of the record
//	metal = "125 mL"               # of spring, spacer and guide that will go into the sprung leg
//
//	[reading.on-his-feet]          # any name
//	kind = "sag"                   # kinds are those of package bench
//	rider = "79 kg"                # left out: the machine alone
//	from = "above"                 # above, below or middle
//	travel = "58 mm"
//	sd = "2 mm"                    # standard uncertainty; left out: the usual one
//
// The kinds and their keys; set-to is the pressure of the extended air spring for that reading
// alone, and may be left out as sd may:
//
//	sag              rider, from, travel, set-to
//	pressed          load, from, travel, set-to     weights or a press on the axis
//	force            way (in, out), travel, force, set-to
//	record           travel, in, out, set-to        lists; out may be left out
//	record           file, set-to                   a CSV file, as fit.ReadCSV reads, beside this one
//	breakaway        force, set-to
//	gauge-at-travel  travel, shown, set-to
//	pumped-in        air (of the room), before, after
//	leak             before, after, time
//	oil-to-mark      side, level, oil
//	water            side, volume
//	rise             side, before, after            levels
//	bounce           rider, cycles, time            cycles left out: one
//	decay            first, later, cycles           peaks
//	wheels-on-scales ridden, front, rear
//	unsprung-mass, machine-mass                     mass
//	trail, rake, offset, wheel-radius               under that name
//	port             side, travel
//
// Decoding is strict: unknown keys, units of another kind and values out of range are faults
// with file and line, all at once.
//
// Its functions may be called from any number of goroutines; a File is plain values, safe to read from many as long
// as none changes it.
package benchfile

import (
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// File is a text of readings.
type File struct {
	Title    string          // in words
	Record   data.Fork       // of the dataset, that the fork is one of
	Room     gas.Ambient     // in which everything was read
	Side     setup.Side      // of the leg that has, or will have, the spring and its oil
	Fork     bench.Fork      // as the record says, before its readings
	Unknowns []bench.Unknown // of the fork, with how well each is known
	Readings []bench.Reading // in the order of the file
	Names    []string        // of the readings
}

// DecodeFile reads a file about a fork of the set, and the records that it names, which lie in its folder or below.
func DecodeFile(name string, set *data.Set) (*File, error) {
	in, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	return decode(name, in, set, &folder{path: filepath.Dir(name)})
}

// Decode reads a text of that name, which errors begin with, about a fork of the set. The text has no folder and may
// not name the file of a record.
func Decode(name string, r io.Reader, set *data.Set) (*File, error) { return decode(name, r, set, nil) }

func decode(name string, r io.Reader, set *data.Set, beside *folder) (*File, error) {
	doc, err := strict.Parse(name, r)
	if err != nil {
		return nil, err
	}
	f := &File{}
	root := doc.Root()
	f.Title = root.Text("title")
	record, err := set.Fork(root.Text("fork"))
	known := err == nil
	if !known && root.Has("fork") {
		root.Fault("fork", err)
	}
	f.Record = record
	room := root.Table("room")
	altitude := strict.Quantity(room, "altitude", strict.Between(-500*units.Meter, 9000*units.Meter))
	temperature := strict.Quantity(room, "temperature", strict.Between(units.Celsius(-40), units.Celsius(60)))
	f.Room, _ = gas.StandardAt(altitude, temperature) // an error only after a fault above
	if known {
		f.Fork, f.Unknowns, f.Side = Of(record, f.Room)
	}
	if t := root.OptionalTable("set"); t != nil {
		f.set(t, known)
	}
	readings := root.Table("reading")
	tables := map[int]string{}
	for name, t := range readings.Tables() {
		list := read(t, beside)
		if len(list) == 1 && known && f.Fork.Leak == 0 {
			if _, leak := list[0].(bench.LeakDown); leak {
				f.Fork.Leak = usualLeak
				f.Unknowns = append(f.Unknowns, bench.Uncertain("leak", leakSD))
			}
		}
		for i, reading := range list {
			tables[len(f.Readings)] = name
			one := name
			if len(list) > 1 {
				one = fmt.Sprintf("%s, %d", name, i+1)
			}
			f.Readings, f.Names = append(f.Readings, reading), append(f.Names, one)
		}
	}
	if err := doc.Err(); err != nil {
		return nil, err
	}
	// What hangs on the fork, told of the table of the reading.
	var rest []error
	for _, fault := range bench.Check(f.Fork, f.Room, f.Unknowns, f.Readings) {
		if name, ok := tables[fault.Reading]; ok {
			readings.Fault(name, fault.Err)
		} else {
			rest = append(rest, fault.Err)
		}
	}
	if err := errors.Join(doc.Err(), errors.Join(rest...)); err != nil {
		return nil, err
	}
	return f, nil
}

// set is the fork as it stands.
func (f *File) set(t *strict.Table, known bool) {
	if p, ok := strict.OptionalQuantity(t, "pressure", strict.Between(units.Gauge(0), units.Gauge(30*units.Bar))); ok &&
		known {
		spec, err := f.Fork.Spec.Filled(gas.Fill{Gauge: p, Ambient: f.Room})
		if err != nil {
			t.Fault("pressure", errors.New("the fork has no air spring; leave this out"))
			return
		}
		f.Fork.Spec = spec
	}
	o := &f.Fork.Oil[f.Side]
	if v, ok := strict.OptionalQuantity(t, "metal", strict.Between(0, 500*units.Milliliter)); ok {
		o.Metal = v
	}
	if v, ok := strict.OptionalQuantity(t, "oil", strict.Between(0, 3*units.Liter)); ok {
		o.Volume = v
	}
}

// Kinds of readings, as files name them.
var kinds = []string{"sag", "pressed", "force", "record", "breakaway", "gauge-at-travel", "pumped-in", "oil-to-mark",
	"water", "rise", "leak", "bounce",
	"decay", "unsprung-mass", "wheels-on-scales", "trail", "rake", "offset", "wheel-radius", "machine-mass",
	"port"}

// Kinds lists what a file may call a reading.
func Kinds() []string { return strings.Split(strings.Join(kinds, " "), " ") }

const (
	mm  = units.Millimeter
	mL  = units.Milliliter
	bar = units.Bar
)

// read are the readings of one table, one but for a record; none after a fault.
func read(t *strict.Table, beside *folder) []bench.Reading {
	kind := t.Word("kind", kinds...)
	if kind == "record" {
		return record(t, beside)
	}
	if r := one(t, kind); r != nil {
		return []bench.Reading{r}
	}
	return nil
}

var gauge = strict.Between(units.Gauge(0), units.Gauge(30*bar))

// one is the reading of a table of that kind; nil after a fault.
func one(t *strict.Table, kind string) bench.Reading {
	travel := strict.Between(0, 400*mm)
	set := func() units.GaugePressure {
		p, _ := strict.OptionalQuantity(t, "set-to", gauge)
		return p
	}
	rider := func() units.Mass {
		m, _ := strict.OptionalQuantity(t, "rider", strict.Between(10*units.Kilogram, 250*units.Kilogram))
		return m
	}
	side := func() setup.Side {
		if t.Word("side", "left", "right") == "right" {
			return setup.Right
		}
		return setup.Left
	}
	from := func() (f bench.From) {
		_ = f.UnmarshalText([]byte(t.Word("from", "above", "below", "middle"))) // Word has refused others
		return f
	}
	switch kind {
	case "sag":
		return bench.Sag{Rider: rider(), From: from(), Gauge: set(), Travel: strict.Quantity(t, "travel", travel),
			SD: sd(t, 2*mm)}
	case "pressed":
		return bench.Pressed{Load: strict.Quantity(t, "load", strict.Between(1*units.Newton, 20*units.Kilonewton)),
			From: from(), Gauge: set(), Travel: strict.Quantity(t, "travel", travel), SD: sd(t, 1*mm)}
	case "force":
		return bench.Force{Travel: strict.Quantity(t, "travel", travel), Out: t.Word("way", "in", "out") == "out",
			Gauge: set(),
			Force: strict.Quantity(t, "force", strict.Between(0, 20*units.Kilonewton)), SD: sd(t, 10*units.Newton)}
	case "breakaway":
		return bench.Breakaway{Gauge: set(), Force: strict.Quantity(t, "force", strict.Between(0, 5*units.Kilonewton)),
			SD: sd(t, 8*units.Newton)}
	case "gauge-at-travel":
		return bench.Shown{Travel: strict.Quantity(t, "travel", travel), Gauge: set(),
			Shown: strict.Quantity(t, "shown", gauge), SD: sd(t, 0.1*bar)}
	case "pumped-in":
		return bench.PumpedIn{Air: strict.Quantity(t, "air", strict.Between(1*mL, 20*units.Liter)),
			Before: strict.Quantity(t, "before", gauge), After: strict.Quantity(t, "after", gauge), SD: sd(t, 0.05*bar)}
	case "oil-to-mark":
		return bench.OilToMark{Side: side(), Level: strict.Quantity(t, "level", strict.Between(1*mm, 900*mm)),
			Oil: strict.Quantity(t, "oil", strict.Between(1*mL, 3*units.Liter)), SD: sd(t, 4*mL)}
	case "water":
		return bench.Water{Side: side(), Volume: strict.Quantity(t, "volume", strict.Between(1*mL, 5*units.Liter)),
			SD: sd(t, 3*mL)}
	case "rise":
		level := strict.Between(1*mm, 900*mm)
		return bench.Rise{Side: side(), Before: strict.Quantity(t, "before", level),
			After: strict.Quantity(t, "after", level), SD: sd(t, 1.5*mm)}
	case "leak":
		return bench.LeakDown{From: strict.Quantity(t, "before", gauge), To: strict.Quantity(t, "after", gauge),
			After: strict.Quantity(t, "time", strict.Between(1*units.Minute, 10_000*units.Hour)), SD: sd(t, 0.15*bar)}
	case "bounce":
		cycles, _ := t.OptionalNumber("cycles", 1, 20)
		return bench.Bounce{Rider: rider(), Cycles: whole(t, "cycles", cycles),
			Time: strict.Quantity(t, "time", strict.Between(0.05*units.Second, 60*units.Second)), SD: sd(t, 0.05*units.Second)}
	case "decay":
		sd, ok := t.OptionalNumber("sd", 0.001, 3)
		if !ok {
			sd = 0.15
		}
		peak := strict.Between(0.1*mm, 400*mm)
		return bench.Decay{First: strict.Quantity(t, "first", peak), Later: strict.Quantity(t, "later", peak),
			Cycles: whole(t, "cycles", t.Number("cycles", 1, 50)), SD: sd}
	case "unsprung-mass":
		return bench.WheelMass{Mass: strict.Quantity(t, "mass", strict.Between(0.2*units.Kilogram, 60*units.Kilogram)),
			SD: sd(t, 0.1*units.Kilogram)}
	case "wheels-on-scales":
		scale := strict.Between(1*units.Kilogram, 500*units.Kilogram)
		return bench.Ends{Ridden: t.Bool("ridden"), Front: strict.Quantity(t, "front", scale),
			Rear: strict.Quantity(t, "rear", scale),
			SD:   sd(t, units.Share(0.007))}
	case "trail":
		return bench.Trail{Trail: strict.Quantity(t, "trail", strict.Between(1*mm, 300*mm)), SD: sd(t, 4*mm)}
	case "rake":
		return direct(t, kind, "rake", 5*units.Degree, 50*units.Degree, 0.3*units.Degree)
	case "offset":
		return direct(t, kind, "offset", -30*mm, 130*mm, 1*mm)
	case "wheel-radius":
		return direct(t, kind, "wheel-radius", 100*mm, 500*mm, 2*mm)
	case "machine-mass":
		return direct(t, kind, "mass", 4*units.Kilogram, 600*units.Kilogram, 0.5*units.Kilogram)
	case "port":
		return direct(t, side().String()+".air.port", "travel", 0, 40*mm, 1*mm)
	}
	return nil
}

// whole is a number of cycles.
func whole(t *strict.Table, key string, n float64) int {
	if n != math.Trunc(n) {
		t.Fault(key, errors.New("want a whole number"))
	}
	return int(n)
}

// direct is a number of the fork read as such, under a key.
func direct[Q interface {
	units.Quantity
	~float64
}](t *strict.Table, name, key string, low, high, usual Q) bench.Reading {
	return bench.Direct(name, strict.Quantity(t, key, strict.Between(low, high)), sd(t, usual))
}

// sd is the standard uncertainty of a reading, the usual one where it is left out.
func sd[Q interface {
	units.Quantity
	~float64
}](t *strict.Table, usual Q) Q {
	if v, ok := strict.OptionalQuantity(t, "sd", strict.Between(usual/100, usual*100)); ok {
		return v
	}
	return usual
}
