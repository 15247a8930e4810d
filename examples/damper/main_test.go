package main

import (
	"bytes"
	"fmt"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/units"
)

// program runs the command as a user would.
func program(t *testing.T, args ...string) (status int, out, problems string) {
	t.Helper()
	var o, p bytes.Buffer
	status = run(args, &o, &p)
	return status, o.String(), p.String()
}

func TestText(t *testing.T) {
	for _, c := range []struct {
		golden string
		args   []string
	}{
		{"default.golden", nil},
		{"bicycle.golden", []string{"-fork", "B04", "-oil", "fork-2-5", "-rebound", "0", "-compression", "20", "-stiffer", "-8", "-power", "80 W"}},
	} {
		t.Run(c.golden, func(t *testing.T) {
			status, out, problems := program(t, c.args...)
			if status != 0 || problems != "" {
				t.Errorf("status %d, %s", status, problems)
			}
			golden.Readable(t, out)
			golden.Check(t, c.golden, out)
		})
	}
}

func TestEveryFork(t *testing.T) {
	for fork := range data.Reference().Forks() {
		status, out, problems := program(t, "-fork", fork.ID)
		if status != 0 || problems != "" {
			t.Errorf("%s: status %d, %s", fork.ID, status, problems)
		}
		golden.Readable(t, out)
	}
}

// Every oil with a known viscosity, with both needles at either end.
func TestEveryOil(t *testing.T) {
	for fluid := range data.Reference().Fluids() {
		known, err := fluid.Oil()
		if err != nil {
			t.Fatal(err)
		}
		for _, out := range []string{"0", "20"} {
			status, text, problems := program(t, "-oil", fluid.ID, "-rebound", out, "-compression", out)
			if !known.HasViscosity() {
				if status != badInput || !strings.Contains(problems, "viscosity") {
					t.Errorf("%s: status %d, %s", fluid.ID, status, problems)
				}
				continue
			}
			if status != 0 || problems != "" {
				t.Errorf("%s, %s out: status %d, %s", fluid.ID, out, status, problems)
			}
			golden.Readable(t, text)
		}
	}
}

func TestBadInput(t *testing.T) {
	for _, c := range []struct {
		name string
		args []string
		want []string
	}{
		{"no such fork", []string{"-fork", "M99"}, []string{"-fork", "M99"}},
		{"no such oil", []string{"-oil", "soup"}, []string{"-oil", "soup"}},
		{"needle beyond open", []string{"-rebound", "21"}, []string{"-rebound", "21", "0 to 20"}},
		{"needle beyond closed", []string{"-compression", "-1"}, []string{"-compression", "0 to 20"}},
		{"needle in halves", []string{"-rebound", "1.5"}, []string{"1.5"}},
		{"springs too stiff", []string{"-stiffer", "80"}, []string{"-stiffer", "80 %", "30 %"}},
		{"springs of no number", []string{"-stiffer", "NaN"}, []string{"-stiffer", "NaN"}},
		{"bare power", []string{"-power", "150"}, []string{"-power", "W"}},
		{"no power", []string{"-power", "0 W"}, []string{"-power", "1 W"}},
		{"power in another unit", []string{"-power", "150 N"}, []string{"-power", "W"}},
		{"all at once", []string{"-fork", "M99", "-oil", "soup", "-power", "x", "-rebound", "50"}, []string{"M99", "soup", "-power", "50"}},
		{"no such flag", []string{"-frok", "M06"}, []string{"frok"}},
		{"words left over", []string{"M06"}, []string{`"M06"`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, out, problems := program(t, c.args...)
			if status != badInput || out != "" {
				t.Errorf("status %d, printed %q", status, out)
			}
			for _, want := range c.want {
				if !strings.Contains(problems, want) {
					t.Errorf("no %q in %s", want, problems)
				}
			}
		})
	}
	if status, _, problems := program(t, "-out", "/dev/null/x"); status != badInput || !strings.Contains(problems, "/dev/null") {
		t.Errorf("into no folder: status %d, %s", status, problems)
	}
}

func TestHelp(t *testing.T) {
	if status, _, problems := program(t, "-h"); status != 0 || !strings.Contains(problems, "-stiffer") {
		t.Errorf("status %d, %s", status, problems)
	}
}

