package data

import (
	"bytes"
	"errors"
	"iter"
	"reflect"
	"slices"
	"strings"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/units"
)

// Records are the records of a set as Go values.
type Records struct {
	Sources     []Source     // that values name
	Materials   []Material   // of wires
	Fluids      []Fluid      // of dampers and legs
	Gases       []Gas        // that fill a fork
	Disciplines []Discipline // with the windows they ride with
	Spreads     []Judgment   // of how far values may be off
	Classes     []Fork       // of forks, of which some values are known
	Specimens   []Fork       // measured or published, of which some values are known
	Forks       []Fork       // the archetypes and studies
}

// New makes a set of copies of the records, which may refer to each other and to those
// of Reference. They are checked as Decode checks a text. The error joins all faults,
// each with its key as a file has it:
//
//	fork.mine.travel = "300 mm": no source; name one in the table, as source = "measured", or beside the value
func New(r Records) (*Set, error) {
	s := newSet()
	err := errors.Join(
		add(s, sources, r.Sources, s.Source),
		add(s, materials, r.Materials, s.Material),
		add(s, fluids, r.Fluids, s.Fluid),
		add(s, gases, r.Gases, s.Gas),
		add(s, disciplines, r.Disciplines, s.Discipline),
		add(s, judgments, r.Spreads, s.Spread),
		add(s, classes, slices.Collect(asEvidence(slices.Values(r.Classes))), s.evidence(classes)),
		add(s, specimens, slices.Collect(asEvidence(slices.Values(r.Specimens))), s.evidence(specimens)),
		add(s, forks, r.Forks, s.Fork),
	)
	if err != nil {
		return nil, err
	}
	return s, nil
}

// standIn is the id that a record without a valid one is read under.
const standIn = "no-id"

// add adds copies of the records of one kind: each goes through its text, so that what
// holds for a file holds for it.
func add[R any, P fielded[R]](s *Set, k kind, records []R, added func(id string) (R, error)) error {
	var faults []error
	seen := make(map[string]bool)
	for _, r := range records {
		id, under := idOf(r), idOf(r)
		fault := func(err error) { faults = append(faults, &units.FileError{Key: string(k) + "." + id, Err: err}) }
		switch {
		case !validID(id): // read under another, for the rest of its faults
			fault(errID)
			under = standIn
			reflect.ValueOf(&r).Elem().FieldByName("ID").SetString(standIn)
		case seen[id]:
			fault(errors.New("the second record of that id"))
		}
		seen[id] = true
		var text bytes.Buffer
		e := newEncoder(&text)
		e.each = true
		e.record(k, under, list(P(&r).fields))
		e.out.Flush() // into memory
		doc, err := strict.Parse("", &text)
		if err == nil {
			err = read(doc, s, Reference())
		}
		for _, err := range check.Split(err) {
			if f, ok := err.(*units.FileError); ok {
				f.Line, f.Column = 0, 0 // of a text that the caller has not seen
				if below, ok := strings.CutPrefix(f.Key, string(k)+"."+under); ok {
					f.Key = string(k) + "." + id + below
				}
			}
			faults = append(faults, err)
		}
		if err != nil {
			continue
		}
		if kept, _ := added(under); lost(reflect.ValueOf(r), reflect.ValueOf(kept)) {
			fault(errors.New("holds values that such a record has no place for, as a coil in a leg whose role has none"))
		}
	}
	return errors.Join(faults...)
}

// evidence is a specimen or class.
type evidence Fork

func (e *evidence) fields(w *walk) { (*Fork)(e).evidence(w) }

func asEvidence(all iter.Seq[Fork]) iter.Seq[evidence] {
	return func(yield func(evidence) bool) {
		for f := range all {
			if !yield(evidence(f)) {
				return
			}
		}
	}
}

func (s *Set) evidence(k kind) func(id string) (evidence, error) {
	records := s.specimens
	if k == classes {
		records = s.classes
	}
	return func(id string) (evidence, error) { r, err := findFork(k, records, id); return evidence(r), err }
}

// lost reports whether a record had a value that the one kept has not. What it left to be
// filled in, as the spread by field, is no loss.
func lost(had, kept reflect.Value) bool {
	if had.IsZero() || had.Kind() != reflect.Struct || had.Type().PkgPath() != reflect.TypeFor[Fork]().PkgPath() {
		return !had.IsZero() && !reflect.DeepEqual(had.Interface(), kept.Interface())
	}
	for i := range had.NumField() {
		if lost(had.Field(i), kept.Field(i)) {
			return true
		}
	}
	return false
}
