package program

import (
	"errors"
	"fmt"
	"os"
	"strconv"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/units"
)

// text is a flag that is read from a text; it is a [flag.Value].
type text struct {
	fallback string
	given    bool
	take     func(value string)
}

func (t *text) String() string { return t.fallback }

// Set takes the value of the command line. Its faults are kept for the end, so that all of them are told.
func (t *text) Set(value string) error {
	t.given = true
	t.take(value)
	return nil
}

// Flag declares a flag whose text a function reads. The fallback is read where the flag is left out; where that is
// empty the value is a zero.
func Flag[T any](p *Program, name, fallback, usage string, read func(string) (T, error)) *T {
	value := new(T)
	t := &text{fallback: fallback}
	t.take = func(given string) {
		v, err := *value, errors.New("nothing given: give a value, or leave the flag out")
		if strings.TrimSpace(given) != "" {
			v, err = read(given)
		}
		if err == nil {
			*value = v
		}
		p.fault("-"+name, err)
	}
	p.texts = append(p.texts, t)
	p.Flags.Var(t, name, usage)
	return value
}

// Text declares a flag that is taken as it is written.
func (p *Program) Text(name, fallback, usage string) *string {
	return Flag(p, name, fallback, usage, func(text string) (string, error) { return text, nil })
}

// fault keeps each of the errors of a flag, by its name.
func (p *Program) fault(flag string, err error) {
	var outside *units.RangeError
	switch joined, several := err.(interface{ Unwrap() []error }); {
	case err == nil:
	case several:
		for _, err := range joined.Unwrap() {
			p.fault(flag, err)
		}
	case errors.As(err, &outside) && outside.Field == "":
		outside.Field = flag
		p.faults = append(p.faults, err)
	default:
		p.faults = append(p.faults, fmt.Errorf("%s: %w", flag, err))
	}
}

// Between reads a quantity and holds it to a range.
func Between[Q interface {
	units.Quantity
	~float64
}](lo, hi Q) func(string) (Q, error) {
	return func(text string) (Q, error) {
		q, err := units.Parse[Q](strings.TrimSpace(text))
		if err == nil && !(q >= lo && q <= hi) {
			err = &units.RangeError{Value: q, Want: fmt.Sprintf("%v to %v", lo, hi)}
		}
		return q, err
	}
}

// Number reads a number, a whole one where it is an int, and holds it to a range.
func Number[N int | float64](lo, hi N) func(string) (N, error) {
	return func(text string) (N, error) {
		f, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
		n := N(f)
		if err != nil || float64(n) != f || n < lo || n > hi {
			return 0, &units.RangeError{Value: text, Want: fmt.Sprintf("%v to %v", lo, hi)}
		}
		return n, nil
	}
}

// List reads a list with commas between.
func List[T any](read func(string) (T, error)) func(string) ([]T, error) {
	return func(text string) ([]T, error) {
		var list []T
		var faults []error
		for part := range strings.SplitSeq(text, ",") {
			v, err := read(strings.TrimSpace(part))
			list, faults = append(list, v), append(faults, err)
		}
		return list, errors.Join(faults...)
	}
}

// Data declares the flag -data: the reference dataset, with the forks of a file beside it if one is given.
func (p *Program) Data() **data.Set {
	set := Flag(p, "data", "", "`file` with forks of your own, beside the dataset",
		func(name string) (*data.Set, error) {
			f, err := os.Open(name)
			if err != nil {
				return nil, err
			}
			defer f.Close()
			own, err := data.DecodeFile(name, f)
			if err != nil {
				return nil, err
			}
			return data.Merge(data.Reference(), own), nil
		})
	*set = data.Reference()
	return set
}
