package conversion

import (
	"fmt"
	"math"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/enum"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// From says what a plan starts from.
type From int

const (
	// PresentFork is whose work the coil takes over.
	PresentFork From = iota

	// RiderAlone is a fork of which no spring is worth matching, or none was read. The coil then follows
	// from the sag alone, Job.TargetSag or the middle of Job.SagWindow: the fork asked for, Report.Present,
	// has a coil that sags to it at the aimed preload over the aimed oil. Job.Present tells what stays in the fork,
	// and its cautions; nothing is compared with its springs.
	RiderAlone
)

var froms = enum.Names[From]{PresentFork: "fork", RiderAlone: "rider"}

// String is "fork" or "rider".
func (f From) String() string { return froms.String(f) }

// MarshalText writes the name.
func (f From) MarshalText() ([]byte, error) { return froms.Marshal(f) }

// UnmarshalText reads a name.
func (f *From) UnmarshalText(text []byte) error { return froms.Unmarshal(text, f) }

// wantedSag is the sag at rest where no present fork tells it.
func (j Job) wantedSag(travel units.Length) units.Length {
	if j.TargetSag != 0 {
		return j.TargetSag
	}
	return travel * units.Length(j.SagWindow[0]+j.SagWindow[1]) / 2
}

// asked is the fork that rider and machine ask for:
//
//	k = (W − F_r(x_s)) / (x_s + p)
//
// with what is beside the coils at rest over the aimed oil.
func (p *planner) asked() (*setup.Setup, error) {
	bare, err := p.withoutCoils()
	if err != nil {
		return nil, err
	}
	k := p.rateAt(bare.Curve(gas.Isothermal), p.goal)
	if !(k > 0) {
		return nil, &units.RangeError{Field: "Job.OilVolume.Aim", Value: p.OilVolume.Aim,
			Want: "oil that leaves a coil something to hold up", Hint: fmt.Sprintf("at %.0f of sag the gas over the oil, "+
				"dampers and top-out springs alone carry the rider", p.goal)}
	}
	return setup.New(p.fork(p.meanMetal(), p.OilVolume.Aim,
		spring.CoilSpec{Rate: k / units.Stiffness(len(p.Legs)), Preload: p.Preload.Aim}))
}

// sagBand is the rate that the sag window leaves open.
func (p *planner) sagBand(bare *setup.Setup, asked units.Stiffness) Band {
	b := Band{Asked: asked, Least: asked, Most: asked}
	for _, t := range []units.Temperature{p.Workshop.Temperature, p.warm} {
		rest, err := bare.At(gas.Ambient{Temperature: t, Pressure: p.Workshop.Pressure})
		if err != nil {
			continue
		}
		for _, sag := range []units.Length{p.depth(p.SagWindow[0]), p.goal, p.depth(p.SagWindow[1])} {
			if sag > 0 {
				b.add(BandRow{SagForce, sag, gas.Isothermal, t, p.rateAt(rest.Curve(gas.Isothermal), sag)})
			}
		}
	}
	return b
}

// RiderOf is who rides the present fork as it is filled, where nobody was weighed: the rider who brings it to
// Job.TargetSag or to the middle of Job.SagWindow, with the standard uncertainty of a sag that may lie
// anywhere in the window, its width over √12 (JCGM 100:2008, 4.3.7). With F the force at rest,
// Job.Chassis gives the mass: F rises by g·s·cos ε for each kilogram, s the share of the front wheel ridden.
//
// Job.Rider is not looked at. An error names what of the job is out of range, and a rider nobody is: the fill
// then is not one that is ridden.
func RiderOf(job Job) (rider, uncertain units.Mass, err error) {
	f := check.Of("Job")
	f.Nest("Chassis", job.Chassis.Validate())
	present, err := setup.New(job.Present)
	f.Nest("Present", err)
	job.checkSag(f, job.Present.Travel, err == nil)
	if err := f.Err(); err != nil {
		return 0, 0, err
	}
	rest, travel := present.Curve(gas.Isothermal), job.Present.Travel
	at := func(x units.Length) units.Mass {
		const g = float64(units.StandardGravity)
		bare := job.Chassis.RiddenLoad(0).Axial
		each := g * float64(job.Chassis.FrontShareRidden) * math.Cos(float64(job.Chassis.Rake))
		return units.Mass(float64(rest.Force(min(x, rest.Stroke()))-bare) / each)
	}
	rider = at(job.wantedSag(travel))
	lo, hi := at(travel*units.Length(job.SagWindow[0])), at(travel*units.Length(job.SagWindow[1]))
	if !check.Between(f, "Rider", rider, geometry.LightestRider, geometry.HeaviestRider) {
		return 0, 0, fmt.Errorf("who rides this fill: %w", f.Err())
	}
	return rider, (hi - lo) / units.Mass(math.Sqrt(12)), nil
}

// model is what the coil takes after, in words.
func (p *planner) model() string {
	if p.From == RiderAlone {
		return "the fork asked for"
	}
	return "the present fork"
}
