package main

import (
	"fmt"
	"maps"
	"strings"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// hand works a fork out on paper, independently of the library: pressures in bar, areas in cm², volumes in mL,
// travels in cm where they meet areas. Its symbols are those of the lesson; those without a line of their own there
// are
//
//	D d    bore and rod of the air spring         airs coils balances   factor of the legs with one
//	V₂ V_l second and linked volume               x x_mm L              travel, that in mm, all of it
//	k_c preload k_t L_b   coil and balance coil   A_out                 section the ambient pushes on
type hand struct {
	worksheet
	f                     *fork
	spring                setup.Air
	airs, coils, balances int // legs with one
	closed                []closed
	names                 []string // of the shares of the last sum
	joint                 bool     // the floating piston has left its stop: main is both chambers
	apart                 bool     // the linked volume is cut off
	rest                  map[string]string
}

// closed is a gas space beside the springs: what is trapped in the legs, and what a pressurized damper holds.
type closed struct {
	sign  string // stands for ? in the lesson
	force string // symbol of its force, after "F_" or "k_"
	word  string
	legs  int
}

func newHand(w worksheet, f *fork) *hand {
	h := &hand{worksheet: w.branch(), f: f}
	h.spring, h.airs = f.airSpring()
	for _, l := range f.legs() {
		if c, ok := setup.Find[spring.CoilSpec](l); ok {
			h.coils++
			h.put("k_c", num(c.Rate.In(npm)), "preload", num(c.Preload.In(mm)))
		}
		if t, ok := setup.Find[spring.TopOutSpec](l); ok {
			h.balances++
			h.put("k_t", num(t.Rate.In(npm)), "L_b", num(t.Length.In(mm)))
		}
	}
	a, bar := h.spring, func(g units.GaugePressure) string { return num(g.In(units.Bar)) }
	h.put("airs", times(h.airs), "coils", times(h.coils), "balances", times(h.balances), "fork", f.ID,
		"k_cs", num(rounded(float64(h.coils)*h.value("k_c"), 3)), "k_ts",
		num(rounded(float64(h.balances)*h.value("k_t"), 3)),
		"L", num(f.set.Travel().In(cm)), "D", num(a.Bore.In(cm)), "d", num(a.Rod.In(cm)),
		"V₀", num((a.Volume).In(mL)), "V", num(a.Volume.In(mL)), "V_f", num(a.Reducers.In(mL)),
		"V₂", num(a.SecondVolume.In(mL)), "V_l", num(a.Linked.In(mL)), "V₋₀", num(a.NegativeVolume.In(mL)),
		"gauge₀", bar(a.Fill.Gauge), "gauge₋", bar(a.NegativeGauge), "gauge₂", bar(a.SecondGauge))
	return h
}

func (h *hand) linked() bool   { return h.spring.Linked > 0 }
func (h *hand) second() bool   { return h.spring.SecondVolume > 0 }
func (h *hand) negative() bool { return h.spring.NegativeVolume > 0 }

// trapped is the gas trapped in the legs; false if there is none.
func (h *hand) trapped() (closed, bool) {
	if len(h.closed) == 0 || h.closed[0].sign != "g" {
		return closed{}, false
	}
	return h.closed[0], true
}

// pressurized reports whether the dampers hold gas.
func (h *hand) pressurized() bool { return h.f.spec.Left.Damper != nil || h.f.spec.Right.Damper != nil }

// sayIf prints a part of the lesson where it applies.
func (h *hand) sayIf(applies bool, name string) {
	if applies {
		h.say(name)
	}
}

// of prints a part of the lesson for a gas space.
func (h *hand) of(c closed, name string) {
	h.put("force", c.force, "word", c.word)
	h.print(strings.Split(strings.ReplaceAll(strings.Join(parts()[name], "\n"), "?", c.sign), "\n"))
}

// given prints what the record says and what follows from it alone.
func (h *hand) given() {
	if h.airs > 0 {
		h.givenAir()
	}
	gap, damper := closed{"g", "gap", "the trapped gas", 0}, closed{"d", "d", "the gas of the dampers", 0}
	precharge := 0.0
	for _, l := range h.f.legs() {
		if l.Gap != nil {
			gap.legs++
			precharge += l.Gap.Gauge.In(units.Bar)
			h.put("V_r", num(l.Gap.Residual.In(mL)))
		}
		if l.Damper != nil {
			damper.legs++
			h.put("d_d", num(l.Damper.Rod.In(cm)), "gauge_d", num(l.Damper.Fill.Gauge.In(units.Bar)),
				"V_d0", num(l.Damper.Volume.In(mL)))
		}
	}
	if gap.legs > 0 {
		// Where one leg only is charged, both with half as much are the same springs.
		h.put("gauge_g", num(precharge/float64(gap.legs)))
		// The section that drives it: of the tube in the seal, less a rod that leaves as much
		// room as the tube takes.
		rod := h.f.Gap.Rod.Value.In(cm)
		h.put("D_g", num(h.f.Stanchion.Value.In(cm)), "d_g", num(rod))
		h.sayIf(rod == 0, "given tube")
		h.sayIf(rod > 0, "given tube and rod")
		h.say("given gap")
		h.put("V_g0", num(h.value("V_e")), "p_e", h.symbols["p_a"])
		h.sayIf(h.value("gauge_g") > 0, "given precharge")
		h.put("p_g0", h.symbols["p_e"])
	}
	h.sayIf(damper.legs > 0, "given damper")
	for _, c := range []closed{gap, damper} {
		if c.legs > 0 {
			h.put("legs_"+c.sign, times(c.legs))
			h.closed = append(h.closed, c)
		}
	}
}

func (h *hand) givenAir() {
	a := h.spring
	h.say("given air")
	h.sayIf(a.Reducers > 0, "given reducers")
	h.say("given reading")
	h.put("V₀", num(h.value("V₀")), "p₋₀", h.symbols["p₀"], "A_out", h.symbols["A"], "port", num(a.Port.In(cm)))
	h.put("filled", h.symbols["V₀"], "V_all", num(h.value("V₀")+h.value("V_l")))
	if h.negative() {
		own := a.NegativeGauge != (units.GaugePressure{})
		h.say("given negative")
		h.put("A_out", fixed(h.value("A")-h.value("A₋"), 3)) // what the negative chamber leaves of the piston
		h.sayIf(own, "given negative reading")
		h.sayIf(!own && a.Port > 0, "given port")
	}
	h.sayIf(h.second(), "given second")
	if h.linked() {
		h.put("filled", h.fill("({V₀} + {V_l})"))
	}
}

func (h *hand) travelTo(x units.Length) {
	cm := rounded(x.In(cm), 3)
	h.put("x", num(cm), "x_mm", num(rounded(10*cm, 2)), "left", num(max(h.value("L_b")-rounded(10*cm, 2), 0)))
}

// room prints the volume of the main chamber with what shares its pressure.
func (h *hand) room(remark string) {
	others := ""
	if h.joint {
		others += " + {V₂}"
	}
	if h.linked() && !h.apart {
		others += " + {V_l}"
	}
	h.put("others", h.fill(others), "remark", remark)
	h.say("room")
}

// at prints the gas at rest at a travel: p·V as at full extension.
func (h *hand) at(x units.Length) {
	h.travelTo(x)
	h.joint, h.apart = false, false
	if h.airs > 0 {
		h.room(map[bool]string{true: "with the linked volume"}[h.linked()])
		h.say("rest")
		h.join("rest joint")
		h.sayIf(h.negative(), "rest negative")
	}
	for _, c := range h.closed {
		h.of(c, "rest gas")
	}
}

// join prints the main chamber once more where it has reached the second one's pressure.
func (h *hand) join(name string) {
	if h.second() && !h.joint && h.value("p₊") > h.value("p₂") {
		h.joint = true
		h.room("above p₂: both")
		h.say(name)
	}
}

// moved prints the gas after a fast movement from where it is to a travel: p·Vⁿ as there.
func (h *hand) moved(x units.Length) {
	if h.airs > 0 && h.linked() {
		h.cutOff()
	}
	h.travelTo(x)
	from := func(gas string) { h.put("p", h.symbols["p"+gas], "V", h.symbols["V"+gas]) }
	if h.airs > 0 {
		from("₊")
		h.room("")
		h.say("fast")
		h.join("fast joint")
		from("₋")
		h.sayIf(h.negative(), "fast negative")
	}
	for _, c := range h.closed {
		from("_" + c.sign)
		h.of(c, "fast gas")
	}
}

// cutOff prints the main chamber without its linked volume, at the same pressure.
func (h *hand) cutOff() {
	h.apart = true
	h.room("settled, linked volume cut off")
}

// settle keeps the symbols of the sag, back brings them again.
func (h *hand) settle() { h.rest = maps.Clone(h.symbols) }
func (h *hand) back()   { h.symbols, h.joint, h.apart = maps.Clone(h.rest), false, false }

// sum prints what each part of the fork has of a quantity, for the sum {Σ}. A balance coil that has run out counts
// where asked for.
func (h *hand) sum(what string, runOut bool) {
	h.shares, h.names = nil, nil
	if h.airs > 0 {
		name := what + " air"
		if _, known := parts()[name+" negative"]; known && h.negative() {
			name += " negative"
		}
		if _, known := parts()[name+" joint"]; known && h.joint {
			name += " joint"
		}
		h.say(name)
		h.names = append(h.names, "the air spring")
	}
	h.sayIf(h.coils > 0, what+" coil")
	h.sayIf(h.balances > 0 && (runOut || h.value("left") > 0), what+" balance")
	for _, c := range h.closed {
		h.of(c, what+" gas")
		h.names = append(h.names, c.word)
	}
}

// forces adds up the force where the gas is; the library's stands beside.
func (h *hand) forces(known units.Force) {
	h.sum("F", false)
	h.put("library", library(known.In(units.Newton), 1, "N"))
	h.say("F")
}

// rates adds up the slope; moved fast with n, gas is n times as steep.
func (h *hand) rates(n string, known units.Stiffness) {
	h.put("n·", h.fill(n), "[", "", "]", "", "library", library(known.In(npm), 3, "N/mm"))
	if n != "" || h.airs > 1 {
		h.put("[", "(", "]", ")")
	}
	h.sum("k", false)
	h.say("k")
}

// energies adds up what a slow stroke from full extension stores.
func (h *hand) energies(known units.Energy) {
	h.sum("E", true)
	h.put("library", library(known.In(units.Joule), 2, "J"))
	h.say("E")
}

// gain prints what each gas space has of a gain of force at the sag, how far the fork moves to take it up, and how
// far it moves exactly, mm.
func (h *hand) gain(what, exactly string, change float64) {
	h.sum(what, false)
	if len(h.shares) > 0 {
		h.takeUp()
		h.put("change", signed(change, 1), "shares", h.whose())
		h.say(exactly)
	}
}

func (h *hand) takeUp() {
	gain := h.shares[0]
	if len(h.shares) > 1 {
		h.say("gain")
		gain = h.value("ΔF")
	}
	h.put("loss", fixed(-gain, 1))
	h.say("step")
}

// whose says what a gain of force comes from; nothing if it is all of one.
func (h *hand) whose() string {
	if len(h.shares) < 2 {
		return ""
	}
	total := 0.0
	for _, v := range h.shares {
		total += v
	}
	var names []string
	for i, v := range h.shares {
		names = append(names, fmt.Sprintf("%.0f %% is %s", 100*v/total, h.names[i]))
	}
	return " Of the gain in force " + strings.Join(names, " and ") + "."
}
