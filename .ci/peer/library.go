// Command peer measures the library on the work of the peers beside it: "peer FILE" writes what the
// study in NumPy needs to the file, "peer" prints a line for each piece of work, as peer.h says.
package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"log"
	"math"
	"os"
	"runtime"
	"syscall"
	"time"

	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/ode"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const (
	mm    = units.Millimeter
	nmm   = units.NewtonPerMillimeter
	outer = 7.5e-4 // m², piston
	inner = 7.0e-4 // m², piston less rod
	over  = 9.0e-4 // m², over the oil
	pa    = 101325
)

func main() {
	log.SetFlags(0)
	if len(os.Args) > 1 {
		text := must(json.Marshal(newStudy()))
		must(0, os.WriteFile(os.Args[1], text, 0o644))
		return
	}
	runtime.GOMAXPROCS(1)
	curves()
	match()
	minute()
	orbit()
	one()
	s := newStudy()
	study := func() float64 { return s.run(runtime.GOMAXPROCS(0)) }
	report("study", s.points(), processor, study)
	report("study, clock", s.points(), wall, study)
	report("samples", count, processor, samples)
	report("samples, clock", count, wall, samples)
	runtime.GOMAXPROCS(2)
	report("study on two cores, clock", s.points(), wall, study)
	report("samples on two cores, clock", count, wall, samples)
}

func must[T any](v T, err error) T {
	if err != nil {
		log.Fatal(err)
	}
	return v
}

// report prints a line as that of peer.h: do does so many units of the work and gives an answer. What
// several goroutines do is timed by the clock on the wall, all else by the processor's.
func report(work string, units int, now func() time.Duration, do func() float64) {
	var answer float64
	spend := func(n int) float64 {
		start := now()
		for range n {
			answer = do()
		}
		return (now() - start).Seconds()
	}
	n, t := 1, 0.0
	for ; ; n *= 2 {
		if t = spend(n); t > 0.01 {
			break
		}
	}
	n = int(float64(n)*0.02/t) + 1
	least := math.Inf(1)
	for range 5 {
		least = min(least, spend(n)/float64(n))
	}
	fmt.Printf("%s\tforkcurve\t%.9g\t%.12g\n", work, least/float64(units), answer)
}

func processor() time.Duration {
	var r syscall.Rusage
	must(0, syscall.Getrusage(syscall.RUSAGE_SELF, &r))
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}

var started = time.Now()

func wall() time.Duration { return time.Since(started) }

// fork is that of peer.h.
func fork() setup.Spec {
	bore := func(area float64) units.Length { return units.Length(math.Sqrt(4 * area / math.Pi)) }
	room := gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(pa)}
	return setup.Spec{Travel: 300 * mm, Closed: room, Friction: 40,
		Left: setup.Leg{Springs: []spring.Spec{spring.CoilSpec{Rate: 2500, Preload: 12 * mm}},
			Gap: &setup.Gap{Area: over, Residual: over * (0.45 - 0.3)}},
		Right: setup.Leg{Air: &setup.Air{Bore: bore(outer), Rod: bore(outer - inner), Volume: outer * 0.38,
			Fill:           gas.Fill{Gauge: units.Gauge(9e5 - pa), Ambient: room},
			NegativeVolume: inner * 0.08, NegativeGauge: units.Gauge(7e5 - pa)}}}
}

func curves() {
	const points = 1000
	xs := make([]units.Length, points)
	for i := range xs {
		xs[i] = 300 * mm * units.Length(i) / points
	}
	c := must(setup.New(fork())).Curve(1.3)
	out := make([]units.Force, points)
	report("force", points, processor, func() float64 {
		for i, x := range xs {
			out[i] = c.Force(x)
		}
		return float64(out[500])
	})
	report("forces", points, processor, func() float64 {
		out = spring.AppendForces(out[:0], c, xs)
		return float64(out[500])
	})
	var list []spring.Point
	report("points", points, processor, func() float64 {
		list = spring.AppendPoints(list[:0], c, xs)
		return float64(list[500].Force) + float64(list[500].Energy)
	})
}

