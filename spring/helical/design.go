package helical

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// DesignSpec says what one spring must do and the room there is for it. For a
// fork with a spring in each leg, Rate is half the rate of the fork.
type DesignSpec struct {
	Rate    units.Stiffness // of one spring, 1 N/mm to 100 N/mm
	Stroke  units.Length    // 5 mm to 400 mm from the installed length, the travel of the fork
	Preload units.Length    // 0 to 100 mm of compression when installed

	Bore       units.Length // inner diameter of the tube around it, 8 mm to 100 mm
	Rod        units.Length // outer diameter of what runs inside, 0 for nothing
	FreeLength units.Length // the most there is room for, 20 mm to 1000 mm

	// Clearance is the least diametral gap to the bore with the coils closed,
	// and to the rod; 0 means 1 mm (common practice, no source).
	Clearance units.Length

	Ends     Ends     // of the wire
	Material Material // of the wire

	// SolidSafe also holds the stress limit with the coils touching, where
	// nothing else stops the stroke.
	SolidSafe bool
}

const (
	wireStep     = 0.1 * mm
	diameterStep = 0.1 * mm
	lengthStep   = 1 * mm

	minDesignRate, maxDesignRate = 1 * units.NewtonPerMillimeter, 100 * units.NewtonPerMillimeter

	minDesignIndex = 4 // EN 15800, scope; tighter coils need special tooling
	minDesignCoils = 2 // EN 15800, scope
)

// Design finds the shortest spring that does the work in the room. In steps of
// 0.1 mm of wire and diameter it tries, for each wire, the widest coil that
//
//   - clears the bore by Clearance with the coils closed (OuterDiameterAtSolid),
//   - keeps the nominal stress at full stroke within StaticLimit,
//   - has an index of 4 to 20 and two active coils or more.
//
// The widest coil is the shortest spring of a wire, since the coils it takes
// fall as D^(−3). Its free length is what Preload, Stroke, DynamicMinimumGap and
// solid length ask for, rounded up to a millimeter. It must clear the rod and be
// no longer than FreeLength; the shortest that does is returned.
//
// If there is none, the error is a *units.RangeError that names the load or the
// room that stands in the way, and how much there would have to be. Another
// material, another rate, or a spring in each leg are the remedies; a spring is
// never cut or reground to fit.
//
// A faulty specification gives a joined *units.RangeError for each fault.
func Design(spec DesignSpec) (Spring, error) {
	if err := spec.check(); err != nil {
		return Spring{}, err
	}
	var innermost, least units.Length // widest inner and shortest free length that the load allows
	var best Spring
	for _, s := range spec.springs() {
		innermost = max(innermost, s.InnerDiameter())
		if !spec.clearsRod(s) {
			continue
		}
		if least == 0 || s.free < least {
			best, least = s, s.free
		}
	}
	if least == 0 || least > spec.FreeLength {
		return Spring{}, spec.obstacle(innermost, least)
	}
	return best, nil
}

// DesignByWire lists what Design chooses from: the shortest spring of each wire that
// bears the load and clears bore and rod, however long it is. A faulty specification
// gives the error of Design.
func DesignByWire(spec DesignSpec) ([]Spring, error) {
	if err := spec.check(); err != nil {
		return nil, err
	}
	return slices.DeleteFunc(spec.springs(), func(s Spring) bool { return !spec.clearsRod(s) }), nil
}

// Stiffest is the highest rate, to 0.1 N/mm, for which Design still finds a spring that
// does the rest of the specification. The error is that of Design at 1 N/mm.
func Stiffest(spec DesignSpec) (units.Stiffness, error) {
	const tenth = units.NewtonPerMillimeter / 10
	at := func(tenths int) error {
		spec.Rate = units.Stiffness(tenths) * tenth
		_, err := Design(spec)
		return err
	}
	lo, hi := int(minDesignRate/tenth), int(maxDesignRate/tenth)
	if err := at(lo); err != nil {
		return 0, err
	}
	more := sort.Search(hi-lo, func(i int) bool { return at(lo+1+i) != nil })
	return units.Stiffness(lo+more) * tenth, nil
}

// Check holds a spring to the specification: what Design promises of its own. The error
// joins a *units.RangeError for each rule that it breaks, named after the method of
// Spring that tells the value.
func (spec DesignSpec) Check(s Spring) error {
	if err := spec.check(); err != nil {
		return err
	}
	f := check.Of("Spring")
	const dust = 1e-9 * mm // of a computed length
	want := func(ok bool, what string, got any, format string, limit any) {
		if !ok {
			f.Report(what, got, fmt.Sprintf(format, limit), "")
		}
	}
	stroke, closed := spec.Preload+spec.Stroke, s.OuterDiameterAtSolid()
	want(s.free <= spec.FreeLength+dust, "FreeLength", s.free, "at most %.4g, the room", spec.FreeLength)
	want(closed <= spec.widest()+dust, "OuterDiameterAtSolid", closed, "at most %.4g, which clears the bore",
		spec.widest())
	inside := spec.Rod + spec.clearance()
	want(s.InnerDiameter() >= inside-dust, "InnerDiameter", s.InnerDiameter(), "at least %.4g, which clears the rod",
		inside)
	left := s.BindMargin(stroke)
	want(left >= s.DynamicMinimumGap()-dust, "BindMargin", left, "at least %.4g, 1.5·Sa", s.DynamicMinimumGap())
	force := units.Force(float64(s.rate) * float64(stroke)) // also where the coils touch before
	if spec.SolidSafe {
		force = s.SolidForce()
	}
	tau := s.ShearStress(force)
	want(tau <= s.StaticLimit()*(1+slack), "ShearStress", tau, "at most %.4g, 0.56 of the strength", s.StaticLimit())
	return f.Err()
}

