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
	"unicode/utf8"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/setup"
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
		{"air.golden", []string{"-fork", "M07, b04"}},
		{"volume.golden", []string{"-fork", "M06,M09"}},
	} {
		t.Run(c.golden, func(t *testing.T) {
			status, out, problems := program(t, c.args...)
			if status != 0 || problems != "" {
				t.Errorf("status %d, %s", status, problems)
			}
			golden.Check(t, c.golden, out)
		})
	}
}

func TestEveryFork(t *testing.T) {
	for fork := range data.Reference().Forks() {
		t.Run(fork.ID, func(t *testing.T) {
			status, out, problems := program(t, "-fork", fork.ID)
			if status != 0 || problems != "" {
				t.Fatalf("status %d, %s", status, problems)
			}
			for line := range strings.Lines(out) {
				if utf8.RuneCountInString(line) > width+1 {
					t.Errorf("%d columns: %s", utf8.RuneCountInString(line)-1, line)
				}
			}
			for _, bad := range []string{"NaN", "Inf", "%!", "\t"} {
				if strings.Contains(out, bad) {
					t.Errorf("the text says %q", bad)
				}
			}
			if refit := strings.Contains(out, "COIL KIT IN"); refit != (fork.Spring() == data.AirLeg) {
				t.Errorf("tells of a kit: %v", refit)
			}
		})
	}
}

