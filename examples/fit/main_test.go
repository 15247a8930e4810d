package main

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/units"
)

// record writes a record and returns its name.
func record(t *testing.T, text string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "record.csv")
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

// oneWay is the demo's stroke in.
func oneWay() string {
	top := strings.Index(string(demo), "280.0,")
	end := top + strings.Index(string(demo[top:]), "\n") + 1
	return string(demo[:end])
}

func TestText(t *testing.T) {
	for name, args := range map[string][]string{
		"default.golden": nil,
		"coil.golden":    {"-model", "coil"},
		"held.golden":    {"-hold", "Exponent", "-exponent", "1.1", "-skip", "10 mm"},
	} {
		t.Run(name, func(t *testing.T) {
			out := golden.Text(t, command, args...)
			golden.Readable(t, out)
			golden.Check(t, name, out)
		})
	}
}

func TestOneWay(t *testing.T) {
	name := record(t, oneWay())
	status, out, problems := golden.Run(t, command, "-csv", name, "-out", t.TempDir())
	if status != 0 {
		t.Fatalf("status %d, %s", status, problems)
	}
	golden.Readable(t, out)
	for _, want := range []string{"none extending", "held at 63.0 N", "passes for preload", "there is no stroke out."} {
		if !strings.Contains(strings.Join(strings.Fields(out), " "), want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	if strings.Contains(out, "made with") {
		t.Error("a record of one's own is compared with the demo")
	}
}

// The demo's fit lies within two to three standard errors of what it was made with.
func TestFindsWhatWasMade(t *testing.T) {
	j := newJob(t)
	for _, f := range j.free {
		p := named(f.String())
		v, e := p.estimate(j.result)
		if off := (v - p.made) / e; !(math.Abs(off) < 2.5) {
			t.Errorf("%s is %.1f standard errors off", p.name, off)
		}
	}
	if len(j.free) != 5 || len(j.held) != 0 || len(j.pairs) == 0 {
		t.Errorf("free %v, held %v, pairs %v", j.free, j.held, j.pairs)
	}
	if s := float64(j.result.Sigma); s < 5 || s > 7 { // 6 N were put in
		t.Errorf("scatter %.2f N", s)
	}
}

// read is what the flags make a job of.
func read(t *testing.T, args ...string) (*job, error) {
	t.Helper()
	var j *job
	var err error
	var told bytes.Buffer
	status := program.Run(func(p *program.Program) func() error {
		take := flags(p)
		return func() error { j, err = take(); return nil }
	}, args, io.Discard, &told)
	if status != program.Done {
		t.Fatal(told.String())
	}
	return j, err
}

// newJob is a solved job.
func newJob(t *testing.T, args ...string) *job {
	t.Helper()
	j, err := read(t, args...)
	if err == nil {
		err = j.solve()
	}
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// Every fork is found again in a sweep of it without noise, over all its travel but
// the last tenth; both legs and the sprung one alone.
func TestEveryFork(t *testing.T) {
	for fork := range data.Reference().Forks() {
		for _, leg := range []string{both, left} {
			t.Run(fork.ID+" "+leg, func(t *testing.T) {
				args := []string{"-fork", fork.ID, "-leg", leg, "-skip", "1 mm", "-exponent", "1.1"}
				j, err := read(t, append(args, "-csv", record(t, "travel [mm];force [N]\n0;1\n1;2\n"))...)
				if err != nil {
					t.Fatal(err)
				}
				// The model of the record is what the sweep is made of.
				curve, friction := j.model.Curve(), float64(j.model.Fork.Friction)
				var b strings.Builder
				fmt.Fprintln(&b, "travel [mm];force [N]")
				top := 0.9 * fork.Travel.Value.In(mm)
				const n = 40
				for i := range 2*n + 1 {
					x, way := top*float64(i)/n, 1.0
					if i > n {
						x, way = top*float64(2*n-i)/n, -1
					}
					fmt.Fprintf(&b, "%.6f;%.6f\n", x, float64(curve.Force(units.Length(x)*mm))+way*friction)
				}
				got := newJob(t, append(args, "-csv", record(t, b.String()))...)
				for _, f := range got.free {
					p := named(f.String())
					want := p.value(j.model)
					v, e := p.estimate(got.result)
					// Two chambers of almost one depth, as in M07, trade half a percent.
					if off := math.Abs(v - want); off > 5e-3*math.Abs(want)+4*e {
						t.Errorf("%s %.6g, made with %.6g", p.name, v, want)
					}
				}
				golden.Readable(t, got.text())
			})
		}
	}
}

func TestBadRecords(t *testing.T) {
	const head = "travel [mm],force [N]\n"
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"empty", "", []string{".csv:1:", "empty"}},
		{"header alone", head, []string{".csv:1:", "2 or more"}},
		{"one point", head + "0,5\n", []string{".csv:2:", "1 readings", "2 or more"}},
		{"two points", head + "0,5\n100,900\n", []string{".csv: ", "more than the"}},
		{"no header", "0,5\n1,6\n", []string{".csv:1:", "travel"}},
		{"no unit", "travel,force\n0,5\n", []string{".csv:1:", "[mm]"}},
		{"unknown unit", "travel [mm],force [loaf]\n0,5\n", []string{".csv:2:", "force"}},
		{"not a number", head + "0,5\n10,NaN\n20,9\n", []string{".csv:3:", "NaN"}},
		{"infinite", head + "0,5\n10,Inf\n20,9\n", []string{".csv:3:", "Inf"}},
		{"no number", head + "0,5\n10,\n20,9\n", []string{".csv:3:", "no number"}},
		{"decimal commas", "travel [mm];force [N]\n0;5\n10,5;60,2\n", []string{".csv:3:", "decimal comma", "10.5"}},
		{"decimal commas between commas", head + "0,5,5,0\n", []string{".csv:2:", "decimal"}},
		{"twice the same travel", head + "0,5\n10,50\n10,51\n20,90\n", []string{".csv:4:", "mean"}},
		{"unsorted", head + "0,5\n20,90\n10,51\n30,120\n", []string{".csv:5:", "in the order taken"}},
		{"UTF-16", "\xff\xfet\x00r\x00", []string{".csv:1:", "UTF-16"}},
		{"deeper than the fork", head + "0,5\n100,900\n\n# note\n400,2000\n",
			[]string{".csv: ", "400 mm", "305 mm", "M06"}},
		{"force in another unit", "travel [mm],force [kN]\n0,5\n100,900\n", []string{".csv:3:", "900", "50000 N"}},
		{"far before full extension", head + "-50,0\n0,5\n100,900\n", []string{".csv:2:", "-50", "-10 mm"}},
		{"beyond on the way out", head + "0,5\n100,900\n50,90000\n0,0\n", []string{".csv:4:", "90000", "50000 N"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, out, problems := golden.Run(t, command, "-csv", record(t, c.text))
			if status != program.BadInput || out != "" || strings.Count(problems, "\n") > 2 {
				t.Errorf("status %d, printed %q, %s", status, out, problems)
			}
			for _, want := range c.want {
				if !strings.Contains(problems, want) {
					t.Errorf("no %q in %s", want, problems)
				}
			}
		})
	}
}

// Habits of spreadsheets that do not change the numbers do not change the result.
func TestSpreadsheets(t *testing.T) {
	_, want, _ := golden.Run(t, command, "-csv", record(t, string(demo)))
	_, want, _ = strings.Cut(want, "Fitted")
	for name, text := range map[string]string{
		"byte order mark and CRLF": "\ufeff" + strings.ReplaceAll(string(demo), "\n", "\r\n"),
		"semicolons":               strings.ReplaceAll(strings.SplitN(string(demo), "\n", 2)[1], ",", ";"),
		"tabs":                     strings.ReplaceAll(strings.SplitN(string(demo), "\n", 2)[1], ",", "\t"),
		"blank lines":              strings.ReplaceAll(string(demo), "\n", "\n\n"),
	} {
		status, got, problems := golden.Run(t, command, "-csv", record(t, text))
		_, got, _ = strings.Cut(got, "Fitted")
		if status != 0 || got != want {
			t.Errorf("%s: status %d, %s\n%s", name, status, problems, got)
		}
	}
}

func TestBadArguments(t *testing.T) {
	var bad []golden.Bad
	for args, want := range map[string]string{
		"-csv nowhere.csv": "-csv nowhere.csv",
		"-csv testdata":    "testdata",
		"-leg middle":      "-leg middle left",
		"-model magic":     "-model magic coil+gap",
		"-model air":       "-model M06 has no air",
		"-hold love":       "-hold love preload",
		"-hold rate,rate":  "-hold no rate",
		"-model coil -hold rate,preload,friction": "-hold nothing is left",
		"-skip 4":                   "-skip mm",
		"-skip 1m":                  "-skip 50 mm",
		"-altitude 9000m":           "-altitude 5000 m",
		"-exponent 2":               "-exponent 1.6667",
		"-exponent NaN":             "-exponent NaN",
		"-gauge 9bar":               "-gauge no air spring",
		"-fork M07 -gauge 9":        "-gauge bar",
		"-fork none -leg x -skip y": "none -leg -skip",
	} {
		bad = append(bad, golden.Bad{Name: args, Args: strings.Fields(args), Want: strings.Fields(want)})
	}
	golden.Refuses(t, command, bad...)
}

// An air fork with another pressure; the demo is not of it, and the text says so.
func TestAir(t *testing.T) {
	status, out, problems := golden.Run(t, command, "-fork", "M07", "-gauge", "9.6 bar")
	if status != 0 || problems != "" {
		t.Fatalf("status %d, %s", status, problems)
	}
	golden.Readable(t, out)
	for _, want := range []string{"no other fork", "10.61 bar", "pattern"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	if strings.Contains(out, "made with") {
		t.Error("compared with what another fork was made with")
	}
}

// A flat record, without any spring, is described and drawn, not divided by zero.
func TestFlat(t *testing.T) {
	var b strings.Builder
	b.WriteString("travel [mm],force [N]\n")
	for x := 0; x <= 200; x += 5 {
		fmt.Fprintf(&b, "%d,100\n", x)
	}
	status, out, problems := golden.Run(t, command, "-csv", record(t, b.String()), "-out", t.TempDir())
	if status != 0 {
		t.Fatalf("status %d, %s", status, problems)
	}
	golden.Readable(t, out)
}

func TestPlots(t *testing.T) { golden.Pictures(t, command, 6) }

// A model that lacks the gas shows by its runs.
func TestPattern(t *testing.T) {
	whole, coil := newJob(t).result.Goodness(), newJob(t, "-model", "coil").result.Goodness()
	if z := whole.Runs.Z(); !(math.Abs(z) <= 2) {
		t.Errorf("the whole model: z = %.1f", z)
	}
	if z := coil.Runs.Z(); z > -5 {
		t.Errorf("without gas: z = %.1f", z)
	}
	if !(whole.Explained > 0.9999 && coil.Explained < 0.995 && coil.Explained > 0.9) {
		t.Errorf("R² %v and %v", whole.Explained, coil.Explained)
	}
}

// What could not be identified is held, and the fit goes on.
func TestHolds(t *testing.T) {
	j := newJob(t, "-fork", "M07") // chamber and gap both bend the curve of a coil fork's record
	if len(j.held) == 0 || j.held[0].Parameter != fit.GapVolume().String() || j.result == nil {
		t.Errorf("held %v", j.held)
	}
}

// Whatever a file holds is fitted or refused in words with its name, and what is said
// has no NaN in it.
func FuzzRecord(f *testing.F) {
	f.Add(string(demo))
	f.Add(oneWay())
	f.Add("travel [mm];force [N];note\n0;1;a\n;#;\n10;50;b\n")
	f.Add("a;travel [mm];force [N]\n;0;1\n#;10;50\n;20;90\n;30;99\n")
	f.Add("\ufeff#x\r\n\r\ntravel [in]\tforce [lbf]\r\n0\t1\r\n1\t60\r\n2\t100\r\n1\t50\r\n0\t0\r\n")
	f.Fuzz(func(t *testing.T, content string) {
		j, err := read(t, "-model", "coil")
		if err != nil {
			t.Fatal(err)
		}
		j.name = "x.csv"
		if err = j.take(strings.NewReader(content)); err == nil {
			err = j.solve()
		}
		if err != nil {
			if !strings.HasPrefix(err.Error(), "x.csv:") {
				t.Errorf("error without the file: %v", err)
			}
			return
		}
		for _, bad := range []string{"NaN", "Inf"} {
			if out := j.text(); strings.Contains(out, bad) {
				t.Errorf("the text says %s:\n%s", bad, out)
			}
		}
	})
}
