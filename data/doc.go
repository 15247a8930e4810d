// Package data is a reference dataset of generic telescopic forks and of what goes
// into them: spring wires, damper oils, gases, and the windows a setup lies in by
// discipline. Every value names its source, and the source says what it is worth.
// No record is a fork of any maker.
//
//	set := data.Reference()
//	fork, err := set.Fork("M07")
//	fork.Travel.Value      // 305 mm
//	fork.Travel.Source     // "typical"
//	set.Source("typical")  // from memory …
//
// A record becomes the input of other packages by its methods: Fork.Setup, Fork.Load,
// Fork.Geometry, Chassis.Geometry, Kit.Geometry, Fork.SpringSpec,
// Coil.Spring, Material.Wire, Fluid.Oil.
//
// # Files
//
// The reference dataset is written in files that [Files] has and compiled into the
// package. The same schema serves them and those of a user, which [Decode] reads and
// [Merge] adds to the reference; [New] takes records made in Go. It is TOML: tables by
// kind and id, quantities as texts with a unit, ranges as lists of two. A source key is
// inherited by the values of its table and of the tables below; a value with a source or
// note of its own is an inline table. The file schema.md beside this one has all keys and
// a complete example.
//
// Decoding is strict. A key that is not in the schema, a value without source or with a
// unit of another kind, a reference to nothing and values that contradict each other
// are errors with file and line, all at once.
//
// # What the values are worth
//
// A [Value] has a source and a [Spread]: how far it may be from that of the fork at hand,
// measured, between the forks of a class, or by the judgment for its field. Most fork values
// are typical of a kind of fork, from memory: one plausible point each, not a measurement.
// [Set.Graded] says what each is worth, a derived one by the worst of its inputs. Values are
// consistent: trail with rake, offset and radius, sag with its window, spring with its tube,
// oil level with its volume, at both ends of every range. Where that is so by construction,
// as for the pressures of air springs, source or note says so. A value of the fork at hand
// outranks all of them.
//
// Evidence has the form of a fork with gaps: a [Set.Specimen] was measured or published, a
// [Set.Class] has the quantiles of many. A fork takes from its class what it leaves out, and
// a study from the fork that it is based on.
//
// # For others
//
// [EncodeCSV], [EncodeJSON], [EncodePackage] and [EncodeSchema] write the set for people
// without Go. README.md beside this file says how to cite it and how to add a fork.
package data
