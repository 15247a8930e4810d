package conversion

import (
	"errors"
	"math"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Respring is what other springs in a fork ask of its rebound damping under the same load, friction left out.
type Respring struct {
	Ask   damping.ReboundSpec // both rates about sag as ridden with [gas.Ridden], and both forces at Depth
	Depth units.Length        // from which the return is compared, ReboundDepth or the end of the shorter stroke
	Usual damping.Rebound     // by clicks of [damping.CommonClick]
}

// NewRespring compares a fork with the same on other springs under an axial load. A load that one of them does not
// carry is an error, and what [damping.NewRebound] refuses.
func NewRespring(now, next *setup.Setup, load units.Force) (Respring, error) {
	before, after := now.Curve(gas.Ridden), next.Curve(gas.Ridden)
	r := Respring{Depth: min(units.Length(ReboundDepth)*now.Travel(), before.Stroke(), after.Stroke())}
	r.Ask = damping.ReboundSpec{OldForce: before.Force(r.Depth), NewForce: after.Force(r.Depth),
		PerClick: damping.CommonClick}
	sag, err1 := now.Sag(load)
	other, err2 := next.Sag(load)
	if err := errors.Join(err1, err2); err != nil {
		return Respring{}, err
	}
	r.Ask.OldRate = now.CurveAbout(sag.Middle, gas.Ridden).Rate(sag.Middle)
	r.Ask.NewRate = next.CurveAbout(other.Middle, gas.Ridden).Rate(other.Middle)
	var err error
	r.Usual, err = damping.NewRebound(r.Ask)
	return r, err
}

// Needle is what a rebound adjuster has to give to other springs.
type Needle struct {
	Click, Fast units.Share        // worth of a click about the present setting, at 0.1 m/s and at 0.5 m/s
	Own         damping.Rebound    // what is asked for, in such clicks
	Settings    [2]damping.Setting // nearest to both bounds of it at 0.1 m/s
}

// On is what the dampers that a needle makes, now so many clicks out, have to give.
func (r Respring) On(needle damping.Settings, clicks int) (Needle, error) {
	const slow = -0.1 * units.MeterPerSecond
	var n Needle
	var errs [4]error
	click, err := needle.PerClick(clicks, slow)
	errs[0] = err
	fast, err := needle.PerClick(clicks, -ReboundSpeed)
	if errs[1] = err; errors.Join(errs[:]...) != nil {
		return n, errors.Join(errs[:]...)
	}
	r.Ask.PerClick, n.Click, n.Fast = click, units.Share(click), units.Share(fast)
	n.Own, errs[2] = damping.NewRebound(r.Ask)
	n.Settings, errs[3] = needle.Span(clicks, slow, n.Own)
	return n, errors.Join(errs[:]...)
}

// SlowOnly tells whether a click does less than half as much at 0.5 m/s, where the shims make the force: another
// rebound at speed then takes another stack.
func (n Needle) SlowOnly() bool { return math.Log1p(float64(n.Fast)) < math.Log1p(float64(n.Click))/2 }
