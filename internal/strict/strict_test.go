package strict_test

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/units"
)

func parse(t *testing.T, text string) *strict.Doc {
	t.Helper()
	d, err := strict.Parse("job.toml", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// TestParseFaults: texts that cannot be read at all.
func TestParseFaults(t *testing.T) {
	for _, tc := range []struct{ name, text, want string }{
		{"nothing", "", "job.toml:1: empty: no key in it"},
		{"comments only", "# a\n# b\n", "job.toml:1: empty: no key in it"},
		{"NUL", "a = 1\nb = \"\x00\"\n", "job.toml:2:6: not a text in UTF-8: byte 0x00"},
		{"Latin-1", "a = 1\n\nb = \"25 \xb0C\"\n", "job.toml:3:9: not a text in UTF-8: byte 0xb0"},
		{"UTF-16", "\xff\xfea\x00", "job.toml:1:1: not a text in UTF-8: byte 0xff"},
		{"no value", "a = 1\nb =\n", "job.toml:2: b: not TOML: expected value but found '\\n' instead"},
		{"no quotes", "[rider]\nmass = 82 kg\n", "job.toml:2: rider: not TOML: expected a top-level item to end with " +
			"a newline, comment, or EOF, but got 'k' instead; texts and quantities go in quotes"},
		{"open string", "a = \"x\nb = 1\n", "job.toml:1: a: not TOML: strings cannot contain newlines"},
		{"same key twice", "[rider]\nmass = \"82 kg\"\nrange = 1\nmass = \"83 kg\"\n",
			"job.toml:4: rider.mass: not TOML: Key 'rider.mass' has already been defined"},
		{"same table twice", "[rider]\na = 1\n[fork]\na = 1\n[rider]\n",
			"job.toml:5:2: not TOML: Key 'rider' has already been defined"},
		{"list of tables", "a = 1\n\n[[fork]]\nb = 1\n[[fork]]\nb = 2\n",
			"job.toml:3:1: a list of tables [[…]]; name each table instead, as [fork.mine]"},
		{"list of tables without a name", "[[\n", "job.toml:1:1: a list of tables [[…]]; name each table instead"},
		{"deep list", "a = 1\nb = " + strings.Repeat("[", 500_000), "job.toml:2:21: nested more than 16 deep"},
		{"deep inline table", "b = " + strings.Repeat("{a=", 300_000), "job.toml:1:53: nested more than 16 deep"},
		{"long dotted key", strings.Repeat("a.", 300_000) + "b = 1", "job.toml:1:34: nested more than 16 deep"},
		{"long dotted table", "\n[" + strings.Repeat("a.", 300_000) + "b]", "job.toml:2:35: nested more than 16 deep"},
		{"deep behind a tricky string", `a = """x\""" """""` + "\nb = ''''''\nc = '\\'\nd = \"#\\\"[\"\n# [[\ne = " +
			strings.Repeat("[", 17), "job.toml:6:21: nested more than 16 deep"},
		{"line feed in a key", "a = 1\n\"b\\nc\" = 2\n",
			"job.toml:2:10: a key: holds the control character U+000A; want letters, digits, signs and spaces in one line"},
		{"long key", "a = 1\n" + strings.Repeat("b", 500) + " = 2\n",
			"job.toml:2:504: a key: 500 characters; want 200 at most"},
		{"10 MB", "a = \"" + strings.Repeat("x", 10<<20) + "\"",
			"job.toml:1: more than 1 MiB of text; is this the right file?"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			_, err := strict.Parse("job.toml", strings.NewReader(tc.text))
			var e *units.FileError
			if !errors.As(err, &e) {
				t.Fatalf("error %v; want *units.FileError", err)
			}
			if e.Error() != tc.want {
				t.Errorf("got  %s\nwant %s", e, tc.want)
			}
		})
	}
}

// JSON reads as TOML of the same keys, with the places of its own text.
func TestJSON(t *testing.T) {
	d := parse(t, "{\n \"rider\": {\"mass\": \"82\",\n  \"stance\": \"sitting\"},\n \"n\": 3, \"x\": 1.5, \"on\": true,\n"+
		" \"list\": [\"1 mm\", \"2 mm\"], \"other\": {\"odd\": 1}}")
	r := d.Root()
	rider := r.Table("rider")
	strict.Quantity[units.Mass](rider, "mass")
	rider.Word("stance", "standing", "seated")
	if lo, hi := strict.Range[units.Length](r, "list"); lo != units.Millimeter || hi != 2*units.Millimeter {
		t.Errorf("list %v to %v", lo, hi)
	}
	if r.Number("x", 0, 9) != 1.5 || r.Number("n", 0, 9) != 3 || !r.Bool("on") {
		t.Error("numbers and switches are not those of the text")
	}
	r.Table("other")
	want := "job.toml:2: rider.mass = \"82\": unit missing; want " + masses() + "\n" +
		"job.toml:3: rider.stance = \"sitting\": want standing or seated\n" +
		"job.toml:5: other.odd: unknown key"
	if err := d.Err(); err == nil || err.Error() != want {
		t.Errorf("%v\nwant\n%s", err, want)
	}
	for text, want := range map[string]string{
		"{":                               ":1:2: not JSON: it ends before its last brace",
		"{\n\"a\": 1,}":                   ":2:7: not JSON: invalid character '}'",
		`{"a": 1} {}`:                     "more behind the last brace",
		`{"a": null}`:                     "null; leave the key out",
		`{"a": {"b": 1, "b": 2}}`:         "key a.b stands twice",
		`{"a": 1e999}`:                    "value out of range",
		`{}`:                              "empty",
		`{"a":` + strings.Repeat("[", 50): "nested more than 16 deep",
	} {
		_, err := strict.Parse("job.toml", strings.NewReader(text))
		var fault *units.FileError
		if !errors.As(err, &fault) || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}

func TestParseReadError(t *testing.T) {
	_, err := strict.Parse("job.toml", io.MultiReader(strings.NewReader("a = 1\n"), brokenReader{}))
	if !errors.Is(err, io.ErrClosedPipe) {
		t.Errorf("got %v; want the reader's error", err)
	}
}

type brokenReader struct{}

func (brokenReader) Read([]byte) (int, error) { return 0, io.ErrClosedPipe }

// TestReadFaults: every fault a read can meet, with its exact text and line.
func TestReadFaults(t *testing.T) {
	mass := func(t *strict.Table, checks ...strict.Check[units.Mass]) {
		strict.Quantity(t, "mass", checks...)
	}
	adult := strict.Between(20*units.Kilogram, 200*units.Kilogram)
	lengths := func(t *strict.Table) { strict.Range[units.Length](t, "preload") }
	for _, tc := range []struct {
		name, text string
		read       func(*strict.Table)
		want       string
	}{
		{"quantity missing", "[rider]\n", func(r *strict.Table) { mass(r.Table("rider")) },
			`1: rider.mass: missing; want mass with unit, as "12 kg"`},
		{"quantity missing at the root", "\n\na = 1\n", func(r *strict.Table) { r.Number("a", 0, 1); mass(r) },
			`1: mass: missing; want mass with unit, as "12 kg"`},
		{"quantity missing in an implied table", "\n[rider.b]\n",
			func(r *strict.Table) { mass(r.Table("rider")); r.Table("rider").Table("b") },
			`2: rider.mass: missing; want mass with unit, as "12 kg"`},
		{"no unit", "\nmass = \"82\"\n", func(r *strict.Table) { mass(r) },
			`2: mass = "82": unit missing; want ` + masses()},
		{"wrong unit", "mass = \"82 mm\"\n", func(r *strict.Table) { mass(r) },
			`1: mass = "82 mm": mm is a length; want ` + masses()},
		{"bare number", "mass = 82.5\n", func(r *strict.Table) { mass(r) },
			`1: mass = 82.5: a bare number; write it with its unit, as "82.5 kg"`},
		{"bare whole number", "mass = 82\n", func(r *strict.Table) { mass(r) },
			`1: mass = 82: a bare number; write it with its unit, as "82 kg"`},
		{"not a number", "mass = nan\n", func(r *strict.Table) { mass(r) },
			`1: mass = NaN: not a finite number; want mass with unit, as "12 kg"`},
		{"infinite number", "mass = -inf\n", func(r *strict.Table) { mass(r) },
			`1: mass = -Inf: not a finite number; want mass with unit, as "12 kg"`},
		{"no quantity at all", "mass = true\n", func(r *strict.Table) { mass(r) },
			`1: mass = true: true or false; want mass with unit, as "12 kg"`},
		{"two words in a name", "p = 1979-05-27\n", func(r *strict.Table) { strict.Quantity[units.GaugePressure](r, "p") },
			`1: p: a date; want gauge pressure with unit, as "12 bar"`},
		{"out of range", "mass = \"302 kg\"\n", func(r *strict.Table) { mass(r, adult) },
			`1: mass = "302 kg": want 20 kg to 200 kg`},
		{"absurd", "mass = \"82000 kg\"\n", func(r *strict.Table) { mass(r, adult) },
			`1: mass = "82000 kg": want 20 kg to 200 kg (is the unit right?)`},
		{"negative", "mass = \"-1 kg\"\n", func(r *strict.Table) { mass(r, adult) },
			`1: mass = "-1 kg": want 20 kg to 200 kg`},
		{"absurdly small", "mass = \"82 g\"\n", func(r *strict.Table) { mass(r, adult) },
			`1: mass = "82 g": want 20 kg to 200 kg (is the unit right?)`},
		{"range missing", "a = {}\n", func(r *strict.Table) { strict.Range[units.Length](r.Table("a"), "preload") },
			`1: a.preload: missing; want length with unit, as ["12 mm", "…"]`},
		{"range of one", "preload = [\"3 mm\"]\n", lengths,
			`1: preload = ["3 mm"]: a list of 1; want two values, the lower one first`},
		{"range upside down", "preload = [\n \"5 mm\",\n \"3 mm\"]\n", lengths,
			`1: preload = ["5 mm", "3 mm"]: the first value is above the second; want the lower one first`},
		{"range not a list", "preload = \"3 mm\"\n", lengths,
			`1: preload = "3 mm": a text; want length with unit, as ["12 mm", "…"]`},
		{"range with a number", "preload = [3, 5]\n", lengths,
			`1: preload = [3, 5]: a bare number; write it with its unit, as "3 mm"`},
		{"range out of range", "preload = [\"3 mm\", \"500 mm\"]\n", func(r *strict.Table) {
			strict.Range(r, "preload", strict.Between(0, 50*units.Millimeter))
		}, `1: preload = ["3 mm", "500 mm"]: want 0 mm to 50 mm`},
		{"list empty", "d = []\n", func(r *strict.Table) { strict.Quantities[units.Length](r, "d") },
			`1: d = []: an empty list`},
		{"list missing", "d = {}\n", func(r *strict.Table) { strict.Quantities[units.Length](r.Table("d"), "e") },
			`1: d.e: missing; want length with unit, as ["12 mm", …]`},
		{"share as a number", "front = 0.48\n", func(r *strict.Table) { strict.Quantity[units.Share](r, "front") },
			`1: front = 0.48: a bare number; write it with its unit, as "0.48 %"`},
		{"text missing", "d = {}\n", func(r *strict.Table) { r.Table("d").Text("name") },
			`1: d.name: missing; want a text in quotes`},
		{"text blank", "name = \" \"\n", func(r *strict.Table) { r.Text("name") },
			`1: name = " ": empty; want a text`},
		{"text with a line feed", "name = \"a\\nSTOP\"\n", func(r *strict.Table) { r.Text("name") },
			`1: name = "a\nSTOP": holds the control character U+000A; want letters, digits, signs and spaces in one line`},
		{"text with an escape", "name = \"\\u001b[2J\"\n", func(r *strict.Table) { r.Text("name") },
			`1: name = "\x1b[2J": holds the control character U+001B; want letters, digits, signs and spaces in one line`},
		{"text turned round", "name = \"\u202eabc\"\n", func(r *strict.Table) { r.Text("name") },
			`1: name = "\u202eabc": holds the control character U+202E; want letters, digits, signs and spaces in one line`},
		{"text too long", "name = \"" + strings.Repeat("x", 401) + "\"\n", func(r *strict.Table) { r.Text("name") },
			`1: name: 401 characters; want 200 at most`},
		{"text a number", "name = 7\n", func(r *strict.Table) { r.Text("name") },
			`1: name = 7: a number; want a text in quotes`},
		{"words missing", "d = {}\n", func(r *strict.Table) { r.Table("d").Words("legs", "left", "right", "both") },
			`1: d.legs: missing; want a list of left, right or both`},
		{"words a text", "legs = \"left\"\n", func(r *strict.Table) { r.Words("legs", "left", "right") },
			`1: legs = "left": a text; want a list of left or right`},
		{"words none", "legs = []\n", func(r *strict.Table) { r.Words("legs", "left", "right") },
			`1: legs = []: want a list of left or right`},
		{"words foreign", "legs = [\"left\", \"middle\"]\n", func(r *strict.Table) { r.Words("legs", "left", "right") },
			`1: legs = ["left", "middle"]: want a list of left or right`},
		{"words with a number", "legs = [\"left\", 2]\n", func(r *strict.Table) { r.Words("legs", "left", "right") },
			`1: legs = ["left", 2]: want a list of left or right`},
		{"word missing", "d = {}\n", func(r *strict.Table) { r.Table("d").Word("leg", "left", "right", "both") },
			`1: d.leg: missing; want left, right or both`},
		{"word close", "leg = \"rihgt\"\n", func(r *strict.Table) { r.Word("leg", "left", "right", "both") },
			`1: leg = "rihgt": want left, right or both; did you mean right?`},
		{"word foreign", "leg = \"middle\"\n", func(r *strict.Table) { r.Word("leg", "left", "right", "both") },
			`1: leg = "middle": want left, right or both`},
		{"word a number", "leg = 1\n", func(r *strict.Table) { r.Word("leg", "left", "right") },
			`1: leg = 1: a number; want left or right`},
		{"number missing", "d = {}\n", func(r *strict.Table) { r.Table("d").Number("coils", 2, 60) },
			`1: d.coils: missing; want a number`},
		{"number a text", "coils = \"20\"\n", func(r *strict.Table) { r.Number("coils", 2, 60) },
			`1: coils = "20": a text; want a number`},
		{"number out of thirds", "n = 2\n", func(r *strict.Table) { r.Number("n", 1, 5.0/3) },
			`1: n = 2: want 1 to 1.66667`},
		{"out of a range of thirds", "mass = \"2 kg\"\n", func(r *strict.Table) {
			mass(r, strict.Between(units.Kilogram/3, units.Kilogram))
		},
			`1: mass = "2 kg": want 0.333333 kg to 1 kg`},
		{"unknown key like none", "a = 1\nweight = 2\n", func(r *strict.Table) {
			r.Number("a", 0, 1)
			r.OptionalText("name")
		},
			`2: weight: unknown key; known here: a, name`},
		{"number out of range", "coils = 61\n", func(r *strict.Table) { r.Number("coils", 2, 60) },
			`1: coils = 61: want 2 to 60`},
		{"number nan", "coils = nan\n", func(r *strict.Table) { r.Number("coils", 2, 60) },
			`1: coils = NaN: want 2 to 60`},
		{"bool a text", "on = \"yes\"\n", func(r *strict.Table) { r.Bool("on") },
			`1: on = "yes": a text; want true or false`},
		{"table missing", "a = 1\n", func(r *strict.Table) { r.Number("a", 0, 1); mass(r.Table("rider")) },
			`1: rider: missing; want a table [rider]`},
		{"table a number", "\nrider = 1\n", func(r *strict.Table) { mass(r.Table("rider")) },
			`2: rider = 1: a number; want a table`},
		{"tables with a number", "[M01]\n[M02]\n[M03]\nx=1\n", func(r *strict.Table) {
			for _, t := range r.Tables() {
				for range t.Tables() {
				}
			}
		}, `4: M03.x = 1: a number; want a table`},
		{"unknown key, close", "[rider]\nmass = \"82 kg\"\nhieght = 1\n", func(r *strict.Table) {
			mass(r.Table("rider"))
			strict.OptionalQuantity[units.Length](r.Table("rider"), "height")
		}, `3: rider.hieght: unknown key; did you mean height?`},
		{"unknown key, quoted", "\n\"a b\".c = 1\n", func(r *strict.Table) {}, `2: "a b": unknown key`},
		{"unknown key in an inline table", "\nmass = { value = \"1 kg\", soruce = \"x\" }\n", func(r *strict.Table) {
			strict.Quantity[units.Mass](r.Table("mass"), "value")
			r.Table("mass").OptionalText("source")
		}, `2: mass.soruce: unknown key; did you mean source?`},
		{"unknown table, said once", "\n[raider]\nmass = 1\n[raider.kit]\nx = 1\n",
			func(r *strict.Table) { r.OptionalTable("rider") },
			`2: raider: unknown key; did you mean rider?`},
		{"list of inline tables", "\nfork = [{a = 1}]\n", func(r *strict.Table) { r.Words("fork", "left", "right") },
			`2: fork: want a list of left or right`},
		{"reader's own", "a = 1\nb = 2\n", func(r *strict.Table) {
			r.Number("a", 0, 9)
			r.Number("b", 0, 9)
			r.Fault("b", errors.New("odd"))
		}, `2: b = 2: odd`},
		{"reader's own, joined", "b = 2\n", func(r *strict.Table) {
			r.Number("b", 0, 9)
			r.Fault("b", errors.Join(errors.New("odd"), &units.RangeError{Field: "x", Value: 2, Want: "3"}))
		}, "1: b = 2: odd\njob.toml:1: b = 2: want 3"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			d := parse(t, tc.text)
			tc.read(d.Root())
			if got := fmt.Sprint(d.Err()); got != "job.toml:"+tc.want {
				t.Errorf("got  %s\nwant job.toml:%s", got, tc.want)
			}
		})
	}
}

func TestReads(t *testing.T) {
	d := parse(t, `
name = "mine"
n = 3
on = true
coils = 24.5
whole = 24
front = "48.5 %"
sag = ["0.1 %", "33%"]
words = ["left", "both"]
[rider]
mass = "180 lb"
preload = ["3 mm", "5 mm"]
pressure = "9.6 bar"
temperature = "20 °C"
wires = ["2.5 mm", "3.2 mm", "4 mm"]
[rider.kit]
`)
	r := d.Root()
	check := func(name string, got, want any) {
		t.Helper()
		if fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("%s: got %v, want %v", name, got, want)
		}
	}
	check("Keys", r.Keys(), "[name n on coils whole front sag words rider]")
	check("Text", r.Text("name"), "mine")
	check("whole", r.Number("n", 0, 9), 3)
	check("Bool", r.Bool("on"), true)
	check("Bool missing", r.Bool("off"), false)
	check("Number", r.Number("coils", 0, 99), 24.5)
	check("Number whole", r.Number("whole", 0, 99), 24)
	check("share", strict.Quantity[units.Share](r, "front"), units.Share(0.485))
	lo, hi := strict.Range[units.Share](r, "sag")
	check("shares", fmt.Sprint(lo, hi), "0.1 % 33 %")
	check("Words", r.Words("words", "left", "right", "both"), "[left both]")
	check("Word", r.Word("name", "yours", "mine"), "mine")
	rider := r.Table("rider")
	check("Quantity", strict.Quantity(rider, "mass", strict.Between(20*units.Kilogram, 200*units.Kilogram)),
		"81.6466266 kg")
	from, to := strict.Range[units.Length](rider, "preload")
	check("Range", fmt.Sprint(from, to), "3 mm 5 mm")
	check("gauge", strict.Quantity(rider, "pressure", strict.Between(units.Gauge(0), units.Gauge(20*units.Bar))),
		units.Gauge(9.6*units.Bar))
	check("temperature", strict.Quantity(rider, "temperature", strict.Between(units.Celsius(-30), units.Celsius(50))),
		units.Celsius(20))
	check("Quantities", len(strict.Quantities[units.Length](rider, "wires")), 3)
	check("HasTable", fmt.Sprint(rider.HasTable("kit"), rider.HasTable("mass"), r.Has("rider"), r.Has("none")),
		"true false true false")
	for _, optional := range []bool{
		func() bool { _, ok := strict.OptionalQuantity[units.Mass](rider, "none"); return ok }(),
		func() bool { _, _, ok := strict.OptionalRange[units.Mass](rider, "none"); return ok }(),
		func() bool { _, ok := r.OptionalText("none"); return ok }(),
		func() bool { _, ok := r.OptionalWord("none", "x"); return ok }(),
		func() bool { _, ok := r.OptionalNumber("none", 0, 1); return ok }(),
		r.OptionalTable("none") != nil,
	} {
		check("optional, missing", optional, false)
	}
	if err := d.Err(); err != nil {
		t.Error(err)
	}
}

