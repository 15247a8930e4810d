package sheet_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/conversion/sheet"
)

// plan is that of a fork's typical job with something changed.
func plan(t testing.TB, fork string, change func(*conversion.Job)) *conversion.Report {
	t.Helper()
	f, err := jobfile.Typical(fork, data.Reference())
	if err != nil {
		t.Fatal(err)
	}
	if change != nil {
		change(&f.Job)
	}
	r, err := conversion.Plan(f.Job)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// A report written as JSON is read as the same report, whatever the fork.
func TestRoundTrip(t *testing.T) {
	for fork := range data.Reference().Forks() {
		t.Run(fork.ID, func(t *testing.T) { roundTrip(t, plan(t, fork.ID, nil)) })
	}
}

func roundTrip(t *testing.T, r *conversion.Report) {
	t.Helper()
	var b bytes.Buffer
	if err := sheet.WriteJSON(&b, r); err != nil {
		t.Fatal(err)
	}
	back, err := sheet.ReadJSON(&b)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(r, back); d != "" {
		t.Error(d)
	}
}

var _ = []any{csv.NewReader, json.Unmarshal, os.ReadFile, slices.Sort[[]int], strconv.Itoa, strings.Join}
