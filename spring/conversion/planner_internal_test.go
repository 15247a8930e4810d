package conversion

import (
	"math"
	"slices"
	"testing"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// A rate that no coil has is no part of the band.
func TestBandTakesRates(t *testing.T) {
	const n = units.NewtonPerMillimeter
	b := Band{Asked: 8 * n, Least: 8 * n, Most: 8 * n}
	for _, rate := range []units.Stiffness{0, -1 * n, 1000 * n, 5000 * n, units.Stiffness(math.NaN()), 9 * n, 7 * n} {
		b.add(BandRow{Rate: rate})
	}
	if b.Least != 7*n || b.Most != 9*n || len(b.Rows) != 2 {
		t.Errorf("%+v", b)
	}
}

// What is known exactly is below a limit or is not.
func TestBelowALimit(t *testing.T) {
	const z = 1.959963984540054 // of 97.5 %
	for _, c := range []struct {
		limit, u float64
		want     units.Share
	}{{1, 0, 1}, {-1, 0, 0}, {0, 0, 0}, {0, 2, 0.5}, {2 * z, 2, 0.975}, {-2 * z, 2, 0.025}} {
		if got := below(c.limit, c.u); !(math.Abs(float64(got-c.want)) <= 1e-12) {
			t.Errorf("%v below %v known to %v, want %v", got, c.limit, c.u, c.want)
		}
	}
}

// A coil that is not safe stands for no other, however good its numbers are.
func TestParetoOfSafeCoils(t *testing.T) {
	list := []Candidate{{Verdict: Refused, Scores: Scores{Support: 0}}, {Verdict: Good, Scores: Scores{Support: 1}},
		{Verdict: Good, Scores: Scores{Support: 2}}}
	pareto(list)
	var got []bool
	for _, c := range list {
		got = append(got, c.Scores.Pareto)
	}
	if !slices.Equal(got, []bool{false, true, false}) {
		t.Errorf("%v", got)
	}
}

// Reducers are given up only where they are at an end of their range and the energy is off to that side.
func TestReducersGivenUp(t *testing.T) {
	const share, mL = ShortfallShare / 2, units.Milliliter
	a := &inflater{AirJob: AirJob{Criterion: LeastSquares}, least: 10 * mL, most: 60 * mL,
		matched: &Behavior{Energy90: 500}}
	for _, c := range []struct {
		name     string
		energy   float64 // of the one it takes after
		reducers units.Volume
		load     units.Force
		told     bool
	}{
		{"all of them are too few", 1 - 2*share, 60 * mL, 700, true}, {"some are in", 1 - 2*share, 30 * mL, 700, false},
		{"all of them do", 1 - share/2, 60 * mL, 700, false}, {"the fewest are too many", 1 + 2*share, 10 * mL, 700, true},
		{"more could be out", 1 + 2*share, 30 * mL, 700, false}, {"the fewest do", 1 + share/2, 10 * mL, 700, false},
		{"more would do", 1 - 2*share, 10 * mL, 700, false}, {"fewer would do", 1 + 2*share, 60 * mL, 700, false},
		{"it does not carry", 1 - 2*share, 60 * mL, 0, false},
	} {
		var f findings
		a.reducerFinding(&f, &AirReport{Reducers: c.reducers,
			Behavior: Behavior{Energy90: units.Energy(500 * c.energy), Sag: setup.Sag{Load: c.load}}})
		if told := len(f.list) > 0; told != c.told {
			t.Errorf("%s: %+v", c.name, f.list)
		}
	}
}

// The energy in the air spring is that of its own chambers, whatever is pumped in over the oil.
func TestStoredInTheAirSpring(t *testing.T) {
	room := gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1 * units.Bar)}
	held := func(over units.Pressure) string {
		f, err := setup.New(setup.Spec{Travel: 200 * units.Millimeter, Closed: room, Left: setup.Leg{
			Air: &setup.Air{Bore: 34 * units.Millimeter, Rod: 12 * units.Millimeter, Volume: 300 * units.Milliliter,
				NegativeVolume: 40 * units.Milliliter, Fill: gas.Fill{Gauge: units.Gauge(9 * units.Bar), Ambient: room}},
			Gap: &setup.Gap{Area: 15 * units.SquareCentimeter, Residual: 300 * units.Milliliter, Gauge: units.Gauge(over)}}})
		if err != nil {
			t.Fatal(err)
		}
		return stored(f, units.Style{})
	}
	if none, some := held(0), held(3*units.Bar); none != some || none == "" {
		t.Errorf("%q, with 3 bar over the oil %q", none, some)
	}
}

// A report of no coils has none to choose.
func TestNothingChosen(t *testing.T) {
	if c, ok := new(Report).Chosen(); ok {
		t.Errorf("%+v", c)
	}
}
