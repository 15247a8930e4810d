package fit_test

import (
	"errors"
	"fmt"
	"strings"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/fit"
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

// The rate, preload and friction of a spring leg on a test bench.
func ExampleFit() {
	readings, err := fit.ReadCSV("", strings.NewReader(sweep))
	if err != nil {
		fmt.Println(err)
		return
	}
	model := fit.Model{Coil: spring.CoilSpec{Travel: 200 * units.Millimeter, Rate: 9 * units.NewtonPerMillimeter}}
	r, err := fit.Fit(readings, model,
		fit.FreeRate(1*units.NewtonPerMillimeter, 30*units.NewtonPerMillimeter),
		fit.FreePreload(-20*units.Millimeter, 40*units.Millimeter),
		fit.FreeFriction(0, 200*units.Newton))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("rate %.2f ± %.2f\n", r.Model.Coil.Rate, r.StdErr.Rate)
	fmt.Printf("preload %.1f ± %.1f\n", r.Model.Coil.Preload, r.StdErr.Preload)
	fmt.Printf("friction %.0f ± %.0f\n", r.Model.Friction, r.StdErr.Friction)
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
	model := fit.Model{Coil: spring.CoilSpec{Travel: 200 * units.Millimeter, Rate: 9.1 * units.NewtonPerMillimeter}}
	_, err = fit.Fit(readings, model, fit.FreePreload(-20*units.Millimeter, 40*units.Millimeter), fit.FreeFriction(0, 200*units.Newton))
	var vague *fit.UnidentifiableError
	if errors.As(err, &vague) {
		fmt.Println("not determined:", vague.Parameters)
	}
	// Output: not determined: [preload friction]
}

func ExampleReadCSV() {
	_, err := fit.ReadCSV("bench.csv", strings.NewReader("travel [mm];force [N]\n0;77\n50,5;532,8\n"))
	fmt.Println(err)
	// Output:
	// bench.csv:3: travel [mm] = "50,5": a decimal comma; write 50.5
	// bench.csv:3: force [N] = "532,8": a decimal comma; write 532.8
}
