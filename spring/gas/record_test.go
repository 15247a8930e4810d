package gas_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"
)

// records reads a file of testdata. Its header names the program that computed
// it; the scripts in .ci/vectors rewrite or compare it.
func records(t *testing.T, file, header string, least int) [][]string {
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
		t.Fatalf("%s: %d rows, first %q, want %q and %d records", file, len(rows), rows[0], header, least)
	}
	return rows[1:]
}

// number is the value of a record's field.
func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}
