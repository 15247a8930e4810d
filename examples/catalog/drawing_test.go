package main

import (
	"bytes"
	"image/png"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// models are all forks of the reference dataset, set up.
func models(t *testing.T) []*model {
	t.Helper()
	sea, err := gas.Standard(0)
	if err != nil {
		t.Fatal(err)
	}
	c := &catalog{Set: data.Reference(), sea: sea}
	var list []*model
	for fork := range c.Forks() {
		m, err := c.model(fork)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, m)
	}
	return list
}

func near(a, b, slack float64) bool { return math.Abs(a-b) <= slack }

// The drawing keeps the lengths of the record: the leg is shorter by the travel when compressed, the spring by as
// much, and each chamber has its volume.
func TestDrawnLengths(t *testing.T) {
	for _, m := range models(t) {
		t.Run(m.ID, func(t *testing.T) {
			d := newDrawing(m)
			lowest := func(l *leg) (z float64) {
				for _, p := range l.parts {
					z = max(z, p.bottom)
				}
				return z
			}
			for side, l := range m.legs() {
				if l.Role == data.NoLeg {
					continue
				}
				extended, compressed := d.legs[0][side], d.legs[1][side]
				if got := lowest(extended) - lowest(compressed); !near(got, mm(m.Travel.Value), 1e-9) {
					t.Errorf("%d: shorter by %.3f mm, want %v", side, got, m.Travel.Value)
				}
				if l.Role.HasCoil() {
					whole := func(l *leg) (length float64) { // of one spring or two
						top, bottom := math.Inf(1), math.Inf(-1)
						for _, c := range l.coils {
							top, bottom = min(top, c.top), max(bottom, c.bottom)
						}
						return bottom - top
					}
					free := l.Coil.FreeLength.Value
					if l.Compound.Kind == spring.KindStack {
						free += l.Compound.FreeLength.Value
					}
					if got := whole(extended) + mm(l.Coil.Preload.Value); !near(got, mm(free), 1e-9) {
						t.Errorf("spring of %.3f mm", got)
					}
					if got := whole(extended) - whole(compressed); !near(got, mm(m.Travel.Value), 1e-9) {
						t.Errorf("spring shorter by %.3f mm", got)
					}
				}
				for state, x := range []float64{0, d.frame.travel} {
					held := d.legs[state][side]
					c, ok := m.chambers(setup.Side(side), units.Length(x)*units.Millimeter, gas.Isothermal)
					if !ok || wholeLeg(m, l) {
						continue
					}
					rod := circle(radius(l.Air.Rod.Value))
					for _, want := range []struct {
						fill
						volume, off float64
					}{{positiveAir, mm3(c.positive), 0}, {negativeAir, mm3(c.negative), rod},
						{secondAir, mm3(c.second), 0}} {
						got := 0.0
						for _, p := range held.parts {
							if p.fill == want.fill {
								got += (p.solid() - want.off) * (p.bottom - p.top)
							}
						}
						if !near(got, want.volume, 1) {
							t.Errorf("fill %d at %.0f mm: %.1f mm³, want %.1f", want.fill, x, got, want.volume)
						}
					}
				}
			}
		})
	}
}

// The gas over the oil is drawn with its volume, within two steps of its level, 0.25 mm each: one where it ends,
// one in all where sections change within a step.
func TestDrawnGas(t *testing.T) {
	for _, m := range models(t) {
		f := newFrame(m)
		for side := setup.Left; side <= setup.Right; side++ {
			if m.legs()[side].Role == data.NoLeg {
				continue
			}
			for _, x := range []float64{0, f.travel / 3, f.travel} {
				var got float64
				held := f.contents(m, side, x)
				d := f.drawLeg(m, side, x)
				for _, p := range d.parts {
					if p.fill == trappedGas {
						got += p.solid() * (p.bottom - p.top)
					}
				}
				if f.sealed {
					got -= circle(radius(m.Gap.Rod.Value)) * (gasBottom(d) - f.upperEnd)
				} else {
					bottom := gasBottom(d)
					for _, p := range held.parts {
						if !p.shell {
							got -= p.solid() * max(0, min(p.bottom, bottom)-p.top)
						}
					}
					for _, c := range held.coils {
						if !c.enclosed {
							got -= c.metal * max(0, min(c.bottom, bottom)-c.top) / (c.bottom - c.top)
						}
					}
				}
				if want := gasOver(m, side, x); !near(got, want, 2*0.25*circle(f.outerBore)) {
					t.Errorf("%s, %v leg at %.0f mm: gas of %.1f mL, want %.1f", m.ID, side, x, got/1000, want/1000)
				}
			}
		}
	}
}

func gasBottom(d *leg) (z float64) {
	for _, p := range d.parts {
		if p.fill == trappedGas {
			z = max(z, p.bottom)
		}
	}
	return z
}

