package geometry

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Caliper is how preload is read at the bench: the depth from a reference edge of the leg down to the spring
// collar, first with the spring just touching both seats and then as set. Screwing the collar in deepens the
// reading by the preload.
type Caliper struct {
	Loose units.Length // reading with the spring touching and not compressed, 0 to 300 mm
}

// Validate reports a reading out of range.
func (c Caliper) Validate() error {
	f := check.Of("Caliper")
	check.Between(f, "Loose", c.Loose, 0, 300*units.Millimeter)
	return f.Err()
}

// Reading is the depth to set for a preload: loose + preload.
func (c Caliper) Reading(preload units.Length) units.Length { return c.Loose + preload }

// Preload is what a reading means: reading − loose. Negative means that the spring is loose by that much.
func (c Caliper) Preload(reading units.Length) units.Length { return reading - c.Loose }
