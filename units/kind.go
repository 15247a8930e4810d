package units

import (
	"strings"
	"unicode/utf8"
)

// kind is what the text form knows about one quantity.
type kind struct {
	name    string // of the Go type
	noun    string // with its article, for messages
	units   []unit // accepted; values are shown in the first
	mark    string // follows the unit when shown
	datum   datum
	refused []refusal

	origin float64                          // of a point: the zero of the first unit in SI,
	point  func(v float64, u *unit) float64 // and v of those units in SI; nil for a ratio

	large     unit    // shown instead of the first unit
	largeFrom float64 // from this magnitude in SI on; 0 is never
}

// unit is one accepted symbol and its size in SI units.
type unit struct {
	symbol string
	size   float64
	also   also
}

// also lists further spellings, accepted but never printed.
type also = []string

// refusal is a symbol people type for this quantity that is not one of its units.
type refusal struct{ symbol, hint string }

// kinds is searched for the kind of a unit that turned up in the wrong place; the
// first match names it.
var kinds = [...]*kind{
	&lengthKind, &areaKind, &volumeKind, &massKind, &forceKind, &pressureKind,
	&absolutePressureKind, &gaugePressureKind, &temperatureKind, &temperatureDifferenceKind, &expansivityKind,
	&timeKind, &angleKind, &speedKind, &stiffnessKind, &torqueKind, &energyKind, &powerKind,
	&stressKind, &densityKind, &dampingRateKind, &kinematicViscosityKind, &dynamicViscosityKind,
	&frequencyKind, &accelerationKind, &amountKind, &flowKind, &shareKind, &specificHeatKind, &thermalConductanceKind,
}

// find looks a symbol up in the table of k.
func (k *kind) find(symbol string) (*unit, bool) {
	for i := range k.units {
		if k.units[i].symbol == symbol {
			return &k.units[i], true
		}
	}
	for i := range k.units {
		u := &k.units[i]
		if spells(symbol, u.symbol) {
			return u, true
		}
		for _, s := range u.also {
			if spells(symbol, s) {
				return u, true
			}
		}
	}
	return nil, false
}

// lookup is find for text, where a pressure may say what it counts from. What is
// not a unit of k comes back as a hint.
func (k *kind) lookup(symbol string) (u *unit, hint string) {
	if u, ok := k.find(symbol); ok {
		return u, ""
	}
	for _, r := range k.refused {
		if spells(symbol, r.symbol) {
			return nil, r.hint
		}
	}
	base, d := cutDatum(symbol)
	if k.datum != "" && d != "" {
		if u, ok := k.find(base); ok {
			return u, k.refuseDatum(symbol, d)
		}
	}
	for _, other := range kinds {
		if d != "" && other.datum == d {
			if _, ok := other.find(base); ok {
				return nil, symbol + " is " + other.noun
			}
		}
		if _, ok := other.find(symbol); ok {
			return nil, symbol + " is " + other.noun
		}
	}
	for _, u := range k.units {
		if strings.EqualFold(u.symbol, symbol) {
			return nil, "unknown unit; did you mean " + u.symbol + "?"
		}
	}
	return nil, unknownUnit
}

const unknownUnit = "unknown unit"

// refuseDatum is the hint for a symbol marked with d, empty when k counts from it.
func (k *kind) refuseDatum(symbol string, d datum) string {
	switch {
	case d == k.datum:
		return ""
	case k.datum == difference:
		return symbol + " counts from " + d.origin() + ", a " + k.name + " is a difference"
	default:
		return symbol + " is " + string(d) + ": it counts from " + d.origin() + ", not from " + k.datum.origin()
	}
}

// spells reports whether text is the symbol in one of the spellings of its signs.
func spells(text, symbol string) bool {
	for len(symbol) > 0 {
		n, m := 1, 1
		if c := symbol[0]; c >= utf8.RuneSelf {
			_, n = utf8.DecodeRuneInString(symbol)
			m = matchSign(text, symbol[:n])
		} else if text == "" || text[0] != c {
			return false
		}
		if m == 0 {
			return false
		}
		text, symbol = text[m:], symbol[n:]
	}
	return text == ""
}

// matchSign is the length of the spelling of sign at the start of text, 0 for none.
func matchSign(text, sign string) int {
	if strings.HasPrefix(text, sign) {
		return len(sign)
	}
	var spellings []string
	switch sign {
	case "·":
		spellings = []string{"*", ".", "-", " ", "⋅", "\u00a0", "\u202f"}
	case "²":
		spellings = []string{"^2", "2"}
	case "³":
		spellings = []string{"^3", "3"}
	case "°":
		spellings = []string{"º"}
	case "µ":
		spellings = []string{"μ"}
	}
	for _, s := range spellings {
		if strings.HasPrefix(text, s) {
			return len(s)
		}
	}
	return 0
}
