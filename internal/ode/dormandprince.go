package ode

import "math"

// try takes a step of h into o.next with the derivative there in the last stage, and
// returns the error over the tolerance, its square in the mean over the components.
func (o *Solver) try(h float64) float64 {
	o.stats.Steps++
	o.stages(h)
	y := o.y
	next, k1, k3, k4 := o.next[:len(y)], o.k[0][:len(y)], o.k[2][:len(y)], o.k[3][:len(y)]
	k5, k6, k7 := o.k[4][:len(y)], o.k[5][:len(y)], o.k[6][:len(y)]
	for i := range y {
		next[i] = y[i] + h*(35./384*k1[i]+500./1113*k3[i]+125./192*k4[i]-2187./6784*k5[i]+11./84*k6[i])
	}
	o.eval(o.t+h, next, k7)
	var sum float64
	relative, perAbsolute := o.settings.Relative, o.perAbsolute[:len(y)]
	for i := range y {
		e := h * (71./57600*k1[i] - 71./16695*k3[i] + 71./1920*k4[i] -
			17253./339200*k5[i] + 22./525*k6[i] - 1./40*k7[i]) * perAbsolute[i]
		if relative != 0 {
			e /= 1 + relative*perAbsolute[i]*max(math.Abs(y[i]), math.Abs(next[i]))
		}
		sum += square(e)
	}
	return sum / float64(len(y))
}

// stages fills in the derivatives inside a step of h. No stage needs the integrals.
func (o *Solver) stages(h float64) {
	n := len(o.probe)
	y := o.y[:n]
	next, k1, k2, k3 := o.next[:n], o.k[0][:n], o.k[1][:n], o.k[2][:n]
	k4, k5 := o.k[3][:n], o.k[4][:n]
	for i := range y {
		next[i] = y[i] + h*(1./5*k1[i])
	}
	o.eval(o.t+1./5*h, o.next, o.k[1])
	for i := range y {
		next[i] = y[i] + h*(3./40*k1[i]+9./40*k2[i])
	}
	o.eval(o.t+3./10*h, o.next, o.k[2])
	for i := range y {
		next[i] = y[i] + h*(44./45*k1[i]-56./15*k2[i]+32./9*k3[i])
	}
	o.eval(o.t+4./5*h, o.next, o.k[3])
	for i := range y {
		next[i] = y[i] + h*(19372./6561*k1[i]-25360./2187*k2[i]+64448./6561*k3[i]-212./729*k4[i])
	}
	o.eval(o.t+8./9*h, o.next, o.k[4])
	for i := range y {
		next[i] = y[i] + h*(9017./3168*k1[i]-355./33*k2[i]+46732./5247*k3[i]+49./176*k4[i]-5103./18656*k5[i])
	}
	o.eval(o.t+h, o.next, o.k[5])
}

// extend makes the continuous extension of the last step, whose begin and derivative
// there stand where the next step will write.
func (o *Solver) extend() {
	o.extended = true
	h, begin, first, last := o.width, o.next, o.k[6], o.k[0]
	for i := range o.probe {
		rise := o.y[i] - begin[i]
		bulge := h*first[i] - rise
		o.dense[0][i] = begin[i]
		o.dense[1][i] = rise
		o.dense[2][i] = bulge
		o.dense[3][i] = rise - h*last[i] - bulge
		o.dense[4][i] = h * (-12715105075./11282082432*first[i] + 87487479700./32700410799*o.k[2][i] -
			10690763975./1880347072*o.k[3][i] + 701980252875./199316789632*o.k[4][i] -
			1453857185./822651844*o.k[5][i] + 69997945./29380423*last[i])
	}
}
