//go:build ignore

// Command benchmarks runs every benchmark of the library a few times and holds those
// of .ci/allocations.txt to their number of allocations per operation. How long they
// take is not judged. A listed benchmark that is not there is a fault as well.
package main

import (
	"bufio"
	"fmt"
	"log"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
)

func main() {
	log.SetFlags(0)
	limits := map[string]int{}
	text, err := os.ReadFile(".ci/allocations.txt")
	if err != nil {
		log.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		f := strings.Fields(line)
		if len(f) == 0 || f[0] == "#" {
			continue
		}
		if len(f) != 3 {
			log.Fatalf("allocations.txt: %q: want a package, a benchmark and a number", line)
		}
		if limits[f[0]+" "+f[1]], err = strconv.Atoi(f[2]); err != nil {
			log.Fatal("allocations.txt: ", err)
		}
	}
	// Several turns: the first may fill a table that stays.
	out, err := exec.Command("go", "test", "-run", "^$", "-bench", ".", "-benchtime", "20x", "-benchmem",
		"./...").CombinedOutput()
	if err != nil {
		log.Fatalf("%v\n%s", err, out)
	}
	row := regexp.MustCompile(`^(Benchmark\S+?)(?:-\d+)?\s.*?(\d+) allocs/op`)
	pkg, count, broken := "", 0, false
	for s := bufio.NewScanner(strings.NewReader(string(out))); s.Scan(); {
		if p, ok := strings.CutPrefix(s.Text(), "pkg: example.org/forkcurve/"); ok {
			pkg = p
		}
		m := row.FindStringSubmatch(s.Text())
		if m == nil {
			continue
		}
		count++
		name := pkg + " " + m[1]
		most, held := limits[name]
		if n, err := strconv.Atoi(m[2]); err != nil || held && n > most {
			fmt.Printf("%s: %s allocations per operation, at most %d are allowed\n", name, m[2], most)
			broken = true
		}
		delete(limits, name)
	}
	for name := range limits {
		fmt.Printf("%s is in allocations.txt and did not run\n", name)
		broken = true
	}
	if broken {
		os.Exit(1)
	}
	fmt.Printf("%d benchmarks ran\n", count)
}
