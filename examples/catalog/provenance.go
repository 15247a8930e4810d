package main

import (
	"strings"

	"example.org/forkcurve/data"
)

// grade is how far values can be trusted, as the tables count them.
type grade int

const (
	document grade = iota
	practice
	tuned
	memory
	derived
	demo
	grades
)

// legend has a grade's letter and what it means.
var legend = [grades]struct{ letter, name, means string }{
	document: {"D", "document", "measured, or read in open data, a standard, handbook, textbook or paper"},
	practice: {"P", "practice", "common practice: several of the trade agree, no document"},
	memory:   {"M", "memory", "typical, from memory; nobody held it against a document"},
	tuned:    {"T", "tuned", "chosen so that another value comes out right; the agreement is by construction"},
	derived:  {"C", "calculated", "calculated from what is no value of the record"},
	demo:     {"X", "example", "made up to show something"},
}

func gradeOf(kind data.SourceKind) grade {
	switch kind {
	case data.CommonPractice:
		return practice
	case data.Tuned:
		return tuned
	case data.Memory:
		return memory
	case data.Derived:
		return derived
	case data.Demo:
		return demo
	}
	return document
}

// counts are values by grade.
type counts [grades]int

// count grades the values of a record, a derived one by the worst of its inputs. Words have
// no source and do not count.
func (c *catalog) count(values []data.Entry) counts {
	var n counts
	for _, v := range c.Graded(values) {
		if v.Grade != "" {
			n[gradeOf(v.Grade)]++
		}
	}
	return n
}

func (n counts) total() int {
	t := 0
	for _, k := range n {
		t += k
	}
	return t
}

// percent is the share of a grade.
func (n counts) percent(g grade) float64 { return 100 * float64(n[g]) / float64(max(1, n.total())) }

// letters are those of the grades there are.
func (n counts) letters() string {
	var b strings.Builder
	for g, k := range n {
		if k > 0 {
			b.WriteString(legend[g].letter)
		}
	}
	return b.String()
}
