package explore

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Lesson is one step of the path: what to look at, a question, and the answers to choose from; none: a
// number is wanted, in that unit.
type Lesson struct {
	Title, Text, Question string
	Address               string // state it is about; Answer computes in that state
	Choices               []Named
	Unit                  string
	Look                  string // view of the page to look at

	answer func(s State) (solution, error)
}

// solution is the computed answer of a question.
type solution struct {
	choice           string  // of Choices
	value, tolerance float64 // or a number
	because          string
}

// Verdict is what the page says to an answer.
type Verdict struct {
	Right bool
	Text  string
}

// Answer checks what a reader answered by computing.
func (l Lesson) Answer(given string) (Verdict, error) {
	s, err := Parse(l.Address)
	if err != nil {
		return Verdict{}, err
	}
	want, err := l.answer(s)
	if err != nil {
		return Verdict{}, err
	}
	var right bool
	if l.Choices != nil {
		right = given == want.choice
	} else {
		v, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(given), ",", "."), 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			return Verdict{Text: "A number is wanted, as 12.5, in " + l.Unit + "."}, nil
		}
		right = math.Abs(v-want.value) <= want.tolerance
	}
	return Verdict{right, map[bool]string{true: "Right: ", false: "Not so: "}[right] + want.because}, nil
}

// Right is the answer that Answer calls right, as a reader would give it.
func (l Lesson) Right() (string, error) {
	s, err := Parse(l.Address)
	if err != nil {
		return "", err
	}
	want, err := l.answer(s)
	if l.Choices != nil {
		return want.choice, err
	}
	return strconv.FormatFloat(want.value, 'f', 2, 64), err
}

var heightChoices = []Named{{"higher", "higher: less sag"}, {"lower", "lower: more sag"}, {"same",
	"the same within 1 mm"}}

// sits compares two sags.
func sits(before, after units.Length) string {
	switch d := mm(after - before); {
	case d < -1:
		return "higher"
	case d > 1:
		return "lower"
	}
	return "same"
}

// sags are the middle sags of a fork as filled and now.
func (s State) sags(i int) (then, now units.Length, err error) {
	f, _, err := s.Fork(i)
	if err != nil {
		return
	}
	a, err := f.Home.Sag(f.Load)
	if err != nil {
		return
	}
	b, err := f.Now.Sag(f.Load)
	return a.Middle, b.Middle, err
}

// changed is a question about what today does to the sag of the first fork.
func changed(because string) func(State) (solution, error) {
	return func(s State) (solution, error) {
		then, now, err := s.sags(0)
		return solution{choice: sits(then, now), because: fmt.Sprintf("%.1f mm as filled, %.1f mm now. %s", mm(then),
			mm(now), because)}, err
	}
}

// ridden is the curve of a fork about its sag.
func (s State) ridden(i int) (spring.Curve, Fork, error) {
	f, _, err := s.Fork(i)
	if err != nil {
		return nil, f, err
	}
	sag, err := f.Now.Sag(f.Load)
	return f.Now.CurveAbout(sag.Middle, s.Exponent), f, err
}

