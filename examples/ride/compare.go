package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"

	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

var errNoCoil = errors.New("no coil of the shelf is safe in this fork")

// comparison is what the sheet is made of.
type comparison struct {
	Report               *conversion.Report
	Coil                 conversion.Candidate
	Compression, Rebound float64
	Air, Steel           *ride.Vehicle
	Outings              []*outing
	Landings             []landing
	Study                *study
}

// outing is both forks over one course.
type outing struct {
	ride.Course
	File       string
	Air, Steel ride.Summary
	Said       string
	air, steel *ride.Run
}

type landing struct {
	Fork string
	ride.Landing
}

type study struct {
	Course     string
	Air, Steel ride.Study
}

// compare puts both forks under the same body with the same damper.
func compare(r *conversion.Report, compression, rebound float64) (*comparison, error) {
	coil, ok := r.Chosen()
	if !ok {
		return nil, errNoCoil
	}
	c := &comparison{Report: r, Coil: coil, Compression: compression, Rebound: rebound}
	machine := func(fork *setup.Setup) (*ride.Vehicle, error) {
		s := ride.Of(fork, r.Job.Chassis, r.Job.Rider, nil)
		s.Rear = ride.TypicalRear(r.Job.Chassis, r.Job.Rider)
		return ride.New(s)
	}
	air, err := machine(r.Present.Setup)
	if err != nil {
		return nil, err
	}
	steel, err := machine(coil.Behavior.Setup)
	if err != nil {
		return nil, err
	}
	damper, err := air.ByRatio(compression, rebound)
	if err != nil {
		return nil, err
	}
	c.Air, c.Steel = air.WithDamper(damper), steel.WithDamper(damper)
	return c, nil
}

// over takes both over the courses and off a ledge.
func (c *comparison) over(ctx context.Context, courses []ride.Course) error {
	for _, course := range courses {
		o := &outing{Course: course, File: fileName(course.Name)}
		var err error
		if o.air, err = c.Air.Run(ctx, course, ride.Settings{}); err != nil {
			return fmt.Errorf("%s, air: %w", course.Name, err)
		}
		if o.steel, err = c.Steel.Run(ctx, course, ride.Settings{}); err != nil {
			return fmt.Errorf("%s, coil: %w", course.Name, err)
		}
		o.Air, o.Steel = o.air.Summary(), o.steel.Summary()
		o.Said = o.say()
		c.Outings = append(c.Outings, o)
	}
	for _, f := range []struct {
		name string
		v    *ride.Vehicle
	}{{"present, air", c.Air}, {"coil " + c.Coil.Coil, c.Steel}} {
		l, err := f.v.Land(ctx, 500*units.Millimeter)
		if err != nil {
			return err
		}
		c.Landings = append(c.Landings, landing{f.name, l})
	}
	return nil
}

// What a rider might feel: less than that is no difference worth a word (from memory).
const (
	feltShare  = 0.05
	feltTravel = 3 * units.Millimeter
	feltShake  = 0.2 * units.MeterPerSecondSquared
	feltLoad   = 20 * units.Newton
)

// say puts the largest differences into a sentence.
func (o *outing) say() string {
	var said []string
	tell := func(different bool, format string, args ...any) {
		if different {
			said = append(said, fmt.Sprintf(format, args...))
		}
	}
	share := func(a, b float64) float64 { return b/a - 1 }
	deep := o.Steel.Travel.Most - o.Air.Travel.Most
	tell(abs(deep) >= feltTravel, "goes %.0f %s at the deepest", abs(deep), either(deep > 0, "deeper", "less deep"))
	low := o.Steel.Travel.Mean - o.Air.Travel.Mean
	tell(abs(low) >= feltTravel, "rides %.0f %s on the whole", abs(low), either(low > 0, "lower", "higher"))
	soft := share(float64(o.Air.Acceleration.StdDev), float64(o.Steel.Acceleration.StdDev))
	tell(math.Abs(soft) >= feltShare && abs(o.Steel.Acceleration.StdDev-o.Air.Acceleration.StdDev) >= feltShake,
		"shakes the body %.0f %% %s", 100*math.Abs(soft), either(soft < 0, "less", "more"))
	grip := share(float64(o.Air.Tire.StdDev), float64(o.Steel.Tire.StdDev))
	tell(math.Abs(grip) >= feltShare && abs(o.Steel.Tire.StdDev-o.Air.Tire.StdDev) >= feltLoad,
		"presses the tire on the ground %.0f %% %s evenly", 100*math.Abs(grip),
		either(grip < 0, "more", "less"))
	tell(o.Steel.Bottomed != o.Air.Bottomed, "bottoms %d times, the air fork %d times", o.Steel.Bottomed, o.Air.Bottomed)
	if said == nil {
		return "No difference worth feeling."
	}
	return "The coil " + list(said) + "."
}

