package benchfile

import (
	"fmt"
	"io"
	"math"
	"strconv"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// What is not in a record: how far the usual exponent and damping ratio of a bounce and a
// pump gauge may be off (from memory), and a leak that a rider would notice in a month.
const (
	usualExponent, exponentSD = gas.Ridden, 0.05
	usualDamping, dampingSD   = 0.4, 0.12
	gaugeSD                   = 0.1 * bar
	usualLeak, leakSD         = 100 * 24 * units.Hour, 100 * 24 * units.Hour // a time constant
)

// value is one number that both a record and a fork at the bench have.
type value struct {
	name string
	take func(name string) (bench.Unknown, bool)
	keep func(si, sd float64)
}

func of[Q ~float64](name string, v *data.Value[Q]) value {
	return times(name, v, 1)
}

// times is a value that the bench has in another unit: as a factor of it.
func times[Q ~float64](name string, v *data.Value[Q], unit float64) value {
	return value{name, func(name string) (bench.Unknown, bool) {
		if !v.Given() || !(v.Spread.SD > 0) {
			return bench.Unknown{}, false
		}
		low, high := float64(v.Spread.Low)/unit, float64(v.Spread.High)/unit
		if high > low && (v.Spread.Means == data.Tolerance || v.Value == 0) {
			return bench.Between(name, low, high), true
		}
		if v.Value == 0 {
			return bench.Unknown{}, false
		}
		return bench.Uncertain(name, float64(v.Spread.SD)/unit), true
	}, func(si, sd float64) {
		*v = data.Value[Q]{Value: Q(rounded(si*unit, sd*unit)), Spread: data.Spread[Q]{SD: Q(rounded(sd*unit, sd*unit))},
			Source: measured, Note: "from the readings at the bench and what is known of its class"}
	}}
}

// longer is a length that the bench has by what is added to it.
func longer(name string, v *data.Value[units.Length]) value {
	all, was := of(name, v), float64(v.Value)
	return value{name, all.take, func(si, sd float64) { all.keep(max(0, was+si), sd) }}
}

// values that readings may sharpen, by their names at the bench.
func values(f *data.Fork) []value {
	c := &f.Chassis
	list := []value{of("friction", &f.Friction), of("rake", &c.Rake), of("offset", &c.Offset),
		of("wheel-radius", &c.WheelRadius),
		of("machine-mass", &c.Mass), of("unsprung-mass", &c.UnsprungMass), of("front-share", &c.FrontShare),
		of("front-share-ridden", &c.FrontShareRidden)}
	for i, l := range []*data.Leg{&f.Left, &f.Right} {
		a, leg := &l.Air, setup.Side(i).String()+"."
		list = append(list, of(leg+"air.volume", &a.Volume), of(leg+"air.negative-volume", &a.NegativeVolume),
			of(leg+"air.negative-ratio", &a.NegativeRatio), of(leg+"air.port", &a.Port),
			of(leg+"air.second-volume", &a.SecondVolume),
			of(leg+"air.second-ratio", &a.SecondRatio), of(leg+"air.linked", &a.Linked))
		if k := &l.Coil.Rate; l.Compound.Kind == "" { // of compound springs the record has no one rate
			list = append(list, times(leg+"rate", k, float64(k.Value)), longer(leg+"preload", &l.Coil.Preload))
		}
		// What a record says of both legs at once is what is read of the one that the coil goes into, or of the first.
		if setup.Side(i) == coilSide(*f) {
			list = append(list, of(leg+"interior", &f.Kit.Interior), of(leg+"gap", &f.Gap.Residual))
		}
	}
	return list
}

// coilSide is the leg that has, or will have, the spring; the left one of two.
func coilSide(f data.Fork) setup.Side {
	if !f.Kit.Legs.Left && !f.Kit.Legs.Both && f.Kit.Legs.Right {
		return setup.Right
	}
	return setup.Left
}

// Of is a fork of the dataset at the bench, closed in the air of the room: what is unknown
// of it by the spreads of its values, and the leg that has, or will have, the spring.
func Of(f data.Fork, room gas.Ambient) (bench.Fork, []bench.Unknown, setup.Side) {
	side := coilSide(f)
	at := bench.Fork{Spec: f.Spec(room), Chassis: f.Chassis.Geometry(), Exponent: usualExponent, Damping: usualDamping}
	unknowns := []bench.Unknown{bench.Uncertain("exponent", exponentSD), bench.Uncertain("damping-ratio", dampingSD)}
	if at.Spec.Left.Air != nil || at.Spec.Right.Air != nil {
		unknowns = append(unknowns, bench.Uncertain("gauge", gaugeSD))
	}
	at.Oil[side] = bench.Oil{Interior: f.Kit.Interior.Value, Column: f.Geometry().OilColumn(), Metal: f.Kit.Metal.Value}
	if metal := f.Kit.Metal.Value; metal > 0 { // 0 where the spring stands above the oil
		// With a spring not yet chosen.
		unknowns = append(unknowns, bench.Uncertain(side.String()+".metal", min(10*mL, metal*3/10)))
	}
	has := map[string]bool{}
	for _, name := range at.Names() {
		has[name] = true
	}
	for _, v := range values(&f) {
		if u, ok := v.take(v.name); ok && has[v.name] {
			unknowns = append(unknowns, u)
		}
	}
	// The other leg is like this one, and not the same.
	other := (1 - side).String() + ".gap"
	if gap := f.Gap.Residual; has[other] && gap.Spread.SD > 0 {
		unknowns = append(unknowns, bench.Uncertain(other, gap.Spread.SD))
	}
	return at, unknowns, side
}

// leastLearned is the part of an uncertainty that readings take away before a value is
// theirs; one of which they say nothing stays the record's.
const leastLearned = 0.05

// rounded to two digits of the uncertainty.
func rounded(v, sd float64) float64 {
	digits := 1 - int(math.Floor(math.Log10(sd)))
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'f', max(0, digits), 64), 64)
	if err != nil || digits < 0 {
		return v
	}
	return r
}

