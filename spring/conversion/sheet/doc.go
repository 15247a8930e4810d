// Package sheet hands a plan out: as the text of a bench sheet, with steps to tick and boxes
// for readings, as JSON, and its curves as CSV. Text and JSON bring the cautions of the work
// with them.
//
//	report, err := conversion.Plan(job)
//	err = sheet.WriteText(os.Stdout, report)
//
// In the JSON and the CSV a quantity is a number in one fixed unit that its key ends in,
// as "preload_mm"; gauge and absolute pressures say which they are. Changes are named so,
// every key is always there, and the JSON reads back into the same report. keys.txt
// lists all keys and columns; [Version] says when they change.
//
// The words of the text are in sheet.tmpl. Everything here is safe for concurrent use.
package sheet
