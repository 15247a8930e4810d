package chart

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/plot/vg"

	"example.org/forkcurve/examples/internal/picture"
)

// lightness is CIE L* of an sRGB color. Source: IEC 61966-2-1 and CIE 15, constants from memory.
func lightness(r, g, b uint8) float64 {
	linear := func(v uint8) float64 {
		if u := float64(v) / 255; u > 0.04045 {
			return math.Pow((u+0.055)/1.055, 2.4)
		}
		return float64(v) / 255 / 12.92
	}
	return 116*math.Cbrt(0.2126*linear(r)+0.7152*linear(g)+0.0722*linear(b)) - 16
}

func TestPalette(t *testing.T) {
	if l := lightness(0x77, 0x77, 0x77); math.Abs(l-50) > 0.2 { // #777777 is the usual middle gray, L* 50
		t.Fatalf("middle gray has L* %.2f", l)
	}
	last := 0.0
	for i, c := range palette[1:] {
		l := lightness(c.R, c.G, c.B)
		if bluish := int(c.B) > (int(c.R)+int(c.G))/2; bluish != (i%2 == 0) {
			t.Errorf("color %d does not alternate between bluish and not", i+1)
		}
		if l < last+7 {
			t.Errorf("color %d has L* %.1f, too near to the %.1f before it", i+1, l, last)
		}
		last = l
	}
	if last > 80 {
		t.Errorf("the lightest has L* %.1f, too faint on white", last)
	}
}

func TestStylesDiffer(t *testing.T) {
	seen := map[string]int{}
	for i := range 64 {
		key := fmt.Sprint(Auto.next(i), AutoDash.next(i))
		if j, dup := seen[key]; dup {
			t.Errorf("lines %d and %d look the same", j, i)
		}
		seen[key] = i
	}
}

func TestTicks(t *testing.T) {
	for _, c := range []struct {
		name   string
		axis   Axis
		lo, hi float64
		want   []string
	}{
		{"rounded out", Axis{}, 13, 287, []string{"0", "50", "100", "150", "200", "250", "300"}},
		{"with zero", Axis{Zero: true}, 80, 95, []string{"0", "20", "40", "60", "80", "100"}},
		{"minus", Axis{}, -12, 11, []string{"−15", "−10", "−5", "0", "5", "10", "15"}},
		{"decimals", Axis{}, 0.1, 0.31, []string{"0.10", "0.15", "0.20", "0.25", "0.30", "0.35"}},
		{"given limits", Axis{Min: 5, Max: 38}, 0, 100, []string{"5", "10", "15", "20", "25", "30", "35"}},
		{"one value", Axis{}, 8.2, 8.2, []string{"7.0", "7.5", "8.0", "8.5", "9.0", "9.5"}},
		{"large", Axis{}, 0, 3e9, []string{"0", "5e+08", "1e+09", "1.5e+09", "2e+09", "2.5e+09", "3e+09"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := texts(newScale(c.axis, c.lo, c.hi, true, 6).ticks()); !slices.Equal(got, c.want) {
				t.Errorf("got %v, want %v", got, c.want)
			}
		})
	}
}

func TestSeparate(t *testing.T) {
	for _, c := range []struct {
		name       string
		want, size []vg.Length
		centers    []vg.Length
		ok         bool
	}{
		{"none", nil, nil, []vg.Length{}, true},
		{"apart", []vg.Length{80, 20}, []vg.Length{10, 10}, []vg.Length{80, 20}, true},
		{"two at one place", []vg.Length{50, 50}, []vg.Length{10, 10}, []vg.Length{45, 55}, true},
		{"unequal sizes", []vg.Length{50, 50}, []vg.Length{10, 30}, []vg.Length{40, 60}, true},
		{"at an end", []vg.Length{99, 98}, []vg.Length{10, 10}, []vg.Length{95, 85}, true},
		{"beyond both ends", []vg.Length{-40, 140}, []vg.Length{10, 10}, []vg.Length{5, 95}, true},
		{"pushed into a third", []vg.Length{50, 50, 62}, []vg.Length{10, 10, 10}, []vg.Length{44, 54, 64}, true},
		{"too many", []vg.Length{50, 50, 50}, []vg.Length{40, 40, 40}, []vg.Length{20, 60, 100}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, ok := picture.Separate(c.want, c.size, 0, 100)
			if ok != c.ok || len(got) != len(c.centers) {
				t.Fatalf("got %v, %v; want %v, %v", got, ok, c.centers, c.ok)
			}
			for i := range got {
				if !(math.Abs(float64(got[i]-c.centers[i])) <= 1e-9) {
					t.Fatalf("got %v, want %v", got, c.centers)
				}
			}
		})
	}
}

func TestWrap(t *testing.T) {
	f := picture.Face(10, false)
	for _, c := range []struct {
		name, text string
		most       int
		want       []string
	}{
		{"empty", "", 2, nil},
		{"short", "short", 2, []string{"short"}},
		{"given break", "a\nb", 2, []string{"a", "b"}},
		{"long", "coil nine, ridden", 3, []string{"coil nine,", "ridden"}},
		{"too many lines", "coil nine, ridden hard", 1, []string{"coil nine,…"}},
		{"long word", "counterclockwise", 2, []string{"countercl…"}},
		{"control characters", "a\x00b\xff", 1, []string{"a\ufffdb\ufffd"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := picture.Wrap(f, c.text, 52, c.most)
			if !slices.Equal(got, c.want) {
				t.Errorf("got %q, want %q", got, c.want)
			}
			if w := picture.Widest(f, got); w > 52 {
				t.Errorf("%.1f points wide", w)
			}
		})
	}
}