// measured is the id of the source of what the bench found.
const measured = "bench"

// WriteRecord writes the fork as it is known now as a record of the dataset, by that id, to
// keep and to plan with: what the readings told is measured, with its uncertainty.
func WriteRecord(w io.Writer, f *File, k *bench.Known, id string) error {
	record := f.Record
	record.ID, record.BasedOn, record.Class = id, "", f.Record.Class
	record.Name = fmt.Sprintf("%s, as measured", f.Record.Name)
	learned := map[string]bool{}
	for _, v := range k.Values {
		learned[v.Name] = v.Learned >= leastLearned
	}
	for _, v := range values(&record) {
		if si, sd, ok := k.Of(v.name); ok && learned[v.name] {
			v.keep(si, sd)
		}
	}
	trail := float64(record.Chassis.Geometry().Trail()) // which hangs on what was measured
	record.Chassis.Trail.Value = units.Length(rounded(trail, 1e-3))
	consistent(&record, [2]units.Stiffness{f.Record.Left.Coil.Rate.Value, f.Record.Right.Coil.Rate.Value})
	set, err := data.New(data.Records{Forks: []data.Fork{record},
		Sources: []data.Source{{ID: measured, Kind: data.Measured, Document: "readings at the bench: " + f.Title}}})
	if err != nil {
		return err
	}
	return data.Encode(w, set)
}

// consistent changes what hangs on numbers that were measured, coils of those rates before, and what
// must hold them.
func consistent(f *data.Fork, rates [2]units.Stiffness) {
	if g := &f.Gap; g.Residual.Source == measured && g.Level.Given() && g.Displaced.Given() {
		g.Level.Value = units.Length(float64(g.Residual.Value+g.Displaced.Value) / float64(f.Geometry().OilColumn()))
	}
	for i, l := range []*data.Leg{&f.Left, &f.Right} {
		c, was := &l.Coil, rates[i]
		if c.Rate.Source == measured {
			n := &c.ActiveCoils // that the rate tells, wire and diameter as they were
			n.Value, n.Note = n.Value*float64(was/c.Rate.Value), "by the rate that was measured"
			c.Rates.Lo, c.Rates.Hi = min(c.Rates.Lo, c.Rate.Value), max(c.Rates.Hi, c.Rate.Value)
		}
		if p := c.Preload; p.Source == measured {
			c.Preloads.Lo, c.Preloads.Hi = min(c.Preloads.Lo, p.Value), max(c.Preloads.Hi, p.Value)
		}
	}
}
