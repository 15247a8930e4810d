package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

const (
	mm  = units.Millimeter
	npm = units.NewtonPerMillimeter

	// Rates of the whole fork that can be designed for, in one leg or two.
	least = 2 * npm
	most  = 100 * npm

	// Fork builders leave 5 mm to 10 mm to solid (common practice, no source).
	habitLeast = 5 * mm
	habitMost  = 10 * mm

	// longest is the free length of a spring that no room holds back.
	longest = 1000 * mm
)

// job is one fork and the springs for it.
type job struct {
	fork     data.Fork
	rate     units.Stiffness // of the whole fork
	why      string          // that rate
	material helical.Material
	one, two build
	now      *build // what the record of a coil fork has in it
}

// build is a spring in one leg, or one in each.
type build struct {
	legs    int
	offered bool // the fork takes springs so
	spec    helical.DesignSpec
	spring  helical.Spring // if nothing fits, the one that would with room enough
	exists  bool           // false: no such spring with any room
	reason  error          // why nothing fits; nil: it does
}

// newJob designs both builds. A zero rate or wire is the fork's own.
func newJob(fork data.Fork, rate units.Stiffness, wire helical.Material) job {
	j := job{fork: fork, rate: rate, why: "as asked for", material: wire}
	coil, legs := present(fork)
	current, _ := coil.Spring(data.Reference()) // of a fork without one it is not used
	switch {
	case rate != 0:
	case legs > 0:
		j.rate = coil.Rate.Value * units.Stiffness(legs)
		j.why = fmt.Sprintf("what is in it, %d × %.2f", legs, coil.Rate.Value)
	default:
		k := fork.Kit.Rate
		j.rate = (k.Lo + k.Hi) / 2
		j.why = fmt.Sprintf("the middle of what its riders need, %.1f to %.1f", k.Lo.In(npm), k.Hi.In(npm))
	}
	switch {
	case wire.ID() != "":
	case legs > 0:
		j.material = current.Material()
	default:
		j.material, _ = data.Reference().Wire("sicrv")
	}
	if legs > 0 {
		j.now = &build{legs: legs, spec: j.spec(legs), spring: current, exists: true}
		j.now.spec.Rate = coil.Rate.Value
		j.now.at(fork.Kit, coil.Preload.Value)
	}
	on := fork.Kit.Legs
	j.one = j.design(1, on.Left || on.Right)
	j.two = j.design(2, on.Both)
	return j
}

// present is the coil spring of a fork and the number of legs that have it.
func present(fork data.Fork) (coil data.Coil, legs int) {
	for _, l := range []data.Leg{fork.Left, fork.Right} {
		if l.Role.HasCoil() {
			coil = l.Coil
			legs++
		}
	}
	return coil, legs
}

// spec is what each of so many springs must do at the most preload, where stress
// and bind are worst, and the room there is at the least. The room is measured with
// the leg extended, so the free length may exceed it by the preload.
func (j *job) spec(legs int) helical.DesignSpec {
	kit := j.fork.Kit
	return helical.DesignSpec{
		Rate:       j.rate / units.Stiffness(legs),
		Stroke:     j.fork.Travel.Value,
		Preload:    kit.Preload.Hi,
		Bore:       kit.Bore.Value,
		Rod:        kit.Guide.Value,
		FreeLength: kit.Room.Value + kit.Preload.Lo,
		Material:   j.material,
	}
}

// design finds the spring for the whole range of preload, or where nothing fits for
// the one aimed at and no other, or the one that would with room enough.
func (j *job) design(legs int, offered bool) build {
	b := build{legs: legs, offered: offered, spec: j.spec(legs)}
	if b.spring, b.reason = helical.Design(b.spec); b.reason != nil {
		b.at(j.fork.Kit, j.fork.Kit.PreloadAim.Value)
		b.spring, b.reason = helical.Design(b.spec)
	}
	b.exists = b.reason == nil
	if !b.exists {
		free := b.spec
		free.FreeLength = longest
		var err error
		b.spring, err = helical.Design(free)
		b.exists = err == nil
	}
	return b
}

// at fixes the preload, with which the spring goes in.
func (b *build) at(kit data.Kit, preload units.Length) {
	b.spec.Preload, b.spec.FreeLength = preload, kit.Room.Value+preload
}

