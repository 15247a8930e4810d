package gas

import (
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/enum"
	"example.org/forkcurve/internal/solve"
	"example.org/forkcurve/units"
)

// Species is what a chamber is filled with, as a real gas. The zero Species is [DryAir].
//
// The rest of the package takes every gas for ideal; [Species.Departure] tells how far that is off for a given
// chamber.
//
// The model is the virial equation, with ρ the molar density and cv° the heat capacity of the dilute gas,
//
//	Z = p/(ρRT) = 1 + B(T)·ρ + C(T)·ρ²
//	cv = cv°(T) − R·(ρ·(2TB′ + T²B″) + ρ²·(TC′ + T²C″/2))
//
// It holds from 220 K to 700 K (−53 °C to 427 °C) and 0.01 bar to 100 bar. Of the reference equations of state of
// both gases Z is within 0.1 % to 50 bar and 0.25 % to 100 bar, the isentropic exponent within 0.3 % to 60 bar and
// 1.3 % to 100 bar.
type Species int

// The gases that forks and dampers are filled with.
const (
	DryAir Species = iota
	// Nitrogen has B = −4.55 cm³/mol at 300 K; published values run from −3.7 to −5.2, which moves Z by 0.03 % at
	// 10 bar.
	Nitrogen
)

var species = enum.Names[Species]{DryAir: "dry air", Nitrogen: "nitrogen"}

// String is the name of the gas.
func (g Species) String() string { return species.String(g) }

// MarshalText writes the name.
func (g Species) MarshalText() ([]byte, error) { return species.Marshal(g) }

// UnmarshalText reads a name.
func (g *Species) UnmarshalText(text []byte) error { return species.Unmarshal(text, g) }

// Compressibility is Z = p·V/(N·R·T); it is 1 for an ideal gas. It is an error if the species is unknown or the
// state is outside the range of [Species].
func (g Species) Compressibility(p units.AbsolutePressure, t units.Temperature) (float64, error) {
	return g.at("Compressibility", p, t, virialState.z)
}

// Density is ρ·M with M = 28.965 g/mol of dry air or 28.013 g/mol of nitrogen, as close to the reference equations
// as Z. Errors are those of [Species.Compressibility].
func (g Species) Density(p units.AbsolutePressure, t units.Temperature) (units.Density, error) {
	d, err := g.at("Density", p, t, func(s virialState) float64 { return s.rho * s.m.molarMass })
	return units.Density(d), err
}

// IsentropicExponent is −(V/p)·(∂p/∂V) at constant entropy, by which a fast small compression stiffens the gas; it
// is 1.4 for the ideal gas of this package. At pressure it differs from cp/cv: both are the same only in an ideal
// gas. Errors are those of [Species.Compressibility].
func (g Species) IsentropicExponent(p units.AbsolutePressure, t units.Temperature) (float64, error) {
	return g.at("IsentropicExponent", p, t, virialState.exponent)
}

// HeatRatio is cp/cv. It is not the exponent of a fast compression, except in an ideal gas: see
// [Species.IsentropicExponent]. From 250 K to 330 K and up to 25 bar it is within 0.1 % of the reference equation
// of air. Errors are those of [Species.Compressibility].
func (g Species) HeatRatio(p units.AbsolutePressure, t units.Temperature) (float64, error) {
	return g.at("HeatRatio", p, t, virialState.heatRatio)
}

// at is a property of the gas at a pressure and temperature in range.
func (g Species) at(name string, p units.AbsolutePressure, t units.Temperature, of func(virialState) float64) (float64,
	error) {
	m, err := g.model(name, p, t)
	if err != nil {
		return 0, err
	}
	return of(m.at(p.In(units.Pascal), t.Kelvin())), nil
}

// Departure is by how much the ideal gas law is off: each share is the ideal value over the real one, less 1.
type Departure struct {
	Amount      float64                     // of gas in the chamber, from pressure, volume and temperature
	Slow        float64                     // of the pressure after the compression, wall temperature kept (n = 1)
	Fast        float64                     // of the pressure after the compression, no heat exchanged (n = 1.4)
	Temperature units.TemperatureDifference // ideal less real, after the fast compression
}

// Departure tells how wrong the ideal gas law is for a chamber at rest in state s and for its compression to a
// volume. A volume above that of s expands the gas. It is an error if the species is unknown, if s or the volume is
// not valid, or if one of the three states is outside the range of [Species].
func (g Species) Departure(s State, to units.Volume) (Departure, error) {
	if err := s.validateChange("Departure", to, Adiabatic); err != nil {
		return Departure{}, err
	}
	m, err := g.model("Departure.s", s.Pressure, s.Temperature)
	if err != nil {
		return Departure{}, err
	}
	p, t := s.Pressure.In(units.Pascal), s.Temperature.Kelvin()
	ratio := float64(s.Volume / to)
	rest := m.at(p, t)
	slow := m.with(rest.rho*ratio, t)
	fast, ok := m.isentropic(rest, ratio)
	if !ok {
		f := check.Of("Departure")
		f.Report("to", to, "a volume that leaves the gas between 220 K and 700 K", "")
		return Departure{}, f.Err()
	}
	for _, end := range [...]virialState{slow, fast} {
		if _, err := g.model("Departure.result", units.Absolute(units.Pressure(end.p())),
			units.Kelvin(end.t)); err != nil {
			return Departure{}, err
		}
	}
	warming := math.Pow(ratio, Adiabatic-1)
	return Departure{
		Amount:      rest.z() - 1,
		Slow:        p*ratio/slow.p() - 1,
		Fast:        p*ratio*warming/fast.p() - 1,
		Temperature: units.TemperatureDifference(t*warming - fast.t),
	}, nil
}

const (
	minReal, maxReal     = 220.0, 700.0 // K
	maxRealPressure      = 100 * units.Bar
	isentropicResolution = 1e-9 // K
)

// model is the gas's virial equation, once the state is in its range.
func (g Species) model(name string, p units.AbsolutePressure, t units.Temperature) (*virial, error) {
	f := check.Of(name)
	if g != DryAir && g != Nitrogen {
		f.Report("Species", int(g), "DryAir or Nitrogen", "")
	}
	check.Absolute(f, "Pressure", p, minPressure, maxRealPressure)
	check.Temperature(f, "Temperature", t, units.Kelvin(minReal), units.Kelvin(maxReal))
	if err := f.Err(); err != nil {
		return nil, err
	}
	return &virials[g], nil
}

// isentropic compresses by the ratio of volumes at constant entropy.
func (m *virial) isentropic(from virialState, ratio float64) (virialState, bool) {
	rho, entropy := from.rho*ratio, from.entropy()
	t, ok := solve.Root(func(t float64) float64 {
		s := m.with(rho, t)
		return s.entropy() - entropy
	}, minReal, maxReal, isentropicResolution)
	return m.with(rho, t), ok
}
