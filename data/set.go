package data

import (
	"errors"
	"fmt"
	"iter"
	"maps"
	"slices"
	"strings"

	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// Set is a dataset: forks and what they refer to, by id. A Set does not change
// and may be used by several goroutines; what it returns are copies.
type Set struct {
	forks       map[string]func() *Fork // so that a fork may be made when first asked for
	materials   map[string]Material
	fluids      map[string]Fluid
	gases       map[string]Gas
	disciplines map[string]Discipline
	sources     map[string]Source
	specimens   map[string]func() *Fork
	classes     map[string]func() *Fork
	judgments   map[string]Judgment
	meta        Meta
	extra       map[string][]Entry // by kind and id of the record, "" for the file
}

func newSet() *Set {
	return &Set{
		forks:       make(map[string]func() *Fork),
		materials:   make(map[string]Material),
		fluids:      make(map[string]Fluid),
		gases:       make(map[string]Gas),
		disciplines: make(map[string]Discipline),
		sources:     make(map[string]Source),
		specimens:   make(map[string]func() *Fork),
		classes:     make(map[string]func() *Fork),
		judgments:   make(map[string]Judgment),
		extra:       make(map[string][]Entry),
	}
}

// kind is a kind of record, and the table of a file that holds them.
type kind string

const (
	forks       kind = "fork"
	materials   kind = "material"
	fluids      kind = "fluid"
	gases       kind = "gas"
	disciplines kind = "discipline"
	sources     kind = "source"
	specimens   kind = "specimen"
	classes     kind = "class"
	judgments   kind = "spread"
)

// table is a lookup in the records of a kind, and their ids.
func (s *Set) table(k kind) (has func(id string) bool, ids iter.Seq[string]) {
	switch k {
	case forks:
		return keysOf(s.forks)
	case materials:
		return keysOf(s.materials)
	case disciplines:
		return keysOf(s.disciplines)
	case specimens:
		return keysOf(s.specimens)
	case classes:
		return keysOf(s.classes)
	}
	return keysOf(s.sources)
}

func keysOf[R any](records map[string]R) (func(string) bool, iter.Seq[string]) {
	return func(id string) bool { _, ok := records[id]; return ok }, maps.Keys(records)
}

// NotFoundError is the error of a lookup by an id that is not there.
type NotFoundError struct {
	Kind    string   // of the record, as "fork"
	ID      string   // asked for
	Nearest []string // ids that look alike, or all where few are
}

func (e *NotFoundError) Error() string {
	const most = 60 // of an id that nobody has
	id := []rune(e.ID)
	if len(id) > most {
		id = append(id[:most:most], '…')
	}
	s := fmt.Sprintf("no %s %q", e.Kind, string(id))
	if len(e.Nearest) > 0 {
		s += "; there is " + strings.Join(e.Nearest, ", ")
	}
	return s
}

func notFound(k kind, id string, ids []string) error {
	near := strict.Nearest(id, ids, 5)
	if len(near) == 0 && len(ids) <= 20 {
		near = ids
	}
	return &NotFoundError{Kind: string(k), ID: id, Nearest: near}
}

// find looks up an id, ignoring case where the exact one is not there.
func find[R any](k kind, records map[string]R, id string) (R, error) {
	if r, ok := records[id]; ok {
		return r, nil
	}
	ids := slices.Sorted(maps.Keys(records))
	for _, other := range ids {
		if strings.EqualFold(other, id) {
			return records[other], nil
		}
	}
	var zero R
	return zero, notFound(k, id, ids)
}

// all iterates in the order of the ids.
func all[R any](records map[string]R) iter.Seq[R] {
	return func(yield func(R) bool) {
		for _, id := range slices.Sorted(maps.Keys(records)) {
			if !yield(records[id]) {
				return
			}
		}
	}
}

// Fork is the fork of that id, upper or lower case. The error is a *NotFoundError,
// as for all lookups.
func (s *Set) Fork(id string) (Fork, error) { return findFork(forks, s.forks, id) }

func findFork(k kind, records map[string]func() *Fork, id string) (Fork, error) {
	read, err := find(k, records, id)
	if err != nil {
		return Fork{}, err
	}
	return *read(), nil
}

// Material is the spring wire of that id.
func (s *Set) Material(id string) (Material, error) {
	m, err := find(materials, s.materials, id)
	return m.clone(), err
}

// Wire is Material as package helical calculates with it.
func (s *Set) Wire(id string) (helical.Material, error) {
	m, err := find(materials, s.materials, id)
	if err != nil {
		return helical.Material{}, err
	}
	return m.Wire()
}

// Fluid is the damper oil of that id.
func (s *Set) Fluid(id string) (Fluid, error) { return find(fluids, s.fluids, id) }

// Gas is the gas of that id.
func (s *Set) Gas(id string) (Gas, error) { return find(gases, s.gases, id) }

// Discipline is the discipline of that id.
func (s *Set) Discipline(id string) (Discipline, error) {
	return find(disciplines, s.disciplines, id)
}

// Source is the source of that id.
func (s *Set) Source(id string) (Source, error) { return find(sources, s.sources, id) }

// Specimen is the evidence of that id: a measured or published vehicle or fork, of which
// only some values are known.
func (s *Set) Specimen(id string) (Fork, error) { return findFork(specimens, s.specimens, id) }

// Class is the class of forks of that id: medians of values, each with its spread between
// the forks of the class.
func (s *Set) Class(id string) (Fork, error) { return findFork(classes, s.classes, id) }

// Spread is the judgment for the field of a fork, by its key.
func (s *Set) Spread(key string) (Judgment, error) {
	return find(judgments, s.judgments, judgmentID(key))
}

// Meta says what the set is and how to cite it.
func (s *Set) Meta() Meta { return s.meta }

// Private are the keys that begin with x- of the record of that kind and id, as "fork" and
// "mine", or of the file. They mean nothing here; Encode writes them again.
func (s *Set) Private(kind, id string) []Entry { return slices.Clone(s.extra[recordName(kind, id)]) }

// Forks iterates over the forks that pass all filters, in the order of their ids,
// as all iterations here.
func (s *Set) Forks(filters ...Filter) iter.Seq[Fork] { return allForks(s.forks, filters) }

func allForks(records map[string]func() *Fork, filters []Filter) iter.Seq[Fork] {
	return func(yield func(Fork) bool) {
		for read := range all(records) {
			if f := *read(); passes(f, filters) && !yield(f) {
				return
			}
		}
	}
}

// Materials iterates over the spring wires.
func (s *Set) Materials() iter.Seq[Material] {
	return func(yield func(Material) bool) {
		for m := range all(s.materials) {
			if !yield(m.clone()) {
				return
			}
		}
	}
}

// Fluids iterates over the damper oils.
func (s *Set) Fluids() iter.Seq[Fluid] { return all(s.fluids) }

// Gases iterates over the gases.
func (s *Set) Gases() iter.Seq[Gas] { return all(s.gases) }

// Disciplines iterates over the disciplines.
func (s *Set) Disciplines() iter.Seq[Discipline] { return all(s.disciplines) }

// Sources iterates over the sources.
func (s *Set) Sources() iter.Seq[Source] { return all(s.sources) }

// Specimens iterates over the evidence.
func (s *Set) Specimens() iter.Seq[Fork] { return allForks(s.specimens, nil) }

// Classes iterates over the classes of forks.
func (s *Set) Classes() iter.Seq[Fork] { return allForks(s.classes, nil) }

// Spreads iterates over the judgments by field.
func (s *Set) Spreads() iter.Seq[Judgment] { return all(s.judgments) }

// Filter picks forks.
type Filter func(Fork) bool

// UsedFor picks the forks of some disciplines, by id, upper or lower case. The error
// joins a *NotFoundError for each discipline that the set does not know.
func (s *Set) UsedFor(disciplines ...string) (Filter, error) {
	uses := make(map[string]bool)
	var faults []error
	for _, id := range disciplines {
		d, err := s.Discipline(id)
		uses[d.ID] = true
		faults = append(faults, err)
	}
	return func(f Fork) bool { return uses[f.Use] }, errors.Join(faults...)
}

// TravelFrom picks forks with a travel from lo to hi.
func TravelFrom(lo, hi units.Length) Filter {
	return func(f Fork) bool { return f.Travel.Value >= lo && f.Travel.Value <= hi }
}

// SprungBy picks the forks on coil springs (CoilLeg) or on air (AirLeg).
func SprungBy(spring Role) Filter {
	return func(f Fork) bool { return f.Spring() == spring }
}

func passes(f Fork, filters []Filter) bool {
	for _, pass := range filters {
		if !pass(f) {
			return false
		}
	}
	return true
}

// Merge is the set of all records of the given ones. Of records with the same id
// the later one counts, as of what the sets say of themselves, so
// Merge(Reference(), mine) is the reference dataset with
// the forks of one's own, some perhaps in place of others.
func Merge(sets ...*Set) *Set {
	m := newSet()
	for _, s := range sets {
		maps.Copy(m.forks, s.forks)
		maps.Copy(m.materials, s.materials)
		maps.Copy(m.fluids, s.fluids)
		maps.Copy(m.gases, s.gases)
		maps.Copy(m.disciplines, s.disciplines)
		maps.Copy(m.sources, s.sources)
		maps.Copy(m.specimens, s.specimens)
		maps.Copy(m.classes, s.classes)
		maps.Copy(m.judgments, s.judgments)
		maps.Copy(m.extra, s.extra)
		if s.meta != (Meta{}) {
			m.meta = s.meta
		}
	}
	return m
}
