package sheet

import (
	"fmt"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
)

// Kind heads the sheet.
func (f facts) Kind() string {
	switch {
	case f.Build != nil:
		return "A BUILD AS IT STANDS"
	case f.Job.From == conversion.RiderAlone:
		return "COIL SPRINGS FOR A RIDER"
	}
	return "SPRING CONVERSION"
}

// Built heads what is built in.
func (f facts) Built() string {
	switch {
	case f.Build == nil:
		return "BUILD"
	case !f.Best.Safe():
		return "AS BUILT, NOT SAFE"
	}
	return "AS BUILT"
}

// Settings are those of a build that stands.
func (f facts) Settings() string {
	if f.Build == nil {
		return ""
	}
	c, oil := f.Best, ""
	for i, b := range f.Best.Builds {
		if i > 0 && b.OilVolume == c.Builds[0].OilVolume {
			continue
		}
		if i > 0 {
			oil += fmt.Sprintf("; in the %v leg ", b.Side)
		}
		oil += f.sprintf("%.0f of oil", b.OilVolume)
		if b.OilLevel != nil {
			oil += f.sprintf(", %.0f of air over it", *b.OilLevel)
		}
	}
	return f.sprintf("preload %.1f, all of the spacer %.1f, %s", c.Preload, max(0, c.Spacer), oil)
}

// NotSafe heads the reasons.
func (f facts) NotSafe() string {
	if f.Build != nil {
		return "NOT SAFE AS BUILT"
	}
	return "NO SAFE PLAN"
}

// Refusal says that there is nothing to build.
func (f facts) Refusal() string {
	if f.Build != nil {
		return "Take this build apart again: it does not carry its rider."
	}
	return "None of the coils on the shelf can be built safely into this fork."
}

// Model heads the fork that the coil takes after.
func (f facts) Model() string {
	if f.Job.From == conversion.RiderAlone {
		return "FORK ASKED FOR"
	}
	return "PRESENT FORK"
}

// AgainstWhat names it.
func (f facts) AgainstWhat() string {
	if f.Job.From == conversion.RiderAlone {
		return "Against the fork asked"
	}
	return "Against the present fork"
}

// ReboundStep is what the damper wants.
func (f facts) ReboundStep() string {
	if f.Job.From == conversion.RiderAlone {
		return "as the maker sets it for this rider and spring; nothing is known of a setting to start from."
	}
	return f.Rebound() + f.ReboundFactors() + "." + f.Compression()
}

// Read is the fill that the plan goes by; nil where there is none.
func (f facts) Read() *gas.Fill {
	if f.Job.From == conversion.RiderAlone {
		return nil
	}
	return f.Fill()
}

// taken is what comes out of a leg, of springs that nobody looked at not by number.
func (f facts) taken(l setup.Leg) string {
	switch {
	case f.Job.From == conversion.PresentFork:
		return f.held(setup.Leg{Springs: l.Springs, Air: l.Air})
	case l.Air != nil:
		return "its air spring"
	case len(l.Springs) > 0:
		return "its springs"
	}
	return ""
}

// kept is what a leg keeps its parts and settings of.
func (f facts) kept(l setup.Leg) string {
	if f.Job.From == conversion.RiderAlone {
		return f.taken(l)
	}
	return f.held(l)
}

// shown reports that a measured spring is no part of a leg but what a sweep adds to the model of it.
func shown(l setup.Leg) bool {
	_, measured := setup.Find[spring.MeasuredSpec](l)
	return measured && (l.Air != nil || len(l.Springs) > 1)
}
