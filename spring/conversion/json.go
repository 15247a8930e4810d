package conversion

import (
	"example.org/forkcurve/internal/unitjson"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// MarshalJSON writes the whole report, with its job and cautions. A quantity is a number in
// the unit its key ends in, always the same; every key is there, an empty list is [], what
// is absent is null. A job with a spring.Given is refused, since no text can hold any curve.
func (r Report) MarshalJSON() ([]byte, error) { return codec().Marshal(r) }

// UnmarshalJSON reads what MarshalJSON wrote into the same report, bit for bit. An error
// tells all faults with their keys and leaves the report as it was.
func (r *Report) UnmarshalJSON(text []byte) error {
	var read Report
	if err := codec().Unmarshal(text, &read); err != nil {
		return err
	}
	*r = read
	return nil
}

// Keys lists every key of the JSON, as "candidates[].preload_mm".
func Keys() []string { return unitjson.Keys[Report](codec()) }

// MarshalJSON writes the whole report, as [Report.MarshalJSON] does a plan.
func (r AirReport) MarshalJSON() ([]byte, error) { return codec().Marshal(r) }

// UnmarshalJSON reads what MarshalJSON wrote into the same report, bit for bit. An error tells all faults with
// their keys and leaves the report as it was.
func (r *AirReport) UnmarshalJSON(text []byte) error {
	var read AirReport
	if err := codec().Unmarshal(text, &read); err != nil {
		return err
	}
	*r = read
	return nil
}

// AirKeys lists every key of its JSON, as [Keys] does those of a plan.
func AirKeys() []string { return unitjson.Keys[AirReport](codec()) }

// codec knows the types of a report that do not stand for themselves.
func codec() *unitjson.Codec {
	var c unitjson.Codec
	unitjson.StandIn(&c, oil.Fluid.Spec, oil.NewFluid)
	unitjson.StandIn(&c, materialSpec, newMaterial)
	unitjson.StandIn(&c, (*setup.Setup).Spec, setup.New)

	unitjson.Variant[spring.Spec, spring.CoilSpec](&c, spring.KindCoil)
	unitjson.Variant[spring.Spec, spring.ProgressiveSpec](&c, spring.KindProgressive)
	unitjson.Variant[spring.Spec, spring.RateTableSpec](&c, spring.KindRateTable)
	unitjson.Variant[spring.Spec, spring.StackSpec](&c, spring.KindStack)
	unitjson.Variant[spring.Spec, spring.NestedSpec](&c, spring.KindNested)
	unitjson.Variant[spring.Spec, spring.TopOutSpec](&c, spring.KindTopOut)
	unitjson.Variant[spring.Spec, spring.BumpStopSpec](&c, spring.KindBumpStop)
	unitjson.Variant[spring.Spec, spring.MeasuredSpec](&c, spring.KindMeasured)

	unitjson.Variant[Amount, Number](&c, "number")
	unitjson.Variant[Amount, units.Length](&c, "length")
	unitjson.Variant[Amount, units.Volume](&c, "volume")
	unitjson.Variant[Amount, units.Force](&c, "force")
	unitjson.Variant[Amount, units.Stiffness](&c, "stiffness")
	unitjson.Variant[Amount, units.Energy](&c, "energy")
	unitjson.Variant[Amount, units.Stress](&c, "stress")
	unitjson.Variant[Amount, units.GaugePressure](&c, "gauge-pressure")
	unitjson.Variant[Amount, units.Torque](&c, "torque")
	unitjson.Variant[Amount, units.Mass](&c, "mass")
	unitjson.Variant[Amount, units.Temperature](&c, "temperature")
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
