package data_test

import (
	"errors"
	"slices"
	"strings"
	"sync"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

func ids(forks func(func(data.Fork) bool)) []string {
	var list []string
	for f := range forks {
		list = append(list, f.ID)
	}
	return list
}

func TestLookup(t *testing.T) {
	set := data.Reference()
	for _, id := range []string{"M07", "m07"} {
		if f, err := set.Fork(id); err != nil || f.ID != "M07" {
			t.Errorf("%s: got %q, %v", id, f.ID, err)
		}
	}
	for _, tc := range []struct {
		name string
		look func() error
		want string
	}{
		{"fork", func() error { _, err := set.Fork("M7"); return err }, `no fork "M7"; there is M07, M17, M27, M37`},
		{"fork far off", func() error { _, err := set.Fork("rear shock"); return err }, `no fork "rear shock"`},
		{"material", func() error { _, err := set.Material("sicr-v"); return err },
			`no material "sicr-v"; there is sicrv, sicr`},
		{"fluid", func() error { _, err := set.Fluid("iso-vg-16"); return err },
			`no fluid "iso-vg-16"; there is iso-vg-10, iso-vg-15, iso-vg-46, iso-vg-22, iso-vg-32`},
		{"gas", func() error { _, err := set.Gas("oxygen"); return err }, `no gas "oxygen"; there is air, nitrogen`},
		{"discipline", func() error { _, err := set.Discipline("motorcross"); return err },
			`no discipline "motorcross"; there is motocross`},
		{"source", func() error { _, err := set.Source("typcial"); return err }, `no source "typcial"; there is typical`},
		{"endless id", func() error { _, err := set.Gas(strings.Repeat("x", 5000)); return err },
			`no gas "` + strings.Repeat("x", 60) + `…"; there is air, nitrogen`},
	} {
		err := tc.look()
		var nf *data.NotFoundError
		if !errors.As(err, &nf) || err.Error() != tc.want {
			t.Errorf("%s: got %v, want %s", tc.name, err, tc.want)
		}
	}
}

func TestFilters(t *testing.T) {
	set := data.Reference()
	offRoad, err := set.UsedFor("Motocross", "enduro")
	if err != nil {
		t.Fatal(err)
	}
	least, most := 301*units.Millimeter, 400*units.Millimeter
	found := ids(set.Forks(offRoad, data.SprungBy(data.AirLeg), data.TravelFrom(least, most)))
	if !slices.Contains(found, "M07") {
		t.Errorf("no M07 among %v", found)
	}
	for f := range set.Forks() {
		dirt := strings.HasPrefix(f.Use, "motocross") || strings.HasPrefix(f.Use, "enduro")
		air := f.Left.Role.HasAir() || f.Right.Role.HasAir()
		want := dirt && air && f.Travel.Value >= least && f.Travel.Value <= most
		if got := slices.Contains(found, f.ID); got != want {
			t.Errorf("%s: found %v, want %v", f.ID, got, want)
		}
	}
	_, err = set.UsedFor("motocros", "enduro", "moon")
	if faults := check.Split(err); len(faults) != 2 || !errors.As(faults[1], new(*data.NotFoundError)) {
		t.Errorf("two unknown disciplines: %v", err)
	}
}

// TestCopies: what a caller does to a record stays with the caller.
func TestCopies(t *testing.T) {
	m, err := data.Reference().Material("sicr")
	if err != nil {
		t.Fatal(err)
	}
	m.TensileStrength.Values[0] = 0
	for m := range data.Reference().Materials() {
		if m.ID == "sicr" {
			if m.TensileStrength.Values[0] == 0 {
				t.Error("the set changed")
			}
			m.UpTo.Values[0] = 0
		}
	}
	if m, _ := data.Reference().Material("SICR"); m.UpTo.Values[0] == 0 {
		t.Error("the set changed")
	}
}

// TestConcurrent: a set serves many goroutines, also while files are read (run with
// -race).
func TestConcurrent(t *testing.T) {
	set := data.Merge(data.Reference())
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			for f := range set.Forks() {
				if _, err := set.Fork(f.ID); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wait.Wait()
}

// TestForkIDs: at least 64 archetypes, each distinct in its tubes or its chassis; studies
// name the archetype that they differ from.
func TestForkIDs(t *testing.T) {
	type shape struct {
		stanchion, travel units.Length
		layout            geometry.Layout
		chassis           data.Chassis
		spring            data.Role
	}
	seen := make(map[shape]string)
	archetypes := 0
	for f := range data.Reference().Forks() {
		if f.BasedOn != "" {
			if base, err := data.Reference().Fork(f.BasedOn); err != nil || base.BasedOn != "" {
				t.Errorf("%s is based on %s, which is no archetype: %v", f.ID, f.BasedOn, err)
			}
			continue
		}
		archetypes++
		s := shape{f.Stanchion.Value, f.Travel.Value, f.Layout, f.Chassis, f.Spring()}
		if other, ok := seen[s]; ok {
			t.Errorf("%s and %s are one fork", other, f.ID)
		}
		seen[s] = f.ID
	}
	if archetypes < 64 {
		t.Errorf("%d archetypes", archetypes)
	}
}
