package explore

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Sure is how well the answers are known with what the dataset knows of forks of this kind.
type Sure struct {
	Forks []SureFork
	Means string // what was taken as known how well
}

// SureFork is the band of one fork, ridden, that nine of ten random forks lie in, and what makes most of it.
type SureFork struct {
	Name           string
	X, Low, High   []float64
	Drawn, Refused int
	SD, Among      [3]float64 // of sag, energy and change: to first order, and among the forks drawn
	Lines          []string
	Parts          []SurePart // the largest first
	Others         int        // that add less
}

// SurePart is one value that is not known exactly, how far it may be off, by which source, and what that alone adds to
// sag, energy and change.
type SurePart struct{ Name, Known, Source, Sag, Energy, Change string }

const draws, bandSamples, mostParts = 100, 41, 6

// Sure draws forks within the dataset's spreads and reads their answers and curves.
func (s State) Sure() (Sure, error) {
	out := Sure{Means: "One standard deviation of each value as the dataset has it for a fork of this kind, normal and " +
		"independent of each other: a fork that was measured is known better. Pressure, rate, preload and oil are those " +
		"set here, off by what the dataset has for setting them; the weather is exact."}
	for i := range s.Forks {
		f, there, err := s.Fork(i)
		if err != nil {
			return out, err
		}
		if !there {
			continue
		}
		sf, err := s.sure(f, rand.New(rand.NewPCG(14, uint64(i))))
		if err != nil {
			return out, err
		}
		out.Forks = append(out.Forks, sf)
	}
	return out, nil
}

func (s State) sure(f Fork, r *rand.Rand) (SureFork, error) {
	out := SureFork{Name: f.Name}
	all := s.doubts(f)
	if err := s.parts(f, all, &out); err != nil {
		return out, err
	}
	length, joule, newton := millimeters[s.system()], joules[s.system()], newtons[s.system()]
	xs := make([]units.Length, bandSamples)
	for i := range xs {
		xs[i] = f.Spec.Travel * units.Length(i) / bandSamples // short of the end, where a leg may lock
		out.X = append(out.X, length.of(xs[i]))
	}
	forces := make([][]float64, bandSamples)
	var answers [3][]float64
	for range draws {
		d := f.drawn(s)
		for _, one := range all {
			one.add(&d, one.sd*r.NormFloat64())
		}
		a, curve, err := s.answers(d)
		if err != nil {
			out.Refused++
			continue
		}
		out.Drawn++
		for i := range answers {
			answers[i] = append(answers[i], a[i])
		}
		for i, force := range spring.AppendForces(nil, curve, xs) {
			if xs[i] <= curve.Stroke() {
				forces[i] = append(forces[i], newton.of(force))
			}
		}
	}
	for i, list := range forces {
		if len(list) < draws/2 {
			out.X = out.X[:i]
			break
		}
		slices.Sort(list)
		out.Low = append(out.Low, list[len(list)/20])
		out.High = append(out.High, list[len(list)-1-len(list)/20])
	}
	for i, list := range answers {
		out.Among[i] = deviation(list)
	}
	mm := func(q float64) float64 { return length.of(units.Length(q)) }
	j := func(q float64) float64 { return joule.of(units.Energy(q)) }
	digits := 1 + s.system()
	line := func(name string, digits int, unit string, of func(float64) float64, k int) {
		out.Lines = append(out.Lines, fmt.Sprintf("%s ± %.*f %s (± %.*f among those drawn)", name, digits, of(out.SD[k]),
			unit, digits, of(out.Among[k])))
	}
	line("sag", digits, length.unit, mm, 0)
	line("energy to the end", 0, joule.unit, j, 1)
	line("change from as filled", digits, length.unit, mm, 2)
	for i, of := range []func(float64) float64{mm, j, mm} {
		out.SD[i], out.Among[i] = of(out.SD[i]), of(out.Among[i])
	}
	return out, nil
}

// parts works out what each value alone adds, to first order (JCGM 100:2008, equation 10), from a standard deviation
// more and one less.
func (s State) parts(f Fork, all []doubt, out *SureFork) error {
	middle, _, err := s.answers(f.drawn(s))
	if err != nil {
		return err
	}
	type part struct {
		doubt
		adds [3]float64
		size float64
	}
	var list []part
	for _, one := range all {
		ends := [2][3]float64{}
		for k, sign := range []float64{-1, 1} {
			d := f.drawn(s)
			one.add(&d, sign*one.sd)
			if ends[k], _, err = s.answers(d); err != nil { // refused on this side
				ends[k] = middle
			}
		}
		p := part{doubt: one}
		for i := range p.adds {
			p.adds[i] = (ends[1][i] - ends[0][i]) / 2
			out.SD[i] = math.Hypot(out.SD[i], p.adds[i])
		}
		list = append(list, p)
	}
	for i := range list {
		for k, add := range list[i].adds {
			list[i].size += (add / max(out.SD[k], 1e-12)) * (add / max(out.SD[k], 1e-12))
		}
	}
	out.Others = max(0, len(list)-mostParts)
	for range min(mostParts, len(list)) {
		largest := 0
		for i := range list {
			if list[i].size > list[largest].size {
				largest = i
			}
		}
		p := list[largest]
		list[largest].size = -1
		length := func(q float64) string {
			n := num(millimeters, s, units.Length(q), 1, true)
			return n.text + " " + n.unit
		}
		energy := num(joules, s, units.Energy(p.adds[1]), 0, true)
		out.Parts = append(out.Parts, SurePart{p.name, p.known, p.source, length(p.adds[0]), energy.text + " " + energy.unit,
			length(p.adds[2])})
	}
	return nil
}

func deviation(list []float64) float64 {
	var sum, squares float64
	for _, x := range list {
		sum += x
	}
	mean := sum / float64(len(list))
	for _, x := range list {
		squares += (x - mean) * (x - mean)
	}
	return math.Sqrt(squares / float64(max(1, len(list)-1)))
}

// drawn is the fork as it is set, apart from others drawn of it.
func (f Fork) drawn(s State) drawn {
	d := drawn{spec: f.Spec, record: f.Record, rider: s.Rider, exponent: s.Exponent}
	for _, l := range []*setup.Leg{&d.spec.Left, &d.spec.Right} {
		l.Springs, l.Air, l.Gap, l.Damper = slices.Clone(l.Springs), copied(l.Air), copied(l.Gap), copied(l.Damper)
	}
	return d
}

func copied[T any](p *T) *T {
	if p == nil {
		return nil
	}
	v := *p
	return &v
}

// answers are sag, energy to the end and change of sag of a drawn fork after the same events, in SI units, and its
// ridden curve.
func (s State) answers(d drawn) (a [3]float64, ridden spring.Curve, err error) {
	d.spec.Friction = min(d.spec.Friction, setup.MostFriction)
	fork, err := setup.New(d.spec)
	if err != nil {
		return a, nil, err
	}
	load := d.record.Load(d.rider)
	then, err := fork.Sag(load)
	if err != nil {
		return a, nil, err
	}
	if fork, err = s.since(fork, load); err != nil {
		return a, nil, err
	}
	now, err := fork.Sag(load)
	if err != nil {
		return a, nil, err
	}
	ridden = fork.CurveAbout(now.Middle, d.exponent)
	if err := spring.Err(ridden); err != nil {
		return a, nil, err
	}
	end := min(ridden.Stroke(), fork.Curve(gas.Isothermal).Stroke())
	return [3]float64{float64(now.Middle), float64(ridden.Energy(end)), float64(now.Middle - then.Middle)}, ridden, nil
}
