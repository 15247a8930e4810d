package data_test

import (
	"fmt"
	"io/fs"
	"log"
	"slices"
	"testing"

	"example.org/forkcurve/data"
)

// TestReferenceIsItsFiles: the compiled dataset has the records of the files, equal in
// every field, and no others. Where it fails, go generate ./data was forgotten.
func TestReferenceIsItsFiles(t *testing.T) {
	names, err := fs.Glob(data.Files(), "*.toml")
	if err != nil {
		t.Fatal(err)
	}
	forks, err := fs.Glob(data.Files(), "forks/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	evidence, err := fs.Glob(data.Files(), "evidence/*.toml")
	if err != nil || len(evidence) == 0 {
		t.Fatal(evidence, err)
	}
	files := data.Merge()
	seen := make(map[string]string)
	for _, name := range slices.Concat(names, evidence, forks) {
		f, err := data.Files().Open(name)
		if err != nil {
			t.Fatal(err)
		}
		set, err := data.DecodeFile(name, f)
		if err != nil {
			t.Fatal(err)
		}
		for f := range set.Forks() {
			if other, ok := seen[f.ID]; ok {
				t.Errorf("fork %s is in %s and in %s", f.ID, other, name)
			}
			seen[f.ID] = name
		}
		files = data.Merge(files, set)
	}
	reference := data.Reference()
	same(t, "sources", collect(files.Sources()), collect(reference.Sources()))
	same(t, "materials", collect(files.Materials()), collect(reference.Materials()))
	same(t, "fluids", collect(files.Fluids()), collect(reference.Fluids()))
	same(t, "gases", collect(files.Gases()), collect(reference.Gases()))
	same(t, "disciplines", collect(files.Disciplines()), collect(reference.Disciplines()))
	same(t, "spreads", collect(files.Spreads()), collect(reference.Spreads()))
	same(t, "classes", collect(files.Classes()), collect(reference.Classes()))
	same(t, "specimens", collect(files.Specimens()), collect(reference.Specimens()))
	if files.Meta() != reference.Meta() {
		t.Errorf("meta %+v, compiled %+v", files.Meta(), reference.Meta())
	}
	same(t, "forks", collect(files.Forks()), collect(reference.Forks()))
}

// TestSameFork: one id is one fork, equal to itself in what is calculated as well.
func TestSameFork(t *testing.T) {
	a, err := data.Reference().Fork("M14")
	if err != nil {
		t.Fatal(err)
	}
	if b, _ := data.Reference().Fork("M14"); a != b {
		t.Error("one id, two forks")
	}
}

func ExampleFiles() {
	text, err := fs.ReadFile(data.Files(), "gases.toml")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(string(text))
	// Output:
	// # What a fork may be filled with: air or nitrogen, nothing else. Oxygen burns oil mist.
	//
	// [gas.air]
	// name = "dry air"
	// density = { value = "1.225 kg/m³", source = "iso-2533" }
	// adiabatic-exponent = { value = 1.4, source = "ideal-diatomic" }
	// ride-exponent = { value = 1.3, source = "ride-exponent" }
	//
	// [gas.nitrogen]
	// name = "nitrogen"
	// density = { value = "1.185 kg/m³", source = "ideal-gas" }
	// adiabatic-exponent = { value = 1.4, source = "ideal-diatomic" }
	// ride-exponent = { value = 1.3, source = "ride-exponent" }
}
