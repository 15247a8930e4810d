package benchfile_test

import (
	"bytes"
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/bench/benchfile"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// good has a reading of every kind, invented.
const good = `title = "A fork of every reading"
fork = "M07"

[room]
altitude = "240 m"
temperature = "20 °C"

[set]
pressure = "9 bar"
metal = "120 mL"

[reading.a]
kind = "sag"
rider = "79 kg"
from = "above"
travel = "57 mm"
sd = "1.5 mm"

[reading.b]
kind = "force"
travel = "150 mm"
way = "out"
force = "1120 N"

[reading.c]
kind = "breakaway"
force = "120 N"

[reading.d]
kind = "gauge-at-travel"
set-to = "3 bar"
travel = "250 mm"
shown = "8.2 bar"

[reading.e]
kind = "pumped-in"
air = "500 mL"
before = "4 bar"
after = "5 bar"

[reading.f]
kind = "oil-to-mark"
side = "left"
level = "160 mm"
oil = "590 mL"

[reading.g]
kind = "water"
side = "left"
volume = "905 mL"

[reading.h]
kind = "rise"
side = "left"
before = "160 mm"
after = "100 mm"

[reading.i]
kind = "bounce"
rider = "79 kg"
time = "0.5 s"

[reading.j]
kind = "decay"
first = "40 mm"
later = "4 mm"
cycles = 1

[reading.k]
kind = "unsprung-mass"
mass = "15 kg"

[reading.l]
kind = "wheels-on-scales"
ridden = true
front = "91 kg"
rear = "99 kg"

[reading.m]
kind = "trail"
trail = "114 mm"

[reading.n]
kind = "pressed"
load = "1500 N"
from = "middle"
set-to = "7 bar"
travel = "190 mm"

[reading.o]
kind = "record"
travel = ["10 mm", "100 mm", "200 mm"]
in = ["230 N", "960 N", "1850 N"]
out = ["70 N", "790 N", "1680 N"]

[reading.p]
kind = "rake"
rake = "27.0 deg"

[reading.q]
kind = "offset"
offset = "56 mm"

[reading.r]
kind = "wheel-radius"
wheel-radius = "344 mm"

[reading.s]
kind = "machine-mass"
mass = "112 kg"

[reading.t]
kind = "port"
side = "left"
travel = "4 mm"

[reading.u]
kind = "bounce"
rider = "79 kg"
cycles = 3
time = "1.8 s"

[reading.v]
kind = "leak"
before = "9 bar"
after = "8.4 bar"
time = "24 h"
`

func decode(text string) (*benchfile.File, error) {
	return benchfile.Decode("bench.toml", strings.NewReader(text), data.Reference())
}

func TestDecode(t *testing.T) {
	f, err := decode(good)
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Readings) != 27 || f.Names[0] != "a" || f.Record.ID != "M07" {
		t.Fatalf("%d readings, names %v", len(f.Readings), f.Names)
	}
	if k, err := bench.Learn(t.Context(), f.Fork, f.Room, f.Unknowns, f.Readings); err != nil {
		t.Error(err)
	} else if leak, _, ok := k.Of("leak"); !ok || math.Abs(leak/86400-1/math.Log(9/8.4)) > 2 {
		t.Errorf("leaks in %.1f days", leak/86400)
	}
	sag := bench.Sag{Rider: 79, Travel: 57 * units.Millimeter, SD: 1.5 * units.Millimeter}
	if f.Readings[0] != sag {
		t.Errorf("sag %+v, want %+v", f.Readings[0], sag)
	}
	if got := f.Fork.Spec.Left.Air.Fill.Gauge; got != units.Gauge(9*units.Bar) {
		t.Errorf("set to %v", got)
	}
}

// The fork as known is a record that decodes and plans, with what the readings told as
// measured, its uncertainty beside it, and what they did not as it was.
func TestRecordComesBack(t *testing.T) {
	f, err := decode(good)
	if err != nil {
		t.Fatal(err)
	}
	k, err := bench.Learn(context.Background(), f.Fork, f.Room, f.Unknowns, f.Readings)
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if err := benchfile.WriteRecord(&text, f, k, "mine"); err != nil {
		t.Fatal(err)
	}
	set, err := data.Decode(&text)
	if err != nil {
		t.Fatal(err)
	}
	mine, err := set.Fork("mine")
	if err != nil {
		t.Fatal(err)
	}
	best, sd, ok := k.Of("left.interior")
	if got := float64(mine.Kit.Interior.Value); !ok || !(math.Abs(got-best) <= sd/10) ||
		mine.Kit.Interior.Source != "bench" {
		t.Errorf("interior %+v, known as %v ± %v", mine.Kit.Interior, best, sd)
	}
	if v := mine.Chassis.Rake; v.Source == "bench" && v.Spread.SD >= f.Record.Chassis.Rake.Spread.SD {
		t.Errorf("the rake is told as measured: %+v", v)
	}
	if _, err := mine.Setup(f.Room); err != nil {
		t.Error(err)
	}
}

