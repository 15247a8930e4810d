package data_test

import (
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const mm = units.Millimeter

// in says whether x lies between lo and hi, give or take slack.
func in[Q ~float64](x, lo, hi, slack Q) bool { return x >= lo-slack && x <= hi+slack }

func bicycle(f data.Fork) bool {
	return strings.HasPrefix(f.Use, "bicycle-") || f.Use == "gravel" || f.Use == "dirt-jump"
}

// assemble is the fork set up in the standard atmosphere.
func assemble(t *testing.T, f data.Fork) *setup.Setup {
	t.Helper()
	sea, err := gas.Standard(0)
	if err != nil {
		t.Fatal(err)
	}
	s, err := f.Setup(sea)
	if err != nil {
		t.Fatalf("%s: %v", f.ID, err)
	}
	return s
}

func sag(t *testing.T, s *setup.Setup, load units.Force) setup.Sag {
	t.Helper()
	sag, err := s.Sag(load)
	if err != nil {
		t.Fatal(err)
	}
	return sag
}

// TestForkSag: the library's own model puts every fork into the windows that the
// record and its discipline name. (That this holds for air springs is by construction,
// as their source "tuned" says.)
func TestForkSag(t *testing.T) {
	for f := range data.Reference().Forks() {
		t.Run(f.ID, func(t *testing.T) {
			d, err := data.Reference().Discipline(f.Use)
			if err != nil {
				t.Fatal(err)
			}
			s := assemble(t, f)
			travel := f.Travel.Value
			ridden := sag(t, s, f.Load(f.Rider.Mass.Value))
			share := units.Share(ridden.Middle / travel)
			if !in(share, f.Sag.Rider.Lo, f.Sag.Rider.Hi, 0) {
				t.Errorf("sag %v outside %v to %v of the record", share, f.Sag.Rider.Lo, f.Sag.Rider.Hi)
			}
			if f.Sag.Rider.Lo > d.Sag.Hi || f.Sag.Rider.Hi < d.Sag.Lo {
				t.Errorf("sag window and that of %s have nothing in common", d.ID)
			}
			alone := sag(t, s, f.MachineLoad())
			if share := units.Share(alone.Middle / travel); f.Sag.Machine.Given() && !in(share, f.Sag.Machine.Lo,
				f.Sag.Machine.Hi, 0) {
				t.Errorf("machine sag %v outside %v to %v", share, f.Sag.Machine.Lo, f.Sag.Machine.Hi)
			}
			if zone := ridden.Low - ridden.High; !in(zone, d.FrictionZone.Lo, d.FrictionZone.Hi, 0.05*mm) {
				t.Errorf("friction zone %.1f mm outside that of %s", zone.In(mm), d.ID)
			}
			// The gas of a pressurized damper does part of what preload does.
			if d.Preload.Given() && !f.Left.Reservoir.Rod.Given() && !in(f.Kit.PreloadAim.Value, d.Preload.Lo, d.Preload.Hi, 0) {
				t.Errorf("preload %v outside that of %s", f.Kit.PreloadAim.Value, d.ID)
			}
		})
	}
}

// TestForkCurve: plausible forces and frequencies. The bounds are common practice and
// experience, no source: they would catch a slip of a unit or of a leg.
func TestForkCurve(t *testing.T) {
	for f := range data.Reference().Forks() {
		t.Run(f.ID, func(t *testing.T) {
			s := assemble(t, f)
			travel, load := f.Travel.Value, f.Load(f.Rider.Mass.Value)
			slow, fast := s.Curve(gas.Isothermal), s.Curve(1.3)
			if slow.Stroke() < travel {
				t.Fatalf("only %v of %v: bind or hydraulic lock", slow.Stroke(), travel)
			}
			if x := float64(slow.Force(travel) / load); !in(x, 2.2, 9, 0) {
				t.Errorf("bottom force is %.1f times the rider's load", x)
			}
			if fast.Force(travel) < slow.Force(travel) {
				t.Error("softer when fast")
			}
			top := slow.Force(0)
			if top < 0 || top > 0.45*load {
				t.Errorf("top-out force %v under a load of %v", top, load)
			}
			if !bicycle(f) && top > f.MachineLoad() {
				t.Errorf("top-out force %v: the machine alone, %v, does not make it sag", top, f.MachineLoad())
			}
			x := sag(t, s, load).Middle
			k := f.Chassis.Geometry().WheelRate(s.CurveAbout(x, 1.3).Rate(x))
			m := f.Chassis.Geometry().RiddenLoad(f.Rider.Mass.Value).Sprung / units.Force(units.StandardGravity)
			most := 3.8
			if travel <= 100*mm {
				most = 6 // short travel is stiff
			}
			if hz := math.Sqrt(float64(k)/float64(m)) / (2 * math.Pi); !in(hz, 0.8, most, 0) {
				t.Errorf("body frequency %.2f Hz", hz)
			}
			for side := setup.Left; side <= setup.Right; side++ {
				if gap, err := s.Gap(side, gas.Isothermal); err == nil && !in(gap.CompressionRatio(), 1.5, 6, 0) {
					t.Errorf("gap compression ratio %.1f in the %v leg", gap.CompressionRatio(), side)
				}
			}
		})
	}
}

// TestForkGeometry: the parts fit into each other, by the library's own checks.
func TestForkGeometry(t *testing.T) {
	for f := range data.Reference().Forks() {
		t.Run(f.ID, func(t *testing.T) {
			for _, err := range []error{f.Geometry().Validate(), f.Chassis.Geometry().Validate(), f.Kit.Geometry().Validate()} {
				if err != nil {
					t.Error(err)
				}
			}
			c := f.Chassis
			if h, w := c.CenterOfGravity.Value, c.Wheelbase.Value; !in(h/w, 0.3, 1.1, 0) {
				t.Errorf("center of gravity at %v over a wheelbase of %v", h, w)
			}
			if f.Kit.Bore.Value > f.StanchionBore.Value {
				t.Error("kit bore above the stanchion's")
			}
			for _, l := range []data.Leg{f.Left, f.Right} {
				if l.Role.HasAir() {
					// The net bore of a leg that is a spring as a whole lies between
					// the stanchion's diameters.
					limit := f.StanchionBore.Value
					if !f.Gap.Residual.Given() {
						limit = f.Stanchion.Value
					}
					if l.Air.Bore.Value > limit {
						t.Errorf("air bore %v in a tube of %v", l.Air.Bore.Value, limit)
					}
				}
			}
		})
	}
}

// TestForkCoil: every coil spring in the dataset can be made, fits its tube even when
// closed, and has the margins to bind and stress that package helical asks for.
func TestForkCoil(t *testing.T) {
	for f := range data.Reference().Forks(data.SprungBy(data.CoilLeg)) {
		t.Run(f.ID, func(t *testing.T) {
			for _, l := range []data.Leg{f.Left, f.Right} {
				if !l.Role.HasCoil() {
					continue
				}
				s := wound(t, l.Coil)
				at, err := l.Working(f.Travel.Value, f.Travel.Value)
				if err != nil {
					t.Fatal(err)
				}
				if need := s.DynamicMinimumGap() * units.Length(at.Open); !(s.BindMargin(at.Compression) >= need) {
					t.Errorf("bind margin %v below %v", s.BindMargin(at.Compression), need)
				}
				if tau := s.ShearStress(at.Force); !(tau <= s.StaticLimit()) {
					t.Errorf("stress %v above %v", tau, s.StaticLimit())
				}
				if s.Index() < 4 {
					t.Errorf("index %.1f", s.Index())
				}
				if s.OuterDiameterAtSolid() > f.Kit.Bore.Value {
					t.Errorf("outer diameter when closed %v in a bore of %v", s.OuterDiameterAtSolid(), f.Kit.Bore.Value)
				}
				if s.InnerDiameter() < f.Kit.Guide.Value+1*mm {
					t.Errorf("inner diameter %v over a guide of %v", s.InnerDiameter(), f.Kit.Guide.Value)
				}
			}
		})
	}
}

// TestForkAir: the chambers close.
func TestForkAir(t *testing.T) {
	for f := range data.Reference().Forks(data.SprungBy(data.AirLeg)) {
		a := f.Left.Air
		swept := math.Pi / 4 * float64(a.Bore.Value) * float64(a.Bore.Value) * float64(f.Travel.Value)
		if ratio := float64(a.Volume.Value) / (float64(a.Volume.Value) - swept); !in(ratio, 1.5, 4, 0) {
			t.Errorf("%s: compression ratio %.2f", f.ID, ratio)
		}
		if !a.NegativeVolume.Given() && !a.BalanceRate.Given() {
			t.Errorf("%s: nothing works against the air spring at full extension", f.ID)
		}
	}
}

// TestForkKit: a coil build that the library designs fits each fork at every corner of its rates,
// preloads and oil, and none of them locks a leg.
func TestForkKit(t *testing.T) {
	for f := range data.Reference().Forks() {
		t.Run(f.ID, func(t *testing.T) {
			k := f.Kit
			legs := 1
			if !k.Legs.Left && !k.Legs.Right {
				legs = 2
			}
			for _, rate := range []units.Stiffness{k.Rate.Lo, k.Rate.Hi} {
				for _, preload := range []units.Length{k.Preload.Lo, k.PreloadAim.Value, k.Preload.Hi} {
					spec := f.SpringSpec(rate, wire(t, "sicrv"))
					spec.PreloadLeast, spec.PreloadAim, spec.PreloadMost = preload, preload, preload
					d, err := spec.Design(legs)
					if err != nil || d.Reason != nil {
						t.Errorf("%v with %v of preload: %v, %v", rate, preload, err, d.Reason)
						continue
					}
					metal := k.Metal.Value
					if k.SpringInOil {
						metal += d.Spring.Volume()
					}
					for _, volume := range []units.Volume{k.Oil.Lo, k.OilAim.Value, k.Oil.Hi} {
						if ratio := gapRatio(t, f, metal, volume); !in(ratio, 1.3, 9, 0) {
							t.Errorf("%v, %v of preload, %v of oil: gap compression ratio %.2f", rate, preload, volume, ratio)
						}
					}
				}
			}
		})
	}
}

// gapRatio is that of the gas over the oil of a leg, extended to compressed.
func gapRatio(t *testing.T, f data.Fork, metal, volume units.Volume) float64 {
	fill := filled(t, f, metal, volume)
	swept := units.Volume(float64(f.Gap.Area(f)) * float64(f.Travel.Value))
	return float64((fill.Residual() + swept) / fill.Residual())
}

// filled is a leg of the fork's kit with metal and oil in it.
func filled(t *testing.T, f data.Fork, metal, volume units.Volume) oil.Fill {
	t.Helper()
	fill, err := oil.NewFill(oil.FillSpec{
		Interior: f.Kit.Interior.Value, Column: f.Geometry().OilColumn(), Metal: metal,
		Volume: max(volume, 1*units.Milliliter),
	})
	if err != nil {
		t.Fatalf("%v of oil: %v", volume, err)
	}
	return fill
}

// TestForkTwins: the same fork with the other spring carries nearly the same rider.
func TestForkTwins(t *testing.T) {
	for _, pair := range [][2]string{{"M06", "M07"}, {"M05", "M08"}, {"M11", "M12"}, {"B04", "B06"}, {"B07", "B08"}} {
		a, err := data.Reference().Fork(pair[0])
		if err != nil {
			t.Fatal(err)
		}
		b, err := data.Reference().Fork(pair[1])
		if err != nil {
			t.Fatal(err)
		}
		if a.Travel.Value != b.Travel.Value || a.Stanchion.Value != b.Stanchion.Value || a.Chassis.Rake != b.Chassis.Rake {
			t.Errorf("%v are no twins", pair)
		}
		ea, eb := assemble(t, a).Curve(1.3).Energy(a.Travel.Value), assemble(t, b).Curve(1.3).Energy(b.Travel.Value)
		if r := float64(ea / eb); !in(r, 0.85, 1.18, 0) {
			t.Errorf("%v: energies to the stop differ by a factor of %.2f", pair, r)
		}
	}
}
