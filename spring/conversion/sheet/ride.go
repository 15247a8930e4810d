package sheet

import (
	"io"

	"example.org/forkcurve/internal/unitjson"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// ride is the JSON of a fork that nothing is planned for.
type ride struct {
	Version  int
	Fork     string
	Name     string
	Travel   units.Length
	Rider    units.Mass
	Load     units.Force // on the axis of the fork
	Drift    setup.Drift // the sag in the workshop, and what the event makes of it
	Cautions []string
	Curves   []curve
}

// MarshalJSON gives every number the unit that its key ends in.
func (r ride) MarshalJSON() ([]byte, error) { return new(unitjson.Codec).Marshal(r) }

// WriteRideJSON writes what a fork does with its rider: the sag band here and at the event,
// the cautions of work on it, and its curves at rest and in a landing, in the units and with the
// version of [WriteJSON]. A fork that does not carry its rider is an error.
func WriteRideJSON(w io.Writer, r *jobfile.Ride) error {
	drift, err := r.Setup.Drift(r.Load, r.There)
	if err != nil {
		return err
	}
	return write(w, ride{Version, r.Fork.ID, r.Fork.Name, r.Setup.Travel(), r.Rider, r.Load, drift,
		conversion.Cautions(r.Setup), newCurves("present", r.Setup, r.RideExponent)})
}

// RideKeys lists every key of the JSON of a ride, as [Keys] does those of a plan.
func RideKeys() []string { return unitjson.Keys[ride](new(unitjson.Codec)) }
