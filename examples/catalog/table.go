package main

import (
	"cmp"
	"fmt"
	"maps"
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
	t.evidence()
	t.fields()
	t.legend()
	return t.String()
}

func (t *tables) head() {
	t.line("CATALOG OF GENERIC FORKS")
	t.line("%d forks; none is a fork of any maker", len(t.models))
	t.line("%s", strings.Repeat("=", width))
	t.paragraph(`Tube is the stanchion's outer diameter, trvl the travel; upr: upright, inv: inverted. ×2: one in each
leg. Sag and body frequency are those of the typical rider by the library's own model, set up at sea level in the
standard atmosphere: sag at rest without friction, frequency as ridden. The last four columns say where the values
come from, in percent of them: D documents, P common practice, T tuned, M memory (legend at the end). Show a fork
with -id.`)
}

func (t *tables) forks() {
	byUse := map[string][]*model{}
	for _, m := range t.models {
		byUse[m.Use] = append(byUse[m.Use], m)
	}
	first := func(a, b string) int { return strings.Compare(byUse[a][0].ID, byUse[b][0].ID) }
	t.line("\n%-30s   tube trvl                  sag body   values, %%", "FORKS")
	t.line("%-30s    mm  mm spring            mm  %%  Hz  D  P  T  M", "")
	for _, use := range slices.SortedFunc(maps.Keys(byUse), first) {
		if d, err := t.Discipline(use); err == nil {
			t.line("\n%s (%s)", d.Name, use)
		} else {
			t.line("\n%s", use)
		}
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
		t.line("%s", id)
		id = ""
	}
	t.line("%-4s%-26s%s%3.0f%4.0f %-17s%3.0f%3.0f%4.1f%3.0f%3.0f%3.0f%3.0f", id, typeset.Plain(name, 25), layout,
		mm(m.Stanchion.Value), mm(m.Travel.Value), typeset.Plain(sprung(m.Fork), 17), mm(m.sag.Middle),
		m.share(m.sag.Middle),
		m.body.In(units.Hertz), n.percent(document), n.percent(practice), n.percent(tuned), n.percent(memory))
}

// sprung says what a fork stands on.
func sprung(f data.Fork) string {
	var words []string
	for _, l := range []data.Leg{f.Left, f.Right} {
		switch {
		case l.Role.HasCoil():
			words = append(words, wound(f, l))
		case l.Role.HasAir():
			words = append(words, "air "+l.Air.Pressure.Value.String())
		}
	}
	if len(words) == 2 && words[0] == words[1] {
		return words[0] + " ×2"
	}
	return strings.Join(words, ", ")
}

// wound is the spring of a leg with its rate, of one that has several the first.
func wound(f data.Fork, l data.Leg) string {
	if l.Compound.Kind == "" {
		return "coil " + l.Coil.Rate.Value.String()
	}
	var first units.Stiffness
	if spec, err := l.Compound.Spec(l.Coil); err == nil {
		if curve, err := spec.Curve(f.Travel.Value); err == nil {
			first = curve.Rate(0)
		}
	}
	kind := strings.NewReplacer("rate-", "", "progressive", "progr").Replace(l.Compound.Kind) // the column is narrow
	return fmt.Sprintf("%s %.2g", kind, first)
}

func (t *tables) disciplines() {
	t.line("\n%-22s       sag with rider  sag of machine preload friction", "DISCIPLINES")
	t.line("%-22s        %%        mm          alone      mm  zone mm  by", "")
	for d := range t.Disciplines() {
		alone := "-"
		if d.MachineSag.Given() {
			alone = percents(d.MachineSag) + " %"
		} else if d.MachineSagLength.Given() {
			alone = lengths(d.MachineSagLength) + " mm"
		}
		t.line("  %-22s%8s%10s%15s%8s%9s  %s", d.ID, percents(d.Sag), lengths(d.SagLength), alone, lengths(d.Preload),
			lengths(d.FrictionZone), t.count(d.Values()).letters())
	}
}

