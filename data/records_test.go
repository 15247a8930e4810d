package data_test

import (
	"fmt"
	"log"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/units"
)

func all() data.Records {
	set := data.Reference()
	return data.Records{
		Sources:     slices.Collect(set.Sources()),
		Materials:   slices.Collect(set.Materials()),
		Fluids:      slices.Collect(set.Fluids()),
		Gases:       slices.Collect(set.Gases()),
		Disciplines: slices.Collect(set.Disciplines()),
		Spreads:     slices.Collect(set.Spreads()),
		Classes:     slices.Collect(set.Classes()),
		Specimens:   slices.Collect(set.Specimens()),
		Forks:       slices.Collect(set.Forks()),
	}
}

// TestNewKeepsRecords: a set made of the records of another is that set.
func TestNewKeepsRecords(t *testing.T) {
	records := all()
	set, err := data.New(records)
	if err != nil {
		t.Fatal(err)
	}
	same(t, "sources", records.Sources, slices.Collect(set.Sources()))
	same(t, "materials", records.Materials, slices.Collect(set.Materials()))
	same(t, "fluids", records.Fluids, slices.Collect(set.Fluids()))
	same(t, "gases", records.Gases, slices.Collect(set.Gases()))
	same(t, "disciplines", records.Disciplines, slices.Collect(set.Disciplines()))
	same(t, "spreads", records.Spreads, slices.Collect(set.Spreads()))
	same(t, "classes", records.Classes, slices.Collect(set.Classes()))
	same(t, "specimens", records.Specimens, slices.Collect(set.Specimens()))
	same(t, "forks", records.Forks, slices.Collect(set.Forks()))
	records.Materials[0].UpTo.Values = append(records.Materials[0].UpTo.Values, 1)
	if m, _ := set.Material(records.Materials[0].ID); len(m.UpTo.Values) == len(records.Materials[0].UpTo.Values) {
		t.Error("the set shares a list with its caller")
	}
}

// TestNewRefuses: what a file could not say, a record cannot either, and nothing is
// dropped silently.
func TestNewRefuses(t *testing.T) {
	reference := all()
	fork := func(change func(*data.Fork)) data.Records {
		f := reference.Forks[slices.IndexFunc(reference.Forks, func(f data.Fork) bool { return f.ID == "M07" })]
		f.ID = "mine"
		change(&f)
		return data.Records{Forks: []data.Fork{f}}
	}
	for _, tc := range []struct {
		name    string
		records data.Records
		keys    []string
	}{
		{"no id", fork(func(f *data.Fork) { f.ID = "" }), []string{"fork.: not an id"}},
		{"no id and another fault", fork(func(f *data.Fork) { f.ID, f.Travel.Value = "my fork", 3 }),
			[]string{"fork.my fork: not an id", "fork.my fork.travel"}},
		{"an id twice and another fault", data.Records{Gases: append(slices.Clone(reference.Gases), data.Gas{ID: "air"})},
			[]string{"gas.air: the second", "gas.air.density: missing"}},
		{"an id that is none", fork(func(f *data.Fork) { f.ID = "a]\n[b" }), []string{"fork.a]\n[b: not an id"}},
		{"an id twice", data.Records{Gases: append(reference.Gases, reference.Gases[0])}, []string{"gas.air: the second"}},
		{"no source", fork(func(f *data.Fork) { f.Travel.Source = "" }), []string{"fork.mine.travel = ", "no source;"}},
		{"an optional value without source", fork(func(f *data.Fork) {
			f.Left.Air.Reducers.Source,
				f.Left.Air.Reducers.Value = "", 5*units.Milliliter
		}),
			[]string{"fork.mine.left.air.reducers = ", "no source;"}},
		{"an unknown source", fork(func(f *data.Fork) { f.Travel.Source = "hearsay" }),
			[]string{`fork.mine.travel.source = "hearsay": no source "hearsay"`}},
		{"NaN", fork(func(f *data.Fork) { f.Travel.Value = units.Length(math.NaN()) }), []string{"fork.mine.travel"}},
		{"two faults", fork(func(f *data.Fork) { f.Travel.Value, f.Use = 3, "croquet" }),
			[]string{"fork.mine.use", "fork.mine.travel"}},
		{"a coil in a damper leg", fork(func(f *data.Fork) { f.Right.Coil.Material = "sicr" }),
			[]string{"fork.mine: holds values"}},
		{"two kinds", data.Records{Gases: []data.Gas{{ID: "void"}}, Fluids: []data.Fluid{{ID: "water"}}},
			[]string{"fluid.water", "gas.void"}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			set, err := data.New(tc.records)
			if err == nil || set != nil {
				t.Fatalf("got %v, %v", set, err)
			}
			for _, key := range tc.keys {
				if !strings.Contains(err.Error(), key) {
					t.Errorf("no %q in: %v", key, err)
				}
			}
			if strings.Contains(err.Error(), ":0:") {
				t.Errorf("a line of no file: %v", err)
			}
		})
	}
}

func ExampleNew() {
	fork, err := data.Reference().Fork("M06")
	if err != nil {
		log.Fatal(err)
	}
	// The fork on the bench has been measured where it differs.
	fork.ID, fork.Name = "bench", "the fork on the bench"
	fork.Friction = data.Value[units.Force]{Value: 48 * units.Newton, Source: "bench", Note: "pulled slowly, both ways"}
	mine, err := data.New(data.Records{
		Sources: []data.Source{{ID: "bench", Kind: data.Demo, Document: "measured on the bench"}},
		Forks:   []data.Fork{fork},
	})
	if err != nil {
		log.Fatal(err)
	}
	set := data.Merge(data.Reference(), mine)
	fork, err = set.Fork("bench")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(fork.Friction.Value, fork.Friction.Source)
	// Output:
	// 48 N bench
}
