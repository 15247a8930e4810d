package main

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/forkcurve/examples/internal/golden"
)

// step is one line of arithmetic of the text.
type step struct {
	name, expression string
	result           float64
	decimals         int
	library          float64 // NaN: none beside it
	line             string
}

var (
	stepLine     = regexp.MustCompile(`^    (\S.*?) = (.+) = (−?[0-9.]+)(?: [^\[]*)?(\[.*\])?$`)
	libraryValue = regexp.MustCompile(`library (−?[0-9.]+)`)
)

// steps finds the arithmetic in a text, in lines indented by four.
func steps(t *testing.T, text string) []step {
	t.Helper()
	var joined []string
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		trimmed := strings.TrimLeft(line, " ")
		indent := len(line) - len(trimmed)
		continues := indent > 4 && (strings.HasPrefix(trimmed, "= ") || strings.HasPrefix(trimmed, "+ ") ||
			strings.HasPrefix(trimmed, "− "))
		switch {
		case continues && len(joined) > 0:
			joined[len(joined)-1] += " " + trimmed
		case indent == 4 && strings.Contains(line, " = "):
			joined = append(joined, line)
		}
	}
	var list []step
	for _, line := range joined {
		m := stepLine.FindStringSubmatch(line)
		if m == nil {
			t.Errorf("not a step: %q", line)
			continue
		}
		s := step{name: m[1], expression: m[2], result: number(t, m[3]), library: math.NaN(), line: line}
		if _, fraction, ok := strings.Cut(m[3], "."); ok {
			s.decimals = len(fraction)
		}
		if l := libraryValue.FindStringSubmatch(m[4]); l != nil {
			s.library = number(t, l[1])
		}
		list = append(list, s)
	}
	return list
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.ReplaceAll(text, "−", "-"), 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Every line of arithmetic, typed into a calculator as printed, gives what is printed, to the last digit; and what
// the library has beside it agrees as well as rounding at every step allows.
func TestArithmetic(t *testing.T) {
	everyPair(t, func(t *testing.T, air, coil string) {
		out := golden.Text(t, command, "-air", air, "-coil", coil)
		list := steps(t, out)
		if len(list) < 60 {
			t.Errorf("only %d steps", len(list))
		}
		compared := 0
		for _, s := range list {
			v, err := evaluate(s.expression)
			if err != nil {
				t.Errorf("%s: %v", s.line, err)
				continue
			}
			digit := math.Pow(10, -float64(s.decimals))
			if !(math.Abs(v-s.result) <= 0.5*digit+1e-9*math.Abs(v)) {
				t.Errorf("%s: the calculator shows %.8g", s.line, v)
			}
			if math.IsNaN(s.library) {
				continue
			}
			compared++
			if !(math.Abs(s.result-s.library) <= 0.002*math.Abs(s.library)+digit) {
				t.Errorf("%s: off the library", s.line)
			}
		}
		if compared < 15 {
			t.Errorf("only %d steps with the library beside them", compared)
		}
	})
}

// The linear steps in sag point the right way and miss by a third at most, of those small enough to be near a
// straight line.
func TestStraightLines(t *testing.T) {
	everyPair(t, func(t *testing.T, air, coil string) {
		s, err := newStudy(air, coil, 0)
		if err != nil {
			t.Fatal(err)
		}
		leaked, ok := s.leaks()[0].sag(0.9)
		if !ok {
			t.Fatal("leaked: does not carry the rider")
		}
		untouched := s.treatments()[0]
		want := []float64{untouched.change(s.hot), s.first(&s.coil).change(s.hot), untouched.change(s.up),
			s.first(&s.coil).change(s.up), (leaked - s.air.sag.Middle).In(mm)}
		var got []float64
		for _, step := range steps(t, s.text()) {
			if step.name == "Δx" {
				got = append(got, step.result)
			}
		}
		if len(got) != len(want) {
			t.Fatalf("steps %v, want %v", got, want)
		}
		for i := range got {
			if !(got[i]*want[i] > 0) || math.Abs(want[i]) < 5 && !(math.Abs(got[i]-want[i]) <= math.Abs(want[i])/3) {
				t.Errorf("Δx = %.1f by hand, exactly %.1f", got[i], want[i])
			}
		}
	})
}

// The calculator that checks is checked itself.
func TestEvaluate(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64
	}{
		{"6 + 1.013", 7.013},
		{"10 − 2 − 3", 5},
		{"2·3² + 4/2·3", 24},
		{"−2·(1 + 1)^3", -16},
		{"π/4·(3.6² − 1²)", math.Pi / 4 * 11.96},
		{"2^(1/2)", math.Sqrt2},
		{"ln(2)/ln(4)", 0.5},
		{"9·cos(60°)", 4.5},
	} {
		if v, err := evaluate(c.text); err != nil || !(math.Abs(v-c.want) <= 1e-12) {
			t.Errorf("%s = %v, %v; want %v", c.text, v, err, c.want)
		}
	}
	for _, bad := range []string{"", "1 +", "(1", "1)", "2 bar", "1..2"} {
		if v, err := evaluate(bad); err == nil {
			t.Errorf("%q = %v", bad, v)
		}
	}
	if n := utf8.RuneCountInString(fixed(-1, 1)); n != 4 {
		t.Errorf("a minus of %d characters", n-3)
	}
}
