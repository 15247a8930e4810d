package helical

import (
	"fmt"
	"math"
	"strconv"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

const mm = units.Millimeter

// Limits of a valid spring. Index and coils are common practice, a little wider
// than EN 13906-1 (4 to 20, two coils); the lengths only catch slips of the unit.
const (
	minIndex, maxIndex = 3.0, 20.0
	minCoils, maxCoils = 1.0, 500.0

	minWire, maxWire         = 0.05 * mm, 50 * mm
	minDiameter, maxDiameter = 0.1 * mm, 1000 * mm
	minFree, maxFree         = 0.5 * mm, 3000 * mm
	minRate, maxRate         = 1 * units.NewtonPerMeter, 10000 * units.NewtonPerMillimeter

	// maxPitchAngle is where the rate formula, which sees a flat coil, is some
	// 5 % high. Fork springs have 6° to 10°.
	maxPitchAngle = 20 * units.Degree
)

const rateHint = "check the unit of the rate: 1 kgf/mm is 9.80665 N/mm and 1 lbf/in is 0.175 N/mm"

// Spec describes a round-wire compression spring as a workshop measures it or
// its label states it.
type Spec struct {
	Wire units.Length // diameter d of the wire, 0.05 mm to 50 mm

	// Exactly one of the two. MeanDiameter is D, outer less one wire.
	MeanDiameter  units.Length
	OuterDiameter units.Length

	// Exactly one of the three. Labels give active coils, a count on the bench
	// gives total coils, and a stated or measured rate gives the active coils by
	// way of Na = G·d⁴/(8·D³·k).
	ActiveCoils float64
	TotalCoils  float64
	Rate        units.Stiffness

	Ends       Ends         // how the wire closes
	FreeLength units.Length // L0, more than the solid length
	Material   Material     // of the wire
}

// New checks the specification and makes the spring. The error joins a
// *units.RangeError for each fault: index D/d outside 3 to 20, fewer than one
// active coil, a free length not above the solid length, coils standing more
// than 20° steep, a wire whose strength the material does not state, or lengths
// that can only be a slip of the unit.
func New(spec Spec) (Spring, error) {
	f := check.Of("Spec")
	s := Spring{wire: spec.Wire, ends: spec.Ends, free: spec.FreeLength, material: spec.Material}

	wireOK := lengthIn(f, "Wire", spec.Wire, minWire, maxWire)
	meanOK := s.setDiameter(f, spec, wireOK)
	materialOK := s.setMaterial(f, wireOK)
	endsOK := endsIn(f, spec.Ends)
	coilsOK := s.setCoils(f, spec, endsOK, wireOK && meanOK && materialOK)
	freeOK := lengthIn(f, "FreeLength", spec.FreeLength, minFree, maxFree)
	if wireOK && endsOK && coilsOK && freeOK {
		s.setLengths(f, spec, meanOK)
	}
	if err := f.Err(); err != nil {
		return Spring{}, err
	}
	s.rate = rateOf(s.shear, s.wire, s.mean, s.active)
	return s, nil
}

// rateOf is G·d⁴/(8·D³·n).
func rateOf(g units.Stress, d, mean units.Length, n float64) units.Stiffness {
	return units.Stiffness(float64(g) * pow4(float64(d)) / (8 * pow3(float64(mean)) * n))
}

func (s *Spring) setDiameter(f *check.Faults, spec Spec, wireOK bool) bool {
	field, given := "MeanDiameter", spec.MeanDiameter
	if spec.OuterDiameter != 0 {
		field, given = "OuterDiameter", spec.OuterDiameter
	}
	if (spec.MeanDiameter != 0) == (spec.OuterDiameter != 0) {
		f.Report(field, given, "exactly one of MeanDiameter and OuterDiameter", "")
		return false
	}
	if !lengthIn(f, field, given, minDiameter, maxDiameter) || !wireOK {
		return false
	}
	s.mean = given
	if field == "OuterDiameter" {
		s.mean = given - spec.Wire
	}
	if c := float64(s.mean / s.wire); !(c >= minIndex && c <= maxIndex) {
		hint := ""
		if field == "MeanDiameter" && c < minIndex {
			hint = "the mean diameter is the outer less one wire"
		}
		f.Report(field, given, fmt.Sprintf("an index D/d of %g to %g: here it is %.3g", minIndex, maxIndex, c), hint)
		return false
	}
	return true
}

func (s *Spring) setMaterial(f *check.Faults, wireOK bool) bool {
	if !materialIn(f, s.material) || !wireOK {
		return false
	}
	s.shear = s.material.ShearModulus(s.wire)
	s.elastic = s.material.ElasticModulus(s.wire)
	s.tensile = s.material.TensileStrength(s.wire)
	if math.IsNaN(float64(s.tensile)) {
		f.Report("Wire", s.wire, s.material.spec.Strength.wires()+", where the strength of "+s.material.ID()+" is known", "")
		return false
	}
	return true
}

// setCoils reports on whichever of the three was given. The rate needs the rest of the spring.
func (s *Spring) setCoils(f *check.Faults, spec Spec, endsOK, restOK bool) bool {
	given := 0
	for _, set := range []bool{spec.ActiveCoils != 0, spec.TotalCoils != 0, spec.Rate != 0} {
		if set {
			given++
		}
	}
	if given != 1 {
		f.Report("ActiveCoils", spec.ActiveCoils, "exactly one of ActiveCoils, TotalCoils and Rate", "")
		return false
	}
	dead := spec.Ends.DeadCoils()
	switch {
	case spec.ActiveCoils != 0:
		s.active = spec.ActiveCoils
		if !check.Between(f, "ActiveCoils", s.active, minCoils, maxCoils) {
			return false
		}
	case spec.TotalCoils != 0:
		if !endsOK {
			return false
		}
		s.active = spec.TotalCoils - dead
		if !check.Between(f, "TotalCoils", spec.TotalCoils, minCoils+dead, maxCoils+dead) {
			return false
		}
	default:
		if !inRange(f, "Rate", spec.Rate, minRate, maxRate, rateHint) || !restOK {
			return false
		}
		s.active = float64(rateOf(s.shear, s.wire, s.mean, 1) / spec.Rate)
		if !(s.active >= minCoils && s.active <= maxCoils) {
			f.Report("Rate", spec.Rate, fmt.Sprintf("a rate that this wire and diameter reach with %g to %g "+
				"active coils: here it takes %.3g", minCoils, maxCoils, s.active), rateHint)
			return false
		}
	}
	s.total = s.active + dead
	return true
}

func (s *Spring) setLengths(f *check.Faults, spec Spec, meanOK bool) {
	rule := endRules[s.ends]
	s.solid = s.ends.SolidLength(s.wire, s.active)
	hint := ""
	if spec.Rate != 0 {
		hint = rateHint
	}
	if s.free <= s.solid {
		f.Report("FreeLength", s.free, fmt.Sprintf("more than the solid length, %.4g mm", s.solid.In(mm)), hint)
		return
	}
	s.pitch = (s.free - units.Length(rule.wires)*s.wire) / units.Length(s.active+rule.pitchCoils)
	if meanOK && s.PitchAngle() > maxPitchAngle {
		if hint == "" {
			hint = "check free length and number of coils"
		}
		f.Report("FreeLength", s.free, fmt.Sprintf("coils no steeper than %.0f°: these stand %s°",
			maxPitchAngle.In(units.Degree), above(s.PitchAngle().In(units.Degree), maxPitchAngle.In(units.Degree))), hint)
	}
}

// above is a number to as many digits as tell it from a limit that it lies above.
func above(v, limit float64) string {
	for digits := 4; ; digits++ {
		text := strconv.FormatFloat(v, 'g', digits, 64)
		if read, _ := strconv.ParseFloat(text, 64); read > limit || digits > 17 {
			return text
		}
	}
}

func endsIn(f *check.Faults, e Ends) bool {
	if !e.valid() {
		f.Report("Ends", e, "one of the four ends", "")
	}
	return e.valid()
}

func materialIn(f *check.Faults, m Material) bool {
	if m.spec == nil {
		f.Report("Material", "none", "a material, of NewMaterial or a data set", "")
	}
	return m.spec != nil
}

// lengthIn is check.Between with a hint where only a lost unit explains the value.
func lengthIn(f *check.Faults, field string, v, lo, hi units.Length) bool {
	hint := ""
	if v > 10*hi {
		hint = "a number without a unit is in meters: write 5.0*units.Millimeter"
	}
	return inRange(f, field, v, lo, hi, hint)
}

// inRange is check.Between with a hint.
func inRange[Q ~float64](f *check.Faults, field string, v, lo, hi Q, hint string) bool {
	if v >= lo && v <= hi {
		return true
	}
	f.Report(field, v, fmt.Sprintf("%v to %v", lo, hi), hint)
	return false
}

func pow3(x float64) float64 { return x * x * x }
func pow4(x float64) float64 { return x * x * x * x }
