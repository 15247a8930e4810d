package main

import (
	"log"
	"os"
	"regexp"
	"strings"
)

// harmless says why mutants that survive change nothing anybody could see: patterns of a package
// and what -v prints of a mutant, without its line, which moves.
type harmless []struct {
	pattern *regexp.Regexp
	why     string
}

// readHarmless reads lines of "pattern -- reason".
func readHarmless(name string) harmless {
	text, err := os.ReadFile(name)
	if err != nil {
		log.Fatal(err)
	}
	var known harmless
	for i, line := range strings.Split(string(text), "\n") {
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		pattern, why, ok := strings.Cut(line, " -- ")
		if !ok || why == "" {
			log.Fatalf("%s:%d: no reason", name, i+1)
		}
		p, err := regexp.Compile("^(" + pattern + ")")
		if err != nil {
			log.Fatalf("%s:%d: %v", name, i+1, err)
		}
		known = append(known, struct {
			pattern *regexp.Regexp
			why     string
		}{p, why})
	}
	return known
}

func (h harmless) reason(pkg string, m mutant) string {
	of := strings.TrimPrefix(pkg, "./") + " " + m.function + ": " + m.kind + " " + m.was
	for _, k := range h {
		if k.pattern.MatchString(of) {
			return k.why
		}
	}
	return ""
}
