package main

import (
	"fmt"
	"io"
	"math"

	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// One spring is drawn bold and dark, two springs lighter and dashed.
const (
	oneColor = chart.Navy
	twoColor = chart.Orange
)

// plot draws one fork's figures and names the files.
func (j *job) plot(folder string, problems io.Writer) error {
	if !j.one.exists && !j.two.exists {
		fmt.Fprintf(problems, "%s: no spring exists, nothing to draw\n", j.fork.ID)
		return nil
	}
	for _, p := range []struct {
		name   string
		figure *chart.Figure
	}{
		{"stress", j.stress()}, {"gap", j.gap()}, {"wire", j.wireMap()}, {"length", j.lengths()},
	} {
		if p.figure == nil {
			continue
		}
		names, err := p.figure.Write(folder, j.fork.ID+"-"+p.name)
		if err != nil {
			return err
		}
		for _, name := range names {
			fmt.Fprintln(problems, "wrote", name)
		}
	}
	return nil
}

// curves read both builds against travel.
func (j *job) curves(y func(b *build, deflection units.Length) float64) []chart.Line {
	var lines []chart.Line
	for _, b := range []*build{&j.one, &j.two} {
		if !b.exists {
			continue
		}
		l := chart.Line{Label: j.name(b), Color: oneColor, Dash: chart.Solid, Bold: true}
		if b.legs == 2 {
			l.Color, l.Dash, l.Bold = twoColor, chart.Dashed, false
		}
		const steps = 100
		for i := range steps + 1 {
			x := b.spec.Stroke * units.Length(i) / steps
			l.X = append(l.X, x.In(mm))
			l.Y = append(l.Y, y(b, x+b.spec.Preload))
		}
		lines = append(lines, l)
	}
	return lines
}

// name is a build in a label.
func (j *job) name(b *build) string {
	text := fmt.Sprintf("one spring, %.2f N/mm, wire %.1f mm", b.spec.Rate.In(npm), b.spring.Wire().In(mm))
	if b.legs == 2 {
		text = fmt.Sprintf("two springs, %.2f N/mm each, wire %.1f mm", b.spec.Rate.In(npm), b.spring.Wire().In(mm))
	}
	if b.exists && b.spec.Preload != j.single().Preload {
		text += fmt.Sprintf(", preload %.0f mm", b.spec.Preload.In(mm))
	}
	switch {
	case b.reason != nil:
		text += ": TOO LONG FOR THIS LEG"
	case !b.offered:
		text += " (not this fork)"
	}
	return text
}

func (j *job) title(what string) string {
	return fmt.Sprintf("%s, %.2f N/mm in all: %s", j.fork.ID, j.rate.In(npm), what)
}

func (j *job) conditions() string {
	return fmt.Sprintf("%s. Wire %s, preload %.0f mm, bore %.1f mm.", capital(j.fork.Name), j.material.ID(), j.single().Preload.In(mm), j.fork.Kit.Bore.Value.In(mm))
}

func (j *job) stress() *chart.Figure {
	f := &chart.Figure{
		Title: j.title("stress of the wire against travel"),
		Note:  j.conditions() + " Nominal shear stress; the limit is 0.56 of the least tensile strength, at full travel.",
		X:     chart.Axis{Label: "Travel", Unit: "mm"},
		Y:     chart.Axis{Label: "Shear stress of the wire", Unit: "MPa", Zero: true},
		Lines: j.curves(func(b *build, y units.Length) float64 {
			return b.spring.ShearStress(b.spring.Force(y)).In(units.Megapascal)
		}),
	}
	limit := func(b *build, name string) {
		if b.exists {
			f.Marks = append(f.Marks, chart.Mark{On: chart.OnY, At: b.spring.StaticLimit().In(units.Megapascal), Color: chart.Wine,
				Label: fmt.Sprintf("limit of %s,\n%.0f MPa", name, b.spring.StaticLimit().In(units.Megapascal))})
		}
	}
	limit(&j.one, fmt.Sprintf("the %.1f mm wire", j.one.spring.Wire().In(mm)))
	if !j.one.exists || j.two.exists && j.two.spring.StaticLimit() != j.one.spring.StaticLimit() {
		limit(&j.two, fmt.Sprintf("the %.1f mm wire", j.two.spring.Wire().In(mm)))
	}
	return f
}

func (j *job) gap() *chart.Figure {
	f := &chart.Figure{
		Title: j.title("what is left to solid against travel"),
		Note:  j.conditions() + " Free lengths as designed; at full travel the rule asks for 1.5·S_a.",
		X:     chart.Axis{Label: "Travel", Unit: "mm"},
		Y:     chart.Axis{Label: "Left until the coils touch", Unit: "mm", Zero: true},
		Lines: j.curves(func(b *build, y units.Length) float64 { return b.spring.BindMargin(y).In(mm) }),
		Regions: []chart.Region{{On: chart.OnY, From: habitLeast.In(mm), To: habitMost.In(mm),
			Name: fmt.Sprintf("%.0f to %.0f mm at full travel: the habit of fork builders", habitLeast.In(mm), habitMost.In(mm))}},
	}
	for _, b := range []*build{&j.one, &j.two} {
		if !b.exists {
			continue
		}
		m := chart.Mark{On: chart.OnY, At: b.spring.DynamicMinimumGap().In(mm), Color: oneColor,
			Label: fmt.Sprintf("1.5·S_a of the one spring,\n%.0f mm", b.spring.DynamicMinimumGap().In(mm))}
		if b.legs == 2 {
			m.Color = twoColor
			m.Label = fmt.Sprintf("1.5·S_a of each of two,\n%.0f mm", b.spring.DynamicMinimumGap().In(mm))
		}
		f.Marks = append(f.Marks, m)
	}
	return f
}

// rates are those drawn: from below half the fork's rate to above all of it.
func (j *job) rates() []units.Stiffness {
	lo, hi := max(0.4*j.rate, 1*npm), min(1.2*j.rate, 100*npm)
	const steps = 60
	list := make([]units.Stiffness, steps+1)
	for i := range list {
		list[i] = lo + (hi-lo)*units.Stiffness(i)/steps
	}
	return list
}

// single is what one spring must do at the preload of the answer.
func (j *job) single() helical.DesignSpec {
	b, _ := j.answer()
	return b.spec
}

// wireMap draws which wires fit at which rate.
func (j *job) wireMap() *chart.Figure {
	best := chart.Line{Name: "wire of the shortest spring", Color: chart.Blue, Dash: chart.Dotted}
	rule := chart.Band{Name: "fits with 1.5·S_a left to solid", Color: chart.Green}
	below := chart.Band{Name: fmt.Sprintf("fits only with the habit's %.0f mm left", habitMost.In(mm)), Color: chart.Yellow}
	above := chart.Band{Color: chart.Yellow}
	for _, k := range j.rates() {
		spec := j.single()
		spec.Rate = k
		all := springs(spec)
		shortest, ok := shortestOf(all)
		if !ok {
			continue
		}
		x, middle := k.In(npm), shortest.Wire().In(mm)
		best.X, best.Y = append(best.X, x), append(best.Y, middle)
		excess := func(left func(s helical.Spring) units.Length) func(s helical.Spring) float64 {
			return func(s helical.Spring) float64 {
				return (s.SolidLength() + left(s) + spec.Stroke + spec.Preload - spec.FreeLength).In(mm)
			}
		}
		lo, hi, ok := span(all, excess(func(helical.Spring) units.Length { return habitMost }))
		if !ok {
			continue
		}
		from, to, ok := span(all, excess(helical.Spring.DynamicMinimumGap))
		if !ok {
			from, to = middle, middle
		}
		for _, b := range []struct {
			*chart.Band
			low, high float64
		}{{&below, min(lo, from), from}, {&rule, from, to}, {&above, to, max(hi, to)}} {
			b.X, b.Low, b.High = append(b.X, x), append(b.Low, b.low), append(b.High, b.high)
		}
	}
	if len(best.X) < 2 {
		return nil
	}
	f := &chart.Figure{
		Title: fmt.Sprintf("%s: wire that fits the leg against the rate of one spring", j.fork.ID),
		Note: fmt.Sprintf("%s Room %.0f mm. Of each wire the widest coil that keeps the stress limit and clears the bore. Thinner wire: the stress asks for so small a coil that it takes too many. Thicker: the coils themselves are too long. Kinks are the steps of the table of strengths.",
			j.conditions(), j.single().FreeLength.In(mm)),
		X:     chart.Axis{Label: "Rate of one spring", Unit: "N/mm"},
		Y:     chart.Axis{Label: "Wire diameter", Unit: "mm"},
		Lines: []chart.Line{best},
	}
	if len(rule.X) >= 2 {
		f.Bands = []chart.Band{rule, below, above}
	}
	for _, b := range []*build{&j.one, &j.two} {
		if !b.exists {
			continue
		}
		l := chart.Line{Name: j.name(b), X: []float64{b.spec.Rate.In(npm)}, Y: []float64{b.spring.Wire().In(mm)}, Dash: chart.NoLine, Color: oneColor, Marker: chart.Disk}
		if b.legs == 2 {
			l.Color, l.Marker = twoColor, chart.Square
		}
		f.Lines = append(f.Lines, l)
	}
	return f
}

// springs are the shortest ones of every wire, whatever their length.
func springs(spec helical.DesignSpec) []helical.Spring {
	var list []helical.Spring
	for _, w := range wires(spec.Material) {
		if s, ok := ofWire(spec, w); ok {
			list = append(list, s)
		}
	}
	return list
}

func shortestOf(all []helical.Spring) (helical.Spring, bool) {
	if len(all) == 0 {
		return helical.Spring{}, false
	}
	best := all[0]
	for _, s := range all[1:] {
		if s.FreeLength() < best.FreeLength() {
			best = s
		}
	}
	return best, true
}

// span is from the thinnest to the thickest wire that is not too long, between two
// wires by interpolation of the excess.
func span(all []helical.Spring, excess func(helical.Spring) float64) (lo, hi float64, ok bool) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for i, s := range all {
		e := excess(s)
		if e <= 0 {
			lo, hi = min(lo, s.Wire().In(mm)), max(hi, s.Wire().In(mm))
		}
		if i == 0 {
			continue
		}
		if before := excess(all[i-1]); (before <= 0) != (e <= 0) {
			w := all[i-1].Wire().In(mm) + (s.Wire()-all[i-1].Wire()).In(mm)*before/(before-e)
			lo, hi = min(lo, w), max(hi, w)
		}
	}
	return lo, hi, hi > lo
}

