package conversion

import (
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// WouldFit is a spring to look for, or to have made, where the shelf holds none that is safe:
// one for each converted leg.
type WouldFit struct {
	Rate          units.Stiffness `json:"rate"`
	Wire          units.Length    `json:"wire"`
	OuterDiameter units.Length    `json:"outer_diameter"`
	ActiveCoils   float64         `json:"active_coils"`
	FreeLength    units.Length    `json:"free_length"`
	BindMargin    units.Length    `json:"bind_margin"` // at full travel and the most preload
}

// wouldFit designs a spring of the rate asked for, in the wire of the shelf and the room of the
// tightest leg; nil where none fits or the shelf names no wire.
func (p *planner) wouldFit(asked units.Stiffness) *WouldFit {
	room := p.Legs[0].Room
	for _, l := range p.Legs {
		room.Length, room.Bore = min(room.Length, l.Room.Length), min(room.Bore, l.Room.Bore)
		room.Guide = max(room.Guide, l.Room.Guide)
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
		return &WouldFit{Rate: w.Rate(), Wire: w.Wire(), OuterDiameter: w.OuterDiameter(), ActiveCoils: w.ActiveCoils(),
			FreeLength: w.FreeLength(), BindMargin: w.BindMargin(p.Fork.Travel + d.Spec.Preload)}
	}
	return nil
}
