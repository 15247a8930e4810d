package main

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// sweep invents the bench record of a fork: force of the library's M06 with another
// oil level, on a bench that moves it 280 mm in and out.
//
// The gas is compressed with exponent 1.1, as in a sweep that takes some seconds.
// Friction is on the side of the motion and needs some millimeters to turn. The load
// cell scatters by 6 N and is read to 0.1 N.
func sweep() ([]byte, error) {
	fork, err := data.Reference().Fork(madeFork)
	if err != nil {
		return nil, err
	}
	air, err := gas.StandardAt(0, units.Celsius(20))
	if err != nil {
		return nil, err
	}
	spec := fork.Spec(air)
	for _, leg := range []*setup.Leg{&spec.Left, &spec.Right} {
		coil, gap := leg.Springs[0].(spring.CoilSpec), *leg.Gap
		coil.Rate = madeRate / 2
		coil.Preload = madePreload
		gap.Residual = madeGap/2 - units.Volume(float64(gap.Area)*float64(spec.Travel))
		leg.Springs, leg.Gap = []spring.Spec{coil}, &gap
	}
	s, err := setup.New(spec)
	if err != nil {
		return nil, err
	}
	curve := s.Curve(madeExponent)
	noise := rand.New(rand.NewPCG(2, 11))
	const (
		reach, step = 280, 5 // mm
		turning     = 1.5    // mm in which friction turns
		scatter     = 6      // N
	)
	var b bytes.Buffer
	fmt.Fprintln(&b, "# An invented record, a demo: no fork was measured. demo_test.go made it, and says how.")
	fmt.Fprintln(&b, "travel [mm],force [N]")
	write := func(x int, friction float64) {
		f := float64(curve.Force(units.Length(x)*units.Millimeter)) + friction + scatter*noise.NormFloat64()
		fmt.Fprintf(&b, "%d.0,%.1f\n", x, f)
	}
	for x := 0; x <= reach; x += step {
		write(x, float64(madeFriction)*math.Tanh(float64(x)/turning))
	}
	for x := reach - step; x >= 0; x -= step {
		write(x, float64(madeFriction)*(1-2*math.Tanh(float64(reach-x)/turning)))
	}
	return b.Bytes(), nil
}

// The record that comes with the program is the one described. UPDATE_GOLDEN=1
// makes it again.
func TestDemo(t *testing.T) {
	want, err := sweep()
	if err != nil {
		t.Fatal(err)
	}
	if os.Getenv("UPDATE_GOLDEN") == "1" {
		if err := os.WriteFile(demoName, want, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if !bytes.Equal(demo, want) {
		t.Errorf("%s is not what its generator makes", demoName)
	}
}
