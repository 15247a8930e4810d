package conversion_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// jobs whose candidates are rebuilt here: one leg and both, drained, with clicks, on a cold morning.
func jobs(t testing.TB) map[string]conversion.Job {
	one, both := motocross(t), bothLegs(t)
	for _, j := range []*conversion.Job{&one, &both} {
		for i := range j.Legs {
			j.Legs[i].Drained = [2]units.Volume{380 * mL, 460 * mL}
		}
		j.Usual.LegSpacing = 210 * mm
		j.Clicks = &conversion.Clicks{Rebound: 12, Compression: 10}
		j.Shelf = append(slices.Clone(j.Shelf), j.Shelf[0])
		last := &j.Shelf[len(j.Shelf)-1]
		last.Name, last.Rate, last.Wire.Rate = "stiff", last.Rate*1.25, last.Wire.Rate*1.25
	}
	cold := one
	cold.Workshop.Temperature = units.Celsius(2)
	cold.Present.Closed.Temperature = units.Celsius(2)
	return map[string]conversion.Job{"one leg": one, "both": both, "cold workshop": cold}
}

func rebuilt(t *testing.T, test func(t *testing.T, j conversion.Job, r *conversion.Report, c conversion.Candidate,
	w helical.Spring)) {
	for name, j := range jobs(t) {
		t.Run(name, func(t *testing.T) {
			r := plan(t, j)
			for _, c := range r.Candidates {
				for _, on := range j.Shelf {
					if on.Name == c.Coil {
						w, err := helical.New(on.Wire)
						if err != nil {
							t.Fatal(err)
						}
						test(t, j, r, c, w)
					}
				}
			}
		})
	}
}

// What goes in, less what came out.
func TestMassRebuilt(t *testing.T) {
	rebuilt(t, func(t *testing.T, j conversion.Job, _ *conversion.Report, c conversion.Candidate, w helical.Spring) {
		springs := float64(w.Mass()) * float64(len(j.Legs))
		liquid := 0.0
		for _, b := range c.Builds {
			liquid += float64(b.OilVolume-420*mL) * float64(j.Oil.Density(j.Workshop.Temperature))
		}
		m := c.MassChange
		near(t, "springs", float64(m.Springs), springs, 1e-12)
		near(t, "oil", float64(m.Oil), liquid, 1e-12)
		near(t, "sprung", float64(m.Sprung), springs/2, 1e-12)
		near(t, "unsprung", float64(m.Unsprung), springs/2+liquid, 1e-12)
	})
}

// A front that sinks turns the machine about the contact of its rear wheel: the axle, which hangs from the
// frame, comes back to the height of its radius.
func TestStanceRebuilt(t *testing.T) {
	rebuilt(t, func(t *testing.T, j conversion.Job, r *conversion.Report, c conversion.Candidate, _ helical.Spring) {
		ch := j.Chassis
		sink := float64(c.Behavior.Sag.Middle - r.Present.Sag.Middle)
		near(t, "change of sag", float64(c.SagChange), sink, 1e-12)
		rake, base, radius := float64(ch.Rake), float64(ch.Wheelbase), float64(ch.WheelRadius)
		// The axle in the frame's own axes, from the rear contact, moved along the steering axis.
		x, y := base-sink*math.Sin(rake), radius+sink*math.Cos(rake)
		// Turned nose down by the angle that brings it back to the radius.
		turn := math.Atan2(y, x) - math.Asin(radius/math.Hypot(x, y))
		near(t, "rake", float64(c.RakeChange), -turn, 0.02*math.Abs(turn)+1e-9)
		trail := func(rake float64) float64 { return (radius*math.Sin(rake) - float64(ch.Offset)) / math.Cos(rake) }
		near(t, "trail", float64(c.TrailChange), trail(rake-turn)-trail(rake), 0.02*math.Abs(float64(c.TrailChange))+1e-9)
		near(t, "wheelbase", float64(c.WheelbaseChange), -sink*math.Sin(rake), 1e-12)
	})
}

