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
//	rate = "8.6 N/mm"             # as labeled
//	wire = "6.2 mm"
//	outer-diameter = "42 mm"
//	active-coils = 33.5
//	free-length = "600 mm"
//	material = "sicrv"            # a material of the dataset
//
// The table plan may also hold ride-exponent (1.3), target-sag, preload and
// preload-aim, oil and oil-aim, fluid (a fluid of the dataset, "fork-5"), and
// friction of the converted fork. A table bench may hold loose-reading, the
// caliper reading with the spring just touching, and a table torque any number
// of names with torques, to be repeated on the sheet in N·m and lbf·ft.
//
// Every quantity is a text with its unit. Unknown keys, missing keys and values
// out of range are errors with file, line, key and what was wanted, all of a file
// at once.
package jobfile