func abs[Q ~float64](q Q) Q { return max(q, -q) }

func either(is bool, yes, no string) string {
	if is {
		return yes
	}
	return no
}

func list(parts []string) string {
	text := parts[0]
	for i, p := range parts[1:] {
		text += either(i == len(parts)-2, " and ", ", ") + p
	}
	return text
}

// study takes forks within what a workshop reaches over one course.
func (c *comparison) study(ctx context.Context, course ride.Course, n int, tell func(string, int, int)) error {
	draw := func(name string, like *ride.Vehicle, fork *setup.Setup) (ride.Study, error) {
		spec := like.Spec()
		return ride.NewStudy(ctx, n, func(i int) (*ride.Vehicle, error) {
			f, err := setup.New(fork.Spec().Draw(setup.Usual(), rand.New(rand.NewPCG(1, uint64(i)))))
			if err != nil {
				return nil, err
			}
			s := spec
			s.Fork = f
			return ride.New(s)
		}, course, ride.Settings{}, func(done int) { tell(name, done, n) })
	}
	s := &study{Course: course.Name}
	var err error
	if s.Air, err = draw("air", c.Air, c.Report.Present.Setup); err != nil {
		return err
	}
	if s.Steel, err = draw("coil", c.Steel, c.Coil.Behavior.Setup); err != nil {
		return err
	}
	c.Study = s
	return nil
}

// progress tells a terminal how far a study is; a file or a pipe is spared it.
func progress(w io.Writer) func(string, int, int) {
	f, ok := w.(*os.File)
	if ok {
		info, err := f.Stat()
		ok = err == nil && info.Mode()&os.ModeCharDevice != 0
	}
	return func(name string, done, n int) {
		if ok {
			fmt.Fprintf(w, "\rstudy, %s: %d of %d forks%s", name, done, n, either(done == n, "\n", ""))
		}
	}
}

// Rows are what both did, and by how much they differ.
func (o *outing) Rows() [][]string {
	rows := [][]string{{"", "air", "coil", "coil less air"}}
	add := func(name string, air, coil, difference any, format string) {
		rows = append(rows, []string{name, fmt.Sprintf(format, air), fmt.Sprintf(format, coil),
			fmt.Sprintf("%+"+format[1:], difference)})
	}
	a, s := o.Air, o.Steel
	add("Travel, deepest", a.Travel.Most, s.Travel.Most, s.Travel.Most-a.Travel.Most, "%.0f")
	add("Travel, mean", a.Travel.Mean, s.Travel.Mean, s.Travel.Mean-a.Travel.Mean, "%.0f")
	add("Fastest in", a.Velocity.Most, s.Velocity.Most, s.Velocity.Most-a.Velocity.Most, "%.2f")
	add("Fastest out", -a.Velocity.Least, -s.Velocity.Least, a.Velocity.Least-s.Velocity.Least, "%.2f")
	add("Largest force on the axis", a.Force.Most, s.Force.Most, s.Force.Most-a.Force.Most, "%.0f")
	add("Body shaken, standard deviation", a.Acceleration.StdDev, s.Acceleration.StdDev,
		s.Acceleration.StdDev-a.Acceleration.StdDev, "%.2f")
	add("Tire load, standard deviation", a.Tire.StdDev, s.Tire.StdDev, s.Tire.StdDev-a.Tire.StdDev, "%.0f")
	add("Wheel off the ground", a.OffGround, s.OffGround, s.OffGround-a.OffGround, "%.2f")
	add("Bottomed, times", a.Bottomed, s.Bottomed, s.Bottomed-a.Bottomed, "%d")
	add("Left to the stop by the hardest", a.HardestHit, s.HardestHit, s.HardestHit-a.HardestHit, "%.1f")
	add("Heat of damper and friction", o.air.Energy.Damper+o.air.Energy.Friction,
		o.steel.Energy.Damper+o.steel.Energy.Friction,
		o.steel.Energy.Damper+o.steel.Energy.Friction-o.air.Energy.Damper-o.air.Energy.Friction, "%.0f")
	add("Heat that the gas loses", o.air.Energy.Gas, o.steel.Energy.Gas, o.steel.Energy.Gas-o.air.Energy.Gas, "%.0f")
	add("Gas warmer by up to", a.GasWarmed, s.GasWarmed, s.GasWarmed-a.GasWarmed, "%.0f")
	return rows
}
