package helical

import (
	"example.org/forkcurve/internal/enum"
	"example.org/forkcurve/units"
)

const (
	gpa = 1000 * units.Megapascal
	mpa = units.Megapascal
	mm  = units.Millimeter

	steelDensity = 7.85 * units.GramPerMilliliter

	// steelSoftening is the relative loss of modulus per kelvin of spring
	// steel: 2.5 % to 3 % in 100 K, from memory of EN 13906-1.
	steelSoftening = 0.25e-3

	// Yield in torsion over tensile strength before set removal: Shigley,
	// Mechanical Engineering Design, 9th ed., Table 10-6, from memory.
	yieldDrawn      = 0.45
	yieldTempered   = 0.50
	yieldNonferrous = 0.35
)

// SiCr is oil-tempered chromium-silicon valve wire, "sicr", VDSiCr of EN 10270-2.
func SiCr() Material { return Material{&sicr} }

// SiCrV is high-strength oil-tempered chromium-silicon-vanadium wire, "sicrv".
func SiCrV() Material { return Material{&sicrv} }

// SM is patented drawn carbon wire of medium strength for static duty, "sm", of EN 10270-1.
func SM() Material { return Material{&sm} }

// SH is patented drawn carbon wire of high strength for static duty, "sh", of EN 10270-1.
func SH() Material { return Material{&sh} }

// DH is patented drawn carbon wire of high strength for dynamic duty, "dh", of EN 10270-1.
func DH() Material { return Material{&dh} }

// BetaTitanium is aged beta-titanium wire, "ti-beta".
func BetaTitanium() Material { return Material{&tiBeta} }

// Moduli of EN 10270-2 wire (from memory of EN 13906-1) and of EN 10270-1 wire
// (a spring maker's table).
var (
	oilTempered = []moduli{{shear: 79.5 * gpa, elastic: 206 * gpa}}
	drawn       = []moduli{{shear: 81.5 * gpa, elastic: 206 * gpa}}
)

var sicr = material{
	id: "sicr", name: "oil-tempered SiCr, EN 10270-2 VDSiCr",
	source: "strength: lower bounds of a wire maker's data sheet to EN 10270-2:2011 VDSiCr, 6.5 mm to 8 mm from memory; moduli and density from memory of EN 13906-1",
	moduli: oilTempered, density: steelDensity, softening: steelSoftening, yield: yieldTempered, steel: true,
	strength: Strength{lo: 2 * mm, hi: 8 * mm, law: stepLaw, steps: []StrengthStep{
		{2.5 * mm, 1960 * mpa}, {3.5 * mm, 1910 * mpa}, {4.5 * mm, 1860 * mpa},
		{5.6 * mm, 1810 * mpa}, {6.5 * mm, 1760 * mpa}, {8.0 * mm, 1700 * mpa},
	}},
}

var sicrv = material{
	id: "sicrv", name: "high-strength oil-tempered SiCrV",
	source: "strength: lower bounds of a wire maker's data sheet for high-strength SiCrV wire; moduli and density from memory of EN 13906-1",
	moduli: oilTempered, density: steelDensity, softening: steelSoftening, yield: yieldTempered, steel: true,
	strength: Strength{lo: 2 * mm, hi: 10 * mm, law: stepLaw, steps: []StrengthStep{
		{2.5 * mm, 2180 * mpa}, {3.2 * mm, 2130 * mpa}, {4.0 * mm, 2080 * mpa}, {5.0 * mm, 2030 * mpa},
		{6.0 * mm, 1980 * mpa}, {7.0 * mm, 1910 * mpa}, {10.0 * mm, 1860 * mpa},
	}},
}

// drawnHigh serves the static and the dynamic grade: they differ in surface, not in strength.
var drawnHigh = []StrengthStep{
	{2.5 * mm, 1890 * mpa}, {3.0 * mm, 1840 * mpa}, {3.5 * mm, 1780 * mpa}, {4.0 * mm, 1740 * mpa},
	{4.5 * mm, 1690 * mpa}, {5.0 * mm, 1660 * mpa}, {5.5 * mm, 1620 * mpa}, {6.0 * mm, 1590 * mpa},
	{7.0 * mm, 1540 * mpa}, {8.0 * mm, 1480 * mpa},
}

const drawnHighSource = "strength: minimum of EN 10270-1 by diameter band, from memory; moduli and density: a spring maker's table to EN 10270-1"

