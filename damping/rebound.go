package damping

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// CommonClick is the part by which one click changes rebound damping where nothing better is known: by common
// practice a spring rate changed by 4 % to 5 % asks for one to two clicks.
const CommonClick = 0.03

// ReboundSpec is a change of springs.
type ReboundSpec struct {
	OldRate, NewRate   units.Stiffness // of the whole fork about sag, 0.1 N/mm to 200 N/mm
	OldForce, NewForce units.Force     // of the whole fork at one depth it returns from, 10 N to 100 kN
	// Friction that went helped the damper: 0 to 2 kN before and after. It counts about sag where
	// the old rebound damping and the speed of everyday rebound are given, 0.1 to 5 m/s.
	OldFriction, NewFriction units.Force
	OldDamping               units.DampingRate // of the whole fork, 10 N·s/m to 20 000 N·s/m; 0: not known
	Speed                    units.Speed

	PerClick float64 // relative change of rebound damping by one click, 0.002 to 0.3; see CommonClick
}

// Rebound is the range in which the rebound damping asked for by another spring lies, as a factor on the old one.
//
// Two rules bound it. The same damping ratio about sag asks for √(k₂/k₁), at the
// same mass. The same speed of return from a depth asks for F₂/F₁ there. They
// agree only by chance; the first matters on small bumps, the second after big ones.
//
// Friction takes as much out of an oscillation of peak speed v as a damper of 4·F_c/(π·v): the first rule asks the
// damper for what less friction no longer takes. On the way back it is off the force of the spring:
// (F₂ − F_c2)/(F₁ − F_c1).
//
// Source of the equivalent damper: textbooks of vibration, Coulomb damping by its energy in a cycle.
type Rebound struct {
	Ratio    float64 // factor that keeps the damping ratio
	Return   float64 // factor that keeps the return speed from the depth
	perClick float64
}

// NewRebound checks the specification.
func NewRebound(s ReboundSpec) (Rebound, error) {
	f := check.Of("ReboundSpec")
	check.Between(f, "OldRate", s.OldRate, 0.1*units.NewtonPerMillimeter, 200*units.NewtonPerMillimeter)
	check.Between(f, "NewRate", s.NewRate, 0.1*units.NewtonPerMillimeter, 200*units.NewtonPerMillimeter)
	check.Between(f, "OldForce", s.OldForce, 10*units.Newton, 100e3*units.Newton)
	check.Between(f, "NewForce", s.NewForce, 10*units.Newton, 100e3*units.Newton)
	check.Between(f, "PerClick", s.PerClick, 0.002, 0.3)
	check.Between(f, "OldFriction", s.OldFriction, 0, 2*units.Kilonewton)
	check.Between(f, "NewFriction", s.NewFriction, 0, 2*units.Kilonewton)
	ratio := math.Sqrt(float64(s.NewRate / s.OldRate))
	if s.OldDamping != 0 {
		check.Between(f, "OldDamping", s.OldDamping, 10, 20_000)
		check.Between(f, "Speed", s.Speed, 0.1, 5)
		ratio += 4 / math.Pi * float64(s.OldFriction-s.NewFriction) / (float64(s.Speed) * float64(s.OldDamping))
	}
	before, after := s.OldForce-s.OldFriction, s.NewForce-s.NewFriction
	if f.Err() == nil && !(before > 0 && after > 0 && ratio > 0) {
		f.Report("OldFriction", s.OldFriction, "below the force that the fork returns with", "")
	}
	if err := f.Err(); err != nil {
		return Rebound{}, err
	}
	return Rebound{Ratio: ratio, Return: float64(after / before), perClick: s.PerClick}, nil
}

// Factors are the two bounds in order.
func (r Rebound) Factors() (lo, hi float64) { return min(r.Ratio, r.Return), max(r.Ratio, r.Return) }

// Clicks are the bounds in clicks, positive for more rebound damping: see the function of that name.
func (r Rebound) Clicks() (lo, hi float64) {
	lo, hi = r.Factors()
	return Clicks(lo, r.perClick), Clicks(hi, r.perClick)
}

// Clicks is how many clicks firmer make a factor on the damping, ln(factor)/ln(1 + change per click).
func Clicks(factor, perClick float64) float64 { return math.Log(factor) / math.Log1p(perClick) }

// String is the bounds in clicks, as "+1.2 to +1.9 clicks, + is firmer".
func (r Rebound) String() string {
	lo, hi := r.Clicks()
	return fmt.Sprintf("%+.1f to %+.1f clicks, + is firmer", lo, hi)
}

// Advice says the same to a technician, in whole clicks.
func (r Rebound) Advice() string {
	lo, hi := r.Clicks()
	from, to := int(math.Round(lo)), int(math.Round(hi))
	switch {
	case from == 0 && to == 0:
		return "leave rebound as it is, and test"
	case from < 0 && to > 0:
		return fmt.Sprintf("leave rebound as it is to begin with; the range to test is %s softer to %d firmer",
			clicks(-from), to)
	case to <= 0:
		return "rebound " + span(-to, -from) + " softer, and test"
	}
	return "rebound " + span(from, to) + " firmer, and test; stay 2 clicks off closed"
}

func span(from, to int) string {
	switch from {
	case to:
		return clicks(to)
	case 0:
		return "up to " + clicks(to)
	}
	return fmt.Sprintf("%d to %s", from, clicks(to))
}

func clicks(n int) string {
	if n == 1 {
		return "1 click"
	}
	return fmt.Sprintf("%d clicks", n)
}
