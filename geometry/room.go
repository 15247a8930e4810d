package geometry

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Room is what one leg offers a coil spring once its former spring is out.
type Room struct {
	Length units.Length // seat to seat at full extension, 50 mm to 1000 mm
	Bore   units.Length // the tube the spring slides into, 10 mm to 80 mm
	Guide  units.Length // rod or guide inside the spring, 0 for none
}

// Validate reports every field out of range.
func (r Room) Validate() error {
	f := check.Of("Room")
	check.Between(f, "Length", r.Length, 50*units.Millimeter, 1000*units.Millimeter)
	if check.Between(f, "Bore", r.Bore, 10*units.Millimeter, 80*units.Millimeter) {
		check.Between(f, "Guide", r.Guide, 0, r.Bore)
	}
	return f.Err()
}

// Spacer is the length of the spacers that close the leg on a spring of that free length with that preload: room −
// (free length − preload). Negative means that the spring is too long for the leg.
func (r Room) Spacer(freeLength, preload units.Length) units.Length {
	return r.Length - (freeLength - preload)
}

// Installed is the length of the spring in the leg at full extension, once spacers of that length are in: room −
// spacer.
func (r Room) Installed(spacer units.Length) units.Length { return r.Length - spacer }

// Preload of a spring of that free length over spacers of that length: free length − installed length. Negative
// means that the spring is loose. It is the inverse of [Room.Spacer]. With a top-out spring the leg stands shorter
// at rest than its room says; measure the room as it stands.
func (r Room) Preload(freeLength, spacer units.Length) units.Length {
	return freeLength - r.Installed(spacer)
}
