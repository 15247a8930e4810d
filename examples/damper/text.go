package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/units"
)

// speeds of the tables, m/s.
var speeds = []units.Speed{0.05, 0.1, 0.25, 0.5, 1, 2, 3}

// ranges of speed along the axis and what makes them, from memory.
var ranges = []struct {
	name     string
	from, to units.Speed
}{{"rider, corner entry", 0.02, 0.15}, {"braking dive", 0.1, 0.4}, {"bumps", 0.4, 1.5}, {"edges, landings", 1.5, 3}}

// typicalForks are forces of a whole motocross fork, compression and rebound by speed; from memory, ±50 %.
var typicalForks = map[units.Speed][2]units.Force{0.1: {90, 190}, 0.5: {190, 480}, 1: {310, 760}, 3: {650, 1500}}

const (
	typicalFork  = "M06" // the kind of fork they are of
	typicalError = 0.5   // ±
)

// facts are what the sheet tells, with the springs so many times as stiff.
func (s *study) facts(stiffer float64) (map[string]any, error) {
	ask, depth, err1 := s.asked(stiffer)
	needle, err2 := damping.NewSettings(clicks, func(out int) (damping.Damper, error) {
		return build(out, s.compression, s.warm.leg.Spec().Oil)
	})
	lump, err3 := damping.NewWarming(warming)
	sine, err4 := damping.MeanPower(s.warm.fork, 40*mm, 2*units.Hertz)
	friction := s.fork.Friction.Value
	over, err5 := damping.SpeedAt(s.warm.fork, friction)
	if err := errors.Join(err1, err2, err3, err4, err5); err != nil {
		return nil, err
	}
	usual, err1 := damping.NewRebound(ask)
	slowClick, err2 := needle.PerClick(s.rebound, -slow)
	fastClick, err3 := needle.PerClick(s.rebound, -fast)
	ask.PerClick = slowClick
	own, err4 := damping.NewRebound(ask)
	if err := errors.Join(err1, err2, err3, err4); err != nil {
		return nil, err
	}
	var reached []string
	few, most := own.Factors()
	for _, factor := range []float64{few, most} {
		setting, got, err := needle.Nearest(s.rebound, -slow, factor)
		if err != nil {
			return nil, err
		}
		reached = append(reached, fmt.Sprintf("%d out gives %.3f for %.3f", setting, got, factor))
	}
	power, what := s.power, "coils"
	switch bicycle := s.fork.Chassis.Mass.Value < 30*units.Kilogram; {
	case power == 0 && bicycle:
		power = 50 * units.Watt
	case power == 0:
		power = 150 * units.Watt
	}
	if s.fork.Spring() == data.AirLeg {
		what = "air pressure"
	}
	leg, o := s.warm.leg, s.warm.leg.Spec().Oil
	reynolds := func(v units.Speed) float64 {
		_, drop := leg.Drops(v)
		return leg.hole.Reynolds(leg.bleed.Flow(drop, o), o)
	}
	each := power / units.Power(s.legs)
	rise := lump.Rise(each, 20*units.Minute)
	drop, _ := leg.Drops(-1)
	mean := (s.body.MeanRatio(s.warm.fork, 0.1, 1) + s.body.MeanRatio(s.warm.fork, -0.1, -1)) / 2
	return map[string]any{
		"Fork": s.fork, "Dampers": count(s.legs, "leg"), "Friction": friction, "Fluid": s.fluid,
		"Viscosities": s.viscosities(), "Bore": bore, "Rod": rod, "Ring": ring.In(mm2), "RodArea": ofRod.In(mm2),
		"Clicks": clicks, "Rebound": s.rebound, "Compression": s.compression,
		"Forces": s.forceTable(), "Fade": s.fade(slow), "FastFade": s.fade(1),
		"Shares":   append(s.shareTable("compression, m/s", 1), s.shareTable("rebound, m/s", -1)...),
		"Reynolds": reynolds(slow), "FastReynolds": reynolds(3), "Transition": damping.TransitionReynolds,
		"Mass": s.mass, "Rate": s.rate, "Sag": s.sag.Middle, "Body": s.body, "Ratios": s.ratioTable(),
		"OverFriction": over, "Mean": mean, "Cavitation": s.cavitation(), "Lifts": s.lifts(),
		"What": what, "Percent": fmt.Sprintf("%+.0f", 100*(stiffer-1)), "Ask": ask, "Depth": depth,
		"Usual": usual, "UsualClicks": inClicks(usual), "Own": own, "OwnClicks": inClicks(own), "Click": 100 * slowClick,
		"FastClick": 100 * fastClick, "OutOfReach": math.Log1p(fastClick) < math.Log1p(slowClick)/2,
		"Reached": strings.Join(reached, ", "), "Power": power, "SinePower": sine, "Lump": warming,
		"TimeConstant": lump.TimeConstant().In(units.Minute), "Rise": rise, "Steady": lump.Steady(each),
		"Faded": s.faded(float64(rise), slowClick), "Drop": -drop,
		"Throttled": damping.ThrottlingRise(-drop, o, damping.OilHeat),
	}, nil
}