func TestPlots(t *testing.T) {
	names := []string{"force", "force-slow", "shares-compression", "shares-rebound", "ratio"}
	first, second := t.TempDir(), filepath.Join(t.TempDir(), "new")
	for _, dir := range []string{first, second} {
		if status, _, problems := program(t, "-out", dir); status != 0 || strings.Count(problems, "wrote ") != 2*len(names) {
			t.Fatalf("status %d, %s", status, problems)
		}
	}
	for _, name := range names {
		for _, ext := range []string{".png", ".svg"} {
			a, err := os.ReadFile(filepath.Join(first, name+ext))
			if err != nil {
				t.Fatal(err)
			}
			b, err := os.ReadFile(filepath.Join(second, name+ext))
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(a, b) {
				t.Errorf("%s differs from one run to the next", name+ext)
			}
			if ext == ".png" {
				if _, err := png.Decode(bytes.NewReader(a)); err != nil {
					t.Errorf("%s: %v", name+ext, err)
				}
			}
		}
	}
}

// Plots of the thickest and thinnest oil, on needles at either end.
func TestPlotsAtTheEnds(t *testing.T) {
	for i, args := range [][]string{
		{"-fork", "B17", "-oil", "iso-vg-68", "-rebound", "0", "-compression", "0"},
		{"-fork", "M09", "-oil", "iso-vg-7", "-rebound", "20", "-compression", "20"},
	} {
		if status, _, problems := program(t, append(args, "-out", t.TempDir())...); status != 0 {
			t.Errorf("%d: status %d, %s", i, status, problems)
		}
	}
}

func defaults() options {
	return options{fork: typicalFork, oil: "fork-5", rebound: clicks / 2, compression: clicks / 2, stiffer: 6}
}

