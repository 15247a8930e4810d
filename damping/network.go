package damping

import (
	"math"

	"example.org/forkcurve/units"
)

// Series is the valve that several valves make one behind the other: they share the flow and their pressure
// differences add. Nil valves are left out; with nothing left it is nil.
//
// A flow follows in at most 200 steps from the bracket between none and what the tightest valve would pass alone, so
// that no start value is needed.
func Series(valves ...Valve) Valve {
	switch s := flat[series](valves); len(s) {
	case 0:
		return nil
	case 1:
		return s[0]
	default:
		return s
	}
}

// Parallel is the valve that several valves make side by side: they share the pressure difference and their flows
// add. Nil valves are left out; with nothing left it is closed.
//
// A pressure follows in at most 200 steps from the bracket between none and what the widest valve would need alone.
// Where a parallel is part of a series that is part of a parallel, each level solves the one within at each of its
// steps: the time grows about sixfold with each. Dampers have two or three; at six a drop takes 3 ms.
func Parallel(valves ...Valve) Valve {
	p := flat[parallel](valves)
	if len(p) == 1 {
		return p[0]
	}
	return p
}

// flat is the valves of a network, those of a network of its own kind among them in its place.
func flat[N ~[]Valve](valves []Valve) (list N) {
	for _, v := range valves {
		if n, same := v.(N); same {
			list = append(list, n...)
		} else if v != nil {
			list = append(list, v)
		}
	}
	return list
}

// Reverse is the valve turned round. Nil stays nil.
func Reverse(v Valve) Valve {
	switch v := v.(type) {
	case nil:
		return nil
	case reversed:
		return v.Valve
	}
	return reversed{v}
}

type reversed struct{ Valve }

func (r reversed) Flow(p units.Pressure, o Oil) units.Flow { return -r.Valve.Flow(-p, o) }
func (r reversed) Drop(q units.Flow, o Oil) units.Pressure { return -r.Valve.Drop(-q, o) }

type series []Valve

func (s series) Drop(q units.Flow, o Oil) units.Pressure {
	var sum units.Pressure
	for _, v := range s {
		sum += v.Drop(q, o)
	}
	return sum
}

func (s series) Flow(p units.Pressure, o Oil) units.Flow {
	sign := math.Copysign(1, float64(p))
	most := math.Inf(1)
	for _, v := range s {
		most = min(most, sign*float64(v.Flow(p, o)))
	}
	if most <= 0 {
		return 0
	}
	return units.Flow(sign * increasing(func(q float64) float64 {
		return sign * float64(s.Drop(units.Flow(sign*q), o)-p)
	}, 0, most))
}

type parallel []Valve

func (n parallel) Flow(p units.Pressure, o Oil) units.Flow {
	var sum units.Flow
	for _, v := range n {
		sum += v.Flow(p, o)
	}
	return sum
}

func (n parallel) Drop(q units.Flow, o Oil) units.Pressure {
	if q == 0 {
		return 0
	}
	sign := math.Copysign(1, float64(q))
	most := math.Inf(1)
	for _, v := range n {
		most = min(most, sign*float64(v.Drop(q, o)))
	}
	if math.IsInf(most, 1) {
		return blocked(q)
	}
	return units.Pressure(sign * increasing(func(p float64) float64 {
		return sign * float64(n.Flow(units.Pressure(sign*p), o)-q)
	}, 0, most))
}