func TestBindAndStressRebuilt(t *testing.T) {
	rebuilt(t, func(t *testing.T, j conversion.Job, _ *conversion.Report, c conversion.Candidate, w helical.Spring) {
		travel := j.Fork.Travel
		near(t, "bind margin", float64(c.BindMargin), float64(w.FreeLength()-w.SolidLength()-travel-c.Preload), 1e-12)
		near(t, "bind margin advised", float64(c.BindMarginAdvised),
			math.Max(0.005+0.02*float64(travel), float64(w.DynamicMinimumGap())), 1e-12)
		// EN 13906-1 holds a spring at rest to the stress without the factor of its curvature.
		d, mean := float64(w.Wire()), float64(w.MeanDiameter())
		force := float64(c.Each) * float64(travel+c.Preload)
		near(t, "stress", float64(c.Stress), 8*force*mean/(math.Pi*d*d*d), 1e-6*float64(c.Stress))
		near(t, "its limit", float64(c.StressLimit), float64(w.StaticLimit()), 0)
		spacer := float64(j.Legs[0].Room.Length - w.FreeLength() + c.Preload)
		near(t, "spacer", float64(c.Spacer), spacer, 1e-12)
	})
}

// gasOver is the gas over so much oil in a leg: the compression ratio of a landing and its peak on the gauge, closed in
// the workshop and come to a temperature; false where it locks. By Boyle, Gay-Lussac and the polytropic law.
func gasOver(j conversion.Job, l conversion.ConvertedLeg, metal, liquid, less units.Volume,
	warm units.Temperature) (ratio, peak float64, ok bool) {
	here := j.Workshop
	swept := float64(l.Bath.Area) * float64(j.Fork.Travel)
	left := float64(l.Bath.Interior-l.Bath.Metal-metal-liquid) - float64(less)
	closed := (left + swept) * here.Pressure.In(units.Pascal) / here.Temperature.Kelvin()
	left -= float64(liquid) * (float64(j.Oil.Density(here.Temperature))/float64(j.Oil.Density(warm)) - 1)
	if left <= 0 {
		return 0, 0, false
	}
	start := closed * warm.Kelvin() / (left + swept)
	ratio = (left + swept) / left
	return ratio, start*math.Pow(ratio, j.RideExponent) - here.Pressure.In(units.Pascal), true
}

// Oil as advised is within the limits in every leg, in 97.5 % of fills, and the most oil told is where that ends: more
// by a milliliter is not.
func TestOilRebuilt(t *testing.T) {
	rebuilt(t, func(t *testing.T, j conversion.Job, _ *conversion.Report, c conversion.Candidate, w helical.Spring) {
		warm := j.Workshop.Temperature.Add(conversion.OilWarming)
		safe := func(l conversion.ConvertedLeg, liquid, spread units.Volume) bool {
			ratio, peak, ok := gasOver(j, l, w.Volume(), liquid, 1.959964*spread, warm)
			return ok && ratio <= conversion.StopGapRatio && peak <= float64(conversion.StopGapPressure)
		}
		for i, b := range c.Builds {
			l := j.Legs[i]
			column := j.Fork.OilColumn()
			if l.Bath.Column != 0 {
				column = l.Bath.Column
			}
			ratio, peak, ok := gasOver(j, l, w.Volume(), b.OilVolume, 0, j.Workshop.Temperature)
			near(t, "cold ratio", b.Cold.Ratio, ratio, 1e-9*ratio)
			near(t, "cold peak", b.Cold.Peak.In(units.Pascal), peak, 1e-9*peak)
			if i == 0 {
				near(t, "peak of the first leg", c.GapPeak.In(units.Pascal), peak, 1e-9*peak)
			}
			if ratio, peak, warmOK := gasOver(j, l, w.Volume(), b.OilVolume, 0, warm); warmOK {
				near(t, "warm ratio", b.Warm.Ratio, ratio, 1e-9*ratio)
				near(t, "warm peak", b.Warm.Peak.In(units.Pascal), peak, 1e-9*peak)
			}
			if !ok || ratio > conversion.GoodGapRatio*(1+1e-9) {
				t.Errorf("planned to a ratio of %v", ratio)
			}
			byLevel := units.Volume(float64(column) * float64(conversion.LevelSpread))
			byVolume := units.Volume(math.Hypot(float64(max(l.Bath.Spread,
				min(conversion.LeastInteriorSpread, l.Bath.Interior/50))),
				float64(min(conversion.LeastFillSpread, l.Bath.Interior/50))))
			worst, _, _ := gasOver(j, l, w.Volume(), b.OilVolume, 1.959964*byLevel, warm)
			near(t, "worst ratio", b.Worst.Ratio, worst, 1e-9*worst)
			if !safe(l, b.OilVolume, byLevel) {
				t.Errorf("%v leg: %v as advised is not safe", l.Side, b.OilVolume)
			}
			most := units.Volume(float64(l.Bath.Interior) - float64(column)*float64(*b.LevelLeast))
			for what, m := range map[string]struct{ most, spread units.Volume }{"poured": {b.OilMost, byVolume},
				"to a level": {most, byLevel}} {
				if !safe(l, m.most-0.01*mL, m.spread) {
					t.Errorf("%v leg, %s: %v told as safe is not", l.Side, what, m.most)
				}
				if m.most < b.OilVolume-1e-12 && safe(l, m.most+1*mL, m.spread) {
					t.Errorf("%v leg, %s: more than %v is safe", l.Side, what, m.most)
				}
			}
			near(t, "level", float64(*b.OilLevel), float64(l.Bath.Interior-b.OilVolume)/float64(column), 1e-12)
		}
		// More oil is not planned than leaves the gas of each leg, four deviations of its level off, within the limits; what
		// the range allows is the rest.
		if c.OilVolume > j.OilVolume.Max || c.OilVolume < j.OilVolume.Min {
			t.Errorf("%v outside the range", c.OilVolume)
		}
	})
}

