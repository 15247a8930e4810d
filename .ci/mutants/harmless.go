package main

import (
	"log"
	"os"
	"strings"
)

// harmless holds why a mutant that survives changes nothing anybody could see, by
// package, file, function and change; lines would move.
type harmless map[string]string

// readHarmless reads lines of "package file function: kind change -- reason".
func readHarmless(name string) harmless {
	text, err := os.ReadFile(name)
	if err != nil {
		log.Fatal(err)
	}
	known := harmless{}
	for i, line := range strings.Split(string(text), "\n") {
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		what, why, ok := strings.Cut(line, " -- ")
		if !ok || why == "" {
			log.Fatalf("%s:%d: no reason", name, i+1)
		}
		known[what] = why
	}
	return known
}

func (h harmless) reason(pkg string, m mutant) string {
	return h[strings.TrimPrefix(pkg, "./")+" "+m.file+" "+m.function+": "+m.kind+" "+m.was]
}
