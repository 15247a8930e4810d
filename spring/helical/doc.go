// Package helical is the round-wire helical compression spring as a machine
// part: what its wire, diameter, coils and material make of it, and, the other
// way about, which spring a fork needs and has room for.
//
// New checks a Spec, as a caliper or a label gives it, and makes a Spring, whose
// methods then answer. Design goes from rate, stroke and room to a Spring.
//
// # Symbols
//
//	d    wire                        G    shear modulus at 20 °C
//	D    mean diameter, outer − d    E    elastic modulus at 20 °C
//	C    index D/d                   Rm   tensile strength of wire d
//	Na   active coils                ρ    density
//	Nt   total coils                 F    axial force
//	L0   free length                 y    deflection from L0
//	Ls   solid length                p    pitch of the free spring
//
// All quantities are those of package units, in SI. Stresses are shear stresses
// of the wire.
//
// # Formulas
//
//	rate               k  = G·d⁴/(8·D³·Na)
//	nominal stress     τ  = 8·F·D/(π·d³)            against 0.56·Rm when fully compressed
//	corrected stress   K_B·τ, K_B = (4·C+2)/(4·C−3)   against yield and fatigue
//	solid length       Ls = d·Nt or d·(Nt+1)        see Ends
//	minimum gap        Sa = Na·(0.0015·D²/d + 0.1·d), 1.5 times that in motion
//	growth to solid    0.1·(p² − 0.8·p·d − 0.2·d²)/D
//	buckling           y  = L0·C1·(1 − √(1 − C2/λ²))  see Spring.BucklingDeflection
//	surge              f  = ½·√(k/m)                m the active mass
//	fatigue            Goodman and Gerber through the Zimmerli data, see Spring.Fatigue
//
// # How good is the rate
//
// The formula sees a flat coil twisted by F·D/2 and nothing else. Pitch angle,
// bending and direct shear of the wire make a fork spring 1 % to 2 % softer, as
// the beam model of this package's tests shows; how the shop counts dead coils
// and holds its wire matters more, since 1 % of wire is 4 % of rate. Published
// accuracy classes allow ±4 % at best (Spring.RateTolerance). A measured rate
// outranks a computed one: give it as Spec.Rate.
//
// # Sources
//
//   - EN 13906-1, Cylindrical helical springs made from round wire and bar, part 1.
//     The text was not at hand: what is taken from it is from memory and says so.
//     A spring maker's design page confirms the minimum gap and its factor 1.5.
//   - EN 15800 and DIN 2095, tolerances of cold-coiled springs: scope and diameter
//     table from reprints.
//   - EN 10270-1 and -2, ASTM spring wire: in the records of package data.
//   - J. E. Shigley and others, Mechanical Engineering Design, chapter 10, and the
//     published solutions to its problems.
//
// # Caution
//
// A fork spring under preload is stored energy, and one that breaks or binds can
// throw a rider. Computed values are starting points; the manual of the fork and
// licensed practice prevail. Springs that are set, cracked or scored are scrap,
// and no spring is cut, ground or heated to change its rate or length.
package helical
