//go:build ignore

// Command docs holds README.md and DEVELOPERS.md, and every other text, against the
// tree: links lead somewhere, named files and folders are there, the tables name the
// programs and packages that exist and no others, and a package imports only packages
// of lower floors.
package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

const module = "example.org/forkcurve"

var faults []string

func fault(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) }

func main() {
	log.SetFlags(0)
	texts := output("git", "ls-files", "-co", "--exclude-standard", "*.md")
	for _, name := range strings.Fields(texts) {
		links(name)
		paths(name)
	}
	all := packages()
	programs()
	packageTable(all)
	floors(all)
	for _, f := range faults {
		fmt.Println(f)
	}
	if len(faults) > 0 {
		os.Exit(1)
	}
	fmt.Println("links, paths, programs, packages and floors agree with the tree")
}

func output(command ...string) string {
	out, err := exec.Command(command[0], command[1:]...).Output()
	if err != nil {
		log.Fatal(strings.Join(command, " "), ": ", err)
	}
	return string(out)
}

func read(name string) string {
	text, err := os.ReadFile(name)
	if err != nil {
		log.Fatal(err)
	}
	return string(text)
}

var (
	link    = regexp.MustCompile(`\]\(([^)\s]+)\)`)
	heading = regexp.MustCompile(`(?m)^#+ +(.*)$`)
	quoted  = regexp.MustCompile("`([^`\n]+)`")
)

// links checks the targets within the tree; what is elsewhere is a matter of taste.
func links(name string) {
	for _, m := range link.FindAllStringSubmatch(read(name), -1) {
		target, anchor, _ := strings.Cut(m[1], "#")
		if strings.Contains(target, "://") {
			continue
		}
		file := name
		if target != "" {
			file = filepath.Join(filepath.Dir(name), target)
			if _, err := os.Stat(file); err != nil {
				fault("%s: the link to %s leads nowhere", name, m[1])
				continue
			}
		}
		if anchor != "" && !slices.Contains(anchors(read(file)), anchor) {
			fault("%s: no heading for %s", name, m[1])
		}
	}
}

func anchors(text string) []string {
	var all []string
	for _, m := range heading.FindAllStringSubmatch(text, -1) {
		all = append(all, strings.Join(strings.Fields(regexp.MustCompile(`[^\w\s-]`).ReplaceAllString(
			strings.ToLower(m[1]), "")), "-"))
	}
	return all
}

var pathLike = regexp.MustCompile(`^\.?[a-z][\w.-]*(/[\w.-]+)+/?$`)

// paths checks what stands in backquotes and begins like a folder of the tree.
func paths(name string) {
	for _, m := range quoted.FindAllStringSubmatch(read(name), -1) {
		first, _, _ := strings.Cut(m[1], "/")
		if !pathLike.MatchString(m[1]) {
			continue
		}
		if _, err := os.Stat(first); err != nil {
			continue // a module, a MIME type
		}
		if _, err := os.Stat(m[1]); err != nil {
			fault("%s: there is no %s", name, m[1])
		}
	}
}

type goPackage struct {
	ImportPath, Name string
	Imports          []string
}

func packages() map[string]goPackage {
	all := map[string]goPackage{}
	d := json.NewDecoder(strings.NewReader(output("go", "list", "-json=ImportPath,Name,Imports", "./...")))
	for {
		var p goPackage
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			log.Fatal(err)
		}
		all[strings.TrimPrefix(p.ImportPath, module+"/")] = p
	}
}

// rows are the first cells of the table under a heading row that begins so.
func rows(file, head string) [][]string {
	var all [][]string
	inside := false
	s := bufio.NewScanner(strings.NewReader(read(file)))
	for s.Scan() {
		line := s.Text()
		switch {
		case strings.HasPrefix(line, head):
			inside = true
		case inside && !strings.HasPrefix(line, "|"):
			return all
		case inside && !strings.HasPrefix(line, "|--"):
			all = append(all, strings.Split(strings.Trim(line, "| "), "|"))
		}
	}
	if !inside {
		fault("%s: no table %q", file, head)
	}
	return all
}

func names(cell string) []string {
	var all []string
	for _, m := range quoted.FindAllStringSubmatch(cell, -1) {
		all = append(all, m[1])
	}
	return all
}

// programs: the table names every program but the one whose command stands above.
func programs() {
	mains, err := filepath.Glob("examples/*/main.go")
	if err != nil {
		log.Fatal(err)
	}
	var want, got []string
	for _, m := range mains {
		if p := "./" + filepath.Base(filepath.Dir(m)); p != "./conversion" {
			want = append(want, p)
		}
	}
	for _, r := range rows("README.md", "| program |") {
		got = append(got, names(r[0])...)
	}
	compare("README.md: programs", want, got)
}

func compare(what string, want, got []string) {
	for _, w := range want {
		if n := len(slices.DeleteFunc(slices.Clone(got), func(g string) bool { return g != w })); n != 1 {
			fault("%s: %s stands there %d times", what, w, n)
		}
	}
	for _, g := range got {
		if !slices.Contains(want, g) {
			fault("%s: there is no %s", what, g)
		}
	}
}

// packageTable: every public package has a row, or is named in the row of its parent.
func packageTable(all map[string]goPackage) {
	var want, got []string
	for p, g := range all {
		if !strings.HasPrefix(p, "internal/") && g.Name != "main" {
			want = append(want, p)
		}
	}
	for _, r := range rows("README.md", "| package |") {
		first := names(r[0])
		if len(first) != 1 {
			fault("README.md: a row of packages begins with %q", r[0])
			continue
		}
		if first[0] == "examples" {
			continue
		}
		got = append(got, first[0])
		for _, n := range names(strings.Join(r[1:], "|")) {
			if child := path.Join(first[0], n); slices.Contains(want, child) {
				got = append(got, child)
			} else {
				fault("README.md: there is no package %s", child)
			}
		}
	}
	compare("README.md: packages", want, got)
}

// testing serves tests alone.
var testing = []string{"internal/curvetest", "internal/record", "internal/refusal", "internal/register",
	"internal/shared"}

// floors: the table of DEVELOPERS.md has every package once, and imports go down.
func floors(all map[string]goPackage) {
	floor := map[string]int{}
	var want, got []string
	for _, r := range rows("DEVELOPERS.md", "| floor |") {
		n, err := strconv.Atoi(strings.TrimSpace(r[0]))
		if err != nil {
			fault("DEVELOPERS.md: floor %q", r[0])
		}
		for _, p := range names(r[1]) {
			if p != "examples" {
				floor[p] = n
				got = append(got, p)
			}
		}
	}
	for p, g := range all {
		if slices.Contains(testing, p) || g.Name == "main" {
			continue
		}
		want = append(want, p)
		for _, i := range g.Imports {
			i, ours := strings.CutPrefix(i, module+"/")
			if ours && floor[i] >= floor[p] {
				fault("DEVELOPERS.md: %s on floor %d imports %s on floor %d", p, floor[p], i, floor[i])
			}
		}
	}
	compare("DEVELOPERS.md: floors", want, got)
}
