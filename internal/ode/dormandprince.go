package ode

import "math"

// try takes a step of h and returns the new state, the derivative there and the
// error over the tolerance, root mean square over the components.
func (o *Solver[Y]) try(h float64) (y, k7 Y, err float64) {
	o.stats.Steps++
	k1 := o.k1
	for i := range len(y) {
		y[i] = o.y[i] + h*(1./5*k1[i])
	}
	k2 := o.eval(o.t+1./5*h, y)
	for i := range len(y) {
		y[i] = o.y[i] + h*(3./40*k1[i]+9./40*k2[i])
	}
	k3 := o.eval(o.t+3./10*h, y)
	for i := range len(y) {
		y[i] = o.y[i] + h*(44./45*k1[i]-56./15*k2[i]+32./9*k3[i])
	}
	k4 := o.eval(o.t+4./5*h, y)
	for i := range len(y) {
		y[i] = o.y[i] + h*(19372./6561*k1[i]-25360./2187*k2[i]+64448./6561*k3[i]-212./729*k4[i])
	}
	k5 := o.eval(o.t+8./9*h, y)
	for i := range len(y) {
		y[i] = o.y[i] + h*(9017./3168*k1[i]-355./33*k2[i]+46732./5247*k3[i]+49./176*k4[i]-5103./18656*k5[i])
	}
	k6 := o.eval(o.t+h, y)
	for i := range len(y) {
		y[i] = o.y[i] + h*(35./384*k1[i]+500./1113*k3[i]+125./192*k4[i]-2187./6784*k5[i]+11./84*k6[i])
	}
	k7 = o.eval(o.t+h, y)
	for i := range len(y) {
		e := h * (71./57600*k1[i] - 71./16695*k3[i] + 71./1920*k4[i] - 17253./339200*k5[i] + 22./525*k6[i] - 1./40*k7[i])
		w := o.settings.Absolute[i] + o.settings.Relative*max(math.Abs(o.y[i]), math.Abs(y[i]))
		err += square(e / w)
	}
	err = math.Sqrt(err / float64(len(y)))
	if err <= 1 {
		o.extend(h, y, k1, k3, k4, k5, k6, k7)
	}
	return y, k7, err
}

// extend makes the continuous extension of an accepted step.
func (o *Solver[Y]) extend(h float64, y, k1, k3, k4, k5, k6, k7 Y) {
	o.start, o.width = o.t, h
	d := &o.dense
	for i := range len(y) {
		rise := y[i] - o.y[i]
		bulge := h*k1[i] - rise
		d[0][i] = o.y[i]
		d[1][i] = rise
		d[2][i] = bulge
		d[3][i] = rise - h*k7[i] - bulge
		d[4][i] = h * (-12715105075./11282082432*k1[i] + 87487479700./32700410799*k3[i] -
			10690763975./1880347072*k4[i] + 701980252875./199316789632*k5[i] -
			1453857185./822651844*k6[i] + 69997945./29380423*k7[i])
	}
}
