package typeset

import (
	"slices"
	"testing"
)

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		name, text string
		n          int
		want       []string
	}{
		{"fits", "as it is", 20, []string{"as it is"}},
		{"breaks at blanks", "one two three", 8, []string{"one two", "three"}},
		{"keeps a number by its unit", "a rate of 9.0 N/mm each", 14, []string{"a rate of", "9.0 N/mm each"}},
		{"keeps a diameter together", "a bore of Ø 34 mm", 12, []string{"a bore of", "Ø 34 mm"}},
		{"breaks a word longer than a line", "x incomprehensibilities y", 10,
			[]string{"x", "incomprehe", "nsibilitie", "s y"}},
		{"counts characters, not bytes", "12 °C über µm", 13, []string{"12 °C über µm"}},
		{"nothing", "", 5, []string{""}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Wrap(c.text, c.n); !slices.Equal(got, c.want) {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}

func TestNumbers(t *testing.T) {
	for text, want := range map[string]string{
		"-7.1 to +5.5 mm (-2)": "−7.1 to +5.5 mm (−2)", "+0": "0", "-0.00 bar": "0.00 bar", "−0.0 and +0.04": "0.0 and +0.04",
		"27.20 deg ± 0.60 deg":                 "27.20° ± 0.60°",
		"fork-5, 2026-10-01, -fork, - and 9-4": "fork-5, 2026-10-01, -fork, - and 9-4",
	} {
		if got := Numbers(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

func TestPad(t *testing.T) {
	if got := Pad("°C", 4) + "|" + Pad("long", 2) + "|" + Lead("°C", 4) + "|" + Lead("long",
		2); got != "°C  |long|  °C| long" {
		t.Errorf("%q", got)
	}
}

func TestPlain(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"as it is", "Coil 8.4 °C", "Coil 8.4 °C"},
		{"line feed", "a\nSTOP", "a�STOP"},
		{"escape", "\x1b[2J", "�[2J"},
		{"right to left", "a\u202eb", "a�b"},
		{"not UTF-8", "a\xff", "a�"},
		{"no-break space", "a\u00a0b", "a b"},
		{"long", "0123456789abcdef", "0123456789a…"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Plain(c.text, 12); got != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}
