package data

import "strconv"

// Schema is the version of the schema that this package reads up to and writes.
const Schema = 2

// Meta is what a file says of itself, in its table meta.
type Meta struct {
	Schema   int    `json:"schema"`   // version of the schema, 1 where a file does not say
	Version  string `json:"version"`  // of the data
	Date     string `json:"date"`     // of the version, as 2026-11-26
	License  string `json:"license"`  // of the dataset
	Citation string `json:"citation"` // as others are to cite the set
}

func (m *Meta) fields(w *walk) {
	switch {
	case w.schema != nil:
		w.schema.add("schema", map[string]any{"type": "integer", "minimum": 1, "maximum": Schema})
	case w.reading():
		m.Schema = whole(w.in, "schema")
		w.want(m.Schema <= Schema, "schema", "%d or less: the file was written for a newer version of the library", Schema)
	default:
		w.emit("schema", strconv.Itoa(m.Schema), "", "")
	}
	w.text("version", optional, &m.Version)
	w.text("date", optional, &m.Date)
	w.text("license", optional, &m.License)
	w.text("citation", optional, &m.Citation)
}
