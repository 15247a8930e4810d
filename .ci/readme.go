//go:build ignore

// Command readme runs what a README shows. In a console block every line that
// starts with "$ " is run in the folder of the README; the lines below must be
// its output, a line "…" standing for any number of lines. Commands that stand alone,
// indented, are run as well. What begins with "go mod" or is "go run ." is run in a
// folder beside one named as the checkout, where a block of Go code becomes main.go.
package main

import (
	"bytes"
	"errors"
	"fmt"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

func main() {
	log.SetFlags(0)
	name := os.Args[1]
	text, err := os.ReadFile(name)
	if err != nil {
		log.Fatal(err)
	}
	root, err := filepath.Abs(filepath.Dir(name))
	if err != nil {
		log.Fatal(err)
	}
	folder, err := os.MkdirTemp("", "readme")
	if err != nil {
		log.Fatal(err)
	}
	defer os.RemoveAll(folder)
	scratch := filepath.Join(folder, "workshop")
	if err := errors.Join(os.Mkdir(scratch, 0o755), os.Symlink(root, filepath.Join(folder, "forkcurve"))); err != nil {
		log.Fatal(err)
	}
	commands := 0
	for _, b := range blocks(string(text)) {
		switch b.language {
		case "go":
			if err := os.WriteFile(filepath.Join(scratch, "main.go"), []byte(b.text), 0o644); err != nil {
				log.Fatal(err)
			}
		case "console":
			for _, c := range b.commands() {
				folder := root
				if strings.HasPrefix(c.line, "go mod ") || c.line == "go run ." {
					folder = scratch
				}
				if err := c.run(folder); err != nil {
					log.Fatalf("$ %s\n%v", c.line, err)
				}
				fmt.Println("ok $", c.line)
				commands++
			}
		}
	}
	if commands == 0 {
		log.Fatal("no commands in ", name)
	}
}

type block struct{ language, text string }

// blocks are fenced, or indented commands, as "console" without what they print.
func blocks(text string) []block {
	var all []block
	fenced := false
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		switch language, fence := strings.CutPrefix(line, "```"); {
		case fence && !fenced:
			all = append(all, block{language: language})
			fenced = true
		case fence:
			fenced = false
		case fenced:
			all[len(all)-1].text += line + "\n"
		default:
			if rest, ok := strings.CutPrefix(line, "    "); ok {
				all = append(all, block{"console", "$ " + rest + "\n"})
			}
		}
	}
	if fenced {
		log.Fatal("a block does not end")
	}
	return all
}

type command struct {
	line string
	want []string // of the output, nil: anything
}

func (b block) commands() []command {
	var all []command
	for line := range strings.Lines(b.text) {
		line = strings.TrimSuffix(line, "\n")
		if rest, ok := strings.CutPrefix(line, "$ "); ok {
			all = append(all, command{line: rest})
		} else if len(all) > 0 {
			c := &all[len(all)-1]
			c.want = append(c.want, line)
		}
	}
	return all
}

func (c command) run(folder string) error {
	cmd := exec.Command("bash", "-c", c.line)
	cmd.Dir = folder
	var out, problems bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &problems
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("%w\n%s%s", err, out.String(), problems.String())
	}
	got := strings.Split(strings.TrimRight(out.String(), "\n"), "\n")
	if c.want != nil && !match(c.want, got) {
		return fmt.Errorf("printed\n%s\nthe README shows\n%s", strings.Join(got, "\n"), strings.Join(c.want, "\n"))
	}
	return nil
}

// match compares lines; "…" in want stands for any lines.
func match(want, got []string) bool {
	if len(want) == 0 {
		return len(got) == 0
	}
	if want[0] == "…" {
		for i := 0; i <= len(got); i++ {
			if match(want[1:], got[i:]) {
				return true
			}
		}
		return false
	}
	return len(got) > 0 && want[0] == got[0] && match(want[1:], got[1:])
}
