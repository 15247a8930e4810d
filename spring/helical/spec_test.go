package helical_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// faults lists the range errors joined in err.
func faults(err error) []*units.RangeError {
	var all []*units.RangeError
	for _, err := range check.Split(err) {
		var one *units.RangeError
		if errors.As(err, &one) {
			all = append(all, one)
		}
	}
	return all
}

// wantFields checks that the faults of err are of these fields and no others; one with a
// dot names its specification too.
func wantFields(t *testing.T, err error, spec, fields string) {
	t.Helper()
	var got []string
	for _, f := range faults(err) {
		got = append(got, strings.TrimPrefix(f.Field, spec+"."))
	}
	if strings.Join(got, " ") != fields {
		t.Errorf("faults of %v, want %v: %v", got, fields, err)
	}
}

func TestNewFaults(t *testing.T) {
	good := helical.Spec{Wire: 5 * mm, MeanDiameter: 38 * mm, ActiveCoils: 25, FreeLength: 490 * mm, Material: of("sicrv")}
	nan := math.NaN()
	for _, row := range []struct {
		why    string
		change func(*helical.Spec)
		fields string
		says   string
	}{
		{"nothing", func(s *helical.Spec) { *s = helical.Spec{} },
			"Wire MeanDiameter Material ActiveCoils FreeLength", ""},
		{"wire as a bare number", func(s *helical.Spec) { s.Wire = 5 }, "Wire", "units.Millimeter"},
		{"wire NaN", func(s *helical.Spec) { s.Wire = units.Length(nan) }, "Wire", ""},
		{"wire thicker than the coil", func(s *helical.Spec) { s.Wire, s.MeanDiameter = 8*mm, 7*mm }, "MeanDiameter",
			"index"},
		{"index below 3", func(s *helical.Spec) { s.MeanDiameter = 14.9 * mm }, "MeanDiameter", "outer less one wire"},
		{"index above 20", func(s *helical.Spec) { s.MeanDiameter = 100.1 * mm }, "MeanDiameter", "20"},
		{"both diameters", func(s *helical.Spec) { s.OuterDiameter = 43 * mm }, "OuterDiameter", "exactly one"},
		{"outer gives index below 3", func(s *helical.Spec) { s.MeanDiameter, s.OuterDiameter = 0, 19*mm },
			"OuterDiameter", "index"},
		{"a little too steep", func(s *helical.Spec) { s.FreeLength = 1101 * mm }, "FreeLength", "these stand 20.0"},
		{"steeper by a hair", func(s *helical.Spec) { s.FreeLength = 1096.274 * mm }, "FreeLength", "these stand 20.000"},
		{"no coils", func(s *helical.Spec) { s.ActiveCoils = 0 }, "ActiveCoils", "exactly one"},
		{"active and total coils", func(s *helical.Spec) { s.TotalCoils = 27 }, "ActiveCoils", "exactly one"},
		{"half a coil", func(s *helical.Spec) { s.ActiveCoils = 0.5 }, "ActiveCoils", ""},
		{"negative coils", func(s *helical.Spec) { s.ActiveCoils = -25 }, "ActiveCoils", ""},
		{"coils NaN", func(s *helical.Spec) { s.ActiveCoils = nan }, "ActiveCoils", ""},
		{"endless coils", func(s *helical.Spec) { s.ActiveCoils = math.Inf(1) }, "ActiveCoils", ""},
		{"only end coils", func(s *helical.Spec) { s.ActiveCoils, s.TotalCoils = 0, 2.5 }, "TotalCoils", ""},
		{"rate in kgf/mm typed as N/mm", func(s *helical.Spec) { s.ActiveCoils, s.Rate = 0, 0.46*npm }, "FreeLength",
			"kgf/mm"},
		{"rate in N/cm typed as N/mm", func(s *helical.Spec) { s.ActiveCoils, s.Rate = 0, 46*npm }, "FreeLength",
			"unit of the rate"},
		{"rate in N/m typed as N/mm", func(s *helical.Spec) { s.ActiveCoils, s.Rate = 0, 4600*npm }, "Rate",
			"unit of the rate"},
		{"rate NaN", func(s *helical.Spec) { s.ActiveCoils, s.Rate = 0, units.Stiffness(nan) }, "Rate", ""},
		{"no such ends", func(s *helical.Spec) { s.Ends = 7 }, "Ends", ""},
		{"free length solid", func(s *helical.Spec) { s.FreeLength = 27 * 5 * mm }, "FreeLength", "solid length, 135 mm"},
		{"free length as a bare number", func(s *helical.Spec) { s.FreeLength = 490 }, "FreeLength", "units.Millimeter"},
		{"drawn out", func(s *helical.Spec) { s.ActiveCoils = 5 }, "FreeLength", "20°"},
		{"no material", func(s *helical.Spec) { s.Material = helical.Material{} }, "Material", "Material = none"},
		{"wire not made in it", func(s *helical.Spec) { s.Wire, s.MeanDiameter = 12*mm, 60*mm }, "Wire", "2 mm to 10 mm"},
		{"all at once", func(s *helical.Spec) { s.Wire, s.FreeLength, s.Ends, s.ActiveCoils = 0, 0, -1, 0 },
			"Wire Ends ActiveCoils FreeLength", ""},
	} {
		t.Run(row.why, func(t *testing.T) {
			spec := good
			row.change(&spec)
			s, err := helical.New(spec)
			wantFields(t, err, "Spec", row.fields)
			if err != nil && !strings.Contains(err.Error(), row.says) {
				t.Errorf("%v: does not say %q", err, row.says)
			}
			if s != (helical.Spring{}) {
				t.Error("a spring came with the error")
			}
		})
	}
}

// The rules of the ends: Shigley, Mechanical Engineering Design, 9th ed., Table
// 10-1, for ten active coils of 2 mm at a pitch of 6 mm.
func TestEndRules(t *testing.T) {
	register.Cite(t, "S-53")
	for _, row := range []struct {
		ends               helical.Ends
		total, solid, free float64
	}{
		{helical.Plain, 10, 22, 62},
		{helical.PlainGround, 11, 22, 66},
		{helical.Squared, 12, 26, 66},
		{helical.SquaredGround, 12, 24, 64},
	} {
		t.Run(row.ends.String(), func(t *testing.T) {
			s := build(t, helical.Spec{
				Wire: 2 * mm, MeanDiameter: 20 * mm, ActiveCoils: 10, Ends: row.ends,
				FreeLength: units.Length(row.free) * mm, Material: of("sm"),
			})
			compare(t, []number{
				{"Nt", s.TotalCoils(), row.total, 0, ""},
				{"Ls, mm", s.SolidLength().In(mm), row.solid, 1e-9, ""},
				{"p, mm", s.Pitch().In(mm), 6, 1e-9, ""},
			})
			text, err := row.ends.MarshalText()
			var back helical.Ends
			if err != nil || back.UnmarshalText(text) != nil || back != row.ends {
				t.Errorf("%q: came back as %v, %v", text, back, err)
			}
		})
	}
	var e helical.Ends = 9
	if _, err := e.MarshalText(); err == nil {
		t.Error("wrote ends that do not exist")
	}
	if err := e.UnmarshalText([]byte("open")); err == nil || e != 9 {
		t.Errorf("read %q as %v, %v", "open", e, err)
	}
}
