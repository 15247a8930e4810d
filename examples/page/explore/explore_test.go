package explore_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"net/url"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/page/explore"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

func parse(t *testing.T, address string) explore.State {
	t.Helper()
	s, err := explore.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func reading(t *testing.T, v explore.View, key string, fork int) float64 {
	t.Helper()
	for _, r := range v.Readings {
		if r.Key == key {
			return r.Values[fork]
		}
	}
	t.Fatalf("no reading %s", key)
	return 0
}

// The page says what the library says when it is asked directly, for every fork of the dataset and random
// settings.
func TestViewIsTheLibrary(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for f := range data.Reference().Forks() {
		celsius, height := float64(r.IntN(50)-15), float64(r.IntN(300)*10)
		s := parse(t, "fork="+f.ID+"&second=none")
		s.Temperature, s.Altitude = units.Celsius(celsius), units.Length(height)
		s.Travel = f.Travel.Value * units.Length(0.9*r.Float64())
		s.Vent, s.Again = explore.Extended, explore.Everything
		v, err := s.View()
		if err != nil {
			t.Errorf("%s: %v", f.ID, err)
			continue
		}
		home, err0 := gas.StandardAt(0, units.Celsius(20))
		there, err1 := gas.StandardAt(units.Length(height), units.Celsius(celsius))
		fork, err2 := f.Setup(home)
		if err := errors.Join(err0, err1, err2); err != nil {
			t.Fatal(err)
		}
		load := f.Load(f.Rider.Mass.Value)
		drift, err := fork.Drift(load, there)
		if err != nil {
			t.Fatal(err)
		}
		moved, err := fork.At(there)
		if err != nil {
			t.Fatal(err)
		}
		moved = moved.Vented().Refilled()
		curve := moved.CurveAbout(drift.Refilled.Middle, 1.3)
		for key, want := range map[string]float64{
			"sag":      drift.Refilled.Middle.In(units.Millimeter),
			"sag-high": drift.Refilled.High.In(units.Millimeter), "sag-low": drift.Refilled.Low.In(units.Millimeter),
			"change":     drift.Change(drift.Refilled).In(units.Millimeter),
			"force":      curve.Force(s.Travel).In(units.Newton),
			"force-rest": moved.Curve(1).Force(s.Travel).In(units.Newton),
			"rate":       curve.Rate(s.Travel).In(units.NewtonPerMillimeter),
			"energy":     curve.Energy(s.Travel).In(units.Joule),
			"load":       load.In(units.Newton),
		} {
			if got := reading(t, v, key, 0); !(math.Abs(got-want) <= 1e-9*(1+math.Abs(want))) {
				t.Errorf("%s: %s %v, the library has %v", f.ID, key, got, want)
			}
		}
	}
}

// The parts under "why" add up to the library's force, and the chambers of the drawings hold what the library
// says they hold.
func TestWhyAddsUp(t *testing.T) {
	for f := range data.Reference().Forks() {
		s := parse(t, "fork="+f.ID+"&second="+map[bool]string{true: "planned",
			false: "none"}[f.Spring() == data.AirLeg]+"&temperature=4C")
		w, err := s.Why()
		if err != nil {
			t.Errorf("%s: %v", f.ID, err)
			continue
		}
		for _, fork := range w.Forks {
			if n := len(fork.Steps); n < 5 {
				t.Errorf("%s: %d steps", fork.Name, n)
			}
			for _, step := range fork.Steps {
				if strings.Contains(step.Sum+step.Result, "%!") || strings.Contains(step.Result, "NaN") {
					t.Errorf("%s: %v", fork.Name, step)
				}
			}
		}
	}
}

func TestImperialIsTheSameFork(t *testing.T) {
	metric, err := parse(t, "temperature=4C&altitude=1000m").View()
	if err != nil {
		t.Fatal(err)
	}
	imperial, err := parse(t, "temperature=39.2F&altitude=3280.839895ft&units=imperial").View()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		key  string
		unit float64
	}{{"sag", 25.4}, {"force", 4.4482216152605}, {"energy", 1.3558179483314}} { // NIST SP 811, appendix B.8
		got, want := reading(t, imperial, c.key, 1)*c.unit, reading(t, metric, c.key, 1)
		if !(math.Abs(got-want) <= 1e-6*want) {
			t.Errorf("%s: %v in metric units, %v", c.key, got, want)
		}
	}
}

// Every fault of an address is told with its key, and what it stood for has its usual value.
func TestParseTellsAllFaults(t *testing.T) {
	for _, c := range []struct {
		address string
		want    []string
	}{
		{"fork=X9", []string{"fork", "X9"}},
		{"pressure=9", []string{"pressure", "unit missing"}},
		{"pressure=-3bar&rider=1000kg", []string{"pressure", "rider"}},
		{"temperature=4mm", []string{"temperature"}},
		{"exponent=7", []string{"exponent", "1 to 1.4"}},
		{"exponent=NaN", []string{"exponent"}},
		{"what=ever", []string{"what"}},
		{"preload=3mm", []string{"preload"}}, // an air fork has none
		{"%zz&rider=80kg", []string{"address"}},
		{"vent=<script>", []string{"vent"}},
	} {
		s, err := explore.Parse(c.address)
		if err == nil {
			t.Errorf("%s: accepted", c.address)
			continue
		}
		for _, want := range c.want {
			if !strings.Contains(err.Error(), want) {
				t.Errorf("%s: no %q in %v", c.address, want, err)
			}
		}
		if _, err := s.View(); err != nil {
			t.Errorf("%s: what stands then is no fork: %v", c.address, err)
		}
	}
}

