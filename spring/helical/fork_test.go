package helical_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// offRoadFork is a full-size off-road fork with room for one spring in each leg.
func offRoadFork() helical.ForkSpec {
	return helical.ForkSpec{
		Rate: 9.8 * npm, Travel: 305 * mm, PreloadLeast: 2 * mm, PreloadAim: 6 * mm, PreloadMost: 10 * mm,
		Room: 501 * mm, Bore: 44 * mm, Rod: 12 * mm, Material: of("sicrv"),
	}
}

func TestForkDesign(t *testing.T) {
	for _, row := range []struct {
		name                 string
		legs                 int
		change               func(*helical.ForkSpec)
		rate                 units.Stiffness
		preload, room        units.Length // of the design
		fits, exists, sooner bool         // sooner: it does for the aim alone
	}{
		{"in each leg", 2, func(s *helical.ForkSpec) {}, 4.9 * npm, 10 * mm, 503 * mm, true, true, false},
		{"in each leg, but only for the aim", 2, func(s *helical.ForkSpec) { s.Room = 485 * mm }, 4.9 * npm, 6 * mm,
			491 * mm, true, true, true},
		{"one is too long", 1, func(s *helical.ForkSpec) {}, 9.8 * npm, 6 * mm, 507 * mm, false, true, false},
		{"no wire bears it", 1, func(s *helical.ForkSpec) { s.Rate = 100 * npm }, 100 * npm, 6 * mm, 507 * mm, false,
			false, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			spec := offRoadFork()
			row.change(&spec)
			d, err := spec.Design(row.legs)
			if err != nil {
				t.Fatal(err)
			}
			room := math.Abs(float64(d.Spec.FreeLength-row.room)) < 1e-12
			if !room || d.Legs != row.legs || d.Spec.Rate != row.rate || d.Spec.Preload != row.preload {
				t.Errorf("designed for %+v", d.Spec)
			}
			if (d.Reason == nil) != row.fits || d.Exists() != row.exists {
				t.Fatalf("fits: %v; %v", d.Reason, d.Spring)
			}
			if row.fits {
				holds(t, d.Spec, d.Spring)
				if !d.Spring.Equal(d.InAnyRoom(d.Spec.Preload)) {
					t.Error("more room makes it shorter")
				}
				return
			}
			var reason *units.RangeError
			if !errors.As(d.Reason, &reason) || !strings.HasPrefix(reason.Field, "DesignSpec.") {
				t.Errorf("reason %v", d.Reason)
			}
			if d.Exists() && !(d.Spring.FreeLength() > d.Spec.FreeLength) {
				t.Errorf("%v does not fit in %v?", d.Spring.FreeLength(), d.Spec.FreeLength)
			}
		})
	}
}

func TestForkSpecFaults(t *testing.T) {
	nan := units.Length(math.NaN())
	for _, row := range []struct {
		name   string
		legs   int
		change func(*helical.ForkSpec)
		fields string
	}{
		{"three legs", 3, func(s *helical.ForkSpec) {}, "legs"},
		{"preload upside down", 1, func(s *helical.ForkSpec) { s.PreloadLeast = 11 * mm }, "PreloadLeast"},
		{"aim outside", 1, func(s *helical.ForkSpec) { s.PreloadAim = 1 * mm }, "PreloadAim"},
		{"NaN", 1, func(s *helical.ForkSpec) {
			*s = helical.ForkSpec{Rate: units.Stiffness(nan), Travel: nan, PreloadLeast: nan, PreloadAim: nan,
				PreloadMost: nan, Room: nan, Bore: nan, Rod: nan, Ends: 9}
		}, "Rate Travel PreloadMost Room Bore Ends Material"},
	} {
		t.Run(row.name, func(t *testing.T) {
			spec := offRoadFork()
			row.change(&spec)
			d, err := spec.Design(row.legs)
			wantFields(t, err, "ForkSpec", row.fields)
			if d.Exists() {
				t.Error("a spring came with the error")
			}
		})
	}
}

// Design takes the shortest of all wires; each does what it must but for its length.
func TestDesignByWire(t *testing.T) {
	spec := offRoad()
	best, err := helical.Design(spec)
	if err != nil {
		t.Fatal(err)
	}
	all, err := helical.DesignByWire(spec)
	if err != nil || len(all) < 10 {
		t.Fatalf("%d wires, %v", len(all), err)
	}
	spec.FreeLength = 3000 * mm
	for i, s := range all {
		holds(t, spec, s)
		if s.FreeLength() < best.FreeLength() || i > 0 && !(s.Wire() > all[i-1].Wire()) {
			t.Errorf("wire %v, %v long; the shortest has %v", s.Wire(), s.FreeLength(), best.FreeLength())
		}
	}
	if _, err := helical.DesignByWire(helical.DesignSpec{}); err == nil {
		t.Error("designed nothing")
	}
}

// At the stiffest rate a spring fits, a step above none does.
func TestStiffest(t *testing.T) {
	spec := offRoad()
	k, err := helical.Stiffest(spec)
	if err != nil || k < spec.Rate {
		t.Fatalf("%v, %v", k, err)
	}
	for _, step := range []units.Stiffness{0, 0.1 * npm} {
		spec.Rate = k + step
		if _, err := helical.Design(spec); (err == nil) != (step == 0) {
			t.Errorf("at %v: %v", spec.Rate, err)
		}
	}
	spec.FreeLength = 320 * mm
	if _, err := helical.Stiffest(spec); err == nil {
		t.Error("9 mm for coils and gap are enough")
	}
}

func TestCheck(t *testing.T) {
	spec := offRoad()
	s, err := helical.Design(spec)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		name   string
		change func(*helical.DesignSpec)
		fields string
	}{
		{"its own", func(s *helical.DesignSpec) {}, ""},
		{"less room", func(s *helical.DesignSpec) { s.FreeLength -= 30 * mm }, "FreeLength"},
		{"narrower", func(s *helical.DesignSpec) { s.Bore -= 2 * mm }, "OuterDiameterAtSolid"},
		{"thicker rod", func(s *helical.DesignSpec) { s.Rod = 34 * mm }, "InnerDiameter"},
		{"longer stroke", func(s *helical.DesignSpec) { s.Stroke += 30 * mm }, "BindMargin ShearStress"},
		{"pressed solid", func(s *helical.DesignSpec) { s.SolidSafe = true }, "ShearStress"},
		{"no specification", func(s *helical.DesignSpec) { s.Stroke = 0 }, "DesignSpec.Stroke"},
	} {
		t.Run(row.name, func(t *testing.T) {
			spec := spec
			row.change(&spec)
			wantFields(t, spec.Check(s), "Spring", row.fields)
		})
	}
	if err := spec.Check(helical.Spring{}); err == nil {
		t.Error("no spring fits")
	}
}
