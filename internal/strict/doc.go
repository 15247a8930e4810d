// Package strict reads one text, TOML or JSON, into a checked, positioned view.
//
// A reader asks the view for what it expects, key by key. Each request notes
// the key as known and any fault it meets; nothing stops at the first one.
// [Doc.Err] then adds the keys nobody asked for and returns all faults of the
// file, in line order, each as a *units.FileError with file, line and key:
//
//	job.toml:15: rider.mass = "82": unit missing; want kg, g, lb, oz
//
// Quantities are texts with a unit ("305 mm"), ranges lists of two such texts,
// shares texts in percent ("48.5 %"). Bare numbers are for counts and ratios.
// Lists of tables are refused: a named table says more and has one position.
//
// After a fault the request returns a zero value, so a result may be used only
// when Doc.Err is nil.
package strict
