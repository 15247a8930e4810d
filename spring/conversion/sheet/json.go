package sheet

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"

	"example.org/forkcurve/internal/unitjson"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Version of the JSON. A new one changes or drops keys of [Keys]; the same one may gain some.
const Version = 1

// MaxJSON is the most that ReadJSON reads, in bytes.
const MaxJSON = 64 << 20

// document is the JSON of a plan.
type document struct {
	Version int
	Chosen  *string // the coil to build, which is safe; nil: none is
	Report  *conversion.Report
	Curves  []curve
}

// codec knows the types of a report that do not stand for themselves.
func codec() *unitjson.Codec {
	var c unitjson.Codec
	unitjson.StandIn(&c, oil.Fluid.Spec, oil.NewFluid)
	unitjson.StandIn(&c, materialSpec, newMaterial)
	unitjson.StandIn(&c, (*setup.Setup).Spec, setup.New)

	unitjson.Variant[spring.Spec, spring.CoilSpec](&c, "coil")
	unitjson.Variant[spring.Spec, spring.ProgressiveSpec](&c, "progressive")
	unitjson.Variant[spring.Spec, spring.RateTableSpec](&c, "rate-table")
	unitjson.Variant[spring.Spec, spring.StackSpec](&c, "stack")
	unitjson.Variant[spring.Spec, spring.NestedSpec](&c, "nested")
	unitjson.Variant[spring.Spec, spring.TopOutSpec](&c, "top-out")
	unitjson.Variant[spring.Spec, spring.BumpStopSpec](&c, "bump-stop")
	unitjson.Variant[spring.Spec, spring.MeasuredSpec](&c, "measured")

	unitjson.Variant[conversion.Amount, conversion.Number](&c, "number")
	unitjson.Variant[conversion.Amount, units.Length](&c, "length")
	unitjson.Variant[conversion.Amount, units.Volume](&c, "volume")
	unitjson.Variant[conversion.Amount, units.Force](&c, "force")
	unitjson.Variant[conversion.Amount, units.Stiffness](&c, "stiffness")
	unitjson.Variant[conversion.Amount, units.Energy](&c, "energy")
	unitjson.Variant[conversion.Amount, units.Stress](&c, "stress")
	unitjson.Variant[conversion.Amount, units.GaugePressure](&c, "gauge-pressure")
	unitjson.Variant[conversion.Amount, units.Temperature](&c, "temperature")
	return &c
}

// materialSpec of none is nil: a shelf spring known by its curve has no wire.
func materialSpec(m helical.Material) *helical.MaterialSpec {
	if m.Equal(helical.Material{}) {
		return nil
	}
	spec := m.Spec()
	return &spec
}

func newMaterial(spec *helical.MaterialSpec) (helical.Material, error) {
	if spec == nil {
		return helical.Material{}, nil
	}
	return helical.NewMaterial(*spec)
}

// Keys lists every key of the JSON, as "report.candidates[].preload_mm". A quantity
// is a number in the unit its key ends in, always the same. It is the list in keys.txt.
func Keys() []string { return unitjson.Keys[document](codec()) }

// WriteJSON writes the whole report with its job, its cautions and the curves of every
// fork in it. Every key is there: an empty list is [], what is absent is null. A job
// with a spring.Given is refused, since no text can hold any curve.
func WriteJSON(w io.Writer, r *conversion.Report) error {
	d := document{Version: Version, Report: r, Curves: curves(r)}
	if c, ok := r.Chosen(); ok {
		d.Chosen = &c.Coil
	}
	return write(w, d)
}

func write(w io.Writer, document any) error {
	compact, err := codec().Marshal(document)
	if err != nil {
		return fmt.Errorf("sheet: %w", err)
	}
	var b bytes.Buffer
	if err := json.Indent(&b, compact, "", "  "); err != nil {
		return err
	}
	b.WriteByte('\n')
	_, err = b.WriteTo(w)
	return err
}

// ReadJSON reads the report that WriteJSON wrote, the same bit for bit. Curves are not
// read, they follow from the forks. An error tells all faults with their keys.
func ReadJSON(r io.Reader) (*conversion.Report, error) {
	text, err := io.ReadAll(io.LimitReader(r, MaxJSON+1))
	if err != nil {
		return nil, err
	}
	if len(text) > MaxJSON {
		return nil, fmt.Errorf("sheet: more than %d MiB of JSON", MaxJSON>>20)
	}
	var head struct{ Version int }
	switch err := json.Unmarshal(text, &head); {
	case err != nil:
		return nil, fmt.Errorf("sheet: %w", err)
	case head.Version != Version:
		return nil, fmt.Errorf("sheet: version %d of the JSON, want %d", head.Version, Version)
	}
	var d document
	if err := codec().Unmarshal(text, &d); err != nil {
		return nil, fmt.Errorf("sheet: %w", err)
	}
	if d.Report == nil {
		return nil, fmt.Errorf("sheet: no report")
	}
	return d.Report, nil
}