func TestBadInput(t *testing.T) {
	for _, c := range []struct {
		name string
		args []string
		want string
	}{
		{"no such fork", []string{"-fork", "M99"}, `no fork "M99"`},
		{"one of two forks", []string{"-fork", "M11,M99"}, `no fork "M99"`},
		{"empty fork", []string{"-fork", ""}, `no fork ""`},
		{"no such flag", []string{"-frok", "M11"}, "frok"},
		{"words left over", []string{"M11"}, `"M11"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, out, problems := program(t, c.args...)
			if status != badInput || out != "" || !strings.Contains(problems, c.want) {
				t.Errorf("status %d, printed %q, %s", status, out, problems)
			}
		})
	}
	if status, _, problems := program(t, "-out", "/dev/null/x"); status != badInput || !strings.Contains(problems, "/dev/null") {
		t.Errorf("into no folder: status %d, %s", status, problems)
	}
}

// TestNoOilData: a record without what the fill follows from is an error that says so.
func TestNoOilData(t *testing.T) {
	fork := find(t, "M07").fork
	fork.Right.Oil = data.Oil{}
	if _, err := newBath(fork); err == nil || !strings.Contains(err.Error(), "no oil volume") {
		t.Errorf("without the oil of a leg: %v", err)
	}
	fork = find(t, "M11").fork
	fork.Gap = data.Gap{}
	if _, err := newBath(fork); err == nil || !strings.Contains(err.Error(), "no gas over the oil") {
		t.Errorf("without gas: %v", err)
	}
}

func find(t *testing.T, id string) *bath {
	t.Helper()
	fork, err := data.Reference().Fork(id)
	if err != nil {
		t.Fatal(err)
	}
	b, err := newBath(fork)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// The fork at a level, worked by hand before this program was written: residual gas
// from section, level and what the spring displaces, polytropic n = 1.3 from full
// extension at 1.01325 bar, coils with their preload, both legs. Compared at the
// digits that were written down; none differs.
func TestByHand(t *testing.T) {
	for _, c := range []struct {
		fork                       string
		level                      float64
		ratio, deep, end, pressure string // deep and pressure where they were worked out
	}{
		{"M11", 140, "3.9", "2328", "4495", "4.9"},
		{"M11", 130, "4.2", "2360", "4748", "5.6"},
		{"M11", 120, "4.7", "2396", "5078", "6.5"},
		{"M11", 110, "5.3", "2438", "5526", "7.8"},
		{"M11", 100, "6.1", "2485", "6165", "9.5"},
		{"M11", 90, "7.2", "2540", "7145", "12.3"},
		{"M11", 80, "9.1", "2605", "8808", "16.8"},
		{"M11", 70, "13", "2682", "12153", "26.1"},
		{"M11", 60, "21", "2775", "21602", "52.2"},
		{"M21", 160, "2.6", "", "3100", ""},
		{"M21", 140, "3.1", "", "3315", ""},
		{"M21", 130, "3.4", "", "3480", ""},
		{"M21", 120, "3.9", "", "3716", ""},
		{"M21", 110, "4.5", "", "4081", ""},
		{"M21", 100, "5.7", "", "4708", ""},
		{"M21", 90, "7.8", "", "6004", ""},
		{"M21", 80, "13", "", "9939", ""},
		{"M21", 70, "72", "", "72 kN", ""},
	} {
		t.Run(fmt.Sprintf("%s at %.0f mm", c.fork, c.level), func(t *testing.T) {
			b := find(t, c.fork)
			p, err := b.at(b.moreAt(c.level), b.cold)
			if err != nil {
				t.Fatal(err)
			}
			check := func(name, want string, got float64, format string) {
				if g := fmt.Sprintf(format, got); want != "" && g != want {
					t.Errorf("%s %s, by hand %s", name, g, want)
				}
			}
			ratio := "%.1f"
			if p.ratio > 9.5 {
				ratio = "%.0f"
			}
			check("ratio", c.ratio, p.ratio, ratio)
			check("force at 66 %", c.deep, p.deep.In(units.Newton), "%.0f")
			if strings.HasSuffix(c.end, "kN") {
				check("force at the end", c.end, p.force.In(units.Newton)/1000, "%.0f kN")
			} else {
				check("force at the end", c.end, p.force.In(units.Newton), "%.0f")
			}
			check("pressure", c.pressure, p.pressure, "%.1f")
		})
	}
}

// By hand for a closed cartridge: 10 mL more in each leg are +0.7 % at two-thirds of
// travel and +3.2 % at the end.
func TestTenMilliliters(t *testing.T) {
	b := find(t, "M06")
	p, err := b.at(0, b.cold)
	if err != nil {
		t.Fatal(err)
	}
	q, err := b.at(10*ml, b.cold)
	if err != nil {
		t.Fatal(err)
	}
	if got := fmt.Sprintf("%.1f %.1f", 100*float64(q.deep/p.deep-1), 100*float64(q.force/p.force-1)); got != "0.7 3.2" {
		t.Errorf("%s, by hand 0.7 3.2", got)
	}
}

// TestSensitivity: a step of the fork is twice that of a leg by package oil.
func TestSensitivity(t *testing.T) {
	for _, id := range []string{"M11", "M21"} {
		b := find(t, id)
		l := b.told()
		leg, err := l.fill.Sensitivity(oil.AirGapSpec{Area: l.area, Travel: b.fork.Travel.Value, Pressure: b.cold.Pressure, Ambient: b.cold.Pressure, Exponent: b.exponent})
		if err != nil {
			t.Fatal(err)
		}
		p, err := b.at(0, b.cold)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []struct {
			name string
			more units.Volume
			want oil.Change
		}{
			{"5 mL", 5 * ml, leg.Volume},
			{"5 mm", b.moreAt(l.fill.Level().In(mm) - 5), leg.Level},
		} {
			q, err := b.at(c.more, b.cold)
			if err != nil {
				t.Fatal(err)
			}
			if got, want := q.force-p.force, 2*c.want.Force; math.Abs(float64(got-want)) > 1e-6 || math.Abs(q.ratio-c.want.To) > 1e-9 {
				t.Errorf("%s, %s more: %+.3f to ratio %.3f; by the leg %+.3f to %.3f", id, c.name, got, q.ratio, want, c.want.To)
			}
		}
	}
}

// TestLock: the fill told to lock does so, a little less oil does not, and level and
// volume agree with package oil.
func TestLock(t *testing.T) {
	for fork := range data.Reference().Forks() {
		b := find(t, fork.ID)
		for _, air := range []struct {
			name string
			at   float64 // K above the fill
		}{{"as filled", 0}, {"warm", 40}} {
			now := b.cold
			now.Temperature = now.Temperature.Add(units.TemperatureDifference(air.at))
			lock := b.moreFor(oil.LockRatio, now)
			const little = 0.01 * ml
			for _, step := range []units.Volume{-little, little} {
				p, err := b.at(lock+step, now)
				if err != nil {
					t.Fatalf("%s %s: %v", fork.ID, air.name, err)
				}
				if p.locked != (step > 0) {
					t.Errorf("%s %s: at %+.2f mL of the lock, ratio %.1f, locked %v", fork.ID, air.name, step.In(ml), p.ratio, p.locked)
				}
			}
		}
		if l := b.told(); b.byLevel {
			if got, want := b.levelOf(b.moreFor(oil.LockRatio, b.cold)), l.fill.LockLevel(l.area, fork.Travel.Value).In(mm); math.Abs(got-want) > 1e-6 {
				t.Errorf("%s: locks at %.3f mm, by package oil %.3f mm", fork.ID, got, want)
			}
		}
		if got := b.x(b.moreAt(37)); math.Abs(got-37) > 1e-9 {
			t.Errorf("%s: 37 %s come back as %g", fork.ID, b.unit(), got)
		}
	}
}

// TestWarm: the sealed gas keeps its amount, p·V/T, at full extension, and the fill of
// the record is the fork of the record.
func TestWarm(t *testing.T) {
	for fork := range data.Reference().Forks() {
		b := find(t, fork.ID)
		l := b.told()
		amount := func(warmed oil.Fill, kelvin float64) float64 {
			air := b.cold
			air.Temperature = units.Kelvin(kelvin)
			g, err := b.airGap(l.gap(l.fill, warmed, fork.Travel.Value, b.cold), air)
			if err != nil {
				t.Fatalf("%s: %v", fork.ID, err)
			}
			return g.Pressure(0).In(units.Pascal) * float64(g.Volume(0)) / kelvin
		}
		cold := amount(l.fill, b.cold.Temperature.Kelvin())
		warm := amount(l.fill.Warmed(b.fluid, b.cold.Temperature, b.warm.Temperature), b.warm.Temperature.Kelvin())
		if math.Abs(warm/cold-1) > 1e-12 {
			t.Errorf("%s: amount goes by %g", fork.ID, warm/cold)
		}
		s, err := fork.Setup(b.cold)
		if err != nil {
			t.Fatal(err)
		}
		p, err := b.at(0, b.cold)
		if err != nil {
			t.Fatal(err)
		}
		c := s.Curve(b.exponent)
		// The records are rounded to 0.5 mL of gas.
		if want := c.Force(c.Stroke()); math.Abs(float64(p.force/want-1)) > 0.01 {
			t.Errorf("%s: %.0f at the end, the record's fork %.0f", fork.ID, p.force, want)
		}
		if g, err := s.Gap(setup.Left, b.exponent); err == nil && math.Abs(p.ratio/g.CompressionRatio()-1) > 0.01 {
			t.Errorf("%s: ratio %.2f, the record's fork %.2f", fork.ID, p.ratio, g.CompressionRatio())
		}
	}
}

// TestRefit: the balance of volumes of a leg that loses its air cartridge.
func TestRefit(t *testing.T) {
	r, err := newRefit(find(t, "M07"))
	if err != nil {
		t.Fatal(err)
	}
	states, err := r.states()
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range states[1:] {
		if sum := s.fill.Volume() + s.fill.Residual() + r.metal; math.Abs(float64(sum-900*ml)) > 1e-12 {
			t.Errorf("%s: oil, gas and metal are %.3f mL of 900 mL", s.name, sum.In(ml))
		}
	}
	if got, want := states[3].fill.Volume()-states[0].fill.Volume(), r.out-r.metal; math.Abs(float64(got-want)) > 1e-12 {
		t.Errorf("for the same gas %.2f mL more, out less in is %.2f mL", got.In(ml), want.In(ml))
	}
	if ratio, err := r.ratio(states[4], states[4].fill); err != nil || math.Abs(ratio-5) > 1e-9 {
		t.Errorf("at ratio 5: %g, %v", ratio, err)
	}
	if states[2].fill.Volume() != r.aim || r.aim != 540*ml {
		t.Errorf("the kit asks for %.1f mL", r.aim.In(ml))
	}
}

func TestPlots(t *testing.T) {
	names := []string{"M11-force", "M11-ratio", "M07-force", "M07-ratio", "M07-refit", "B04-force", "B04-ratio", "B04-refit", "M09-force", "M09-ratio", "M09-refit"}
	first, second := t.TempDir(), filepath.Join(t.TempDir(), "new")
	for _, dir := range []string{first, second} {
		if status, _, problems := program(t, "-fork", "M11,M07,B04,M09", "-out", dir); status != 0 || strings.Count(problems, "wrote ") != 2*len(names) {
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
					t.Errorf("%s: %v", name, err)
				}
			} else if !bytes.Contains(a, []byte("hydraulic lock")) {
				t.Errorf("%s does not name the region of lock", name)
			}
		}
	}
}
