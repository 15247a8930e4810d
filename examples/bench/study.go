package main

import (
	"context"
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/bench/benchfile"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// study is what the sheet is made of.
type study struct {
	*benchfile.File
	*bench.Known
	Answers []answer
	Next    []bench.Worth
	Trusted units.Share // importance samples that count
	Samples int         // that the numbers go by; 0 where too few count, and they go by the best fork
	Check   bench.Predictive
}

type answer struct {
	Question   string
	Value, Now string
	Before     string
	Times      float64 // better known than before
	Said       string
}

func newStudy(ctx context.Context, f *benchfile.File, k *bench.Known, asked string) (*study, error) {
	share, err := k.Check(ctx, samples, 1)
	if err != nil {
		return nil, err
	}
	s := &study{File: f, Known: k, Trusted: units.Share(share)}
	if better, err := k.Refined(ctx, samples, 1); err == nil {
		s.Known, s.Samples = better, samples
	} else if ctx.Err() != nil {
		return nil, err
	}
	k = s.Known
	list, err := questions(f, asked)
	if err != nil {
		return nil, err
	}
	for _, q := range list {
		a, err := k.Answer(q)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", q.Name, err)
		}
		times := a.Before / a.SD
		said := "The readings hardly helped: what is known of its kind decides."
		switch {
		case times >= 3:
			said = fmt.Sprintf("Known %.0f times better than from forks of its kind.", times)
		case times >= 1.2:
			said = fmt.Sprintf("Known %.1f times better than from forks of its kind.", times)
		}
		s.Answers = append(s.Answers, answer{q.Name, q.Text(a.Value), q.Text(a.SD), q.Text(a.Before), times, said})
	}
	if s.Next, err = k.Next(list[0], candidates(f)); err != nil {
		return nil, err
	}
	s.Check, err = k.Predictive(ctx, samples, 1)
	return s, err
}

// samples of the posterior: 2.5 % of them are 100.
const samples = 4000

// candidates are the readings of a workshop with their usual work.
func candidates(f *benchfile.File) []bench.Candidate {
	rider := rider(f)
	deep := f.Record.Travel.Value * 8 / 10
	list := []bench.Candidate{
		{Reading: bench.Sag{Rider: rider, From: bench.Above, SD: 2 * units.Millimeter}, Minutes: 2},
		{Reading: bench.Sag{Rider: rider, From: bench.Below, SD: 2 * units.Millimeter}, Minutes: 2},
		{Reading: bench.Sag{From: bench.Middle, SD: 2 * units.Millimeter}, Minutes: 1},
		{Reading: bench.Force{Travel: deep, SD: 10}, Minutes: 5},
		{Reading: bench.Force{Travel: deep / 2, Out: true, SD: 10}, Minutes: 4},
		{Reading: bench.OilToMark{Side: f.Side, Level: 150 * units.Millimeter, SD: 4 * units.Milliliter}, Minutes: 6},
		{Reading: bench.Rise{Side: f.Side, SD: 1.5 * units.Millimeter}, Minutes: 2},
		{Reading: bench.WheelMass{SD: 0.1}, Minutes: 4}, {Reading: bench.Ends{Ridden: true, SD: 0.007}, Minutes: 3},
		{Reading: bench.Bounce{Rider: rider, SD: 0.05}, Minutes: 2},
	}
	if f.Fork.Spec.Left.Air != nil || f.Fork.Spec.Right.Air != nil {
		low := units.Gauge(3 * units.Bar)
		list = append(list, bench.Candidate{Reading: bench.Shown{Travel: deep, Gauge: low, SD: 0.1 * units.Bar}, Minutes: 4},
			bench.Candidate{Reading: bench.PumpedIn{Air: 500 * units.Milliliter, Before: low, SD: 0.05 * units.Bar}, Minutes: 3})
	}
	return list
}

// spoken is the name of a number on the sheet.
func spoken(name string) string { return strings.NewReplacer(".", " ", "-", " ").Replace(name) }