// TestOrder: all faults at once, in the order of the lines whatever the order of
// the reads, each a *FileError that leads to the error of package units behind it.
func TestOrder(t *testing.T) {
	d := parse(t, "x = 1\nmass = \"82\"\ny = 2\ntravel = \"9 m\"\n")
	strict.Quantity(d.Root(), "travel", strict.Between(20*units.Millimeter, 400*units.Millimeter))
	strict.Quantity[units.Mass](d.Root(), "mass")
	err := d.Err()
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		t.Fatalf("%v is not joined", err)
	}
	var lines []int
	for _, err := range joined.Unwrap() {
		lines = append(lines, err.(*units.FileError).Line)
	}
	if !slices.Equal(lines, []int{1, 2, 3, 4}) {
		t.Errorf("lines %v", lines)
	}
	var re *units.RangeError
	var pe *units.ParseError
	if !errors.As(err, &re) || !errors.As(err, &pe) {
		t.Errorf("no RangeError or no ParseError in %v", err)
	}
	if again := d.Err(); again.Error() != err.Error() {
		t.Errorf("asked twice: %v", again)
	}
}

// The column is that of the value, in an inline table of the key, of a table of its bracket; what nobody wrote
// has that of what is around it.
func TestColumns(t *testing.T) {
	d := parse(t, "a = 1\nb  =  \"x\"\n  [t]\nc = { e = 'y', f = [1,\n2] }\n[u.v]\nw = 1\n")
	got := make(map[string]string)
	for range d.Root().Table("t").Table("c").Keys() {
	}
	d.Root().Table("t").Fault("missing", errors.New("missing"))
	for _, err := range check.Split(d.Err()) {
		e := err.(*units.FileError)
		got[e.Key] = fmt.Sprintf("%d:%d", e.Line, e.Column)
	}
	want := map[string]string{"a": "1:5", "b": "2:7", "t.c.e": "4:7", "t.c.f": "4:16", "t.missing": "3:3", "u": "6:1"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error("(-want +got)\n" + diff)
	}
}

