package oil_test

import (
	"fmt"
	"math"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// The effect of the oil level in a full-size inverted enduro fork and in a standard upright road fork with a coil
// in each leg: the whole fork, n = 1.3. The values were computed beforehand by an independent program for generic
// forks of this kind and hold to the printed digits; they are no measurement.
func TestLevelTables(t *testing.T) {
	none := math.NaN() // not tabulated
	for _, table := range []struct {
		fork  geometry.Fork
		coils spring.CoilSpec
		rows  [][5]float64 // level mm, compression ratio, force at 66 % and at the end of travel N, gap bar gauge
	}{
		{enduro, spring.CoilSpec{Rate: 2 * 4400, Preload: 8 * mm, Travel: 400 * mm}, [][5]float64{
			{140, 3.6, 2302, 4315, 4.4}, {130, 3.9, 2331, 4518, 5.0}, {120, 4.3, 2363, 4777, 5.7}, {110, 4.7, 2400,
				5116, 6.6}, {100, 5.3, 2442, 5580, 7.9},
			{90, 6.2, 2490, 6245, 9.8}, {80, 7.4, 2546, 7273, 12.6}, {70, 9.3, 2612, 9040, 17.5}, {60, 13, 2691, 12680,
				27.5},
		}},
		{road, spring.CoilSpec{Rate: 2 * 8500, Preload: 18 * mm, Travel: 400 * mm}, [][5]float64{
			{160, 2.6, none, 3100, none}, {140, 3.1, none, 3315, none}, {130, 3.4, none, 3480, none}, {120, 3.9, none,
				3716, none}, {110, 4.5, none, 4081, none},
			{100, 5.7, none, 4708, none}, {90, 7.8, none, 6004, none}, {80, 13, none, 9939, none}, {70, 72, none, 72e3,
				none},
		}},
	} {
		coils, err := spring.NewCoil(table.coils)
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range table.rows {
			t.Run(fmt.Sprintf("%v at %v mm", table.fork.Layout, row[0]), func(t *testing.T) {
				leg := newLeg(t, oil.LegSpec{Fork: table.fork, Depth: 500 * mm})
				spec := leg.FillSpec()
				spec.Metal, spec.Level = 75*mL, units.Length(row[0])*mm
				fill, err := oil.NewFill(spec)
				if err != nil {
					t.Fatal(err)
				}
				g := newGap(t, oil.AirGapSpec{Area: leg.Area(), Residual: fill.Residual(), Travel: table.fork.Travel,
					Pressure: sea, Ambient: sea, Exponent: 1.3})
				force := func(x units.Length) float64 { return float64(2*g.Force(x) + coils.Force(x)) }
				for _, c := range []struct {
					name      string
					got, want float64
					digit     float64 // the last one printed
				}{
					{"compression ratio", g.CompressionRatio(), row[1], digit(row[1], 10, 0.1)},
					{"force at 66 %", force(0.66 * table.fork.Travel), row[2], 1},
					{"force at the end", force(table.fork.Travel), row[3], digit(row[3], 20e3, 1)},
					{"gap pressure", g.Pressure(table.fork.Travel).Gauge(sea).In(units.Bar), row[4], 0.1},
				} {
					if !math.IsNaN(c.want) && !(math.Abs(c.got-c.want) <= 0.501*c.digit) {
						t.Errorf("%s %.3f, want %v", c.name, c.got, c.want)
					}
				}
			})
		}
	}
}

// digit is the last printed digit of v: fine below limit, else coarser, one for a ratio and a thousand for a force.
func digit(v, limit, fine float64) float64 {
	switch {
	case v < limit:
		return fine
	case fine < 1:
		return 1
	}
	return 1000
}

// A motocross fork with a closed cartridge: 10 mL more oil per leg give 0.7 % more force at 66 % of the travel and
// 3.2 % at its end. Computed beforehand by an independent program, no measurement.
func TestClosedCartridgeStep(t *testing.T) {
	fork := enduro
	fork.Travel = 305 * mm
	leg := newLeg(t, oil.LegSpec{Fork: fork, Depth: 500 * mm, Rod: 12.5 * mm, Cartridge: open, Closed: true})
	coils, err := spring.NewCoil(spring.CoilSpec{Rate: 2 * 4900, Preload: 6 * mm, Travel: 400 * mm})
	if err != nil {
		t.Fatal(err)
	}
	s := oil.AirGapSpec{Area: leg.Area(), Residual: 154 * mL, Travel: fork.Travel, Pressure: sea, Ambient: sea,
		Exponent: 1.3}
	before := newGap(t, s)
	s.Residual -= 10 * mL
	after := newGap(t, s)
	for _, c := range []struct{ share, percent float64 }{{0.66, 0.7}, {1, 3.2}} {
		x := units.Length(c.share) * fork.Travel
		force := func(g oil.AirGap) float64 { return float64(2*g.Force(x) + coils.Force(x)) }
		if got := 100 * (force(after)/force(before) - 1); !(math.Abs(got-c.percent) <= 0.05) {
			t.Errorf("at %.0f %% of travel %.2f %%, want %v", 100*c.share, got, c.percent)
		}
	}
	// The gap at extension and its ratio in the same source: 669 mL and 4.3.
	if got := before.Volume(0).In(mL); !(math.Abs(got-669) <= 0.6) || !(math.Abs(before.CompressionRatio()-4.3) <= 0.05) {
		t.Errorf("%.1f mL at extension, ratio %.2f", got, before.CompressionRatio())
	}
}
