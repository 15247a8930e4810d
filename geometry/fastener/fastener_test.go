package fastener_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"

	"example.org/forkcurve/geometry/fastener"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/refusal"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/units"
)

const mm = units.Millimeter

func within(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %v, want %v within %v", what, got, want, tolerance)
	}
}

func TestWrenchPublished(t *testing.T) {
	register.Cite(t, "B-02", "B-03")
	const inch, footPound = units.Inch, units.PoundForceFoot
	for _, c := range []struct {
		name              string
		wrench            fastener.Wrench
		torque            float64 // ft·lbf
		setting, decimals float64
	}{
		// Instruction sheets of torque wrenches, worked examples.
		{"16 in wrench, 2 in extension", fastener.Wrench{Length: 16 * inch, Extension: 2 * inch}, 50, 44.44, 0.005},
		{"12 in wrench, 6 in extension", fastener.Wrench{Length: 12 * inch, Extension: 6 * inch}, 30, 20, 1e-9},
		// A rule of thumb, torque/(1 + e in feet), says 57.14 here whatever the wrench;
		// it is right for a wrench of 12 in only.
		{"18 in wrench, 9 in extension", fastener.Wrench{Length: 18 * inch, Extension: 9 * inch}, 100, 66.67, 0.005},
		{"12 in wrench, 9 in extension", fastener.Wrench{Length: 12 * inch, Extension: 9 * inch}, 100, 57.14, 0.005},
		// By the lever: nothing at a right angle, more than the torque pointing back.
		{"crowfoot at 90°", fastener.Wrench{Length: 16 * inch, Extension: 2 * inch, Angle: 90 * units.Degree}, 50, 50,
			1e-9},
		{"crowfoot at 60°", fastener.Wrench{Length: 16 * inch, Extension: 2 * inch, Angle: -60 * units.Degree}, 51, 48,
			1e-9},
		{"crowfoot pointing back", fastener.Wrench{Length: 16 * inch, Extension: 2 * inch, Angle: 180 * units.Degree},
			49, 56, 1e-9},
	} {
		t.Run(c.name, func(t *testing.T) {
			if err := c.wrench.Validate(); err != nil {
				t.Fatal(err)
			}
			torque := units.Torque(c.torque) * footPound
			setting := c.wrench.Setting(torque)
			within(t, "setting, ft·lbf", setting.In(footPound), c.setting, c.decimals)
			within(t, "torque back", c.wrench.Torque(setting).In(footPound), c.torque, 1e-9)
		})
	}
}

func TestJoint(t *testing.T) {
	j := fastener.Joint{Bolt: 1 * units.NewtonPerMillimeter, Members: 3 * units.NewtonPerMillimeter}
	open := j.Opens(300)
	within(t, "opens, N", float64(open), 400, 1e-9)
	within(t, "closed, N", float64(j.Force(300, 200)), 350, 1e-9)
	within(t, "as it opens, N", float64(j.Force(300, open)), 400, 1e-9)
	within(t, "open, N", float64(j.Force(300, 500)), 500, 1e-9)
	if err := j.Validate(); err != nil {
		t.Error(err)
	}
	if err := (fastener.Joint{}).Validate(); err == nil {
		t.Error("a joint of no stiffness")
	}
}

func TestBoltPublished(t *testing.T) {
	register.Cite(t, "B-04", "B-06")
	// Shigley's Mechanical Engineering Design, 9th edition, Example 8-3: 3/4 in-16
	// UNF bolt, 25 kip preload. (b) K = 0.2 gives 3750 lbf·in; (c) μ = 0.15 in
	// thread and collar gives 3551 lbf·in (this figure from memory).
	const inch = units.Inch
	const black, zinc, lubricated, cadmium = 0.30, 0.20, 0.18, 0.16 // Table 8-15
	if fastener.NutFactorBlack != black || fastener.NutFactorZinc != zinc ||
		fastener.NutFactorLubricated != lubricated || fastener.NutFactorCadmium != cadmium {
		t.Error("nut factors are not those of the table")
	}
	preload := 25000 * units.PoundForce
	bolt := fastener.Bolt{Diameter: 0.75 * inch, NutFactor: fastener.NutFactorZinc}
	within(t, "torque by nut factor, lbf·in", bolt.Torque(preload).In(units.PoundForceInch), 3750, 1e-6)
	within(t, "preload back, lbf", bolt.Preload(bolt.Torque(preload)).In(units.PoundForce), 25000, 1e-6)
	thread := fastener.Thread{Diameter: 0.75 * inch, Pitch: inch / 16, Friction: 0.15, HeadFriction: 0.15}
	bolt.NutFactor = thread.NutFactor()
	within(t, "torque by friction, lbf·in", bolt.Torque(preload).In(units.PoundForceInch), 3551, 0.5)

	// (a) k_b = 6.50 and k_m = 13.8 Mlbf/in under 6 kip: stress 67.02 kpsi from the preload
	// alone on A_t = 0.373 in², C = 0.320, 72.17 kpsi with the load.
	joint := fastener.Joint{Bolt: 6.5e6 * units.PoundForcePerInch, Members: 13.8e6 * units.PoundForcePerInch}
	stress := func(f units.Force) float64 { return f.In(units.PoundForce) / 0.373 / 1000 }
	within(t, "stress of the preload, kpsi", stress(joint.Force(preload, 0)), 67.02, 0.005)
	within(t, "share of the bolt", float64(joint.Share()), 0.320, 0.0005)
	within(t, "stress under load, kpsi", stress(joint.Force(preload, 6000*units.PoundForce)), 72.17,
		0.02) // the book rounds C

	// VDI 2230, equation R13 in its short form (from memory): M8, 17.2 kN, μ = 0.12,
	// P = 1.25 mm, seat 11 mm: 23.4 N·m.
	register.Cite(t, "B-07")
	thread = fastener.Thread{Diameter: 8 * mm, Pitch: 1.25 * mm, Bearing: 11 * mm, Friction: 0.12, HeadFriction: 0.12}
	bolt = fastener.Bolt{Diameter: 8 * mm, NutFactor: thread.NutFactor()}
	within(t, "M8, N·m", float64(bolt.Torque(17.2*units.Kilonewton)), 23.4, 0.05)
}

