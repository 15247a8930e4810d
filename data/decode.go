package data

import (
	"cmp"
	"errors"
	"io"
	"strings"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/units"
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
	root := doc.Root()
	var extra []Entry
	w := &walk{in: root, set: s, known: known, extra: &extra}
	w.private()
	if root.Has("meta") {
		w.sub("meta", optional, s.meta.fields)
		if s.meta.Schema > Schema { // its keys are not known here
			return fault(doc.Err(), "meta.schema")
		}
	}
	s.setExtra("", extra)
	// What others refer to comes first.
	records(w, sources, func(id string, w *walk) { r := Source{ID: id}; r.fields(w); s.sources[id] = r })
	records(w, judgments, func(id string, w *walk) { r := Judgment{ID: id}; r.fields(w); s.judgments[id] = r })
	records(w, materials, func(id string, w *walk) { r := Material{ID: id}; r.fields(w); s.materials[id] = r })
	records(w, fluids, func(id string, w *walk) { r := Fluid{ID: id}; r.fields(w); s.fluids[id] = r })
	records(w, gases, func(id string, w *walk) { r := Gas{ID: id}; r.fields(w); s.gases[id] = r })
	records(w, disciplines, func(id string, w *walk) { r := Discipline{ID: id}; r.fields(w); s.disciplines[id] = r })
	readEvidence(w, classes, s.classes)
	readEvidence(w, specimens, s.specimens)
	readForks(w)
	return doc.Err()
}

// readEvidence reads the classes or the specimens.
func readEvidence(w *walk, k kind, into map[string]func() *Fork) {
	records(w, k, func(id string, w *walk) {
		r := Fork{ID: id}
		r.evidence(w)
		into[id] = func() *Fork { return &r }
	})
}

// fault is the one about a key.
func fault(all error, key string) error {
	for _, err := range check.Split(all) {
		if e, ok := err.(*units.FileError); ok && e.Key == key {
			return err
		}
	}
	return all
}

// readForks reads the forks, each after the one that it is based on.
func readForks(w *walk) {
	found := make(map[string]*walk)
	var order []string
	records(w, forks, func(id string, below *walk) {
		found[id] = below
		order = append(order, id)
	})
	reading := make(map[string]bool) // true while a fork waits for its base, false when it is read
	unsound := make(map[string]bool) // with nothing to be based on
	var read func(id string)
	read = func(id string) {
		if _, ok := reading[id]; ok {
			return
		}
		reading[id] = true
		w, r := found[id], Fork{}
		w.faults = w.in.Faults()
		var base, class string
		w.text("based-on", optional, &base)
		w.id("class", optional, &class, classes)
		switch w.based = w.in.Has("based-on"); {
		case base != "":
			if found[base] != nil {
				read(base)
			}
			var sound bool
			r, sound = w.base(base, reading[base])
			w.partial = !sound || unsound[base]
		case class != "" && w.exists(classes, class):
			r = w.class(class)
		default:
			w.partial = w.based || class != ""
		}
		unsound[id] = w.partial
		r.ID, r.BasedOn, r.Class, w.judged = id, base, cmp.Or(class, r.Class), true
		r.fields(w)
		w.set.setExtra(recordName(string(forks), id), *w.extra)
		w.set.forks[id] = func() *Fork { return &r }
		reading[id] = false
	}
	for _, id := range order {
		read(id)
	}
}

var (
	errCycle    = errors.New("based on itself")
	errSpecimen = errors.New("a specimen, of which only some values are known; want a fork")
)

// base is the fork that another is based on, if it may be.
func (w *walk) base(id string, waiting bool) (base Fork, sound bool) {
	if waiting {
		w.in.Fault("based-on", errCycle)
		return base, false
	}
	for _, s := range []*Set{w.set, w.known} {
		if f, ok := s.forks[id]; ok {
			return *f(), true
		}
		if _, ok := s.specimens[id]; ok {
			w.in.Fault("based-on", errSpecimen)
			return base, false
		}
	}
	w.refer("based-on", id, forks)
	return base, false
}

// class is what a fork takes over from its class: what the class knows but trail and wheel
// radius, which follow from the rest.
func (w *walk) class(id string) Fork {
	read, ok := w.set.classes[id]
	if !ok {
		read = w.known.classes[id]
	}
	c := *read()
	c.Name, c.Chassis.Trail, c.Chassis.WheelRadius = "", Value[units.Length]{}, Value[units.Length]{}
	return c
}

// setExtra stores the private keys of a record.
func (s *Set) setExtra(record string, extra []Entry) {
	if len(extra) > 0 {
		s.extra[record] = extra
	}
}

func recordName(kind, id string) string { return strings.Trim(kind+"."+id, ".") }

var errID = errors.New("not an id; want up to 40 letters, digits and hyphens")

func validID(id string) bool {
	const letters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-"
	return id != "" && len(id) <= 40 && strings.Trim(id, letters) == ""
}

// mostRecords of one kind, far more than a file of the size that is read holds in earnest.
const mostRecords = 2000

// records reads the records of one kind, by id.
func records(w *walk, k kind, read func(id string, w *walk)) {
	table := w.in.OptionalTable(string(k))
	if table == nil {
		return
	}
	table.Limit(mostRecords)
	for id, in := range table.Tables() {
		if !validID(id) {
			table.Fault(id, errID)
		}
		below := *w
		var extra []Entry
		below.in, below.faults, below.extra = in, in.Faults(), &extra
		if k != sources {
			below.enter()
		}
		read(id, &below)
		w.set.setExtra(recordName(string(k), id), extra)
	}
}
