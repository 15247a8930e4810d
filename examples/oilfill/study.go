package main

import (
	"errors"
	"fmt"
	"math"
	"slices"

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
	mm, ml   = units.Millimeter, units.Milliliter
	deep     = 0.66 // share of travel at which a fork is still meant to be supple; also in the sheet
	topRatio = 20   // of the plots
)

// study is the oil of one fork.
type study struct {
	bath.Bath
	Fork       data.Fork
	Side       setup.Side // the leg that is told
	Record     data.Leg
	Fill       oil.Fill // in it
	ByLevel    bool     // the record has a level
	Where      string
	Unit       string // of the fill on an axis
	Now        bath.End
	Cold, Warm gas.Ambient
	Refit      *oil.Refit // of an air fork that gets a coil kit
	KitIn      string
	Spring     helical.Spring // of the kit
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
	filled, err := bath.New(bath.Spec{Fork: fork.Spec(cold), Fills: [2]oil.Fill{left, right}, Oil: swells,
		Exponent: gas.Ridden})
	if err != nil {
		return nil, err
	}
	s := &study{Bath: filled, Fork: fork, Record: fork.Left, Fill: left, ByLevel: fork.Gap.Level.Given(),
		Cold: cold, Unit: "mL", Warm: gas.Ambient{Temperature: cold.Temperature.Add(conversion.OilWarming),
			Pressure: cold.Pressure}}
	if !fork.Left.Role.HasCoil() && !fork.Left.Role.HasAir() {
		s.Side, s.Record, s.Fill = setup.Right, fork.Right, right
	}
	if s.ByLevel {
		s.Unit = "mm"
	}
	s.Where = where(s.Side, left == right)
	if s.Now, err = s.End(0, s.Cold); err == nil && fork.Spring() == data.AirLeg {
		err = s.refit(swells)
	}
	return s, err
}

func where(side setup.Side, both bool) string {
	if both {
		return "each leg"
	}
	return fmt.Sprintf("the %v leg", side)
}

// refit puts the middle one of the springs designed for the fork's kit into the place of the air.
func (s *study) refit(swells oil.Fluid) error {
	file, err := jobfile.Typical(s.Fork.ID, data.Reference())
	if err != nil {
		return err
	}
	leg, shelf := file.Job.Legs[0], file.Job.Shelf
	was, err1 := s.Fork.Fill(leg.Side)
	spring, err2 := helical.New(shelf[len(shelf)/2].Wire)
	s.KitIn, s.Spring = where(leg.Side, len(file.Job.Legs) == 2), spring
	s.Refit = &oil.Refit{Was: was, Metal: leg.Bath.Metal, Shut: s.Gap(leg.Side), Kit: s.Gap(leg.Side), Oil: swells,
		Cold: s.Cold.Temperature, Warm: s.Warm.Temperature}
	s.Refit.Kit.Area, s.Refit.Kit.Pressure = leg.Bath.Area, s.Cold.Pressure // closed without a charge
	if leg.Bath.SpringInOil {
		s.Refit.Metal += spring.Volume()
	}
	return errors.Join(err1, err2)
}

// Force is that of the whole fork at a share of its travel.
func (s *study) Force(e bath.End, share units.Length) float64 {
	return float64(e.Force(share * s.Fork.Travel.Value))
}

// Below is how far below the mouth the oil stands with the spring in.
func (s *study) Below() units.Length { return s.Fill.Level() - s.Fill.Raised() }

// X is the position of a fill on the axis, its level in mm or its volume in mL, and moreAt the other way about.
func (s *study) X(more units.Volume) float64 {
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
func (s *study) Axis(more units.Volume) string { return fmt.Sprintf("%.0f %s", s.X(more), s.Unit) }

// usual is the range of fills in use, from the least oil to the most, on the axis.
func (s *study) usual() (least, most float64) {
	o := s.Record.Oil
	switch {
	case !s.ByLevel:
		return max(o.Volume.Lo.In(ml), 1), o.Volume.Hi.In(ml)
	case o.Level.Given():
		return o.Level.Hi.In(mm), o.Level.Lo.In(mm)
	}
	return s.X(0), s.X(0)
}

// Fills are round ones, as oil beyond the present: from the least in use on to the lock and once into it.
func (s *study) Fills() (list []units.Volume) {
	from, _ := s.usual()
	lock, steps := s.Room(oil.LockRatio, s.Cold), [...]float64{5, 10, 20, 50, 100}
	i, _ := slices.BinarySearch(steps[:4], math.Abs(s.X(lock)-from)/12)
	step := steps[i]
	if s.ByLevel {
		from, step = step*math.Ceil(from/step+1), -step
	}
	for x := from; s.Fill.Volume()+s.moreAt(x) < s.Fork.Kit.Interior.Value; x += step {
		if list = append(list, s.moreAt(x)); s.moreAt(x) > lock {
			break
		}
	}
	return list
}

// Verdict is what is to be said of a fill, cold and warm.
func (s *study) Verdict(cold, warm bath.End) bath.Verdict { return bath.Judge(cold, warm) }

// Froms are the fills that steps are told from: as set, and the fullest usual one.
func (s *study) Froms() [2]units.Volume {
	_, most := s.usual()
	return [2]units.Volume{0, s.moreAt(most)}
}

// Steps are those of the fill, by name.
func (s *study) Steps() map[string]units.Volume {
	return map[string]units.Volume{"5 mL more": 5 * ml, "5 mm higher": s.Fill.OilAt(0) - s.Fill.OilAt(5*mm)}
}

// Change is what a step does to the force at a share of the travel.
func (s *study) Change(step bath.Step, share units.Length) string {
	by, part := step.Change(share * s.Fork.Travel.Value)
	return fmt.Sprintf("%+.0f %+.1f", by, part)
}

// Of is the row of what one fill of the converted leg comes to.
func (s *study) Of(name string, at oil.Refitted) [][]string {
	told := func(g oil.AirGap, format string, v float64) string {
		if _, locks := g.Locks(); locks {
			return "LOCK"
		}
		return fmt.Sprintf(format, v)
	}
	v, end := at.Fill.Volume(), float64(at.Cold.Force(at.Cold.Stroke()))
	return [][]string{{name, fmt.Sprintf("%.0f", v.In(ml)), fmt.Sprintf("%+.0f", (v - s.Refit.Was.Volume()).In(ml)),
		fmt.Sprintf("%.0f", at.Fill.Residual().In(ml)), told(at.Cold, "%.1f", at.Cold.CompressionRatio()),
		told(at.Warm, "%.1f", at.Warm.CompressionRatio()), told(at.Cold, "%.0f", end)}}
}
