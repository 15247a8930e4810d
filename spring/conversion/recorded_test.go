package conversion_test

import (
	"math"
	"testing"

	"example.org/forkcurve/internal/record"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Preload and oil are those that scipy finds within the same ranges on a fork written out anew.
func TestSettingsRecorded(t *testing.T) {
	register.Cite(t, "S-81")
	rows := record.Rows(t, "settings.csv", "rider_kg,gauge_bar,rate_N_per_mm,interior_mL,target_sag_mm,preload_min_mm,"+
		"preload_max_mm,oil_min_mL,oil_max_mL,preload_mm,oil_mL", 20)
	inside := 0
	for i, row := range rows {
		var v [11]float64
		for k := range v {
			v[k] = record.Number(t, row[k])
		}
		j := motocross(t)
		here := gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1 * units.Bar)}
		j.Workshop, j.Event, j.Present.Closed = here, here, here
		air := *j.Present.Left.Air
		air.Fill = gas.Fill{Gauge: units.Gauge(units.Pressure(v[1]) * units.Bar), Ambient: here}
		j.Present.Left.Air, j.Rider = &air, units.Mass(v[0])
		j.Legs[0].Bath.Interior, j.TargetSag = units.Volume(v[3])*mL, units.Length(v[4])*mm
		lo, hi := units.Length(v[5])*mm, units.Length(v[6])*mm
		j.Preload = conversion.Setting[units.Length]{Min: lo, Aim: (lo + hi) / 2, Max: hi}
		least, most := units.Volume(v[7])*mL, units.Volume(v[8])*mL
		j.OilVolume = conversion.Setting[units.Volume]{Min: least, Aim: (least + most) / 2, Max: most}
		j.Known = &setup.Tolerance{}
		j.Shelf = []conversion.ShelfCoil{bySize("c", spring.CoilSpec{Rate: units.Stiffness(v[2]) * nmm,
			FreeLength: 605 * mm, SolidLength: 250 * mm})}
		c := plan(t, j).Candidates[0]
		preload, oil := c.Preload.In(mm), c.OilVolume.In(mL)
		if !(math.Abs(preload-v[9]) <= 2e-3) || !(math.Abs(oil-v[10]) <= 0.05) {
			t.Errorf("job %d: preload %.5f mm and oil %.4f mL, scipy %.5f mm and %.4f mL", i+1, preload, oil, v[9], v[10])
		}
		if v[9] > v[5] && v[9] < v[6] && v[10] > v[7] && v[10] < v[8] {
			inside++
		}
	}
	if inside < 12 {
		t.Errorf("%d jobs within their ranges", inside)
	}
}
