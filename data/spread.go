package data

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/units"
)

// Judgment is how far the values of a field of a fork may be off where the record does
// not say: a standard uncertainty that somebody who knows forks would bet on.
type Judgment struct {
	ID     string // the key of the field with hyphens and without its leg, as "chassis-rake", "coil-rate"
	SD     string // "3 %" of the value, or a quantity, as "0.5 deg"
	Source string // id of a Source
	Note   string // what else there is to know
}

func (j *Judgment) fields(w *walk) {
	w.text("sd", required, &j.SD)
	w.text("note", optional, &j.Note)
	switch {
	case w.schema != nil:
		w.schema.add("source", textSchema())
	case !w.reading():
		w.emit("source", quote(j.Source), "", "")
	default:
		if j.Source = w.source; j.Source == "" {
			w.in.Fault("sd", errNoSource)
		}
	}
}

// judgmentID is the id of the judgment for a field of a fork.
func judgmentID(key string) string {
	for _, leg := range []string{"left.", "right."} {
		key = strings.TrimPrefix(key, leg)
	}
	return strings.ReplaceAll(key, ".", "-")
}

// judge is the standard uncertainty of a value of the field, by judgment.
func judge[Q any](w *walk, key string, value Q, parse func(text string) (Q, error)) (sd Q, source string) {
	id := judgmentID(w.prefix + key)
	j, ok := w.set.judgments[id]
	if !ok {
		if j, ok = w.known.judgments[id]; !ok {
			return sd, ""
		}
	}
	if share, err := units.Parse[units.Share](j.SD); err == nil {
		return rounded[Q](float64(share) * max(si(value), -si(value))), j.Source
	}
	sd, err := parse(j.SD)
	if err != nil {
		w.in.Fault(key, fmt.Errorf("spread.%s: %w", j.ID, err))
	}
	return sd, j.Source
}

// rounded is x in SI units to three digits of the unit that people write: an uncertainty
// has no more.
func rounded[Q any](x float64) Q {
	unit := 1.0
	if _, ok := any(*new(Q)).(units.Angle); ok {
		unit = float64(units.Degree)
	}
	digits, _ := strconv.ParseFloat(strconv.FormatFloat(x/unit, 'g', 3, 64), 64)
	return fromSI[Q](digits * unit)
}

var (
	errMeans  = errors.New("want means beside it: between-forks, adjuster, shelf or tolerance")
	errRange  = errors.New("want low, high and means beside it")
	errInside = errors.New("want a value from low to high")
	errSD     = errors.New("want 0 or more")
	errBoth   = errors.New("want either sd or a range, from which it follows")
)

// read reads what an inline table says of the spread of its value.
func (s *Spread[Q]) read(in *strict.Table, value Q, get func(key string) (Q, bool)) {
	sd, hasSD := get("sd")
	low, hasLow := get("low")
	high, hasHigh := get("high")
	means, _ := in.OptionalWord("means", string(BetweenForks), string(Adjuster), string(Shelf), string(Tolerance))
	if in.Has("n") {
		s.N = whole(in, "n")
	}
	s.SD, s.Low, s.High, s.Means = sd, low, high, Means(means)
	ranged := in.Has("low") && in.Has("high")
	switch {
	case in.Has("low") != in.Has("high") || !ranged && (in.Has("means") || in.Has("n")):
		in.Fault("value", errRange)
	case ranged && !in.Has("means"):
		in.Fault("low", errMeans)
	case hasLow && hasHigh && si(low) > si(high):
		in.Fault("low", errors.New("want low below high"))
	case hasLow && hasHigh && !(si(low) <= si(value) && si(value) <= si(high)):
		in.Fault("value", errInside)
	case in.Has("sd") && ranged:
		in.Fault("sd", errBoth)
	case hasSD && si(sd) < 0:
		in.Fault("sd", errSD)
	case hasLow && hasHigh:
		s.SD = rounded[Q](s.Means.deviation(si(high) - si(low)))
	}
}

// show puts what a file says of the spread into the entry.
func (s *Spread[Q]) show(e *Entry, text func(Q) string) {
	zero := fromSI[Q](0)
	if e.N, e.Means, e.Judged = s.N, s.Means, s.Source; s.Means != "" {
		e.Low, e.High = text(s.Low), text(s.High)
	}
	if any(s.SD) != any(zero) {
		e.SD = text(s.SD)
	}
}

// stated is the part of a spread that a file says, as TOML: not what follows from it.
func (e Entry) stated() string {
	switch {
	case e.Low != "":
		n := ""
		if e.N > 0 {
			n = fmt.Sprintf(", n = %d", e.N)
		}
		return fmt.Sprintf(", low = %s, high = %s%s, means = %q", e.Low, e.High, n, e.Means)
	case e.SD != "" && e.Judged == "":
		return ", sd = " + e.SD
	}
	return ""
}
