package fit_test

import (
	"errors"
	"io"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/units"
)

const mm = units.Millimeter

func read(x, f float64) spring.Reading {
	return spring.Reading{Travel: units.Length(x) * mm, Force: units.Force(f)}
}

// near forgives the last bit of a unit other than the SI one.
func near(a, b spring.Reading) bool {
	return math.Abs(float64(a.Travel-b.Travel)) < 1e-15 && math.Abs(float64(a.Force-b.Force)) < 1e-9
}

func TestReadCSV(t *testing.T) {
	want := spring.MeasuredSpec{
		Loading:   []spring.Reading{read(0, 52), read(10.5, 147.5), read(20, 240)},
		Unloading: []spring.Reading{read(0, -2), read(10, 98), read(20, 240)},
	}
	for _, c := range []struct{ name, text string }{
		{"plain", "travel [mm],force [N]\n0,52\n10.5,147.5\n20,240\n10,98\n0,-2\n"},
		{"byte order mark and CRLF", "\ufefftravel [mm],force [N]\r\n0,52\r\n10.5,147.5\r\n20,240\r\n10,98\r\n0,-2\r\n"},
		{"semicolons", "Travel (mm);Force (N)\n0;52\n10.5;147.5\n20;240\n10;98\n0;-2"},
		{"tabs", "travel_mm\tforce_N\n0\t52\n10.5\t147.5\n20\t240\n10\t98\n0\t-2\n"},
		{"other columns, comments, blank lines",
			"# bench 3\n\ntime [s],load/kN,displacement/cm\n0,0.052,0\n1,0.1475,1.05\n,,\n2,0.24,2\n" +
				"# back\n3,0.098,1\n4,-0.002,0\n"},
		{"tabs with an empty column", "time\ttravel_mm\tforce_N\n\t0\t52\n\t10.5\t147.5\n\t20\t240\n\t10\t98\n\t0\t-2\n"},
		{"quotes and spaces", "\"travel [mm]\", \"force [N]\"\n 0 , 52\n\"10.5\", 147.5\n20,240\n10,98\n0,-2\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := fit.ReadCSV("", strings.NewReader(c.text))
			if err != nil {
				t.Fatal(err)
			}
			if !slices.EqualFunc(got.Loading, want.Loading, near) || !slices.EqualFunc(got.Unloading, want.Unloading, near) {
				t.Errorf("got %+v, want %+v", got, want)
			}
		})
	}
	one, err := fit.ReadCSV("", strings.NewReader("travel [in],force [lbf]\n0,10\n1,60\n"))
	if err != nil || one.Unloading != nil ||
		one.Loading[1] != (spring.Reading{Travel: 1 * units.Inch, Force: 60 * units.PoundForce}) {
		t.Errorf("one stroke in inches = %+v, %v", one, err)
	}
}

func TestReadCSVRefuses(t *testing.T) {
	const header = "travel [mm],force [N]\n"
	for _, c := range []struct {
		name, text string
		line       int
		want       string
	}{
		{"nothing", "", 1, "the file is empty"},
		{"only a comment", "# hello\n", 1, "no header"},
		{"only a header", header, 1, "0 readings in all, want 2 or more"},
		{"one point", header + "0,52\n", 2, "1 readings in all, want 2 or more"},
		{"UTF-16", "\xff\xfet\x00r\x00", 1, "UTF-16"},
		{"no travel", "time [s],force [N]\n0,1\n", 1, "no column of travel"},
		{"no unit", "travel,force [N]\n0,1\n", 1, "no unit; name it as travel [mm]"},
		{"two forces", "travel [mm],force [N],load [N]\n0,1,1\n", 1, "a second column of force"},
		{"mass for force", "travel [mm],force [kg]\n0,1\n", 2, `force [kg] = "1": kg is a mass`},
		{"NaN", header + "0,52\n10,NaN\n", 3, `force [N] = "NaN": `},
		{"empty cell", header + "0,52\n10,\n", 3, `force [N]: no number`},
		{"empty cell between tabs", "travel_mm\tforce_N\n0\t52\n\t98\n", 3, `travel_mm: no number`},
		{"words", header + "0,52\n10,high\n", 3, `force [N] = "high": a number must come first; want N`},
		{"decimal commas between semicolons", "travel [mm];force [N]\n0;52\n10,5;147,5\n", 3,
			`travel [mm] = "10,5": a decimal comma; write 10.5`},
		{"decimal commas and thousands", "travel [mm];force [N]\n0;52\n10;1.147,5\n", 3,
			`force [N] = "1.147,5": both a point and a comma; write a decimal point`},
		{"decimal commas between commas", header + "0,52\n10,5,147,5\n", 3,
			"4 fields, want the 2 of the header; with decimal commas, write decimal points"},
		{"a field short", header + "0,52\n10\n", 3, "1 fields, want the 2"},
		{"repeated", header + "0,52\n10,140\n10,141\n", 4, "10 mm: want another travel than the reading before it"},
		{"unsorted", header + "0,52\n20,240\n10,140\n30,330\n", 5,
			"30 mm: want below the reading before it, 10 mm (one stroke in and one out, in the order taken)"},
		{"line without end", header + "0,52\n" + strings.Repeat("1", 100_000), 3, "a line of more than 64 KiB"},
		{"quote left open", header + "0,\"52\n", 2, "quote"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := fit.ReadCSV("", strings.NewReader(c.text))
			var at *units.FileError
			if !errors.As(err, &at) {
				t.Fatalf("error %v, want a *FileError", err)
			}
			if at.Line != c.line || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %q in line %d, want line %d and %q", err, at.Line, c.line, c.want)
			}
		})
	}
}

