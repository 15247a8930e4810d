package data

import (
	"slices"
	"strings"
)

// SourceKind says how far a source can be trusted.
type SourceKind string

// The kinds of source, from the one that is worth most to the one that is worth least;
// Derived is worth what the least of its inputs is.
const (
	Measured       SourceKind = "measured"        // on the fork itself, with an instrument
	Standard       SourceKind = "standard"        // read in the text of a standard
	OpenData       SourceKind = "open-data"       // published data under an open license, read there
	Paper          SourceKind = "paper"           // read in a paper
	Textbook       SourceKind = "textbook"        // read in a textbook
	Handbook       SourceKind = "handbook"        // tables of handbooks and suppliers
	CommonPractice SourceKind = "common-practice" // several of the trade agree; no document
	Tuned          SourceKind = "tuned"           // chosen so that another value comes out as it should
	Memory         SourceKind = "memory"          // from memory, not checked against a document
	Demo           SourceKind = "demo"            // made up to show something
	Derived        SourceKind = "derived"         // calculated from other values of the record
)

var kinds = []SourceKind{
	Measured, Standard, OpenData, Paper, Textbook, Handbook, CommonPractice, Tuned, Memory, Demo, Derived,
}

// Source is where values come from.
type Source struct {
	ID       string     // short, as values name it
	Kind     SourceKind // of evidence
	Document string     // title, or what the value is if there is no document
	Edition  string     // year, or place in a series
	Table    string     // table, figure, equation or clause
	License  string     // of open data
	Formula  string     // of a derived value
	From     string     // of a derived value: the keys it is calculated from, with commas, in its table or the record
}

func (s *Source) fields(w *walk) {
	word(w, "kind", &s.Kind, kinds...)
	w.text("document", required, &s.Document)
	w.text("edition", optional, &s.Edition)
	w.text("table", optional, &s.Table)
	license, formula := optional, optional
	if w.reading() {
		license, formula = need(s.Kind == OpenData), need(s.Kind == Derived)
	}
	w.text("license", license, &s.License)
	w.text("formula", formula, &s.Formula)
	w.text("from", optional, &s.From)
}

// Graded is the list with the grade of each value: the kind of its source, and of a
// derived value that of the least of the inputs which its source names and the list has.
func (s *Set) Graded(list []Entry) []Entry {
	list = slices.Clone(list)
	byKey := make(map[string]string, len(list))
	for _, e := range list {
		byKey[e.Key] = e.Source
	}
	for i, e := range list {
		list[i].Grade = s.grade(byKey, e.Key, e.Source, len(list))
	}
	return list
}

// grade is that of the value of a key. Derivations go no deeper than there are values.
func (s *Set) grade(sourceOf map[string]string, key, id string, deepest int) SourceKind {
	source, err := s.Source(id)
	if err != nil {
		return ""
	}
	if source.Kind != Derived {
		return source.Kind
	}
	worst := Derived // of nothing that is in the list
	for from := range strings.SplitSeq(source.From, ",") {
		from = strings.TrimSpace(from)
		beside := key[:strings.LastIndexByte(key, '.')+1] + from
		if _, ok := sourceOf[beside]; ok {
			from = beside
		}
		input, ok := sourceOf[from]
		if !ok || input == "" || from == key || deepest == 0 {
			continue
		}
		kind := s.grade(sourceOf, from, input, deepest-1)
		if worst == Derived || slices.Index(kinds, kind) > slices.Index(kinds, worst) && kind != Derived {
			worst = kind
		}
	}
	return worst
}
