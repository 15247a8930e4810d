package sheet

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"

	"example.org/forkcurve/spring/conversion"
)

// Version of the JSON. A new one changes or drops keys of [Keys]; the same one may gain some.
const Version = 2

// MaxJSON is the most that ReadJSON reads, in bytes.
const MaxJSON = 64 << 20

// document is the JSON of a plan.
type document struct {
	Version int                `json:"version"`
	Chosen  *string            `json:"chosen"` // the coil to build, which is safe; nil: none is
	Report  *conversion.Report `json:"report"`
	Curves  []curve            `json:"curves"`
}

// Keys lists every key of the JSON, as "report.candidates[].preload_mm". It is the list in
// keys.txt.
func Keys() []string {
	keys := []string{"version", "chosen"}
	for _, key := range conversion.Keys() {
		keys = append(keys, "report."+key)
	}
	return append(keys, curveKeys...)
}

var curveKeys = []string{"curves[].fork", "curves[].exponent", "curves[].travel_mm[]", "curves[].force_N[]",
	"curves[].rate_N_per_mm[]", "curves[].energy_J[]"}

// WriteJSON writes the report, see [conversion.Report.MarshalJSON], which coil to build, and
// the curves of every fork in it.
func WriteJSON(w io.Writer, r *conversion.Report) error {
	if err := whole(r); err != nil {
		return err
	}
	d := document{Version: Version, Report: r, Curves: curves(r)}
	if c, ok := r.Chosen(); ok {
		d.Chosen = &c.Coil
	}
	return write(w, d)
}

func write(w io.Writer, document any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(document)
}

// ReadJSON reads the report that WriteJSON wrote, the same bit for bit. An error tells all
// faults with their keys. The curves follow from the forks of the report.
func ReadJSON(r io.Reader) (*conversion.Report, error) {
	text, err := io.ReadAll(io.LimitReader(r, MaxJSON+1))
	if err != nil {
		return nil, err
	}
	if len(text) > MaxJSON {
		return nil, fmt.Errorf("sheet: more than %d MiB of JSON", MaxJSON>>20)
	}
	var head struct{ Version int }
	if err := json.Unmarshal(text, &head); err != nil {
		return nil, fmt.Errorf("sheet: %w", err)
	}
	if head.Version != Version {
		return nil, fmt.Errorf("sheet: version %d of the JSON, want %d", head.Version, Version)
	}
	var d document
	in := json.NewDecoder(bytes.NewReader(text))
	in.DisallowUnknownFields()
	if err := in.Decode(&d); err != nil {
		return nil, fmt.Errorf("sheet: %w", err)
	}
	if err := whole(d.Report); err != nil {
		return nil, err
	}
	return d.Report, nil
}

// whole reports a report that conversion.Plan has not made: one without its forks.
func whole(r *conversion.Report) error {
	noFork := func(c conversion.Candidate) bool { return c.Behavior.Setup == nil }
	if r == nil || r.Present.Setup == nil || len(r.Candidates) == 0 || slices.ContainsFunc(r.Candidates, noFork) {
		return errors.New("sheet: the report lacks its forks; conversion.Plan makes one with them")
	}
	return nil
}
