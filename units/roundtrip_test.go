package units_test

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"example.org/forkcurve/units"
)

// roundTrip checks that every text of q is read back to the last bit.
func roundTrip(t *testing.T, q quantity, si float64) {
	t.Helper()
	v := q.of(si)
	text, err := q.text(v)
	if err != nil {
		t.Fatalf("%s of %x in SI: %v", q.name, si, err)
	}
	if s := v.(textMarshaler).String(); s != text {
		t.Errorf("%s: MarshalText gives %q, String %q", q.name, text, s)
	}
	if back, err := q.parse(text); err != nil || bits(back) != bits(v) {
		t.Errorf("%s of %x in SI is %q, read back as %v, %v", q.name, si, text, back, err)
	}
	if back, err := q.into(7, text); err != nil || bits(back) != bits(v) {
		t.Errorf("%s of %x in SI is %q, unmarshaled as %v, %v", q.name, si, text, back, err)
	}
}

func TestRoundTripEdges(t *testing.T) {
	edges := []float64{
		0, math.Copysign(0, -1), 1, -1, 0.1, 1e-9, 9.9999999999, 10, 1e15, 1e16, 1e21, 1e22, 1.0 / 3,
		math.Pi, 273.15, 293.15, 101325, math.MaxFloat64, -math.MaxFloat64, math.SmallestNonzeroFloat64,
		0x1p-1022, 0x1p53 + 1, math.Nextafter(10, 0), math.Nextafter(0.01, 1), 136.575, 546.3,
	}
	for _, q := range quantities {
		t.Run(q.name, func(t *testing.T) {
			for _, si := range edges {
				roundTrip(t, q, si)
			}
		})
	}
}

func TestRoundTripRandom(t *testing.T) {
	for _, q := range quantities {
		t.Run(q.name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(12, 26))
			for range 1000 {
				roundTrip(t, q, r.NormFloat64()*math.Pow(10, float64(r.IntN(13)-6)))
				if si := math.Float64frombits(r.Uint64()); !math.IsNaN(si) && !math.IsInf(si, 0) {
					roundTrip(t, q, si)
				}
			}
		})
	}
}

// The text somebody writes is the text printed again.
func TestShortTextSurvives(t *testing.T) {
	for tenths := -500; tenths <= 2000; tenths++ {
		number := strconv.FormatFloat(float64(tenths)/10, 'f', -1, 64)
		for _, u := range []struct{ quantity, unit string }{
			{"Length", " mm"}, {"Angle", " deg"}, {"Temperature", " °C"}, {"GaugePressure", " bar"}, {"Stiffness", " N/mm"},
		} {
			text := number + u.unit
			q, err := quantityNamed(t, u.quantity).parse(text)
			if err != nil {
				t.Fatal(err)
			}
			if got := q.(textMarshaler).String(); got != text {
				t.Errorf("%q is printed as %q", text, got)
			}
		}
	}
}

// Every temperature of a workshop has a text in °C; see Temperature.String.
func TestTemperatureTextIsCelsius(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 31))
	for range 20_000 {
		k := units.Kelvin(136.575 + r.Float64()*(546.3-136.575))
		if s := k.String(); !strings.HasSuffix(s, " °C") {
			t.Fatalf("%v K is printed as %q", k.Kelvin(), s)
		}
	}
	if s := units.Kelvin(4.2).String(); s != "4.2 K" {
		t.Errorf("4.2 K is printed as %q", s)
	}
}

func TestNotFiniteHasNoText(t *testing.T) {
	for _, q := range quantities {
		t.Run(q.name, func(t *testing.T) {
			for _, si := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
				v := q.of(si)
				text, err := q.text(v)
				var e *units.RangeError
				if !errors.As(err, &e) || text != "" {
					t.Errorf("MarshalText gave %q, %v; want a *RangeError", text, err)
				}
				if back, err := q.parse(v.(textMarshaler).String()); err == nil {
					t.Errorf("%q was read as %v", v, back)
				}
			}
		})
	}
}

// Quantities are JSON strings with their unit, and numbers are refused.
func TestJSON(t *testing.T) {
	type fill struct {
		Gauge  units.GaugePressure
		Air    units.AbsolutePressure
		At     units.Temperature
		Travel units.Length
	}
	want := fill{units.Gauge(9.6 * units.Bar), units.Absolute(units.Atmosphere), units.Celsius(20.5), 0.14}
	b, err := json.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	const text = `{"Gauge":"9.6 bar","Air":"1.01325 bar abs","At":"20.5 °C","Travel":"140 mm"}`
	if string(b) != text {
		t.Errorf("got %s, want %s", b, text)
	}
	var got fill
	if err := json.Unmarshal(b, &got); err != nil || got != want {
		t.Errorf("got %v, %v; want %v", got, err, want)
	}
	if err := json.Unmarshal([]byte(`{"Gauge": "9.6 bar abs"}`), &got); err == nil {
		t.Error("an absolute pressure was read into a gauge pressure")
	}
}

// FuzzRoundTrip takes any bits for any quantity.
func FuzzRoundTrip(f *testing.F) {
	f.Add(uint64(0), uint8(0))
	f.Add(math.Float64bits(0.4747295565424577), uint8(10)) // 27.2 deg
	f.Add(math.Float64bits(293.15), uint8(23))
	f.Add(math.Float64bits(9.999999999999998), uint8(0))
	f.Fuzz(func(t *testing.T, b uint64, i uint8) {
		si := math.Float64frombits(b)
		if math.IsNaN(si) || math.IsInf(si, 0) {
			t.Skip("no text form")
		}
		roundTrip(t, quantities[int(i)%len(quantities)], si)
	})
}

// FuzzParse takes any text for every quantity: a fault inside the text, or a finite
// value that survives its own text.
func FuzzParse(f *testing.F) {
	for _, text := range []string{
		"12.5 mm", "12,5 mm", "-1.5e3N/mm", "10.8 bar(g)", "1.013\u00a0bar abs", "20 °C", "27.2°", "33.2 ft-lb",
		"1e309 mm", "1e-99999999 m", "5 fl oz", "15 mm^2/s", "1 µm", "1 μm", "0x1p3 m", "NaN mm",
		"\xff", "1 \xc2", "1e", "1.", "+",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, q := range quantities {
			v, err := q.parse(text)
			if err != nil {
				var e *units.ParseError
				if !errors.As(err, &e) {
					t.Fatalf("%s: %T is no *ParseError", q.name, err)
				}
				if e.Offset < 0 || e.Offset > len(text) || e.Text != text || e.Hint == "" {
					t.Errorf("%s: bad error %#v", q.name, e)
				}
				continue
			}
			si := math.Float64frombits(bits(v))
			if math.IsNaN(si) || math.IsInf(si, 0) {
				t.Fatalf("%s: %q was read as %v", q.name, text, v)
			}
			roundTrip(t, q, si)
		}
	})
}
