package data

import (
	"embed"
	"fmt"
	"io/fs"
	"iter"
	"strings"
	"sync"
)

//go:embed *.toml forks/*.toml
var files embed.FS

// Reference is the reference dataset that comes with the package. Nothing is read
// before it is asked for: sources, materials, fluids, gases and disciplines by the
// first call, and each file of forks when a fork in it is first looked at.
func Reference() *Set { return reference() }

var reference = sync.OnceValue(load)

func load() *Set {
	set := newSet()
	for _, name := range []string{"sources.toml", "materials.toml", "fluids.toml", "gases.toml", "disciplines.toml"} {
		set = Merge(set, mustRead(name, text(name), set))
	}
	names, _ := fs.Glob(files, "forks/*.toml") // the pattern is well formed
	for _, name := range names {
		text := text(name)
		shelf := sync.OnceValue(func() *Set { return mustRead(name, text, set) })
		for id := range forkIDs(text) {
			set.forks[id] = func() Fork { return shelf().forks[id]() }
		}
	}
	return set
}

// forkIDs finds the ids of the forks in an embedded file by its headers, [fork.M07],
// without reading the rest.
func forkIDs(text string) iter.Seq[string] {
	return func(yield func(string) bool) {
		for line := range strings.Lines(text) {
			id, ok := strings.CutPrefix(strings.TrimSuffix(strings.TrimSpace(line), "]"), "[fork.")
			if ok && validID(id) && !yield(id) {
				return
			}
		}
	}
}

func text(name string) string {
	b, err := files.ReadFile(name)
	if err != nil {
		panic(fmt.Sprintf("data: %v", err)) // it is embedded
	}
	return string(b)
}

// mustRead reads an embedded file. The tests read them all.
func mustRead(name, text string, known *Set) *Set {
	s, err := decode(name, strings.NewReader(text), known)
	if err != nil {
		panic(fmt.Sprintf("data: the embedded dataset: %v", err))
	}
	return s
}
