package jobfile_test

import (
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/units"
)

// What the fork at hand leaves a spring, and where its bushes stand, is said beside its id.
func TestForkAtHand(t *testing.T) {
	const id = `id = "M07"`
	decode := func(keys string) (*jobfile.File, error) {
		return jobfile.Decode("job.toml", strings.NewReader(strings.Replace(good, id, id+"\n"+keys, 1)), data.Reference())
	}
	f, err := decode(`spring-clearance = "2 mm"
		bush-overhang = "360 mm"
		bush-spacing = "150 mm"`)
	if err != nil {
		t.Fatal(err)
	}
	if got := f.Job.Legs[0].Clearance; got != 2*units.Millimeter {
		t.Errorf("clearance %v", got)
	}
	grown := f.Fork.BushSpacingAtFull.Value - f.Fork.BushSpacing.Value
	want := conversion.Bushes{Spacing: 150 * units.Millimeter, SpacingAtFull: 150*units.Millimeter + grown,
		Overhang: 360 * units.Millimeter}
	if got := f.Job.Usual.Bushes; got != want {
		t.Errorf("bushes %+v, want %+v", got, want)
	}
	if _, err := f.Report(); err != nil {
		t.Error(err)
	}
	if f, err = decode(""); err != nil || f.Job.Usual.Bushes.Overhang != 0 {
		t.Errorf("not said: %+v, %v", f.Job.Usual.Bushes, err)
	}
	for keys, want := range map[string]string{
		`spring-clearance = "11 mm"`: "0 mm to 10 mm",
		`bush-overhang = "40 mm"`:    "50 mm to 900 mm",
		`bush-spacing = "-1 mm"`:     "30 mm to 500 mm",
		`bush-overhang = "60 mm"`:    "nearer to the axle",
	} {
		if _, err := decode(keys); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v; want %s", keys, err, want)
		}
	}
}