// What both legs do in a landing, about the middle between them: each leg alone is a fork.
func TestSideMomentRebuilt(t *testing.T) {
	rebuilt(t, func(t *testing.T, j conversion.Job, r *conversion.Report, c conversion.Candidate, _ helical.Spring) {
		for _, b := range []conversion.Behavior{r.Present, c.Behavior} {
			force := func(l setup.Leg) float64 {
				f := setupOf(t, setup.Spec{Travel: j.Fork.Travel, Closed: j.Workshop, Left: l}).Curve(j.RideExponent)
				return float64(f.Force(f.Stroke()))
			}
			s := b.Setup.Spec()
			want := (force(s.Left) - force(s.Right)) * 0.105
			near(t, "side moment", float64(b.SideMoment), want, 1e-9*(1+math.Abs(want)))
		}
	})
}

func TestScoresRebuilt(t *testing.T) {
	rebuilt(t, func(t *testing.T, j conversion.Job, r *conversion.Report, c conversion.Candidate, _ helical.Spring) {
		steps := func(ratio float64) float64 { return math.Log(ratio) / conversion.RateShare }
		cautions := 0.0
		for _, f := range c.Findings {
			if f.Severity == conversion.Caution {
				cautions++
			}
		}
		s, b := c.Scores, c.Behavior
		near(t, "support", s.Support, math.Abs(steps(float64(c.Rate/r.Targets[j.Criterion].Rate))), 1e-9)
		near(t, "comfort", s.Comfort, steps(float64(b.Rate/r.Present.Rate)), 1e-9)
		near(t, "bottoming", s.Bottoming, steps(float64(r.Present.EnergyFull/b.EnergyFull)), 1e-9)
		near(t, "cautions", s.Cautions, cautions*conversion.CautionShare/conversion.RateShare, 1e-9)
		worst := max(1-c.Chances.SagInWindow, c.Chances.Bind, c.Chances.Lock, c.Chances.OverPressure)
		near(t, "robustness", s.Robustness, float64(worst)/0.1, 1e-9)
		near(t, "total", s.Total, s.Support+s.Cautions, 1e-9)
		best := !slices.ContainsFunc(r.Candidates, func(o conversion.Candidate) bool {
			a := [...]float64{o.Scores.Support, o.Scores.Comfort, o.Scores.Bottoming, o.Scores.Robustness, o.Scores.Cautions}
			d := [...]float64{s.Support, s.Comfort, s.Bottoming, s.Robustness, s.Cautions}
			better := false
			for i := range a {
				if a[i] > d[i] {
					return false
				}
				better = better || a[i] < d[i]
			}
			return better && o.Safe()
		})
		if s.Pareto != (best && c.Safe()) {
			t.Errorf("%s: Pareto %v", c.Coil, s.Pareto)
		}
	})
}

