package strict

import (
	"fmt"
	"strconv"
	"strings"
)

// Percent is a share under the key, written "48.5 %", as the fraction 0.485.
// The bounds lo and hi are fractions too.
func (t *Table) Percent(key string, lo, hi float64) float64 {
	x, ok := t.OptionalPercent(key, lo, hi)
	if !ok && !t.Has(key) {
		t.missing(key, wantPercent)
	}
	return x
}

const wantPercent = `a share, as "48.5 %"`

// OptionalPercent is a share, if the key is there.
func (t *Table) OptionalPercent(key string, lo, hi float64) (float64, bool) {
	if !t.Has(key) {
		return 0, false
	}
	x, err := percent(t.values[key], lo, hi)
	if err != nil {
		t.Fault(key, err)
	}
	return x, err == nil
}

// PercentRange is two shares, the lower first.
func (t *Table) PercentRange(key string, lo, hi float64) (from, to float64) {
	from, to, ok := t.OptionalPercentRange(key, lo, hi)
	if !ok && !t.Has(key) {
		t.missing(key, wantPercents)
	}
	return from, to
}

const wantPercents = `two shares, as ["20 %", "30 %"]`

// OptionalPercentRange is two shares, the lower first, if the key is there.
func (t *Table) OptionalPercentRange(key string, lo, hi float64) (from, to float64, ok bool) {
	list, ok := read[[]any](t, key, wantPercents)
	if !ok {
		return 0, 0, false
	}
	if len(list) != 2 {
		t.Fault(key, errCount(len(list)))
		return 0, 0, false
	}
	var ends [2]float64
	for i, v := range list {
		x, err := percent(v, lo, hi)
		if err != nil {
			t.Fault(key, err)
			return 0, 0, false
		}
		ends[i] = x
	}
	if ends[0] > ends[1] {
		t.Fault(key, errOrder)
		return 0, 0, false
	}
	return ends[0], ends[1], true
}

func percent(v any, lo, hi float64) (float64, error) {
	switch v := v.(type) {
	case string:
		x, err := ParsePercent(v)
		if err == nil && !(x >= lo && x <= hi) {
			err = fmt.Errorf("want %s to %s", FormatPercent(lo), FormatPercent(hi))
		}
		return x, err
	case int64, float64:
		if !finite(v) {
			return 0, fmt.Errorf("not a finite number; want %s", wantPercent)
		}
		return 0, fmt.Errorf("a bare number; write it in percent, as \"%v %%\"", v)
	}
	return 0, fmt.Errorf("%s; want %s", kind(v), wantPercent)
}

// ParsePercent reads "48.5 %" as 0.485, exactly the nearest float64.
func ParsePercent(s string) (float64, error) {
	digits, ok := strings.CutSuffix(s, "%")
	digits = strings.TrimSuffix(digits, " ")
	if !ok || digits == "" || strings.Trim(digits, "0123456789.-") != "" {
		return 0, fmt.Errorf("not a share; want %s", wantPercent)
	}
	// The exponent shifts the point in the text; dividing by 100 would round.
	x, err := strconv.ParseFloat(digits+"e-2", 64)
	if err != nil {
		return 0, fmt.Errorf("not a share; want %s", wantPercent)
	}
	return x, nil
}

// FormatPercent is the shortest text that ParsePercent reads as x again. It shows NaN,
// the infinities and what overflows as a percentage too, which no text reads as.
func FormatPercent(x float64) string {
	if !finite(x) {
		return strconv.FormatFloat(x, 'g', -1, 64) + " %"
	}
	digits, exponent, _ := strings.Cut(strconv.FormatFloat(x, 'e', -1, 64), "e")
	n, _ := strconv.Atoi(exponent)
	y, _ := strconv.ParseFloat(digits+"e"+strconv.Itoa(n+2), 64)
	return strconv.FormatFloat(y, 'f', -1, 64) + " %"
}
