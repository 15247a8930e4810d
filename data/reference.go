package data

import (
	"embed"
	"errors"
	"io/fs"
	"sync"

	"example.org/forkcurve/internal/strict"
)

//go:embed *.toml forks/*.toml
var files embed.FS

// Reference is the reference dataset that comes with the package. It is read when
// first asked for, in a few milliseconds.
func Reference() *Set { return reference() }

var reference = sync.OnceValue(func() *Set {
	s, err := load(files)
	if err != nil {
		panic("data: the embedded dataset: " + err.Error()) // the tests load it
	}
	return s
})

// load reads the general files of a dataset, then its forks, which refer to them.
func load(files fs.FS) (*Set, error) {
	forks, err := fs.Glob(files, "forks/*.toml")
	if err != nil {
		return nil, err
	}
	names := append([]string{"sources.toml", "materials.toml", "fluids.toml", "gases.toml", "disciplines.toml"}, forks...)

	// Parsing takes most of the time, and the texts do not depend on each other.
	docs := make([]*strict.Doc, len(names))
	errs := make([]error, len(names))
	var wait sync.WaitGroup
	for i, name := range names {
		wait.Go(func() { docs[i], errs[i] = open(files, name) })
	}
	wait.Wait()

	set := newSet()
	for i, doc := range docs {
		if errs[i] == nil {
			errs[i] = read(doc, set, newSet())
		}
	}
	return set, errors.Join(errs...)
}

func open(files fs.FS, name string) (*strict.Doc, error) {
	f, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return strict.Parse(name, f)
}
