package damping

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Settings are the dampers that an adjuster makes, by clicks out from closed.
type Settings struct{ dampers []Damper }

// NewSettings builds the damper at every setting from closed to the last, 1 to 100 clicks out.
func NewSettings(last int, at func(clicks int) (Damper, error)) (Settings, error) {
	if last < 1 || last > 100 {
		return Settings{}, &units.RangeError{Field: "NewSettings.last", Value: last, Want: "1 to 100 clicks"}
	}
	var s Settings
	for clicks := range last + 1 {
		d, err := at(clicks)
		if err != nil {
			return Settings{}, fmt.Errorf("%d clicks out: %w", clicks, err)
		}
		s.dampers = append(s.dampers, d)
	}
	return s, nil
}

func (s Settings) check(name string, clicks int, v units.Speed) error {
	f := check.Of(name)
	if clicks < 0 || clicks >= len(s.dampers) {
		f.Report("clicks", clicks, fmt.Sprintf("0 to %d, counted from closed", len(s.dampers)-1), "")
	}
	if !(math.Abs(float64(v)) >= float64(RestSpeed) && math.Abs(float64(v)) <= float64(MaxSpeed)) {
		f.Report("v", v, fmt.Sprintf("%v to %v, either way", RestSpeed, MaxSpeed), "")
	}
	return f.Err()
}

// PerClick is what one click is worth: the part by which the force at a speed grows with each click towards closed,
// from the clicks either side of a setting.
func (s Settings) PerClick(clicks int, v units.Speed) (float64, error) {
	if err := s.check("PerClick", clicks, v); err != nil {
		return 0, err
	}
	firm, soft := max(clicks-1, 0), min(clicks+1, len(s.dampers)-1)
	ratio := float64(s.dampers[firm].Force(v) / s.dampers[soft].Force(v))
	return math.Expm1(math.Log(ratio) / float64(soft-firm)), nil
}

// Setting is one that comes nearest to a factor on the force of the present one.
type Setting struct {
	Clicks          int     // out from closed
	Wanted, Reached float64 // factor on the present force: asked for, and had there
}

// Span are the settings nearest to both bounds of what another spring asks of rebound, the softer first.
func (s Settings) Span(clicks int, v units.Speed, r Rebound) ([2]Setting, error) {
	var span [2]Setting
	few, most := r.Factors()
	for i, factor := range []float64{few, most} {
		setting, reached, err := s.Nearest(clicks, v, factor)
		if err != nil {
			return span, err
		}
		span[i] = Setting{Clicks: setting, Wanted: factor, Reached: reached}
	}
	return span, nil
}

// Nearest is the setting whose force at a speed comes nearest to a factor on that of the present one, and the factor
// it reaches.
func (s Settings) Nearest(clicks int, v units.Speed, factor float64) (setting int, reached float64, err error) {
	if err := s.check("Nearest", clicks, v); err != nil {
		return 0, 0, err
	}
	reached = math.Inf(1)
	for at, d := range s.dampers {
		if f := float64(d.Force(v) / s.dampers[clicks].Force(v)); math.Abs(f-factor) < math.Abs(reached-factor) {
			setting, reached = at, f
		}
	}
	return setting, reached, nil
}
