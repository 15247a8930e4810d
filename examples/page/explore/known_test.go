package explore_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// What is known of a fork is what the dataset says: the uncertainty to first order agrees with that of forks drawn at
// random, and the largest parts are named with the dataset's spreads.
func TestSureAgreesWithItself(t *testing.T) {
	for f := range data.Reference().Forks() {
		u, err := parse(t, "fork="+f.ID+"&second=none&temperature=4C").Sure()
		if err != nil {
			t.Errorf("%s: %v", f.ID, err)
			continue
		}
		s := u.Forks[0]
		// The deviation of 100 draws is itself known to 1/√198; four of that, and curvature.
		for i, answer := range []string{"sag", "energy"} {
			if !(math.Abs(math.Log(s.Among[i]/s.SD[i])) <= 4/math.Sqrt(198)+0.15) {
				t.Errorf("%s: %s ±%.3g to first order, ±%.3g among %d drawn", f.ID, answer, s.SD[i], s.Among[i], s.Drawn)
			}
		}
		if s.Drawn < 90 || len(s.Parts) == 0 {
			t.Errorf("%s: %d drawn, %d parts", f.ID, s.Drawn, len(s.Parts))
		}
		for _, p := range s.Parts {
			if p.Source == "" || !strings.HasPrefix(p.Known, "± ") {
				t.Errorf("%s: %+v", f.ID, p)
			}
		}
	}
}

// The spreads are those of the records, not of a workshop.
func TestSureTakesTheRecords(t *testing.T) {
	for _, id := range []string{"M07", "B04"} {
		f, err := data.Reference().Fork(id)
		if err != nil {
			t.Fatal(err)
		}
		u, err := parse(t, "second=none&fork="+id).Sure()
		if err != nil {
			t.Fatal(err)
		}
		a := f.Left.Air
		found := 0
		for name, want := range map[string]float64{
			"travel":                           f.Travel.Spread.SD.In(units.Millimeter),
			"left leg: positive chamber":       100 * float64(a.Volume.Spread.SD/a.Volume.Value),
			"left leg: negative chamber":       100 * float64(a.NegativeVolume.Spread.SD/a.NegativeVolume.Value),
			"share of the front wheel":         f.Chassis.FrontShareRidden.Spread.SD.In(units.Percent),
			"mass of the machine":              f.Chassis.Mass.Spread.SD.In(units.Kilogram),
			"left leg: bore of the air spring": a.Bore.Spread.SD.In(units.Millimeter),
		} {
			for _, p := range u.Forks[0].Parts {
				if p.Name != name {
					continue
				}
				found++
				got, err := strconv.ParseFloat(strings.Fields(p.Known)[1], 64)
				if err != nil || !(math.Abs(got-want) <= 0.05*want) { // printed to two digits
					t.Errorf("%s: %s %s, the record has ±%.4g", id, name, p.Known, want)
				}
			}
		}
		if found < 3 {
			t.Errorf("%s: only %d of its largest parts are those expected", id, found)
		}
	}
}

