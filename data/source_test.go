package data_test

import (
	"strings"
	"testing"

	"example.org/forkcurve/data"
)

// every calls do for each value of the set, with the kind and id of its record.
func every(set *data.Set, do func(record string, e data.Entry)) {
	visit := func(record string, values []data.Entry) {
		for _, e := range values {
			do(record, e)
		}
	}
	for r := range set.Forks() {
		visit("fork."+r.ID, r.Values())
	}
	for r := range set.Classes() {
		visit("class."+r.ID, r.Evidence())
	}
	for r := range set.Specimens() {
		visit("specimen."+r.ID, r.Evidence())
	}
	for r := range set.Materials() {
		visit("material."+r.ID, r.Values())
	}
	for r := range set.Fluids() {
		visit("fluid."+r.ID, r.Values())
	}
	for r := range set.Gases() {
		visit("gas."+r.ID, r.Values())
	}
	for r := range set.Disciplines() {
		visit("discipline."+r.ID, r.Values())
	}
}

// TestSources: every source that a value names exists, and every source is named.
func TestSources(t *testing.T) {
	set := data.Reference()
	used := make(map[string]int)
	every(set, func(record string, e data.Entry) {
		if e.Source == "" {
			return // a word
		}
		if _, err := set.Source(e.Source); err != nil {
			t.Errorf("%s.%s: %v", record, e.Key, err)
		}
		used[e.Source]++
		used[e.Judged]++
	})
	for s := range set.Sources() {
		if used[s.ID] == 0 {
			t.Errorf("source %s is not used", s.ID)
		}
	}
}

// TestWordsHaveNoSource: whatever carries no source is a word or a list of words, so no
// quantity can be without one.
func TestWordsHaveNoSource(t *testing.T) {
	words := map[string]bool{
		"name": true, "use": true, "layout": true, "stance": true, "role": true, "like": true, "material": true,
		"ends": true, "legs": true, "spring-in-oil": true, "standard": true, "spring-steel": true, "class": true,
		"based-on": true,
		"charged":  true, "kind": true,
	}
	every(data.Reference(), func(record string, e data.Entry) {
		last := e.Key[strings.LastIndexByte(e.Key, '.')+1:]
		if words[last] != (e.Source == "") {
			t.Errorf("%s.%s has source %q", record, e.Key, e.Source)
		}
	})
}

// TestProvenance: what is tuned says so.
func TestProvenance(t *testing.T) {
	for f := range data.Reference().Forks(data.SprungBy(data.AirLeg)) {
		a := f.Left.Air
		if a.Pressure.Source != "tuned" || a.NegativeVolume.Given() && a.NegativeVolume.Source != "tuned" ||
			a.BalanceRate.Given() && a.BalanceRate.Source != "tuned" {
			t.Errorf("%s: a tuned value does not say so", f.ID)
		}
	}
}

// TestDisciplinesUsed: there is a fork for every discipline.
func TestDisciplinesUsed(t *testing.T) {
	used := make(map[string]bool)
	for f := range data.Reference().Forks() {
		used[f.Use] = true
	}
	for d := range data.Reference().Disciplines() {
		if !used[d.ID] {
			t.Errorf("no fork for %s", d.ID)
		}
	}
}