func (s *study) viscosities() string {
	var list []string
	for _, t := range s.states {
		v := s.oil.Viscosity(units.Celsius(t.celsius)).In(units.SquareMillimeterPerSecond)
		list = append(list, fmt.Sprintf("%.*f mm²/s at %s", max(0, 2-int(math.Floor(math.Log10(v)))), v, t))
	}
	return strings.Join(list, ", ")
}

func (t state) String() string { return typeset.Numbers(fmt.Sprintf("%.0f °C", t.celsius)) }

// row is a name, and a number of each state in compression and in rebound.
func (s *study) row(name string, number func(t state, sign units.Speed) string) []string {
	row := []string{name}
	for _, sign := range []units.Speed{1, -1} {
		for _, t := range s.states {
			row = append(row, number(t, sign))
		}
	}
	return row
}

func celsius(t state, _ units.Speed) string { return t.String() }

func (s *study) forceTable() [][]string {
	rows := [][]string{s.row("m/s", celsius)}
	if s.fork.ID == typicalFork {
		rows[0] = append(rows[0], "typical ±50 %")
	}
	for i, v := range speeds {
		rows = append(rows, s.row(fmt.Sprintf("%.2f", float64(v)), func(t state, sign units.Speed) string {
			return fmt.Sprintf("%.0f", math.Abs(float64(t.fork.Force(sign*v))))
		}))
		if f, ok := typicalForks[v]; ok && s.fork.ID == typicalFork {
			rows[i+1] = append(rows[i+1], fmt.Sprintf("%.0f / %.0f", float64(f[0]), float64(f[1])))
		}
	}
	return rows
}

// fade is the part of the rebound lost with each kelvin from warm to hot, %.
func (s *study) fade(v units.Speed) float64 {
	return -100 * math.Log(float64(s.hot.fork.Force(-v)/s.warm.fork.Force(-v))) / (s.hot.celsius - s.warm.celsius)
}

func (s *study) shareTable(stroke string, sign units.Speed) [][]string {
	head, rows := []string{stroke}, make([][]string, len(parts))
	for _, v := range speeds {
		head = append(head, fmt.Sprintf("%.2f", float64(v)))
		for i, f := range s.warm.leg.shares(sign * v) {
			rows[i] = append(rows[i], fmt.Sprintf("%.0f", 100*math.Abs(float64(f/s.warm.leg.Force(v*sign)))))
		}
	}
	table := [][]string{head}
	for i, row := range rows {
		if strings.Trim(strings.Join(row, ""), "0") != "" { // else it never opens
			table = append(table, append([]string{"  " + parts[i]}, row...))
		}
	}
	return table
}

func (s *study) ratioTable() [][]string {
	rows := [][]string{s.row("", celsius)}
	for _, r := range ranges {
		name := fmt.Sprintf("%.2f to %.2f  %s", float64(r.from), float64(r.to), r.name)
		rows = append(rows, s.row(name, func(t state, sign units.Speed) string {
			return fmt.Sprintf("%.2f", s.body.MeanRatio(t.fork, sign*r.from, sign*r.to))
		}))
	}
	return rows
}

// cavitation is from what speeds the oil tears off, with the usual and with a low pressure behind it.
func (s *study) cavitation() (rows [][]string) {
	for _, t := range s.states {
		row, weak := []string{"  at " + t.String()}, t.leg.Spec()
		weak.Reservoir = units.Absolute(1 * units.Bar)
		low, _ := damping.NewCartridge(weak) // the same parts pass oil under any pressure
		for _, c := range []damping.Cartridge{t.leg.Cartridge, low} {
			compression, rebound := c.Cavitation()
			row = append(row, onset("from", compression), onset("from", rebound))
		}
		rows = append(rows, row)
	}
	return rows
}

// onset is the speed from which something happens.
func onset(word string, v units.Speed) string {
	if v > damping.MaxSpeed {
		return fmt.Sprintf("none up to %.0f", damping.MaxSpeed)
	}
	return fmt.Sprintf("%s %.1f", word, v)
}

// lifts is where plate theory leaves the shims.
func (s *study) lifts() [][]any {
	leg := s.warm.leg
	compression, rebound := leg.lifted()
	return [][]any{{"compression", leg.compression.Crack(), baseFace, onset("at", compression)},
		{"rebound", leg.rebound.Crack(), pistonFace, onset("at", rebound)}}
}

func inClicks(r damping.Rebound) string {
	lo, hi := r.Clicks()
	return fmt.Sprintf("%+.1f to %+.1f clicks, + is firmer", lo, hi)
}

// faded is what a rise in temperature does to the warm damper.
func (s *study) faded(rise, click float64) string {
	hot, err := s.at(s.warm.celsius + rise)
	if err != nil {
		return fmt.Sprintf("in air of %v the oil would be at %v, where it is not known: so much heat boils and "+
			"breaks down oil", s.warm, hot)
	}
	left := func(v units.Speed) float64 { return float64(hot.fork.Force(-v) / s.warm.fork.Force(-v)) }
	return fmt.Sprintf("in air of %v the oil is at %v; %.0f %% of the rebound is left at %.1f and %.0f %% at %.1f, "+
		"as if the "+
		"needle were %s out", s.warm, hot, 100*left(slow), slow, 100*left(fast), fast,
		count(int(math.Round(-math.Log(left(slow))/math.Log1p(click))), "more click"))
}

// count is a number of things.
func count(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return fmt.Sprintf("%d %s", n, what)
}