func TestScatterPublished(t *testing.T) {
	register.Cite(t, "B-05")
	// Same book, Tables 8-13 and 8-14: preloads in kN of bolts tightened to
	// 90 N·m, with the mean and standard deviation printed there.
	for _, c := range []struct {
		name                string
		preloads            []float64
		mean, decimals      float64
		deviation, relative float64
	}{
		{"dry", []float64{23.6, 27.6, 28.0, 29.4, 30.3, 30.7, 32.9, 33.8, 33.8, 33.8, 34.7, 35.6, 35.6, 37.4, 37.8,
			37.8, 39.2, 40.0, 40.5, 42.7},
			34.3, 0.05, 4.91, fastener.ScatterDry},
		{"lubricated", []float64{30.3, 32.5, 32.5, 32.9, 32.9, 33.8, 34.3, 34.7, 37.4, 40.5}, 34.18, 0.005, 2.88,
			fastener.ScatterLubricated},
	} {
		t.Run(c.name, func(t *testing.T) {
			mean, deviation := stat.MeanStdDev(c.preloads, nil)
			within(t, "mean", mean, c.mean, c.decimals)
			within(t, "standard deviation", deviation, c.deviation, 0.005)
			within(t, "relative", deviation/mean, c.relative, 0.0005)
		})
	}
}

