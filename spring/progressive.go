package spring

import (
	"fmt"
	"slices"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// ProgressiveSpec is a coil spring wound with a changing pitch, by its pitch
// table: groups of equal coils, in any order.
type ProgressiveSpec struct {
	Coils   []CoilGroup  // 1 to 100 groups
	Preload units.Length // compression at full extension, −50 mm to 100 mm; negative: loose by that much
	Travel  units.Length // of the fork, 1 mm to 400 mm
}

// CoilGroup is a number of coils of one pitch.
type CoilGroup struct {
	Count float64         // active coils, 0.25 to 100
	Gap   units.Length    // clear distance from coil to coil of the free spring, pitch − wire, 0.05 mm to 50 mm
	Rate  units.Stiffness // of a single coil, G·d⁴/(8·D³), 1 N/mm to 5000 N/mm
}

// Progressive is a coil spring whose rate rises as it is compressed. With a
// pitch table its coils close group by group: all carry the same force, a group
// of single-coil rate c and gap g closes at c·g, and the others go on,
//
//	compression at F = Σ count·min(F/c, g)
//
// so the rate is a staircase; in a real spring the steps are rounded, because
// coils of one group close one after another. With a rate table the rate
// is a chain of straight lines.
//
// A progressive spring usually goes from its first rate to 1.3 to 1.8 times as
// much, at 40 % to 60 % of travel (from memory, no source). Sag then shows
// only the soft part, and says nothing about how the fork bottoms.
type Progressive struct{ piecewise }

var _ Curve = Progressive{}

// NewProgressive checks the specification. The stroke ends where the last group
// closes, if that is within Travel.
func NewProgressive(s ProgressiveSpec) (Progressive, error) {
	f := check.Of("ProgressiveSpec")
	if n := len(s.Coils); n < 1 || n > 100 {
		f.Report("Coils", fmt.Sprintf("%d groups", n), "1 to 100 groups", "")
	}
	var solid units.Length
	lines := make([]polyline, len(s.Coils))
	for i, c := range s.Coils {
		field := fmt.Sprintf("Coils[%d]", i)
		check.Between(f, field+".Count", c.Count, 0.25, 100)
		check.Between(f, field+".Gap", c.Gap, 0.05*units.Millimeter, 50*units.Millimeter)
		check.Between(f, field+".Rate", c.Rate, 1*units.NewtonPerMillimeter, 5000*units.NewtonPerMillimeter)
		closed := units.Length(c.Count) * c.Gap
		lines[i] = polyline{{}, {float64(closed), float64(c.Rate) * float64(c.Gap)}}
		solid += closed
	}
	checkSeat(f, s.Preload, s.Travel, solid)
	if err := f.Err(); err != nil {
		return Progressive{}, err
	}
	return Progressive{inSeries(lines...).path().preloaded(float64(s.Preload)).spring(float64(s.Travel))}, nil
}

// checkSeat checks how a spring that ends after a compression sits in its leg.
func checkSeat(f *check.Faults, preload, travel, end units.Length) {
	check.Between(f, "Travel", travel, 1*units.Millimeter, 400*units.Millimeter)
	if check.Between(f, "Preload", preload, -50*units.Millimeter, 100*units.Millimeter) && f.Err() == nil &&
		!(end-preload > coincident) {
		f.Report("Preload", preload, fmt.Sprintf("below %.6g, where the spring ends", end), "")
	}
}

// RateTableSpec is a progressive coil spring by its measured or stated rates.
type RateTableSpec struct {
	Rates   []RatePoint  // 2 to 1000 rows by rising compression, the first at 0
	Preload units.Length // compression at full extension, −50 mm to 100 mm; negative: loose by that much
	Travel  units.Length // of the fork, 1 mm to 400 mm
}

// RatePoint is the rate of a spring at a compression from its free length.
type RatePoint struct {
	Compression units.Length    // 0 to 1 m
	Rate        units.Stiffness // 0.1 N/mm to 1000 N/mm
}

// NewRateTable checks the specification. Between rows the rate is a straight
// line; the stroke ends with the table, if that is within Travel.
func NewRateTable(s RateTableSpec) (Progressive, error) {
	f := check.Of("RateTableSpec")
	n := len(s.Rates)
	if n < 2 || n > 1000 {
		f.Report("Rates", fmt.Sprintf("%d rows", n), "2 to 1000 rows", "")
	}
	var above units.Length // the last row that can be
	for i, r := range s.Rates {
		field := fmt.Sprintf("Rates[%d]", i)
		check.Between(f, field+".Rate", r.Rate, 0.1*units.NewtonPerMillimeter, 1000*units.NewtonPerMillimeter)
		if i == 0 {
			if r.Compression != 0 {
				f.Report(field+".Compression", r.Compression, "0 mm, the free spring", "")
			}
		} else if check.Between(f, field+".Compression", r.Compression, above+closest, 1*units.Meter) {
			above = r.Compression
		}
	}
	var end units.Length
	if n > 0 {
		end = s.Rates[n-1].Compression
	}
	checkSeat(f, s.Preload, s.Travel, end)
	if err := f.Err(); err != nil {
		return Progressive{}, err
	}
	p := path{stroke: float64(end)}
	force := 0.0
	for i, r := range s.Rates[1:] {
		start := s.Rates[i]
		dx := float64(r.Compression - start.Compression)
		q := piece{X: float64(start.Compression), F: force, K: float64(start.Rate),
			B: float64(r.Rate-start.Rate) / (2 * dx)}
		force = q.Force(dx)
		p.pieces = append(p.pieces, q)
	}
	return Progressive{p.integrated().preloaded(float64(s.Preload)).spring(float64(s.Travel))}, nil
}

// closest is the least distance of two rows of a table in travel.
const closest = 1 * units.Micrometer

// Changes lists the travels within the stroke where the law of the spring
// changes: a group closes, a loose spring is taken up, or a row of a rate table
// is passed. The slice is the caller's.
func (p Progressive) Changes() []units.Length {
	var at []units.Length
	for _, q := range p.path.pieces[min(1, len(p.path.pieces)):] {
		if q.X < p.path.stroke {
			at = append(at, units.Length(q.X))
		}
	}
	return slices.Clip(at)
}
