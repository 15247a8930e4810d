package geometry_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/units"
)

const mm = units.Millimeter

var motocross = geometry.Chassis{Rake: 27.2 * units.Degree, Offset: 56 * mm, WheelRadius: 345 * mm,
	Wheelbase: 1485 * mm,
	Mass:      111 * units.Kilogram, UnsprungMass: 15.3 * units.Kilogram, FrontShare: 0.485, FrontShareRidden: 0.47,
	CenterOfGravity: 910 * mm}

// The steering axis runs past the axle at the distance of the offset, leaning back by the rake; where it meets the
// ground, found by coordinates, is ahead of the contact patch by the trail, and the patch beside it by the
// normal trail.
func TestTrail(t *testing.T) {
	register.Cite(t, "T-02")
	for _, r := range []struct{ radius, head, offset, want float64 }{{340, 73, 45, 56.8923}, {300, 64.5, 35, 104.3152},
		{350, 72, 32.0714, 80}} {
		sin, cos := math.Sincos((90 - r.head) * math.Pi / 180)
		// A point of the axis and the ground, x forward of the contact patch: behind the axle and below by the offset.
		x, y := -r.offset*cos, r.radius-r.offset*sin
		ground := x + y/cos*sin
		c := geometry.Chassis{Rake: units.Angle(90-r.head) * units.Degree, Offset: units.Length(r.offset) * mm,
			WheelRadius: units.Length(r.radius) * mm}
		if got := c.Trail().In(mm); !(math.Abs(got-ground) <= 1e-9) || !(math.Abs(got-r.want) <= 1e-3) {
			t.Errorf("head angle %v°: trail %v mm, want %v", r.head, got, ground)
		}
		// The distance of the patch, the origin, from the axis through that point along (−sin, cos).
		if got, want := c.NormalTrail().In(mm), x*cos+y*sin; !(math.Abs(got-want) <= 1e-9) {
			t.Errorf("head angle %v°: normal trail %v mm, want %v", r.head, got, want)
		}
	}
}

func TestLowered(t *testing.T) {
	// 10 mm more fork sag, rows typical of their kind, from memory; the changes are computed from the drawing of
	// the machine (rotation about the rear axle), independently of Lowered.
	for _, c := range []struct {
		name          string
		chassis       geometry.Chassis
		steeper       float64 // °
		trail, dTrail float64 // mm, mm/°
	}{
		{"motocross", motocross, 0.34, -2.4, 7.0},
		{"road sport", geometry.Chassis{Rake: 24 * units.Degree, Offset: 26 * mm, WheelRadius: 300 * mm,
			Wheelbase: 1400 * mm}, 0.37, -2.3, 6.1},
		{"enduro bicycle", geometry.Chassis{Rake: 26 * units.Degree, Offset: 44 * mm, WheelRadius: 372 * mm,
			Wheelbase: 1255 * mm}, 0.41, -3.1, 7.6},
		{"cross-country bicycle", geometry.Chassis{Rake: 21.5 * units.Degree, Offset: 44 * mm, WheelRadius: 370 * mm,
			Wheelbase: 1150 * mm}, 0.46, -3.3, 7.1},
	} {
		t.Run(c.name, func(t *testing.T) {
			low := c.chassis.Lowered(10 * mm)
			steeper := (c.chassis.Rake - low.Rake).In(units.Degree)
			trail := (low.Trail() - c.chassis.Trail()).In(mm)
			if !(math.Abs(steeper-c.steeper) <= 0.006) {
				t.Errorf("%.3f° steeper, want %.2f°", steeper, c.steeper)
			}
			if !(math.Abs(trail-c.trail) <= 0.06) {
				t.Errorf("trail changes by %.2f mm, want %.1f mm", trail, c.trail)
			}
			tilted := c.chassis
			tilted.Rake -= 1e-6 * units.Degree
			if got := (c.chassis.Trail() - tilted.Trail()).In(mm) / 1e-6; !(math.Abs(got-c.dTrail) <= 0.05) {
				t.Errorf("%.2f mm of trail a degree, want %.1f", got, c.dTrail)
			}
		})
	}
}