// A range fault is a *units.RangeError whose field is the key.
func TestRangeFaults(t *testing.T) {
	d := parse(t, "[t]\nn = 61\ni = 9\nshare = \"480 %\"\nmass = \"1 kg\"\n")
	r := d.Root().Table("t")
	r.Number("n", 2, 60)
	r.Number("i", 0, 8)
	strict.Quantity(r, "share", strict.Between(0, 100*units.Percent))
	strict.Quantity(r, "mass", strict.Between(2*units.Kilogram, 3*units.Kilogram))
	faults := check.Split(d.Err())
	for _, err := range faults {
		var out *units.RangeError
		if !errors.As(err, &out) || out.Field != err.(*units.FileError).Key {
			t.Errorf("%v holds %+v", err, out)
		}
	}
	if len(faults) != 4 {
		t.Errorf("%d faults: %v", len(faults), d.Err())
	}
}

// No more is read of records when there are more faults than are listed.
func TestManyBadRecords(t *testing.T) {
	var b strings.Builder
	for i := range 20_000 {
		fmt.Fprintf(&b, "[x%d]\n", i)
	}
	d, read := parse(t, b.String()), 0
	for _, t := range d.Root().Tables() {
		t.Text("name")
		read++
	}
	if faults := check.Split(d.Err()); len(faults) != 101 || read != 101 {
		t.Errorf("%d faults of %d records read, want 101 and 101", len(faults), read)
	}
}

