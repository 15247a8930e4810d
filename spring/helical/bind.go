package helical

import "example.org/forkcurve/units"

// BindMargin is the length left above solid at the deflection,
// L0 − deflection − Ls. Negative says that the coils bind first.
func (s Spring) BindMargin(deflection units.Length) units.Length {
	return s.free - deflection - s.solid
}

// MinimumGap is Sa, the least sum of the gaps between the active coils of a
// cold-coiled spring at its shortest working length under static load,
//
//	Sa = Na·(0.0015·D²/d + 0.1·d)
//
// BindMargin at full travel should not be less, and not less than
// DynamicMinimumGap where the spring works against impact and vibration, as a
// fork spring does. Fork builders often leave only 5 mm to 10 mm (common practice, no source).
//
// Source: EN 13906-1, from memory; a spring maker's design page gives the same formula.
func (s Spring) MinimumGap() units.Length { return minimumGap(s.active, s.mean, s.wire) }

// minimumGap is a length in any unit, since D²/d is one.
func minimumGap(active float64, mean, wire units.Length) units.Length {
	return units.Length(active) * (0.0015*mean*mean/wire + 0.1*wire)
}

// DynamicMinimumGap is 1.5·MinimumGap, for duty that moves.
//
// Source: EN 13906-1, from memory; a spring maker's design page gives the same factor.
func (s Spring) DynamicMinimumGap() units.Length { return 1.5 * s.MinimumGap() }

// OuterDiameterAtSolid is the outer diameter when closed, with ends free to
// turn on their seats, as a fork spring's are:
//
//	D + d + 0.1·(p² − 0.8·p·d − 0.2·d²)/D
//
// The tube must clear it. With ends that cannot turn it grows less.
//
// Source: EN 13906-1, from memory.
func (s Spring) OuterDiameterAtSolid() units.Length {
	p, d := s.pitch, s.wire
	return s.OuterDiameter() + 0.1*(p*p-0.8*p*d-0.2*d*d)/s.mean
}
