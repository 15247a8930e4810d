package fit

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/setup"
)

// Model is what is known of a fork and of the sweep. Where a parameter is free, its
// value here is where the search starts, or the middle of the bounds if it lies
// outside them.
//
// For a record of one leg alone, Fork has that leg, an empty one for the other, and
// the friction of the one. Whatever else stands on the bench is a spring of a leg, as
// a [spring.Given].
type Model struct {
	Fork     setup.Spec // with its parameters at what is known or guessed of them
	Exponent float64    // polytropic n of the gas from full extension, 1 (slow) to 5/3
}

// Curve is the fork as the bench moves it, without the friction. A model at fault
// gives a curve that tells it by [spring.Err].
func (m Model) Curve() spring.Curve {
	f := check.Of("Model")
	check.Between(f, "Exponent", m.Exponent, 1, 5.0/3)
	fork, err := setup.New(m.Fork)
	f.Nest("Fork", err)
	if err := f.Err(); err != nil {
		return spring.Failed(err)
	}
	return fork.Curve(m.Exponent)
}

// clone shares nothing with the model that a parameter sets.
func (m Model) clone() Model {
	m.Fork = m.Fork.Clone()
	return m
}