var sh = material{
	id: "sh", name: "patented drawn SH, EN 10270-1", source: drawnHighSource,
	moduli: drawn, density: steelDensity, softening: steelSoftening, yield: yieldDrawn, steel: true,
	strength: Strength{lo: 2 * mm, hi: 8 * mm, law: stepLaw, steps: drawnHigh},
}

var dh = material{
	id: "dh", name: "patented drawn DH, EN 10270-1", source: drawnHighSource,
	moduli: drawn, density: steelDensity, softening: steelSoftening, yield: yieldDrawn, steel: true,
	strength: Strength{lo: 2 * mm, hi: 8 * mm, law: stepLaw, steps: drawnHigh},
}

var sm = material{
	id: "sm", name: "patented drawn SM, EN 10270-1",
	source: "strength: 1980 MPa − 740 MPa·log10(d/mm) (from memory), which rounds to every minimum of a spring maker's table to EN 10270-1 from 0.3 mm to 20 mm; that table also gives the moduli and the density",
	moduli: drawn, density: steelDensity, softening: steelSoftening, yield: yieldDrawn, steel: true,
	strength: Strength{lo: 0.3 * mm, hi: 20 * mm, law: logLaw, a: 1980 * mpa, m: float64(740 * mpa)},
}

var tiBeta = material{
	id: "ti-beta", name: "beta titanium, aged",
	source: "from memory: strength 1250 MPa to 1400 MPa, shear modulus 39 GPa to 44 GPa; the least strength and a middle modulus are used",
	moduli: []moduli{{shear: 41 * gpa, elastic: 104 * gpa}}, density: 4.8 * units.GramPerMilliliter,
	softening: 0.4e-3, yield: yieldNonferrous,
	strength: Strength{lo: 2 * mm, hi: 14 * mm, law: powerLaw, a: 1250 * mpa},
}

// Generation names one of the two tables of strength constants that circulate
// for ASTM spring wire. They disagree by up to a fifth, so say which is meant.
type Generation int

const (
	// Current is the table of Shigley, Mechanical Engineering Design, from the
	// 7th edition on (Table 10-4), as A = 2211 MPa and m = 0.145 for A228.
	Current Generation = iota
	// Earlier is the table of the 5th and 6th editions, still found on the web,
	// as A = 2060 MPa and m = 0.163 for A228. Its inch column does not agree
	// with its metric column: 186 kpsi at 1 in converts to 2173 MPa at 1 mm.
	Earlier
)

var generations = enum.Names[Generation]{Current: "current", Earlier: "earlier"}

// String is "current" or "earlier".
func (g Generation) String() string { return generations.String(g) }

// MarshalText writes the name.
func (g Generation) MarshalText() ([]byte, error) { return generations.Marshal(g) }

// UnmarshalText reads a name.
func (g *Generation) UnmarshalText(text []byte) error { return generations.Unmarshal(text, g) }

func pick(g Generation, current, earlier *material) Material {
	if g == Earlier {
		return Material{earlier}
	}
	return Material{current}
}

// A227 is hard-drawn wire, "a227" or "a227-earlier".
func A227(g Generation) Material { return pick(g, &a227, &a227Earlier) }

// A228 is music wire, "a228" or "a228-earlier".
func A228(g Generation) Material { return pick(g, &a228, &a228Earlier) }

// A229 is oil-tempered carbon wire, "a229" or "a229-earlier".
func A229(g Generation) Material { return pick(g, &a229, &a229Earlier) }

// A232 is chromium-vanadium wire, "a232" or "a232-earlier".
func A232(g Generation) Material { return pick(g, &a232, &a232Earlier) }

// A401 is chromium-silicon wire, "a401" or "a401-earlier".
func A401(g Generation) Material { return pick(g, &a401, &a401Earlier) }

const (
	currentSource = "strength: Shigley, Mechanical Engineering Design, 9th ed., Table 10-4, A228, A227 and A229 as used in its solved problems, A232 and A401 from memory; moduli: Table 10-5, in part from memory; yield: Table 10-6, from memory"
	earlierSource = "strength: Shigley, Mechanical Engineering Design, 5th and 6th ed., metric column, from memory; moduli: 9th ed., Table 10-5, in part from memory; yield: Table 10-6, from memory"
)

