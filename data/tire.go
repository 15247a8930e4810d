package data

import (
	"errors"
	"regexp"
	"strconv"

	"example.org/forkcurve/units"
)

// Tire is the size on the wall of a tire:
//
//	"80/100-21", "120/70 R 17"  metric: width in millimeters, height in percent of it, rim code
//	"3.00-21"                   code: width in inches, as high as wide, rim code
//	"58-622"                    bicycle, ISO 5775: width and bead seat diameter in millimeters, as high as wide
type Tire string

var (
	metricTire  = regexp.MustCompile(`^([0-9]{2,3})/([0-9]{2,3}) ?(?:-|B|R|ZR)? ?([0-9]{2})$`)
	codeTire    = regexp.MustCompile(`^([0-9]\.[0-9]{1,2}) ?- ?([0-9]{1,2})$`)
	bicycleTire = regexp.MustCompile(`^([0-9]{2,3})-([0-9]{3})$`)
	errTire     = errors.New(`not a tire size; want one as "80/100-21", "3.00-21" or "58-622"`)
)

// Radius is half the nominal outer diameter, of the tire inflated and without load.
//
// A rim code is the diameter in inches, rounded to a millimeter (UN Regulation No. 75,
// paragraph 2); ISO 4249 and ISO 5775 have the same sizes, from memory. A height equal to
// the width is common practice for code and bicycle tires, no source.
func (t Tire) Radius() (units.Length, error) {
	number := func(text string) float64 {
		x, _ := strconv.ParseFloat(text, 64) // the expressions match numbers only
		return x
	}
	rim := func(text string) float64 { return float64(int(25.4*number(text) + 0.5)) }
	var bead, height float64
	if m := metricTire.FindStringSubmatch(string(t)); m != nil {
		bead, height = rim(m[3]), number(m[1])*number(m[2])/100
	} else if m := codeTire.FindStringSubmatch(string(t)); m != nil {
		bead, height = rim(m[2]), 25.4*number(m[1])
	} else if m := bicycleTire.FindStringSubmatch(string(t)); m != nil {
		bead, height = number(m[2]), number(m[1])
	} else {
		return 0, errTire
	}
	return units.Length(bead/2+height) * mm, nil
}
