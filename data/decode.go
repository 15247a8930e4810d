package data

import (
	"errors"
	"io"
	"strings"

	"example.org/forkcurve/internal/strict"
)

// Decode reads a text in the schema of the package, TOML or JSON of the same keys. Records may refer to
// records of the same text and to those of Reference. The text has 1 MiB at most. The error joins
// its faults in line order, the first hundred of them, each a *units.FileError with its line
// and key:
//
//	set:9: fork.mine.travel = 305: a bare number; write it with its unit, as "305 mm"
func Decode(r io.Reader) (*Set, error) { return DecodeFile("set", r) }

// DecodeFile is Decode for a text of that name, which errors begin with.
func DecodeFile(name string, r io.Reader) (*Set, error) { return decode(name, r, Reference()) }

func decode(name string, r io.Reader, known *Set) (*Set, error) {
	doc, err := strict.Parse(name, r)
	if err != nil {
		return nil, err
	}
	s := newSet()
	if err := read(doc, s, known); err != nil {
		return nil, err
	}
	return s, nil
}

// read adds the records of a document, which may refer to those of s and of known.
func read(doc *strict.Doc, s, known *Set) error {
	w := &walk{in: doc.Root(), set: s, known: known}
	// What others refer to comes first.
	records(w, sources, func(id string, w *walk) { r := Source{ID: id}; r.fields(w); s.sources[id] = r })
	records(w, materials, func(id string, w *walk) { r := Material{ID: id}; r.fields(w); s.materials[id] = r })
	records(w, fluids, func(id string, w *walk) { r := Fluid{ID: id}; r.fields(w); s.fluids[id] = r })
	records(w, gases, func(id string, w *walk) { r := Gas{ID: id}; r.fields(w); s.gases[id] = r })
	records(w, disciplines, func(id string, w *walk) { r := Discipline{ID: id}; r.fields(w); s.disciplines[id] = r })
	records(w, forks, func(id string, w *walk) {
		r := Fork{ID: id}
		r.fields(w)
		s.forks[id] = func() *Fork { return &r }
	})
	return doc.Err()
}

var errID = errors.New("not an id; want up to 40 letters, digits and hyphens")

func validID(id string) bool {
	const letters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-"
	return id != "" && len(id) <= 40 && strings.Trim(id, letters) == ""
}

// records reads the records of one kind, by id.
func records(w *walk, k kind, read func(id string, w *walk)) {
	table := w.in.OptionalTable(string(k))
	if table == nil {
		return
	}
	for id, in := range table.Tables() {
		if !validID(id) {
			table.Fault(id, errID)
		}
		below := *w
		below.in, below.faults = in, in.Faults()
		if k != sources {
			below.inherit()
		}
		read(id, &below)
	}
}
