package jobfile_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const (
	airTable   = "[air]\npressure = \"9.0 bar\"\ntemperature = \"22 °C\"\naltitude = \"240 m\"\n"
	riderTable = "[rider]\nmass = \"79 kg\"\nstance = \"standing\"\n"
	sweepTable = `[sweep]
travels = ["0 mm", "60 mm", "150 mm", "240 mm", "305 mm"]
forces = ["80 N", "680 N", "1330 N", "2260 N", "4300 N"]
forces-out = ["0 N", "560 N", "1200 N", "2130 N", "4200 N"]
`
	buildTable = "[build]\ncoil = \"a\"\npreload = \"4 mm\"\noil-level = \"160 mm\"\n"
)

// A job is read from whatever of rider, fill, sweep and build there is.
func TestWays(t *testing.T) {
	for _, c := range []struct {
		name, text string
		holds      func(r *conversion.Report) bool
	}{
		{"from the rider", strings.NewReplacer(airTable, "", "[plan]", "[plan]\nfrom = \"rider\"").Replace(good),
			func(r *conversion.Report) bool {
				return r.Job.From == conversion.RiderAlone && r.Job.Rider == 79*units.Kilogram
			}},
		{"from the rider, fill told", strings.Replace(good, "[plan]", "[plan]\nfrom = \"rider\"", 1),
			func(r *conversion.Report) bool {
				return r.Job.From == conversion.RiderAlone && r.Job.Present.Left.Air.Fill.Gauge.In(units.Bar) == 9
			}},
		{"from the fork", strings.NewReplacer(riderTable, "", "[plan]", "[plan]\nfrom = \"fork-alone\"").Replace(good),
			func(r *conversion.Report) bool {
				mid := r.Job.Fork.Travel * units.Length(r.Job.SagWindow[0]+r.Job.SagWindow[1]) / 2
				return math.Abs(float64(r.Present.Sag.Middle-mid)) <= 1e-6 && r.Job.Known.Rider > 50
			}},
		{"from the rider, no shelf", strings.NewReplacer(airTable, "", "criterion = \"energy\"\n", "", "[plan]",
			"[plan]\nfrom = \"rider\"").
			Replace(good[:strings.Index(good, "[shelf.a]")]), func(r *conversion.Report) bool {
			c, ok := r.Chosen()
			return ok && r.Job.Heading.Designed && c.Verdict != conversion.Refused && len(r.Job.Shelf) > 3
		}},
		{"from a sweep", good + sweepTable, func(r *conversion.Report) bool {
			return math.Abs(float64(r.Present.Setup.Curve(1).Force(150*units.Millimeter))-1265) <= 2 &&
				r.Job.Present.Friction < 70
		}},
		{"a build", good + buildTable, func(r *conversion.Report) bool {
			return r.Build != nil && len(r.Candidates) == 1 &&
				math.Abs(float64(*r.Candidates[0].OilLevel-160*units.Millimeter)) <= 1e-9
		}},
	} {
		f, err := decode(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if r, err := f.Report(); err != nil || !c.holds(r) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func TestWaysFaults(t *testing.T) {
	for _, c := range []struct {
		text, want string
		faults     int
	}{
		{strings.Replace(good, airTable, "", 1), ": air: missing", 1},
		{good[:strings.Index(good, "[shelf.a]")], ": shelf: missing", 1},
		{strings.Replace(good, riderTable, "", 1), ": rider: missing", 1},
		{strings.Replace(good, "[plan]", "[plan]\nfrom = \"fork-alone\"", 1), "rider.mass = \"79 kg\": leave it out", 1},
		{strings.Replace(good, "[plan]", "[plan]\nfrom = \"ridr\"", 1), "did you mean rider", 1},
		{strings.NewReplacer(riderTable, "", "9.0 bar", "1.0 bar", "[plan]", "[plan]\nfrom = \"fork-alone\"").Replace(good),
			"plan.from = \"fork-alone\": who rides this fill", 1},
		{good + strings.Replace(sweepTable, `"240 mm", "305 mm"`, `"240 mm"`, 1), "two lists of one length", 2},
		{good + strings.Replace(sweepTable, `"305 mm"`, `"250 mm"`, 1), "sweep the fork to the end", 1},
		{good + strings.Replace(sweepTable, `"0 mm"`, `"5 mm"`, 1), "sweep.forces", 2},
		{good + strings.Replace(sweepTable, `"60 mm"`, `"60 kg"`, 1), "sweep.travels", 1},
		{good + strings.Replace(buildTable, `"a"`, `"b"`, 1), `build.coil = "b": want the name of a coil`, 1},
		{good + strings.Replace(buildTable, "preload = \"4 mm\"\n", "", 1), "build.preload: want either", 1},
		{good + buildTable + "spacer = \"9 mm\"\n", "build.preload = \"4 mm\": want either", 1},
		{good + strings.Replace(buildTable, "preload = \"4 mm\"", "spacer = \"600 mm\"", 1), "build.spacer", 1},
		{good + strings.Replace(buildTable, "oil-level = \"160 mm\"", "oil-volume = \"1.5 L\"", 1), "build.oil-volume", 1},
	} {
		_, err := decode(c.text)
		if n := len(check.Split(err)); !strings.Contains(fmt.Sprint(err), c.want) || n != c.faults {
			t.Errorf("%d faults, want %d with %s in\n%v", n, c.faults, c.want, err)
		}
	}
}

// The fill that nobody read is the record's, so that the cautions still tell of it.
func TestUnreadFill(t *testing.T) {
	f, err := decode(strings.NewReplacer(airTable, "", "[plan]", "[plan]\nfrom = \"rider\"").Replace(good))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := setup.New(f.Job.Present); err != nil || f.Job.Present.Left.Air == nil {
		t.Errorf("%v: %+v", err, f.Job.Present)
	}
}
