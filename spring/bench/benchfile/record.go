package benchfile

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// What is not in a record: how far the usual exponent and damping ratio of a bounce and a
// pump gauge may be off, its zero and its scale (from memory), and a leak that a rider would notice in a month.
const (
	usualExponent, exponentSD = gas.Ridden, 0.05
	usualDamping, dampingSD   = 0.4, 0.12
	gaugeSD, scaleSD          = 0.1 * bar, 1 * units.Percent
	usualLeak, leakSD         = 100 * 24 * units.Hour, 100 * 24 * units.Hour // a time constant
)

// value is one number that both a record and a fork at the bench have.
type value struct {
	name  string
	take  func(name string) (bench.Unknown, bool)
	store func(si, sd float64)
}

func of[Q ~float64](name string, v *data.Value[Q]) value {
	return times(name, v, 1)
}

// factor is a rate that the bench has as a part of itself.
func factor(name string, v *data.Value[units.Stiffness]) value {
	return times(name, v, float64(v.Value))
}

// times is a value that the bench has in another unit.
func times[Q ~float64](name string, v *data.Value[Q], unit float64) value {
	return value{name, func(name string) (bench.Unknown, bool) {
		s := v.Spread
		return taken(name, float64(v.Value)/unit, float64(s.SD)/unit, float64(s.Low)/unit, float64(s.High)/unit, s.Means)
	}, func(si, sd float64) {
		*v = data.Value[Q]{Value: Q(rounded(si*unit, sd*unit)), Spread: data.Spread[Q]{SD: Q(rounded(sd*unit, sd*unit))},
			Source: measured, Note: fromReadings}
	}}
}

const fromReadings = "from the readings at the bench and what is known of its class"

// taken is what is unknown of a number of that spread.
func taken(name string, v, sd, low, high float64, means data.Means) (bench.Unknown, bool) {
	switch {
	case !(sd > 0):
		return bench.Unknown{}, false
	case high > low && (means == data.Tolerance || v == 0):
		return bench.Between(name, low, high), true
	}
	return bench.Uncertain(name, sd), v != 0
}

// pressure is a reading of a gauge.
func pressure(name string, v *data.Value[units.GaugePressure]) value {
	return value{name, func(name string) (bench.Unknown, bool) {
		s := v.Spread
		return taken(name, v.Value.In(units.Pascal), s.SD.In(units.Pascal), s.Low.In(units.Pascal), s.High.In(units.Pascal),
			s.Means)
	}, func(si, sd float64) {
		gauge := func(p float64) units.GaugePressure { return units.Gauge(units.Pressure(rounded(p, sd))) }
		*v = data.Value[units.GaugePressure]{Value: gauge(si), Spread: data.Spread[units.GaugePressure]{SD: gauge(sd)},
			Source: measured, Note: fromReadings}
	}}
}

