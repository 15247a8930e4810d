package data_test

import (
	"errors"
	"math"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/units"
)

func TestShareText(t *testing.T) {
	for _, s := range []data.Share{0, 0.07, 0.485, 1} {
		text, err := s.MarshalText()
		if err != nil || string(text) != s.String() {
			t.Errorf("%v is written %q, %v", s, text, err)
		}
		var back data.Share
		if err := back.UnmarshalText(text); err != nil || back != s {
			t.Errorf("%q is read as %v, %v", text, back, err)
		}
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64} {
		var e *units.RangeError
		if text, err := data.Share(x).MarshalText(); !errors.As(err, &e) {
			t.Errorf("%v is written %q, %v; want a *units.RangeError", x, text, err)
		}
	}
	back := data.Share(0.5)
	for _, text := range []string{"", "48.5", "48,5 %", "NaN %", "Inf %", "1e3 %", "%"} {
		if err := back.UnmarshalText([]byte(text)); err == nil || back != 0.5 {
			t.Errorf("%q is read as %v, %v", text, back, err)
		}
	}
}