func TestDecodeRefuses(t *testing.T) {
	for name, c := range map[string]struct{ old, new, want string }{
		"unknown fork":         {`"M07"`, `"none"`, "bench.toml:2: fork"},
		"unit of another kind": {`travel = "57 mm"`, `travel = "57 kg"`, "bench.toml:16: reading.a.travel"},
		"bare number":          {`oil = "590 mL"`, `oil = 590`, "reading.f.oil"},
		"a kind nobody knows":  {`kind = "trail"`, `kind = "smell"`, "reading.m.kind"},
		"a key nobody knows":   {"sd = \"1.5 mm\"", "sdd = \"1.5 mm\"", "reading.a.sdd"},
		"absolute pressure":    {`shown = "8.2 bar"`, `shown = "9.2 bara"`, "reading.d.shown"},
		"zero uncertainty":     {`sd = "1.5 mm"`, `sd = "0 mm"`, "reading.a.sd"},
		"the same twice": {`kind = "breakaway"` + "\nforce = \"120 N\"", `kind = "unsprung-mass"` +
			"\nmass = \"15 kg\"", "another reading"},
		"a leg without its oil":      {`side = "left"` + "\nlevel", `side = "right"` + "\nlevel", "reading.f"},
		"forces of other travels":    {`"960 N", `, "", "a list of 2 forces; want one for each of the 3 travels"},
		"forces of no travels":       {`travel = ["10 mm", "100 mm", "200 mm"]` + "\n", "", "reading.o.travel: missing"},
		"a load beyond the fork":     {"1500 N", "15 kN", "a load that the fork carries"},
		"travel beyond the fork":     {"190 mm", "390 mm", "0 to the travel of the fork"},
		"negative uncertainty":       {`sd = "1.5 mm"`, `sd = "-1 mm"`, "reading.a.sd"},
		"a pressure without a gauge": {`set-to = "7 bar"`, `set-to = "8 bara"`, "reading.n.set-to"},
		"half a bounce":              {"cycles = 3", "cycles = 2.5", "reading.u.cycles = 2.5: want a whole number"},
		"no readings":                {good[strings.Index(good, "[reading.a]"):], "", "reading: missing"},
	} {
		t.Run(name, func(t *testing.T) {
			text := strings.Replace(good, c.old, c.new, 1)
			if text == good {
				t.Fatal("nothing changed")
			}
			_, err := decode(text)
			var file *units.FileError
			if err == nil || !strings.Contains(err.Error(), c.want) || !errors.As(err, &file) {
				t.Errorf("error %v, want a *units.FileError with %q", err, c.want)
			}
		})
	}
}

