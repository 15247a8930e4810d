package bath_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/oil/bath"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const mL = units.Milliliter

var (
	cold = gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1.01325 * units.Bar)}
	warm = gas.Ambient{Temperature: units.Celsius(60), Pressure: cold.Pressure}
)

func of(t testing.TB, fork data.Fork) (bath.Bath, bath.Spec) {
	t.Helper()
	s := bath.Spec{Fork: fork.Spec(cold), Exponent: 1.3}
	var errs [4]error
	s.Fills[0], errs[0] = fork.Fill(setup.Left)
	s.Fills[1], errs[1] = fork.Fill(setup.Right)
	fluid, err := data.Reference().Fluid("fork-5")
	errs[2] = err
	s.Oil, errs[3] = fluid.Oil()
	if err := errors.Join(errs[:]...); err != nil {
		t.Fatal(err)
	}
	b, err := bath.New(s)
	if err != nil {
		t.Fatalf("%s: %v", fork.ID, err)
	}
	return b, s
}

func find(t testing.TB, id string) data.Fork {
	t.Helper()
	fork, err := data.Reference().Fork(id)
	if err != nil {
		t.Fatal(err)
	}
	return fork
}

// The room told to the lock locks a leg and a little less oil does not, cold and warm; warm oil locks with less. The
// fills of a record make the fork of the record, whose gas is rounded to 0.5 mL.
func TestForks(t *testing.T) {
	for fork := range data.Reference().Forks() {
		if fork.Right.Role == data.NoLeg {
			continue
		}
		b, s := of(t, fork)
		for _, air := range []gas.Ambient{cold, warm} {
			lock := b.Room(oil.LockRatio, air)
			for _, step := range []units.Volume{-0.01 * mL, 0.01 * mL} {
				if e, err := b.End(lock+step, air); err != nil || e.Locked != (step > 0) {
					t.Errorf("%s at %v: %+.2f of the lock, ratio %.1f, locked %v, %v", fork.ID, air, step, e.Ratio,
						e.Locked, err)
				}
			}
		}
		if b.Room(oil.LockRatio, warm) >= b.Room(oil.LockRatio, cold) {
			t.Errorf("%s: warm oil leaves more room", fork.ID)
		}
		now, err1 := b.End(0, cold)
		record, err2 := fork.Setup(cold)
		if err1 != nil || err2 != nil {
			t.Fatal(fork.ID, err1, err2)
		}
		c := record.Curve(s.Exponent)
		if want := c.Force(c.Stroke()); !(math.Abs(float64(now.Force(fork.Travel.Value)/want-1)) <= 0.01) {
			t.Errorf("%s: %.0f at the end, the record's fork %.0f", fork.ID, now.Force(fork.Travel.Value), want)
		}
	}
}

// What warmth adds at the end of the stroke is the higher pressure over the oil of both legs.
func TestWarmGasPushesMore(t *testing.T) {
	b, s := of(t, find(t, "M11"))
	from, err1 := b.End(0, cold)
	to, err2 := b.End(0, warm)
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	got := float64(to.Force(s.Fork.Travel) - from.Force(s.Fork.Travel))
	want := float64(b.Gap(setup.Left).Area+b.Gap(setup.Right).Area) * float64(to.Pressure-from.Pressure)
	if !(math.Abs(got-want) <= 1e-6*want) || !(want > 0) {
		t.Errorf("%.3f N more, by the pressures %.3f N", got, want)
	}
}

// A step of the fork is twice that of a leg.
func TestStep(t *testing.T) {
	for _, id := range []string{"M11", "M21"} {
		fork := find(t, id)
		b, s := of(t, fork)
		leg, err := s.Fills[0].Sensitivity(b.Gap(setup.Left))
		if err != nil {
			t.Fatal(err)
		}
		up := units.Volume(float64(s.Fills[0].Column()) * 0.005)
		for more, want := range map[units.Volume]oil.Change{5 * mL: leg.Volume, up: leg.Level} {
			p, err1 := b.End(0, cold)
			q, err2 := b.End(more, cold)
			if err1 != nil || err2 != nil {
				t.Fatal(err1, err2)
			}
			x := fork.Travel.Value
			if got := q.Force(x) - p.Force(x); math.Abs(float64(got-2*want.Force)) > 1e-6 ||
				math.Abs(q.Ratio-want.To) > 1e-9 {
				t.Errorf("%s, %.1f more: %+.3f to ratio %.3f; by the leg %+v", id, more, got, q.Ratio, want)
			}
		}
	}
}

