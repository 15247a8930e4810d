package bench

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"

	"example.org/forkcurve/units"
)

// known is a posterior of the straight unknowns offset, gauge and gauge-scale, with that covariance of z.
func known(t *testing.T, covariance ...float64) *Known {
	t.Helper()
	f := bare(t)
	k := &Known{prior: f}
	for _, u := range []Unknown{Uncertain("offset", 4*units.Millimeter), Uncertain("gauge", 0.2*units.Bar),
		Uncertain("gauge-scale", units.Share(0.02))} {
		k.scales = append(k.scales, newScale(&f, u))
	}
	n := int(math.Sqrt(float64(len(covariance))))
	k.scales = k.scales[:n]
	k.covariance = mat.NewSymDense(n, covariance)
	k.z = make([]float64, n)
	var c mat.Cholesky
	if !c.Factorize(k.covariance) {
		t.Fatal("no covariance")
	}
	c.LTo(&k.factor)
	return k
}

// The samples that count are all of them where their weights are even, and one where one weighs all.
func TestEffective(t *testing.T) {
	for _, c := range []struct {
		weights []float64
		want    float64
	}{{[]float64{1, 1, 1, 1}, 1}, {[]float64{3, 3, 3, 3}, 1}, {[]float64{5, 0, 0, 0}, 0.25}, {[]float64{2, 2, 0, 0}, 0.5},
		{[]float64{2, 1}, 0.9}} {
		near(t, "effective", effective(c.weights), c.want, 1e-12)
	}
}

// Weighted samples become samples of one weight: each as often as its weight says.
func TestResampled(t *testing.T) {
	k := known(t, 1)
	for _, c := range []struct {
		weights, want []float64
	}{
		{[]float64{1, 1, 1, 1}, []float64{0, 1, 2, 3}},
		{[]float64{2, 0, 1, 1}, []float64{0, 0, 2, 3}},
		{[]float64{0, 0, 0.3, 0.1}, []float64{2, 2, 2, 3}},
		{[]float64{0, 5, 5, 0}, []float64{1, 1, 2, 2}},
	} {
		b := k.by([][]float64{{0}, {1}, {2}, {3}}, slices.Clone(c.weights))
		var got []float64
		for _, z := range b.sample {
			got = append(got, z[0])
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("weights %v: samples %v, want %v", c.weights, got, c.want)
		}
		var sum, mean float64
		for i, w := range c.weights {
			sum, mean = sum+w, mean+w*float64(i)
		}
		near(t, "mean", b.z[0], mean/sum, 1e-12)
	}
	if b := k.by([][]float64{{2}, {2}}, []float64{1, 1}); b != nil {
		t.Error("samples that are all alike have a covariance")
	}
}

// Drawn forks spread as the covariance says, and the mean of their squared distances is their number of unknowns.
func TestNormalDraws(t *testing.T) {
	k := known(t, 0.64, -0.32, -0.32, 0.25)
	k.z = []float64{1, -2}
	const n, wide = 100_000, 1.5
	r := rand.New(rand.NewPCG(1, 2))
	var mean [2]float64
	var square [3]float64
	var distance float64
	for range n {
		z := k.normal(r, wide)
		a, b := z[0]-1, z[1]+2
		mean[0], mean[1] = mean[0]+a/n, mean[1]+b/n
		square[0], square[1], square[2] = square[0]+a*a/n, square[1]+a*b/n, square[2]+b*b/n
		distance += k.distance(z) / n
	}
	const w = wide * wide
	near(t, "mean", mean[0], 0, 5*wide*0.8/math.Sqrt(n)) // five standard errors
	near(t, "mean", mean[1], 0, 5*wide*0.5/math.Sqrt(n))
	near(t, "variance", square[0], w*0.64, 0.02*w)
	near(t, "covariance", square[1], w*-0.32, 0.02*w)
	near(t, "variance", square[2], w*0.25, 0.02*w)
	near(t, "squared distance", distance, 2*w, 0.03*w)
}

