package data

import (
	"errors"
	"io"
	"regexp"

	"example.org/forkcurve/internal/strict"
)

// Decode reads a TOML text in the schema of the package. Records may refer to
// records of the same text and to those of Reference. The error joins all faults of
// the text in line order, each with its line and key:
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
	records(w, sources, s.sources, func(id string, r *Source, w *walk) { r.ID = id; r.fields(w) })
	records(w, materials, s.materials, func(id string, r *Material, w *walk) { r.ID = id; r.fields(w) })
	records(w, fluids, s.fluids, func(id string, r *Fluid, w *walk) { r.ID = id; r.fields(w) })
	records(w, gases, s.gases, func(id string, r *Gas, w *walk) { r.ID = id; r.fields(w) })
	records(w, disciplines, s.disciplines, func(id string, r *Discipline, w *walk) { r.ID = id; r.fields(w) })
	records(w, forks, s.forks, func(id string, r *Fork, w *walk) { r.ID = id; r.fields(w) })
	return doc.Err()
}

var (
	idForm    = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9-]{0,39}$`)
	errIDForm = errors.New("not an id; want up to 40 letters, digits and hyphens")
)

// records reads the records of one kind, by id.
func records[R any](w *walk, k kind, into map[string]R, fields func(string, *R, *walk)) {
	table := w.in.OptionalTable(string(k))
	if table == nil {
		return
	}
	for id, in := range table.Tables() {
		if !idForm.MatchString(id) {
			table.Fault(id, errIDForm)
			continue
		}
		below := *w
		below.in = in
		if k != sources {
			below.inherit()
		}
		var r R
		fields(id, &r, &below)
		into[id] = r
	}
}