// Lessons are the nine steps.
var Lessons = []Lesson{
	{
		Title: "Sag is where force meets load", Look: "curves", Unit: "mm", Address: "fork=M07&second=none&exponent=1",
		Text: "A fork settles where the force of its springs is the load on its axis. The load is the level line in the " +
			"force " +
			"drawing. Move the travel until the fork's line crosses it.",
		Question: "At which travel, within 3 mm, does this fork carry its rider?",
		answer: func(s State) (solution, error) {
			_, now, err := s.sags(0)
			return solution{value: mm(now), tolerance: 3, because: fmt.Sprintf("the force equals the load at %.1f mm.",
				mm(now))}, err
		},
	},
	{
		Title: "Slope is not force over " +
			"travel", Look: "curves", Unit: "N/mm", Address: "fork=M14&second=none&preload=15mm&travel=60mm",
		Text: "The rate is how much the force grows per millimeter: the slope of the force line at a point. Force divided " +
			"by travel is " +
			"another number as soon as there is preload or a bent line.",
		Question: "Force over travel is not the answer: what is the rate of this coil fork at 60 mm, within 5 %?",
		answer: func(s State) (solution, error) {
			c, _, err := s.ridden(0)
			if err != nil {
				return solution{}, err
			}
			k, f := c.Rate(s.Travel).In(units.NewtonPerMillimeter), c.Force(s.Travel).In(units.Newton)
			return solution{value: k, tolerance: 0.05 * k,
				because: fmt.Sprintf("the slope is %.2f N/mm; force over travel would be %.0f N / %.0f mm "+
					"= %.2f N/mm, and holds the preload.", k, f, mm(s.Travel), f/mm(s.Travel))}, nil
		},
	},
	{
		Title: "Air grows steep at the end", Look: "curves", Address: "fork=M07&travel=275mm",
		Text: "A coil adds the same force for each millimeter. Gas adds more the smaller its room is. Both forks here " +
			"carry the same rider " +
			"at about the same sag.",
		Question: "Which is steeper, ridden, at 275 mm?", Choices: []Named{{"1", "fork 1, on air"}, {"2",
			"fork 2, on a coil"}},
		answer: func(s State) (solution, error) {
			a, _, err := s.ridden(0)
			if err != nil {
				return solution{}, err
			}
			b, _, err := s.ridden(1)
			if err != nil {
				return solution{}, err
			}
			ka, kb := a.Rate(s.Travel).In(units.NewtonPerMillimeter), b.Rate(s.Travel).In(units.NewtonPerMillimeter)
			return solution{choice: map[bool]string{true: "1", false: "2"}[ka > kb],
				because: fmt.Sprintf("%.1f N/mm for fork 1, %.1f N/mm for fork 2. "+
					"The gas trapped over the oil stiffens both.", ka, kb)}, nil
		},
	},
	{
		Title: "Heat lifts an air fork", Look: "sag", Address: "fork=B04&second=none&temperature=45C",
		Text: "The gas of a closed chamber cannot leave. Warmer by a tenth in kelvin, it presses by a tenth more at the " +
			"same travel. This fork " +
			"was filled at 20 °C and now stands in the sun at 45 °C.",
		Question: "How does it sit now?", Choices: heightChoices,
		answer: changed("The same gas presses more: p·V = amount·R·T. The negative chamber warms as well and takes part " +
			"of it back."),
	},
	{
		Title: "Altitude works through trapped gas", Look: "sag", Address: "fork=M07&second=none&altitude=2500m",
		Text: "The air outside pushes against the pistons too. At 2500 m it pushes a quarter less, while the gas trapped " +
			"over the oil was closed " +
			"in at sea level. Nothing was touched, and the temperature is the same.",
		Question: "How does the fork sit at 2500 m?", Choices: heightChoices,
		answer: changed("What is closed in pushes out against thinner air: each gas space gains its section times the " +
			"fall in air pressure."),
	},
	{
		Title: "Vent with the wheel off the ground", Look: "sag", Address: "fork=M07&second=none&vent=loaded",
		Text: "Letting the trapped gas out is a habit before a ride. Done with the weight on the wheel, the legs are " +
			"partly compressed when they " +
			"close again. No change of weather here.",
		Question: "Against the fork as it was closed, extended, how does it sit?", Choices: heightChoices,
		answer: changed("Closed while compressed, the legs hold too little gas; extended they hold a vacuum that pulls " +
			"the fork down."),
	},
	{
		Title: "Oil works at the end of the stroke", Look: "curves", Address: "fork=M07&oil=60mL&second=M07",
		Text: "More oil leaves less room for the gas over it. Fork 1 has 60 mL more in each leg than fork 2, which is " +
			"the same otherwise.",
		Question: "Where does the oil add more force: at the sag or at full travel?",
		Choices:  []Named{{"sag", "at the sag"}, {"end", "at full travel"}, {"same", "alike at both"}},
		answer: func(s State) (solution, error) {
			a, f, err := s.ridden(0)
			if err != nil {
				return solution{}, err
			}
			b, g, err := s.ridden(1)
			if err != nil {
				return solution{}, err
			}
			sag, err := g.Now.Sag(g.Load)
			if err != nil {
				return solution{}, err
			}
			end := min(f.Now.Curve(gas.Isothermal).Stroke(), f.Spec.Travel)
			at, full := float64(a.Force(sag.Middle)-b.Force(sag.Middle)), float64(a.Force(end)-b.Force(end))
			out := solution{choice: "same", because: fmt.Sprintf("%.0f N at the sag, %.0f N at full travel.", at, full)}
			if math.Abs(full-at) > 0.2*math.Abs(full) {
				out.choice = map[bool]string{true: "end", false: "sag"}[full > at]
			}
			return out, nil
		},
	},
	{
		Title: "Slow and fast are two curves", Look: "curves", Unit: "mm", Address: "fork=B04&second=none",
		Text: "Pushed slowly, gas stays as warm as its wall. Ridden, it warms as it is compressed and cools as it is let " +
			"out, so the fast curve " +
			"is steeper. The fork has settled at rest before it is ridden.",
		Question: "At which travel do the curves at rest and ridden cross, within 2 mm?",
		answer: func(s State) (solution, error) {
			_, now, err := s.sags(0)
			return solution{value: mm(now), tolerance: 2,
				because: fmt.Sprintf("they cross at the sag, %.1f mm, where the ridden stroke starts.",
					mm(now))}, err
		},
	},
	{
		Title: "Friction makes sag a band", Look: "sag", Unit: "mm", Address: "fork=B04&second=none",
		Text: "Let down slowly the fork stays high, let up it stays low: friction holds it in between. The band is about " +
			"twice the friction " +
			"over the rate at rest.",
		Question: "How wide is the friction band of this fork, within 2 mm?",
		answer: func(s State) (solution, error) {
			f, _, err := s.Fork(0)
			if err != nil {
				return solution{}, err
			}
			sag, err := f.Now.Sag(f.Load)
			if err != nil {
				return solution{}, err
			}
			k := f.Now.Curve(gas.Isothermal).Rate(sag.Middle).In(units.NewtonPerMillimeter)
			fc := f.Now.Friction().In(units.Newton)
			return solution{value: mm(sag.Low - sag.High), tolerance: 2,
				because: fmt.Sprintf("from %.1f mm to %.1f mm it is %.1f mm; by the rule "+
					"2·%.0f N / %.1f N/mm = %.1f mm.", mm(sag.High), mm(sag.Low), mm(sag.Low-sag.High), fc, k, 2*fc/k)}, nil
		},
	},
}
