package solve

// Lowest finds where a function of one valley between lo and hi is least, by golden sections
// until no more than within is left of the bracket, and what it is there. An end may be
// lower by what lies within.
func Lowest(f func(float64) float64, lo, hi, within float64) (x, fx float64) {
	const golden = 0.6180339887498949
	a, b := lo, hi
	x, y := b-golden*(b-a), a+golden*(b-a)
	fx, fy := f(x), f(y)
	for b-a > within {
		if fx < fy {
			b, y, fy = y, x, fx
			x = b - golden*(b-a)
			fx = f(x)
		} else {
			a, x, fx = x, y, fy
			y = a + golden*(b-a)
			fy = f(y)
		}
	}
	x = (a + b) / 2
	return x, f(x)
}
