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
}

func newSet() *Set {
	return &Set{
		forks:       make(map[string]func() *Fork),
		materials:   make(map[string]Material),
		fluids:      make(map[string]Fluid),
		gases:       make(map[string]Gas),
		disciplines: make(map[string]Discipline),
		sources:     make(map[string]Source),
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
)

// has reports whether there is a record that another may refer to.
func (s *Set) has(k kind, id string) bool {
	var ok bool
	switch k {
	case materials:
		_, ok = s.materials[id]
	case disciplines:
		_, ok = s.disciplines[id]
	case sources:
		_, ok = s.sources[id]
	}
	return ok
}

// ids are those of the records that others may refer to.
func (s *Set) ids(k kind) iter.Seq[string] {
	switch k {
	case materials:
		return maps.Keys(s.materials)
	case disciplines:
		return maps.Keys(s.disciplines)
	}
	return maps.Keys(s.sources)
}

// NotFoundError is the error of a lookup by an id that is not there.
type NotFoundError struct {
	Kind    string   // of the record, as "fork"
	ID      string   // asked for
	Nearest []string // ids that look alike, or all where few are
}

func (e *NotFoundError) Error() string {
	s := fmt.Sprintf("no %s %q", e.Kind, e.ID)
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
func (s *Set) Fork(id string) (Fork, error) {
	read, err := find(forks, s.forks, id)
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

// Forks iterates over the forks that pass all filters, in the order of their ids,
// as all iterations here.
func (s *Set) Forks(filters ...Filter) iter.Seq[Fork] {
	return func(yield func(Fork) bool) {
		for read := range all(s.forks) {
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
// the later one counts, so Merge(Reference(), mine) is the reference dataset with
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
	}
	return m
}
