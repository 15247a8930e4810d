package jobfile

import (
	"errors"
	"fmt"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// A typical shelf spreads so many rates over those of the record, and somewhat beyond
// them: the record's follow from the sag, and energy may ask for more.
const (
	typicalRates = 9
	below, above = 0.9, 1.15
)

func (d *decoder) shelfTable(t *strict.Table) {
	if d.root.HasTable("shelf") && len(t.Keys()) == 0 {
		d.root.Fault("shelf", errors.New("empty; want a table for each coil, as [shelf.a]"))
	}
	t.Limit(conversion.MaxShelf)
	tables := make(map[string]string) // by the name of their coil
	for name, t := range t.Tables() {
		entry := conversion.ShelfCoil{Name: name}
		if label, ok := t.OptionalText("name"); ok {
			entry.Name = label
		}
		if other, taken := tables[entry.Name]; taken {
			t.Fault("name", fmt.Errorf("%q is the name of the coil in [shelf.%s] too; want another", entry.Name, other))
		}
		tables[entry.Name] = name
		switch k, ok := springKind(t); {
		case !ok:
			continue
		case k.word == spring.KindCoil:
			entry.Rate, entry.Spread, entry.Wire = d.shelfCoil(t)
		default:
			entry.Spring, entry.Size = d.shelfSpring(t, k)
		}
		d.file.Job.Shelf = append(d.file.Job.Shelf, entry)
	}
}

// designedShelf is for a plan that starts without a fork to replace: any rate is open.
func (d *decoder) designedShelf() {
	if !d.fork || len(d.file.Job.Legs) == 0 {
		return // a fault by now
	}
	wire, err := d.set.Wire(usualWire)
	if err == nil {
		d.file.Job.Heading.Designed = true
		d.file.Job.Shelf, err = shelf(d.file.Fork, len(d.file.Job.Legs), wire)
	}
	if err != nil {
		d.root.Fault("shelf", err)
	}
}

// shelf is a row of springs designed for the kit, for a coil fork one of the rate it has
// among them.
func shelf(fork data.Fork, legs int, wire helical.Material) ([]conversion.ShelfCoil, error) {
	kit := fork.Kit
	var coils []conversion.ShelfCoil
	var last error
	lo, hi := below*kit.Rate.Lo/units.Stiffness(legs), above*kit.Rate.Hi/units.Stiffness(legs)
	step := (hi - lo) / (typicalRates - 1)
	for i := range typicalRates {
		rate := lo + step*units.Stiffness(i)
		if now := fork.Left.Coil.Rate.Value; now > rate-step/2 && now <= rate+step/2 {
			rate = now
		}
		s, err := design(kit, fork.Travel.Value, rate, wire)
		if err != nil {
			last = err
			continue
		}
		coils = append(coils, conversion.ShelfCoil{Name: strings.TrimSuffix(fmt.Sprintf("%.2f", rate), " N/mm"), Rate: rate,
			Wire: helical.Spec{Wire: s.Wire(), OuterDiameter: s.OuterDiameter(), ActiveCoils: s.ActiveCoils(),
				FreeLength: s.FreeLength(), Material: s.Material()}})
	}
	if len(coils) == 0 {
		return nil, fmt.Errorf("fork %s: no spring for its kit: %w", fork.ID, last)
	}
	return coils, nil
}

// design is a spring for the kit, made for its most preload, or where that does
// not fit for the one aimed for.
func design(kit data.Kit, travel units.Length, rate units.Stiffness, wire helical.Material) (helical.Spring, error) {
	spec := helical.DesignSpec{Rate: rate, Stroke: travel, Preload: kit.Preload.Hi, Bore: kit.Bore.Value,
		Rod:        kit.Guide.Value,
		FreeLength: kit.Room.Value + kit.Preload.Lo, Material: wire}
	s, err := helical.Design(spec)
	if err != nil {
		spec.Preload = kit.PreloadAim.Value
		s, err = helical.Design(spec)
	}
	return s, err
}
