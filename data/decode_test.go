package data_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// schemaExample is the first TOML block of schema.md.
func schemaExample(t testing.TB) string {
	t.Helper()
	text, err := os.ReadFile("schema.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(text), "```toml\n")
	block, _, found := strings.Cut(rest, "```")
	if !found {
		t.Fatal("no TOML block in schema.md")
	}
	return block
}

func TestSchemaExample(t *testing.T) {
	set, err := data.DecodeFile("schema.md", strings.NewReader(schemaExample(t)))
	if err != nil {
		t.Fatal(err)
	}
	f, err := set.Fork("mine")
	if err != nil {
		t.Fatal(err)
	}
	if got := f.Friction; got.Value.String() != "80 N" || got.Source != "friction" || got.Note != "not measured" {
		t.Errorf("friction %+v", got)
	}
	if got := f.Left.Air.Pressure; got.Value.String() != "9.2 bar" || got.Source != "bench" || got.Note != "" {
		t.Errorf("pressure %+v", got)
	}
	assemble(t, f)
}

// TestSchemaKeys: schema.md names every key of every record.
func TestSchemaKeys(t *testing.T) {
	text, err := os.ReadFile("schema.md")
	if err != nil {
		t.Fatal(err)
	}
	every(data.Reference(), func(record string, e data.Entry) {
		last := e.Key[strings.LastIndexByte(e.Key, '.')+1:]
		if !bytes.Contains(text, []byte("`"+last)) && !bytes.Contains(text, []byte("\n"+last+" = ")) {
			t.Errorf("%s.%s is not in schema.md", record, e.Key)
		}
	})
}

func encode(t testing.TB, s *data.Set) string {
	t.Helper()
	var b bytes.Buffer
	if err := data.Encode(&b, s); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestRoundTrip: what is encoded decodes to the same set, value by value with source
// and note.
func TestRoundTrip(t *testing.T) {
	mine, err := data.Decode(strings.NewReader(schemaExample(t)))
	if err != nil {
		t.Fatal(err)
	}
	for _, tc := range []struct {
		name string
		set  *data.Set
	}{{"reference", data.Reference()}, {"schema example", mine}, {"merged", data.Merge(data.Reference(), mine)},
		{"nothing", data.Merge()}} {
		text := encode(t, tc.set)
		again, err := data.DecodeFile(tc.name, strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		if encode(t, again) != text {
			t.Errorf("%s: encodes differently the second time", tc.name)
		}
		same(t, tc.name, collect(tc.set.Forks()), collect(again.Forks()))
		same(t, tc.name, collect(tc.set.Materials()), collect(again.Materials()))
		same(t, tc.name, collect(tc.set.Fluids()), collect(again.Fluids()))
		same(t, tc.name, collect(tc.set.Gases()), collect(again.Gases()))
		same(t, tc.name, collect(tc.set.Disciplines()), collect(again.Disciplines()))
		same(t, tc.name, collect(tc.set.Sources()), collect(again.Sources()))
		same(t, tc.name, collect(tc.set.Spreads()), collect(again.Spreads()))
		same(t, tc.name, collect(tc.set.Classes()), collect(again.Classes()))
		same(t, tc.name, collect(tc.set.Specimens()), collect(again.Specimens()))
	}
}

func collect[R any](seq func(func(R) bool)) []R {
	var list []R
	for r := range seq {
		list = append(list, r)
	}
	return list
}

func same[R any](t *testing.T, name string, a, b []R) {
	t.Helper()
	if len(a) != len(b) {
		t.Errorf("%s: %d records, then %d", name, len(a), len(b))
		return
	}
	for i := range a {
		if !reflect.DeepEqual(a[i], b[i]) {
			t.Errorf("%s: got\n%+v\nwant\n%+v", name, b[i], a[i])
		}
	}
}

func TestMerge(t *testing.T) {
	const text = `
[source.mine]
kind = "demo"
document = "a test"
[discipline.road]
name = "my road"
source = "mine"
sag = ["20 %", "30 %"]
friction-zone = ["2 mm", "6 mm"]
`
	mine, err := data.Decode(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	merged := data.Merge(data.Reference(), mine)
	if d, err := merged.Discipline("road"); err != nil || d.Name != "my road" {
		t.Errorf("got %+v, %v", d, err)
	}
	if d, err := data.Reference().Discipline("road"); err != nil || d.Name == "my road" {
		t.Errorf("the reference changed: %+v, %v", d, err)
	}
	if f, err := merged.Fork("M19"); err != nil || f.Use != "road" {
		t.Errorf("got %v, %v", f.Use, err)
	}
}

// between is what stands in the text between two marks.
func between(text, from, to string) string {
	_, rest, _ := strings.Cut(text, from)
	s, _, _ := strings.Cut(rest, to)
	return s
}

// TestFaults: every kind of fault, made by one change to the example of schema.md, and
// the line it is reported at.
func TestFaults(t *testing.T) {
	example := schemaExample(t)
	line := func(text, mark string) int {
		i := strings.Index(text, mark)
		if i < 0 {
			t.Fatalf("%q is not in the text", mark)
		}
		return 1 + strings.Count(text[:i], "\n")
	}
	for _, tc := range []struct {
		name     string
		old, new string // the change
		at       string // the line reported is the first with this
		want     string // of the message, after file and line
	}{
		{"unknown key", `wheelbase = "1480 mm"`, "wheelbase = \"1480 mm\"\nweelbase = 1", "weelbase",
			`fork.mine.chassis.weelbase: unknown key; did you mean wheelbase?`},
		{"unknown key in a value", `note = "not measured"`, `nota = "not measured"`, "friction",
			`fork.mine.friction.nota: unknown key; did you mean note?`},
		{"unknown kind of record", `[source.bench]`, "[forks.x]\nname = \"y\"\n\n[source.bench]", "[forks.x]",
			`forks: unknown key; did you mean fork?`},
		{"missing value", `travel = "300 mm"`, ``, "[fork.mine]",
			`fork.mine.travel: missing; want length with unit, as "12 mm"`},
		{"missing table",
			"[fork.mine.rider]\nmass = \"85 kg\"               # in riding kit\nrange = [\"70 kg\", \"100 kg\"]\nstance = " +
				"\"standing\"          # or \"seated\", when sag is read\n", ``, "[fork.mine]",
			`fork.mine.rider: missing; want a table [fork.mine.rider]`},
		{"missing share", `front-share = "48.5 %"`, ``, "[fork.mine.chassis]",
			`fork.mine.chassis.front-share: missing; want share with unit, as "12 %"`},
		{"value without value", `rod = "12 mm"`, `rod = { note = "thin" }`, "rod =",
			`fork.mine.left.air.rod.value: missing; want length with unit, as "12 mm"`},
		{"optional value without value", `port = "0 mm"`, `port = { note = "unknown" }`, "port =",
			`fork.mine.left.air.port.value: missing; want length with unit, as "12 mm"`},
		{"missing sag", `rider = ["18 %", "27 %"]`, ``, "[fork.mine.sag]",
			`fork.mine.sag.rider: missing; want share with unit, as ["12 %", "…"]`},
		{"missing range", `oil = ["500 mL", "575 mL"]`, ``, "[fork.mine.kit]",
			`fork.mine.kit.oil: missing; want volume with unit, as ["12 mL", "…"]`},
		{"bare number", `travel = "300 mm"`, `travel = 300`, "travel",
			`fork.mine.travel = 300: a bare number; write it with its unit, as "300 mm"`},
		{"unit of another kind", `travel = "300 mm"`, `travel = "300 kg"`, "travel",
			`fork.mine.travel = "300 kg": kg is a mass; want ` + accepted[units.Length]()},
		{"gauge given as absolute", `pressure = "9.2 bar"`, `pressure = "9.2 bara"`, "pressure",
			`fork.mine.left.air.pressure = "9.2 bara": bara is absolute: it counts from vacuum, not from the ambient; ` +
				`want ` + accepted[units.GaugePressure]()},
		{"out of range", `travel = "300 mm"`, `travel = "0.9 m"`, "travel",
			`fork.mine.travel = "0.9 m": want 20 mm to 400 mm`},
		{"out of range by a unit", `travel = "300 mm"`, `travel = "300 m"`, "travel",
			`fork.mine.travel = "300 m": want 20 mm to 400 mm (is the unit right?)`},
		{"word", `layout = "inverted"`, `layout = "invertd"`, "layout",
			`fork.mine.layout = "invertd": want upright or inverted; did you mean inverted?`},
		{"no source", "source = \"bench\"             # of every value below that names no other\n", "", "travel",
			`fork.mine.travel = "300 mm": no source; name one in the table, as source = "measured", or beside the value`},
		{"source of a record that is nowhere", `source = "bench"`, `source = "bnech"`, "bnech",
			`fork.mine.source = "bnech": no source "bnech"; there is bench`},
		{"source of a value that is nowhere", `source = "friction"`, `source = "frictoin"`, "frictoin",
			`fork.mine.friction.source = "frictoin": no source "frictoin"; there is friction`},
		{"discipline that is nowhere", `use = "motocross"`, `use = "motocros"`, "use =",
			`fork.mine.use = "motocros": no discipline "motocros"; there is motocross`},
		{"derived without formula", `kind = "demo"`, `kind = "derived"`, "[source.bench]",
			`source.bench.formula: missing; want a text in quotes`},
		{"id", `[source.bench]`, "[source.\"a b\"]\nkind = \"demo\"\ndocument = \"x\"\n\n[source.bench]", "a b",
			`source."a b": not an id; want up to 40 letters, digits and hyphens`},
		{"trail", `trail = "114 mm"`, `trail = "124 mm"`, "trail",
			`fork.mine.chassis.trail = "124 mm": want what rake, offset and wheel radius give, 114 mm, within 4 mm`},
		{"unsprung mass and front share", `mass = "110 kg"`, `mass = "20 kg"`, "unsprung-mass",
			`fork.mine.chassis.unsprung-mass = "15.5 kg": want below the mass on the front wheel, 9.7 kg`},
		{"parts that make no fork", `rod = "12 mm"`, "second-volume = \"50 mL\"\nsecond-ratio = 5\nrod = \"12 mm\"",
			"second-ratio", `fork.mine.left.air.second-ratio = 5: want 0 bar to 40 bar (else it is no fork)`},
		{"sag without a window", `rider = ["18 %", "27 %"]`, `rider = ["20 %", "20 %"]`, `["20 %", "20 %"]`,
			`fork.mine.sag.rider = ["20 %", "20 %"]: want two shares that differ, the lower one first`},
		{"rider outside the range", `mass = "85 kg"`, `mass = "65 kg"`, "65 kg",
			`fork.mine.rider.mass = "65 kg": want a value inside range`},
		{"bore and stanchion", `stanchion-bore = "44 mm"`, `stanchion-bore = "48 mm"`, "stanchion-bore",
			`fork.mine.stanchion-bore = "48 mm": want a bore below the stanchion's outer diameter`},
		{"stanchion and outer bore", `outer-bore = "54 mm"`, `outer-bore = "46 mm"`, "outer-bore",
			`fork.mine.outer-bore = "46 mm": want a bore that takes the stanchion`},
		{"rod and bore", `rod = "12 mm"`, `rod = "34 mm"`, "rod =",
			`fork.mine.left.air.rod = "34 mm"` + ": want 0 mm to 30 mm"},
		{"air spring and stanchion",
			"bore = \"34 mm\"\nrod = \"12 mm\"                # \"0 mm\" for none\nvolume = \"430 mL\"",
			"bore = \"49 mm\"\nrod = \"12 mm\"\nvolume = \"900 mL\"", "49 mm",
			`fork.mine.left.air.bore = "49 mm": want a bore inside the stanchion`},
		{"kit and stanchion", "\nbore = \"44 mm\"", "\nbore = \"45 mm\"", "bore = \"45 mm\"",
			`fork.mine.kit.bore = "45 mm": want the stanchion's bore or less`},
		{"volume and swept volume", `volume = "430 mL"`, `volume = "272 mL"`, "272 mL",
			`fork.mine.left.air.volume = "272 mL": want more than the piston sweeps, 272 mL, reducers taken off`},
		{"pressure outside its range", `pressure = "9.2 bar"`, `pressure = "12.2 bar"`, "12.2 bar",
			`fork.mine.left.air.pressure = "12.2 bar": want a pressure inside pressures`},
		{"limit inside the range", `maximum = "12 bar"`, `maximum = "11 bar"`, "maximum",
			`fork.mine.left.air.maximum = "11 bar": want the top of pressures or more`},
		{"port without negative", `negative-volume = "70 mL"    # optional`, ``, "port",
			`fork.mine.left.air.port = "0 mm": want an equalized negative chamber beside it`},
		{"second volume alone", `rod = "12 mm"`, "second-volume = \"50 mL\"\nrod = \"12 mm\"", "second-volume",
			`fork.mine.left.air.second-volume = "50 mL": want second-ratio beside it`},
		{"balance rate alone", `rod = "12 mm"`, "balance-rate = \"4 N/mm\"\nrod = \"12 mm\"", "balance-rate",
			`fork.mine.left.air.balance-rate = "4 N/mm": want balance-length beside it`},
		{"spring in no leg", "role = \"air\"" + between(example, "role = \"air\"", "[fork.mine.left.oil]"),
			"role = \"damper\"\n", "[fork.mine.left]", `fork.mine.left: want a spring in one leg at least`},
		{"role and contents", `role = "air"`, `role = "damper"`, "role",
			`fork.mine.left.role = "damper": want a role with air, or no table of that name`},
		{"gap level alone", `residual = "300 mL"`, "level = \"115 mm\"\nresidual = \"300 mL\"", "level",
			`fork.mine.gap.level = "115 mm": want displaced beside it`},
		{"gap level and residual", `residual = "300 mL"`,
			"level = \"115 mm\"\ndisplaced = \"50 mL\"\nresidual = \"300 mL\"", "residual",
			`fork.mine.gap.residual = "300 mL": want what level and displaced leave, 180.1 mL, within 2 %`},
		{"no legs", `legs = ["left", "both"]`, `legs = []`, "legs =",
			`fork.mine.kit.legs = []: want a list of left, right or both`},
		{"aim outside", `oil-aim = "540 mL"`, `oil-aim = "640 mL"`, "oil-aim",
			`fork.mine.kit.oil-aim = "640 mL": want a value inside oil`},
		{"interior too small", `interior = "900 mL"`, `interior = "560 mL"`, "interior",
			`fork.mine.kit.interior = "560 mL": want room for the oil and the metal at least`},
		{"list of tables", `[fork.mine.rider]`, `[[fork.mine.rider]]`, "[[fork",
			`a list of tables [[…]]; name each table instead, as [fork.mine]`},
		{"record not a table", `[source.bench]`, "[gas]\nair = 1\n\n[source.bench]", "air = 1",
			`gas.air = 1: a number; want a table`},
	} {
		t.Run(tc.name, func(t *testing.T) {
			text := strings.Replace(example, tc.old, tc.new, 1)
			if text == example {
				t.Fatalf("%q is not in the example", tc.old)
			}
			_, err := data.DecodeFile("mine.toml", strings.NewReader(text))
			if err == nil {
				t.Fatal("no error")
			}
			if strings.Contains(err.Error(), "\n") && tc.name != "no source" {
				t.Errorf("one change, more than one fault:\n%v", err)
			}
			var found *units.FileError
			all := []error{err}
			if joined, ok := err.(interface{ Unwrap() []error }); ok {
				all = joined.Unwrap()
			}
			for _, err := range all {
				var e *units.FileError
				if errors.As(err, &e) && strings.HasSuffix(e.Error(), ": "+tc.want) {
					found = e
				}
			}
			if found == nil {
				t.Fatalf("got\n%v\nwant\n%s", err, tc.want)
			}
			if want := line(text, tc.at); found.Line != want {
				t.Errorf("line %d, want %d: %v", found.Line, want, found)
			}
		})
	}
}

// No stage hides the faults of another, and no fault brings others with it.
func TestAllFaultsAtOnce(t *testing.T) {
	for _, c := range []struct {
		name   string
		change []string // old, new, ...
		want   []string
	}{
		{"wrong trail behind a front share", []string{`trail = "114 mm"`, `trail = "90 mm"`, `front-share = "48.5 %"`,
			`front-share = "95 %"`},
			[]string{`chassis.front-share = "95 %": want 20 % to 80 %`,
				`chassis.trail = "90 mm": want what rake, offset and wheel radius give`}},
		{"pressure outside its range behind a rod", []string{`rod = "12 mm"`, `rod = "x"`, `pressure = "9.2 bar"`,
			`pressure = "12.2 bar"`},
			[]string{`air.rod = "x": `, `air.pressure = "12.2 bar": want a pressure inside pressures`}},
		{"a second volume that is none", []string{`rod = "12 mm"`,
			"rod = \"12 mm\"\nsecond-volume = \"9 kg\"\nsecond-ratio = 2"},
			[]string{`air.second-volume = "9 kg": `}},
		{"parts that make no fork behind the rider's stance", []string{`rod = "12 mm"`,
			"second-volume = \"50 mL\"\nsecond-ratio = 5\nrod = \"12 mm\"",
			`stance = "standing"`, `stance = "lying"`},
			[]string{`rider.stance = "lying": `, `left.air.second-ratio = 5: want 0 bar to 40 bar`}},
	} {
		_, err := data.DecodeFile("mine.toml", strings.NewReader(strings.NewReplacer(c.change...).Replace(schemaExample(t))))
		for _, want := range c.want {
			if !strings.Contains(fmt.Sprint(err), want) {
				t.Errorf("%s: no fault %s", c.name, want)
			}
		}
		if n := len(check.Split(err)); n != len(c.want) {
			t.Errorf("%s: %d faults, want %d\n%v", c.name, n, len(c.want), err)
		}
	}
}

// coilExample is the example of schema.md with a coil in both legs.
func coilExample(t testing.TB) string {
	left := `[fork.mine.left]
role = "coil+damper"
[fork.mine.left.coil]
rate = "4.6 N/mm"
rates = ["4.2 N/mm", "5 N/mm"]
preload = "6 mm"
preloads = ["2 mm", "10 mm"]
outer-diameter = "43 mm"
free-length = "490 mm"
material = "sicrv"
ends = "squared and ground"
wire = "5 mm"
active-coils = 24.6
[fork.mine.right]
like = "left"
`
	example := schemaExample(t)
	head, rest, _ := strings.Cut(example, "[fork.mine.left]")
	_, tail, _ := strings.Cut(rest, "[fork.mine.gap]")
	return head + left + "\n[fork.mine.gap]" + tail
}

func TestCoilFaults(t *testing.T) {
	example := coilExample(t)
	set, err := data.Decode(strings.NewReader(example))
	if err != nil {
		t.Fatal(err)
	}
	if f, _ := set.Fork("mine"); f.Right != f.Left || f.Spring() != data.CoilLeg {
		t.Errorf("right leg %+v", f.Right)
	}
	for _, tc := range []struct{ name, old, new, want string }{
		{"rate and coils", `active-coils = 24.6`, `active-coils = 30`,
			`fork.mine.left.coil.rate = "4.6 N/mm": want what wire, diameter and coils give, 3.77 N/mm, within 2 %`},
		{"material that is nowhere", `"sicrv"`, `"sicrx"`,
			`fork.mine.left.coil.material = "sicrx": no material "sicrx"; there is sicr, sicrv`},
		{"wire beyond the material", `wire = "5 mm"`, `wire = "11 mm"`,
			`fork.mine.left.coil.wire = "11 mm": want 2 mm to 10 mm, where the strength of sicrv is known`},
		{"ends", `"squared and ground"`, `"ground"`,
			`fork.mine.left.coil.ends = "ground": want squared and ground, squared, plain and ground or plain`},
		{"spring and stanchion", `outer-diameter = "43 mm"`, `outer-diameter = "45 mm"`,
			`fork.mine.left.coil.outer-diameter = "45 mm": want a spring that fits the stanchion's bore`},
		{"preload outside", `preload = "6 mm"`, `preload = "12 mm"`,
			`fork.mine.left.coil.preload = "12 mm": want a value inside preloads`},
		{"like the right", `like = "left"`, `like = "right"`, `fork.mine.right.like = "right": want left`},
	} {
		text := strings.Replace(example, tc.old, tc.new, 1)
		_, err := data.DecodeFile("mine.toml", strings.NewReader(text))
		if err == nil || !strings.Contains(err.Error(), ": "+tc.want) {
			t.Errorf("%s: got\n%v\nwant\n%s", tc.name, err, tc.want)
		}
	}
}

// FuzzDecode: no panic; what decodes encodes to a text that decodes the same.
func FuzzDecode(f *testing.F) {
	f.Add(schemaExample(f))
	f.Add(coilExample(f))
	f.Add("[meta]\nschema = 2\nx-a = { b = [1, 2.5], c = 2020-01-01T00:00:00Z }\n" +
		"[spread.travel]\nsource = \"bench\"\nsd = \"1 mm\"\n" + schemaExample(f))
	f.Add("[specimen.a]\nname = \"a\"\nsource = \"typical\"\ntravel = { value = \"100 mm\", low = \"90 mm\"," +
		" high = \"110 mm\", n = 3, means = \"tolerance\" }\n[specimen.a.chassis]\ntire = \"58-622\"\nx-b = \"c\"\n")
	f.Add("[fork.a]\nname = \"a\"\nbased-on = \"M39\"\n" +
		"[fork.b]\nname = \"b\"\nbased-on = \"a\"\nclass = \"bicycle-100\"\n")
	f.Add("[material]")
	f.Add(`[material.x]
name = "x"
source = "titanium"
shear-modulus = "41 GPa"
elastic-modulus = "104 GPa"
density = "4.8 g/ml"
softening = "0.0004 1/K"
yield-ratio = 0.35
thinnest = "2 mm"
up-to = ["14 mm"]
tensile-strength = ["1250 MPa"]
`)
	f.Add("[source.a]\nkind = \"demo\"\ndocument = \"\\u0007\\\"\\\\é\"\n[gas.b]\nname = \"b\"\nsource = \"a\"\n" +
		"density = { value = \"1 kg/m³\", note = \"\\n\" }\nadiabatic-exponent = 1.4\nride-exponent = 1.3\n")
	f.Fuzz(func(t *testing.T, text string) {
		set, err := data.DecodeFile("fuzz.toml", strings.NewReader(text))
		if err != nil {
			return
		}
		once := encode(t, set)
		again, err := data.DecodeFile("again.toml", strings.NewReader(once))
		if err != nil {
			t.Fatalf("%v\n%s", err, once)
		}
		if twice := encode(t, again); twice != once {
			t.Errorf("got\n%s\nwant\n%s", twice, once)
		}
	})
}

// accepted are the units of a quantity.
func accepted[Q units.Quantity]() string {
	_, err := units.Parse[Q]("")
	_, list, _ := strings.Cut(err.Error(), "a number in ")
	return strings.TrimSuffix(list, ")")
}

// A file of very many tables, each based on the next, is refused without reading them all.
func TestMostRecords(t *testing.T) {
	var text strings.Builder
	for i := range 4000 {
		fmt.Fprintf(&text, "[fork.a%d]\nbased-on = \"a%d\"\n", i, i+1)
	}
	_, err := data.Decode(strings.NewReader(text.String()))
	if err == nil || !strings.Contains(err.Error(), "4000 entries; want 2000 at most") {
		t.Errorf("error %.200v", err)
	}
}
