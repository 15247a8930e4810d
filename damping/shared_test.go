package damping

import (
	"testing"

	"example.org/forkcurve/internal/shared"
	"example.org/forkcurve/units"
)

func TestShared(t *testing.T) {
	for name, c := range dampers() {
		t.Run(name, func(t *testing.T) {
			shared.Read(t, func() any {
				return []units.Force{c.d.Force(-2), c.d.Force(-0.01), c.d.Force(0), c.d.Force(0.3), c.d.Force(3)}
			})
		})
	}
}
