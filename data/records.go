package data

import (
	"bytes"
	"errors"
	"reflect"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/units"
)

// Records are the records of a set as Go values.
type Records struct {
	Sources     []Source
	Materials   []Material
	Fluids      []Fluid
	Gases       []Gas
	Disciplines []Discipline
	Forks       []Fork
}

// New makes a set of copies of the records, which may refer to each other and to those
// of Reference. They are checked as Decode checks a text. The error joins all faults,
// each with its key as a file has it:
//
//	fork.mine.travel = "300 mm": no source; name one in the table, as source = "measured", or beside the value
func New(r Records) (*Set, error) {
	s := newSet()
	err := errors.Join(
		add(s, sources, r.Sources, func(r Source) string { return r.ID }, s.Source),
		add(s, materials, r.Materials, func(r Material) string { return r.ID }, s.Material),
		add(s, fluids, r.Fluids, func(r Fluid) string { return r.ID }, s.Fluid),
		add(s, gases, r.Gases, func(r Gas) string { return r.ID }, s.Gas),
		add(s, disciplines, r.Disciplines, func(r Discipline) string { return r.ID }, s.Discipline),
		add(s, forks, r.Forks, func(r Fork) string { return r.ID }, s.Fork),
	)
	if err != nil {
		return nil, err
	}
	return s, nil
}

// add adds copies of the records of one kind: each goes through its text, so that what
// holds for a file holds for it.
func add[R any, P interface {
	*R
	fields(*walk)
}](s *Set, k kind, records []R, id func(R) string, added func(id string) (R, error)) error {
	var faults []error
	seen := make(map[string]bool)
	for _, r := range records {
		id := id(r)
		fault := func(err error) { faults = append(faults, &units.FileError{Key: string(k) + "." + id, Err: err}) }
		switch {
		case !validID(id):
			fault(errID)
			continue
		case seen[id]:
			fault(errors.New("the second record of that id"))
			continue
		}
		seen[id] = true
		var text bytes.Buffer
		e := newEncoder(&text)
		e.each = true
		e.record(k, id, list(P(&r).fields))
		e.out.Flush() // into memory
		doc, err := strict.Parse("", &text)
		if err == nil {
			err = read(doc, s, Reference())
		}
		for _, err := range check.Split(err) {
			if f, ok := err.(*units.FileError); ok {
				f.Line, f.Column = 0, 0 // of a text that the caller has not seen
			}
			faults = append(faults, err)
		}
		if err != nil {
			continue
		}
		if kept, _ := added(id); !reflect.DeepEqual(kept, r) {
			fault(errors.New("holds values that such a record has no place for, as a coil in a leg whose role has none"))
		}
	}
	return errors.Join(faults...)
}
