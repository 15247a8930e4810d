package spring

import (
	"fmt"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/chamber"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// AirSpec is the air spring of one leg: a piston of diameter Bore on a rod, the
// positive chamber it compresses and, on the rod side, a negative chamber that
// grows. Pressures are those of the gas at rest with the fork fully extended.
type AirSpec struct {
	Bore     units.Length           // of the piston, 10 mm to 60 mm
	Rod      units.Length           // 0 to 0.8 of Bore
	Volume   units.Volume           // positive chamber at full extension, oil and reducers taken off
	Pressure units.AbsolutePressure // positive chamber, 0.2 bar to 65 bar absolute

	NegativeVolume   units.Volume           // at full extension; 0: none, the rod side is open to the ambient
	Port             units.Length           // travel at which a transfer port joins the chambers, 0 to 30 mm
	NegativePressure units.AbsolutePressure // by a valve of its own; zero: equalized through the port

	Ambient  units.AbsolutePressure // outside, 0.1 bar to 1.5 bar absolute
	Exponent float64                // polytropic n, 1 to 5/3
	Travel   units.Length           // of the fork, 1 mm to 400 mm
}

// Air is the air spring of one leg:
//
//	F = (p₊ − p_a)·A − (p₋ − p_a)·(A − A_rod)
//
// Where a transfer port at x_e has made both pressures equal, the force there is
// gauge pressure times rod area.
type Air struct {
	flat
	positive, negative chamber.Chamber // a zero negative chamber adds nothing
}

var _ Curve = Air{}

// NewAir checks the specification, and that gas is left at full travel.
func NewAir(s AirSpec) (Air, error) {
	f := check.Of("AirSpec")
	sound := s.check(f)
	if swept := s.swept(); sound && s.Volume <= swept {
		f.Report("Volume", s.Volume, fmt.Sprintf("above the %.1f swept over full travel", swept),
			"no gas would be left")
	}
	if err := f.Err(); err != nil {
		return Air{}, err
	}
	s = s.joined(s.Pressure.In(units.Pascal) / s.positive().ratio(s.Port))
	s.checkEqualized(f, "")
	if err := f.Err(); err != nil {
		return Air{}, err
	}
	a := Air{flat{chamber.NewSum(float64(s.Travel))}, s.positive().gas(), s.rodSide()}
	a.parts.AddChamber(a.positive, 1)
	a.parts.AddChamber(a.negative, 1)
	return a, nil
}

// check reports every fault but the volume against the swept one, which depends on what
// else is behind the piston, and whether the two are sound.
func (s AirSpec) check(f *check.Faults) bool {
	bore := check.Between(f, "Bore", s.Bore, 10*units.Millimeter, 60*units.Millimeter)
	if bore {
		check.Between(f, "Rod", s.Rod, 0, 0.8*s.Bore)
	}
	volume := check.Between(f, "Volume", s.Volume, 2*units.Milliliter, 3*units.Liter)
	check.Absolute(f, "Pressure", s.Pressure, 0.2*units.Bar, maxPressure)
	travel := check.Between(f, "Travel", s.Travel, 1*units.Millimeter, 400*units.Millimeter)
	if s.NegativeVolume != 0 {
		check.Between(f, "NegativeVolume", s.NegativeVolume, 1*units.Milliliter, 2*units.Liter)
	}
	if travel {
		check.Between(f, "Port", s.Port, 0, min(30*units.Millimeter, s.Travel))
	}
	if s.NegativePressure != (units.AbsolutePressure{}) {
		if check.Absolute(f, "NegativePressure", s.NegativePressure, 0.2*units.Bar, maxPressure) && s.NegativeVolume == 0 {
			f.Report("NegativePressure", s.NegativePressure, "a negative volume with it", "")
		}
	}
	checkGas(f, s.Ambient, s.Exponent)
	return bore && volume && travel
}

// checkEqualized reports a negative chamber so small that the port fills it beyond
// the limit. The specification, of the field at that path, is without other faults.
func (s AirSpec) checkEqualized(f *check.Faults, path string) {
	if p := s.NegativePressure; p.In(units.Pascal) > float64(maxPressure) {
		f.Report(path+"NegativeVolume", s.NegativeVolume,
			fmt.Sprintf("more: the port leaves it at %.0f at full extension, above 65 bar abs", p), "")
	}
}

// maxPressure of a charged chamber, absolute.
const maxPressure = 65 * units.Bar

// joined fills in the negative pressure that a transfer port leaves where it joins the
// chambers at rest under a shared pressure, in Pa: from there each follows its own volume
// back to full extension.
func (s AirSpec) joined(shared float64) AirSpec {
	if s.NegativeVolume != 0 && s.NegativePressure == (units.AbsolutePressure{}) {
		s.NegativePressure = units.Absolute(units.Pressure(shared * s.negative().ratio(s.Port)))
	}
	return s
}

func (s AirSpec) piston() units.Area { return geometry.Circle(s.Bore) }

func (s AirSpec) swept() units.Volume {
	return units.Volume(float64(s.piston()) * float64(s.Travel))
}

func (s AirSpec) positive() ChamberSpec {
	return ChamberSpec{Area: s.piston(), Volume: s.Volume, Pressure: s.Pressure,
		Ambient: s.Ambient, Exponent: s.Exponent, Travel: s.Travel}
}

func (s AirSpec) negative() ChamberSpec {
	return ChamberSpec{Area: geometry.Circle(s.Rod) - s.piston(), Volume: s.NegativeVolume,
		Pressure: s.NegativePressure, Ambient: s.Ambient, Exponent: s.Exponent, Travel: s.Travel}
}

// rodSide is the negative chamber once its pressure is known.
func (s AirSpec) rodSide() chamber.Chamber {
	if s.NegativeVolume == 0 {
		return chamber.Chamber{}
	}
	return s.negative().gas()
}

// Positive is the chamber the fork compresses.
func (a Air) Positive() Chamber { return newChamber(a.positive, a.Stroke()) }

// Negative is the chamber that grows as the fork compresses; false: none.
func (a Air) Negative() (Chamber, bool) {
	return newChamber(a.negative, a.Stroke()), a.negative != chamber.Chamber{}
}