// A record in a file of its own is the one in lists; what is wrong in it is told with its line, and it lies in the
// folder of the readings.
func TestSweepFile(t *testing.T) {
	folder := t.TempDir()
	i, j := strings.Index(good, "travel = [\"10 mm\""), strings.Index(good, "[reading.p]")
	text := good[:i] + "file = \"sweep.csv\"\n\n" + good[j:]
	write := func(name, text string) string {
		name = filepath.Join(folder, name)
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return name
	}
	const sweep = "travel [mm];force [N]\n10;230\n100;960\n200;1850\n199;1680\n100;790\n10;70\n"
	name := write("bench.toml", text)
	write("sweep.csv", sweep)
	f, err := benchfile.DecodeFile(name, data.Reference())
	if err != nil {
		t.Fatal(err)
	}
	listed, err := decode(good)
	if err != nil {
		t.Fatal(err)
	}
	want := forces(listed)
	for i, r := range want {
		if r.Out && r.Travel == 200*mm {
			want[i].Travel = 199 * mm // a record turns between two travels
		}
	}
	if !cmp.Equal(forces(f), want, cmpopts.EquateApprox(1e-12, 0)) {
		t.Errorf("forces %v, want %v", forces(f), want)
	}
	if _, err := decode(text); err == nil || !strings.Contains(err.Error(), "reading.o.file") {
		t.Errorf("a text without a folder: %v", err)
	}
	for _, c := range []struct{ name, text, sweep, want string }{
		{"a fault in the record", text, strings.Replace(sweep, "960", "nine", 1), "sweep.csv:3"},
		{"no such file", strings.Replace(text, "sweep.csv", "nowhere.csv", 1), sweep, "nowhere.csv"},
		{"outside", strings.Replace(text, "sweep.csv", "../sweep.csv", 1), sweep, "in the folder of the readings or below"},
		{"deeper than the fork", text, strings.ReplaceAll(sweep, "200;", "390;"), "0 to the travel of the fork"},
		{"lists beside it", strings.Replace(text, "file = ", "in = [\"1 N\"]\nfile = ", 1), sweep, "reading.o.in"},
	} {
		write("sweep.csv", c.sweep)
		_, err := benchfile.DecodeFile(write("bench.toml", c.text), data.Reference())
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), "bench.toml:") {
			t.Errorf("%s: error %v, want one with %q and the line of the readings", c.name, err, c.want)
		}
	}
}

func forces(f *benchfile.File) (list []bench.Force) {
	for _, r := range f.Readings {
		if force, ok := r.(bench.Force); ok {
			list = append(list, force)
		}
	}
	return list
}

// Rates of springs of every kind, balance springs and the gas of dampers are learned from a sweep and kept: the record
// has the curve of a fork whose parts are not those of its kind.
func TestPartsAreKept(t *testing.T) {
	room, err := gas.StandardAt(240*units.Meter, units.Celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	rates := []string{"left.rate", "right.rate"}
	rateTable := data.Compound{Kind: spring.KindRateTable, Table: data.Value[data.Table]{Source: "typical",
		Value: "6 N/mm from 0 mm, 8 N/mm from 60 mm, 8.5 N/mm from 200 mm"}}
	measured := data.Compound{Kind: spring.KindMeasured, Table: data.Value[data.Table]{Source: "typical",
		Value: "0 N at 0 mm, 420 N at 60 mm, 1700 N at 220 mm"}}
	type kept struct {
		id       string
		compound data.Compound // in place of that of the record
		parts    []string
	}
	tests := map[string]kept{"coil": {"M19", data.Compound{}, rates}, "rate table": {"M39", rateTable, rates},
		"measured": {"M39", measured, rates},
		"damper":   {"L02", data.Compound{}, []string{"left.damper.pressure", "right.damper.pressure"}},
		"balance":  {"M09", data.Compound{}, []string{"left.balance"}}}
	for f := range data.Reference().Forks() { // one fork of every kind of spring
		for side, l := range []data.Leg{f.Left, f.Right} {
			if kind := l.Compound.Kind; kind != "" && tests[kind].id == "" {
				tests[kind] = kept{f.ID, data.Compound{}, rates[side : side+1]}
			}
		}
		if kind := f.Left.Compound.Kind; kind != "" && kind == f.Right.Compound.Kind && tests[kind].id == f.ID {
			tests[kind] = kept{f.ID, data.Compound{}, rates}
		}
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			record, err := data.Reference().Fork(c.id)
			if err != nil {
				t.Fatal(err)
			}
			if c.compound.Kind != "" {
				record.Left.Compound, record.Right.Compound = c.compound, c.compound
			}
			parts := c.parts
			f := &benchfile.File{Title: "of parts", Record: record, Room: room}
			f.Fork, f.Unknowns, f.Side = benchfile.Of(record, room)
			var truth []bench.Reading // the parts of this fork, read exactly
			for _, name := range parts {
				truth = append(truth, bench.Direct(name, 1.06*typical(t, f.Fork, name), 1e-6*typical(t, f.Fork, name)))
			}
			k, err := bench.Learn(t.Context(), f.Fork, room, f.Unknowns, truth)
			if err != nil {
				t.Fatal(err)
			}
			var text bytes.Buffer
			if err := benchfile.WriteRecord(&text, f, k, "mine"); err != nil {
				t.Fatal(err)
			}
			set, err := data.Decode(&text)
			if err != nil {
				t.Fatal(err)
			}
			mine, err := set.Fork("mine")
			if err != nil {
				t.Fatal(err)
			}
			kept, err1 := mine.Setup(room)
			known, err2 := setup.New(k.Fork().Spec)
			before, err3 := record.Setup(room)
			if err := errors.Join(err1, err2, err3); err != nil {
				t.Fatal(err)
			}
			for _, share := range []units.Length{0.1, 0.3, 0.6, 0.9} {
				x := share * record.Travel.Value
				a, b, c := known.Curve(1).Force(x), kept.Curve(1).Force(x), before.Curve(1).Force(x)
				if !(math.Abs(float64(a-b)) <= 0.003*math.Abs(float64(a))) {
					t.Errorf("force at %.0f: %.1f, of the record %.1f, of its kind %.1f", x, a, b, c)
				}
				if share == 0.1 && a == c {
					t.Errorf("the parts changed nothing: %.1f", a)
				}
			}
		})
	}
}

