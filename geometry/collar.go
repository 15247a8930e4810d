package geometry

import (
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Collar is a threaded preload adjuster, counted in turns or in flats of the hexagon it is turned by. One turn
// moves it by its pitch.
type Collar struct {
	Pitch units.Length // of its thread, 0.25 mm to 5 mm
	Sides int          // flats of the hexagon or slots of the ring, 1 to 36
}

// Validate reports every field out of range.
func (c Collar) Validate() error {
	f := check.Of("Collar")
	check.Between(f, "Pitch", c.Pitch, 0.25*units.Millimeter, 5*units.Millimeter)
	if c.Sides < 1 || c.Sides > 36 {
		f.Report("Sides", c.Sides, "1 to 36", "")
	}
	return f.Err()
}

// Turns that change the preload by that much; negative: turned out.
func (c Collar) Turns(change units.Length) float64 { return float64(change / c.Pitch) }

// Advance is the change of preload by a number of turns.
func (c Collar) Advance(turns float64) units.Length { return c.Pitch * units.Length(turns) }

// Flats is a change of preload in whole turns and flats beyond them, to the nearest flat, and what is missing to
// the change. Turned out, both counts are negative. It is meant for changes of up to a meter.
func (c Collar) Flats(change units.Length) (turns, flats int, missing units.Length) {
	n := math.Round(c.Turns(change) * float64(c.Sides))
	whole := math.Trunc(n / float64(c.Sides))
	return int(whole), int(n - whole*float64(c.Sides)), change - c.Advance(n/float64(c.Sides))
}
