// Package jobfile reads a conversion job written by hand: one TOML file, or JSON of the same keys, with the
// rider, the fork by its dataset id, the present fill with the air it was read
// in, the coils on the shelf, and the workshop and event conditions.
//
//	title = "First round in the hills"
//
//	[rider]
//	mass = "79 kg"                # in riding kit
//	stance = "standing"           # in which sag is read: standing or seated
//	discipline = "motocross"      # left out: what the fork's record says
//
//	[fork]
//	id = "M07"
//	spring-clearance = "1 mm"     # on the diameter, to tube and guide; left out: by the record, or 1 mm
//	bush-overhang = "360 mm"      # axle to the lower bush, fully extended; left out: bushes are not judged
//	bush-spacing = "150 mm"       # between both bushes of a leg, fully extended; left out: by the record
//
//	[air]                         # only for a fork on air
//	pressure = "9.0 bar"          # what the gauge read
//	temperature = "22 °C"         # and in which air
//	altitude = "240 m"
//
//	[workshop]
//	temperature = "20 °C"
//	altitude = "240 m"
//
//	[event]
//	name = "first round"
//	temperature = "4 °C"
//	altitude = "2500 m"
//
//	[plan]
//	criterion = "energy"          # sag-force, energy or least-squares
//	legs = "left"                 # left, right or both; left out: what the fork's kit says
//
//	[shelf.k86]                   # one table for each coil on the shelf
//	rate = "8.6 N/mm"             # as labeled; or measured, "8.6 N/mm ± 0.1 N/mm"
//	grade = 2                     # accuracy class of EN 15800, 1 to 3; left out: within 4 %
//	wire = "6.2 mm"
//	outer-diameter = "42 mm"
//	active-coils = 33.5
//	free-length = "600 mm"
//	material = "sicrv"            # a material of the dataset
//
//	[shelf.dual]                  # another main spring, by what it does and the room it takes
//	kind = "stack"
//	soft = { rate = "15 N/mm", free-length = "300 mm", solid-length = "180 mm" }
//	hard = { rate = "17 N/mm", free-length = "305 mm", solid-length = "90 mm" }
//	free-length = "605 mm"
//	outer-diameter = "42 mm"
//	mass = "900 g"                # weighed; it displaces oil
//
// The kinds of spring are coil, where none is named, and
//
//   - stack: two end to end, soft and hard, and perhaps crossover, the compression of the
//     soft one at which a sleeve bridges it
//   - nested: one inside the other, outer and inner
//   - progressive: a table groups with a table for each group of coils of one pitch, of
//     coils, their gap when free, and coil-rate, that of a single one
//   - rate-table: compressions and rates, two lists
//   - measured: travels and forces, two lists
//
// A spring of the shelf may also have inner-diameter, which a fork with a guide needs, and
// material, of which it is made if not of steel. The tables present.left and present.right, or
// present.both, put such springs in the place of the record's into the present fork, each with
// its preload; a coil there has rate and perhaps free-length and solid-length.
//
// A table weights says what the shelf is ranked by, numbers from 0 to 10: support (1), how near the
// rate is to the one asked for, comfort (0), bottoming (0), the reserve to full travel, robustness (0)
// and cautions (1), how few they are.
//
// The table plan may also hold ride-exponent (1.3), target-sag, preload and
// preload-aim, oil and oil-aim, fluid (a fluid of the dataset, "fork-5"), and
// friction of the converted fork, and running-temperature, of oil and gas once ridden
// (40 K above the workshop). A table bench may hold loose-reading, the caliper reading
// with the spring just touching, and inside-left and inside-right, what a leg takes up to
// the brim, fork compressed, spring out and a damper of its own in; and a table torque any number
// of names with torques, to be repeated on the sheet in N·m and lbf·ft. The table bench may also hold
// collar-pitch and collar-flats (6), of the collar that sets the preload, and rebound-clicks and
// compression-clicks, as they are, counted from closed; a table wrench has length, extension and angle of a
// torque wrench with an adapter. invented = true says on the sheet that rider, readings and shelf
// are made up.
//
// A plan is shown in the units the file is written in: of each quantity the one written most often.
//
// What the plan starts from says from in the table plan: "fork", the present springs and the rider, where it is
// left out; "rider", where no spring is worth matching or no fill was read, the table air may then be missing;
// "fork-alone", where nobody was weighed: the rider is whom the present fork carries at the middle of its sag window,
// and the table rider may be missing or has no mass. In both the table shelf may be missing as well: the plan is then
// made of springs designed for the fork's kit. From a rider alone there is no criterion to choose.
//
// A table sweep holds what a slow test bench has shown of the whole present fork: travels, forces while
// compressed and perhaps forces-out while extended, three lists of one length; see [setup.Spec.AsMeasured].
//
// What the fork is turned to says to in the table plan: "coil" where it is left out, or "air". To air the pressures
// are found that bring the sag wanted: of the fork kept on air, or with a table build, and the coils it is of on the
// shelf, of the fork that goes back to air from that build; then reducers = ["0 mL", "40 mL"] is how much may stand in
// its positive chambers to match the force as well. The table air may be missing. A table places has two lists,
// temperatures and altitudes, for each pair of which the sheet says what the gauge shows and what to set.
//
// A table build is what stands on the bench, to be judged instead of planned: coil, by its name on the shelf;
// preload or spacer, all that presses on the spring; oil-volume or oil-level, in the first of the converted legs;
// second-volume or second-level in the second one, which left out has the oil that leaves it the gas of the
// first.
//
// Every quantity is a text with its unit. The rider's mass, the pressure of the air, what was measured of the inside
// of a leg, the rate of a coil, preload-aim, friction and the temperature of the event, as "4 °C ± 3 K", may say how
// far they may be off, as "82 kg ± 2 kg": bounds of 95 %. Unknown keys, missing keys and values
// out of range are errors with file, line, key and what was wanted, all of a file
// at once. Its functions may be called from any number of goroutines.
package jobfile