// longer is a length that the bench has by what is added to it.
func longer(name string, v *data.Value[units.Length]) value {
	all, was := of(name, v), float64(v.Value)
	return value{name, all.take, func(si, sd float64) { all.store(max(0, was+si), sd) }}
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
		list = append(list, factor(leg+"rate", &l.Coil.Rate), longer(leg+"preload", &l.Coil.Preload),
			factor(leg+"balance", &a.BalanceRate), of(leg+"damper.volume", &l.Reservoir.Volume),
			pressure(leg+"damper.pressure", &l.Reservoir.Pressure))
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
		unknowns = append(unknowns, bench.Uncertain("gauge", gaugeSD), bench.Uncertain("gauge-scale", scaleSD))
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

// Unkept are the numbers that the readings told and that a record has no place for, as the error of the gauge and
// the leak: of what a fork does on the bench and not of what it is.
func Unkept(f *File, k *bench.Known) []bench.Value {
	record := f.Record
	kept := map[string]bool{}
	for _, v := range values(&record) {
		kept[v.name] = true
	}
	return slices.DeleteFunc(slices.Clone(k.Values), func(v bench.Value) bool {
		return kept[v.Name] || v.Learned < leastLearned
	})
}

// WriteRecord writes the fork as it is known now as a record of the dataset, by that id, to
// keep and to plan with: what the readings told is measured, with its uncertainty, and the pressure is that
// which the fork was set to, by its gauge as known. What [Unkept] lists stands in a comment at its head.
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
			v.store(si, sd)
		}
	}
	trail := float64(record.Chassis.Geometry().Trail()) // which hangs on what was measured
	record.Chassis.Trail.Value = units.Length(rounded(trail, 1e-3))
	spec, now := f.Fork.Spec, k.Fork().Spec
	for i, l := range []*data.Leg{&record.Left, &record.Right} {
		shown, known := [...]setup.Leg{spec.Left, spec.Right}[i].Air, [...]setup.Leg{now.Left, now.Right}[i].Air
		if shown != nil && (shown.Fill.Gauge != l.Air.Pressure.Value || learned["gauge"] || learned["gauge-scale"]) {
			pressure("", &l.Air.Pressure).store(known.Fill.Gauge.In(units.Pascal), gaugeError(k, known.Fill.Gauge))
		}
		if err := consistent(&record, l, [...]data.Leg{f.Record.Left, f.Record.Right}[i].Coil); err != nil {
			return err
		}
	}
	set, err := data.New(data.Records{Forks: []data.Fork{record},
		Sources: []data.Source{{ID: measured, Kind: data.Measured, Document: "readings at the bench: " + f.Title}}})
	if err != nil {
		return err
	}
	for _, v := range Unkept(f, k) {
		if _, err := fmt.Fprintf(w, "# A record has no place for %s: %s\n", spoken(v.Name), v.After); err != nil {
			return err
		}
	}
	return data.Encode(w, set)
}

// spoken is a name in a sentence.
func spoken(name string) string { return strings.NewReplacer(".", " ", "-", " ").Replace(name) }

// gaugeError is the standard uncertainty of a pressure that was set by the gauge.
func gaugeError(k *bench.Known, set units.GaugePressure) float64 {
	_, zero, _ := k.Of("gauge")
	_, scale, _ := k.Of("gauge-scale")
	return math.Hypot(zero, scale*set.In(units.Pascal))
}

// consistent changes what hangs on numbers of a leg that were measured, the coil as it was before, and what
// must hold them.
func consistent(f *data.Fork, l *data.Leg, was data.Coil) (err error) {
	if g := &f.Gap; g.Residual.Source == measured && g.Level.Given() && g.Displaced.Given() {
		g.Level.Value = units.Length(float64(g.Residual.Value+g.Displaced.Value) / float64(f.Geometry().OilColumn()))
	}
	c, p := &l.Coil, &l.Air.Pressure
	if c.Rate.Source == measured {
		by := float64(c.Rate.Value / was.Rate.Value)
		if l.Compound.Kind == "" {
			n := &c.ActiveCoils // that the rate tells, wire and diameter as they were
			n.Value, n.Note = n.Value/by, byRate
		} else {
			err = stiffer(l, by)
		}
		hold(&c.Rates, c.Rate.Value)
	}
	if c.Preload.Source == measured {
		hold(&c.Preloads, c.Preload.Value)
	}
	if r := &l.Air.Pressures; p.Source == measured {
		if at := p.Value.In(units.Pascal); at < r.Lo.In(units.Pascal) {
			r.Lo = p.Value
		} else if at > r.Hi.In(units.Pascal) {
			r.Hi = p.Value
		}
	}
	return err
}

// stiffer changes the rest of a compound spring whose coil has another rate.
func stiffer(l *data.Leg, by float64) (err error) {
	// Its coils count, so that the diameter changes, which the rate goes by to the third power.
	d, wire := &l.Coil.OuterDiameter, float64(l.Coil.Wire.Value)
	d.Value, d.Note = units.Length(wire+(float64(d.Value)-wire)/math.Cbrt(by)), byRate
	if k := &l.Compound.Rate; k.Given() {
		factor("", k).store(by, float64(l.Coil.Rate.Spread.SD/l.Coil.Rate.Value)*by)
	}
	l.Compound.Table.Value, err = l.Compound.Stiffer(by)
	return err
}

const byRate = "by the rate that was measured"

func hold[Q ~float64](r *data.Range[Q], v Q) { r.Lo, r.Hi = min(r.Lo, v), max(r.Hi, v) }
