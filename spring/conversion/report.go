package conversion

import (
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/enum"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Report is the plan for a job. The tags name the keys of its JSON, to which their unit is
// added.
type Report struct {
	Job        Job           `json:"job"`        // as it was given
	Build      *Build        `json:"build"`      // what Check was asked about; nil: the plan chose
	Rider      geometry.Load `json:"rider"`      // load with rider
	Machine    geometry.Load `json:"machine"`    // load of the machine alone
	Present    Behavior      `json:"present"`    // the fork as it is
	Event      setup.Drift   `json:"event"`      // of the present fork
	Targets    []Target      `json:"targets"`    // one for each criterion
	Band       Band          `json:"band"`       // about the rate asked for
	TargetSag  units.Length  `json:"target_sag"` // at rest with rider
	Candidates []Candidate   `json:"candidates"` // the best first
	WouldFit   *WouldFit     `json:"would_fit"`  // where no candidate is safe; nil: not needed
	Findings   []Finding     `json:"findings"`   // about the job and the present fork
	Cautions   []string      `json:"cautions"`   // of the work, to be handed out with the plan
}

// Chosen is the best candidate; false when none is safe.
func (r *Report) Chosen() (Candidate, bool) {
	if len(r.Candidates) == 0 || !r.Candidates[0].Safe() {
		return Candidate{}, false
	}
	return r.Candidates[0], true
}

// Target is the coil rate that one criterion asks for, at the aimed preload and
// oil.
type Target struct {
	Criterion Criterion       `json:"criterion"` // that it meets
	Rate      units.Stiffness `json:"rate"`      // of the whole fork
	Each      units.Stiffness `json:"each"`      // of each spring
}

// Behavior is what a fork does.
type Behavior struct {
	Sag        setup.Sag       `json:"sag"`         // with rider, at rest
	MachineSag setup.Sag       `json:"machine_sag"` // alone
	TopOut     units.Force     `json:"top_out"`     // at full extension
	Rate       units.Stiffness `json:"rate"`        // about the sag, as ridden
	Frequency  units.Frequency `json:"frequency"`   // of the body on the fork
	Dive       units.Length    `json:"dive"`        // travel under HardBraking, at rest
	SideMoment units.Torque    `json:"side_moment"` // of the left leg less the right one, at full travel; 0: not known
	Stroke     units.Length    `json:"stroke"`      // below the travel: coil bind or hydraulic lock
	Energy90   units.Energy    `json:"energy_90"`   // from full extension to 90 % of travel, in a landing
	EnergyFull units.Energy    `json:"energy_full"` // to full travel
	ForceFull  units.Force     `json:"force_full"`  // there

	// Uncertainty is the standard uncertainty with what is known, Job.Known;
	// nil where a fork within it does not carry the rider.
	Uncertainty *setup.Uncertainty `json:"standard_uncertainty"`

	Parts []setup.Contribution `json:"uncertainty_parts"` // what each input adds to it

	Running *Running `json:"running"` // the same fork warm, not touched; nil where it bottoms under the rider

	Setup *setup.Setup `json:"setup"` // the fork itself
}

// Running is what a fork does once oil and gas are as warm as the job says.
type Running struct {
	Temperature units.Temperature `json:"temperature"` // of oil and gas
	Sag         setup.Sag         `json:"sag"`         // with rider, at rest
	Stroke      units.Length      `json:"stroke"`      // below the travel: coil bind or hydraulic lock
	Energy90    units.Energy      `json:"energy_90"`   // from full extension to 90 % of travel, in a landing
	EnergyFull  units.Energy      `json:"energy_full"` // to the end of the stroke
	ForceFull   units.Force       `json:"force_full"`  // there
}

// Candidate is one coil of the shelf, set as well as the ranges allow.
type Candidate struct {
	Coil          string          `json:"coil"`           // its name on the shelf
	Verdict       Verdict         `json:"verdict"`        // what the findings come to
	Each          units.Stiffness `json:"each"`           // rate of each spring, or of the coil that does the same
	Rate          units.Stiffness `json:"rate"`           // of the whole fork
	RateDeviation float64         `json:"rate_deviation"` // Rate over the chosen target, less 1
	Legs          []setup.Side    `json:"legs"`           // that get one
	Builds        []LegBuild      `json:"builds"`         // what each of them gets; the first's is told below as well

	Preload        units.Length  `json:"preload"`         // at full extension
	Collar         *CollarTurns  `json:"collar"`          // to it from the spring just touching; nil: thread not known
	CaliperReading *units.Length `json:"caliper_reading"` // at that preload, where the loose one is known
	Spacer         units.Length  `json:"spacer"`          // negative: the spring is too long for the leg
	OilVolume      units.Volume  `json:"oil_volume"`      // in the first leg
	OilLevel       *units.Length `json:"oil_level"`       // fork compressed, spring out; none in bicycle lowers

	Behavior Behavior `json:"behavior"` // of the fork with it

	Mass              units.Mass   `json:"spring_mass"`         // of each spring
	MassChange        MassChange   `json:"mass_change"`         // of the fork
	BindMargin        units.Length `json:"bind_margin"`         // above solid length at full travel
	BindMarginAdvised units.Length `json:"bind_margin_advised"` // that EN 13906-1 asks for, or 5 mm and 2 % of travel
	// at full travel; 0 with its limit where the wire is not known
	Stress       units.Stress        `json:"stress"`
	StressLimit  units.Stress        `json:"stress_limit"`   // that the standard allows, 0.56 of the tensile strength
	GapRatio     float64             `json:"gap_ratio"`      // 0 where the leg locks on its oil
	GapRatioWarm float64             `json:"gap_ratio_warm"` // the same once warm
	GapPeak      units.GaugePressure `json:"gap_peak"`       // at full travel, in a landing

	SagChange   units.Length `json:"sag_change"`   // against the present fork; positive: the front sits lower
	RakeChange  units.Angle  `json:"rake_change"`  // with it
	TrailChange units.Length `json:"trail_change"` // with it
	// axle to axle, with it
	WheelbaseChange units.Length `json:"wheelbase_change"`

	Rebound  Rebound  `json:"rebound"`   // against the present fork
	Start    *Clicks  `json:"start"`     // from closed, where the present ones are known
	OilSteps OilSteps `json:"oil_steps"` // of the fill

	Event    setup.Drift `json:"event"`    // what the event does to the sag
	Chances  Chances     `json:"chances"`  // of what may go wrong
	Scores   Scores      `json:"scores"`   // by which the shelf is ranked
	Findings []Finding   `json:"findings"` // in the order of the bench
}

// CollarTurns are whole turns of a collar and flats of its hexagon beyond them, and what is missing.
type CollarTurns struct {
	Turns   int          `json:"turns"`   // whole
	Flats   int          `json:"flats"`   // beyond them
	Missing units.Length `json:"missing"` // to the preload
}

// MassChange is what springs and oil add, before what comes out, which nobody weighed.
type MassChange struct {
	Springs  units.Mass `json:"springs"`  // all of them
	Oil      units.Mass `json:"oil"`      // more than what comes out on average; 0: that is not known
	Sprung   units.Mass `json:"sprung"`   // half of the springs
	Unsprung units.Mass `json:"unsprung"` // the other half, and the oil, which lies at the foot of the leg
}

// Chances are probabilities by what is known, normal about what is planned.
type Chances struct {
	SagInWindow  units.Share `json:"sag_in_window"` // that the sag with rider lies in Job.SagWindow
	Bind         units.Share `json:"bind"`          // that the coils touch before full travel
	Lock         units.Share `json:"lock"`          // that a leg locks on its oil once warm
	OverPressure units.Share `json:"over_pressure"` // that the gas passes StopGapPressure once warm
}

// Verdict is what the findings on a candidate come to.
type Verdict int

const (
	Refused Verdict = iota // a Stop among them
	Care                   // a Caution among them
	Good                   // neither
)

var verdicts = enum.Names[Verdict]{Refused: "no", Care: "care", Good: "good"}

// String is "no", "care" or "good".
func (v Verdict) String() string { return verdicts.String(v) }

// MarshalText writes the name.
func (v Verdict) MarshalText() ([]byte, error) { return verdicts.Marshal(v) }

// UnmarshalText reads a name.
func (v *Verdict) UnmarshalText(text []byte) error { return verdicts.Unmarshal(text, v) }

// verdict on what was found.
func verdict(found []Finding) Verdict {
	worst := Note
	for _, f := range found {
		worst = max(worst, f.Severity)
	}
	return [...]Verdict{Note: Good, Caution: Care, Stop: Refused}[worst]
}

// Safe reports whether nothing found says stop.
func (c Candidate) Safe() bool { return c.Verdict != Refused }

// Rebound is what the coil asks of the rebound damping, as factors on the present
// setting and as clicks, positive for more. The two rules bound what to try.
type Rebound struct {
	Ratio      float64 `json:"ratio"`       // keeps the damping ratio about the sag
	Return     float64 `json:"return"`      // keeps the return speed from ReboundDepth
	FewClicks  float64 `json:"few_clicks"`  // the fewer that a rule asks for
	MostClicks float64 `json:"most_clicks"` // the more
	Advice     string  `json:"advice"`      // in words
}

// OilSteps is what the usual steps of the fill change at full travel, in a landing, in
// all converted legs together; 0 where a leg locks.
type OilSteps struct {
	Volume units.Force `json:"change_per_5_mL"` // 5 mL more in each
	Level  units.Force `json:"change_per_5_mm"` // level 5 mm higher in each
}
