package conversion

import (
	"fmt"
	"slices"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Build is what stands on the bench: a coil of the shelf in each converted leg, over so much oil.
type Build struct {
	Coil    string        // its name on the shelf
	Preload units.Length  // at full extension, 0 to MostPreload, where Spacer is nil
	Spacer  *units.Length // in the first of Job.Legs, all of it that presses on the spring, 0 to its room

	OilVolume units.Volume  // in the first of Job.Legs, 0 to less than it holds, where OilLevel is nil
	OilLevel  *units.Length // air over the oil in it, fork compressed, spring out; only where one is read

	// The same of the second leg; both nil: the oil that leaves it the gas of the first.
	SecondVolume *units.Volume
	SecondLevel  *units.Length
}

// standing is a build with the settings it comes to.
type standing struct {
	Build
	preload units.Length
	volume  units.Volume
}

// Check judges a build by everything that [Plan] judges, and chooses nothing: the report has one candidate, as
// it stands. Rates, preload and oil are held against what the job asks for. A build that locks or binds is no
// error but a finding; an error tells a coil that is not on the shelf, a spacer that leaves the spring loose, or
// oil that the leg does not hold, as "Build.OilVolume", beside the faults of the job.
func Check(job Job, b Build) (*Report, error) {
	all := job.Shelf
	job.Shelf = nil
	for _, c := range all {
		if c.Name == b.Coil {
			job.Shelf = append(job.Shelf, c)
		}
	}
	if len(job.Shelf) == 0 {
		return nil, &units.RangeError{Field: "Build.Coil", Value: b.Coil, Want: "the name of a coil on the shelf"}
	}
	r, err := plan(job, &standing{Build: b})
	if err != nil {
		return nil, err
	}
	r.Build = &b
	reword(r.Findings)
	c := &r.Candidates[0]
	reword(c.Findings)
	f := findings{c.Findings, job.Heading.Units}
	if i := slices.IndexFunc(f.list, func(f Finding) bool { return f.Code == GapUnsure }); i >= 0 && b.OilLevel == nil {
		f.list[i].Reason = "one fork in forty so filled locks on its oil or passes a limit once warm: poured by volume " +
			"into a leg whose inside is known no better; measure it, or read the level, or less oil"
	}
	outside(&f, PreloadRange, c.Preload, job.Preload.Min, job.Preload.Max, "preload outside what the fork is made for")
	outside(&f, OilRange, c.OilVolume, job.OilVolume.Min, job.OilVolume.Max, "oil outside what the fork is made for")
	c.Findings, c.Verdict = f.list, verdict(f.list)
	return r, nil
}

// outside holds a setting against its range.
func outside[Q interface {
	~float64
	Amount
}](f *findings, code Code, v, lo, hi Q, reason string) {
	const rounding = 1e-9
	switch {
	case v < lo-rounding:
		f.add(code, Caution, v, lo, "%s", reason)
	case v > hi+rounding:
		f.add(code, Caution, v, hi, "%s", reason)
	}
}

// reword tells what a plan gives up of a build that nobody planned.
func reword(list []Finding) {
	for i := range list {
		switch f := &list[i]; f.Code {
		case RateStep:
			f.Reason = "the rate of this build is a step of the shelf and more off the one asked for"
		case SagMissed:
			f.Reason = "sag of this build against its target"
		case BottomingAim:
			f.Reason = "energy to full travel of this build against that asked for"
			if f.Severity == Caution {
				f.Reason += ": it bottoms more easily"
			}
		}
	}
}

// byLevel reports that the oil is filled to a level, where one is read: so the plan advises.
func (p *planner) byLevel() bool { return p.stands == nil || p.stands.OilLevel != nil }

// settle finds preload and oil of the build in the first leg.
func (s *standing) settle(p *planner) error {
	f, l, part := check.Of("Build"), p.Legs[0], p.parts[0]
	if s.preload = s.Preload; s.Spacer == nil {
		check.Between(f, "Preload", s.Preload, 0, MostPreload)
	} else {
		touching := l.Room.Spacer(part.free, 0)
		if check.Between(f, "Spacer", *s.Spacer, max(0, touching), min(l.Room.Length, touching+MostPreload)) {
			s.preload = l.Room.Preload(part.free, *s.Spacer)
		}
	}
	poured := s.OilVolume
	if s.volume = p.poured(f, l, "Oil", &poured, s.OilLevel); len(p.Legs) < 2 {
		if s.SecondVolume != nil || s.SecondLevel != nil {
			f.Report("SecondVolume", "given", "to be left out where one leg is converted", "")
		}
	} else if s.SecondVolume != nil || s.SecondLevel != nil {
		second := p.Legs[1]
		own := p.poured(f, second, "Second", s.SecondVolume, s.SecondLevel)
		p.more = own - p.oilIn(second, part.metal, s.volume)
	}
	return f.Err()
}

// poured is the oil in a leg by its volume, or where there is one by its level.
func (p *planner) poured(f *check.Faults, l ConvertedLeg, field string, volume *units.Volume,
	level *units.Length) units.Volume {
	holds := l.Bath.Interior - p.metal(l, p.parts[0].metal)
	switch {
	case level == nil:
		if check.Between(f, field+"Volume", *volume, 0, 2*units.Liter) && *volume >= holds {
			f.Report(field+"Volume", *volume, fmt.Sprintf("below %.6g, what the leg holds", holds), "oil above the leg")
		}
		return *volume
	case volume != nil && *volume != 0:
		f.Report(field+"Level", *level, "to be left out where a volume is given", "")
	case p.column(l) == 0:
		f.Report(field+"Level", *level, "a volume: no level is read in this leg", "")
	default:
		height := units.Length(float64(l.Bath.Interior) / float64(p.column(l)))
		if check.Between(f, field+"Level", *level, 0, height) {
			return l.Bath.Interior - units.Volume(float64(p.column(l))*float64(*level))
		}
	}
	return 0
}