// match frees rate, preload and gas volume against 61 readings of an air spring.
func match() {
	for work, depth := range map[string][3]float64{"fit": {0.24, 0.04, 8e5}, "fit on a bound": {0.215, 0.06, 9e5}} {
		var s spring.MeasuredSpec
		for i := range 61 {
			x := 0.17 * float64(i) / 60
			up := depth[2]*math.Pow(depth[0]/(depth[0]-x), 1.3) - pa
			down := depth[2]*math.Pow(depth[1]/(depth[1]+x), 1.3) - pa
			s.Loading = append(s.Loading, spring.Reading{Travel: units.Length(x), Force: units.Force(outer*up - inner*down)})
		}
		m := fit.Model{Exponent: 1.3, Fork: setup.Spec{Travel: 170 * mm, Closed: fork().Closed, Left: setup.Leg{
			Springs: []spring.Spec{spring.CoilSpec{Rate: 5 * nmm, Preload: 10 * mm}},
			Gap:     &setup.Gap{Area: 9.6e-4, Residual: 250e-6 - 9.6e-4*0.17}}}}
		free := []fit.Free{fit.Rate().Between(2*nmm, 12*nmm), fit.Preload().Between(0, 30*mm),
			fit.GapVolume().Between(175e-6, 400e-6)}
		report(work, 1, processor, func() (cost float64) {
			for _, r := range must(fit.Fit(s, m, free...)).Residuals {
				cost += float64(r.Force) * float64(r.Force) / 2
			}
			return cost
		})
	}
}

// pieces is the damper of motion.c.
type pieces struct{}

func (pieces) Force(s units.Speed) units.Force {
	switch v := float64(s); {
	case v >= 0.6:
		return units.Force(0.6*(700+500*0.6) + 500*(v-0.6))
	case v >= 0:
		return units.Force(v * (700 + 500*v))
	case v > -0.5:
		return units.Force(v * (1300 - 900*v))
	default:
		return units.Force(-0.5*(1300+900*0.5) + 900*(v+0.5))
	}
}

func (pieces) Coefficient(s units.Speed) units.DampingRate {
	switch v := float64(s); {
	case v >= 0.6:
		return 500
	case v >= 0:
		return units.DampingRate(700 + 1000*v)
	case v > -0.5:
		return units.DampingRate(1300 - 1800*v)
	default:
		return 900
	}
}

// minute rides the road of motion.c, given as samples. Its gas heats and its friction sticks, which
// those of the peers do not, so the end is another.
func minute() {
	a := [...]float64{0.060, 0.045, 0.040, 0.025, 0.012, 0.007, 0.004, 0.002}
	hz := [...]float64{0.5, 1.1, 2.3, 3.7, 5.9, 8.3, 11.1, 14.9}
	phase := [...]float64{0.1, 1.3, 2.7, 4.1, 5.3, 0.7, 3.3, 2.2}
	list := make([]ride.Height, 30001)
	for i := range list {
		list[i].Time = units.Time(i) / 500
		for j := range a {
			list[i].Height += units.Length(a[j] * (math.Sin(2*math.Pi*hz[j]*float64(i)/500+phase[j]) - math.Sin(phase[j])))
		}
	}
	v := must(ride.New(ride.Spec{Fork: must(setup.New(fork())), Damper: pieces{}, Sprung: 90, Unsprung: 14,
		Tire: ride.Tire{Stiffness: 150 * nmm}}))
	c := ride.Course{Duration: 60, Road: must(ride.NewProfile(list, true))}
	report("minute of road", 1, processor, func() float64 {
		must(v.Run(context.Background(), c, ride.Settings{Rate: 20, Tolerance: 1e-6}))
		return math.NaN()
	})
}

func orbit() {
	f := func(_ float64, y, d []float64) {
		const mu, nu = 0.012277471, 1 - 0.012277471
		a, b := y[0]+mu, y[0]-nu
		p, q := a*a+y[2]*y[2], b*b+y[2]*y[2]
		p *= math.Sqrt(p)
		q *= math.Sqrt(q)
		d[0], d[1] = y[1], y[0]+2*y[3]-nu*a/p-mu*b/q
		d[2], d[3] = y[3], y[2]-2*y[1]-nu*y[2]/p-mu*y[2]/q
	}
	report("orbit", 1, processor, func() float64 {
		s := must(ode.New(f, 0, []float64{0.994, 0, 0, -2.00158510637908252240537862224},
			ode.Settings{Relative: 1e-9, Absolute: []float64{1e-9, 1e-9, 1e-9, 1e-9}}))
		must(0, s.To(17.0652165601579625588917206249))
		return s.State()[0]
	})
}

const count = 100_000

// samples asks so many forks, each off by its tolerances, for sag, energy and drift.
func samples() float64 {
	q := setup.Question{Load: 880, Exponent: 1.3, There: event()}
	return float64(must(fork().Sample(context.Background(), q, setup.Usual(), count, 1)).Mean.Sag)
}

// one is a single sag band, and the plan of the job that comes with the program.
func one() {
	set := must(setup.New(fork()))
	report("sag", 1, processor, func() float64 { return float64(must(set.Sag(880)).Middle) })
	const name = "examples/conversion/job.toml"
	f := must(jobfile.Decode(name, bytes.NewReader(must(os.ReadFile(name))), data.Reference()))
	report("plan", 1, processor, func() float64 { return float64(len(must(conversion.Plan(f.Job)).Candidates)) })
}

func event() gas.Ambient { return must(gas.StandardAt(2500*units.Meter, units.Celsius(4))) }
