package ode_test

import (
	"testing"

	"example.org/forkcurve/internal/record"
	"example.org/forkcurve/internal/register"
)

// Stick-slip on a belt, where the law changes at every event: its times against those of
// scipy. The header of the record tells the numbers and how.
func TestBelt(t *testing.T) {
	register.Cite(t, "N-05")
	const belt, static, fall = 0.2, 1, 3
	sticking := true
	law := func(_ float64, y, d []float64) {
		d[0], d[1] = y[1], 0
		if !sticking {
			d[1] = -y[0] + static/(1+fall*(belt-y[1]))
		}
	}
	s := start(t, law, []float64{0, belt}, 1e-10, 1e-12)
	slips := func(_ float64, y []float64) float64 {
		if !sticking {
			return 0
		}
		return y[0] - static
	}
	sticks := func(_ float64, y []float64) float64 {
		if sticking {
			return 0
		}
		return y[1] - belt
	}
	for _, row := range record.Rows(t, "belt.csv", "event,time,position,speed", 12) {
		x := record.Numbers(t, row[1:])
		found, err := s.Until(100, slips, sticks)
		if err != nil || (found == 0) != (row[0] == "slips") {
			t.Fatalf("event %d at %v, %v; scipy: it %s at %v", found, s.Time(), err, row[0], x[0])
		}
		y := s.State()
		near(t, "time", s.Time(), x[0], 1e-7)
		near(t, "position", y[0], x[1], 1e-7)
		near(t, "speed", y[1], x[2], 1e-7)
		y[1], sticking = belt, found == 1
		if err := s.Restart(y); err != nil {
			t.Fatal(err)
		}
	}
}
