package conversion

import (
	"fmt"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/geometry/fastener"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/enum"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Job is what the technician knows and wants.
type Job struct {
	Heading           Heading          // no number depends on it
	From              From             // the present fork, or the rider alone
	Rider             units.Mass       // in riding kit, geometry.LightestRider to HeaviestRider
	Chassis           geometry.Chassis // that decides what load reaches the fork
	Fork              geometry.Fork    // how its legs slide
	Present           setup.Spec       // the fork as it is: springs, fill, trapped gas; its travel is Fork.Travel
	ConvertedFriction units.Force      // friction of the converted fork, as setup.Spec.Friction
	Legs              []ConvertedLeg   // that get a coil spring, one or two

	Shelf     []ShelfCoil           // 1 to MaxShelf
	Preload   Setting[units.Length] // at full extension, 0 to MostPreload
	OilVolume Setting[units.Volume] // in the first of Legs, 0 to 2 L, less than it holds; the other gets the same gas
	Oil       oil.Fluid             // of the converted legs

	Criterion    Criterion      // by which the coil is picked
	Weights      Weights        // by which the shelf is ranked; zero: UsualWeights
	RideExponent float64        // polytropic, LeastRideExponent to gas.Adiabatic; data.Gas has the usual one
	TargetSag    units.Length   // at rest with rider; zero: the present sag, or without one the middle of SagWindow
	SagWindow    [2]units.Share // of travel, that the discipline rides with, as 18 % to 27 %

	Workshop gas.Ambient        // in which the converted legs are closed
	Event    gas.Ambient        // where the fork is taken
	Running  *units.Temperature // of oil and gas once ridden, up to HottestRunning; nil: OilWarming above the workshop

	Known    *setup.Tolerance    // how well these numbers are known; nil: setup.Usual
	Usual    Usual               // what the fork is made for
	MaxGauge units.GaugePressure // the present fork's limit, up to 40 bar; zero: not known
	Caliper  *geometry.Caliper   // reading with the spring loose; nil: not taken yet
	Collar   *geometry.Collar    // that sets the preload; nil: its thread is not known
	Clicks   *Clicks             // of the damper as it is; nil: not counted yet
	Torques  []Torque            // to be repeated on the sheet
	Wrench   *fastener.Wrench    // with the adapter they are tightened by; nil: none
}

// Clicks of the adjusters, counted from closed, 0 to 60.
type Clicks struct {
	Rebound     int `json:"rebound"`     // from closed
	Compression int `json:"compression"` // from closed, at low speed
}

// ConvertedLeg is a leg that gets a coil spring, with a room and a bath of its own: a damper
// takes the room of some 250 mL of oil. Two get oil that leaves both the same gas.
type ConvertedLeg struct {
	Side setup.Side    // as the rider sees it
	Room geometry.Room // for the spring

	// Clearance is what a closed spring leaves on the diameter, to the tube and to what is within it,
	// up to 10 mm; 0: SpringClearance.
	Clearance units.Length

	Bath    Bath            // for the oil
	Damper  bool            // a damper stays in the leg; Bath.Interior then is measured with it in
	Drained [2]units.Volume // least and most oil to come out, to 3 L; zero: not known
}

// Bath is what the oil of a converted leg finds.
type Bath struct {
	Interior    units.Volume // inside of the leg at full travel, spring and oil out, 5 mL to 3 L; 0: not known, refused
	Spread      units.Volume // standard uncertainty of Interior, 0 to a third of it; 0: measured, to LeastInteriorSpread
	Column      units.Area   // that a level moves over, up to the fork's; 0: the fork's, with a damper in not known
	Area        units.Area   // by which travel takes gas volume: sealed area less any swallowed rod, 1 cm² to 40 cm²
	Metal       units.Volume // spacer and guide, 0 to 300 mL
	SpringInOil bool         // the spring displaces oil; false in bicycle lowers, where no level is read
	Greased     bool         // bushings and seals run on grease, so that no oil is needed
}

// Usual is what a fork is made for, as its record says. A range of zero width is not known,
// and nothing is held against it.
type Usual struct {
	Riders     [2]units.Mass          // in riding kit, up to 200 kg
	Fills      [2]units.GaugePressure // of the air springs, over the range of riders, up to 40 bar
	MachineSag [2]units.Share         // of travel, without rider
	LegSpacing units.Length           // between the axes of the legs, up to 1 m; 0: not known
	Bushes     Bushes                 // of a leg
	LeastOil   units.Volume           // in the first of the converted legs, up to 2 L
}

// Bushes are where a leg is guided, fully extended and at full travel. Their middles are 30 mm to 500 mm apart, at full
// travel as far or farther; the lower one is 50 mm to 900 mm above the axle and stays so. Without Overhang nothing is
// known.
type Bushes struct {
	Spacing       units.Length // fully extended
	SpacingAtFull units.Length // at full travel
	Overhang      units.Length // of the lower one above the axle, fully extended; 0: not known
}

// at is their spacing and overhang after a share of the travel.
func (b Bushes) at(share float64) (spacing, overhang units.Length) {
	grown := units.Length(share) * (b.SpacingAtFull - b.Spacing)
	return b.Spacing + grown, b.Overhang - grown
}

func (b Bushes) validate() error {
	f := check.Of("Bushes")
	if b.Overhang == 0 {
		check.Between(f, "Spacing", b.Spacing, 0, 1*units.Meter)
		check.Between(f, "SpacingAtFull", b.SpacingAtFull, 0, 1*units.Meter)
		return f.Err()
	}
	const least, most = 50 * units.Millimeter, 500 * units.Millimeter
	overhang := check.Between(f, "Overhang", b.Overhang, least, 900*units.Millimeter)
	if check.Between(f, "Spacing", b.Spacing, 30*units.Millimeter, most) && overhang {
		check.Between(f, "SpacingAtFull", b.SpacingAtFull, b.Spacing, min(most, b.Spacing+b.Overhang-least))
	}
	return f.Err()
}

func (u Usual) validate() error {
	f := check.Of("Usual")
	for i := range 2 {
		check.Between(f, fmt.Sprintf("Riders[%d]", i), u.Riders[i], 0, geometry.HeaviestRider)
		check.Gauge(f, fmt.Sprintf("Fills[%d]", i), u.Fills[i], 0, 40*units.Bar)
		check.Between(f, fmt.Sprintf("MachineSag[%d]", i), u.MachineSag[i], 0, 1)
	}
	check.Between(f, "LegSpacing", u.LegSpacing, 0, 1*units.Meter)
	f.Nest("Bushes", u.Bushes.validate())
	check.Between(f, "LeastOil", u.LeastOil, 0, 2*units.Liter)
	return f.Err()
}

// Setting is what may be chosen, and what should be.
type Setting[Q ~float64] struct {
	Min Q `json:"min"` // the least
	Aim Q `json:"aim"` // what is wanted
	Max Q `json:"max"` // the most
}

// Criterion says what the coil has to match.
type Criterion int

const (
	SagForce     Criterion = iota // the force at the present sag
	Energy                        // the energy to 90 % of travel
	LeastSquares                  // the forces from 10 % to 85 % of travel
)

var criteria = enum.Names[Criterion]{SagForce: "sag-force", Energy: "energy", LeastSquares: "least-squares"}

// Criteria lists them all.
func Criteria() []Criterion { return []Criterion{SagForce, Energy, LeastSquares} }

// String is the name used in files, as "sag-force".
func (c Criterion) String() string { return criteria.String(c) }

// MarshalText writes the name.
func (c Criterion) MarshalText() ([]byte, error) { return criteria.Marshal(c) }

// UnmarshalText reads a name.
func (c *Criterion) UnmarshalText(text []byte) error { return criteria.Unmarshal(text, c) }

// validate reports every fault of the job, each by its field, and returns the present fork
// and the springs of the shelf, built and checked.
func (j Job) validate() (*setup.Setup, []part, error) {
	f := check.Of("Job")
	check.Between(f, "Rider", j.Rider, geometry.LightestRider, geometry.HeaviestRider)
	f.Nest("Chassis", j.Chassis.Validate())
	fork := j.Fork.Validate()
	f.Nest("Fork", fork)
	present, err := setup.New(j.Present)
	f.Nest("Present", err)
	travel := !check.At(fork, "Fork.Travel")
	if travel && !check.At(err, "Spec.Travel") && j.Present.Travel != j.Fork.Travel {
		f.Report("Present.Travel", j.Present.Travel, fmt.Sprintf("the fork's %.6g", j.Fork.Travel), "")
	}
	check.Gauge(f, "MaxGauge", j.MaxGauge, 0, 40*units.Bar)
	f.Nest("Usual", j.Usual.validate())
	f.Nest("Weights", j.Weights.validate())
	check.Between(f, "ConvertedFriction", j.ConvertedFriction, 0, setup.MostFriction)
	preload := checkSetting(f, "Preload", j.Preload, 0, MostPreload)
	oilVolume := checkSetting(f, "OilVolume", j.OilVolume, 0, 2*units.Liter)
	j.checkLegs(f, oilVolume)
	if !froms.Has(j.From) {
		f.Report("From", j.From, froms.Want(), "")
	}
	if !criteria.Has(j.Criterion) {
		f.Report("Criterion", j.Criterion, criteria.Want(), "")
	}
	check.Between(f, "RideExponent", j.RideExponent, LeastRideExponent, gas.Adiabatic)
	j.checkSag(f, j.Fork.Travel, travel)
	j.checkHeading(f)
	f.Nest("Workshop", j.Workshop.Validate())
	f.Nest("Event", j.Event.Validate())
	if j.Running != nil && j.Workshop.Validate() == nil {
		check.Temperature(f, "Running", *j.Running, j.Workshop.Temperature, units.Celsius(HottestRunning))
	}
	if j.Known != nil {
		f.Nest("Known", j.Known.Validate())
	}
	if j.Caliper != nil {
		f.Nest("Caliper", j.Caliper.Validate())
	}
	if j.Collar != nil {
		f.Nest("Collar", j.Collar.Validate())
	}
	if j.Wrench != nil {
		f.Nest("Wrench", j.Wrench.Validate())
	}
	if c := j.Clicks; c != nil && !(min(c.Rebound, c.Compression) >= 0 && max(c.Rebound, c.Compression) <= 60) {
		f.Report("Clicks", fmt.Sprintf("%d and %d", c.Rebound, c.Compression), "0 to 60 from closed", "")
	}
	if j.Oil == (oil.Fluid{}) {
		f.Report("Oil", "no oil", "a fluid made by oil.NewFluid", "")
	}
	parts := j.checkShelf(f, preload)
	return present, parts, f.Err()
}

// checkSag reports a sag that no fork of that travel, if it is one, is set to.
func (j Job) checkSag(f *check.Faults, travel units.Length, sound bool) {
	if j.TargetSag != 0 && sound {
		check.Between(f, "TargetSag", j.TargetSag, travel/20, travel/2)
	}
	if lo, hi := j.SagWindow[0], j.SagWindow[1]; !(lo >= 0 && lo < hi && hi <= 0.6) {
		f.Report("SagWindow", fmt.Sprintf("%v to %v", lo, hi), "two rising shares of travel, 0 % to 60 %", "")
	}
}

// checkLegs reports legs that cannot be filled.
func (j Job) checkLegs(f *check.Faults, oilVolume bool) {
	if n := len(j.Legs); n != 1 && (n != 2 || j.Legs[0].Side == j.Legs[1].Side) {
		f.Report("Legs", n, "one leg, or the left and the right one", "")
		if n > 2 {
			return
		}
	}
	before := f.Count()
	for i, l := range j.Legs {
		field := fmt.Sprintf("Legs[%d].", i)
		if l.Side != setup.Left && l.Side != setup.Right {
			f.Report(field+"Side", int(l.Side), "setup.Left or setup.Right", "")
		}
		f.Nest(field+"Room", l.Room.Validate())
		check.Between(f, field+"Clearance", l.Clearance, 0, 10*units.Millimeter)
		l.check(f, field)
	}
	if len(j.Legs) == 0 || f.Count() > before || !oilVolume {
		return
	}
	first := j.Legs[0]
	holds := first.Bath.Interior - first.Bath.Metal
	if j.OilVolume.Aim >= holds {
		f.Report("OilVolume.Aim", j.OilVolume.Aim, fmt.Sprintf("below %.6g, what the leg holds", holds),
			"oil above the leg")
		return
	}
	if len(j.Legs) < 2 {
		return
	}
	other := j.Legs[1]
	switch less := holds - (other.Bath.Interior - other.Bath.Metal); {
	case other.Damper != first.Damper && (less <= 0) == other.Damper:
		with := 1
		if first.Damper {
			with = 0
		}
		f.Report(fmt.Sprintf("Legs[%d].Bath.Interior", with), j.Legs[with].Bath.Interior,
			fmt.Sprintf("below the %.6g of the leg without a damper", j.Legs[1-with].Bath.Interior),
			"measure it with the damper in: filled as if it were empty the leg locks")
	case less > 0 && less >= j.OilVolume.Max:
		f.Report("Legs[1].Bath.Interior", other.Bath.Interior,
			fmt.Sprintf("above %.6g, so that there is oil in it beside the gas of the other leg", other.Bath.Interior+
				less-j.OilVolume.Max), "")
	}
}

// check reports a leg that no oil fits.
func (l ConvertedLeg) check(f *check.Faults, field string) {
	if least, most := l.Drained[0], l.Drained[1]; !(least >= 0 && most >= least && most <= 3*units.Liter) {
		f.Report(field+"Drained", fmt.Sprintf("%.6g to %.6g", least, most), "two rising volumes, 0 mL to 3000 mL", "")
	}
	b := l.Bath
	field += "Bath."
	check.Between(f, field+"Area", b.Area, 1*units.SquareCentimeter, 40*units.SquareCentimeter)
	check.Between(f, field+"Metal", b.Metal, 0, 300*units.Milliliter)
	if b.Column != 0 {
		check.Between(f, field+"Column", b.Column, 1*units.SquareCentimeter, 60*units.SquareCentimeter)
	}
	if l.Damper && b.Interior == 0 {
		f.Report(field+"Interior", b.Interior, "the inside of the leg measured with its damper in, 5 mL to 3 L",
			"filled as if it were empty the leg locks")
		return
	}
	if check.Between(f, field+"Interior", b.Interior, 5*units.Milliliter, 3*units.Liter) {
		check.Between(f, field+"Spread", b.Spread, 0, b.Interior/3)
	}
}

func checkSetting[Q ~float64](f *check.Faults, field string, r Setting[Q], lo, hi Q) bool {
	ordered := check.Between(f, field+".Min", r.Min, lo, hi)
	ordered = check.Between(f, field+".Max", r.Max, lo, hi) && ordered
	if ordered && r.Min > r.Max {
		f.Report(field+".Min", r.Min, fmt.Sprintf("at most Max, %.6g", r.Max), "")
		return false
	}
	return ordered && check.Between(f, field+".Aim", r.Aim, r.Min, r.Max)
}
