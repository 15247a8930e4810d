package data

import (
	"bytes"
	"embed"
	"fmt"
	"io/fs"
	"regexp"
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
		for _, m := range forkHeader.FindAllSubmatch(text, -1) {
			id := string(m[1])
			set.forks[id] = func() Fork { return shelf().forks[id]() }
		}
	}
	return set
}

var forkHeader = regexp.MustCompile(`(?m)^\[fork\.([A-Za-z0-9-]+)\]$`)

func text(name string) []byte {
	b, err := files.ReadFile(name)
	if err != nil {
		panic(fmt.Sprintf("data: %v", err)) // it is embedded
	}
	return b
}

// mustRead reads an embedded file. The tests read them all.
func mustRead(name string, text []byte, known *Set) *Set {
	s, err := decode(name, bytes.NewReader(text), known)
	if err != nil {
		panic(fmt.Sprintf("data: the embedded dataset: %v", err))
	}
	return s
}