// lengths stacks what the free length is made of against the rate.
func (j *job) lengths() *chart.Figure {
	layers := []chart.Layer{{Label: "coils when closed", Color: chart.Navy}, {Label: "1.5·S_a left to solid", Color: chart.Orange}, {Label: "preload and travel", Color: chart.Sky}}
	var x []float64
	for _, k := range j.rates() {
		spec := j.single()
		spec.Rate, spec.FreeLength = k, longest
		s, err := helical.Design(spec)
		if err != nil {
			continue
		}
		x = append(x, k.In(npm))
		for i, part := range []units.Length{s.SolidLength(), s.DynamicMinimumGap(), spec.Stroke + spec.Preload} {
			layers[i].Y = append(layers[i].Y, part.In(mm))
		}
	}
	if len(x) < 2 {
		return nil
	}
	room := j.single().FreeLength.In(mm)
	f := &chart.Figure{
		Title: fmt.Sprintf("%s: free length that the shortest spring needs against its rate", j.fork.ID),
		Note:  j.conditions() + " Each rate with the wire that makes it shortest. Twice the rate costs coils; travel costs the same at any rate. Uneven by the steps of wire and of its strength.",
		X:     chart.Axis{Label: "Rate of one spring", Unit: "N/mm"},
		Y:     chart.Axis{Label: "Free length", Unit: "mm", Zero: true},
		Stack: &chart.Stack{X: x, Layers: layers},
		Marks: []chart.Mark{{On: chart.OnY, At: room, Dash: chart.Dashed, Label: fmt.Sprintf("room,\n%.0f mm", room)}},
	}
	for _, b := range []*build{&j.two, &j.one} {
		label := fmt.Sprintf("one spring\n%.2f N/mm", b.spec.Rate.In(npm))
		if b.legs == 2 {
			label = fmt.Sprintf("each of two\n%.2f N/mm", b.spec.Rate.In(npm))
		}
		f.Marks = append(f.Marks, chart.Mark{At: b.spec.Rate.In(npm), Label: label, Dash: chart.Dotted})
	}
	return f
}