// What a leg holds stays inside its tubes, whatever the travel, and chambers, pistons and springs keep their order.
func TestPartsFit(t *testing.T) {
	for _, m := range models(t) {
		t.Run(m.ID, func(t *testing.T) {
			f := newFrame(m)
			for side := setup.Left; side <= setup.Right; side++ {
				for i := range 5 {
					x := f.travel * float64(i) / 4
					held := f.contents(m, side, x)
					for _, p := range held.parts {
						if p.top > p.bottom+1e-9 || p.inner > p.outer || p.inner < 0 {
							t.Errorf("%.0f mm: part %+v is inside out", x, p)
						}
						f.fits(t, x, p.outer, p.top, p.bottom)
					}
					for _, c := range held.coils {
						f.fits(t, x, (c.mean+c.wire)/2, c.top, c.bottom)
						turns := c.turns()
						for i := 1; i < len(turns); i++ {
							if turns[i]-turns[i-1] < 0.45*c.wire {
								t.Fatalf("%.0f mm: coils through each other: %.2f mm", x, turns[i]-turns[i-1])
							}
						}
						if !near(turns[len(turns)-1], c.bottom-c.wire/2, 1e-6) ||
							!near(turns[0], c.top+c.wire/2, 1e-6) {
							t.Errorf("%.0f mm: coil from %.2f to %.2f in %.2f to %.2f", x, turns[0],
								turns[len(turns)-1], c.top, c.bottom)
						}
					}
					for _, n := range f.drawLeg(m, side, x).notes {
						if n.r > f.outside() || n.z < 0 || n.z > f.length-x {
							t.Errorf("%.0f mm: %q points beside the leg", x, n.text)
						}
					}
				}
			}
			if f.inverted && (f.lowerTop-f.travel < capLength || f.length-f.travel-footLength < f.upperEnd) ||
				!f.inverted && (f.lowerTop-f.travel < capLength || f.floor(f.travel) < f.upperEnd) {
				t.Errorf("the tubes meet before full travel: %+v", f)
			}
		})
	}
}

// fits fails on what is outside cap, floor or the bore around it.
func (f *frame) fits(t *testing.T, x, outer, top, bottom float64) {
	t.Helper()
	const slack = 1e-9
	bore := f.outerBore
	within := bottom > f.lowerTop-x+slack
	if !f.inverted {
		within = top < f.upperEnd-slack
	}
	if within {
		bore = f.bore
	}
	if outer > bore+slack || top < capLength-slack || bottom > f.floor(x)+slack {
		t.Errorf("%.0f mm: radius %.2f from %.2f to %.2f in a bore of %.2f from %.2f to %.2f", x, outer, top, bottom,
			bore, capLength, f.floor(x))
	}
}

// Every fork gets a well-formed drawing with its words, in the same bytes each time.
func TestEveryDrawing(t *testing.T) {
	for _, m := range models(t) {
		t.Run(m.ID, func(t *testing.T) {
			svg, err := newDrawing(m).SVG()
			if err != nil {
				t.Fatal(err)
			}
			again, err := newDrawing(m).SVG()
			if err != nil || !bytes.Equal(svg, again) {
				t.Errorf("the same fork gives other bytes, %v", err)
			}
			text, err := golden.Words(svg)
			if err != nil {
				t.Fatal(err)
			}
			want := []string{m.ID + ": " + m.Name, m.Layout.String(), "100 mm", "travel " + m.Travel.Value.String(),
				"FULLY EXTENDED", "FULLY COMPRESSED"}
			for _, l := range m.legs() {
				if l.Role.HasCoil() {
					want = append(want, "coil spring")
				}
				if l.Air.NegativeVolume.Given() {
					want = append(want, "negative chamber", "positive chamber", "air piston")
				}
				if l.Air.SecondVolume.Given() {
					want = append(want, "floating piston")
				}
				if l.Air.BalanceRate.Given() {
					want = append(want, "balance coil")
				}
			}
			for _, w := range want {
				if !strings.Contains(text, w) {
					t.Errorf("the drawing does not say %q", w)
				}
			}
			for _, bad := range []string{"NaN", "Inf", "%!"} {
				if bytes.Contains(svg, []byte(bad)) {
					t.Errorf("the drawing says %q", bad)
				}
			}
		})
	}
}

func TestWrite(t *testing.T) {
	golden.Pictures(t, command, 4, "-id", "B16")
	golden.Pictures(t, command, 0, "-spring", "air", "-use", "bicycle-enduro,bicycle-downhill,motocross")
	raster, err := newDrawing(models(t)[0]).PNG()
	if err != nil {
		t.Fatal(err)
	}
	if img, err := png.Decode(bytes.NewReader(raster)); err != nil || img.Bounds().Dx() != 1200 {
		t.Errorf("not 1200 pixels wide, %v", err)
	}
}
