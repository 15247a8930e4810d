package damping

import (
	"fmt"

	"example.org/forkcurve/units"
)

// Flow is a volume of oil per time in cubic meters per second.
type Flow float64

// Units of volume flow.
const (
	CubicMeterPerSecond Flow = 1
	MilliliterPerSecond Flow = 1e-6
	LiterPerMinute      Flow = 1e-3 / 60
)

// In is the flow as a number of the given unit.
func (q Flow) In(unit Flow) float64 { return float64(q / unit) }

// String gives the flow in mL/s to six digits.
func (q Flow) String() string { return fmt.Sprintf("%.6g mL/s", q.In(MilliliterPerSecond)) }

// swept is the flow that a piston of that area displaces.
func swept(a units.Area, v units.Speed) Flow { return Flow(float64(a) * float64(v)) }
