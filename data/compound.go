package data

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// Compound makes the coil of a leg part of a spring of more than one rate, or has the curve of
// the spring in place of a single rate.
type Compound struct {
	Kind string // "" for none, or one of compoundKinds

	// The second spring of a stack, on or under the coil, or of nested ones, inside it.
	Rate        Value[units.Stiffness]
	FreeLength  Value[units.Length]
	SolidLength Value[units.Length]
	Crossover   Value[units.Length] // compression at which a sleeve bridges the softer one of a stack; left out: it closes

	Table Value[Table] // of the other kinds
}

var compoundKinds = []string{
	spring.KindStack,       // two springs end to end
	spring.KindNested,      // one spring inside another, on the same seats
	spring.KindProgressive, // one spring wound with more than one pitch
	spring.KindRateTable,   // one spring by its rates at some compressions
	spring.KindMeasured,    // one spring by its forces at some compressions
}

// Table is pairs in a text, with commas: of a progressive spring the active coils and the
// clear gap between them, as "8 of 2.5 mm, 17 of 7 mm"; of a rate table the rates and from
// which compression on, as "5 N/mm from 0 mm, 8 N/mm from 80 mm", a straight line from each to
// the next; of a measured spring the forces, as "0 N at 0 mm, 420 N at 80 mm".
type Table string

var errTable = errors.New(`want pairs with commas, as "8 of 2.5 mm, 17 of 7 mm" of coils and gaps, ` +
	`"5 N/mm from 0 mm, 8 N/mm from 80 mm" of rates and compressions, or "0 N at 0 mm, 420 N at 80 mm" of forces`)

// pairs are the pairs of a table around a word.
func pairs[A, B any](t Table, word string,
	a func(string) (A, error), b func(string) (B, error), take func(A, B)) error {
	for pair := range strings.SplitSeq(string(t), ",") {
		left, right, ok := strings.Cut(strings.TrimSpace(pair), " "+word+" ")
		if !ok {
			return errTable
		}
		x, err := a(left)
		if err != nil {
			return fmt.Errorf("%w: %w", errTable, err)
		}
		y, err := b(right)
		if err != nil {
			return fmt.Errorf("%w: %w", errTable, err)
		}
		take(x, y)
	}
	return nil
}

// Spec is the spring of the leg, of which the coil is a part.
func (c Compound) Spec(coil Coil) (spring.Spec, error) {
	whole := spring.CoilSpec{
		Rate: coil.Rate.Value, Preload: coil.Preload.Value,
		FreeLength: coil.FreeLength.Value, SolidLength: coil.SolidLength(),
	}
	one := spring.CoilPart{Rate: whole.Rate, FreeLength: whole.FreeLength, SolidLength: whole.SolidLength}
	other := spring.CoilPart{Rate: c.Rate.Value, FreeLength: c.FreeLength.Value, SolidLength: c.SolidLength.Value}
	switch c.Kind {
	case spring.KindStack:
		soft, hard := one, other
		if other.Rate < one.Rate {
			soft, hard = other, one
		}
		return spring.StackSpec{Soft: soft, Hard: hard, Crossover: c.Crossover.Value, Preload: whole.Preload}, nil
	case spring.KindNested:
		return spring.NestedSpec{Outer: one, Inner: other, Preload: whole.Preload}, nil
	case spring.KindProgressive:
		s := spring.ProgressiveSpec{Preload: whole.Preload}
		single := units.Stiffness(coil.ActiveCoils.Value) * coil.Rate.Value
		number := func(text string) (float64, error) { return strconv.ParseFloat(text, 64) }
		err := pairs(c.Table.Value, "of", number, units.Parse[units.Length], func(n float64, gap units.Length) {
			s.Coils = append(s.Coils, spring.CoilGroup{Count: n, Gap: gap, Rate: single})
		})
		return s, err
	case spring.KindRateTable:
		s := spring.RateTableSpec{Preload: whole.Preload}
		err := pairs(c.Table.Value, "from", units.Parse[units.Stiffness], units.Parse[units.Length],
			func(k units.Stiffness, y units.Length) {
				s.Rates = append(s.Rates, spring.RatePoint{Compression: y, Rate: k})
			})
		return s, err
	case spring.KindMeasured:
		s := spring.MeasuredSpec{Preload: whole.Preload}
		err := pairs(c.Table.Value, "at", units.Parse[units.Force], units.Parse[units.Length],
			func(f units.Force, y units.Length) {
				s.Loading = append(s.Loading, spring.Reading{Travel: y, Force: f})
			})
		return s, err
	}
	return whole, nil
}