// plain is a length in millimeters without the unit.
func plain(l units.Length) string { return strings.TrimSuffix(l.String(), " mm") }

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
	t.line("\n%-40s G   density   wire    strength, MPa", "SPRING WIRES")
	t.line("%-40sGPa  kg/m³      mm     3 mm 5 mm 8 mm by", "")
	for m := range t.Materials() {
		wire, err := m.Wire()
		thickest := m.Thickest.Value
		if m.UpTo.Given() {
			thickest = m.UpTo.Values[len(m.UpTo.Values)-1]
		}
		strength := ""
		for _, d := range []units.Length{3 * units.Millimeter, 5 * units.Millimeter, 8 * units.Millimeter} {
			text := "-"
			if err == nil && d >= m.Thinnest.Value && d <= thickest {
				text = fmt.Sprintf("%.0f", wire.TensileStrength(d).In(units.Megapascal))
			}
			strength += fmt.Sprintf("%5s", text)
		}
		t.line("  %-14s%-23s%5.1f%6.0f%11s %s %s", m.ID, typeset.Plain(cmp.Or(m.Standard, m.Name), 22),
			m.ShearModulus.Value.In(units.Gigapascal), m.Density.Value.In(units.KilogramPerCubicMeter),
			plain(m.Thinnest.Value)+"-"+plain(thickest), strength, t.count(m.Values()).letters())
	}
}

func (t *tables) fluids() {
	t.line("\n%-38s at 40 °C     class  density  VI", "DAMPER OILS")
	t.line("%-38s   mm²/s     mm²/s    kg/m³      by", "")
	for f := range t.Fluids() {
		vi := "-"
		if f.Index.Given() {
			vi = fmt.Sprintf("%.0f", f.Index.Value)
		}
		const st = units.SquareMillimeterPerSecond
		class := fmt.Sprintf("%.1f-%.1f", f.Viscosities.Lo.In(st), f.Viscosities.Hi.In(st))
		t.line("  %-12s%-24s%8.1f%13s%7.0f%5s  %s", f.ID, typeset.Plain(f.Name, 23), f.Viscosity.Value.In(st), class,
			f.Density.Value.In(units.KilogramPerCubicMeter), vi, t.count(f.Values()).letters())
	}
}

func (t *tables) gases() {
	t.line("\n%-38s density   exponent n", "GASES")
	t.line("%-38s   kg/m³   fast ridden  by", "")
	for g := range t.Gases() {
		t.line("  %-12s%-24s%8.3f%7.2f%7.2f  %s", g.ID, g.Name, g.Density.Value.In(units.KilogramPerCubicMeter),
			g.Adiabatic.Value, g.Ride.Value, t.count(g.Values()).letters())
	}
}

// evidence counts the measured and published vehicles and the classes.
func (t *tables) evidence() {
	t.line("\n%-44svalues by grade", "EVIDENCE")
	for f := range t.Specimens() {
		t.proof(f)
	}
	for f := range t.Classes() {
		t.proof(f)
	}
}

func (t *tables) proof(f data.Fork) {
	n := t.count(f.Evidence())
	t.line("  %-28s%-42s%3d  %s", f.ID, typeset.Plain(f.Name, 41), n.total(), n.letters())
}

// fields says by field what the values of the forks are worth, and how many have a spread
// of their own in place of the judgment for the field.
func (t *tables) fields() {
	type row struct {
		counts
		own, spread int
	}
	rows := map[string]*row{}
	for _, m := range t.models {
		for _, v := range t.Graded(m.Values()) {
			if v.Grade == "" {
				continue
			}
			name := strings.TrimPrefix(strings.TrimPrefix(v.Key, "left."), "right.")
			if rows[name] == nil {
				rows[name] = new(row)
			}
			r := rows[name]
			r.counts[gradeOf(v.Grade)]++
			if v.SD != "" || v.Low != "" {
				r.spread++
				if v.Judged == "" {
					r.own++
				}
			}
		}
	}
	t.line("\n%-36svalues   D   P   T   M %%  spread  own %%", "WHAT THE VALUES ARE WORTH, BY FIELD")
	for _, name := range slices.Sorted(maps.Keys(rows)) {
		r := rows[name]
		t.line("  %-34s%6d%4.0f%4.0f%4.0f%4.0f%10d%7.0f", name, r.total(), r.percent(document), r.percent(practice),
			r.percent(tuned), r.percent(memory), r.spread, 100*float64(r.own)/float64(max(1, r.spread)))
	}
}

func (t *tables) legend() {
	t.line("\n%-22s%58s", "WHERE VALUES COME FROM", "values of the forks above")
	var all counts
	for _, m := range t.models {
		for g, n := range t.count(m.Values()) {
			all[g] += n
		}
	}
	for g, l := range legend {
		share := fmt.Sprintf("%d, %.0f %%", all[g], all.percent(grade(g)))
		for i, text := range typeset.Wrap(l.means, 51) {
			if i > 0 {
				l.letter, l.name, share = " ", "", ""
			}
			t.line("  %s  %-12s%-51s%12s", l.letter, l.name, text, share)
		}
	}
	t.line("")
	t.paragraph(`A value of the fork at hand outranks all of these. What is tuned is consistent because it was made so,
which proves nothing.`)
}