// Rebound starts between both rules and the compression a click firmer, never closed.
func TestStartRebuilt(t *testing.T) {
	rebuilt(t, func(t *testing.T, j conversion.Job, _ *conversion.Report, c conversion.Candidate, _ helical.Spring) {
		want := max(conversion.LeastClicks, 12-int(math.Round((c.Rebound.FewClicks+c.Rebound.MostClicks)/2)))
		if c.Start.Rebound != want || c.Start.Compression != 9 {
			t.Errorf("start %+v, want %d and 9", *c.Start, want)
		}
	})
	for _, present := range []bool{true, false} {
		j := motocross(t)
		j.Clicks = &conversion.Clicks{Rebound: 1, Compression: 1}
		if !present { // on a coil already
			j.Present.Left = setup.Leg{Gap: j.Present.Left.Gap,
				Springs: []spring.Spec{spring.CoilSpec{Rate: 8.4 * nmm, Preload: 4 * mm}}}
		}
		c := plan(t, j).Candidates[0]
		if c.Start.Compression != conversion.LeastClicks && present || !present && c.Start.Compression != 1 ||
			c.Start.Rebound < conversion.LeastClicks {
			t.Errorf("on air %v: start %+v", present, *c.Start)
		}
	}
}

// The warm fork is built here: the spring softer by its modulus, the oil swollen into the gas that was closed in.
func TestRunningRebuilt(t *testing.T) {
	rebuilt(t, func(t *testing.T, j conversion.Job, r *conversion.Report, c conversion.Candidate, w helical.Spring) {
		here, warm := j.Workshop, j.Workshop.Temperature.Add(conversion.OilWarming)
		m := w.Material()
		rate := units.Stiffness(float64(c.Each) * m.ModulusFactor(warm) / m.ModulusFactor(here.Temperature))
		s := c.Behavior.Setup.Spec()
		for i, l := range j.Legs {
			leg := &s.Left
			if l.Side == setup.Right {
				leg = &s.Right
			}
			coil := leg.Springs[0].(spring.CoilSpec)
			coil.Rate = rate
			leg.Springs = []spring.Spec{coil}
			oil := c.Builds[i].OilVolume
			swept := units.Volume(float64(l.Bath.Area) * float64(j.Fork.Travel))
			closed := leg.Gap.Residual + swept
			left := leg.Gap.Residual - oil*units.Volume(float64(j.Oil.Density(here.Temperature))/float64(j.Oil.Density(warm))-1)
			pressure := here.Pressure.In(units.Pascal) * (float64(closed/(left+swept)) - 1)
			leg.Gap = &setup.Gap{Area: l.Bath.Area, Residual: left, Gauge: units.Gauge(units.Pressure(pressure))}
		}
		f, err := setupOf(t, s).At(gas.Ambient{Temperature: warm, Pressure: here.Pressure})
		if err != nil {
			t.Fatal(err)
		}
		sag, err := f.Sag(r.Rider.Axial)
		if err != nil {
			t.Fatal(err)
		}
		got := c.Behavior.Running
		near(t, "warm sag", float64(got.Sag.Middle), float64(sag.Middle), 1e-9)
		end := f.Curve(j.RideExponent).Stroke()
		near(t, "warm energy", float64(got.EnergyFull), float64(f.Curve(j.RideExponent).Energy(end)), 1e-6)
	})
}

// The band tries a slower gas, the usual one and one without heat exchange, here and once warm, from full extension
// and from the sag.
func TestBandTries(t *testing.T) {
	r := plan(t, motocross(t))
	tried := map[float64]bool{}
	starts := map[bool]bool{}
	for _, row := range r.Band.Rows {
		tried[math.Round(row.Exponent*1e6)/1e6] = true
		starts[row.Start > 0] = true
		if !(row.Rate >= r.Band.Least && row.Rate <= r.Band.Most) {
			t.Errorf("%+v outside %v to %v", row, r.Band.Least, r.Band.Most)
		}
	}
	for _, n := range []float64{1, 1.2, 1.3, 1.4} {
		if !tried[n] {
			t.Errorf("exponent %v is not tried: %v", n, tried)
		}
	}
	if len(tried) != 4 || len(starts) != 2 {
		t.Errorf("tried %v, starts %v", tried, starts)
	}
}

