package fit_test

import (
	"strings"
	"testing"

	"example.org/forkcurve/internal/shared"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/units"
)

// Readings and a model are shared; a fit and its parameters are each their own.
func TestShared(t *testing.T) {
	readings, err := fit.ReadCSV("", strings.NewReader(sweep))
	if err != nil {
		t.Fatal(err)
	}
	leg := springLeg()
	shared.Read(t, func() any {
		rate, preload := fit.Rate(), fit.Preload()
		r, err := fit.Fit(readings, leg, rate.Between(newtonPerMM, 30*newtonPerMM), preload.Between(0, 40*mm))
		if err != nil {
			return err
		}
		k, sure := rate.Estimate(r)
		return []units.Stiffness{k, sure}
	})
}
