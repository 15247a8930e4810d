package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/units"
)

// tables prints the dataset.
type tables struct {
	printer
	*catalog
	models []*model
}

func (c *catalog) tables(models []*model) string {
	t := &tables{catalog: c, models: models}
	t.head()
	t.forks()
	t.disciplines()
	t.materials()
	t.fluids()
	t.gases()
	t.legend()
	return t.String()
}

func (t *tables) head() {
	t.line("CATALOG OF GENERIC FORKS")
	t.line(fmt.Sprintf("%d forks; none is a fork of any maker", len(t.models)))
	t.line(strings.Repeat("=", width))
	t.paragraph("Tube is the stanchion's outer diameter, trvl the travel; upr: upright, inv: inverted. ×2: one in each leg. Sag and body frequency are those of the typical rider by the library's own model, set up at sea level in the standard atmosphere: sag at rest without friction, frequency as ridden. The last four columns say where the values come from, in percent of them: D documents, P common practice, M memory, C calculated or tuned (legend at the end). Show a fork with -id.")
}

func (t *tables) paragraph(text string) { t.named(0, "", text) }

func (t *tables) forks() {
	byUse := map[string][]*model{}
	var uses []string
	for _, m := range t.models {
		if byUse[m.Use] == nil {
			uses = append(uses, m.Use)
		}
		byUse[m.Use] = append(byUse[m.Use], m)
	}
	slices.SortFunc(uses, func(a, b string) int { return strings.Compare(byUse[a][0].ID, byUse[b][0].ID) })
	t.section(typeset.Pad("FORKS", 30) + "   tube trvl                  sag body   values, %")
	t.line(typeset.Pad("", 30) + "    mm  mm spring            mm  %  Hz  D  P  M  C")
	for _, use := range uses {
		name := use
		if d, err := t.Discipline(use); err == nil {
			name = fmt.Sprintf("%s (%s)", d.Name, use)
		}
		t.line("\n" + name)
		for _, m := range byUse[use] {
			t.fork(m)
		}
	}
}

func (t *tables) fork(m *model) {
	layout := map[string]string{"upright": "upr", "inverted": "inv"}[m.Layout.String()]
	name, _, _ := strings.Cut(m.Name, ",")
	n := t.count(m.Values())
	id := m.ID
	if typeset.Count(id) > 3 { // of one's own
		t.line(id)
		id = ""
	}
	t.line(typeset.Pad(id, 4) + typeset.Pad(cut(name, 25), 26) + layout +
		fmt.Sprintf("%3.0f%4.0f ", mm(m.Stanchion.Value), mm(m.Travel.Value)) + typeset.Pad(cut(sprung(m.Fork), 17),
		17) +
		fmt.Sprintf("%3.0f%3.0f%4.1f", mm(m.sag.Middle), m.share(m.sag.Middle), m.body.In(units.Hertz)) +
		fmt.Sprintf("%3.0f%3.0f%3.0f%3.0f", n.percent(document), n.percent(practice), n.percent(memory),
			n.percent(derived)))
}

// plain is a length in millimeters without the unit.
func plain(l units.Length) string { return strings.TrimSuffix(l.String(), " mm") }

// sprung says what a fork stands on.
func sprung(f data.Fork) string {
	var words []string
	for _, l := range []data.Leg{f.Left, f.Right} {
		switch {
		case l.Role.HasCoil():
			words = append(words, "coil "+l.Coil.Rate.Value.String())
		case l.Role.HasAir():
			words = append(words, "air "+l.Air.Pressure.Value.String())
		}
	}
	if len(words) == 2 && words[0] == words[1] {
		return words[0] + " ×2"
	}
	return strings.Join(words, ", ")
}

func (t *tables) disciplines() {
	t.section(typeset.Pad("DISCIPLINES", 22) + "       sag with rider  sag of machine preload friction")
	t.line(typeset.Pad("", 22) + "        %        mm          alone      mm  zone mm  by")
	for d := range t.Disciplines() {
		alone := "-"
		if d.MachineSag.Given() {
			alone = percents(d.MachineSag) + " %"
		} else if d.MachineSagLength.Given() {
			alone = lengths(d.MachineSagLength) + " mm"
		}
		t.line("  " + typeset.Pad(d.ID, 22) + typeset.Lead(percents(d.Sag), 8) +
			typeset.Lead(lengths(d.SagLength), 10) + typeset.Lead(alone, 15) +
			typeset.Lead(lengths(d.Preload), 8) + typeset.Lead(lengths(d.FrictionZone),
			9) + "  " + t.count(d.Values()).letters())
	}
}