func TestLoads(t *testing.T) {
	l := motocross.RiddenLoad(88 * units.Kilogram)
	// By hand: (199·0.47 − 15.3)·9.80665·cos 27.2° = 682 N.
	if got := l.Axial.In(units.Newton); !(math.Abs(got-682.3) <= 0.05) {
		t.Errorf("axial load %.2f N, want 682.3 N", got)
	}
	if l.Wheel-l.Unsprung != l.Sprung {
		t.Errorf("sprung %v is not wheel %v less unsprung %v", l.Sprung, l.Wheel, l.Unsprung)
	}
	if m := motocross.MachineLoad(); m.Axial >= l.Axial || m.Mass != motocross.Mass {
		t.Errorf("machine alone loads the fork with %+v, the rider with %v", m, l.Axial)
	}
	// Braking dives the fork: 300 N at the contact patch add 300·sin ε.
	want := l.Axial + units.Force(300*math.Sin(float64(motocross.Rake)))
	if got := motocross.AxialLoad(l.Wheel, 300); !(math.Abs(float64(got-want)) <= 1e-9) {
		t.Errorf("under braking %v, want %v", got, want)
	}
}

// A heavier rider loads the fork along its axis and lowers the head vertically: the wheel rate is the change of
// the wheel load over that height.
func TestWheelRateByLoads(t *testing.T) {
	const k = 9 * units.NewtonPerMillimeter
	light, heavy := motocross.RiddenLoad(70*units.Kilogram), motocross.RiddenLoad(90*units.Kilogram)
	travel := float64(heavy.Axial-light.Axial) / float64(k)
	height := travel * math.Cos(float64(motocross.Rake))
	if got, want := float64(motocross.WheelRate(k)),
		float64(heavy.Wheel-light.Wheel)/height; !(math.Abs(got/want-1) <= 1e-12) {
		t.Errorf("wheel rate %v, by the loads %v", got, want)
	}
}

func TestFrequency(t *testing.T) {
	// ω² = k_w/m by hand for a 100 kg body on a vertical spring of 100·(2π)² N/m: 1 Hz.
	c := geometry.Chassis{}
	k := units.Stiffness(100 * 4 * math.Pi * math.Pi)
	l := geometry.Load{Sprung: 100 * units.Force(units.StandardGravity)}
	if got := float64(c.Frequency(k, l)); !(math.Abs(got-1) <= 1e-12) {
		t.Errorf("frequency %v Hz, want 1 Hz", got)
	}
}

func TestForkSections(t *testing.T) {
	inverted := geometry.Fork{Layout: geometry.Inverted, Travel: 300 * mm,
		Stanchion: geometry.Tube{Outer: 48 * mm, Bore: 44 * mm}, OuterBore: 54 * mm}
	upright := inverted
	upright.Layout = geometry.Upright
	// π/4·(44² + 54² − 48²) mm² and π/4·44² mm².
	if got := inverted.OilColumn().In(units.SquareCentimeter); !(math.Abs(got-20.01) <= 0.005) {
		t.Errorf("inverted oil column %.3f cm², want 20.01", got)
	}
	if got := upright.OilColumn().In(units.SquareCentimeter); !(math.Abs(got-15.205) <= 0.005) {
		t.Errorf("upright oil column %.3f cm², want 15.21", got)
	}
	if inverted.SealedArea() != geometry.Circle(48*mm) || upright.SealedArea() != inverted.SealedArea() {
		t.Errorf("sealed area is not that of the stanchion's outer diameter")
	}
}

// OpenStax University Physics volume 2, the hand pump exercise (fs-id1172096052198 of
// openstax/osbooks-university-physics-bundle): a pump of 25.0 mm bore and 300 mm stroke against a mean gauge
// pressure of 2.4e5 Pa takes 117.8 N and, by F·s, 35.3 J.
func TestPumpForce(t *testing.T) {
	register.Cite(t, "G-18")
	force := float64(geometry.Circle(25*mm)) * 2.4e5
	if !(math.Abs(force-117.8) <= 0.05) || !(math.Abs(force*0.300-35.3) <= 0.05) {
		t.Errorf("%.2f N and %.2f J, want 117.8 N and 35.3 J", force, force*0.300)
	}
}

