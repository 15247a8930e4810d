package conversion

import (
	"fmt"

	"example.org/forkcurve/internal/enum"
)

// Severity of a finding.
type Severity int

const (
	Note    Severity = iota // worth knowing
	Caution                 // think before going on
	Stop                    // do not build it so
)

var severities = enum.Names[Severity]{Note: "note", Caution: "caution", Stop: "stop"}

// String is "note", "caution" or "stop".
func (s Severity) String() string { return severities.String(s) }

// MarshalText writes the name.
func (s Severity) MarshalText() ([]byte, error) { return severities.Marshal(s) }

// UnmarshalText reads a name.
func (s *Severity) UnmarshalText(text []byte) error { return severities.Unmarshal(text, s) }

// Finding is something a careful technician would stop at.
type Finding struct {
	Code     Code     `json:"code"`     // stable
	Severity Severity `json:"severity"` // whether to go on
	Value    Amount   `json:"value"`    // what was found, in a unit of its own
	Limit    Amount   `json:"limit"`    // what Value is held against
	Reason   string   `json:"reason"`   // and what to do, in words
}

// Amount is the number of a finding: a quantity of package units, or a Number.
type Amount interface{ fmt.Formatter }

// Number is an amount without a unit, as a ratio or clicks.
type Number float64

// Format prints it as a float64.
func (n Number) Format(s fmt.State, verb rune) { fmt.Fprintf(s, fmt.FormatString(s, verb), float64(n)) }

// Code is a stable name of a kind of finding.
type Code string

const (
	CoilBind        Code = "coil-bind"         // the coils touch before full travel, or nearly
	BindMargin      Code = "bind-margin"       // less room left at full travel than the spring standard asks
	Overstress      Code = "overstress"        // wire stress at full travel above the static limit
	StressUnknown   Code = "stress-unknown"    // the wire is not known
	TooLong         Code = "spring-too-long"   // the spring does not go into the leg
	Clearance       Code = "clearance"         // to the tube around or to the guide within
	Mislabeled      Code = "label-and-wire"    // the labeled rate does not follow from the wire
	HydraulicLock   Code = "hydraulic-lock"    // no gas left before full travel
	NoOil           Code = "no-oil"            // a leg that runs in oil gets none
	GapRatio        Code = "gap-ratio"         // gas compressed more than seals and damper like
	GapRatioWarm    Code = "gap-ratio-warm"    // the same once the oil is warm
	GapPressure     Code = "gap-pressure"      // peak pressure over the oil
	GapPressureWarm Code = "gap-pressure-warm" // the same once it is warm
	GapUnsure       Code = "gap-unsure"        // what is not known of the fill may lock the leg or pass a limit
	LooseSpring     Code = "loose-spring"      // no preload at top-out
	TopOutForce     Code = "top-out-force"     // preload holds the fork up under the machine alone
	SagWindow       Code = "sag-window"        // sag outside what the discipline rides with
	SagMissed       Code = "sag-missed"        // the preload range does not reach the target sag
	BottomingAim    Code = "bottoming-missed"  // the oil range does not reach the present energy to full travel
	RateFar         Code = "rate-far"          // a rate for another rider or for another number of springs
	RateStep        Code = "rate-step"         // the shelf does not hold the rate asked for
	RideHeight      Code = "ride-height"       // the front stands higher or lower than before
	DamperRange     Code = "damper-range"      // the rebound asked for is beyond the adjuster
	NoSupport       Code = "no-support"        // the fork does not carry the rider
	OneLeg          Code = "one-leg"           // one spring carries the whole fork
	PressureLimit   Code = "pressure-limit"    // present fill above the fork's limit
	PresentSag      Code = "present-sag"       // present sag outside what the discipline rides with
	SealCold        Code = "seals-too-cold"    // colder than seals stay soft
	SealHot         Code = "seals-too-hot"     // hotter than seals and oil are made for
	Moisture        Code = "moisture"          // water pumped in with the air freezes
	PresentDrift    Code = "present-drift"     // what the event does to the present fork
	RiderRange      Code = "rider-range"       // a rider for whom the fork is not made
	FillImplausible Code = "implausible-fill"  // nobody rides such a fill
	MachineSag      Code = "machine-sag"       // sag of the machine alone outside what the discipline rides with
	SideMoment      Code = "side-moment"       // of the leg that alone has a spring
	Buckling        Code = "buckling"          // the spring bows out and leans on its tube
	Fatigue         Code = "fatigue"           // of the wire over everyday strokes
	DryLeg          Code = "dry-leg"           // less oil than the leg is made to run in
	BrakeDive       Code = "brake-dive"        // hard braking takes nearly all travel
	CriteriaDiffer  Code = "criteria-differ"   // by more than a step of the shelf
	StaysDown       Code = "stays-down"        // the fork does not come all the way out
	PortShut        Code = "port-not-passed"   // short of the travel at which both chambers meet
	BushBind        Code = "bush-bind"         // hard braking presses the bushes until they hold the fork
	LeakDrift       Code = "leak-drift"        // what a sound seal loses until somebody looks
	VacatedLeg      Code = "vacated-leg"       // an air spring without work would pump
	FrictionChange  Code = "friction-change"   // against the present fork
	PumpedAir       Code = "pumped-air"        // by the seals over a run lifts the front
	AddedMass       Code = "added-mass"        // of springs and oil
	ReducerRange    Code = "reducer-range"     // reducers end at the end of their range, short of the force to match
	PressureThere   Code = "pressure-there"    // above the fork's limit where it is carried
	PreloadRange    Code = "preload-range"     // of a build that stands, outside what the fork is made for
	OilRange        Code = "oil-range"         // the same of its oil
	ConvertedDrift  Code = "converted-drift"   // what the event does to the converted one
)
