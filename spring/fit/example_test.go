package fit_test

import (
	"errors"
	"fmt"
	"strings"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const sweep = `travel [mm];force [N]
0;77
50;532
100;985
150;1446
200;1893
150;1403
100;941
50;490
0;33
`

// springLeg is a leg with a coil and no gas to speak of.
func springLeg() fit.Model {
	return fit.Model{Exponent: gas.Isothermal, Fork: setup.Spec{
		Travel: 200 * units.Millimeter,
		Left:   setup.Leg{Springs: []spring.Spec{spring.CoilSpec{Rate: 9.1 * units.NewtonPerMillimeter}}},
		Closed: gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1.013 * units.Bar)},
	}}
}

// The rate, preload and friction of a spring leg on a test bench.
func ExampleFit() {
	readings, err := fit.ReadCSV("", strings.NewReader(sweep))
	if err != nil {
		fmt.Println(err)
		return
	}
	rate, preload, friction := fit.Rate(), fit.Preload(), fit.Friction()
	r, err := fit.Fit(readings, springLeg(),
		rate.Between(1*units.NewtonPerMillimeter, 30*units.NewtonPerMillimeter),
		preload.Between(-20*units.Millimeter, 40*units.Millimeter),
		friction.Between(0, 200*units.Newton))
	if err != nil {
		fmt.Println(err)
		return
	}
	k, kErr := rate.Estimate(r)
	fmt.Printf("rate %.2f ± %.2f\n", k, kErr)
	x, xErr := preload.Estimate(r)
	fmt.Printf("preload %.1f ± %.1f\n", x, xErr)
	f, fErr := friction.Estimate(r)
	fmt.Printf("friction %.0f ± %.0f\n", f, fErr)
	// Output:
	// rate 9.18 N/mm ± 0.05 N/mm
	// preload 5.6 mm ± 0.7 mm
	// friction 17 N ± 4 N
}

// Readings of one stroke do not tell friction from preload.
func ExampleUnidentifiableError() {
	readings, err := fit.ReadCSV("", strings.NewReader(sweep))
	if err != nil {
		fmt.Println(err)
		return
	}
	readings.Unloading = nil
	_, err = fit.Fit(readings, springLeg(),
		fit.Preload().Between(-20*units.Millimeter, 40*units.Millimeter), fit.Friction().Between(0, 200*units.Newton))
	var vague *fit.UnidentifiableError
	if errors.As(err, &vague) {
		fmt.Println("not determined:", vague.Parameters)
	}
	// Output: not determined: [preload friction]
}

// A technician has swept a leg in, not out. What that leaves open is held at what the
// fork's class says, and told.
func ExampleIdentify() {
	readings, err := fit.ReadCSV("", strings.NewReader(sweep))
	if err != nil {
		fmt.Println(err)
		return
	}
	readings.Unloading = nil
	model := fit.Friction().With(springLeg(), 20*units.Newton)
	r, held, err := fit.Identify(readings, model, fit.Usual(model)...)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, h := range held {
		fmt.Println("held:", h.Parameter)
	}
	k, kErr := fit.Rate().Estimate(r)
	fmt.Printf("rate %.2f ± %.2f; runs of one sign: %s\n", k, kErr, r.Goodness().Verdict)
	// Output:
	// held: friction
	// rate 9.09 N/mm ± 0.02 N/mm; runs of one sign: too few readings to tell; 20 or more can
}

// Any number of a fork can be free, here the length over which a top-out spring acts.
func ExampleNewParameter() {
	length := fit.NewParameter("top-out length", func(m *fit.Model) (units.Length, bool) {
		s, ok := setup.Find[spring.TopOutSpec](m.Fork.Left)
		return s.Length, ok
	}, func(m *fit.Model, v units.Length) {
		s := m.Fork.Left.Springs[1].(spring.TopOutSpec)
		s.Length = v
		m.Fork.Left.Springs[1] = s
	})
	model := springLeg()
	model.Fork.Left.Springs = append(model.Fork.Left.Springs,
		spring.TopOutSpec{Rate: 20 * units.NewtonPerMillimeter, Length: 20 * units.Millimeter})

	// A bench that reads without noise a fork whose top-out spring is 26 mm long.
	var readings spring.MeasuredSpec
	truth := length.With(model, 26*units.Millimeter).Curve()
	for _, p := range spring.Sample(truth, 50) {
		readings.Loading = append(readings.Loading, spring.Reading{Travel: p.Travel, Force: p.Force})
	}
	r, err := fit.Fit(readings, model, length.Between(5*units.Millimeter, 40*units.Millimeter))
	if err != nil {
		fmt.Println(err)
		return
	}
	v, _ := length.Estimate(r)
	fmt.Printf("%v %.1f\n", length, v)
	// Output: top-out length 26.0 mm
}

func ExampleReadCSV() {
	_, err := fit.ReadCSV("bench.csv", strings.NewReader("travel [mm];force [N]\n0;77\n50,5;532,8\n"))
	fmt.Println(err)
	// Output:
	// bench.csv:3: travel [mm] = "50,5": a decimal comma; write 50.5
	// bench.csv:3: force [N] = "532,8": a decimal comma; write 532.8
}

// Whether what a model leaves over is chance: too few runs of one sign mean that it bends the wrong way.
func ExampleCountRuns() {
	chance := []float64{1, -2, 1, 1, -1, 2, -1, -1, 2, -1, 1, -2}
	bent := []float64{-2, -1, -1, 1, 2, 2, 1, 1, -1, -1, -2, -2}
	for _, left := range [][]float64{chance, bent} {
		runs := fit.CountRuns(left)
		fmt.Printf("%d runs, %.1f expected: %+.1f deviations\n", runs.Count, runs.Expected, runs.Z())
	}
	// Output:
	// 10 runs, 7.0 expected: +1.8 deviations
	// 3 runs, 6.8 expected: -2.4 deviations
}
