// Package oil holds one thing, the oil in a fork leg: what it is and the room it takes. A [Fluid] has viscosity,
// density and expansion; a [Fill] is so much of it in a leg, by volume or level, between the metal that stands in it
// and the gas it leaves; an [AirGap] is that gas as a spring. Fluid and fill stand together because a leg that goes
// warm is neither without the other: the oil swells into the gas ([Fill.Warmed], [Fill.Sealed]). Package oil/bath does
// the same for both legs of a whole fork.
//
// Values made by a New function are immutable and safe for concurrent use, and their methods allocate nothing.
//
// Symbols and units
//
//	ν     kinematic viscosity                                      m²/s
//	ρ     density                                                  kg/m³
//	β     expansion by volume                                      1/K
//	T     temperature                                              K
//	α     share of the volume that is air                          1
//	K     bulk modulus                                             Pa
//	V_i   inside of one leg at full travel, spring and oil out     m³
//	V_m   metal that goes in after the oil: spring, spacer, guide  m³
//	V_o   oil                                                      m³
//	V_r   gas left at full travel, V_i − V_o − V_m                 m³
//	S     section over which the oil level moves                   m²
//	h     oil level: height of air over the oil, fork compressed,
//	      spring out, damper bled                                  m
//	A     sealed area of the sliding tube less any swallowed rod   m²
//	L     travel                                                   m
//
// Formulas, with ν in mm²/s
//
//	viscosity          log₁₀ log₁₀ (ν + 0.7) = A − B·log₁₀ T
//	dynamic viscosity  η = ν·ρ
//	density            ρ(T) = ρ₀ / (1 + β·(T − T₀))
//	bulk modulus       1/K = α/(n·p) + (1 − α)/K_oil, α at p
//	level              h = (V_i − V_o) / S
//	gas at extension   V_e = V_r + A·L
//	compression ratio  V_e / V_r
//	lock level         h = (V_m + A·L/(r − 1)) / S, r the ratio LockRatio
//	expansion          V_o(T) = V_o·(1 + β·(T − T₀))
//
// A level is read with the spring out: the spring and its spacer then raise it by V_m / S. Everything that consumes
// gas space at full travel counts against V_r, and where nothing is left the leg locks on its oil: seals and tubes
// then take the load, and a leg that was right when cold may lock when warm.
//
// Caution: let all gas out before a leg is opened, and check full travel with the
// gap open before riding. A locked leg bursts seals and stops short under braking.
//
// A level read with the leg extended is another number: see Interior.Drop.
//
// Sources: geometry. The standards were read in public reprints and quotations, not in the originals. Viscosity
// against temperature: ASTM D341-09, its equation for 2 mm²/s and more and, below that, its inverse for low
// viscosities; the limits of 0.21 and 2·10⁷ mm²/s are from memory. Viscosity index: ASTM D2270-10, procedures A and B
// with Table 1 and, beyond 70 mm²/s at 100 °C, the equations of the text. Classes: ISO 3448:1992. Air in oil: any
// textbook of fluid power, bubbles and oil compressed in parallel. Density and expansion: linear, which is within
// 0.3 % of the petroleum measurement tables of ASTM D1250-80 to 80 °C, these and β near 7–8·10⁻⁴ 1/K for fork oils
// from memory.
package oil
