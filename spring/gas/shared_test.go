package gas_test

import (
	"testing"

	"example.org/forkcurve/internal/shared"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

func TestShared(t *testing.T) {
	s := state(10*units.Bar, 430*cm3, units.Celsius(20))
	e := gas.Exchange{TimeConstant: 3}
	shared.Read(t, func() any {
		return []any{must(gas.Standard(1500)), must(s.Compress(200*cm3, 1.3)), must(s.Work(200*cm3, 1.3)),
			must(gas.Join(s, s)),
			must(gas.DryAir.Compressibility(units.Absolute(10*units.Bar), units.Celsius(20))), e.Exponent(0.1)}
	})
}
