package damping

import (
	"fmt"

	"gonum.org/v1/gonum/interp"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// TablePoint is one reading of a damper dynamometer.
type TablePoint struct {
	Speed units.Speed // positive in compression
	Force units.Force // resists, so that it has the sign of Speed
}

// TableSpec is a measured damper: 2 to 1000 points by rising speed, −20 m/s to 20 m/s, their forces never falling
// and up to 100 kN. Gas force and friction are taken off. The origin is added where it is missing.
type TableSpec struct {
	Points []TablePoint // by rising speed
}

// Table is a measured damper between its points by monotone cubics (Fritsch and Butland 1984). Beyond the first and
// last point it goes on in a straight line with the slope there, which is a guess: see Range.
type Table struct {
	curve       *interp.FritschButland // only read
	first, last end
}

// end is a point where a straight line takes over.
type end struct{ speed, force, slope float64 }

// NewTable checks the points and fits the curve.
func NewTable(s TableSpec) (Table, error) {
	f := check.Of("TableSpec")
	if n := len(s.Points); n < 2 || n > 1000 {
		f.Report("Points", n, "2 to 1000 points", "")
		return Table{}, f.Err()
	}
	var speeds, forces []float64
	add := func(v, force float64) { speeds, forces = append(speeds, v), append(forces, force) }
	var speedBefore, forceBefore bool // whether those of the last point are in range
	for i, p := range s.Points {
		field := fmt.Sprintf("Points[%d].", i)
		speed := check.Between(f, field+"Speed", p.Speed, -MaxSpeed, MaxSpeed)
		force := check.Between(f, field+"Force", p.Force, -100e3*units.Newton, 100e3*units.Newton)
		if speed && force && (float64(p.Force)*float64(p.Speed) < 0 || p.Speed == 0 && p.Force != 0) {
			f.Report(field+"Force", p.Force, "the sign of the speed",
				"a damper resists; take gas force and friction off")
			force = false
		}
		if i > 0 {
			last := s.Points[i-1]
			if gap := p.Speed - last.Speed; speed && speedBefore && !(gap >= RestSpeed) {
				f.Report(field+"Speed", p.Speed, fmt.Sprintf("above the last one, %.6g", last.Speed), "")
			}
			if force && forceBefore && p.Force < last.Force {
				f.Report(field+"Force", p.Force, fmt.Sprintf("at least the last one, %.6g", last.Force), "")
			}
			if last.Speed < 0 && p.Speed > 0 {
				add(0, 0)
			}
		} else if p.Speed > 0 {
			add(0, 0)
		}
		add(float64(p.Speed), float64(p.Force))
		speedBefore, forceBefore = speed, force
	}
	if err := f.Err(); err != nil {
		return Table{}, err
	}
	if speeds[len(speeds)-1] < 0 {
		add(0, 0)
	}
	curve := new(interp.FritschButland)
	if err := curve.Fit(speeds, forces); err != nil {
		return Table{}, err
	}
	at := func(i int) end { return end{speeds[i], forces[i], curve.PredictDerivative(speeds[i])} }
	return Table{curve: curve, first: at(0), last: at(len(speeds) - 1)}, nil
}

// Tabulate is a damper as a table, for use where it is evaluated very often. The speeds rise; between them the
// table is off by what a cubic makes of the damper's kinks.
func Tabulate(d Damper, speeds []units.Speed) (Table, error) {
	f := check.Of("Tabulate")
	if !checkDamper(f, d) {
		return Table{}, f.Err()
	}
	points := make([]TablePoint, len(speeds))
	for i, v := range speeds {
		points[i] = TablePoint{Speed: v, Force: d.Force(v)}
	}
	return NewTable(TableSpec{Points: points})
}

// Force between the points, and the straight line beyond them.
func (t Table) Force(v units.Speed) units.Force {
	switch x := float64(v); {
	case t.curve == nil:
		return 0
	case x < t.first.speed:
		return units.Force(t.first.at(x))
	case x > t.last.speed:
		return units.Force(t.last.at(x))
	default:
		return units.Force(t.curve.Predict(x))
	}
}

func (e end) at(x float64) float64 { return e.force + e.slope*(x-e.speed) }

// Coefficient is F/v.
func (t Table) Coefficient(v units.Speed) units.DampingRate { return coefficient(t, v) }

// Range is the first and the last speed that were measured, or rest where nothing was measured on that side.
func (t Table) Range() (first, last units.Speed) {
	return units.Speed(t.first.speed), units.Speed(t.last.speed)
}