// slack keeps a whole number of steps whole after a division.
const slack = 1e-6

// clearance is the least diametral gap, to bore and rod.
func (spec *DesignSpec) clearance() units.Length {
	if spec.Clearance == 0 {
		return 1 * mm
	}
	return spec.Clearance
}

// widest is the largest outer diameter of the closed spring.
func (spec *DesignSpec) widest() units.Length { return spec.Bore - spec.clearance() }

// clearsRod says whether what runs inside has its clearance.
func (spec *DesignSpec) clearsRod(s Spring) bool {
	return s.InnerDiameter() >= spec.Rod+spec.clearance()
}

// check reports every fault of the specification.
func (spec *DesignSpec) check() error {
	f := check.Of("DesignSpec")
	inRange(f, "Rate", spec.Rate, minDesignRate, maxDesignRate, rateHint)
	lengthIn(f, "Stroke", spec.Stroke, 5*mm, 400*mm)
	lengthIn(f, "Preload", spec.Preload, 0, 100*mm)
	boreOK := lengthIn(f, "Bore", spec.Bore, 8*mm, 100*mm)
	lengthIn(f, "FreeLength", spec.FreeLength, 20*mm, 1000*mm)
	clearOK := lengthIn(f, "Clearance", spec.Clearance, 0, 5*mm)
	if boreOK && clearOK && !(spec.Rod >= 0 && spec.Rod < spec.Bore) {
		f.Report("Rod", spec.Rod, fmt.Sprintf("0 or more, and less than the bore, %.4g mm", spec.Bore.In(mm)), "")
	}
	endsIn(f, spec.Ends)
	materialIn(f, spec.Material)
	return f.Err()
}

// springs are the shortest ones of each wire that bear the load and clear the bore.
func (spec *DesignSpec) springs() []Spring {
	var list []Spring
	thinnest, thickest := spec.Material.WireRange()
	for i := math.Ceil(float64(thinnest/wireStep) - slack); ; i++ {
		wire := units.Length(i) * wireStep
		if wire > thickest || (minDesignIndex+1)*wire > spec.widest() {
			return list
		}
		if s, ok := spec.widestOf(wire); ok {
			list = append(list, s)
		}
	}
}

// widestOf is the widest spring of that wire that bears the load and clears the bore.
func (spec *DesignSpec) widestOf(wire units.Length) (Spring, bool) {
	outer := min(spec.widest(), (maxIndex+1)*wire)
	for i := math.Floor(float64(outer/diameterStep) + slack); ; i-- {
		mean := units.Length(i)*diameterStep - wire
		if mean < minDesignIndex*wire {
			return Spring{}, false
		}
		if s, ok := spec.candidate(wire, mean); ok {
			return s, true
		}
	}
}

// candidate is the spring of that wire and mean diameter, if it bears the load and clears the bore.
func (spec *DesignSpec) candidate(wire, mean units.Length) (Spring, bool) {
	active := float64(rateOf(spec.Material.ShearModulus(wire), wire, mean, 1) / spec.Rate)
	if !(active >= minDesignCoils && active <= maxCoils) {
		return Spring{}, false
	}
	stroke := spec.Stroke + spec.Preload
	s := Spring{wire: wire, mean: mean, tensile: spec.Material.TensileStrength(wire)}
	if s.ShearStress(units.Force(float64(spec.Rate)*float64(stroke))) > s.StaticLimit() {
		return Spring{}, false
	}
	solid := spec.Ends.SolidLength(wire, active)
	need := solid + 1.5*minimumGap(active, mean, wire) + stroke
	s, err := New(Spec{
		Wire: wire, MeanDiameter: mean, Rate: spec.Rate, Ends: spec.Ends, Material: spec.Material,
		FreeLength: units.Length(math.Ceil(float64(need/lengthStep))) * lengthStep,
	})
	if err != nil || s.OuterDiameterAtSolid() > spec.widest() {
		return Spring{}, false
	}
	return s, !spec.SolidSafe || s.ShearStress(s.SolidForce()) <= s.StaticLimit()
}

// obstacle says why nothing fits, given the widest inner diameter and the
// shortest free length that bear the load, or 0.
func (spec *DesignSpec) obstacle(innermost, least units.Length) error {
	f := check.Of("DesignSpec")
	id, gap := spec.Material.ID(), spec.clearance()
	thinnest, _ := spec.Material.WireRange()
	switch tightest := (minDesignIndex + 1) * thinnest; {
	case spec.widest() < tightest:
		f.Report("Bore", spec.Bore,
			fmt.Sprintf("at least %.4g mm: the thinnest %s is %.3g mm and coils no tighter than index %d",
				(tightest+gap).In(mm), id, thinnest.In(mm), minDesignIndex), "")
	case innermost == 0:
		f.Report("Rate", spec.Rate, fmt.Sprintf("a rate and stroke that wire of %s within a bore of %.4g mm bears: "+
			"no wire at index %d to %g stays within its stress limit at %.0f N",
			id, spec.Bore.In(mm), minDesignIndex, maxIndex, float64(spec.Rate)*float64(spec.Stroke+spec.Preload)), oneLegHint)
	case least == 0:
		f.Report("Rod", spec.Rod, fmt.Sprintf("at most %.4g mm, which clears the inside of the spring by %.2g mm",
			max(0, innermost-gap).In(mm), gap.In(mm)), oneLegHint)
	default:
		f.Report("FreeLength", spec.FreeLength, fmt.Sprintf("at least %.4g mm: shorter, the spring is over its stress "+
			"limit or binds", least.In(mm)), oneLegHint)
	}
	return f.Err()
}

const oneLegHint = "two springs, one in each leg, need half the rate each; a stronger wire or a wider bore also helps"
