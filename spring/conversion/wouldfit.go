package conversion

import (
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// WouldFit is a spring to look for, or to have made, where the shelf holds none that is safe:
// one for each converted leg.
type WouldFit struct {
	RateLeast units.Stiffness `json:"rate_least"` // a step of the usual racks either way of the rate asked for
	RateMost  units.Stiffness `json:"rate_most"`  // of one spring

	OuterMost  units.Length `json:"outer_most"`  // diameter with the coils closed
	InnerLeast units.Length `json:"inner_least"` // 0: nothing is within the spring
	LengthMost units.Length `json:"length_most"` // free, at the least preload

	Designed bool `json:"designed"` // the rest is such a spring, in the wire of the shelf; false: none was found

	Rate          units.Stiffness `json:"rate"`           // of one spring
	Wire          units.Length    `json:"wire"`           // diameter
	OuterDiameter units.Length    `json:"outer_diameter"` // when free
	ActiveCoils   float64         `json:"active_coils"`   // that move
	FreeLength    units.Length    `json:"free_length"`    // without load
	BindMargin    units.Length    `json:"bind_margin"`    // at full travel and the most preload
}

// wouldFit is what goes into the tightest leg, with a spring of the rate asked for in the wire of
// the shelf where one can be designed.
func (p *planner) wouldFit(asked units.Stiffness) *WouldFit {
	each, room := asked/units.Stiffness(len(p.Legs)), p.Legs[0].Room
	for _, l := range p.Legs {
		tighter := l.clearance() - SpringClearance // than the design leaves
		room.Length, room.Bore = min(room.Length, l.Room.Length), min(room.Bore, l.Room.Bore-max(0, tighter))
		if l.Room.Guide > 0 {
			room.Guide = max(room.Guide, l.Room.Guide+max(0, tighter))
		}
	}
	fit := &WouldFit{RateLeast: each / (1 + RateShare), RateMost: each * (1 + RateShare),
		OuterMost: room.Bore - SpringClearance, LengthMost: room.Length + p.leastPreload()}
	if room.Guide > 0 {
		fit.InnerLeast = room.Guide + SpringClearance
	}
	for _, s := range p.parts {
		if s.wire == nil {
			continue
		}
		d, err := helical.ForkSpec{Rate: asked, Travel: p.Fork.Travel, PreloadLeast: p.leastPreload(),
			PreloadAim: max(p.Preload.Aim, p.leastPreload()), PreloadMost: max(p.Preload.Max, p.leastPreload()),
			Room: room.Length, Bore: room.Bore, Rod: room.Guide, Material: s.wire.Material()}.Design(len(p.Legs))
		if err != nil || d.Reason != nil {
			continue
		}
		w := d.Spring
		fit.Designed, fit.Rate, fit.Wire, fit.OuterDiameter = true, w.Rate(), w.Wire(), w.OuterDiameter()
		fit.ActiveCoils, fit.FreeLength = w.ActiveCoils(), w.FreeLength()
		fit.BindMargin = w.BindMargin(p.Fork.Travel + d.Spec.Preload)
		break
	}
	return fit
}
