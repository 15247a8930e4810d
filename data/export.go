package data

import (
	"encoding/csv"
	"encoding/json"
	"io"
	"iter"
	"reflect"
	"strconv"
	"strings"
)

// Row is one value of a set in a flat table, for people without Go. Numbers are texts, as
// the file has them, in the unit beside them.
type Row struct {
	Kind   string `json:"kind" doc:"of the record: fork, specimen, class, material, fluid, gas or discipline"`
	ID     string `json:"id" doc:"of the record"`
	Field  string `json:"field" doc:"key of the value, dotted, as chassis.rake; of a list with its index"`
	Value  string `json:"value" doc:"a number, or a word; empty for a range"`
	Unit   string `json:"unit,omitempty" doc:"of value, low, high and sd; empty for a plain number or a word"`
	Low    string `json:"low,omitempty" doc:"lower end of the range"`
	High   string `json:"high,omitempty" doc:"upper end of the range"`
	N      string `json:"n,omitempty" doc:"of how many the range is"`
	Means  string `json:"means,omitempty" doc:"between-forks (5th to 95th percentile), tolerance, adjuster, shelf, window"`
	SD     string `json:"sd,omitempty" doc:"standard uncertainty"`
	Judged string `json:"sd_source,omitempty" doc:"source of sd where it is the judgment for the field"`
	Source string `json:"source,omitempty" doc:"id of the source; empty for a word, which needs none"`
	Grade  string `json:"grade,omitempty" doc:"kind of the source, of a derived value that of its worst input"`
	Note   string `json:"note,omitempty" doc:"what else there is to know"`
}

// Rows iterates over every value of the set, by kind, id and the order of the schema.
func (s *Set) Rows() iter.Seq[Row] {
	return func(yield func(Row) bool) {
		for r := range s.records() {
			if r.kind == sources || r.kind == judgments {
				continue // they say what values are worth and are none
			}
			for _, e := range s.Graded(r.values) {
				if !e.rows(Row{Kind: string(r.kind), ID: r.id, Field: e.Key}, yield) {
					return
				}
			}
		}
	}
}

// rows are the rows of one entry: one, or one for each value of a longer list.
func (e Entry) rows(r Row, yield func(Row) bool) bool {
	r.Means, r.Judged, r.Source, r.Grade, r.Note = string(e.Means), e.Judged, e.Source, string(e.Grade), e.Note
	if e.N > 0 {
		r.N = strconv.Itoa(e.N)
	}
	number := func(text string) string {
		value, unit := plain(text, e.Source != "")
		if unit != "" {
			r.Unit = unit
		}
		return value
	}
	r.SD, r.Low, r.High = number(e.SD), number(e.Low), number(e.High)
	inner, isList := strings.CutPrefix(e.Text, "[")
	parts := strings.Split(strings.TrimSuffix(inner, "]"), ", ")
	switch {
	case !isList:
		r.Value = number(e.Text)
	case len(parts) == 2 && e.Source != "":
		r.Low, r.High = number(parts[0]), number(parts[1])
	default:
		field := r.Field
		for i, part := range parts {
			r.Field, r.Value = field+"["+strconv.Itoa(i)+"]", number(part)
			if !yield(r) {
				return false
			}
		}
		return true
	}
	return yield(r)
}

// plain is the number and the unit of a TOML text, or a word.
func plain(text string, quantity bool) (value, unit string) {
	var s string
	if json.Unmarshal([]byte(text), &s) != nil {
		return text, "" // a plain number or a truth
	}
	value, unit, _ = strings.Cut(s, " ")
	if _, err := strconv.ParseFloat(value, 64); err != nil || !quantity {
		return s, ""
	}
	return value, unit
}

// columns are the names of the columns of a row, and what they mean.
func columns() (names, docs []string) {
	for field := range reflect.TypeFor[Row]().Fields() {
		name, _, _ := strings.Cut(field.Tag.Get("json"), ",")
		names, docs = append(names, name), append(docs, field.Tag.Get("doc"))
	}
	return names, docs
}

// EncodeCSV writes Rows as comma-separated values (RFC 4180) under a line of names.
func EncodeCSV(w io.Writer, s *Set) error {
	out := csv.NewWriter(w)
	names, _ := columns()
	out.Write(names)
	for r := range s.Rows() {
		v, record := reflect.ValueOf(r), make([]string, len(names))
		for i := range record {
			record[i] = v.Field(i).String()
		}
		out.Write(record)
	}
	out.Flush()
	return out.Error()
}

// EncodeJSON writes the set as one object: what it says of itself, its sources by id, and
// its Rows.
func EncodeJSON(w io.Writer, s *Set) error {
	bySource := make(map[string]map[string]string)
	for r := range s.Sources() {
		bySource[r.ID] = make(map[string]string)
		for _, e := range list(r.fields) {
			bySource[r.ID][e.Key], _ = plain(e.Text, false)
		}
	}
	rows := []Row{}
	for r := range s.Rows() {
		rows = append(rows, r)
	}
	return encodeJSON(w, struct {
		Meta    Meta                         `json:"meta"`
		Sources map[string]map[string]string `json:"sources"`
		Values  []Row                        `json:"values"`
	}{s.meta, bySource, rows})
}

// EncodePackage writes a descriptor of the table of EncodeCSV, which it calls values.csv,
// as a Frictionless data package (version 1).
func EncodePackage(w io.Writer, s *Set) error {
	type text = map[string]any
	names, docs := columns()
	var fields, from []text
	for i, name := range names {
		fields = append(fields, text{"name": name, "type": "string", "description": docs[i]})
	}
	for r := range s.Sources() {
		from = append(from, text{"title": r.Document, "name": r.ID, "license": r.License, "kind": r.Kind})
	}
	return encodeJSON(w, text{
		"profile": "tabular-data-package", "name": "telescopic-forks", "title": "telescopic forks and what goes into them",
		"version": s.meta.Version, "created": s.meta.Date, "licenses": []text{{"name": s.meta.License}},
		"citation": s.meta.Citation, "sources": from,
		"resources": []text{{
			"profile": "tabular-data-resource", "name": "values", "path": "values.csv", "format": "csv", "encoding": "utf-8",
			"schema": text{"fields": fields, "missingValues": []string{""}, "primaryKey": []string{"kind", "id", "field"}},
		}},
	})
}

func encodeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(v)
}
