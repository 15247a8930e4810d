package jobfile_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/units"
)

// bare is a job to air of a fork that is kept; the tests spoil it line by line.
const bare = `title = "A job of a test"
[rider]
mass = "79 kg ± 2 kg"
stance = "standing"
[fork]
id = "M07"
[workshop]
temperature = "20 °C"
altitude = "240 m"
[event]
temperature = "4 °C"
altitude = "2500 m"
[plan]
to = "air"
[places]
temperatures = ["-5 °C", "25 °C"]
altitudes = ["0 m", "1800 m", "3000 m"]
`

func TestToAir(t *testing.T) {
	back := strings.Replace(good+buildTable, "[plan]", "[plan]\nto = \"air\"\nreducers = [\"5 mL\", \"40 mL\"]", 1)
	for _, c := range []struct {
		name, text string
		holds      func(j *conversion.AirJob) bool
	}{
		{"kept", bare, func(j *conversion.AirJob) bool {
			return j.Match == nil && len(j.Places) == 6 && j.Known.Rider > 0 && j.Torques == nil
		}},
		{"kept, as it is filled", bare + airTable, func(j *conversion.AirJob) bool {
			return j.Air.Left.Air.Fill.Gauge.In(units.Bar) == 9 && j.MaxGauge.In(units.Bar) == 12
		}},
		{"a sag wanted", strings.Replace(bare, "[places]", "target-sag = \"70 mm\"\nride-exponent = 1.2\n[places]", 1),
			func(j *conversion.AirJob) bool {
				return j.TargetSag == 70*units.Millimeter && j.RideExponent == 1.2
			}},
		{"usual places", strings.Split(bare, "[places]")[0],
			func(j *conversion.AirJob) bool { return len(j.Places) == 9 }},
		{"from a build", back, func(j *conversion.AirJob) bool {
			return j.Match != nil && math.Abs(j.Reducers[0].In(units.Milliliter)-5) <= 1e-9 &&
				math.Abs(j.Reducers[1].In(units.Milliliter)-40) <= 1e-9 && j.Criterion == conversion.Energy && len(j.Torques) == 1
		}},
	} {
		f, err := decode(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if f.Air == nil || !c.holds(f.Air) {
			t.Errorf("%s: %+v", c.name, f.Air)
			continue
		}
		if r, err := conversion.PlanAir(*f.Air); err != nil || !r.Safe() {
			t.Errorf("%s: %v, %+v", c.name, err, r)
		}
	}
}

func TestToAirFaults(t *testing.T) {
	for _, c := range []struct {
		text, want string
		faults     int
	}{
		{strings.Replace(bare, `"air"`, `"aier"`, 1), "did you mean air", 0},
		{strings.Replace(bare, `to = "air"`, "to = \"air\"\nfrom = \"rider\"", 1), "plan.from = \"rider\": leave it out", 1},
		{strings.Replace(bare, `"M07"`, `"M06"`, 1), "fork M06 has no air spring", 1},
		{strings.Replace(bare, `"3000 m"`, `"30000 m"`, 1), "places.altitudes", 1},
		{strings.Replace(bare, `"25 °C"`, `"25"`, 1), "places.temperatures", 1},
		{strings.Replace(bare, `"0 m", "1800 m"`, `"0 m"`+strings.Repeat(`, "9 m"`, 30), 1), "64 places in all", 1},
		{strings.Replace(bare, "[places]", "reducers = [\"0 mL\", \"9 mL\"]\n[places]", 1), "plan.reducers", 1},
		{strings.Replace(bare, "[places]", "legs = \"left\"\n[places]", 1), "plan.legs: unknown key", 1},
		{strings.Replace(good+buildTable, "[plan]", "[plan]\nto = \"air\"\nreducers = [\"9 mL\", \"4 mL\"]", 1),
			"plan.reducers", 1},
	} {
		_, err := decode(c.text)
		if n := len(check.Split(err)); !strings.Contains(fmt.Sprint(err), c.want) || c.faults > 0 && n != c.faults {
			t.Errorf("%d faults, want %d with %s in\n%v", n, c.faults, c.want, err)
		}
	}
	f, err := jobfile.Typical("M06", data.Reference())
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.ToAir(); err == nil || !strings.Contains(err.Error(), "M06") {
		t.Errorf("a fork on coils is filled: %v", err)
	}
}
