package units_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"example.org/forkcurve/units"
)

// quantity lets a test run over every type of the package.
type quantity struct {
	name  string
	of    func(si float64) any
	parse func(text string) (any, error)
	text  func(q any) (string, error)                    // MarshalText
	into  func(si float64, text string) (q any, e error) // UnmarshalText over an old value
}

type textMarshaler interface {
	fmt.Stringer
	MarshalText() ([]byte, error)
	AppendText(b []byte) ([]byte, error)
}

func quantityOf[Q units.Quantity](of func(si float64) Q) quantity {
	var zero Q
	return quantity{
		name:  reflect.TypeOf(zero).Name(),
		of:    func(si float64) any { return of(si) },
		parse: func(text string) (any, error) { return units.Parse[Q](text) },
		text: func(q any) (string, error) {
			b, err := q.(textMarshaler).MarshalText()
			return string(b), err
		},
		into: func(si float64, text string) (any, error) {
			q := of(si)
			err := any(&q).(interface{ UnmarshalText([]byte) error }).UnmarshalText([]byte(text))
			return q, err
		},
	}
}

func floatQuantity[Q interface {
	units.Quantity
	~float64
}]() quantity {
	return quantityOf(func(si float64) Q { return Q(si) })
}

var quantities = []quantity{
	floatQuantity[units.Length](), floatQuantity[units.Area](), floatQuantity[units.Volume](),
	floatQuantity[units.Mass](), floatQuantity[units.Density](), floatQuantity[units.Amount](),
	floatQuantity[units.Time](), floatQuantity[units.Frequency](), floatQuantity[units.Speed](),
	floatQuantity[units.Acceleration](), floatQuantity[units.Angle](), floatQuantity[units.Force](),
	floatQuantity[units.Stiffness](), floatQuantity[units.DampingRate](), floatQuantity[units.Energy](),
	floatQuantity[units.Power](), floatQuantity[units.Torque](), floatQuantity[units.Stress](),
	floatQuantity[units.Pressure](), floatQuantity[units.TemperatureDifference](), floatQuantity[units.Expansivity](),
	floatQuantity[units.Share](), floatQuantity[units.Flow](), floatQuantity[units.SpecificHeat](),
	floatQuantity[units.ThermalConductance](),
	floatQuantity[units.KinematicViscosity](), floatQuantity[units.DynamicViscosity](),
	quantityOf(units.Kelvin),
	quantityOf(func(si float64) units.AbsolutePressure { return units.Absolute(units.Pressure(si)) }),
	quantityOf(func(si float64) units.GaugePressure { return units.Gauge(units.Pressure(si)) }),
}

func quantityNamed(t *testing.T, name string) quantity {
	t.Helper()
	for _, q := range quantities {
		if q.name == name {
			return q
		}
	}
	t.Fatalf("no quantity is named %q", name)
	return quantity{}
}

// bits tells quantities apart that == does not: 0 and −0.
func bits(q any) uint64 {
	v := reflect.ValueOf(q)
	if v.Kind() == reflect.Struct {
		v = v.Field(0)
	}
	return math.Float64bits(v.Float())
}