func within(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %v, want %v within %v", what, got, want, tolerance)
	}
}

func TestRoomSpacer(t *testing.T) {
	r := geometry.Room{Length: 620 * mm, Bore: 44 * mm}
	within(t, "spacer, mm", r.Spacer(600*mm, 4*mm).In(mm), 24, 1e-12)
	if got := r.Spacer(640*mm, 4*mm); got >= 0 {
		t.Errorf("a spring longer than the room leaves a spacer of %v", got)
	}
}

func TestRoomPreload(t *testing.T) {
	r := geometry.Room{Length: 620 * mm, Bore: 44 * mm}
	within(t, "installed, mm", r.Installed(24*mm).In(mm), 596, 1e-9)
	within(t, "preload, mm", r.Preload(600*mm, 24*mm).In(mm), 4, 1e-9)
	within(t, "spacer back, mm", r.Spacer(600*mm, r.Preload(600*mm, 24*mm)).In(mm), 24, 1e-9)
}

func TestCollar(t *testing.T) {
	c := geometry.Collar{Pitch: 1.5 * mm, Sides: 6}
	within(t, "turns", c.Turns(4*mm), 8.0/3, 1e-12)
	within(t, "advance, mm", c.Advance(2.5).In(mm), 3.75, 1e-12)
	for _, test := range []struct {
		change, missing float64 // mm
		turns, flats    int
	}{
		{4, 0, 2, 4},
		{1.5, 0, 1, 0},
		{1.6, 0.1, 1, 0},
		{1.7, -0.05, 1, 1},
		{-2, 0, -1, -2},
		{0, 0, 0, 0},
	} {
		turns, flats, missing := c.Flats(units.Length(test.change) * mm)
		if turns != test.turns || flats != test.flats || !(math.Abs(missing.In(mm)-test.missing) <= 1e-9) {
			t.Errorf("%v mm are %d turns, %d flats and %v, want %d, %d and %v mm", test.change, turns, flats, missing,
				test.turns, test.flats, test.missing)
		}
	}
}

func TestCaliper(t *testing.T) {
	c := geometry.Caliper{Loose: 12.4 * mm}
	within(t, "reading, mm", c.Reading(4*mm).In(mm), 16.4, 1e-12)
	within(t, "preload back, mm", c.Preload(c.Reading(4*mm)).In(mm), 4, 1e-12)
}