// The sag from which the band starts is the one that is asked for, or that of the present fork as warm as it then is.
func TestBandStartsAtTheSag(t *testing.T) {
	j := motocross(t)
	starts := func() (list []units.Length) {
		for _, row := range plan(t, j).Band.Rows {
			if row.Start > 0 && !slices.Contains(list, row.Start) {
				list = append(list, row.Start)
			}
		}
		return list
	}
	now := setupOf(t, j.Present)
	warm, err := now.At(gas.Ambient{Temperature: j.Workshop.Temperature.Add(40), Pressure: j.Workshop.Pressure})
	if err != nil {
		t.Fatal(err)
	}
	load := j.Chassis.RiddenLoad(j.Rider).Axial
	cold, err1 := now.Sag(load)
	hot, err2 := warm.Sag(load)
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	if got := starts(); len(got) != 2 || !(math.Abs(float64(got[0]-cold.Middle)) <= 1e-9) ||
		!(math.Abs(float64(got[1]-hot.Middle)) <= 1e-9) {
		t.Errorf("from %v, the fork sags %v, warm %v", got, cold.Middle, hot.Middle)
	}
	j.TargetSag = 70 * mm
	if got := starts(); !slices.Equal(got, []units.Length{70 * mm}) {
		t.Errorf("from %v, asked for 70 mm", got)
	}
}

// A coil is inside the band by its rate for the whole fork: by half of it where it stands in both legs.
func TestInsideTheBand(t *testing.T) {
	soft := motocross(t)
	soft.Shelf = append(soft.Shelf, coil(6.5*nmm), coil(11.5*nmm))
	all := jobs(t)
	all["too soft and too stiff"] = soft
	for name, j := range all {
		r := plan(t, j)
		for _, c := range r.Candidates {
			in := c.Rate >= r.Band.Least && c.Rate <= r.Band.Most
			if slices.Contains(r.Band.Inside, c.Coil) != in {
				t.Errorf("%s: %s of %v, inside %v; the band is %v to %v", name, c.Coil, c.Rate, !in, r.Band.Least, r.Band.Most)
			}
		}
	}
}

// A rate below any that is wound for a fork is asked for, and no spring of it is told.
func TestNothingIsWoundSoSoft(t *testing.T) {
	j := motocross(t)
	j.From, j.Rider, j.TargetSag, j.SagWindow = conversion.RiderAlone, 20, 150*mm, [2]units.Share{0.3, 0.55}
	r := plan(t, j)
	asked := r.Targets[j.Criterion].Rate
	if fit := r.WouldFit; fit == nil || fit.Designed || fit.Wire != 0 || !(asked < 2*nmm) {
		t.Errorf("asked for %v, would fit %+v", asked, fit)
	}
}

// Where nothing fits, what would is told by the tightest leg.
func TestWouldFitTheTightestLeg(t *testing.T) {
	for _, c := range []struct {
		clearance          units.Length
		bore, guide, least float64 // of the spring
	}{{0, 0.043, 0.021, 0.001}, {3 * mm, 0.041, 0.023, 0.003}} {
		j := bothLegs(t)
		j.Legs[1].Clearance = c.clearance
		j.Legs[1].Room.Length = 600 * mm
		for i := range j.Shelf {
			j.Shelf[i].Wire.FreeLength = 420 * mm // all bind
		}
		r := plan(t, j)
		fit := r.WouldFit
		if fit == nil {
			t.Fatal("something fits")
		}
		each := float64(r.Targets[j.Criterion].Rate) / 2
		near(t, "least rate", float64(fit.RateLeast), each/(1+conversion.RateShare), 1e-6)
		near(t, "most rate", float64(fit.RateMost), each*(1+conversion.RateShare), 1e-6)
		near(t, "outside", float64(fit.OuterMost), c.bore, 1e-12)
		near(t, "inside", float64(fit.InnerLeast), c.guide, 1e-12)
		near(t, "length", float64(fit.LengthMost), 0.603, 1e-12)
		if !fit.Designed {
			t.Fatal("none is designed")
		}
		if !(fit.OuterDiameter <= fit.OuterMost && fit.OuterDiameter-2*fit.Wire >= fit.InnerLeast) ||
			!(fit.FreeLength <= fit.LengthMost+1e-9) || !(fit.BindMargin > 0) ||
			!(fit.Rate >= fit.RateLeast && fit.Rate <= fit.RateMost) {
			t.Errorf("designed %+v", *fit)
		}
		w, err := helical.New(helical.Spec{Wire: fit.Wire, OuterDiameter: fit.OuterDiameter, ActiveCoils: fit.ActiveCoils,
			FreeLength: fit.FreeLength, Material: j.Shelf[0].Wire.Material})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "its margin at the most preload", float64(fit.BindMargin),
			float64(w.FreeLength()-w.SolidLength()-j.Fork.Travel-5*mm), 1e-6)
		near(t, "its rate", float64(w.Rate()), float64(fit.Rate), 1e-3*float64(fit.Rate))
	}
	j := motocross(t) // nothing within the spring
	for i := range j.Shelf {
		j.Shelf[i].Wire.FreeLength = 500 * mm
	}
	if fit := plan(t, j).WouldFit; fit == nil || fit.InnerLeast != 0 || !fit.Designed {
		t.Errorf("without a guide %+v", fit)
	}
}

