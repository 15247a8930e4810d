package gas_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// fields lists the fields of all range errors in err, and the hints.
func fields(t *testing.T, err error) (names, hints string) {
	t.Helper()
	var list, hint []string
	for _, err := range check.Split(err) {
		var r *units.RangeError
		if !errors.As(err, &r) {
			t.Errorf("%v is a %T, want *units.RangeError", err, err)
			continue
		}
		if r.Want == "" {
			t.Errorf("%v does not say what is wanted", err)
		}
		list, hint = append(list, r.Field), append(hint, r.Hint)
	}
	return strings.Join(list, " "), strings.Join(hint, "; ")
}

func TestErrors(t *testing.T) {
	nan := math.NaN()
	sea := must(gas.Standard(0))
	good := state(10*units.Bar, 430*cm3, units.Celsius(20))
	fill := func(p units.Pressure) error {
		return gas.Fill{Gauge: units.Gauge(p), Ambient: sea}.Validate()
	}
	ambient := func(t units.Temperature) error {
		return gas.Ambient{Temperature: t, Pressure: sea.Pressure}.Validate()
	}
	second := func(_ any, err error) error { return err }
	for _, tt := range []struct {
		name  string
		err   error
		field string // fields reported, in order
		hint  string // part of the hint
	}{
		{"zero Ambient", gas.Ambient{}.Validate(), "Ambient.Temperature Ambient.Pressure", "Standard gives it"},
		{"zero State", gas.State{}.Validate(), "State.Pressure State.Volume State.Temperature", ""},
		{"zero Fill", gas.Fill{}.Validate(), "Fill.Ambient.Temperature Fill.Ambient.Pressure", ""},
		{"Celsius as kelvins", ambient(units.Kelvin(20)), "Ambient.Temperature", "20 degrees Celsius are 293.15 K"},
		{"kelvins as Celsius", ambient(units.Celsius(293.15)), "Ambient.Temperature", "293.15 kelvins are 20.00 °C"},
		{"Fahrenheit as Celsius", ambient(units.Celsius(86)),
			"Ambient.Temperature", "86 degrees Fahrenheit are 30.0 °C"},
		{"NaN temperature", ambient(units.Celsius(nan)), "Ambient.Temperature", ""},
		{"feet as meters", second(gas.Standard(12000)), "Standard.altitude", "12000 ft are 3658 m"},
		{"below −500 m", second(gas.Standard(-501)), "Standard.altitude", ""},
		{"NaN altitude", second(gas.Standard(units.Length(nan))), "Standard.altitude", ""},
		{"too hot a day", second(gas.StandardAt(0, units.Celsius(71))), "StandardAt.temperature", "Fahrenheit"},
		{"a hot day in space", second(gas.StandardAt(units.Length(nan), units.Kelvin(20))),
			"StandardAt.altitude StandardAt.temperature", "20 degrees Celsius"},
		{"psi as bar", fill(139 * units.Bar), "Fill.Gauge", "139 psi are 9.6 bar"},
		{"kPa as bar", fill(960 * units.Bar), "Fill.Gauge", "960 kPa are 9.6 bar"},
		{"below the ambient", fill(-0.2 * units.Bar), "Fill.Gauge", "AbsolutePressure.Gauge converts"},
		{"NaN gauge", fill(units.Pressure(nan)), "Fill.Gauge", ""},
		{"bare milliliters", second(good.Compress(300, 1)), "Compress.to", "cubic meters"},
		{"n below 1", second(good.Compress(300*cm3, 0.99)), "Compress.n", ""},
		{"n above 5/3", second(good.Compress(300*cm3, 1.7)), "Compress.n", ""},
		{"NaN n and volume", second(good.Work(units.Volume(nan), nan)), "Work.to Work.n", ""},
		{"out of the ideal gas", second(good.Compress(3*cm3, 1.4)), "Compress.result.Pressure", ""},
		{"bad pressure and n", second(good.CompressToPressure(units.Absolute(0), 2)),
			"CompressToPressure.to CompressToPressure.n", ""},
		{"empty gas to no volume", second(gas.State{}.Compress(0, 0)),
			"State.Pressure State.Volume State.Temperature Compress.to Compress.n", ""},
		{"empty gas bled dry", second(gas.State{}.Bleed(1)),
			"State.Pressure State.Volume State.Temperature Bleed.fraction", ""},
		{"near absolute zero", second(good.Heat(units.Kelvin(2.16))), "Heat.to", "absolute zero"},
		{"everything out", second(good.Bleed(1)), "Bleed.fraction", "Vent"},
		{"negative leak", second(good.Bleed(-0.01)), "Bleed.fraction", ""},
		{"leak to vacuum", second(good.Bleed(0.9999)), "Bleed.result.Pressure", ""},
		{"join with nothing", second(gas.Join(good, gas.State{})),
			"Join.b.Pressure Join.b.Volume Join.b.Temperature", ""},
		{"vent of nothing to nothing", second(gas.State{}.Vent(gas.Ambient{})),
			"State.Pressure State.Volume State.Temperature Ambient.Temperature Ambient.Pressure", ""},
		{"reading nowhere", second(gas.Fill{Ambient: sea}.Reading(gas.Ambient{})),
			"Reading.at.Temperature Reading.at.Pressure", ""},
		{"fill without volume", second(gas.Fill{Ambient: sea}.State(0)), "Fill.State.result.Volume", ""},
		{"real gas too cold", second(gas.DryAir.Compressibility(good.Pressure, units.Celsius(-60))),
			"Compressibility.Temperature", ""},
		{"real gas at 101 bar", second(gas.Nitrogen.IsentropicExponent(units.Absolute(101*units.Bar),
			good.Temperature)),
			"IsentropicExponent.Pressure", ""},
		{"unknown gas in a vacuum", second(gas.Species(7).Compressibility(units.Absolute(0), good.Temperature)),
			"Compressibility.Species Compressibility.Pressure", ""},
		{"departure beyond 100 bar", second(gas.DryAir.Departure(good, 60*cm3)), "Departure.result.Pressure", ""},
		{"departure beyond 700 K", second(gas.DryAir.Departure(state(units.Bar, 430*cm3, units.Celsius(20)), 40*cm3)),
			"Departure.to", ""},
		{"departure of nothing", second(gas.DryAir.Departure(gas.State{}, 40*cm3)),
			"State.Pressure State.Volume State.Temperature", ""},
		{"cycle of nothing", second(gas.NewCycle(gas.CycleSpec{})),
			"CycleSpec.Rest.Pressure CycleSpec.Rest.Volume CycleSpec.Rest.Temperature CycleSpec.Frequency", ""},
		{"cycle through the piston", second(cycle(10, 300, 293, 0.95, 1, 1)), "CycleSpec.Amplitude", ""},
		{"cycle without end", second(cycle(10, 300, 293, 0.5, nan, -1)),
			"CycleSpec.Exchange.TimeConstant CycleSpec.Frequency", ""},
		{"cycle out of the ideal gas", second(cycle(100, 300, 293, 0.9, 100, 10)), "NewCycle.result.Pressure", ""},
		{"estimate in a vacuum", second(gas.EstimateExchange(state(0.01*units.Bar, 430*cm3, units.Celsius(20)),
			34*units.Millimeter, 40)),
			"EstimateExchange.s.Pressure", ""},
		{"estimate of nothing", second(gas.EstimateExchange(gas.State{}, 0, units.TemperatureDifference(nan))),
			"EstimateExchange.s.Pressure EstimateExchange.s.Volume EstimateExchange.s.Temperature " +
				"EstimateExchange.bore EstimateExchange.excess", ""},
		{"estimate of a bubble", second(gas.EstimateExchange(state(units.Bar, cm3, units.Celsius(20)),
			34*units.Millimeter, 40)),
			"EstimateExchange.s.Volume", ""},
		{"leg without mass or wind", second(gas.NewWarmUp(gas.WarmUpSpec{Diameter: 0.05, Surface: 0.1, Ambient: sea})),
			"WarmUpSpec.Oil, Aluminum, Steel WarmUpSpec.AirSpeed", ""},
		{"leg on fire", second(gas.NewWarmUp(gas.WarmUpSpec{Oil: 1, Diameter: 0.05, Surface: 0.05, AirSpeed: 1,
			Ambient: sea, Power: 1000})),
			"WarmUpSpec.Power", ""},
		{"zero leak", second(gas.Leak{}.ToAmbient(good, sea, 1)), "Leak.TimeConstant", ""},
		{"leak back in time", second(gas.Leak{TimeConstant: 100}.ToAmbient(good, sea, -1)), "Leak.after", ""},
		{"leak of nothing", second(gas.Leak{TimeConstant: 100}.ToAmbient(gas.State{}, gas.Ambient{}, units.Time(nan))),
			"State.Pressure State.Volume State.Temperature Ambient.Temperature Ambient.Pressure Leak.after", ""},
		{"leak between hot and cold", func() error {
			_, _, err := gas.Leak{TimeConstant: 100}.Between(good, state(units.Bar, cm3, units.Celsius(30)), 1)
			return err
		}(), "Between.b.Temperature", ""},
		{"reading that rises", second(gas.LeakOf(units.Gauge(9*units.Bar), units.Gauge(9.1*units.Bar), units.Day)),
			"LeakOf.second", "one temperature"},
		{"no loss", second(gas.LeakOf(units.Gauge(9*units.Bar), units.Gauge(9*units.Bar), units.Day)),
			"LeakOf.second", "one temperature"},
		{"readings of psi at once", second(gas.LeakOf(units.Gauge(139*units.Bar), units.Gauge(100*units.Bar), 0)),
			"LeakOf.first LeakOf.apart", "psi"},
		{"loss too slow to tell", second(gas.LeakOf(units.Gauge(9*units.Bar), units.Gauge(9*units.Bar-1e-6),
			units.Day)),
			"LeakOf.result.TimeConstant", ""},
		{"gas that leaves by Admit", second(good.Admit(-1)), "Admit.n", "Bleed"},
		{"a tank in a fork", second(good.Admit(1e4)), "Admit.result.Pressure", ""},
		{"endless rise", second(good.AmountForRise(units.Pressure(math.Inf(1)))), "AmountForRise.d", ""},
		{"endless time constant", gas.Exchange{TimeConstant: units.Time(math.Inf(1))}.Validate(),
			"Exchange.TimeConstant", ""},
		{"negative time constant", gas.Exchange{TimeConstant: -1}.Validate(), "Exchange.TimeConstant", ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if tt.err == nil {
				t.Fatal("no error")
			}
			names, hints := fields(t, tt.err)
			if names != tt.field {
				t.Errorf("%v reports %q, want %q", tt.err, names, tt.field)
			}
			if !strings.Contains(hints, tt.hint) {
				t.Errorf("hints %q, want %q", hints, tt.hint)
			}
		})
	}
	if err := (gas.Exchange{}).Validate(); err != nil {
		t.Errorf("zero Exchange: %v", err)
	}
}