func lengths(r data.Range[units.Length]) string {
	if !r.Given() {
		return "-"
	}
	return plain(r.Lo) + "-" + plain(r.Hi)
}

func percents(r data.Range[units.Share]) string {
	if !r.Given() {
		return "-"
	}
	return fmt.Sprintf("%.0f-%.0f", r.Lo.In(units.Percent), r.Hi.In(units.Percent))
}

func (t *tables) materials() {
	t.section(typeset.Pad("SPRING WIRES", 40) + " G   density   wire    strength, MPa")
	t.line(typeset.Pad("", 40) + "GPa  kg/m³      mm     3 mm 5 mm 8 mm by")
	for m := range t.Materials() {
		wire, err := m.Wire()
		row := "  " + typeset.Pad(m.ID, 14) + typeset.Pad(cut(cmp.Or(m.Standard, m.Name), 22), 23) +
			typeset.Lead(fmt.Sprintf("%.1f", m.ShearModulus.Value.In(units.Gigapascal)), 5) +
			typeset.Lead(fmt.Sprintf("%.0f", m.Density.Value.In(units.KilogramPerCubicMeter)), 6)
		thickest := m.Thickest.Value
		if m.UpTo.Given() {
			thickest = m.UpTo.Values[len(m.UpTo.Values)-1]
		}
		row += typeset.Lead(plain(m.Thinnest.Value)+"-"+plain(thickest), 11) + " "
		for _, d := range []units.Length{3 * units.Millimeter, 5 * units.Millimeter, 8 * units.Millimeter} {
			text := "-"
			if err == nil && d >= m.Thinnest.Value && d <= thickest {
				text = fmt.Sprintf("%.0f", wire.TensileStrength(d).In(units.Megapascal))
			}
			row += typeset.Lead(text, 5)
		}
		t.line(row + " " + t.count(m.Values()).letters())
	}
}

func (t *tables) fluids() {
	t.section(typeset.Pad("DAMPER OILS", 38) + " at 40 °C     class  density  VI")
	t.line(typeset.Pad("", 38) + "   mm²/s     mm²/s    kg/m³      by")
	for f := range t.Fluids() {
		vi := "-"
		if f.Index.Given() {
			vi = fmt.Sprintf("%.0f", f.Index.Value)
		}
		st := units.SquareMillimeterPerSecond
		t.line("  " + typeset.Pad(f.ID, 12) + typeset.Pad(cut(f.Name, 23), 24) +
			typeset.Lead(fmt.Sprintf("%.1f", f.Viscosity.Value.In(st)), 8) +
			typeset.Lead(fmt.Sprintf("%.1f-%.1f", f.Viscosities.Lo.In(st), f.Viscosities.Hi.In(st)), 13) +
			typeset.Lead(fmt.Sprintf("%.0f", f.Density.Value.In(units.KilogramPerCubicMeter)), 7) + typeset.Lead(vi,
			5) +
			"  " + t.count(f.Values()).letters())
	}
}

func (t *tables) gases() {
	t.section(typeset.Pad("GASES", 38) + " density   exponent n")
	t.line(typeset.Pad("", 38) + "   kg/m³   fast ridden  by")
	for g := range t.Gases() {
		t.line("  " + typeset.Pad(g.ID, 12) + typeset.Pad(g.Name, 24) +
			typeset.Lead(fmt.Sprintf("%.3f", g.Density.Value.In(units.KilogramPerCubicMeter)), 8) +
			fmt.Sprintf("%7.2f%7.2f", g.Adiabatic.Value, g.Ride.Value) + "  " + t.count(g.Values()).letters())
	}
}

func (t *tables) legend() {
	t.section("WHERE VALUES COME FROM" + typeset.Lead("values of the forks above", width-22))
	var all counts
	for _, m := range t.models {
		for g, n := range t.count(m.Values()) {
			all[g] += n
		}
	}
	for g, l := range legend {
		head := "  " + l.letter + "  " + typeset.Pad(l.name, 12)
		for i, text := range typeset.Wrap(l.means, 51) {
			tail := ""
			if i == 0 {
				tail = typeset.Lead(fmt.Sprintf("%d, %.0f %%", all[g], all.percent(grade(g))), width-17-51)
			} else {
				head = typeset.Pad("", 17)
			}
			t.line(head + typeset.Pad(text, 51) + tail)
		}
	}
	t.paragraph("")
	t.paragraph("A value of the fork at hand outranks all of these. What is tuned is consistent because it was made so, which proves nothing.")
}
