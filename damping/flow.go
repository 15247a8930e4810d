package damping

import "example.org/forkcurve/units"

// swept is the flow that a piston of that area displaces.
func swept(a units.Area, v units.Speed) units.Flow { return units.Flow(float64(a) * float64(v)) }