func TestValidate(t *testing.T) {
	fork := geometry.Fork{Layout: geometry.Inverted, Travel: 300 * mm,
		Stanchion: geometry.Tube{Outer: 48 * mm, Bore: 44 * mm}, OuterBore: 54 * mm}
	chassis := func(change func(*geometry.Chassis)) error {
		c := motocross
		change(&c)
		return c.Validate()
	}
	forked := func(change func(*geometry.Fork)) error {
		f := fork
		change(&f)
		return f.Validate()
	}
	for _, c := range []struct {
		name string
		err  error
		want string // "" for none
	}{
		{"a good chassis", motocross.Validate(), ""},
		{"a good fork", fork.Validate(), ""},
		{"rake as a bare number of degrees", chassis(func(c *geometry.Chassis) { c.Rake = 27 }), "Chassis.Rake"},
		{"rake NaN", chassis(func(c *geometry.Chassis) { c.Rake = units.Angle(math.NaN()) }), "Chassis.Rake"},
		{"share in percent", chassis(func(c *geometry.Chassis) { c.FrontShare = 48.5 }),
			"Chassis.FrontShare = 4850 %: want 20 % to 80 %"},
		{"wheel heavier than its load", chassis(func(c *geometry.Chassis) { c.Mass, c.UnsprungMass = 30, 16 }),
			"below the mass on the front wheel"},
		{"wheel heavier than its load once ridden", chassis(func(c *geometry.Chassis) {
			c.Mass, c.UnsprungMass, c.FrontShareRidden = 50, 16, 0.3
		}), "Chassis.FrontShareRidden = 30 %: want above 32 %"},
		{"no wall", forked(func(f *geometry.Fork) { f.Stanchion.Bore = 48 * mm }),
			"Fork.Stanchion.Bore = 48 mm: want below the outer diameter 48 mm"},
		{"outer tube inside the stanchion", forked(func(f *geometry.Fork) { f.OuterBore = 40 * mm }),
			"at least the stanchion's 48 mm"},
		{"no such layout", forked(func(f *geometry.Fork) { f.Layout = 7 }),
			"Fork.Layout = Layout(7): want upright or inverted"},
		{"room without a bore", geometry.Room{Length: 600 * mm}.Validate(), "Room.Bore"},
		{"guide wider than the tube", geometry.Room{Length: 600 * mm, Bore: 44 * mm, Guide: 50 * mm}.Validate(),
			"Room.Guide"},
		{"pitch in bare millimeters", geometry.Collar{Pitch: 1.5, Sides: 6}.Validate(),
			"Collar.Pitch = 1500 mm: want 0.25 mm to 5 mm"},
		{"collar without sides", geometry.Collar{Pitch: 1 * mm}.Validate(), "Collar.Sides = 0: want 1 to 36"},
		{"caliper below zero", geometry.Caliper{Loose: -1 * mm}.Validate(), "Caliper.Loose"},
	} {
		t.Run(c.name, func(t *testing.T) {
			switch {
			case c.want == "":
				if c.err != nil {
					t.Error(c.err)
				}
			case c.err == nil || !strings.Contains(c.err.Error(), c.want):
				t.Errorf("error %v, want %q", c.err, c.want)
			case !errors.As(c.err, new(*units.RangeError)):
				t.Errorf("error %T is not a *units.RangeError", c.err)
			}
		})
	}
}

func TestLayoutText(t *testing.T) {
	for _, l := range []geometry.Layout{geometry.Upright, geometry.Inverted} {
		text, _ := l.MarshalText()
		var back geometry.Layout
		if err := back.UnmarshalText(text); err != nil || back != l {
			t.Errorf("%v comes back as %v, %v", l, back, err)
		}
	}
	var l geometry.Layout
	if err := l.UnmarshalText([]byte("sideways")); err == nil {
		t.Error("sideways is a layout")
	}
}

func FuzzChassis(f *testing.F) {
	f.Add(0.47, 0.056, 0.345, 1.485, 111.0, 15.3, 0.485, 0.47, 0.91, 88.0)
	f.Fuzz(func(t *testing.T, rake, offset, radius, wheelbase, mass, unsprung, share, ridden, height, rider float64) {
		c := geometry.Chassis{Rake: units.Angle(rake), Offset: units.Length(offset), WheelRadius: units.Length(radius),
			Wheelbase: units.Length(wheelbase), Mass: units.Mass(mass), UnsprungMass: units.Mass(unsprung),
			FrontShare: units.Share(share), FrontShareRidden: units.Share(ridden),
			CenterOfGravity: units.Length(height)}
		if c.Validate() != nil || !(rider > 0 && rider < 300) {
			return
		}
		l := c.RiddenLoad(units.Mass(rider))
		for _, v := range []float64{float64(c.Trail()), float64(l.Axial), float64(c.MachineLoad().Axial),
			float64(c.Lowered(10 * mm).Rake), float64(c.WheelRate(1e4))} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%+v gives %v", c, v)
			}
		}
		if c.MachineLoad().Axial <= 0 || l.Axial <= 0 {
			t.Errorf("%+v pulls on its fork", c)
		}
	})
}

