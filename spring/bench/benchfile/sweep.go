package benchfile

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/units"
)

// folder is where the files of records lie.
type folder struct {
	path   string
	opened int
}

// mostFiles of one text of readings.
const mostFiles = 20

// record is a force–travel record, in and maybe out: of a file, or of lists at the same travels.
func record(t *strict.Table, beside *folder) []bench.Reading {
	m := listed
	if t.Has("file") {
		m = beside.sweep
	}
	p, _ := strict.OptionalQuantity(t, "set-to", gauge)
	return bench.Record(m(t), p, sd(t, 10*units.Newton))
}

// sweep is the record of a file; empty after a fault.
func (b *folder) sweep(t *strict.Table) (m spring.MeasuredSpec) {
	name := t.Text("file")
	m, err := b.read(name)
	if name != "" && err != nil {
		t.Fault("file", err)
	}
	return m
}

func (b *folder) read(name string) (m spring.MeasuredSpec, err error) {
	switch {
	case b == nil:
		return m, errors.New("this text has no folder to look in; give its readings as lists")
	case !filepath.IsLocal(name):
		return m, errors.New("want a file in the folder of the readings or below")
	case b.opened == mostFiles:
		return m, fmt.Errorf("want %d files of records at most", mostFiles)
	}
	b.opened++
	in, err := os.Open(filepath.Join(b.path, name))
	if err != nil {
		return m, err
	}
	defer in.Close()
	return fit.ReadCSV(name, in)
}

// listed is the record of the lists of a table.
func listed(t *strict.Table) spring.MeasuredSpec {
	travels := strict.Quantities(t, "travel", strict.Between(0, 400*mm))
	force := strict.Between(-1*units.Kilonewton, 20*units.Kilonewton)
	branch := func(key string, forces []units.Force) (list []spring.Reading) {
		if n := len(forces); n != len(travels) {
			if n > 0 && len(travels) > 0 { // else there is a fault of the list that is none
				t.Fault(key, fmt.Errorf("a list of %d forces; want one for each of the %d travels", n, len(travels)))
			}
			return nil
		}
		for i, f := range forces {
			list = append(list, spring.Reading{Travel: travels[i], Force: f})
		}
		return list
	}
	m := spring.MeasuredSpec{Loading: branch("in", strict.Quantities(t, "in", force))}
	if t.Has("out") {
		m.Unloading = branch("out", strict.Quantities(t, "out", force))
	}
	return m
}
