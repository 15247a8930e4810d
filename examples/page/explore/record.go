package explore

import (
	"fmt"
	"strings"

	"example.org/forkcurve/data"
)

// Recorded is what the dataset says of every fork, value by value, and where from. It is the same in every state, so
// that the page has it as a file that is written where the page is built, not in the wasm.
type Recorded struct {
	Forks   map[string][]RecordedValue
	Sources map[string]string
}

// RecordedValue is one value of a record: its key, what it is, how far it may be off, and the source's id.
type RecordedValue struct{ Key, Text, Known, Source, Note string }

// Records is what the reference dataset says.
func Records() Recorded {
	set := data.Reference()
	out := Recorded{map[string][]RecordedValue{}, map[string]string{}}
	for f := range set.Forks() {
		for _, e := range f.Values() {
			if e.Source == "" {
				continue
			}
			v := RecordedValue{Key: e.Key, Text: unquoted(e.Text), Source: e.Source, Note: e.Note}
			if e.SD != "" {
				v.Known = "± " + unquoted(e.SD)
			}
			if e.Low != "" {
				v.Known = strings.TrimSpace(fmt.Sprintf("%s; %s to %s, %s", v.Known, unquoted(e.Low), unquoted(e.High),
					strings.ReplaceAll(string(e.Means), "-", " ")))
				v.Known = strings.TrimPrefix(v.Known, "; ")
			}
			if e.Judged != "" {
				v.Known += " (" + e.Judged + ")"
			}
			out.Forks[f.ID] = append(out.Forks[f.ID], v)
		}
	}
	for s := range set.Sources() {
		out.Sources[s.ID] = fmt.Sprintf("%s (%s)", s.Document, strings.ReplaceAll(string(s.Kind), "-", " "))
	}
	return out
}

// unquoted is a text of a file without its quotes.
func unquoted(text string) string {
	return strings.NewReplacer(`"`, "", "[", "", "]", "", ", ", " to ").Replace(text)
}
