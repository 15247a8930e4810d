package data

// SourceKind says how far a source can be trusted.
type SourceKind string

// The kinds of source.
const (
	Standard       SourceKind = "standard"        // read in the text of a standard
	Handbook       SourceKind = "handbook"        // tables of handbooks and suppliers
	Textbook       SourceKind = "textbook"        // read in a textbook
	Paper          SourceKind = "paper"           // read in a paper
	CommonPractice SourceKind = "common-practice" // several of the trade agree; no document
	Memory         SourceKind = "memory"          // from memory, not checked against a document
	Derived        SourceKind = "derived"         // calculated from other values of the record
	Demo           SourceKind = "demo"            // made up to show something
)

// Source is where values come from.
type Source struct {
	ID       string
	Kind     SourceKind
	Document string // title, or what the value is if there is no document
	Edition  string
	Table    string // table, figure, equation or clause
	Formula  string // of a derived value
}

func (s *Source) fields(w *walk) {
	word(w, "kind", &s.Kind, Standard, Handbook, Textbook, Paper, CommonPractice, Memory, Derived, Demo)
	w.text("document", required, &s.Document)
	w.text("edition", optional, &s.Edition)
	w.text("table", optional, &s.Table)
	formula := optional
	if s.Kind == Derived {
		formula = required
	}
	w.text("formula", formula, &s.Formula)
}
