package sheet_test

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/conversion/sheet"
	"example.org/forkcurve/units"
)

// metric is a job as a metric shop writes it, imperial the same as another does.
const metric = `title = "two shops"
[rider]
mass = "79.0 kg ± 2 kg"
stance = "standing"
[fork]
id = "M07"
[air]
pressure = "9.032 bar"
temperature = "22 °C"
altitude = "240 m"
[workshop]
temperature = "20 °C"
altitude = "240 m"
[event]
temperature = "4 °C"
altitude = "2500 m"
[plan]
criterion = "energy"
legs = "left"
preload = ["3 mm", "5 mm"]
[bench]
loose-reading = "12.4 mm"
[torque]
axle = "45 N·m"
[shelf.a]
rate = "8.4 N/mm"
wire = "6.2 mm"
outer-diameter = "42 mm"
active-coils = 38.1
free-length = "616 mm"
material = "sicrv"
`

var imperial = strings.NewReplacer("79.0 kg ± 2 kg", "174.2 lb ± 4.4 lb", "9.032 bar", "131 psi",
	"22 °C", "71.6 °F", "20 °C", "68 °F", "4 °C", "39.2 °F", `"240 m"`, `"787 ft"`, "2500 m", "8202 ft",
	`"3 mm", "5 mm"`, `"0.118 in", "0.197 in"`, "12.4 mm", "0.488 in", "45 N·m", "33.2 lbf·ft",
	"8.4 N/mm", "47.97 lbf/in", "6.2 mm", "0.2441 in", "42 mm", "1.6535 in", "616 mm", "24.252 in").Replace(metric)

func written(t *testing.T, job string) (*conversion.Report, string) {
	t.Helper()
	f, err := jobfile.Decode("job.toml", strings.NewReader(job), data.Reference())
	if err != nil {
		t.Fatal(err)
	}
	r, err := conversion.Plan(f.Job)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := sheet.WriteFullText(&b, r); err != nil {
		t.Fatal(err)
	}
	return r, b.String()
}

// What a job writes in pounds and inches comes back so, everywhere on the sheet and in the
// findings; the plan is the same.
func TestUnitsAsWritten(t *testing.T) {
	// The name of the fork, the label of the spring and torques have metric units in every shop;
	// oil is poured from metric cylinders, and its viscosity has no other.
	shared := regexp.MustCompile(`motocross 450, 48 mm|\([\d.]+ kgf/mm\)|\([\d.]+ N·m\)|mm²/s`)
	in := func(text string) *regexp.Regexp { return regexp.MustCompile(`[\d_,][ \n]+` + text + `($|[^\pL/·])`) }
	metricUnits := []string{"mm", "bar", "°C", "N", "N/mm", "J", "kg", "MPa", "m"}
	imperialUnits := []string{"in", "psi", "°F", "lbf", "lbf/in", "ft·lbf", "lb", "ksi", "ft"}
	r, text := written(t, metric)
	s, imperialText := written(t, imperial)
	text, imperialText = shared.ReplaceAllString(text, ""), shared.ReplaceAllString(imperialText, "")
	for i := range metricUnits {
		if !in(metricUnits[i]).MatchString(text) || in(metricUnits[i]).MatchString(imperialText) {
			t.Errorf("%s: metric sheet %v, imperial %q", metricUnits[i], in(metricUnits[i]).MatchString(text),
				in(metricUnits[i]).FindString(imperialText))
		}
		if in(imperialUnits[i]).MatchString(text) || !in(imperialUnits[i]).MatchString(imperialText) {
			t.Errorf("%s: metric sheet %q, imperial %v", imperialUnits[i], in(imperialUnits[i]).FindString(text),
				in(imperialUnits[i]).MatchString(imperialText))
		}
	}
	a, b := r.Candidates[0], s.Candidates[0]
	if d := a.Behavior.Sag.Middle - b.Behavior.Sag.Middle; !(max(d, -d) <= 0.1*mm) {
		t.Errorf("sag %v and %v", a.Behavior.Sag.Middle, b.Behavior.Sag.Middle)
	}
	if x, y := strings.Count(text, "\n"), strings.Count(imperialText, "\n"); max(x-y, y-x) > 12 {
		t.Errorf("%d and %d lines", x, y)
	}
	for _, line := range strings.Split(imperialText, "\n") {
		if n := len([]rune(line)); n > 80 {
			t.Errorf("%d columns: %s", n, line)
		}
	}
}

// A shop that mixes gets its mix back.
func TestMixedUnits(t *testing.T) {
	r, _ := written(t, strings.NewReplacer("9.032 bar", "131 psi", "8.4 N/mm", "0.857 kgf/mm").Replace(metric))
	if want := (units.Style{Pressure: "psi", Stiffness: "kgf/mm"}); r.Job.Heading.Units != want {
		t.Errorf("%+v, want %+v", r.Job.Heading.Units, want)
	}
}

// Gas over the oil is let out before the legs are opened, also where there is no air spring; two legs alike are told
// once.
func TestPrechargeFirst(t *testing.T) {
	out := text(t, plan(t, "M35", nil))
	released, opened := strings.Index(out, "let the precharge out at its valve,"), strings.Index(out, "Each leg: out:")
	if released < 0 || opened < 0 || released > opened || strings.Contains(out, "Left leg:") {
		t.Errorf("released at %d, opened at %d:\n%s", released, opened, out)
	}
}
