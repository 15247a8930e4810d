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
	usualExponent, exponentSD = 1.3, 0.05
	usualDamping, dampingSD   = 0.4, 0.12
	gaugeSD                   = 0.1 * bar
)

// value is one number that both a record and a fork at the bench have.
type value struct {
	name string
	take func(name string) (bench.Unknown, bool)
	keep func(si, sd float64)
}

func of[Q ~float64](name string, v *data.Value[Q]) value {
	return value{name, func(name string) (bench.Unknown, bool) {
		return bench.Uncertain(name, v.Spread.SD), v.Given() && v.Spread.SD > 0
	}, func(si, sd float64) {
		*v = data.Value[Q]{Value: Q(si), Spread: data.Spread[Q]{SD: Q(sd)}, Source: measured,
			Note: "from the readings at the bench and what is known of its class"}
	}}
}

// values that readings may sharpen, by their names at the bench.
func values(f *data.Fork, side setup.Side) []value {
	list := []value{of("friction", &f.Friction), of("rake", &f.Chassis.Rake), of("offset", &f.Chassis.Offset),
		of("wheel-radius", &f.Chassis.WheelRadius), of("unsprung-mass", &f.Chassis.UnsprungMass),
		of("front-share", &f.Chassis.FrontShare), of("front-share-ridden", &f.Chassis.FrontShareRidden),
		of(side.String()+".interior", &f.Kit.Interior), of("left.gap", &f.Gap.Residual)}
	for i, l := range []*data.Leg{&f.Left, &f.Right} {
		leg := setup.Side(i).String() + "."
		list = append(list, of(leg+"air.volume", &l.Air.Volume), of(leg+"air.negative-volume", &l.Air.NegativeVolume),
			of(leg+"air.port", &l.Air.Port), of(leg+"air.second-volume", &l.Air.SecondVolume), of(leg+"air.linked", &l.Air.Linked))
	}
	return list
}

// Of is a fork of the dataset at the bench, closed in the air of the room: what is unknown
// of it by the spreads of its values, and the leg that has, or will have, the spring.
func Of(f data.Fork, room gas.Ambient) (bench.Fork, []bench.Unknown, setup.Side) {
	side := setup.Left
	if !f.Kit.Legs.Left && f.Kit.Legs.Right {
		side = setup.Right
	}
	at := bench.Fork{Spec: f.Spec(room), Chassis: f.Chassis.Geometry(), Exponent: usualExponent, Damping: usualDamping}
	at.Oil[side] = bench.Oil{Interior: f.Kit.Interior.Value, Column: f.Geometry().OilColumn(), Metal: f.Kit.Metal.Value}
	unknowns := []bench.Unknown{bench.Uncertain("exponent", exponentSD), bench.Uncertain("damping-ratio", dampingSD)}
	if at.Spec.Left.Air != nil || at.Spec.Right.Air != nil {
		unknowns = append(unknowns, bench.Uncertain("gauge", gaugeSD))
	}
	if f.Kit.Metal.Given() {
		unknowns = append(unknowns, bench.Uncertain(side.String()+".metal", 10*mL)) // with a spring not yet chosen
	}
	has := map[string]bool{}
	for _, name := range at.Names() {
		has[name] = true
	}
	for _, v := range values(&f, side) {
		if u, ok := v.take(v.name); ok && has[v.name] {
			unknowns = append(unknowns, u)
		}
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
	for _, v := range values(&record, f.Side) {
		if si, sd, ok := k.Of(v.name); ok && learned[v.name] {
			v.keep(rounded(si, sd), rounded(sd, sd))
		}
	}
	record.Chassis.Trail.Value = record.Chassis.Geometry().Trail() // which hangs on what was measured
	if residual, ok := geometryOfGap(record); ok {
		record.Gap.Residual.Value = residual
	}
	set, err := data.New(data.Records{Forks: []data.Fork{record},
		Sources: []data.Source{{ID: measured, Kind: data.Measured, Document: "readings at the bench: " + f.Title}}})
	if err != nil {
		return err
	}
	return data.Encode(w, set)
}

// geometryOfGap is the gas that level and displaced metal leave, which the record must say.
func geometryOfGap(f data.Fork) (units.Volume, bool) {
	if !f.Gap.Level.Given() || !f.Gap.Displaced.Given() {
		return 0, false
	}
	column := f.Geometry().OilColumn()
	return units.Volume(float64(column)*float64(f.Gap.Level.Value)) - f.Gap.Displaced.Value, column > 0
}
