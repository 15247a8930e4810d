package data

import (
	"errors"
	"strconv"
	"strings"

	"example.org/forkcurve/units"
)

// Tire is the size on the wall of a tire:
//
//	"80/100-21", "120/70 R 17"  metric: width in millimeters, height in percent of it, rim code
//	"3.00-21"                   code: width in inches, as high as wide, rim code
//	"58-622"                    bicycle, ISO 5775: width and bead seat diameter in millimeters, as high as wide
type Tire string

var errTire = errors.New(`not a tire size; want one as "80/100-21", "3.00-21" or "58-622"`)

// Radius is half the nominal outer diameter, of the tire inflated and without load.
//
// A rim code is the diameter in inches, rounded to a millimeter (UN Regulation No. 75,
// paragraph 2); ISO 4249 and ISO 5775 have the same sizes, from memory. A height equal to
// the width is common practice for code and bicycle tires, no source.
func (t Tire) Radius() (units.Length, error) {
	for _, read := range []func(string) (bead, height float64, ok bool){metricTire, codeTire, bicycleTire} {
		if bead, height, ok := read(string(t)); ok {
			return units.Length(bead/2+height) * mm, nil
		}
	}
	return 0, errTire
}

func metricTire(text string) (bead, height float64, ok bool) {
	width, rest, ok1 := strings.Cut(text, "/")
	n := len(rest) - len(strings.TrimLeft(rest, "0123456789"))
	share, rest := rest[:n], strings.TrimPrefix(rest[n:], " ")
	for _, built := range []string{"-", "B", "ZR", "R"} {
		if after, is := strings.CutPrefix(rest, built); is {
			rest = after
			break
		}
	}
	w, ok2 := digits(width, 2, 3)
	h, ok3 := digits(share, 2, 3)
	rim, ok4 := digits(strings.TrimPrefix(rest, " "), 2, 2)
	return rimDiameter(rim), w * h / 100, ok1 && ok2 && ok3 && ok4
}

func codeTire(text string) (bead, height float64, ok bool) {
	width, code, ok1 := strings.Cut(text, "-")
	whole, part, ok2 := strings.Cut(strings.TrimSuffix(width, " "), ".")
	_, ok3 := digits(whole, 1, 1)
	_, ok4 := digits(part, 1, 2)
	rim, ok5 := digits(strings.TrimPrefix(code, " "), 1, 2)
	w, _ := strconv.ParseFloat(whole+"."+part, 64)
	return rimDiameter(rim), 25.4 * w, ok1 && ok2 && ok3 && ok4 && ok5
}

func bicycleTire(text string) (bead, height float64, ok bool) {
	width, seat, ok1 := strings.Cut(text, "-")
	w, ok2 := digits(width, 2, 3)
	bead, ok3 := digits(seat, 3, 3)
	return bead, w, ok1 && ok2 && ok3
}

func rimDiameter(code float64) float64 { return float64(int(25.4*code + 0.5)) }

// digits is a whole number written with so many digits.
func digits(text string, least, most int) (float64, bool) {
	if len(text) < least || len(text) > most || strings.Trim(text, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.Atoi(text)
	return float64(n), err == nil
}
