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

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// program runs the command as a user would.
func program(t *testing.T, args ...string) (status int, out, problems string) {
	t.Helper()
	var o, p bytes.Buffer
	status = run(args, &o, &p)
	return status, o.String(), p.String()
}

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
	for _, c := range []struct {
		golden string
		args   []string
	}{
		{"default.golden", nil},
		{"coil.golden", []string{"-model", "coil"}},
		{"held.golden", []string{"-hold", "Exponent", "-exponent", "1.1", "-skip", "10 mm"}},
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

func TestOneWay(t *testing.T) {
	name := record(t, oneWay())
	status, out, problems := program(t, "-csv", name, "-out", t.TempDir())
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
	j := newJob(t, options{})
	for _, f := range j.free {
		off := (value(j.result.Model, f.parameter) - made(f.parameter)) / stdErr(j.result.StdErr, f.parameter)
		if !(math.Abs(off) < 2.5) {
			t.Errorf("%v is %.1f standard errors off", f.parameter, off)
		}
	}
	if len(j.free) != 5 || len(j.held) != 0 || len(j.pairs) == 0 {
		t.Errorf("free %v, held %v, pairs %v", j.free, j.held, j.pairs)
	}
	if s := float64(j.result.Sigma); s < 5 || s > 7 { // 6 N were put in
		t.Errorf("scatter %.2f N", s)
	}
}

// newJob is a solved job of the demo.
func newJob(t *testing.T, o options) *job {
	t.Helper()
	if o.fork == "" {
		o.fork = madeFork
	}
	o.leg, o.altitude, o.skip, o.exponent = "both", "0 m", "4 mm", 1
	j, err := o.job()
	if err == nil {
		err = j.solve()
	}
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// Every fork whose springs the model knows is found again in a sweep of it without
// noise, over all its travel but the last tenth; both legs and the sprung one alone.
func TestEveryFork(t *testing.T) {
	unknown := map[string]string{"B16": "second positive chamber", "M09": "air spring in each leg"}
	for fork := range data.Reference().Forks() {
		for _, leg := range []string{"both", "left"} {
			t.Run(fork.ID+" "+leg, func(t *testing.T) {
				air, err := gas.StandardAt(0, units.Celsius(20))
				if err != nil {
					t.Fatal(err)
				}
				o := options{fork: fork.ID, leg: leg, altitude: "0 m", skip: "1 mm", exponent: 1.1}
				if why := unknown[fork.ID]; why != "" && (leg == "both" || fork.ID == "B16") {
					if _, err := o.job(); err == nil || !strings.Contains(err.Error(), why) {
						t.Errorf("got %v", err)
					}
					return
				}
				// The model of the record is what the sweep is made of.
				j := &job{exponent: 1.1, leg: leg, fork: fork}
				if err := j.describe("", air, units.GaugePressure{}); err != nil {
					t.Fatal(err)
				}
				curve, err := j.model.Curve()
				if err != nil {
					t.Fatal(err)
				}
				var b strings.Builder
				fmt.Fprintln(&b, "travel [mm];force [N]")
				top := 0.9 * fork.Travel.Value.In(mm)
				const n = 40
				for i := range 2*n + 1 {
					x, sign := top*float64(i)/n, 1.0
					if i > n {
						x, sign = top*float64(2*n-i)/n, -1
					}
					fmt.Fprintf(&b, "%.6f;%.6f\n", x, float64(curve.Force(units.Length(x)*mm))+sign*float64(j.model.Friction))
				}
				o.csv = record(t, b.String())
				got, err := o.job()
				if err != nil {
					t.Fatal(err)
				}
				if err := got.solve(); err != nil {
					t.Fatal(err)
				}
				for _, f := range got.free {
					want := value(j.model, f.parameter)
					off := math.Abs(value(got.result.Model, f.parameter) - want)
					// Two chambers of almost one depth, as in M07, trade half a percent.
					if off > 5e-3*math.Abs(want)+4*stdErr(got.result.StdErr, f.parameter) {
						t.Errorf("%v %.6g, made with %.6g", f.parameter, value(got.result.Model, f.parameter), want)
					}
				}
				golden.Readable(t, text(got))
			})
		}
	}
}

func TestSettled(t *testing.T) {
	r := func(x ...float64) (s []spring.Reading) {
		for _, v := range x {
			s = append(s, spring.Reading{Travel: units.Length(v) * mm})
		}
		return s
	}
	kept, left := settled(spring.MeasuredSpec{Loading: r(0, 3, 50, 97, 100), Unloading: r(0, 4, 96, 100)}, 4*mm)
	if len(kept.Loading) != 1 || len(kept.Unloading) != 2 || len(left.Loading) != 4 || len(left.Unloading) != 2 {
		t.Errorf("kept %v, left %v", kept, left)
	}
	if kept, _ = settled(spring.MeasuredSpec{Loading: r(0, 50, 100)}, 0); len(kept.Loading) != 3 {
		t.Errorf("one way with nothing to skip: kept %v", kept) // where it ends it does not turn
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
		{"two points", head + "0,5\n100,900\n", []string{".csv:3:", "more than the"}},
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
		{"deeper than the fork", head + "0,5\n100,900\n\n# note\n400,2000\n", []string{".csv:6:", "305 mm", "M06"}},
		{"force in another unit", "travel [mm],force [kN]\n0,5\n100,900\n", []string{".csv:3:", "900000 N"}},
		{"far before full extension", head + "-50,0\n0,5\n100,900\n", []string{".csv:2:", "-50 mm"}},
		{"beyond on the way out", head + "0,5\n100,900\n50,90000\n0,0\n", []string{".csv:4:", "90000 N"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, out, problems := program(t, "-csv", record(t, c.text))
			if status != badInput || out != "" || strings.Count(problems, "\n") > 2 {
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
	_, want, _ := program(t, "-csv", record(t, string(demo)))
	_, want, _ = strings.Cut(want, "Fitted")
	for name, text := range map[string]string{
		"byte order mark and CRLF": "\ufeff" + strings.ReplaceAll(string(demo), "\n", "\r\n"),
		"semicolons":               strings.ReplaceAll(strings.SplitN(string(demo), "\n", 2)[1], ",", ";"),
		"tabs":                     strings.ReplaceAll(strings.SplitN(string(demo), "\n", 2)[1], ",", "\t"),
		"blank lines":              strings.ReplaceAll(string(demo), "\n", "\n\n"),
	} {
		status, got, problems := program(t, "-csv", record(t, text))
		_, got, _ = strings.Cut(got, "Fitted")
		if status != 0 || got != want {
			t.Errorf("%s: status %d, %s\n%s", name, status, problems, got)
		}
	}
}

func TestBadArguments(t *testing.T) {
	for _, c := range []struct {
		name string
		args []string
		want []string
	}{
		{"no such file", []string{"-csv", "nowhere.csv"}, []string{"-csv", "nowhere.csv"}},
		{"a folder", []string{"-csv", "testdata"}, []string{"testdata"}},
		{"no such fork", []string{"-fork", "M99"}, []string{"-fork", "M99"}},
		{"no such leg", []string{"-leg", "middle"}, []string{"-leg", "middle", "left"}},
		{"no such model", []string{"-model", "magic"}, []string{"-model", "magic", "coil+gap"}},
		{"a model the fork has not", []string{"-model", "air"}, []string{"-model", "M06 has no air"}},
		{"no such parameter", []string{"-hold", "love"}, []string{"-hold", "love", "preload"}},
		{"held twice", []string{"-hold", "rate,rate"}, []string{"-hold", "no rate"}},
		{"all held", []string{"-model", "coil", "-hold", "rate,preload,friction"}, []string{"-hold", "nothing is left"}},
		{"bare skip", []string{"-skip", "4"}, []string{"-skip", "mm"}},
		{"skip too long", []string{"-skip", "1 m"}, []string{"-skip", "50 mm"}},
		{"skip all", []string{"-csv", "sweep.csv", "-model", "coil", "-skip", "-1 mm"}, []string{"-skip", "0 mm"}},
		{"altitude in the sky", []string{"-altitude", "9000 m"}, []string{"-altitude", "5000 m"}},
		{"exponent", []string{"-exponent", "2"}, []string{"-exponent", "1.6667"}},
		{"exponent of no number", []string{"-exponent", "NaN"}, []string{"-exponent", "NaN"}},
		{"gauge without air", []string{"-gauge", "9 bar"}, []string{"-gauge", "no air spring"}},
		{"bare gauge", []string{"-fork", "M07", "-gauge", "9"}, []string{"-gauge", "bar"}},
		{"several", []string{"-fork", "M99", "-leg", "x", "-skip", "y"}, []string{"M99", "-leg", "-skip"}},
		{"no such flag", []string{"-frok", "M06"}, []string{"frok"}},
		{"words left over", []string{"my.csv"}, []string{`"my.csv"`, "-csv"}},
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
	if status, _, problems := program(t, "-h"); status != 0 || !strings.Contains(problems, "-skip") {
		t.Errorf("help: status %d, %s", status, problems)
	}
}

// An air fork with another pressure; the demo is not of it, and the text says so.
func TestAir(t *testing.T) {
	status, out, problems := program(t, "-fork", "M07", "-gauge", "9.6 bar")
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
	status, out, problems := program(t, "-csv", record(t, b.String()), "-out", t.TempDir())
	if status != 0 {
		t.Fatalf("status %d, %s", status, problems)
	}
	golden.Readable(t, out)
}

func TestPlots(t *testing.T) {
	names := []string{"force-travel", "friction-band", "residuals"}
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

// By hand: + + − + − − − has four runs, n₊ = 3, n₋ = 4, expected 1 + 24/7,
// variance 24·17/(49·6).
func TestRuns(t *testing.T) {
	s := []bool{true, true, false, true, false, false, false}
	r := countRuns(s)
	if r.count != 4 || math.Abs(r.expected-31.0/7) > 1e-12 || math.Abs(r.variance-408.0/294) > 1e-12 {
		t.Errorf("%+v", r)
	}
	if two := countRuns(s, s); two.count != 8 || two.expected != 2*r.expected || two.variance != 2*r.variance {
		t.Errorf("twice: %+v", two)
	}
	for _, none := range []runs{countRuns(), countRuns(nil, []bool{true}), countRuns([]bool{true, true, true})} {
		if z := none.z(); z != 0 {
			t.Errorf("%+v: z = %v", none, z)
		}
	}
}

// A model that lacks the gas shows by its runs.
func TestPattern(t *testing.T) {
	whole, coil := newJob(t, options{}).goodness(), newJob(t, options{model: "coil"}).goodness()
	if z := whole.runs.z(); math.Abs(z) > 2 {
		t.Errorf("the whole model: z = %.1f", z)
	}
	if z := coil.runs.z(); z > -5 {
		t.Errorf("without gas: z = %.1f", z)
	}
	if !(whole.share > 0.9999 && coil.share < 0.995 && coil.share > 0.9) {
		t.Errorf("R² %v and %v", whole.share, coil.share)
	}
}

// What could not be identified is held, and the fit goes on.
func TestHolds(t *testing.T) {
	j := newJob(t, options{fork: "M07"}) // chamber and gap both bend the curve of a coil fork's record
	if len(j.held) == 0 || j.held[0].parameter != fit.GapVolume || j.result == nil {
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
		j := &job{name: "x.csv", leg: "both", exponent: 1, skip: 1 * mm}
		var err error
		if j.fork, err = data.Reference().Fork(madeFork); err != nil {
			t.Fatal(err)
		}
		if err := j.describe("coil", gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1 * units.Bar)}, units.GaugePressure{}); err != nil {
			t.Fatal(err)
		}
		lines, err := j.take([]byte(content))
		if err == nil {
			err = j.plausible(lines)
		}
		if err == nil {
			err = j.solve()
		}
		if err != nil {
			if !strings.HasPrefix(err.Error(), "x.csv:") {
				t.Errorf("error without the file: %v", err)
			}
			return
		}
		for _, bad := range []string{"NaN", "Inf"} {
			if out := text(j); strings.Contains(out, bad) {
				t.Errorf("the text says %s:\n%s", bad, out)
			}
		}
	})
}
