package ride_test

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"
	"testing/iotest"

	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/units"
)

func TestReadProfile(t *testing.T) {
	// A parabola of uneven steps, from a height that is taken as 0, with a remark.
	text := "time_s,height_mm\n# by hand\n0,5\n0.1,6\n0.3,14\n0.4,21\n0.5,30\n"
	p, err := ride.ReadProfile("road.csv", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	if p.End() != 0.5 || len(p.Corners()) != 0 {
		t.Errorf("ends at %v with corners at %v", p.End(), p.Corners())
	}
	for s := units.Time(0.1); s < 0.4; s += 0.01 { // at both ends it is level
		h, v := p.At(s)
		if want := 0.1 * float64(s*s); !(math.Abs(float64(h)-want) <= 1e-15 && math.Abs(float64(v)-0.2*float64(s)) <= 1e-13) {
			t.Errorf("at %v: %v, %v, want %v m and %v m/s", s, h, v, want, 0.2*float64(s))
		}
	}
	for _, c := range []struct {
		at     units.Time
		height units.Length
	}{{-1, 0}, {0, 0}, {0.5, 25 * mm}, {9, 25 * mm}, {units.Time(math.NaN()), 0}} {
		if h, v := p.At(c.at); !(math.Abs(float64(h-c.height)) <= 1e-15) || v != 0 {
			t.Errorf("at %v: %v, %v, want %v and level", c.at, h, v, c.height)
		}
	}
	var none ride.Profile
	if h, v := none.At(1); h != 0 || v != 0 || none.End() != 0 {
		t.Errorf("no profile: %v, %v, ends at %v", h, v, none.End())
	}
}

func TestReadProfileRefuses(t *testing.T) {
	for _, c := range []struct {
		name, text, want string
	}{
		{"empty", "", "1: empty; want time_s,height_mm"},
		{"another header", "t,h\n0,0\n", "want the header time_s,height_mm"},
		{"another time", "t,height_mm\n0,0\n", "want the header time_s,height_mm"},
		{"another height", "time_s,h\n0,0\n", "want the header time_s,height_mm"},
		{"an open quote further on", "time_s,height_mm\n0,0\n# a remark\n0.1,\"0\n", "road.csv:4"},
		{"three columns", "time_s,height_mm\n0,0,0\n", "road.csv:2"},
		{"a comma in a number", "time_s,height_mm\n0,0\n\"0,1\",2\n", "road.csv:3: time_s = 0,1"},
		{"no number", "time_s,height_mm\n0,0\n0.1,low\n", "want a number with a decimal point"},
		{"NaN", "time_s,height_mm\n0,0\n0.1,NaN\n", "heights[1].Height"},
		{"unsorted", "time_s,height_mm\n0,0\n0.2,1\n0.1,2\n", "heights[2].Time"},
		{"a cliff", "time_s,height_mm\n0,0\n0.001,100\n", "at most 50 m/s"},
		{"one line", "time_s,height_mm\n0,0\n", "2 to 10 000 000 points"},
		{"an open quote", "time_s,height_mm\n0,\"0\n", "road.csv"},
		{"without end", "time_s,height_mm\n" + strings.Repeat("#"+strings.Repeat(" ", 1<<20)+"\n", 65) + "0,0\n", "64 MiB"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := ride.ReadProfile("road.csv", strings.NewReader(c.text))
			if !errors.As(err, new(*units.FileError)) || !strings.Contains(fmt.Sprint(err), c.want) {
				t.Errorf("error %v, want a *units.FileError with %q", err, c.want)
			}
		})
	}
	broken := io.MultiReader(strings.NewReader("time_s,height_mm\n0,0\n0.1,1\n"), iotest.ErrReader(errors.New("no tape")))
	var fault *units.FileError
	if _, err := ride.ReadProfile("road.csv", broken); !errors.As(err, &fault) || fault.Line != 4 {
		t.Errorf("broken off: %+v", err)
	}
	if _, err := ride.Whoops(100*mm, 0, 1, 5, 0); !errors.As(err, new(*units.RangeError)) {
		t.Errorf("whoops without length: %v", err)
	}
	p, err := ride.Whoops(100*mm, 2*units.Meter, 1, 5, 0) // at once
	if h, _ := p.At(0.2); err != nil || !(math.Abs(float64(h-100*mm)) <= 1e-15) {
		t.Errorf("the crest at %v, %v", h, err)
	}
}