// typical is the number of a fork of the kind: rates are factors.
func typical(t *testing.T, f bench.Fork, name string) float64 {
	if !strings.HasSuffix(name, "pressure") {
		return 1
	}
	if f.Spec.Left.Damper == nil {
		t.Fatal("no gas in the damper")
	}
	return f.Spec.Left.Damper.Fill.Gauge.In(units.Pascal)
}

func FuzzDecode(f *testing.F) {
	f.Add(good)
	f.Add(strings.Replace(good, "250 mm", "304.9 mm", 1))
	f.Fuzz(func(t *testing.T, text string) {
		file, err := decode(text)
		if err != nil {
			return
		}
		if _, err := bench.Learn(context.Background(), file.Fork, file.Room, file.Unknowns, file.Readings); err != nil {
			_ = err.Error()
		}
	})
}

// The readings that ship with the program know the oil three times better and more than
// forks of its kind do.
func TestShippedScenario(t *testing.T) {
	in, err := os.Open("../../../examples/bench/readings.toml")
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	f, err := benchfile.Decode("readings.toml", in, data.Reference())
	if err != nil {
		t.Fatal(err)
	}
	k, err := bench.Learn(context.Background(), f.Fork, f.Room, f.Unknowns, f.Readings)
	if err != nil {
		t.Fatal(err)
	}
	a, err := k.Answer(bench.OilFor(f.Side, 3.5))
	if err != nil || a.Before < 3*a.SD || len(f.Readings) != 6 {
		t.Errorf("oil %v, %v, by %d readings", a, err, len(f.Readings))
	}
}

// Every fork of the dataset goes to the bench and comes back: readings of another fork of its
// kind make a record that decodes, stands, and is that fork within its uncertainties.
func TestEveryForkComesBack(t *testing.T) {
	room, err := gas.StandardAt(240*units.Meter, units.Celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	for record := range data.Reference().Forks() {
		t.Run(record.ID, func(t *testing.T) {
			f := &benchfile.File{Title: "of every fork", Record: record, Room: room}
			f.Fork, f.Unknowns, f.Side = benchfile.Of(record, room)
			nothing, err := bench.Learn(t.Context(), f.Fork, room, f.Unknowns,
				[]bench.Reading{bench.WheelMass{Mass: f.Fork.Chassis.UnsprungMass, SD: 1e6}})
			if err != nil {
				t.Fatal(err)
			}
			truth := nothing.Draw(5, 5)
			if f.Readings, err = bench.Simulate(truth, room, plan(record, f.Fork), rand.New(rand.NewPCG(7, 7))); err != nil {
				t.Fatal(err)
			}
			k, err := bench.Learn(t.Context(), f.Fork, room, f.Unknowns, f.Readings)
			if err != nil {
				t.Fatal(err)
			}
			var text bytes.Buffer
			if err := benchfile.WriteRecord(&text, f, k, "mine"); err != nil {
				t.Fatal(err)
			}
			set, err := data.Decode(&text)
			if err != nil {
				t.Fatal(err)
			}
			mine, err := set.Fork("mine")
			if err != nil {
				t.Fatal(err)
			}
			known, err := setup.New(k.Fork().Spec)
			if err != nil {
				t.Fatal(err)
			}
			kept, err := mine.Setup(room)
			if err != nil {
				t.Fatal(err)
			}
			x := record.Travel.Value / 2
			a, b := known.Curve(1).Force(x), kept.Curve(1).Force(x)
			if !(math.Abs(float64(a-b)) <= 0.02*float64(a)) {
				t.Errorf("force at half travel %.0f, of the record %.0f", a, b)
			}
		})
	}
}