func TestFastenersValidate(t *testing.T) {
	for _, c := range []struct {
		name string
		err  error
		want string // "" for none
	}{
		{"a good thread", fastener.Thread{Diameter: 8 * mm, Pitch: 1.25 * mm, Friction: 0.12,
			HeadFriction: 0.12}.Validate(), ""},
		{"wrench without a lever", fastener.Wrench{Extension: 50 * mm}.Validate(), "Wrench.Length = 0 mm"},
		{"adapter back to the grip", fastener.Wrench{Length: 300 * mm, Extension: 290 * mm,
			Angle: 180 * units.Degree}.Validate(), "a lever of at least 60 mm (the adapter points back to the grip"},
		{"adapter just long enough", fastener.Wrench{Length: 300 * mm, Extension: 239 * mm,
			Angle: 180 * units.Degree}.Validate(), ""},
		{"angle as a bare number of degrees", fastener.Wrench{Length: 300 * mm, Angle: 90}.Validate(), "Wrench.Angle"},
		{"nut factor in percent", fastener.Bolt{Diameter: 8 * mm, NutFactor: 20}.Validate(),
			"Bolt.NutFactor = 20: want 0.05 to 0.5"},
		{"thread coarser than any", fastener.Thread{Diameter: 8 * mm, Pitch: 3 * mm, Friction: 0.12,
			HeadFriction: 0.12}.Validate(), "Thread.Pitch = 3 mm: want 0.2 mm to 2 mm"},
		{"seat inside the bolt", fastener.Thread{Diameter: 8 * mm, Pitch: 1 * mm, Bearing: 7 * mm, Friction: 0.12,
			HeadFriction: 0.12}.Validate(), "Thread.Bearing = 7 mm: want 8 mm to 24 mm"},
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

func TestEveryFieldHasLimits(t *testing.T) {
	refusal.Fields(t, func() fastener.Wrench {
		return fastener.Wrench{Length: 300 * mm, Extension: 50 * mm, Angle: 30 * units.Degree}
	}, fastener.Wrench.Validate)
	// A fault in one of them says nothing of the lever that they make.
	for _, w := range []fastener.Wrench{{Length: -1, Extension: 50 * mm}, {Length: 60 * mm, Extension: -100 * mm},
		{Length: 60 * mm, Extension: 59 * mm, Angle: 3 * math.Pi}} {
		if err := w.Validate(); len(check.Split(err)) != 1 {
			t.Errorf("%+v: %v, want one fault", w, err)
		}
	}
	refusal.Fields(t, func() fastener.Thread {
		return fastener.Thread{Diameter: 8 * mm, Pitch: 1.25 * mm, Bearing: 11 * mm, Friction: 0.12, HeadFriction: 0.12}
	}, fastener.Thread.Validate)
	refusal.Fields(t, func() fastener.Bolt { return fastener.Bolt{Diameter: 8 * mm, NutFactor: 0.2} },
		fastener.Bolt.Validate)
	refusal.Fields(t, func() fastener.Joint { return fastener.Joint{Bolt: 1e8, Members: 3e8} }, fastener.Joint.Validate)
}

func FuzzFasteners(f *testing.F) {
	f.Add(0.4, 0.05, 0.5, 0.008, 0.00125, 0.011, 0.12, 0.12)
	f.Fuzz(func(t *testing.T, length, extension, angle, d, pitch, bearing, mu, head float64) {
		check := func(v float64) {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("valid records give %v", v)
			}
		}
		w := fastener.Wrench{Length: units.Length(length), Extension: units.Length(extension),
			Angle: units.Angle(angle)}
		if w.Validate() == nil {
			if s := w.Setting(10); !(s > 0) || !(math.Abs(float64(w.Torque(s)-10)) <= 1e-9) {
				t.Errorf("%+v sets %v for 10 N·m", w, s)
			}
		}
		th := fastener.Thread{Diameter: units.Length(d), Pitch: units.Length(pitch), Bearing: units.Length(bearing),
			Friction: mu, HeadFriction: head}
		if th.Validate() == nil {
			if k := th.NutFactor(); !(k > 0 && k < 2) {
				t.Errorf("%+v has the nut factor %v", th, k)
			}
		}
		if b := (fastener.Bolt{Diameter: units.Length(d), NutFactor: mu}); b.Validate() == nil {
			check(float64(b.Preload(10)))
		}
	})
}

// A crowfoot in line lengthens the lever, so the wrench is set lower.
func ExampleWrench() {
	w := fastener.Wrench{Length: 300 * units.Millimeter, Extension: 40 * units.Millimeter}
	fmt.Printf("set %.1f for 20 N·m\n", w.Setting(20*units.NewtonMeter))
	w.Angle = 90 * units.Degree
	fmt.Printf("set %.1f at a right angle\n", w.Setting(20*units.NewtonMeter))
	// Output:
	// set 17.6 N·m for 20 N·m
	// set 20.0 N·m at a right angle
}

// The same torque on a dry and on a greased thread.
func ExampleBolt() {
	for _, k := range []float64{fastener.NutFactorBlack, fastener.NutFactorLubricated} {
		b := fastener.Bolt{Diameter: 6 * units.Millimeter, NutFactor: k}
		fmt.Printf("%.1f kN\n", b.Preload(9*units.NewtonMeter).In(units.Kilonewton))
	}
	// Output:
	// 5.0 kN
	// 8.3 kN
}

// What the torque of a manual stands for: the thread's own friction, here greased.
func ExampleThread() {
	t := fastener.Thread{Diameter: 6 * units.Millimeter, Pitch: 1 * units.Millimeter, Friction: 0.12,
		HeadFriction: 0.12}
	b := fastener.Bolt{Diameter: t.Diameter, NutFactor: t.NutFactor()}
	fmt.Printf("nut factor %.2f: %.1f for 6 kN\n", b.NutFactor, b.Torque(6*units.Kilonewton))
	// Output: nut factor 0.16: 5.9 N·m for 6 kN
}

// How far a clamp holds together when its load pulls it apart.
func ExampleJoint() {
	j := fastener.Joint{Bolt: 2e5 * units.NewtonPerMillimeter, Members: 8e5 * units.NewtonPerMillimeter}
	fmt.Printf("%.1f in the bolt under a load of 3 kN, opens at %.1f\n",
		j.Force(6*units.Kilonewton, 3*units.Kilonewton).In(units.Kilonewton),
		j.Opens(6*units.Kilonewton).In(units.Kilonewton))
	// Output: 6.6 in the bolt under a load of 3 kN, opens at 7.5
}

// What one torque makes of the same bolt, zinc or cadmium plated, and of the next dry one: 95 % lie within twice
// the scatter.
func ExampleBolt_Preload() {
	for _, k := range []float64{fastener.NutFactorZinc, fastener.NutFactorCadmium} {
		b := fastener.Bolt{Diameter: 8 * units.Millimeter, NutFactor: k}
		mean := b.Preload(20 * units.NewtonMeter)
		off := 2 * fastener.ScatterDry * float64(mean)
		fmt.Printf("K %.2f: %.1f kN ± %.1f kN\n", k, mean.In(units.Kilonewton), units.Force(off).In(units.Kilonewton))
	}
	b := fastener.Bolt{Diameter: 8 * units.Millimeter, NutFactor: fastener.NutFactorLubricated}
	fmt.Printf("lubricated: within %.0f %%\n", 100*2*fastener.ScatterLubricated)
	fmt.Printf("its torque for 12.5 kN: %.1f\n", b.Torque(12.5*units.Kilonewton))
	// Output:
	// K 0.20: 12.5 kN ± 3.6 kN
	// K 0.16: 15.6 kN ± 4.5 kN
	// lubricated: within 17 %
	// its torque for 12.5 kN: 18.0 N·m
}
