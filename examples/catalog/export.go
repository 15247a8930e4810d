package main

import (
	"errors"
	"io"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/program"
)

// exports declares the flags that write the whole set for other programs. What it returns
// writes it in the form asked for, and reports whether one was.
func exports(p *program.Program) func(set *data.Set) (bool, error) {
	forms := []struct {
		name, usage string
		write       func(w io.Writer, set *data.Set) error
	}{
		{"csv", "write every value as comma-separated values", data.EncodeCSV},
		{"json", "write every value as JSON, with the sources", data.EncodeJSON},
		{"package", "write the descriptor of the values as a Frictionless data package", data.EncodePackage},
		{"schema", "write the JSON Schema of a dataset file",
			func(w io.Writer, _ *data.Set) error { return data.EncodeSchema(w) }},
	}
	asked := make([]*bool, len(forms))
	for i, f := range forms {
		asked[i] = p.Flags.Bool(f.name, false, f.usage)
	}
	return func(set *data.Set) (bool, error) {
		write := func(io.Writer, *data.Set) error { return nil }
		n := 0
		for i, f := range forms {
			if *asked[i] {
				write = f.write
				n++
			}
		}
		if n > 1 {
			return true, errors.New("give one of -csv, -json, -package and -schema")
		}
		return n == 1, write(p.Out, set)
	}
}
