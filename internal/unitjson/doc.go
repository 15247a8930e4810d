// Package unitjson writes Go values as JSON in which every quantity is a number in one
// fixed unit, told by its key, and reads them back bit for bit.
//
//	Preload units.Length `json:"preload"`              "preload_mm": 3.3
//	Height  units.Length `json:"height" unit:"m"`      "height_m": 2500
//	Rates   []units.Stiffness                          "rates_N_per_mm": [8.4, 8.8]
//	Side    setup.Side                                 "side": "left"
//	Value   an interface that holds 12 J               "value": {"kind": "energy", "number": 12, "unit": "J"}
//	Spring  an interface that holds a spring.CoilSpec  "spring": {"kind": "coil", …}
//
// A field without a json tag has its name in lower case with underscores. Every key is
// always written and always wanted: an empty list is [], what is absent is null.
//
// A unit that is a power of ten of the SI unit moves the decimal point of the
// shortest text of the number; degrees are converted with more digits than a float64 has.
package unitjson