// The terms of a sum come to its result, as far as they are printed.
func TestWhySumsAreRight(t *testing.T) {
	number := func(text string) float64 {
		x, err := strconv.ParseFloat(strings.NewReplacer("−", "-", " ", "").Replace(text), 64)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	for _, address := range []string{"", "units=imperial", "fork=B04&travel=90mm", "fork=B04&units=imperial&travel=90mm",
		"fork=M14&temperature=4C&vent=extended", "fork=L02&units=imperial"} {
		w, err := parse(t, address).Why()
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range w.Forks {
			for _, step := range f.Steps {
				if step.Name != "Force of the fork" && step.Name != "Rate of the fork" {
					continue
				}
				terms := strings.Split(strings.ReplaceAll(step.Sum, "− ", "+ −"), " + ")
				sum, places := 0.0, 0
				for _, term := range terms {
					sum += number(term)
					_, decimals, _ := strings.Cut(term, ".")
					places = len(decimals)
				}
				want := number(strings.Fields(step.Result)[0])
				if tol := float64(len(terms)+1) * 0.5 * math.Pow(10, -float64(places)); !(math.Abs(sum-want) <= tol+1e-9) {
					t.Errorf("%s: %s: %s = %s makes %.3f", address, f.Name, step.Sum, step.Result, sum)
				}
				if imperial := strings.Contains(step.Result, "lbf"); imperial != strings.Contains(address, "imperial") {
					t.Errorf("%s: %s", address, step.Result)
				}
			}
		}
	}
}

// Weather has both ends: the same at both changes no sag, one at the other end works the other way.
func TestWeatherAtBothEnds(t *testing.T) {
	change := func(address string) float64 {
		v, err := parse(t, "fork=M07&second=none&"+address).View()
		if err != nil {
			t.Fatal(err)
		}
		return reading(t, v, "change", 0)
	}
	if got := change("weather=30hPa&home-weather=30hPa"); !(math.Abs(got) <= 1e-9) {
		t.Errorf("the same weather changes the sag by %v", got)
	}
	now, then := change("weather=30hPa"), change("home-weather=30hPa")
	if !(now > 0.05 && math.Abs(now+then) <= 0.1*now) {
		t.Errorf("more pressure now %+.2f mm, more then %+.2f mm", now, then)
	}
}

// Gas that went past the piston is gone from the chamber that carries, until both are filled again.
func TestPastThePiston(t *testing.T) {
	sag := func(address string) float64 {
		v, err := parse(t, "fork=M07&second=none"+address).View()
		if err != nil {
			t.Fatal(err)
		}
		return reading(t, v, "sag", 0)
	}
	sound, leaked, again := sag(""), sag("&past=yes"), sag("&past=yes&set=positive")
	if !(leaked > sound+10) || !(math.Abs(again-sound) <= 1e-6) {
		t.Errorf("sag %.1f mm, leaked past %.1f mm, set again %.1f mm", sound, leaked, again)
	}
}

// Only the chambers that a fork has are offered to be set again, and each reaches its own gas alone.
func TestSetAgainByChamber(t *testing.T) {
	offered := func(address string) (list []string) {
		for _, c := range parse(t, address).Controls() {
			if c.Key == "set" {
				for _, n := range c.Choices {
					list = append(list, n.Value)
				}
			}
		}
		return
	}
	for f := range data.Reference().Forks() {
		spec, none := f.Spec(home), units.GaugePressure{}
		want := map[string]bool{"no": true, "yes": true}
		for _, l := range []setup.Leg{spec.Left, spec.Right} {
			want["positive"] = want["positive"] || l.Air != nil
			want["second"] = want["second"] || l.Air != nil && l.Air.SecondVolume > 0
			want["negative"] = want["negative"] || l.Air != nil && l.Air.NegativeGauge != none
			want["over-oil"] = want["over-oil"] || l.Gap != nil && l.Gap.Gauge != none
		}
		got := offered("second=none&fork=" + f.ID)
		for _, name := range []string{"no", "yes", "positive", "second", "negative", "over-oil"} {
			if has := strings.Contains(" "+strings.Join(got, " ")+" ", " "+name+" "); has != want[name] {
				t.Errorf("%s: %s offered: %v", f.ID, name, has)
			}
			if !want[name] || name == "no" {
				continue
			}
			if _, err := parse(t, "second=none&leak=20%25&fork="+f.ID+"&set="+name).View(); err != nil {
				t.Errorf("%s: %s: %v", f.ID, name, err)
			}
		}
	}
}

// The legs of the drawing hold the oil that the record or the plan has, with its level, and a damper's gas.
func TestLegsHoldTheOil(t *testing.T) {
	for f := range data.Reference().Forks() {
		v, err := parse(t, "second=none&fork="+f.ID).View()
		if err != nil {
			t.Errorf("%s: %v", f.ID, err)
			continue
		}
		for side, leg := range v.Forks[0].Legs {
			fill, err := f.Fill(setup.Side(side))
			if spec := f.Spec(home); err != nil || [2]setup.Leg{spec.Left, spec.Right}[side].Gap == nil {
				continue
			}
			want := strconv.FormatFloat(fill.Volume().In(units.Milliliter), 'f', 0, 64) + " mL"
			if f.Kit.SpringInOil {
				want += " level " + strconv.FormatFloat(fill.Level().In(units.Millimeter), 'f', 0, 64) + " mm"
			}
			if got := strings.Join(leg.OilTexts, " "); got != want {
				t.Errorf("%s, %s: %s, want %s", f.ID, leg.Side, got, want)
			}
		}
		if has := v.Forks[0].Legs[0].DamperGas > 0; has != f.Left.Reservoir.Rod.Given() {
			t.Errorf("%s: damper gas drawn: %v", f.ID, has)
		}
	}
	more, err := parse(t, "oil=50mL&oil2=50mL").View()
	if err != nil {
		t.Fatal(err)
	}
	less, err := parse(t, "").View()
	if err != nil {
		t.Fatal(err)
	}
	for i, f := range more.Forks {
		if !(f.Legs[0].Oil > less.Forks[i].Legs[0].Oil) || f.Legs[0].OilTexts[1] == less.Forks[i].Legs[0].OilTexts[1] {
			t.Errorf("%s: 50 mL more move no oil in the drawing", f.Name)
		}
	}
}

// home is where the page has legs closed unless told otherwise.
var home = gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(101325 * units.Pascal)}
