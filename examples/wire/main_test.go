package main

import (
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/internal/typeset"
)

func TestText(t *testing.T) {
	golden.Check(t, "default.golden", golden.Text(t, command))
	golden.Check(t, "bicycle.golden", golden.Text(t, command, "-fork", "B04, b06"))
	golden.Check(t, "nofit.golden", golden.Text(t, command, "-fork", "M06", "-material", "a227"))
}

// TestEveryFork: an answer or a reason, 80 columns, and cutting a spring is spoken of
// only to forbid it.
func TestEveryFork(t *testing.T) {
	for fork := range data.Reference().Forks() {
		for _, args := range [][]string{{}, {"-material", "a227"}, {"-rate", "100 N/mm"}} {
			out := golden.Text(t, command, append(args, "-fork", fork.ID)...)
			none := strings.Contains(out, "no spring of this wire fits")
			if !strings.Contains(out, "Answer: ") || none && !strings.Contains(out, " does not fit") {
				t.Errorf("%s, %v: neither an answer nor a reason", fork.ID, args)
			}
			checkText(t, out)
		}
	}
}

func checkText(t *testing.T, out string) {
	t.Helper()
	for line := range strings.Lines(out) {
		if typeset.Count(strings.TrimSuffix(line, "\n")) > typeset.Width {
			t.Errorf("too wide: %s", line)
		}
	}
	for _, bad := range []string{"NaN", "Inf", "%!", "\t"} {
		if strings.Contains(out, bad) {
			t.Errorf("the text says %q", bad)
		}
	}
	words := strings.Join(strings.Fields(out), " ")
	for _, forbids := range []string{"A spring is never cut, ground or pressed", "Never cut, grind,"} {
		words = strings.ReplaceAll(words, forbids, "")
	}
	for word := range strings.FieldsSeq(words) {
		switch strings.ToLower(strings.Trim(word, ".,;:()")) {
		case "cut", "cutting", "grind", "grinding", "saw", "shorten":
			t.Errorf("the text says %q", word)
		}
	}
}

func TestBadInput(t *testing.T) {
	golden.Refuses(t, command,
		golden.Bad{Name: "no such fork", Args: []string{"-fork", "none"}, Want: []string{`no fork "none"`}},
		golden.Bad{Name: "one of two forks", Args: []string{"-fork", "M07,none"}, Want: []string{`no fork "none"`}},
		golden.Bad{Name: "empty fork", Args: []string{"-fork", "M07,"}, Want: []string{`no fork ""`}},
		golden.Bad{Name: "bare rate", Args: []string{"-rate", "9.8"}, Want: []string{"-rate", "N/mm"}},
		golden.Bad{Name: "rate in a unit of force", Args: []string{"-rate", "9.8 kgf"}, Want: []string{"N/mm"}},
		golden.Bad{Name: "rate too high", Args: []string{"-rate", "200 N/mm"}, Want: []string{"100 N/mm"}},
		golden.Bad{Name: "no rate", Args: []string{"-rate", "0 N/mm"}, Want: []string{"2 N/mm"}},
		golden.Bad{Name: "no such wire", Args: []string{"-material", "sicr-v"}, Want: []string{"sicrv"}},
		golden.Bad{Name: "all at once", Args: []string{"-fork", "none", "-rate", "9", "-material", "x"},
			Want: []string{"-fork", "-rate", "-material"}},
	)
}

func TestRateInOtherUnits(t *testing.T) {
	metric := golden.Text(t, command, "-fork", "M06", "-rate", "9.80665 N/mm")
	old := golden.Text(t, command, "-fork", "M06", "-rate", "1 kgf/mm")
	if metric != old || !strings.Contains(old, "9.81 N/mm: as asked for") {
		t.Errorf("in kgf/mm\n%s", old)
	}
}

func TestPlots(t *testing.T) {
	golden.Pictures(t, command, 12, "-fork", "M07,M06,B04")
	status, _, problems := golden.Run(t, command, "-fork", "M06", "-rate", "100 N/mm", "-out", t.TempDir())
	if status != program.Done || !strings.Contains(problems, "nothing to draw") {
		t.Errorf("without a spring: status %d, %s", status, problems)
	}
}