func TestRefuses(t *testing.T) {
	_, good := of(t, find(t, "M11"))
	for name, change := range map[string]func(s *bath.Spec){
		"Spec.Exponent":     func(s *bath.Spec) { s.Exponent = 0.9 },
		"Spec.Fork.Right":   func(s *bath.Spec) { s.Fork.Right.Gap = nil },
		"Spec.Fills[Right]": func(s *bath.Spec) { s.Fills[1] = oil.Fill{} },
	} {
		s := good
		change(&s)
		var outside *units.RangeError
		if _, err := bath.New(s); !errors.As(err, &outside) || outside.Field != name {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A fill that no leg holds, less than none of it, and air in which no fork is: errors, also on the way of a step; an
// air spring that locks has no force to tell.
func TestAtRefuses(t *testing.T) {
	b, s := of(t, find(t, "M11"))
	for name, more := range map[string]units.Volume{"less than none": -s.Fills[0].Volume() - 1*mL,
		"above the leg": 3 * units.Liter} {
		if _, err := b.End(more, cold); err == nil {
			t.Errorf("%s: no error", name)
		}
		if _, err := b.Step(0, more, cold); err == nil {
			t.Errorf("a step to %s: no error", name)
		}
		if _, err := b.Step(more, 0, cold); err == nil {
			t.Errorf("a step from %s: no error", name)
		}
	}
	if _, err := b.End(0, gas.Ambient{Temperature: units.Kelvin(20), Pressure: cold.Pressure}); err == nil {
		t.Error("oil at 20 K: no error")
	}
	n := 0
	for fork := range data.Reference().Forks() {
		if spec := fork.Spec(cold); spec.Left.Gap != nil || spec.Right.Gap != nil {
			continue
		}
		n++
		whole, s := of(t, fork)
		end, err := whole.End(s.Fills[0].Residual()-1*mL/1000, cold)
		if err != nil {
			t.Fatal(err)
		}
		if !end.Locked || end.Curve != nil || end.Force(100*units.Millimeter) != 0 {
			t.Errorf("%s, an air spring full of oil: %+v", fork.ID, end)
		}
	}
	if n == 0 {
		t.Error("no fork on air over its oil")
	}
}

// One leg that locks locks the fork, whichever it is, and on springs it then has a curve up to there.
func TestOneLegLocks(t *testing.T) {
	_, good := of(t, find(t, "M11"))
	for side := range 2 {
		s := good
		f := s.Fills[side]
		var err error
		if s.Fills[side], err = f.With(f.Metal(), f.Volume()+f.Residual()+2*mL); err != nil {
			t.Fatal(err)
		}
		b, err := bath.New(s)
		if err != nil {
			t.Fatal(err)
		}
		end, err := b.End(0, cold)
		if err != nil || !end.Locked || end.Curve == nil || !(end.Force(s.Fork.Travel) > 0) ||
			end.Curve.Stroke() >= s.Fork.Travel {
			t.Errorf("leg %d full: %+v, %v", side, end, err)
		}
	}
	// The piston of an air spring is a ring around its rod.
	s := good
	s.Fork.Left = setup.Leg{Air: &setup.Air{Bore: 40 * units.Millimeter, Rod: 12 * units.Millimeter, Volume: 900 * mL,
		Fill: gas.Fill{Gauge: units.Gauge(2 * units.Bar), Ambient: cold}}}
	b, err := bath.New(s)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := float64(b.Gap(setup.Left).Area), math.Pi/4*(0.040*0.040-0.012*0.012); !(math.Abs(got-want) <= 1e-12) {
		t.Errorf("area %v, want %v", got, want)
	}
}

// How much oil an enduro fork takes, and what 10 mL more in each leg do to the end of its stroke.
func ExampleBath() {
	fork, _ := data.Reference().Fork("M11")
	fluid, _ := data.Reference().Fluid("fork-5")
	left, _ := fork.Fill(setup.Left)
	right, _ := fork.Fill(setup.Right)
	fork5, _ := fluid.Oil()
	home, _ := gas.StandardAt(0, units.Celsius(20))
	hot := gas.Ambient{Temperature: units.Celsius(60), Pressure: home.Pressure}
	b, err := bath.New(bath.Spec{Fork: fork.Spec(home), Fills: [2]oil.Fill{left, right}, Oil: fork5, Exponent: 1.3})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, more := range []units.Volume{0, 10 * units.Milliliter} {
		e, err := b.End(more, home)
		fmt.Printf("%.0f: level %.0f, ratio %.1f, %.0f at the end, %v\n",
			e.Fills[0].Volume(), e.Fills[0].Level(), e.Ratio, e.Force(fork.Travel.Value), err)
	}
	lock := left.Volume() + b.Room(oil.LockRatio, hot)
	fmt.Printf("warm, it locks from %.0f or a level of %.0f\n", lock, left.LevelOf(lock))
	// Output:
	// 600 mL: level 124 mm, ratio 4.5, 4934 N at the end, <nil>
	// 610 mL: level 119 mm, ratio 4.7, 5116 N at the end, <nil>
	// warm, it locks from 728 mL or a level of 60 mm
}

// The verdicts follow the ratios of common practice, and a step changes what both its ends say.
func TestJudge(t *testing.T) {
	b, _ := of(t, find(t, "M11"))
	for _, c := range []struct {
		cold, warm float64
		locks      bool
		want       bath.Verdict
	}{{4, 5, false, bath.Good}, {4, 6.1, false, bath.Care}, {5.1, 5.9, false, bath.Care}, {6.1, 7, false, bath.Refused},
		{4, 5, true, bath.Refused}} {
		if got := bath.Judge(bath.End{Ratio: c.cold}, bath.End{Ratio: c.warm, Locked: c.locks}); got != c.want {
			t.Errorf("%+v: %s", c, got)
		}
	}
	if got := bath.Judge(bath.End{Ratio: math.Inf(1), Locked: true}, bath.End{Locked: true}); got != bath.Locked {
		t.Errorf("locked: %s", got)
	}
	s, err := b.Step(0, 5*mL, cold)
	if err != nil {
		t.Fatal(err)
	}
	x := units.Length(0.3)
	if by, share := s.Change(x); by != s.To.Force(x)-s.From.Force(x) || !(by > 0) ||
		!(math.Abs(float64(share)*float64(s.From.Force(x))-float64(by)) <= 1e-9*float64(by)) {
		t.Errorf("a step changes the end by %v, %v", by, share)
	}
}
