package main

import (
	"errors"
	"fmt"
	"math"

	"example.org/forkcurve/data"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/oil/bath"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const (
	mm, ml = units.Millimeter, units.Milliliter
	deep   = 0.66 // share of travel at which a fork is still meant to be supple
)

// study is the oil of one fork.
type study struct {
	bath.Bath
	Fork       data.Fork
	Record     data.Leg
	Fill       oil.Fill // that is told
	Other      oil.Fill // in the other leg
	Gap        oil.AirGapSpec
	ByLevel    bool // the record has a level
	Where      string
	Now        bath.End
	Cold, Warm gas.Ambient
	Refit      *refit // of an air fork
}

func newStudy(fork data.Fork) (*study, error) {
	fluid, err1 := data.Reference().Fluid("fork-5") // for its expansion, in which fork oils hardly differ
	swells, err2 := fluid.Oil()
	cold, err3 := gas.StandardAt(0, units.Celsius(20))
	left, err4 := fork.Fill(setup.Left)
	right, err5 := fork.Fill(setup.Right)
	if err := errors.Join(err1, err2, err3, err4, err5); err != nil {
		return nil, err
	}
	s := &study{Fork: fork, Record: fork.Left, Fill: left, Other: right, ByLevel: fork.Gap.Level.Given(), Cold: cold,
		Where: "each leg", Warm: gas.Ambient{Temperature: cold.Temperature.Add(conversion.OilWarming),
			Pressure: cold.Pressure}}
	side := setup.Left
	if !fork.Left.Role.HasCoil() && !fork.Left.Role.HasAir() {
		side, s.Record, s.Fill, s.Other = setup.Right, fork.Right, right, left
	}
	if left != right {
		s.Where = fmt.Sprintf("the %v leg", side)
	}
	var err error
	s.Bath, err = bath.New(bath.Spec{Fork: fork.Spec(cold), Fills: [2]oil.Fill{left, right}, Oil: swells,
		Exponent: gas.Ridden})
	if err != nil {
		return nil, err
	}
	s.Gap = s.Bath.Gap(side)
	if s.Now, err = s.At(0, s.Cold); err == nil && fork.Spring() == data.AirLeg {
		s.Refit, err = s.refit(swells)
	}
	return s, err
}

// Deep and End are the forces of the whole fork at 66 % of travel and at its end.
func (s *study) Deep(e bath.End) units.Force { return e.Force(s.Fork.Travel.Value * deep) }
func (s *study) End(e bath.End) units.Force  { return e.Force(s.Fork.Travel.Value) }

// x is the position of a fill on the axis, its level in mm or its volume in mL, and moreAt the other way about.
func (s *study) x(more units.Volume) float64 {
	if s.ByLevel {
		return s.Fill.LevelOf(s.Fill.Volume() + more).In(mm)
	}
	return (s.Fill.Volume() + more).In(ml)
}

func (s *study) moreAt(x float64) units.Volume {
	if s.ByLevel {
		return s.Fill.OilAt(units.Length(x)*mm) - s.Fill.Volume()
	}
	return units.Volume(x)*ml - s.Fill.Volume()
}

// Axis is a fill as the axis tells it.
func (s *study) Axis(more units.Volume) string {
	return fmt.Sprintf("%.0f %s", s.x(more), map[bool]string{true: "mm", false: "mL"}[s.ByLevel])
}

// usual is the range of fills in use, from the least oil to the most, on the axis.
func (s *study) usual() (least, most float64) {
	o := s.Record.Oil
	switch {
	case s.ByLevel && o.Level.Given():
		return o.Level.Hi.In(mm), o.Level.Lo.In(mm)
	case s.ByLevel:
		return s.x(0), s.x(0)
	}
	return max(o.Volume.Lo.In(ml), 1), o.Volume.Hi.In(ml)
}

// columns are round fills, from the least oil on to near the lock and once into it, on the axis.
func (s *study) columns() (list []float64) {
	const most = 9
	from, _ := s.usual()
	lock := s.Room(oil.LockRatio, s.Cold)
	span, step := math.Abs(s.x(lock)-from)/(most-1), 1.0
	for _, s := range []float64{2, 5, 10, 20, 50} {
		if math.Abs(math.Log(s/span)) < math.Abs(math.Log(step/span)) {
			step = s
		}
	}
	if s.ByLevel {
		from, step = step*math.Ceil(from/step+1), -step
	}
	for x := from; len(list) < most && s.Fill.Volume()+s.moreAt(x) < s.Fork.Kit.Interior.Value; x += step {
		if list = append(list, x); s.moreAt(x) > lock {
			break
		}
	}
	return list
}

// refit is the leg of an air fork that a coil kit goes into.
type refit struct {
	oil.Refit
	Where  string
	Spring helical.Spring
	InOil  bool
	Aim    units.Volume // of oil in the converted leg
}

// refit takes the middle one of the springs designed for the fork's kit.
func (s *study) refit(swells oil.Fluid) (*refit, error) {
	file, err := jobfile.Typical(s.Fork.ID, data.Reference())
	if err != nil {
		return nil, err
	}
	if len(file.Job.Legs) == 0 {
		return nil, errors.New("the kit names no leg")
	}
	leg := file.Job.Legs[0]
	was, err := s.Fork.Fill(leg.Side)
	if err != nil {
		return nil, err
	}
	r := &refit{Where: fmt.Sprintf("the %v leg", leg.Side), InOil: leg.Bath.SpringInOil, Aim: file.Job.OilVolume.Aim,
		Refit: oil.Refit{Was: was, Metal: leg.Bath.Metal, Shut: s.Bath.Gap(leg.Side), Kit: s.Bath.Gap(leg.Side), Oil: swells,
			Cold: s.Cold.Temperature, Warm: s.Warm.Temperature}}
	r.Kit.Area, r.Kit.Pressure = leg.Bath.Area, s.Cold.Pressure // closed without a charge
	if len(file.Job.Legs) == 2 {
		r.Where = "each leg"
	}
	r.Spring, err = helical.New(file.Job.Shelf[len(file.Job.Shelf)/2].Wire)
	if r.InOil {
		r.Metal += r.Spring.Volume()
	}
	return r, err
}

// Unchanged, Ratio and WarmRatio are compression ratios over so much oil: of the leg as it is, and with the kit.
func (r *refit) Unchanged(oil units.Volume) (float64, error) { return ratioOf(r.BeforeWith(oil)) }
func (r *refit) Ratio(oil units.Volume) (float64, error)     { return ratioOf(r.With(oil)) }
func (r *refit) WarmRatio(oil units.Volume) (float64, error) {
	leg, err := r.With(oil)
	return leg.Warm.CompressionRatio(), err
}

func ratioOf(leg oil.Refitted, err error) (float64, error) { return leg.Cold.CompressionRatio(), err }