// endless goes on with the same text for ever.
type endless string

func (e endless) Read(p []byte) (int, error) {
	n := 0
	for n+len(e) <= len(p) {
		n += copy(p[n:], e)
	}
	return n, nil
}

func TestReadCSVEndsWhereTheTextDoesNot(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"one line", "x", "line of more than"}, {"commas", ",", "line of more than"},
		{"blank lines", "\n", "more than 16 MiB"},
		{"comments", "# no end\n", "more than 16 MiB"}, {"readings", "1,2\n2,3\n", "more than 100000 readings"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := io.MultiReader(strings.NewReader("travel [mm],force [N]\n"), endless(c.text))
			if _, err := fit.ReadCSV("", text); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want %s", err, c.want)
			}
		})
	}
}

// All faults come at once, each with its file, line, column and header.
func TestReadCSVFaults(t *testing.T) {
	_, err := fit.ReadCSV("bench.csv", strings.NewReader("travel [mm];force [N]\n0;52\nlow;147.5\n20\n30;1 kN\n"))
	type place struct {
		line, column int
		key          string
	}
	var got []place
	for _, err := range check.Split(err) {
		e := err.(*units.FileError)
		got = append(got, place{e.Line, e.Column, e.Key})
	}
	want := []place{{3, 1, "travel [mm]"}, {4, 0, ""}, {5, 4, "force [N]"}}
	if !slices.Equal(got, want) || !strings.HasPrefix(err.Error(), "bench.csv:3: ") {
		t.Errorf("faults at %+v, want %+v\n%v", got, want, err)
	}
	_, err = fit.ReadCSV("", strings.NewReader("travel [mm],force [N]\n0,52\n10,140\n10,141\n"))
	if out := new(units.RangeError); !errors.As(err, &out) || out.Field != "travel [mm]" {
		t.Errorf("%v holds no range error of the column", err)
	}
}

// A remark of nearly the longest line is read over wherever it begins.
func TestReadCSVLongLine(t *testing.T) {
	const longest = 64 << 10
	for _, before := range []int{0, 1000, 4000, 5000} {
		text := "travel [mm],force [N]\n" + strings.Repeat("#\n", before/2) + "#" + strings.Repeat("x", longest-2) +
			"\n0,52\n10,140\n20,230\n"
		if s, err := fit.ReadCSV("", strings.NewReader(text)); err != nil || len(s.Loading) != 3 {
			t.Errorf("after %d bytes: %d readings, %v", before, len(s.Loading), err)
		}
	}
}

// The first 20 faults are told, of however many.
func TestReadCSVFirstFaults(t *testing.T) {
	_, err := fit.ReadCSV("", strings.NewReader("travel [mm],force [N]\n"+strings.Repeat("low,high\n", 50)))
	if n := len(check.Split(err)); n < 20 || n > 21 { // a row may bring one for each column
		t.Errorf("%d faults, want the first 20", n)
	}
}

type brokenReader struct{}

func (brokenReader) Read([]byte) (int, error) { return 0, os.ErrClosed }

func TestReadCSVPassesOnReadErrors(t *testing.T) {
	if _, err := fit.ReadCSV("", brokenReader{}); !errors.Is(err, os.ErrClosed) {
		t.Errorf("error %v, want that of the reader", err)
	}
}

func FuzzReadCSV(f *testing.F) {
	f.Add("travel [mm],force [N]\n0,52\n10.5,147.5\n20,240\n10,98\n0,-2\n")
	f.Add("\ufefftravel_mm;force_N\r\n0;1\r\n1,5;2\r\n")
	f.Add("# a\n\"load/kgf\"\tposition/in\n1e3\t0\n\n2\t.5")
	f.Fuzz(func(t *testing.T, text string) {
		s, err := fit.ReadCSV("", strings.NewReader(text))
		if err != nil {
			if !errors.As(err, new(*units.FileError)) {
				t.Errorf("error %v is not a *FileError", err)
			}
			return
		}
		if _, err := spring.NewMeasured(s); err != nil && !errors.As(err, new(*units.RangeError)) {
			t.Errorf("%q is read, then fails with %v", text, err)
		}
	})
}