func TestManyFaults(t *testing.T) {
	d := parse(t, func() string {
		var b strings.Builder
		for i := range 5000 {
			fmt.Fprintf(&b, "k%d = %d\n", i, i)
		}
		return b.String()
	}())
	lines := strings.Split(d.Err().Error(), "\n")
	if len(lines) != 101 || lines[99] != "job.toml:100: k99: unknown key" ||
		lines[100] != "job.toml:100: more than 100 faults; the rest is left out" {
		t.Errorf("%d lines, the last two %q", len(lines), lines[len(lines)-2:])
	}
}

func TestNearest(t *testing.T) {
	ids := []string{"M01", "M07", "M17", "B07", "B17"}
	for _, tc := range []struct{ word, want string }{
		{"m7", "[M07 M17]"}, {"M70", "[M07]"}, {"X", "[]"}, {"", "[]"}, {"m01", "[M01 M07]"},
	} {
		if got := fmt.Sprint(strict.Nearest(tc.word, ids, 3)); got != tc.want {
			t.Errorf("%q: got %s, want %s", tc.word, got, tc.want)
		}
	}
}

// FuzzParse: no panic, and every fault lies inside the file.
func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"", "a = 1", "[a.b]\nc = \"1 mm\"\nd = [\"1 mm\", \"2 mm\"]\n", "a = { b = '''\nx''', c = \"\"\"y\"\"\"\"\" }\n",
		"\v", "[[a]]\n", "a.b.c = 1\n[a.d]\n", "\xef\xbb\xbfa = 1979-05-27T07:32:00Z\n", "\"\" = 1\n[\"\"]\n",
		"a = [[[[[]]]]]\n", "a=inf\r\nb=nan",
		"{\"a\": {\"b\": [\"1 mm\", {\"c\": 2}]},\n\"d\": 1e3}", "{\"\": {\"\": 0}}", " {\"a\"",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		lines := 1 + strings.Count(text, "\n")
		inside := func(err error) {
			var e *units.FileError
			if !errors.As(err, &e) {
				t.Fatalf("%v is no *units.FileError", err)
			}
			if e.Line < 1 || e.Line > lines {
				t.Errorf("line %d of %d: %v", e.Line, lines, err)
			}
		}
		d, err := strict.Parse("fuzz.toml", strings.NewReader(text))
		if err != nil {
			inside(err)
			return
		}
		for i, key := range d.Root().Keys() {
			switch i % 8 {
			case 0:
				strict.Quantity(d.Root(), key, strict.Between(0, units.Meter))
			case 1:
				strict.Range[units.GaugePressure](d.Root(), key)
			case 2:
				strict.Quantity[units.Share](d.Root(), key)
			case 3:
				d.Root().Number(key, 0, 1)
			case 4:
				for _, child := range d.Root().Table(key).Tables() {
					child.Text(key)
				}
			case 5:
				d.Root().Words(key, "a", "b")
			case 6:
				d.Root().Bool(key)
			}
		}
		if err := d.Err(); err != nil {
			for _, e := range err.(interface{ Unwrap() []error }).Unwrap() {
				inside(e)
			}
		}
	})
}

// masses are the units of a mass.
func masses() string {
	_, err := units.Parse[units.Mass]("")
	_, list, _ := strings.Cut(err.Error(), "a number in ")
	return strings.TrimSuffix(list, ")")
}
