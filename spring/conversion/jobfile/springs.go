package jobfile

import (
	"errors"
	"slices"

	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const nmm = units.NewtonPerMillimeter

// A kind is a spring that a table may hold: how it is read, and the key of the faults
// that belong to no other.
type kind struct {
	word string
	main string
	read func(*strict.Table) spring.Adjustable
}

// The first is the kind where none is named; on the shelf it goes by its wire.
var kinds = []kind{
	{spring.KindCoil, "rate", presentCoil},
	{spring.KindStack, "hard", func(t *strict.Table) spring.Adjustable {
		crossover, _ := strict.OptionalQuantity(t, "crossover", strict.Between(1*mm, 400*mm))
		return spring.StackSpec{Soft: coilPart(t.Table("soft")), Hard: coilPart(t.Table("hard")), Crossover: crossover}
	}},
	{spring.KindNested, "inner", func(t *strict.Table) spring.Adjustable {
		return spring.NestedSpec{Outer: coilPart(t.Table("outer")), Inner: coilPart(t.Table("inner"))}
	}},
	{spring.KindProgressive, "groups", func(t *strict.Table) spring.Adjustable {
		var s spring.ProgressiveSpec
		for _, g := range t.Table("groups").Tables() {
			s.Coils = append(s.Coils, spring.CoilGroup{Count: g.Number("coils", 0.25, 100),
				Gap:  strict.Quantity(g, "gap", strict.Between(0.05*mm, 50*mm)),
				Rate: strict.Quantity(g, "coil-rate", strict.Between(1*nmm, 5000*nmm))})
		}
		return s
	}},
	{spring.KindRateTable, "rates", func(t *strict.Table) spring.Adjustable {
		at, rates := strict.Quantities(t, "compressions", strict.Between(0, 1000*mm)), strict.Quantities(t, "rates",
			strict.Between(0.1*nmm, 1000*nmm))
		var s spring.RateTableSpec
		for i := range sameLength(t, "rates", at, rates) {
			s.Rates = append(s.Rates, spring.RatePoint{Compression: at[i], Rate: rates[i]})
		}
		return s
	}},
	{spring.KindMeasured, "forces", func(t *strict.Table) spring.Adjustable {
		const most = 50_000 * units.Newton
		at, forces := strict.Quantities(t, "travels", strict.Between(-10*mm, 500*mm)), strict.Quantities(t, "forces",
			strict.Between(-most, most))
		var s spring.MeasuredSpec
		for i := range sameLength(t, "forces", at, forces) {
			s.Loading = append(s.Loading, spring.Reading{Travel: at[i], Force: forces[i]})
		}
		return s
	}},
}

func coilPart(t *strict.Table) spring.CoilPart {
	return spring.CoilPart{
		Rate:        strict.Quantity(t, "rate", strict.Between(0.1*nmm, 500*nmm)),
		FreeLength:  strict.Quantity(t, "free-length", strict.Between(5*mm, 1000*mm)),
		SolidLength: strict.Quantity(t, "solid-length", strict.Between(1*mm, 1000*mm)),
	}
}

// sameLength is the number of pairs in two lists, which a fault tells if they differ.
func sameLength[A, B any](t *strict.Table, key string, a []A, b []B) int {
	if len(a) != len(b) && len(a) > 0 && len(b) > 0 {
		t.Fault(key, errors.New("want two lists of one length"))
	}
	return min(len(a), len(b))
}

// springKind is what the table says it holds; of a kind that is none no more is read.
func springKind(t *strict.Table) (kind, bool) {
	var words []string
	for _, k := range kinds {
		words = append(words, k.word)
	}
	word, ok := t.OptionalWord("kind", words...)
	if !ok && t.Has("kind") {
		t.Skip()
		return kind{}, false
	}
	return kinds[max(0, slices.Index(words, word))], true
}

// spring reads a spring of that kind and checks it in the longest of forks.
func (k kind) spring(t *strict.Table) spring.Adjustable {
	before := t.Faults()
	s := k.read(t)
	if t.Faults() == before {
		_, err := s.Curve(longestTravel)
		t.FaultFields(k.main, err)
	}
	return s
}

const longestTravel = 400 * mm

// shelfSpring is a spring of the shelf by its curve.
func (d *decoder) shelfSpring(t *strict.Table, k kind) (s spring.Spec, size conversion.SpringSize) {
	s = k.spring(t)
	size = conversion.SpringSize{
		FreeLength:    strict.Quantity(t, "free-length", strict.Between(40*mm, 900*mm)),
		OuterDiameter: strict.Quantity(t, "outer-diameter", strict.Between(8*mm, 80*mm)),
		Mass:          strict.Quantity(t, "mass", strict.Between(10*units.Gram, 5*units.Kilogram)),
	}
	outer := size.OuterDiameter
	if outer == 0 {
		outer = 80 * mm // a fault already
	}
	if inner := strict.Between(5*mm, outer); d.file.Fork.Kit.Guide.Value > 0 {
		size.InnerDiameter = strict.Quantity(t, "inner-diameter", inner) // to pass the guide
	} else {
		size.InnerDiameter, _ = strict.OptionalQuantity(t, "inner-diameter", inner)
	}
	if id, ok := t.OptionalText("material"); ok {
		if material, err := d.set.Material(id); err != nil {
			t.Fault("material", err)
		} else {
			size.Density = material.Density.Value
		}
	}
	return s, size
}

// shelfCoil is a coil of the shelf by its wire.
func (d *decoder) shelfCoil(t *strict.Table) (rate units.Stiffness, spread units.Share, wire helical.Spec) {
	before := t.Faults()
	labeledRate, spreadOf := labeled(t)
	rate = labeledRate
	wire = helical.Spec{
		Wire:          strict.Quantity(t, "wire", strict.Between(1*mm, 12*mm)),
		OuterDiameter: strict.Quantity(t, "outer-diameter", strict.Between(8*mm, 80*mm)),
		ActiveCoils:   t.Number("active-coils", 2, 100),
		FreeLength:    strict.Quantity(t, "free-length", strict.Between(40*mm, 900*mm)),
	}
	id := t.Text("material")
	if id == "" {
		return rate, spread, wire
	}
	material, err := d.set.Material(id)
	if err == nil {
		wire.Material, err = material.Wire()
	}
	if err != nil {
		t.Fault("material", err)
	}
	if t.Faults() == before {
		s, err := helical.New(wire)
		t.FaultFields("outer-diameter", err) // on which the rest depends
		if err == nil {
			spread = spreadOf(s)
		}
	}
	return rate, spread, wire
}

// presentSprings puts the springs of the table present into the legs, in place of the main
// springs of the record.
func (d *decoder) presentSprings(t *strict.Table) {
	if t == nil {
		return
	}
	for _, leg := range []struct {
		key  string
		legs []*setup.Leg
	}{
		{"left", []*setup.Leg{&d.file.Job.Present.Left}}, {"right", []*setup.Leg{&d.file.Job.Present.Right}},
		{"both", []*setup.Leg{&d.file.Job.Present.Left, &d.file.Job.Present.Right}},
	} {
		in := t.OptionalTable(leg.key)
		if in == nil {
			continue
		}
		if leg.key == "both" && (t.Has("left") || t.Has("right")) {
			t.Fault("both", errors.New("want both alone, or left and right"))
		}
		k, ok := springKind(in)
		if !ok {
			continue
		}
		s := k.spring(in)
		preload := strict.Quantity(in, "preload", strict.Between(0, 60*mm))
		for _, l := range leg.legs {
			springs := []spring.Spec{s.Adjusted(1, preload)}
			for _, other := range l.Springs {
				if _, main := other.(spring.Adjustable); !main {
					springs = append(springs, other)
				}
			}
			l.Springs = springs
		}
	}
}

func presentCoil(t *strict.Table) spring.Adjustable {
	s := spring.CoilSpec{Rate: strict.Quantity(t, "rate", strict.Between(0.5*nmm, 100*nmm))}
	free, bound := strict.OptionalQuantity(t, "free-length", strict.Between(40*mm, 900*mm))
	if bound || t.Has("solid-length") {
		s.FreeLength, s.SolidLength = free, strict.Quantity(t, "solid-length", strict.Between(10*mm, 900*mm))
		if !bound {
			t.Fault("solid-length", errors.New("want free-length beside it"))
		}
	}
	return s
}
