package gas

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// PumpCheck is what connecting a pump with an empty hose does to a chamber. A pump that lets its hose fill from the
// chamber cannot only check: pump back to the target each time.
type PumpCheck struct {
	Reading  units.GaugePressure // of chamber and hose together: p·V/(V + V_hose)
	Left     State               // the chamber when the pump is taken off at that reading
	PumpBack units.Amount        // that brings chamber and hose to the old pressure again
}

// PumpCheck connects a hose of that volume at ambient pressure to the filled chamber, both at the temperature of
// the fill. It is an error if the fill, the chamber (1 mm³ to 1 m³) or the hose (0 to 1 L, gauge and pump head
// included) is out of range.
func (f Fill) PumpCheck(chamber, hose units.Volume) (PumpCheck, error) {
	full, err := f.State(chamber)
	if err != nil {
		return PumpCheck{}, err
	}
	faults := check.Of("PumpCheck")
	check.Between(faults, "hose", hose, 0, 1*units.Liter)
	if err := faults.Err(); err != nil {
		return PumpCheck{}, err
	}
	left := full
	reading := units.Gauge(units.Pressure(f.Gauge.In(units.Pascal) * float64(chamber/(chamber+hose))))
	left.Pressure = reading.Absolute(f.Ambient.Pressure)
	// The hose comes full of ambient air and wants the gauge pressure on top.
	air := State{Pressure: f.Ambient.Pressure, Volume: hose, Temperature: full.Temperature}
	filled := air
	filled.Pressure = full.Pressure
	return PumpCheck{Reading: reading, Left: left, PumpBack: filled.Amount() - air.Amount()}, nil
}
