package strict

import (
	"fmt"
	"iter"
	"slices"

	"github.com/BurntSushi/toml"
)

// Table is one table of a document.
type Table struct {
	doc    *Doc
	path   toml.Key
	values map[string]any
	order  []string // keys as they stand in the file
	tables map[string]*Table
	asked  []string // keys some reader knows, in the order asked

	records bool // each key is the id of a record, and known
	skipped bool // no more of it is read
	absent  bool // stands for a table that is missing: reads say nothing
}

// place enters a key of the document below t, in file order, with the tables
// above it. What stands inside a list has no place.
func (t *Table) place(key toml.Key) {
	for i, k := range key {
		child := t.tables[k]
		if child == nil {
			values, isTable := t.values[k].(map[string]any)
			if !isTable && i < len(key)-1 {
				return
			}
			t.order = append(t.order, k)
			if !isTable {
				return
			}
			child = &Table{doc: t.doc, path: key[: i+1 : i+1], values: values}
			if t.tables == nil {
				t.tables = make(map[string]*Table)
			}
			t.tables[k] = child
		}
		t = child
	}
}

// Skip says that no more of the table is read: what is left in it is no fault.
func (t *Table) Skip() { t.skipped = true }

// Limit keeps the first n keys of the table; to have more is one fault.
func (t *Table) Limit(n int) {
	if have := len(t.order); have > n {
		t.doc.faults = append(t.doc.faults, fault{path: t.path, err: fmt.Errorf("%d entries; want %d at most", have, n)})
		t.order = t.order[:n]
	}
}

// Keys are the keys of the table in file order.
func (t *Table) Keys() []string { return slices.Clone(t.order) }

// Has reports whether the key is there. It makes the key known.
func (t *Table) Has(key string) bool {
	t.ask(key)
	_, ok := t.values[key]
	return ok
}

// HasTable reports whether the key is there and holds a table.
func (t *Table) HasTable(key string) bool {
	t.ask(key)
	return t.tables[key] != nil
}

// Table is the table under the key. A missing one is a fault, said once: what is
// returned then is empty and its reads are silent.
func (t *Table) Table(key string) *Table {
	if !t.Has(key) {
		t.missing(key, "a table ["+t.at(key).String()+"]")
		return &Table{doc: t.doc, path: t.at(key), absent: true}
	}
	return t.table(key)
}

// OptionalTable is the table under the key, or nil if there is none.
func (t *Table) OptionalTable(key string) *Table {
	if !t.Has(key) {
		return nil
	}
	return t.table(key)
}

func (t *Table) table(key string) *Table {
	if child := t.tables[key]; child != nil {
		return child
	}
	t.mismatch(key, "a table")
	return &Table{doc: t.doc, path: t.at(key), absent: true}
}

// Tables are all entries of the table, in file order, each of which must be a
// table: the records of a file, by id. After more faults than are listed it ends.
func (t *Table) Tables() iter.Seq2[string, *Table] {
	t.records = true
	return func(yield func(string, *Table) bool) {
		for _, key := range t.order {
			if t.doc.full() {
				return
			}
			if child := t.table(key); !child.absent && !yield(key, child) {
				return
			}
		}
	}
}

func (t *Table) at(key string) toml.Key {
	return append(t.path[:len(t.path):len(t.path)], key)
}

func (t *Table) ask(key string) {
	// A table has few keys: looking through them beats a map.
	if !slices.Contains(t.asked, key) {
		t.asked = append(t.asked, key)
	}
}