func FuzzCollar(f *testing.F) {
	f.Add(0.0015, 6, 0.004)
	f.Fuzz(func(t *testing.T, collar float64, sides int, change float64) {
		c := geometry.Collar{Pitch: units.Length(collar), Sides: sides}
		turns, flats, missing := c.Flats(units.Length(change)) // never panics
		if c.Validate() == nil && math.Abs(change) <= 1 {
			got := c.Advance(float64(turns)+float64(flats)/float64(sides)) + missing
			if !(math.Abs(float64(got)-change) <= 1e-12) {
				t.Errorf("%+v: %v comes back as %v", c, change, got)
			}
		}
	})
}

// How a rider becomes a load on the fork axis.
func ExampleChassis_RiddenLoad() {
	c := geometry.Chassis{Rake: 27.2 * units.Degree, Offset: 56 * units.Millimeter, WheelRadius: 345 * units.Millimeter,
		Wheelbase: 1485 * units.Millimeter, Mass: 111 * units.Kilogram, UnsprungMass: 15.3 * units.Kilogram,
		FrontShare: 0.485, FrontShareRidden: 0.47, CenterOfGravity: 910 * units.Millimeter}
	l := c.RiddenLoad(79 * units.Kilogram)
	fmt.Printf("wheel %.0f, less unsprung %.0f, on the axis %.0f\n", l.Wheel, l.Unsprung, l.Axial)
	fmt.Printf("trail %.0f, after sinking 10 mm %.0f\n", c.Trail(), c.Lowered(10*units.Millimeter).Trail())
	// Output:
	// wheel 876 N, less unsprung 150 N, on the axis 645 N
	// trail 114 mm, after sinking 10 mm 112 mm
}

func ExampleCaliper() {
	c := geometry.Caliper{Loose: 12.4 * units.Millimeter}
	fmt.Printf("set to %.1f for 4 mm of preload\n", c.Reading(4*units.Millimeter))
	// Output: set to 16.4 mm for 4 mm of preload
}

func ExampleFork_OilColumn() {
	f := geometry.Fork{Layout: geometry.Inverted, Travel: 305 * units.Millimeter,
		Stanchion: geometry.Tube{Outer: 48 * units.Millimeter, Bore: 44 * units.Millimeter},
		OuterBore: 54 * units.Millimeter}
	fmt.Printf("10 mm of level are %.1f\n", units.Volume(float64(f.OilColumn())*0.010))
	// Output: 10 mm of level are 20.0 mL
}

func ExampleCollar_Flats() {
	c := geometry.Collar{Pitch: 1.5 * units.Millimeter, Sides: 6}
	turns, flats, _ := c.Flats(4 * units.Millimeter)
	fmt.Printf("%d turns and %d flats; half a turn is %.2f mm\n", turns, flats, c.Advance(0.5).In(units.Millimeter))
	// Output: 2 turns and 4 flats; half a turn is 0.75 mm
}

// A spring in a leg: the spacers that preload it, and what stands in their place.
func ExampleRoom() {
	leg := geometry.Room{Length: 620 * units.Millimeter, Bore: 44 * units.Millimeter}
	spacer := leg.Spacer(600*units.Millimeter, 4*units.Millimeter)
	fmt.Printf("spacers of %.0f for a preload of 4 mm, which leave the spring %.0f; %.0f with 30 mm\n", spacer,
		leg.Installed(spacer), leg.Preload(600*units.Millimeter, 30*units.Millimeter))
	// Output: spacers of 24 mm for a preload of 4 mm, which leave the spring 596 mm; 10 mm with 30 mm
}

// A fork of 11 N/mm on a steering axis at 27°: what the wheel feels, and the trail that steers it.
func ExampleChassis_WheelRate() {
	c := geometry.Chassis{Rake: 27 * units.Degree, Offset: 30 * units.Millimeter, WheelRadius: 345 * units.Millimeter}
	fmt.Printf("%.1f at the wheel; trail %.0f on the ground, %.0f square to the axis\n",
		c.WheelRate(11*units.NewtonPerMillimeter), c.Trail(), c.NormalTrail())
	// Output:
	// 13.9 N/mm at the wheel; trail 142 mm on the ground, 127 mm square to the axis
}
