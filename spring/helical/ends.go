package helical

import (
	"example.org/forkcurve/internal/enum"
	"example.org/forkcurve/units"
)

// Ends is how the last coils of a compression spring are finished. The zero
// value is SquaredGround, the ends of nearly every fork spring.
//
// The rules tie the active coils Na, the total coils Nt, the solid length Ls,
// the free length L0, the pitch p and the wire d together:
//
//	                   Nt       Ls          L0
//	plain              Na       d·(Nt+1)    p·Na + d
//	plain ground       Na + 1   d·Nt        p·(Na+1)
//	squared            Na + 2   d·(Nt+1)    p·Na + 3·d
//	squared ground     Na + 2   d·Nt        p·Na + 2·d
//
// Source: J. E. Shigley et al., Mechanical Engineering Design, 9th ed.,
// Table 10-1, from memory. Shops count differently when the ends are ground
// lightly (1.5 dead coils is common): then give ActiveCoils and treat the solid
// length as an upper bound, or measure it.
type Ends int

const (
	SquaredGround Ends = iota // closed and ground flat
	Squared                   // closed, not ground
	PlainGround               // open, ground flat
	Plain                     // open, cut off
)

// endRule holds one row of the table above. L0 = p·(Na + pitchCoils) + wires·d.
type endRule struct {
	dead       float64 // Nt − Na
	solidExtra float64 // Ls/d − Nt
	pitchCoils float64
	wires      float64
}

var endRules = [...]endRule{
	SquaredGround: {2, 0, 0, 2},
	Squared:       {2, 1, 0, 3},
	PlainGround:   {1, 0, 1, 0},
	Plain:         {0, 1, 0, 1},
}

var endNames = enum.Names[Ends]{SquaredGround: "squared and ground", Squared: "squared",
	PlainGround: "plain and ground", Plain: "plain"}

func (e Ends) valid() bool { return endNames.Has(e) }

// DeadCoils is the number of coils that do not deflect, Nt − Na, or 0 if e is none of the four.
func (e Ends) DeadCoils() float64 {
	if !e.valid() {
		return 0
	}
	return endRules[e].dead
}

// SolidLength is Ls by the rule of the ends, 0 if e is none of the four.
func (e Ends) SolidLength(wire units.Length, active float64) units.Length {
	if !e.valid() {
		return 0
	}
	return wire * units.Length(active+endRules[e].dead+endRules[e].solidExtra)
}

// String is the name in words, as "squared and ground".
func (e Ends) String() string { return endNames.String(e) }

// MarshalText writes the name.
func (e Ends) MarshalText() ([]byte, error) { return endNames.Marshal(e) }

// UnmarshalText reads a name.
func (e *Ends) UnmarshalText(text []byte) error { return endNames.Unmarshal(text, e) }
