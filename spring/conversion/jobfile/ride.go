package jobfile

import (
	"io"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Ride is a fork with its rider on, at home and where it is taken: what a job knows before
// anything is changed.
type Ride struct {
	Fork         data.Fork        // as the dataset has it
	Rider        units.Mass       // in riding kit
	Load         units.Force      // on the axis of the fork, with the rider
	Setup        *setup.Setup     // the fork as it was filled, in the air of the workshop
	Workshop     conversion.Place // where the fork is closed
	Event        conversion.Place // where it is taken
	There        gas.Ambient      // the air of the event
	RideExponent float64          // polytropic, of the ridden fork
}

// DecodeRide reads the tables fork, rider, air, workshop and event of a job and the key
// ride-exponent, all as in [Decode]; of the rider only the mass.
func DecodeRide(name string, r io.Reader, set *data.Set) (*Ride, error) {
	doc, err := strict.Parse(name, r)
	if err != nil {
		return nil, err
	}
	d := decoder{set: set, root: doc.Root(), file: &File{}}
	d.forkTable(d.root.Table("fork"))
	ride := &Ride{Rider: mass(d.root.Table("rider")), RideExponent: d.rideExponent(d.root)}
	ride.Workshop, d.file.Job.Workshop = place(d.root.Table("workshop"))
	ride.Event, ride.There = place(d.root.Table("event"))
	d.presentFork()
	if err := doc.Err(); err != nil {
		return nil, err
	}
	ride.Fork, ride.Load = d.file.Fork, d.file.Fork.Load(ride.Rider)
	closed, err := setup.New(d.file.Job.Present)
	if err != nil {
		return nil, err
	}
	ride.Setup, err = closed.At(d.file.Job.Workshop)
	return ride, err
}
