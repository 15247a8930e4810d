//go:build forkcurve_bootstrap

package data

import (
	"errors"
	"io/fs"
)

// With this tag the package has the files but nothing generated from them, so that
// generate.go runs whatever state the generated code is in.

var (
	referenceSources     []Source
	referenceMaterials   []Material
	referenceFluids      []Fluid
	referenceGases       []Gas
	referenceDisciplines []Discipline
	referenceForks       []generatedFork
	referenceSpreads     []Judgment
	referenceClasses     []generatedFork
	referenceSpecimens   []generatedFork
	referenceMeta        = []Meta{{}}
)

// ReadFiles decodes the files of the reference dataset.
func ReadFiles() (*Set, error) {
	names := []string{
		"meta.toml", "sources.toml", "spreads.toml", "materials.toml", "fluids.toml", "gases.toml", "disciplines.toml",
		"evidence/classes.toml", "evidence/specimens.toml",
	}
	forks, _ := fs.Glob(files, "forks/*.toml") // the pattern is well formed
	set := newSet()
	var faults []error
	for _, name := range append(names, forks...) {
		f, err := files.Open(name)
		if err != nil {
			return nil, err
		}
		s, err := decode(name, f, set)
		if err != nil {
			faults = append(faults, err)
			continue
		}
		set = Merge(set, s)
	}
	return set, errors.Join(faults...)
}