// alike is one spring and two for the same preload, in any room; false if there is
// no such pair.
func (j *job) alike() (one, two build, ok bool) {
	one, two = j.one, j.two
	if one.spec.Preload == two.spec.Preload {
		return one, two, one.exists && two.exists
	}
	for _, b := range []*build{&one, &two} {
		b.spec.Preload, b.spec.FreeLength = j.fork.Kit.PreloadAim.Value, longest
		var err error
		if b.spring, err = helical.Design(b.spec); err != nil {
			return one, two, false
		}
	}
	return one, two, true
}

// fits reports whether the fork takes the build and has room for it.
func (b *build) fits() bool { return b.offered && b.reason == nil }

// answer is the build to take: what the fork has now, else one spring, which is
// less work than two. It is false if neither fits.
func (j *job) answer() (*build, bool) {
	order := []*build{&j.one, &j.two}
	if j.now != nil && j.now.legs == 2 {
		order = []*build{&j.two, &j.one}
	}
	for _, b := range order {
		if b.fits() {
			return b, true
		}
	}
	return order[0], false
}

// stroke is the deflection at full travel.
func (b *build) stroke() units.Length { return b.spec.Stroke + b.spec.Preload }

// force is that of one spring at full travel.
func (b *build) force() units.Force { return b.spring.Force(b.stroke()) }

// byHabit is the free length that leaves no more to solid than the habit does.
func (b *build) byHabit() units.Length { return b.spring.SolidLength() + b.stroke() + habitMost }

// why is the library's reason that nothing fits, in words for the bench.
func (b *build) why() string {
	var r *units.RangeError
	if !errors.As(b.reason, &r) {
		return b.reason.Error()
	}
	names := map[string]string{"FreeLength": "free length", "Rod": "rod inside the spring", "Bore": "bore", "Rate": "rate of a spring"}
	field := r.Field[strings.LastIndex(r.Field, ".")+1:]
	text := fmt.Sprintf("%s %.4g: wanted is %s", names[field], r.Value, r.Want)
	if r.Hint != "" && b.legs == 1 { // it says to take two
		text += " (" + r.Hint + ")"
	}
	return text
}

// stiffest is the highest rate, to 0.1 N/mm, at which a spring still fits; false if
// none does.
func stiffest(spec helical.DesignSpec) (units.Stiffness, bool) {
	fits := func(tenths int) bool {
		spec.Rate = units.Stiffness(tenths) * npm / 10
		_, err := helical.Design(spec)
		return err == nil
	}
	lo, hi := 10, 1000
	if !fits(lo) {
		return 0, false
	}
	for hi-lo > 1 {
		if middle := (lo + hi) / 2; fits(middle) {
			lo = middle
		} else {
			hi = middle
		}
	}
	return units.Stiffness(lo) * npm / 10, true
}

// otherWires are those in which the build would fit, without those of outdated
// tables.
func (b *build) otherWires() []string {
	var ids []string
	for record := range data.Reference().Materials() {
		m, _ := record.Wire()
		spec := b.spec
		spec.Material = m
		if m.ID() == b.spec.Material.ID() || strings.HasSuffix(m.ID(), "-earlier") {
			continue
		}
		if s, err := helical.Design(spec); err == nil {
			ids = append(ids, fmt.Sprintf("%s (wire %.1f mm, %.0f mm long)", m.ID(), s.Wire().In(mm), s.FreeLength().In(mm)))
		}
	}
	return ids
}

// ofWire is the shortest spring of that one wire, a multiple of 0.1 mm.
func ofWire(spec helical.DesignSpec, wire units.Length) (helical.Spring, bool) {
	m := spec.Material
	only, err := helical.NewMaterial(helical.MaterialSpec{
		ID: m.ID(), Name: m.Name(), ShearModulus: m.ShearModulus(wire), ElasticModulus: m.ElasticModulus(wire),
		Density: m.Density(), YieldRatio: m.YieldRatio(),
		Strength: helical.PowerLaw(m.TensileStrength(wire), 0, wire-0.01*mm, wire+0.01*mm),
	})
	if err != nil {
		return helical.Spring{}, false
	}
	spec.Material, spec.FreeLength = only, longest
	s, err := helical.Design(spec)
	return s, err == nil
}

// wires are the diameters that the material comes in, in steps of 0.1 mm.
func wires(m helical.Material) []units.Length {
	thinnest, thickest := m.WireRange()
	var list []units.Length
	for i := math.Ceil(thinnest.In(mm)*10 + 0.11); i <= thickest.In(mm)*10-0.11; i++ { // ofWire reaches 0.01 mm further
		list = append(list, units.Length(i)*(0.1*mm))
	}
	return list
}