// Working is how the coil of a leg works in a fork compressed by x.
type Working struct {
	Compression units.Length // of the coil itself
	Force       units.Force  // that it bears
	Open        float64      // share of its active coils that have not closed by then
}

// Working is how the coil of the leg works in a fork of that travel at x: alone, as all of a
// spring of more than one rate, or as one of two. The error is that of Spec, or says what keeps
// the springs from being made.
func (l Leg) Working(travel, x units.Length) (Working, error) {
	coil, second := l.Coil, l.Compound
	spec, err := second.Spec(coil)
	if err != nil {
		return Working{}, err
	}
	curve, err := spec.Curve(travel)
	if err != nil {
		return Working{}, err
	}
	w := Working{Compression: coil.Preload.Value + x, Force: curve.Force(x), Open: 1}
	switch second.Kind {
	case spring.KindStack: // both bear the same
		solid := coil.FreeLength.Value - coil.SolidLength()
		w.Compression = min(units.Length(float64(w.Force)/float64(coil.Rate.Value)), solid)
	case spring.KindNested: // on the same seats
		w.Compression -= max(0, second.FreeLength.Value-coil.FreeLength.Value)
		w.Force = units.Force(float64(coil.Rate.Value) * max(0, float64(w.Compression)))
	case spring.KindProgressive, spring.KindRateTable, spring.KindMeasured:
		w.Open = min(1, float64(coil.Rate.Value/curve.Rate(x))) // rate goes with one over the coils
	}
	return w, nil
}

// Stiffer is the table with every rate or force multiplied. Of a progressive spring, which has its rates from the
// coil, and of two springs it stays.
func (c Compound) Stiffer(by float64) (Table, error) {
	var rows []string
	var err error
	switch c.Kind {
	case spring.KindRateTable:
		err = pairs(c.Table.Value, "from", units.Parse[units.Stiffness], units.Parse[units.Length],
			func(k units.Stiffness, y units.Length) {
				rows = append(rows, fmt.Sprintf("%.4g N/mm from %v", by*k.In(nmm), y))
			})
	case spring.KindMeasured:
		err = pairs(c.Table.Value, "at", units.Parse[units.Force], units.Parse[units.Length],
			func(f units.Force, y units.Length) {
				rows = append(rows, fmt.Sprintf("%.4g N at %v", by*f.In(units.Newton), y))
			})
	default:
		return c.Table.Value, nil
	}
	return Table(strings.Join(rows, ", ")), err
}

func (c *Compound) fields(w *walk, f *Fork, coil Coil) {
	word(w, "kind", &c.Kind, compoundKinds...)
	two := need(c.Kind == spring.KindStack || c.Kind == spring.KindNested)
	quantity(w, "rate", two, &c.Rate, 0.1*nmm, 500*nmm)
	quantity(w, "free-length", two, &c.FreeLength, 5*mm, 1000*mm)
	quantity(w, "solid-length", two, &c.SolidLength, 1*mm, 1000*mm)
	quantity(w, "crossover", optional, &c.Crossover, 0, 400*mm)
	coded(w, "table", !two, &c.Table, func(Table) error { return nil })
	if !w.sound() || !coil.Rate.Given() {
		return
	}
	if s, err := c.Spec(coil); err != nil {
		w.in.Fault("table", err)
	} else if curve, err := s.Curve(f.Travel.Value); err != nil {
		w.in.Fault("kind", fmt.Errorf("makes no spring: %w", err))
	} else if curve.Stroke() < f.Travel.Value {
		w.in.Fault("kind", fmt.Errorf("want a spring for all the travel; this one ends at %.0f mm", curve.Stroke().In(mm)))
	}
}
