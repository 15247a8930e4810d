package data

import (
	"embed"
	"io/fs"
	"sync"
)

//go:generate go run -tags forkcurve_bootstrap generate.go

//go:embed *.toml evidence/*.toml forks/*.toml
var files embed.FS

// Files has the texts that the reference dataset is written in: sources.toml,
// materials.toml, fluids.toml, gases.toml, disciplines.toml, spreads.toml, evidence/*.toml and
// forks/*.toml. They are
// for people to read and to copy from; Reference does not need them.
func Files() fs.FS { return files }

// Reference is the reference dataset that comes with the package. It is compiled in, so
// that an import costs nothing and no file is parsed: the first call makes an index of
// the records, and a fork is made when it is first looked at.
func Reference() *Set {
	reference.once.Do(func() { reference.set = load() })
	return reference.set
}

// A sync.OnceValue would be made at import.
var reference struct {
	once sync.Once
	set  *Set
}

// load indexes the records that generate.go has written into reference_*_gen.go.
func load() *Set {
	return &Set{
		forks:       lazily(referenceForks),
		materials:   index(referenceMaterials, func(r *Material) string { return r.ID }),
		fluids:      index(referenceFluids, func(r *Fluid) string { return r.ID }),
		gases:       index(referenceGases, func(r *Gas) string { return r.ID }),
		disciplines: index(referenceDisciplines, func(r *Discipline) string { return r.ID }),
		sources:     index(referenceSources, func(r *Source) string { return r.ID }),
		specimens:   lazily(referenceSpecimens),
		classes:     lazily(referenceClasses),
		judgments:   index(referenceSpreads, func(r *Judgment) string { return r.ID }),
		meta:        referenceMeta[0],
	}
}

func lazily(records []generatedFork) map[string]func() *Fork {
	m := make(map[string]func() *Fork, len(records))
	for _, r := range records {
		m[r.id] = sync.OnceValue(func() *Fork { f := r.fork(); return &f })
	}
	return m
}

func index[R any](records []R, id func(*R) string) map[string]R {
	m := make(map[string]R, len(records))
	for i := range records {
		m[id(&records[i])] = records[i]
	}
	return m
}

// generatedFork is a fork as a function, which keeps it out of the memory that the
// garbage collector scans.
type generatedFork struct {
	id   string
	fork func() Fork
}
