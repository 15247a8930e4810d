package fit

import (
	"fmt"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/enum"
	"example.org/forkcurve/units"
)

// Parameter is a number of a model that can be free.
type Parameter int

// The parameters of a model.
const (
	Rate          Parameter = iota // Model.Coil.Rate
	Preload                        // Model.Coil.Preload
	GapVolume                      // Model.Gap.Volume
	ChamberVolume                  // Model.Air.Volume
	Exponent                       // Model.Gap.Exponent and Model.Air.Exponent
	Friction                       // Model.Friction
	parameters                     // how many there are
)

var names = enum.Names[Parameter]{"rate", "preload", "gap volume", "chamber volume", "exponent", "friction"}

// String is the name of the parameter, as "gap volume".
func (p Parameter) String() string { return names.String(p) }

// MarshalText writes the name.
func (p Parameter) MarshalText() ([]byte, error) { return names.Marshal(p) }

// UnmarshalText reads a name.
func (p *Parameter) UnmarshalText(text []byte) error { return names.Unmarshal(text, p) }

// Free makes a parameter free between two bounds.
type Free struct {
	parameter Parameter
	low, high float64 // SI
	err       error
}

// FreeRate frees the rate of the coil.
func FreeRate(low, high units.Stiffness) Free { return free(Rate, low, high) }

// FreePreload frees the preload of the coil.
func FreePreload(low, high units.Length) Free { return free(Preload, low, high) }

// FreeGapVolume frees the volume of gas over the oil at full extension.
func FreeGapVolume(low, high units.Volume) Free { return free(GapVolume, low, high) }

// FreeChamberVolume frees the positive volume of the air spring at full
// extension.
func FreeChamberVolume(low, high units.Volume) Free { return free(ChamberVolume, low, high) }

// FreeExponent frees the polytropic exponent, one for all gas.
func FreeExponent(low, high float64) Free { return free(Exponent, low, high) }

// FreeFriction frees the friction.
func FreeFriction(low, high units.Force) Free { return free(Friction, low, high) }

func free[Q ~float64](p Parameter, low, high Q) Free {
	f := Free{parameter: p, low: float64(low), high: float64(high)}
	if !(low < high) {
		f.err = &units.RangeError{Field: "bounds of " + p.String(), Value: fmt.Sprintf("%.6g to %.6g", low, high), Want: "a lower bound below the upper one"}
	}
	return f
}

// checkFree reports bounds out of order, parameters freed twice, and those of an
// element the model does not have.
func checkFree(f *check.Faults, m Model, free []Free) {
	var seen [parameters]bool
	if len(free) == 0 {
		f.Report("Free", "nothing", "1 free parameter or more", "")
	}
	for _, p := range free {
		f.Add(p.err)
		if seen[p.parameter] {
			f.Report("Free", p.parameter, "each parameter once", "")
		}
		seen[p.parameter] = true
		if !m.has(p.parameter) {
			f.Report("Free", p.parameter, "a parameter of an element the model has", "")
		}
	}
}
