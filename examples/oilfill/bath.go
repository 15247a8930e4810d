package main

import (
	"errors"
	"fmt"
	"math"

	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const (
	mm = units.Millimeter
	ml = units.Milliliter

	// usualFluid gives the expansion; fork oils hardly differ in it.
	usualFluid = "fork-5"
	fillAt     = 20.0 // °C
	deep       = 0.66 // share of travel at which a fork is still meant to be supple
)

// bath is the oil of one fork.
type bath struct {
	fork       data.Fork
	legs       [2]leg     // left and right
	main       setup.Side // the leg whose oil is told
	byLevel    bool       // the record has a level
	fluid      oil.Fluid
	exponent   float64 // of the gas as ridden
	cold, warm gas.Ambient
}

// leg is the gas space of one leg.
type leg struct {
	fill   oil.Fill // as the record has it
	spec   oil.FillSpec
	area   units.Area
	charge units.GaugePressure // at full extension
}

func newBath(fork data.Fork) (*bath, error) {
	set := data.Reference()
	fluid, err := set.Fluid(usualFluid)
	if err != nil {
		return nil, err
	}
	air, err := set.Gas("air")
	if err != nil {
		return nil, err
	}
	b := &bath{fork: fork, byLevel: fork.Gap.Level.Given(), exponent: air.Ride.Value}
	if b.fluid, err = fluid.Oil(); err != nil {
		return nil, err
	}
	if b.cold, err = gas.StandardAt(0, units.Celsius(fillAt)); err != nil {
		return nil, err
	}
	b.warm = gas.Ambient{Temperature: b.cold.Temperature.Add(conversion.OilWarming), Pressure: b.cold.Pressure}
	for i, l := range []data.Leg{fork.Left, fork.Right} {
		if b.legs[i], err = newLeg(fork, l); err != nil {
			return nil, err
		}
	}
	if !fork.Left.Role.HasCoil() && !fork.Left.Role.HasAir() {
		b.main = setup.Right
	}
	return b, nil
}

// newLeg finds the oil of a leg and the metal in it. Where the record has no level,
// the metal is what is left of the interior after oil and gas: an air cartridge
// with all it encloses, a damper, a spring.
func newLeg(fork data.Fork, l data.Leg) (leg, error) {
	out := leg{area: fork.Gap.Area(fork), charge: fork.Gap.Precharge.Value}
	out.spec = oil.FillSpec{Interior: fork.Kit.Interior.Value, Column: fork.Geometry().OilColumn()}
	residual := fork.Gap.Residual.Value
	if !fork.Gap.Residual.Given() { // air fills the leg: the oil takes its room
		if !l.Air.Volume.Given() {
			return leg{}, errors.New("its record has no gas over the oil")
		}
		out.area, out.charge = geometry.Circle(l.Air.Bore.Value)-geometry.Circle(l.Air.Rod.Value), l.Air.Pressure.Value
		residual = l.Air.Volume.Value - units.Volume(float64(out.area)*float64(fork.Travel.Value))
	}
	first := out.spec
	switch {
	case fork.Gap.Level.Given():
		out.spec.Metal = fork.Gap.Displaced.Value
		first = out.spec
		first.Level = fork.Gap.Level.Value
	case l.Oil.Volume.Given():
		first.Volume = (l.Oil.Volume.Lo + l.Oil.Volume.Hi) / 2
		out.spec.Metal = max(0, out.spec.Interior-first.Volume-residual)
		first.Metal = out.spec.Metal
	default:
		return leg{}, errors.New("its record has no oil volume for each leg")
	}
	var err error
	out.fill, err = oil.NewFill(first)
	return out, err
}

// point is the fork with some fill at the end of the stroke.
type point struct {
	oil         float64 // mL of the leg that is told
	ratio       float64 // of the leg with the higher one
	locked      bool
	deep, force units.Force // of the whole fork as ridden, at 66 % of travel and at the end
	pressure    float64     // bar over ambient, of the gas at the end
}

// at is the fork with more oil in each leg than the record has, or less, filled and
// closed cold and brought to the temperature of the air.
func (b *bath) at(more units.Volume, air gas.Ambient) (point, error) {
	spec := b.fork.Spec(b.cold)
	var p point
	for i, side := range []*setup.Leg{&spec.Left, &spec.Right} {
		l := &b.legs[i]
		fs := l.spec
		fs.Volume = l.fill.Volume() + more
		fill, err := oil.NewFill(fs)
		if err != nil {
			return p, err
		}
		if setup.Side(i) == b.main {
			p.oil = fill.Volume().In(ml)
		}
		sealed := l.gap(fill, fill.Warmed(b.fluid, b.cold.Temperature, air.Temperature), b.fork.Travel.Value, b.cold)
		gap, err := b.airGap(sealed, air)
		if err != nil {
			return p, err
		}
		if _, locks := gap.Locks(); locks {
			p.locked = true
		}
		if r := gap.CompressionRatio(); r > p.ratio {
			p.ratio = r
			p.pressure = gap.Pressure(gap.Stroke()).Sub(b.cold.Pressure).In(units.Bar)
		}
		if b.wholeLeg() {
			side.Air.Volume, side.Air.Fill.Gauge = gap.Volume(0), sealed.Gauge
		} else {
			side.Gap = &sealed
		}
	}
	if p.locked && b.wholeLeg() { // there is no such air spring
		return p, nil
	}
	s, err := setup.New(spec)
	if err != nil {
		return p, err
	}
	if s, err = s.At(air); err != nil {
		return p, err
	}
	curve := s.Curve(b.exponent)
	p.force = curve.Force(curve.Stroke())
	p.deep = curve.Force(min(curve.Stroke(), b.fork.Travel.Value*deep))
	return p, nil
}

// wholeLeg reports whether the air over the oil is the air spring itself.
func (b *bath) wholeLeg() bool { return !b.fork.Gap.Residual.Given() }

// gap is the gas over the oil once the oil has warmed: the gas that was sealed over
// the cold fill at full extension, in what room the oil leaves, not yet warm itself.
func (l *leg) gap(cold, warm oil.Fill, travel units.Length, closed gas.Ambient) setup.Gap {
	swept := units.Volume(float64(l.area) * float64(travel))
	sealed := l.charge.Absolute(closed.Pressure)
	squeezed := units.Pressure(sealed.In(units.Pascal) * float64((cold.Residual()+swept)/(warm.Residual()+swept)))
	return setup.Gap{Area: l.area, Residual: warm.Residual(), Gauge: units.Absolute(squeezed).Gauge(closed.Pressure)}
}

// airGap is that gas warmed, as ridden.
func (b *bath) airGap(g setup.Gap, air gas.Ambient) (oil.AirGap, error) {
	hotter := air.Temperature.Kelvin() / b.cold.Temperature.Kelvin()
	p := units.Pressure(g.Gauge.Absolute(b.cold.Pressure).In(units.Pascal) * hotter)
	return oil.NewAirGap(oil.AirGapSpec{Area: g.Area, Residual: g.Residual, Travel: b.fork.Travel.Value,
		Pressure: units.Absolute(p), Ambient: air.Pressure, Exponent: b.exponent})
}

// moreFor is how much more oil brings the first leg to the ratio at the temperature.
func (b *bath) moreFor(ratio float64, air gas.Ambient) units.Volume {
	most := units.Volume(math.Inf(1))
	for i := range b.legs {
		l := &b.legs[i]
		room := l.spec.Interior - l.spec.Metal - oil.ResidualFor(ratio, l.area, b.fork.Travel.Value)
		most = min(most, b.fluid.Expand(room, air.Temperature, b.cold.Temperature)-l.fill.Volume())
	}
	return most
}

// told is the leg whose oil the text tells.
func (b *bath) told() *leg { return &b.legs[b.main] }

// alike reports whether both legs hold the same.
func (b *bath) alike() bool { return b.legs[0] == b.legs[1] }

// levelOf is the level with more oil.
func (b *bath) levelOf(more units.Volume) float64 {
	l := b.told()
	return (l.fill.Level() - units.Length(float64(more)/float64(l.spec.Column))).In(mm)
}

// x is the position of a fill on the axis: its level, or its volume.
func (b *bath) x(more units.Volume) float64 {
	if b.byLevel {
		return b.levelOf(more)
	}
	return (b.told().fill.Volume() + more).In(ml)
}

// moreAt is x the other way about.
func (b *bath) moreAt(x float64) units.Volume {
	l := b.told()
	if b.byLevel {
		return units.Volume(float64(l.spec.Column) * (l.fill.Level() - units.Length(x)*mm).In(units.Meter))
	}
	return units.Volume(x)*ml - l.fill.Volume()
}

// record is the leg's record in the dataset.
func (b *bath) record() data.Leg {
	if b.main == setup.Right {
		return b.fork.Right
	}
	return b.fork.Left
}

// usual is the range of fills in use, from the least oil to the most, on the axis.
func (b *bath) usual() (least, most float64) {
	o := b.record().Oil
	switch {
	case b.byLevel && o.Level.Given():
		return o.Level.Hi.In(mm), o.Level.Lo.In(mm)
	case b.byLevel:
		return b.x(0), b.x(0)
	}
	return max(o.Volume.Lo.In(ml), 1), o.Volume.Hi.In(ml)
}

const columns = 9

// steps are round fills for the table, from the least oil on to near the lock and
// once into it.
func (b *bath) steps() []float64 {
	from, _ := b.usual()
	lock := b.moreFor(oil.LockRatio, b.cold)
	span := math.Abs(b.x(lock)-from) / (columns - 1)
	step := 1.0
	for _, s := range []float64{2, 5, 10, 20, 50} {
		if math.Abs(math.Log(s/span)) < math.Abs(math.Log(step/span)) {
			step = s
		}
	}
	if b.byLevel {
		from = step * math.Ceil(from/step+1)
		step = -step
	}
	var list []float64
	for i := range columns {
		x := from + step*float64(i)
		if b.told().fill.Volume()+b.moreAt(x) >= b.told().spec.Interior {
			break
		}
		list = append(list, x)
		if b.moreAt(x) > lock {
			break
		}
	}
	return list
}

// unit of the axis.
func (b *bath) unit() string {
	if b.byLevel {
		return "mm"
	}
	return "mL"
}

// where names the legs that the fill is of.
func (b *bath) where() string {
	if b.alike() {
		return "each leg"
	}
	return fmt.Sprintf("the %v leg", b.main)
}
