package main

import (
	"sync"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// study is the sag band of every fork on air or coils for 20 riders, 10 temperatures and 10
// altitudes. Its fields are what the peers need: SI, gas at full extension and home.
type study struct {
	Home  [2]float64 // Pa, K
	Event [2]float64 // of the samples
	Air   [][2]float64
	Forks []plain

	home  gas.Ambient
	air   []gas.Ambient
	forks []data.Fork
	loads [][]units.Force
}

type plain struct {
	Stroke, Friction float64
	Loads            []float64
	Coils, TopOuts   [][2]float64 // rate and preload or length
	Gas              [][3]float64 // area, volume, pressure
	Pistons          [][5]float64 // area, volume and pressure, volume and pressure behind a floating piston
}

func newStudy() *study {
	s := &study{home: must(gas.StandardAt(300*units.Meter, units.Celsius(20)))}
	si := func(a gas.Ambient) [2]float64 { return [2]float64{a.Pressure.In(units.Pascal), a.Temperature.Kelvin()} }
	s.Home, s.Event = si(s.home), si(event())
	for i := range 100 {
		a := must(gas.StandardAt(units.Length(300*(i%10)), units.Celsius(-5+5*float64(i/10))))
		s.air, s.Air = append(s.air, a), append(s.Air, si(a))
	}
	for f := range data.Reference().Forks() {
		p, ok := flat(must(f.Setup(s.home)))
		if !ok {
			continue
		}
		var loads []units.Force
		for k := range 20 {
			lo, hi := f.Rider.Range.Lo, f.Rider.Range.Hi
			loads = append(loads, f.Load(lo+(hi-lo)*units.Mass(k)/19))
			p.Loads = append(p.Loads, float64(loads[k]))
		}
		s.forks, s.Forks, s.loads = append(s.forks, f), append(s.Forks, p), append(s.loads, loads)
	}
	return s
}

// flat is a fork as the peers compute it, whose springs are coils and top-out springs only.
func flat(set *setup.Setup) (p plain, ok bool) {
	spec := set.Spec()
	p.Stroke, p.Friction = float64(set.Curve(1).Stroke()), float64(set.Friction())
	var port units.Length
	for _, l := range []setup.Leg{spec.Left, spec.Right} {
		for _, s := range l.Springs {
			switch s := s.(type) {
			case spring.CoilSpec:
				p.Coils = append(p.Coils, [2]float64{float64(s.Rate), float64(s.Preload)})
			case spring.TopOutSpec:
				p.TopOuts = append(p.TopOuts, [2]float64{float64(s.Rate), float64(s.Length)})
			default:
				return p, false
			}
		}
		if l.Air != nil {
			port = max(port, l.Air.Port)
		}
	}
	closed := must(set.Spaces(port, 1)) // past the port the amounts stay
	for i, s := range closed {
		v := float64(s.Gas.Volume) + float64(s.Area)*float64(port)
		pressure := s.Gas.Pressure.In(units.Pascal) * float64(s.Gas.Volume) / v
		switch next := i + 1; {
		case s.Chamber == setup.Second:
		case s.Chamber == setup.Linked:
			g := &p.Gas[len(p.Gas)-1] // one with the positive chamber, at rest
			g[1], g[2] = g[1]+v, (g[1]*g[2]+v*pressure)/(g[1]+v)
		case next < len(closed) && closed[next].Chamber == setup.Second:
			b := closed[next].Gas
			p.Pistons = append(p.Pistons, [5]float64{float64(s.Area), v, pressure, float64(b.Volume),
				b.Pressure.In(units.Pascal)})
		default:
			p.Gas = append(p.Gas, [3]float64{float64(s.Area), v, pressure})
		}
	}
	return p, true
}

func (s *study) points() int { return len(s.forks) * 20 * len(s.air) }

// run is the mean sag, the forks shared out to so many goroutines.
func (s *study) run(workers int) float64 {
	sums := make([]float64, len(s.forks))
	var group sync.WaitGroup
	next := make(chan int, len(s.forks))
	for i := range s.forks {
		next <- i
	}
	close(next)
	for range workers {
		group.Go(func() {
			for i := range next {
				set := must(s.forks[i].Setup(s.home))
				var sum float64
				for _, a := range s.air {
					moved := must(set.At(a))
					for _, load := range s.loads[i] {
						sag := must(moved.Sag(load))
						sum += float64(sag.Middle + sag.Low + sag.High)
					}
				}
				sums[i] = sum
			}
		})
	}
	group.Wait()
	var sum float64
	for _, v := range sums {
		sum += v
	}
	return sum / float64(3*s.points())
}
