package data

import (
	"fmt"
	"io"

	"example.org/forkcurve/units"
)

// EncodeSchema writes the schema of a dataset file as JSON Schema (draft 2020-12), for
// editors and for checks in other languages: every key with its type, its words and, in
// the description, its range. What relates values to each other only [Decode] checks.
func EncodeSchema(w io.Writer) error {
	root := newObject()
	root.table("meta").describe((&Meta{}).fields)
	for _, r := range []struct {
		kind   kind
		fields func(*walk)
	}{
		{sources, (&Source{}).fields}, {judgments, (&Judgment{}).fields}, {materials, (&Material{}).fields},
		{fluids, (&Fluid{}).fields}, {gases, (&Gas{}).fields}, {disciplines, (&Discipline{}).fields},
		{classes, (&Fork{}).evidence}, {specimens, (&Fork{}).evidence}, {forks, (&Fork{}).fields},
	} {
		record := newObject()
		record.describe(r.fields)
		root.add(string(r.kind), map[string]any{"type": "object", "additionalProperties": record})
	}
	root.Schema = "https://json-schema.org/draft/2020-12/schema"
	root.Title = fmt.Sprintf("dataset of telescopic forks, schema version %d", Schema)
	return encodeJSON(w, root)
}

// object is the JSON Schema of a table.
type object struct {
	Schema     string         `json:"$schema,omitempty"`
	Title      string         `json:"title,omitempty"`
	Type       string         `json:"type"`
	Properties map[string]any `json:"properties"`
	Private    map[string]any `json:"patternProperties"`
	Others     bool           `json:"additionalProperties"`
}

func newObject() *object {
	return &object{Type: "object", Properties: make(map[string]any), Private: map[string]any{"^x-": true}}
}

func (o *object) describe(fields func(*walk)) { fields(&walk{schema: o}) }

// add adds a key. What is required is left to Decode: a fork takes values over from its
// base or its class.
func (o *object) add(key string, schema any) { o.Properties[key] = schema }

func (o *object) table(key string) *object {
	below := newObject()
	below.add("source", textSchema())
	o.add(key, below)
	return below
}

// value adds a value, which may stand in an inline table with its spread and source.
func (o *object) value(key string, schema any) {
	inline := newObject()
	inline.Properties = map[string]any{
		"value": schema, "sd": schema, "low": schema, "high": schema,
		"n":      map[string]any{"type": "integer", "minimum": 1},
		"means":  wordSchema([]string{string(BetweenForks), string(Adjuster), string(Shelf), string(Tolerance)}),
		"source": textSchema(), "note": textSchema(),
	}
	o.add("source", textSchema())
	o.add(key, map[string]any{"anyOf": []any{schema, inline}})
}

// fallback says which other key stands for one that is left out.
func (o *object) fallback(key, other string) {
	o.Properties[key].(map[string]any)["description"] = "left out: as " + other
}

func textSchema() map[string]any { return map[string]any{"type": "string", "maxLength": 200} }

func wordSchema(words []string) map[string]any { return map[string]any{"enum": words} }

func numberSchema(lo, hi float64) map[string]any {
	return map[string]any{"type": "number", "minimum": lo, "maximum": hi}
}

func quantitySchema[Q units.Quantity](lo, hi Q) map[string]any {
	return map[string]any{"type": "string", "description": fmt.Sprintf("a quantity with its unit, %.6g to %.6g", lo, hi)}
}

func listSchema(item map[string]any, least, most int) map[string]any {
	return map[string]any{"type": "array", "items": item, "minItems": least, "maxItems": most}
}
