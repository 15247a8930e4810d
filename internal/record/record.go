// Package record reads recorded vectors in tests: files of a package's testdata
// whose comment says which program of which version computed them. The scripts in
// .ci/vectors rewrite them or compare them.
package record

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"
)

// Rows are the records of a CSV file in testdata, under that header, at least so
// many. Safe for concurrent use.
func Rows(t testing.TB, file, header string, least int) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) <= least || strings.Join(rows[0], ",") != header {
		t.Fatalf("%s: %d rows, first %q, want %q and %d records", file, len(rows), rows[:min(1, len(rows))], header,
			least)
	}
	return rows[1:]
}

// Number is the value of one field.
func Number(t testing.TB, field string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(field, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// Numbers are the values of fields.
func Numbers(t testing.TB, fields []string) []float64 {
	t.Helper()
	x := make([]float64, len(fields))
	for i, field := range fields {
		x[i] = Number(t, field)
	}
	return x
}
