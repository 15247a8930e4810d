package main

import (
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// stack is what an air cylinder holds from its top down, at full extension.
type stack struct {
	m                          *model
	side                       setup.Side
	bore, rod                  float64 // radii
	second, positive, negative float64 // lengths of the chambers: volume over section
	balance                    float64 // schematic length of a balance coil at full extension
}

// newStack measures the air cylinder of a leg; false if there is none.
func newStack(m *model, side setup.Side) (stack, bool) {
	leg := m.legs()[side]
	c, ok := m.chambers(side, 0, gas.Isothermal)
	if !ok || wholeLeg(m, leg) {
		return stack{}, false
	}
	s := stack{m: m, side: side, bore: radius(leg.Air.Bore.Value), rod: radius(leg.Air.Rod.Value)}
	s.second, s.positive = mm3(c.second)/circle(s.bore), mm3(c.positive)/circle(s.bore)
	s.negative = max(mm3(c.negative)/(circle(s.bore)-circle(s.rod)), 4)
	if leg.Air.BalanceRate.Given() {
		s.balance = balanceLength(leg.Air.BalanceLength.Value)
		s.negative = max(s.negative, s.balance)
	}
	return s, true
}

// balanceLength is the schematic length of a balance coil while it is compressed.
func balanceLength(stroke units.Length) float64 { return 0.4*mm(stroke) + 10 }

// length of the cylinder with its seal head.
func (s stack) length() float64 {
	l := s.positive + pistonLength + s.negative + headLength
	if s.second > 0 {
		l += s.second + pistonLength
	}
	return l
}

// at is the chambers at a travel.
func (s stack) at(x float64) (second, positive float64, c chambers) {
	c, _ = s.m.chambers(s.side, units.Length(x)*units.Millimeter, gas.Isothermal)
	return mm3(c.second) / circle(s.bore), mm3(c.positive) / circle(s.bore), c
}