func TestAllocatesNothing(t *testing.T) {
	sea := must(gas.Standard(0))
	s := state(10*units.Bar, 430*cm3, units.Celsius(20))
	fill := gas.Fill{Gauge: units.Gauge(9.6 * units.Bar), Ambient: sea}
	e := gas.Exchange{TimeConstant: 3}
	leak := gas.Leak{TimeConstant: units.Day}
	leg := motocrossLeg(10)
	var keep float64
	var errs error
	n := testing.AllocsPerRun(100, func() {
		a, err1 := gas.Standard(1500)
		c, err2 := s.Compress(200*cm3, 1.3)
		w, err3 := s.Work(200*cm3, 1.3)
		j, err4 := gas.Join(s, c)
		h, err5 := j.Heat(units.Celsius(30))
		f, err6 := fill.State(430 * cm3)
		g, err7 := fill.Reading(a)
		x, err8 := s.StoredEnergy(sea)
		z, err9 := gas.DryAir.Compressibility(s.Pressure, s.Temperature)
		d, err10 := gas.Nitrogen.Departure(s, 200*cm3)
		l, err11 := leak.ToAmbient(s, sea, units.Day)
		l, m, err12 := leak.Between(l, s, units.Day)
		w2, err14 := gas.NewWarmUp(leg)
		x2, err15 := gas.EstimateExchange(s, 34*units.Millimeter, 40)
		for _, err := range [...]error{err1, err2, err3, err4, err5, err6, err7, err8, err9, err10, err11, err12,
			err14, err15, e.Validate()} {
			if err != nil {
				errs = err
			}
		}
		keep += z + d.Fast + amount(l) + amount(m) + w2.At(60).Kelvin() + float64(x2.TimeConstant)
		keep += float64(w) + amount(h) + amount(f) + g.In(units.Bar) + float64(x) + e.Exponent(1) + e.LossFactor(1)
	})
	if errs != nil || n != 0 || keep == 0 {
		t.Errorf("%v allocations, error %v", n, errs)
	}
}