// Moduli by diameter: Shigley, Mechanical Engineering Design, 9th ed., Table
// 10-5, in part from memory.
var (
	musicModuli = []moduli{
		{0.032 * units.Inch, 82.7 * gpa, 203.4 * gpa}, {0.063 * units.Inch, 81.7 * gpa, 200 * gpa},
		{0.125 * units.Inch, 81.0 * gpa, 196.5 * gpa}, {0, 80.0 * gpa, 193 * gpa},
	}
	hardDrawnModuli = []moduli{
		{0.032 * units.Inch, 80.7 * gpa, 198.6 * gpa}, {0.063 * units.Inch, 80.0 * gpa, 197.9 * gpa},
		{0.125 * units.Inch, 79.3 * gpa, 197.2 * gpa}, {0, 78.6 * gpa, 196.5 * gpa},
	}
	temperedModuli = []moduli{{0, 77.2 * gpa, 196.5 * gpa}}
	alloyModuli    = []moduli{{0, 77.2 * gpa, 203.4 * gpa}}
)

var (
	a227        = material{"a227", "hard-drawn, ASTM A227", currentSource, hardDrawnModuli, steelDensity, steelSoftening, yieldDrawn, true, Strength{lo: 0.7 * mm, hi: 12.7 * mm, law: powerLaw, a: 1783 * mpa, m: 0.190}}
	a227Earlier = material{"a227-earlier", "hard-drawn, ASTM A227, earlier table", earlierSource, hardDrawnModuli, steelDensity, steelSoftening, yieldDrawn, true, Strength{lo: 0.7 * mm, hi: 12.7 * mm, law: powerLaw, a: 1510 * mpa, m: 0.201}}
	a228        = material{"a228", "music wire, ASTM A228", currentSource, musicModuli, steelDensity, steelSoftening, yieldDrawn, true, Strength{lo: 0.1 * mm, hi: 6.5 * mm, law: powerLaw, a: 2211 * mpa, m: 0.145}}
	a228Earlier = material{"a228-earlier", "music wire, ASTM A228, earlier table", earlierSource, musicModuli, steelDensity, steelSoftening, yieldDrawn, true, Strength{lo: 0.1 * mm, hi: 6.5 * mm, law: powerLaw, a: 2060 * mpa, m: 0.163}}
	a229        = material{"a229", "oil-tempered, ASTM A229", currentSource, temperedModuli, steelDensity, steelSoftening, yieldTempered, true, Strength{lo: 0.5 * mm, hi: 12.7 * mm, law: powerLaw, a: 1855 * mpa, m: 0.187}}
	a229Earlier = material{"a229-earlier", "oil-tempered, ASTM A229, earlier table", earlierSource, temperedModuli, steelDensity, steelSoftening, yieldTempered, true, Strength{lo: 0.5 * mm, hi: 12.7 * mm, law: powerLaw, a: 1610 * mpa, m: 0.193}}
	a232        = material{"a232", "chromium-vanadium, ASTM A232", currentSource, alloyModuli, steelDensity, steelSoftening, yieldTempered, true, Strength{lo: 0.8 * mm, hi: 11.1 * mm, law: powerLaw, a: 2005 * mpa, m: 0.168}}
	a232Earlier = material{"a232-earlier", "chromium-vanadium, ASTM A232, earlier table", earlierSource, alloyModuli, steelDensity, steelSoftening, yieldTempered, true, Strength{lo: 0.8 * mm, hi: 11.1 * mm, law: powerLaw, a: 1790 * mpa, m: 0.155}}
	a401        = material{"a401", "chromium-silicon, ASTM A401", currentSource, alloyModuli, steelDensity, steelSoftening, yieldTempered, true, Strength{lo: 1.6 * mm, hi: 9.5 * mm, law: powerLaw, a: 1974 * mpa, m: 0.108}}
	a401Earlier = material{"a401-earlier", "chromium-silicon, ASTM A401, earlier table", earlierSource, alloyModuli, steelDensity, steelSoftening, yieldTempered, true, Strength{lo: 1.6 * mm, hi: 9.5 * mm, law: powerLaw, a: 1960 * mpa, m: 0.091}}
)

// Materials lists every built-in wire.
func Materials() []Material {
	return []Material{
		{&sicr}, {&sicrv}, {&sm}, {&sh}, {&dh}, {&tiBeta},
		{&a227}, {&a228}, {&a229}, {&a232}, {&a401},
		{&a227Earlier}, {&a228Earlier}, {&a229Earlier}, {&a232Earlier}, {&a401Earlier},
	}
}

// MaterialByID finds a built-in wire by its short name, as "sicr".
func MaterialByID(id string) (Material, bool) {
	for _, m := range Materials() {
		if m.m.id == id {
			return m, true
		}
	}
	return Material{}, false
}