// What hurts is said of what can hurt, and of nothing else.
func TestCautionsFitTheFork(t *testing.T) {
	home := ambient(t, 200*units.Meter, 20)
	coil := setup.Leg{Springs: []spring.Spec{spring.CoilSpec{Rate: 4 * nmm, Preload: 4 * mm}},
		Gap: &setup.Gap{Area: geometry.Circle(48 * mm), Residual: 300 * mL}}
	charged := coil
	charged.Gap = &setup.Gap{Area: geometry.Circle(48 * mm), Residual: 300 * mL, Gauge: units.Gauge(1 * units.Bar)}
	damped := coil
	damped.Damper = &setup.Damper{Rod: 12 * mm, Volume: 70 * mL,
		Fill: gas.Fill{Gauge: units.Gauge(4 * units.Bar), Ambient: home}}
	air := *motocross(t).Present.Left.Air
	onAir := setup.Leg{Gap: coil.Gap, Air: &air}
	charges := map[string]string{"air": "Stored pressure: the charged", "precharge": "Stored pressure over the oil",
		"damper": "dampers hold gas", "refill": "Never oxygen", "spring": "spring preload", "oil": "Do not run a leg",
		"axle": "brake bites", "ride": "First ride slow", "prevail": "manual, local codes"}
	always := []string{"spring", "oil", "axle", "ride", "prevail"}
	for name, c := range map[string]struct {
		other setup.Leg
		says  []string
	}{
		"coil":      {coil, nil},
		"air":       {onAir, []string{"air", "refill"}},
		"precharge": {charged, []string{"precharge", "refill"}},
		"damper":    {damped, []string{"damper"}},
	} {
		for _, legs := range [][2]setup.Leg{{c.other, coil}, {coil, c.other}} {
			s := setup.Spec{Travel: 305 * mm, Closed: home, Left: legs[0], Right: legs[1]}
			text := strings.Join(conversion.Cautions(setupOf(t, s)), "\n")
			for what, phrase := range charges {
				want := slices.Contains(always, what) || slices.Contains(c.says, what)
				if strings.Contains(text, phrase) != want {
					t.Errorf("%s: %q told %v, want %v", name, phrase, !want, want)
				}
			}
			if strings.Contains(text, "vacated air leg") {
				t.Errorf("%s: cautions of a conversion", name)
			}
		}
	}
	for present, want := range map[bool]bool{true: true, false: false} {
		j := motocross(t)
		if !present {
			j.Present.Left = coil
		}
		if got := strings.Contains(strings.Join(plan(t, j).Cautions, "\n"), "vacated air leg"); got != want {
			t.Errorf("on air %v: a vacated leg is told %v", present, got)
		}
	}
	// What the springs hold, and not what stands over the oil or in a damper.
	f := setupOf(t, setup.Spec{Travel: 305 * mm, Closed: home, Left: onAir, Right: damped})
	spaces, err := f.Spaces(0, 1)
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for _, s := range spaces {
		if s.Chamber == setup.Positive || s.Chamber == setup.Negative {
			e, err := s.Gas.StoredEnergy(home)
			if err != nil {
				t.Fatal(err)
			}
			sum += float64(e)
		}
	}
	if text := conversion.Cautions(f)[0]; !strings.Contains(text, fmt.Sprintf("%.0f", units.Energy(sum))) {
		t.Errorf("%q, want %.0f", text, sum)
	}
}