// Rows of the unknowns: before, after, and what the readings did.
func (s *study) Rows() [][]string {
	rows := [][]string{{"", "forks of its kind", "this fork", "learned"}}
	for _, v := range s.Known.Values {
		learned := fmt.Sprintf("%.0f %%", 100*v.Learned)
		if v.Learned < 0.05 {
			learned = "nothing"
		}
		rows = append(rows, []string{spoken(v.Name), v.Before, v.After, learned})
	}
	return rows
}

// Lopsided are the numbers that are not as sure to one side as to the other.
func (s *study) Lopsided() []string {
	var list []string
	for _, v := range s.Known.Values {
		value, _, _ := s.Known.Of(v.Name)
		low, high, _ := s.Known.Interval(v.Name)
		if up, down := high-value, value-low; v.Learned >= 0.05 && max(up, down) > 1.25*min(up, down) {
			list = append(list, fmt.Sprintf("%s: 95 %% from %s to %s", spoken(v.Name), v.Low, v.High))
		}
	}
	return list
}

// Unkept are the numbers that the record has no place for.
func (s *study) Unkept() string {
	var list []string
	for _, v := range benchfile.Unkept(s.File, s.Known) {
		list = append(list, spoken(v.Name))
	}
	return strings.Join(list, ", ")
}

// Fits are the rows of the readings.
func (s *study) Fits() [][]string {
	rows := [][]string{{"", "read", "this fork", "off by", "weight"}}
	for i, r := range s.Known.Residual {
		off := fmt.Sprintf("%+.1f σ", r.Standardized)
		if r.Contradicts() {
			off += " !"
		}
		rows = append(rows, []string{s.Names[i], r.Read, r.Fits, off, fmt.Sprintf("%.0f %%", 100*r.Leverage)})
	}
	return rows
}

// Odd are the readings that contradict the rest.
func (s *study) Odd() []string {
	var list []string
	for i, r := range s.Known.Residual {
		if r.Contradicts() {
			list = append(list, fmt.Sprintf("%s: %v is off by %.0f standard uncertainties. %s?", s.Names[i], r.Reading,
				math.Abs(r.Standardized), strings.Join(r.Slips, "; or ")))
		}
	}
	return list
}

// Traded are numbers better known together than apart, at most four.
func (s *study) Traded() []bench.Combination { return s.Known.Together[:min(4, len(s.Known.Together))] }

// Advice are the next readings that help, at most four.
func (s *study) Advice() []string {
	var list []string
	for _, w := range s.Next {
		if w.PerMinute > 0.002 && len(list) < 4 {
			list = append(list, w.String())
		}
	}
	return list
}

// sampled is n curves of forks that fit, or of forks of the class.
func (s *study) sampled(n int, before bool) ([]*setup.Setup, error) {
	k := s.Known
	if before {
		var err error
		if k, err = bench.Learn(context.Background(), s.File.Fork, s.Room, s.Unknowns,
			[]bench.Reading{bench.WheelMass{Mass: s.File.Fork.Chassis.UnsprungMass, SD: 1e6}}); err != nil {
			return nil, err
		}
	}
	var list []*setup.Setup
	for i := range uint64(n) {
		if f, err := setup.New(k.Draw(1, i).Spec); err == nil {
			list = append(list, f)
		}
	}
	return list, nil
}

// SurprisePercent is how often honest readings fit no better.
func (s *study) SurprisePercent() float64 { return 100 * s.Known.Surprise }

// CheckPercent is how often those of forks that fit do.
func (s *study) CheckPercent() float64 { return 100 * s.Check.All }

// Doubtful tells that all readings together do not go with the fork as it is described.
func (s *study) Doubtful() bool { return s.Known.Surprise < 0.01 || s.Check.All < 0.01 }

// TrustedPercent is how many importance samples count.
func (s *study) TrustedPercent() float64 { return 100 * float64(s.Trusted) }
