//go:build ignore

// Command register prints what is checked against the world: how many checks of which kind of
// evidence each package has, and what is known and not used.
//
//	go run .ci/register.go                  the counts
//	go run .ci/register.go -full            every check with its source, tolerance and test
//	go run .ci/register.go -passed FILE     fail on a check that no passed test wrote to FILE
package main

import (
	"flag"
	"fmt"
	"log"
	"maps"
	"os"
	"slices"
	"strings"

	"example.org/forkcurve/internal/register"
)

func main() {
	log.SetFlags(0)
	full := flag.Bool("full", false, "print every check")
	passed := flag.String("passed", "", "the file that "+register.Log+" named in a run of all tests")
	flag.Parse()
	checks, err := register.Checks()
	if err != nil {
		log.Fatal(err)
	}
	cited, err := register.Cited(".")
	if err != nil {
		log.Fatal(err)
	}
	at := map[string][]register.Citation{}
	for _, c := range cited {
		at[c.ID] = append(at[c.ID], c)
	}
	switch {
	case *passed != "":
		compare(checks, *passed)
	case *full:
		list(checks, at)
	default:
		count(checks, at)
	}
}

// count prints checks by package and kind; one that two packages have counts in both, and once
// below.
func count(checks []register.Check, at map[string][]register.Citation) {
	kinds := register.Kinds
	rows := map[string][]int{}
	total := make([]int, len(kinds))
	unused := 0
	for _, c := range checks {
		if c.Unused != "" {
			unused++
			continue
		}
		k := slices.Index(kinds, c.Evidence)
		total[k]++
		var packages []string
		for _, a := range at[c.ID] {
			packages = append(packages, a.Package)
		}
		slices.Sort(packages)
		for _, p := range slices.Compact(packages) {
			if rows[p] == nil {
				rows[p] = make([]int, len(kinds))
			}
			rows[p][k]++
		}
	}
	line := func(name string, n []int) {
		fmt.Printf("%-24s", name)
		for _, n := range n {
			if n == 0 {
				fmt.Printf("%10s", "-")
			} else {
				fmt.Printf("%10d", n)
			}
		}
		fmt.Println()
	}
	fmt.Printf("%-24s", "")
	for _, k := range kinds {
		fmt.Printf("%10s", k)
	}
	fmt.Println()
	for _, p := range slices.Sorted(maps.Keys(rows)) {
		line(p, rows[p])
	}
	line("checks", total)
	fmt.Printf("known and not used, each with its reason: %d\n", unused)
}

func list(checks []register.Check, at map[string][]register.Citation) {
	for _, c := range checks {
		fmt.Printf("%s  %s\n      %s\n", c.ID, c.Source, c.Place)
		if c.Unused != "" {
			fmt.Printf("      not used: %s\n", c.Unused)
			continue
		}
		tolerance := c.Tolerance
		if c.Reason != "" {
			tolerance += ": " + c.Reason
		}
		fmt.Printf("      %s; %s\n", c.Evidence, tolerance)
		var tests []string
		for _, a := range at[c.ID] {
			tests = append(tests, fmt.Sprintf("%s %s", a.Package, a.Test))
		}
		fmt.Printf("      %s\n", strings.Join(slices.Compact(tests), ", "))
	}
}

func compare(checks []register.Check, name string) {
	file, err := os.ReadFile(name)
	if err != nil {
		log.Fatal(err)
	}
	seen := map[string]bool{}
	for _, id := range strings.Fields(string(file)) {
		seen[id] = true
	}
	n := 0
	for _, c := range checks {
		if c.Unused != "" {
			continue
		}
		n++
		if !seen[c.ID] {
			log.Printf("%s: no test that cites it ran and passed", c.ID)
			defer os.Exit(1)
		}
	}
	fmt.Printf("%d checks cited by tests that passed\n", n)
}
