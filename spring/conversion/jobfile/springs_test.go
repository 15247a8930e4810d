package jobfile_test

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/units"
)

// tables of every kind of spring, of the force of a coil of 8 N/mm to 9 N/mm.
var tables = map[string]string{
	"stack": `kind = "stack"
soft = { rate = "15 N/mm", free-length = "300 mm", solid-length = "180 mm" }
hard = { rate = "17 N/mm", free-length = "305 mm", solid-length = "90 mm" }
`,
	"nested": `kind = "nested"
outer = { rate = "7 N/mm", free-length = "605 mm", solid-length = "280 mm" }
inner = { rate = "3 N/mm", free-length = "500 mm", solid-length = "180 mm" }
`,
	"progressive": `kind = "progressive"
groups.close = { coils = 20, gap = "6 mm", coil-rate = "260 N/mm" }
groups.open = { coils = 20, gap = "15 mm", coil-rate = "340 N/mm" }
`,
	"rate-table": `kind = "rate-table"
compressions = ["0 mm", "340 mm"]
rates = ["7 N/mm", "11 N/mm"]
`,
	"measured": `kind = "measured"
travels = ["0 mm", "100 mm", "200 mm", "330 mm"]
forces = ["0 N", "800 N", "1750 N", "3300 N"]
`,
}

const size = `free-length = "605 mm"
outer-diameter = "42 mm"
mass = "0.9 kg"
`

// A spring of any kind stands on the shelf and in the present fork, has a name, and goes with a report; it is told to
// those who write jobs and records.
func TestSpringsOfEveryKind(t *testing.T) {
	for _, word := range jobfile.Kinds() {
		if word == spring.KindCoil {
			continue // which is on the shelf of every job here
		}
		if tables[word] == "" {
			t.Errorf("no %s is read here", word)
		}
		for name, line := range map[string]string{"doc.go": "//   - " + word + ": ",
			"../../../data/schema.md": "`" + word + "`"} {
			if text, err := os.ReadFile(name); err != nil || !strings.Contains(string(text), line) {
				t.Errorf("%s does not tell of %s, %v", name, word, err)
			}
		}
	}
	head, shelf, _ := strings.Cut(good, "[shelf.a]")
	coils := strings.NewReplacer("[air]\npressure = \"9.0 bar\"\ntemperature = \"22 °C\"\naltitude = \"240 m\"\n", "",
		`"M07"`, `"M06"`, `legs = "left"`, `legs = "both"`).Replace(head)
	for name, table := range tables {
		f, err := decode(good + "[shelf.other]\n" + table + size)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		other := f.Job.Shelf[1]
		if _, ok := other.Spring.(spring.Adjustable); !ok || other.Size.FreeLength != 605*units.Millimeter {
			t.Errorf("%s: read as %+v", name, other)
		}
		if kind := spring.Kind(other.Spring); kind == spring.Kind(nil) {
			t.Errorf("%s is called a %s", name, kind)
		}
		r, err := conversion.Plan(f.Job)
		if err != nil || len(r.Candidates) != 2 {
			t.Errorf("%s on the shelf: %v", name, err)
		}
		if text, err := json.Marshal(r); err != nil || !strings.Contains(string(text), `"`+name+`"`) {
			t.Errorf("a report does not hold a %s, %v", name, err)
		}
		for _, leg := range []string{"both", "left"} {
			f, err = decode(coils + "[present." + leg + "]\npreload = \"5 mm\"\n" + table + "[shelf.a]" + shelf)
			if err != nil {
				t.Errorf("%s in the present fork: %v", name, err)
				continue
			}
			now, legs := f.Job.Present, []int{len(f.Job.Present.Left.Springs), len(f.Job.Present.Right.Springs)}
			c, err := now.Left.Springs[0].Curve(300 * units.Millimeter)
			if err != nil || legs[0] != 1 || legs[1] != 1 || c.Force(0) == 0 {
				t.Errorf("%s: %v springs in the legs, %v", name, legs, err)
			}
			if spring.Kind(now.Right.Springs[0]) == "coil" == (leg == "both") {
				t.Errorf("%s in %s: the right leg holds a %s", name, leg, spring.Kind(now.Right.Springs[0]))
			}
			if _, err := conversion.Plan(f.Job); err != nil {
				t.Errorf("%s in the present fork: %v", name, err)
			}
		}
	}
}

// Every fault of a spring's table has its line and key, and brings no others with it.
func TestSpringFaults(t *testing.T) {
	for _, c := range []struct {
		kind, old, new string
		want           []string
	}{
		{"stack", `"stack"`, `"stak"`, []string{`33: shelf.other.kind = "stak": want coil, stack`}},
		{"stack", `"15 N/mm"`, `"18 N/mm"`,
			[]string{`34: shelf.other.soft.rate = "18 N/mm": want at most the rate of Hard`}},
		{"stack", `solid-length = "180 mm"`, `solid-length = "310 mm"`, []string{`34: shelf.other.soft.`}},
		{"stack", `"17 N/mm"`, `"17 N"`, []string{`35: shelf.other.hard.rate = "17 N": `}},
		{"stack", `mass = "0.9 kg"`, `wire = "6 mm"`, []string{"32: shelf.other.mass: missing",
			"38: shelf.other.wire: unknown key"}},
		{"nested", `"3 N/mm"`, `"0 N/mm"`,
			[]string{`35: shelf.other.inner.rate = "0 N/mm": want 0.1 N/mm to 500 N/mm`}},
		{"progressive", `gap = "6 mm"`, `gap = "0 mm"`,
			[]string{`34: shelf.other.groups.close.gap = "0 mm": want 0.05 mm to 50 mm`}},
		{"rate-table", `"340 mm"]`, `"340 mm", "350 mm"]`,
			[]string{`35: shelf.other.rates = ["7 N/mm", "11 N/mm"]: want two lists of one length`}},
		{"nested", `mass = "0.9 kg"`, "mass = \"0.9 kg\"\ninner-diameter = \"43 mm\"",
			[]string{`39: shelf.other.inner-diameter = "43 mm": want 5 mm to 42 mm`}},
		{"rate-table", `["0 mm"`, `["5 mm"`, []string{`35: shelf.other.rates`}},
		{"measured", `"100 mm", "200 mm"`, `"200 mm", "100 mm"`, []string{`35: shelf.other.forces`}},
		{"measured", `mass = "0.9 kg"`, "mass = \"0.9 kg\"\nmaterial = \"cheese\"",
			[]string{`39: shelf.other.material = "cheese": no material "cheese"`}},
	} {
		text := strings.Replace(tables[c.kind]+size, c.old, c.new, 1)
		_, err := decode(good + "[shelf.other]\n" + text)
		for _, want := range c.want {
			if !strings.Contains(fmt.Sprint(err), "job.toml:"+want) {
				t.Errorf("%s with %s: no %s", c.kind, c.new, want)
			}
		}
		if n := len(check.Split(err)); n != len(c.want) {
			t.Errorf("%s with %s: %d faults, want %d\n%v", c.kind, c.new, n, len(c.want), err)
		}
	}
	_, err := decode(good + "[present.both]\nrate = \"4 N/mm\"\npreload = \"4 mm\"\nsolid-length = \"90 " +
		"mm\"\n[present.left]\nkind = \"spring\"\n")
	for _, want := range []string{"present.both.solid-length", "present.both: want both alone", "present.left.kind"} {
		if !strings.Contains(fmt.Sprint(err), want) {
			t.Errorf("no fault %s in\n%v", want, err)
		}
	}
}
