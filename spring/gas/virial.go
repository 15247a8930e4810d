package gas

import "math"

// term is n·(T*/T)^t, with T* that of its gas.
type term struct{ n, t float64 }

// virial holds B(T) in m³/mol and C(T) in m⁶/mol² as sums of terms, and the heat capacity of the dilute gas,
//
//	cv°/R = a₀ + a₁T + a₂T² + a₃T³ + Σ n·u²·eᵘ/(eᵘ − 1)²,  u = θ/T
type virial struct {
	molarMass float64 // kg/mol
	reduce    float64 // T*, K
	second    []term
	third     []term
	heat      [4]float64
	vibration []struct{ n, theta float64 }
}

const (
	cubicCentimeter = 1e-6      // m³
	nitrogenDensity = 11183.901 // mol/m³, critical
)

// Air: B and C from R. W. Hyland and A. Wexler, Formulations for the thermodynamic properties of dry air from
// 173.15 K to 473.15 K, and of saturated moist air from 173.15 K to 372.15 K, at pressures to 5 MPa, ASHRAE
// Transactions 89 (1983) part 2A, 500–519, from memory and as several open psychrometric codes repeat them; beyond
// 473 K and 5 MPa held against the equation below. Heat capacity from E. W. Lemmon, R. T. Jacobsen, S. G.
// Penoncello and D. G. Friend, J. Phys. Chem. Ref. Data 29 (2000) 331, less two terms below 2e-5 R.
//
// Nitrogen: B and C are what the equation of state of R. Span, E. W. Lemmon, R. T. Jacobsen, W. Wagner and A.
// Yokozeki, J. Phys. Chem. Ref. Data 29 (2000) 1361, has as its first two derivatives in density at zero density: B
// of the terms linear in δ, C twice the quadratic terms less twice those δ·e^(−δ). Coefficients as the CoolProp
// library lists them.
var virials = [...]virial{
	DryAir: {
		molarMass: 0.02896546, reduce: 1,
		second: []term{
			{34.9568 * cubicCentimeter, 0}, {-6687.72 * cubicCentimeter, 1},
			{-2.10141e6 * cubicCentimeter, 2}, {9.24746e7 * cubicCentimeter, 3},
		},
		third: []term{
			{1259.75 * cubicCentimeter * cubicCentimeter, 0}, {-190905 * cubicCentimeter * cubicCentimeter, 1},
			{6.32467e7 * cubicCentimeter * cubicCentimeter, 2},
		},
		heat:      [4]float64{2.490888032, 2.395525583e-6, 7.172111248e-9, -3.115413101e-13},
		vibration: []struct{ n, theta float64 }{{0.791309509, 3364.011}, {0.212236768, 2242.45}},
	},
	Nitrogen: {
		molarMass: 0.02801348, reduce: 126.192,
		second: []term{
			{0.924803575275 / nitrogenDensity, 0.25}, {-0.492448489428 / nitrogenDensity, 0.875},
			{0.564857472498 / nitrogenDensity, 0.5}, {-1.61720005987 / nitrogenDensity, 0.75},
			{-0.481395031883 / nitrogenDensity, 2}, {-0.0435762336045 / nitrogenDensity, 4},
		},
		third: []term{
			{2 * 0.661883336938 / nitrogenDensity / nitrogenDensity, 0.5},
			{2 * -1.92902649201 / nitrogenDensity / nitrogenDensity, 0.875},
			{-2 * 0.564857472498 / nitrogenDensity / nitrogenDensity, 0.5},
			{2 * 1.61720005987 / nitrogenDensity / nitrogenDensity, 0.75},
			{2 * 0.481395031883 / nitrogenDensity / nitrogenDensity, 2},
		},
		heat:      [4]float64{2.5, 3.066469e-6, 4.70124e-9, -3.987984e-13},
		vibration: []struct{ n, theta float64 }{{1.012941, 3364.011}},
	},
}

// sum is a coefficient with its first two derivatives, as c, T·c′ and T²·c″.
func (m *virial) sum(terms []term, t float64) (c, c1, c2 float64) {
	for _, k := range terms {
		x := k.n * math.Pow(m.reduce/t, k.t)
		c += x
		c1 -= k.t * x
		c2 += k.t * (k.t + 1) * x
	}
	return c, c1, c2
}

// virialState is a gas at a density and temperature, in SI.
type virialState struct {
	m                    *virial
	rho, t               float64
	b, b1, b2, c, c1, c2 float64
}

func (m *virial) with(rho, t float64) virialState {
	s := virialState{m: m, rho: rho, t: t}
	s.b, s.b1, s.b2 = m.sum(m.second, t)
	s.c, s.c1, s.c2 = m.sum(m.third, t)
	return s
}

// at finds the density at a pressure by fixed-point iteration, which converges in the range of the model: the
// density changes Z by less than itself.
func (m *virial) at(p, t float64) virialState {
	s := m.with(p/(gasConstant*t), t)
	for range 40 {
		before := s.rho
		s.rho = p / (gasConstant * t * s.z())
		if math.Abs(s.rho-before) <= 0x1p-52*s.rho {
			break
		}
	}
	return s
}

func (s virialState) z() float64 { return 1 + s.rho*(s.b+s.rho*s.c) }

func (s virialState) p() float64 { return s.rho * gasConstant * s.t * s.z() }

// slopes are (∂p/∂ρ)_T/(R·T) and (∂p/∂T)_ρ/(ρ·R), both 1 for an ideal gas.
func (s virialState) slopes() (density, temperature float64) {
	return 1 + s.rho*(2*s.b+3*s.rho*s.c), 1 + s.rho*(s.b+s.b1+s.rho*(s.c+s.c1))
}

// exponent is (ρ/p)·(∂p/∂ρ)_T + T·(∂p/∂T)_ρ²/(ρ·p·cv).
func (s virialState) exponent() float64 {
	density, temperature := s.slopes()
	return (density + temperature*temperature/s.heat()) / s.z() // with cv over R
}

// heatRatio is cp/cv = 1 + T·(∂p/∂T)_ρ²/(ρ²·(∂p/∂ρ)_T·cv).
func (s virialState) heatRatio() float64 {
	density, temperature := s.slopes()
	return 1 + temperature*temperature/(density*s.heat())
}

// heat is cv/R.
func (s virialState) heat() float64 {
	h := &s.m.heat
	cv := h[0] + s.t*(h[1]+s.t*(h[2]+s.t*h[3]))
	for _, v := range s.m.vibration {
		u := v.theta / s.t
		half := u / 2 / math.Sinh(u/2)
		cv += v.n * half * half
	}
	return cv - s.rho*(2*s.b1+s.b2+s.rho*(s.c1+s.c2/2))
}

// entropy is s/R from an arbitrary zero.
func (s virialState) entropy() float64 {
	h := &s.m.heat
	e := h[0]*math.Log(s.t) + s.t*(h[1]+s.t*(h[2]/2+s.t*h[3]/3)) - math.Log(s.rho)
	for _, v := range s.m.vibration {
		u := v.theta / s.t
		e += v.n * (u/math.Expm1(u) - math.Log1p(-math.Exp(-u)))
	}
	return e - s.rho*(s.b+s.b1+s.rho*(s.c+s.c1)/2)
}