func newDefault(t *testing.T, change func(o *options)) *job {
	t.Helper()
	o := defaults()
	if change != nil {
		change(&o)
	}
	j, err := o.job()
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// The text calls the damper one with typical forces, to ±50 %.
func TestTypical(t *testing.T) {
	d := newDefault(t, nil).states[warm].fork
	for v, want := range typicalForks {
		for i, sign := range []units.Speed{1, -1} {
			if off := float64(units.Force(sign)*d.Force(sign*v)/want[i]) - 1; math.Abs(off) > typicalError {
				t.Errorf("at %+.1f m/s %.0f N, typical %.0f N", float64(sign*v), float64(d.Force(sign*v)), float64(want[i]))
			}
		}
	}
}

// The parts' shares are the whole force, whatever the oil, and none is negative.
func TestShares(t *testing.T) {
	for _, s := range newDefault(t, nil).states {
		for _, v := range speeds {
			for _, sign := range []units.Speed{1, -1} {
				sum := 0.0
				for _, p := range s.leg.shares(sign * v) {
					if p.force < 0 {
						t.Errorf("%s at %v: %v", p.name, sign*v, p.force)
					}
					sum += float64(p.force)
				}
				if want := math.Abs(float64(s.leg.Force(sign * v))); math.Abs(sum-want) > 1e-9*want {
					t.Errorf("%.0f °C at %v: parts %.9g N, damper %.9g N", s.celsius, sign*v, sum, want)
				}
			}
		}
	}
}

// Cold oil, a closed needle and a second leg each resist more, at every speed.
func TestMoreResists(t *testing.T) {
	j := newDefault(t, nil)
	firm := newDefault(t, func(o *options) { o.rebound, o.compression = 2, 2 })
	single := newDefault(t, func(o *options) { o.fork = "B06" })
	for _, v := range speeds {
		for _, sign := range []units.Speed{1, -1} {
			force := func(d damping.Damper) float64 { return math.Abs(float64(d.Force(sign * v))) }
			cold, mid, hot := force(j.states[0].fork), force(j.states[1].fork), force(j.states[2].fork)
			if !(cold > mid && mid > hot) {
				t.Errorf("at %v cold %.1f, warm %.1f, hot %.1f N", sign*v, cold, mid, hot)
			}
			if closed := force(firm.states[warm].fork); closed <= mid {
				t.Errorf("at %v %.1f N with needles 2 out, %.1f N 10 out", sign*v, closed, mid)
			}
			if one := force(single.states[warm].fork); math.Abs(2*one-mid) > 1e-9*mid {
				t.Errorf("at %v %.1f N with one leg, %.1f N with two", sign*v, one, mid)
			}
		}
	}
}

// Speeds of onset are where they say, to the step of the search.
func TestOnset(t *testing.T) {
	for _, s := range newDefault(t, nil).states {
		for _, sign := range []units.Speed{1, -1} {
			v, ok := s.leg.cavitation(sign)
			if !ok || s.leg.Cavitates(sign*(v-0.002)) || !s.leg.Cavitates(sign*v) {
				t.Errorf("%.0f °C: cavitates from %v, %v", s.celsius, sign*v, ok)
			}
		}
	}
	if v, ok := onset(func(units.Speed) bool { return false }); ok || v != damping.MaxSpeed {
		t.Errorf("never: %v, %v", v, ok)
	}
}

// The damper without pressure behind it cavitates sooner in rebound, where refill
// drives against the reservoir: Δp of the check = p at v, so v ∝ √p once it is fully
// open.
func TestDischarged(t *testing.T) {
	leg := newDefault(t, nil).states[warm].leg
	v3, _ := leg.cavitation(-1)
	low, err := leg.discharged(units.Absolute(reservoir.Sub(units.Absolute(0)) / 3))
	if err != nil {
		t.Fatal(err)
	}
	v1, _ := low.cavitation(-1)
	if got := float64(v3 / v1); math.Abs(got-math.Sqrt(3)) > 0.01 {
		t.Errorf("from %v at 3 bar and %v at 1 bar: ratio %.3f, want √3", v3, v1, got)
	}
}

// Coils stiffer by a share: both bounds by hand from rate and force of a fork that
// is coil and gas, whose coil force alone changes.
func TestChange(t *testing.T) {
	j := newDefault(t, nil)
	c := j.change
	coils := 2 * j.fork.Left.Coil.Rate.Value
	preload := j.fork.Left.Coil.Preload.Value
	more := float64(coils) * float64(c.depth+preload) * c.percent / 100
	if got := float64(c.newForce - c.oldForce); math.Abs(got-more) > 1e-6*more {
		t.Errorf("force rises by %.3f N, coils alone by %.3f N", got, more)
	}
	if want := math.Sqrt(float64(c.newRate / c.oldRate)); math.Abs(c.common.Ratio-want) > 1e-12 || c.common.Return != float64(c.newForce/c.oldForce) {
		t.Errorf("factors %.4f and %.4f", c.common.Ratio, c.common.Return)
	}
	if rise := float64((c.newRate - c.oldRate) / coils); rise > c.percent/100 || rise < 0.8*c.percent/100 {
		t.Errorf("rate rises by %.4f of the coils'", rise) // by less: it sits higher, where the gas is softer
	}
	for _, s := range c.settings {
		if s.out > j.rebound || s.out < j.rebound-4 || math.Abs(s.reached-s.factor) > 0.03 {
			t.Errorf("%+v", s)
		}
	}
}

// An air spring takes the change as pressure.
func TestChangeOfAir(t *testing.T) {
	j := newDefault(t, func(o *options) { o.fork = "M07" })
	c := j.change
	if c.what != "air pressure" || c.newRate <= c.oldRate || c.newForce <= c.oldForce {
		t.Errorf("%+v", c)
	}
}

// The mean ratio of a linear damper is its ratio.
func TestMeanRatio(t *testing.T) {
	j := newDefault(t, nil)
	if got := j.meanRatio(damping.Linear(j.body.Critical()/2), 0.1, 3); math.Abs(got-0.5) > 1e-12 {
		t.Errorf("ζ = %v, want 0.5", got)
	}
}

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		text string
		n    int
		want []string
	}{
		{"a damper is 24 mm wide", 14, []string{"a damper is", "24 mm wide"}},
		{"at −5 °C", 20, []string{"at −5 °C"}},
		{"unbreakable", 4, []string{"unbreakable"}},
	} {
		if got := typeset.Wrap(c.text, c.n); fmt.Sprint(got) != fmt.Sprint(c.want) {
			t.Errorf("%q in %d: %q", c.text, c.n, got)
		}
	}
}
