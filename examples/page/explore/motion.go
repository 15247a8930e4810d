package explore

import (
	"context"
	"fmt"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/units"
)

// Motion is both forks over one course, to be played.
type Motion struct {
	Name  string
	Step  float64 // seconds from sample to sample
	Ahead float64 // and how far the wheel rolls in that time
	Road  []float64
	Forks []MotionFork
	Note  string
}

// MotionFork is one fork in motion: its travel, and how high its body is over where it stood, in the length
// unit of the view.
type MotionFork struct {
	Name         string
	Travel, Body []float64
	Most, Rake   float64 // its whole travel, and how far its axis leans back, in radians
	Inverted     bool    // the thick tubes are above
	Lines        []string
}

// Courses are those that can be ridden, scaled with the travel of the first fork; all are invented.
var Courses = []Named{{"bump", "a bump"}, {"drop", "a drop"}, {"whoops", "whoops"}}

const motionRate = 100 * units.Hertz

// Ride takes both forks over a course with the same body and damper, so that the springs alone differ.
func (s State) Ride(course string) (Motion, error) {
	first, _, err := s.Fork(0)
	if err != nil {
		return Motion{}, err
	}
	c, speed, err := courseFor(course, first.Spec.Travel)
	if err != nil {
		return Motion{}, err
	}
	m := Motion{Name: c.Name, Step: 1 / motionRate.In(units.Hertz)}
	m.Ahead = millimeters[s.system()].of(units.Length(float64(speed) * m.Step))
	var damper damping.Damper
	for i := range s.Forks {
		f, there, err := s.Fork(i)
		if err != nil {
			return m, err
		}
		if !there {
			continue
		}
		v, err := ride.New(ride.Of(f.Now, f.Record.Chassis.Geometry(), s.Rider, nil))
		if err != nil {
			return m, err
		}
		if damper == nil {
			use, err := data.Reference().Discipline(f.Record.Use)
			if err != nil {
				return m, err
			}
			if damper, err = v.ByRatio(use.CompressionDamping.Value, use.ReboundDamping.Value); err != nil {
				return m, err
			}
		}
		run, err := v.WithDamper(damper).Run(context.Background(), c, ride.Settings{Rate: motionRate, Tolerance: 1e-6})
		if err != nil {
			return m, fmt.Errorf("%s: %w", f.Name, err)
		}
		length := millimeters[s.system()]
		mf := MotionFork{Name: f.Name, Most: length.of(f.Spec.Travel),
			Rake: float64(f.Record.Chassis.Rake.Value), Inverted: f.Record.Layout == geometry.Inverted}
		m.Road = m.Road[:0]
		for _, at := range run.Samples {
			m.Road = append(m.Road, length.of(at.Road))
			mf.Travel, mf.Body = append(mf.Travel, length.of(at.Travel)), append(mf.Body, length.of(at.Body))
		}
		sum := run.Summary()
		mf.Lines = []string{"deepest " + show(millimeters, s, sum.Travel.Most, 0),
			"largest force " + show(newtons, s, sum.Force.Most, 0), fmt.Sprintf("bottomed %d times", sum.Bottomed),
			fmt.Sprintf("wheel off the ground %.2f s", sum.OffGround.In(units.Second)),
			fmt.Sprintf("gas warmer by up to %.0f K", float64(sum.GasWarmed))}
		m.Forks = append(m.Forks, mf)
	}
	m.Note = "Both with the same body, tire and damper: damping ratio 0.25 in and 0.60 out about the sag of fork 1, " +
		"which is from memory. " +
		"The course is invented."
	return m, nil
}

func courseFor(name string, travel units.Length) (ride.Course, units.Speed, error) {
	speed := units.Speed(30 * travel) // in a second
	switch name {
	case "bump":
		road, err := ride.Whoops(travel/2, 6*travel, 1, speed, 0.4)
		return ride.Course{Name: "a bump", Duration: 2, Road: road}, speed, err
	case "drop":
		return ride.Course{Name: "a drop", Duration: 2, Height: 2 * travel}, speed, nil
	case "whoops":
		road, err := ride.Whoops(travel*3/4, 15*travel, 5, speed, 0.4)
		return ride.Course{Name: "whoops", Duration: 4, Road: road}, speed, err
	}
	return ride.Course{}, 0, &units.RangeError{Field: "course", Value: shortened(name), Want: wanted(Courses)}
}