// What a control shows reads back to what it stands for.
func TestControlsReadBack(t *testing.T) {
	for f := range data.Reference().Forks() {
		for _, system := range []string{"metric", "imperial"} {
			var parts []string
			for _, c := range parse(t, "units="+system+"&fork="+f.ID).Controls() {
				v := c.Chosen
				if c.Choices == nil {
					v = strings.ReplaceAll(strings.TrimSpace(strings.Fields(c.Text + " x")[0]), "−", "-") + c.Unit
				}
				parts = append(parts, c.Key+"="+url.QueryEscape(v))
			}
			parse(t, strings.Join(parts, "&"))
		}
	}
}

// The lessons against the library asked directly.
func TestLessons(t *testing.T) {
	sag := func(id string, change func(*setup.Setup) *setup.Setup) units.Length {
		f, err := data.Reference().Fork(id)
		if err != nil {
			t.Fatal(err)
		}
		home, err := gas.StandardAt(0, units.Celsius(20))
		if err != nil {
			t.Fatal(err)
		}
		set, err := f.Setup(home)
		if err != nil {
			t.Fatal(err)
		}
		at, err := change(set).Sag(f.Load(f.Rider.Mass.Value))
		if err != nil {
			t.Fatal(err)
		}
		return at.Middle
	}
	as := func(s *setup.Setup) *setup.Setup { return s }
	to := func(height units.Length, celsius float64) func(*setup.Setup) *setup.Setup {
		return func(s *setup.Setup) *setup.Setup {
			air, err := gas.StandardAt(height, units.Celsius(celsius))
			if err != nil {
				t.Fatal(err)
			}
			moved, err := s.At(air)
			if err != nil {
				t.Fatal(err)
			}
			return moved
		}
	}
	if len(explore.Lessons) != 9 {
		t.Errorf("%d lessons", len(explore.Lessons))
	}
	hot := sag("B04", to(0, 45)) < sag("B04", as)-0.001
	high := sag("M07", to(2500, 20)) < sag("M07", as)-0.001
	if !hot || !high {
		t.Error("the lessons on heat and altitude have lost their point")
	}
	for i, l := range explore.Lessons {
		right, err := l.Right()
		if err != nil {
			t.Errorf("%s: %v", l.Title, err)
			continue
		}
		if (i == 3 || i == 4) && right != "higher" {
			t.Errorf("%s: %s", l.Title, right)
		}
		if v, err := l.Answer(right); err != nil || !v.Right {
			t.Errorf("%s: %s is not right: %v, %v", l.Title, right, v, err)
		}
		wrong := "1e9"
		for _, c := range l.Choices {
			if c.Value != right {
				wrong = c.Value
			}
		}
		for _, given := range []string{wrong, "", "no number", "NaN"} {
			if v, err := l.Answer(given); err != nil || v.Right || v.Text == "" {
				t.Errorf("%s: %q: %v, %v", l.Title, given, v, err)
			}
		}
	}
}

func TestRideEveryCourse(t *testing.T) {
	for _, id := range []string{"M07", "B04", "M14"} {
		for _, course := range explore.Courses {
			m, err := parse(t, "fork="+id+"&second=none").Ride(course.Value)
			if err != nil {
				t.Errorf("%s: %s: %v", id, course.Value, err)
				continue
			}
			if len(m.Road) < 100 || len(m.Forks) != 1 || len(m.Forks[0].Travel) != len(m.Road) {
				t.Errorf("%s: %s: %d samples", id, course.Value, len(m.Road))
			}
		}
	}
	if _, err := parse(t, "").Ride("moon"); err == nil {
		t.Error("an unknown course")
	}
}

func TestSureBandHoldsTheCurve(t *testing.T) {
	s := parse(t, "temperature=4C")
	v, err := s.View()
	if err != nil {
		t.Fatal(err)
	}
	u, err := s.Sure()
	if err != nil {
		t.Fatal(err)
	}
	for i, f := range u.Forks {
		for j := range f.X {
			if !(f.Low[j] < f.High[j]) {
				t.Errorf("%s: no band at %v", f.Name, f.X[j])
			}
		}
		k := len(f.X) / 2 // where curve and band have a sample about the same travel
		force := v.Forks[i].Ridden.Force[len(v.Forks[i].X)*k/len(f.X)]
		if slack := 0.05 * force; force < f.Low[k]-slack || force > f.High[k]+slack {
			t.Errorf("%s: %v outside %v to %v", f.Name, force, f.Low[k], f.High[k])
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{"", "fork=M07&pressure=9bar", "second=none&units=imperial&rider=170lb", "fork=&&=%",
		"leak=50%25&vent=loaded"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, address string) {
		s, _ := explore.Parse(address)
		if v, err := s.View(); err == nil {
			for _, r := range v.Readings {
				for _, value := range r.Values {
					if math.IsNaN(value) {
						t.Errorf("%s is NaN", r.Key)
					}
				}
			}
		}
	})
}
