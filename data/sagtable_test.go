package data_test

import (
	"math"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// asWritten undoes the corrections: the swallowed rod of the gap, the precharge that was in
// both legs, and the negative volume,
// which went down when the port went up from full extension.
var asWritten = map[string]func(*data.Fork){
	"M07": func(f *data.Fork) {
		f.Left.Air.NegativeVolume.Value = 70 * units.Milliliter
		f.Gap.Rod.Value, f.Gap.Residual.Value = 0, 303.6*units.Milliliter
	},
	"M10": func(f *data.Fork) {
		f.Gap.Charged, f.Gap.Rod.Value, f.Gap.Residual.Value = "", 0, 331.1*units.Milliliter
	},
	"B01": func(f *data.Fork) { f.Left.Air.NegativeVolume.Value = 24 * units.Milliliter },
	"B04": func(f *data.Fork) { f.Left.Air.NegativeVolume.Value = 80 * units.Milliliter },
	"B07": func(f *data.Fork) { f.Left.Air.NegativeVolume.Value = 150 * units.Milliliter },
}

// Sag of the typical rider, top-out force and the force at the bottom (n = 1 and 1.3) of
// ten forks, 20 °C at sea level, computed beforehand by an independent program from the
// records as first written down and printed to 1 mm and 1 N. Some have been corrected
// since: each is put back here to what it was, since the table checks the model.
func TestSagTable(t *testing.T) {
	room := gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1.01325 * units.Bar)}
	for _, c := range []struct {
		id                       string
		sag, top, bottom, ridden float64
	}{
		{"M05", 57, 55, 4001, 4819}, {"M06", 58, 59, 4187, 5006}, {"M07", 66, 109, 3173, 4601}, {"M10", 57, 164, 3509, 5140},
		{"M11", 60, 70, 3994, 4934}, {"M19", 39, 285, 3220, 3620}, {"B01", 18, 46, 1136, 1526}, {"B04", 39, 47, 1389, 1938},
		{"B06", 33, 25, 1626, 1714}, {"B07", 55, 37, 1417, 2000},
	} {
		t.Run(c.id, func(t *testing.T) {
			f, err := data.Reference().Fork(c.id)
			if err != nil {
				t.Fatal(err)
			}
			f.Left.Air.Port.Value = 0
			if put, ok := asWritten[c.id]; ok {
				put(&f)
			}
			s, err := f.Setup(room)
			if err != nil {
				t.Fatal(err)
			}
			sag, err := s.Sag(f.Load(f.Rider.Mass.Value))
			if err != nil {
				t.Fatal(err)
			}
			for _, v := range []struct {
				what            string
				got, want, unit float64
			}{
				{"sag, mm", sag.Middle.In(units.Millimeter), c.sag, 1},
				{"top-out force, N", float64(s.Curve(1).Force(0)), c.top, 1},
				{"force at the bottom, N", float64(s.Curve(1).Force(f.Travel.Value)), c.bottom, 1},
				{"ridden, N", float64(s.Curve(1.3).Force(f.Travel.Value)), c.ridden, 1},
			} {
				if !(math.Abs(v.got-v.want) <= 0.6*v.unit+0.005*v.want) {
					t.Errorf("%s: %.1f, want %v", v.what, v.got, v.want)
				}
			}
		})
	}
}
