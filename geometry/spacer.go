package geometry

import "example.org/forkcurve/units"

// Installed is the length of the spring in the leg at full extension, once
// spacers of that length are in: room − spacer.
func (r Room) Installed(spacer units.Length) units.Length { return r.Length - spacer }

// Preload of a spring of that free length over spacers of that length:
// free length − installed length. Negative means that the spring is loose. It is
// the inverse of [Room.Spacer]. With a top-out spring the leg stands shorter
// at rest than its room says; measure the room as it stands.
func (r Room) Preload(freeLength, spacer units.Length) units.Length {
	return freeLength - r.Installed(spacer)
}
