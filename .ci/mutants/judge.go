package main

import (
	"context"
	"fmt"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
)

// quick tests are run together: starting the binary costs as much.
const quick = 60 * time.Millisecond

// suite is the tests of one package, compiled with all switches.
type suite struct {
	pkg, dir, binary, work string
	mutants                []mutant
	without                []string // tests that fail without a mutant: of allocations, as a rule

	tests    []test // the fastest first
	verdicts []verdict
}

type test struct {
	name    string
	took    time.Duration
	reaches map[int]bool
}

type verdict struct {
	mutant
	killed, reached bool
	harmless        string // why
}

// judge runs each test once to see what it reaches, and for each mutant those that do.
func (s *suite) judge(n int, only *regexp.Regexp, known harmless) *suite {
	s.look()
	var chosen []mutant
	for _, m := range s.mutants {
		if only.MatchString(m.String()) {
			chosen = append(chosen, m)
		}
	}
	if n > 0 && n < len(chosen) {
		all := chosen
		chosen = nil
		for i := range n {
			chosen = append(chosen, all[i*len(all)/n])
		}
	}
	s.verdicts = make([]verdict, len(chosen))
	s.each(len(chosen), func(i int) {
		v := verdict{mutant: chosen[i]}
		v.killed, v.reached = s.kill(v.id)
		v.harmless = known.reason(s.pkg, v.mutant)
		s.verdicts[i] = v
	})
	return s
}

// each spreads work over the processors.
func (s *suite) each(n int, do func(i int)) {
	next := make(chan int)
	var wg sync.WaitGroup
	for range runtime.NumCPU() {
		wg.Go(func() {
			for i := range next {
				do(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
}

func (s *suite) look() {
	list, err := exec.Command(s.binary, "-test.list", "^(Test|Example|Fuzz)").Output()
	if err != nil {
		log.Fatalf("%s: %v", s.pkg, err)
	}
	names := strings.Fields(string(list))
	found := make([]*test, len(names))
	s.each(len(names), func(i int) {
		began := time.Now()
		if s.run("", time.Hour, "", names[i]) != nil {
			return
		}
		t := &test{name: names[i], took: time.Since(began), reaches: map[int]bool{}}
		seen := filepath.Join(s.work, names[i]+".seen")
		if err := os.WriteFile(seen, nil, 0o644); err != nil {
			log.Fatal(err)
		}
		if s.run("-1", time.Hour, seen, names[i]) != nil {
			return // too slow with all switches watched
		}
		text, err := os.ReadFile(seen)
		if err != nil {
			log.Fatal(err)
		}
		for _, line := range strings.Fields(string(text)) {
			if id, err := strconv.Atoi(line); err == nil {
				t.reaches[id] = true
			}
		}
		found[i] = t
	})
	for i, t := range found {
		if t == nil {
			s.without = append(s.without, names[i])
		} else {
			s.tests = append(s.tests, *t)
		}
	}
	if len(s.tests) == 0 {
		log.Fatalf("%s: no test passes without a mutant", s.pkg)
	}
	slices.SortFunc(s.tests, func(a, b test) int { return int(a.took - b.took) })
}

// kill runs the tests that reach a mutant until one fails, the quick ones together.
func (s *suite) kill(id int) (killed, reached bool) {
	var names []string
	limit := 10 * time.Second
	for _, t := range s.tests {
		if t.took > quick && len(names) > 0 {
			if s.run(strconv.Itoa(id), limit, "", names...) != nil {
				return true, true
			}
			names, limit = nil, 10*time.Second
		}
		if t.reaches[id] {
			names, reached = append(names, t.name), true
			limit += 10 * t.took
		}
	}
	return len(names) > 0 && s.run(strconv.Itoa(id), limit, "", names...) != nil, reached
}

// run gives the failure of the named tests with one mutant switched on.
func (s *suite) run(id string, limit time.Duration, seen string, names ...string) error {
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	for i, name := range names {
		names[i] = regexp.QuoteMeta(name)
	}
	cmd := exec.CommandContext(ctx, s.binary, "-test.count=1", "-test.failfast",
		"-test.run", "^("+strings.Join(names, "|")+")$")
	cmd.Dir = s.dir
	cmd.Env = append(os.Environ(), "FORKCURVE_MUTANT="+id, "FORKCURVE_SEEN="+seen, "GOMAXPROCS=2", "GOMEMLIMIT=1GiB",
		"UPDATE_GOLDEN=")
	return cmd.Run()
}

func (s *suite) printSurvivors() {
	for _, v := range s.verdicts {
		switch {
		case v.killed:
		case v.harmless != "":
			fmt.Printf("  harmless %s: %s\n", v.mutant, v.harmless)
		case v.reached:
			fmt.Printf("  survived %s\n", v.mutant)
		default:
			fmt.Printf("  not run  %s\n", v.mutant)
		}
	}
}

func (m mutant) String() string {
	return fmt.Sprintf("%s:%d %s: %s %s", m.file, m.line, m.function, m.kind, m.was)
}

// count of a group: how many there are, and how many of them a test kills.
func (s *suite) count(kinds []string) (killed, harmless, all int) {
	for _, v := range s.verdicts {
		if slices.Contains(kinds, v.kind) {
			all++
			switch {
			case v.killed:
				killed++
			case v.harmless != "":
				harmless++
			}
		}
	}
	return killed, harmless, all
}

func (s *suite) line(t table) string {
	line := fmt.Sprintf(t.row, strings.TrimPrefix(s.pkg, "./"))
	for _, g := range groups {
		killed, harmless, all := s.count(g.kinds)
		cell := "-"
		if all > 0 {
			cell = fmt.Sprintf("%d+%d of %d, %.0f %%", killed, harmless, all, 100*float64(killed)/float64(all))
		}
		line += fmt.Sprintf(t.cell, cell)
	}
	if len(s.without) > 0 {
		line += "  without " + strings.Join(s.without, ", ")
	}
	return line
}

func (s *suite) below(floors [3]float64) bool {
	for i, g := range groups {
		if killed, _, all := s.count(g.kinds); float64(100*killed) < floors[i]*float64(all) {
			return true
		}
	}
	return false
}