// The best known direction of two unknowns: that of the smaller eigenvalue, by the closed form of a matrix of two.
func TestTogetherOfTwo(t *testing.T) {
	for _, c := range []struct{ a, b, both float64 }{{0.64, 0.25, -0.32}, {0.64, 0.25, 0.32}, {0.25, 0.64, -0.32},
		{0.25, 0.64, 0.32}, {0.49, 0.49, 0.45}} {
		k := known(t, c.a, c.both, c.both, c.b)
		k.together()
		if len(k.Together) != 1 {
			t.Fatalf("%+v: %+v", c, k.Together)
		}
		got := k.Together[0]
		least := (c.a+c.b)/2 - math.Hypot((c.a-c.b)/2, c.both)
		near(t, "learned", got.Learned, 1-math.Sqrt(least), 1e-12)
		near(t, "better", got.Better, math.Sqrt(min(c.a, c.b))/math.Sqrt(least), 1e-9)
		// Its direction is (both, least − a), by the first row of the eigenvalue's equation.
		length := math.Hypot(c.both, least-c.a)
		want := map[string]float64{"offset": c.both / length, "gauge": (least - c.a) / length}
		for i, p := range got.Parts {
			near(t, p.Name, math.Abs(p.Weight), math.Abs(want[p.Name]), 1e-9)
			if i > 0 && math.Abs(p.Weight) > math.Abs(got.Parts[i-1].Weight)+1e-9 {
				t.Errorf("%+v: the heaviest first, not %+v", c, got.Parts)
			}
		}
		if p := got.Parts; p[0].Weight*p[1].Weight*c.both > 0 {
			t.Errorf("%+v: parts %+v go the wrong way together", c, p)
		}
		if c.a == c.b {
			continue // either may hang on the other
		}
		// Said of the one that is known less: by how much the other follows it, both to a deviation of it.
		first, second := "offset is higher by 3.2 mm", "gauge is "
		if c.a < c.b {
			first, second = "gauge is higher by 0.16 bar", "offset is "
		}
		way, by := "higher by ", "0.08 bar" // 0.2 bar · 0.32/0.8
		if c.both < 0 {
			way = "lower by "
		}
		if c.a < c.b {
			by = "1.6 mm" // 4 mm · 0.32/0.8
		}
		if text := got.String(); !strings.Contains(text, first) || !strings.HasSuffix(text, second+way+by) {
			t.Errorf("%+v: %s; want %s, %s%s%s", c, text, first, second, way, by)
		}
	}
	alone := known(t, 0.64, 0, 0, 0.25)
	if alone.together(); alone.Together != nil {
		t.Errorf("what is known each by itself: %+v", alone.Together)
	}
	sure := known(t, 0.64, 0.05, 0.05, 0.008)
	if sure.together(); sure.Together != nil {
		t.Errorf("beside what is known by itself: %+v", sure.Together)
	}
}

// Of three unknowns that are known together, those count that weigh a fifth of the heaviest.
func TestTogetherOfThree(t *testing.T) {
	for _, c := range []struct {
		u    [3]float64
		want []string
	}{
		{[3]float64{-0.75, 0.55, 0.17}, []string{"offset", "gauge", "gauge-scale"}},
		{[3]float64{0.75, -0.55, 0.17}, []string{"offset", "gauge", "gauge-scale"}},
		{[3]float64{0.17, 0.55, -0.75}, []string{"gauge-scale", "gauge", "offset"}},
		{[3]float64{0.75, 0.55, 0.13}, []string{"offset", "gauge"}},
		{[3]float64{0.13, -0.55, 0.75}, []string{"gauge-scale", "gauge"}},
	} {
		var length float64
		for _, x := range c.u {
			length += x * x
		}
		var covariance []float64
		for i, x := range c.u {
			for j, y := range c.u {
				v := -0.97 * x * y / length
				if i == j {
					v++
				}
				covariance = append(covariance, v)
			}
		}
		k := known(t, covariance...)
		k.together()
		if len(k.Together) != 1 {
			t.Errorf("%v: %+v", c.u, k.Together)
			continue
		}
		got := k.Together[0]
		var names []string
		for _, p := range got.Parts {
			names = append(names, p.Name)
		}
		if !slices.Equal(names, c.want) {
			t.Errorf("%v: parts %q, want %q", c.u, names, c.want)
		}
		near(t, "learned", got.Learned, 1-math.Sqrt(0.03), 1e-9)
		best := math.Inf(1)
		for i, x := range c.u {
			if slices.Contains(c.want, k.scales[i].name) {
				best = min(best, math.Sqrt(1-0.97*x*x/length))
			}
		}
		near(t, "better", got.Better, best/math.Sqrt(0.03), 1e-9)
	}
}

// What may be off has no sign, and a change has one.
func TestUnsigned(t *testing.T) {
	change := as[units.Length]("%+.1f")
	if got := unsigned(change, 0.002); got != "2.0 mm" {
		t.Errorf("%q", got)
	}
	if got := unsigned(plain, 2); got != "2" {
		t.Errorf("%q", got)
	}
}
