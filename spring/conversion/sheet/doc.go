// Package sheet writes a plan out: the bench sheet as text and the report as JSON, each
// with the cautions of the work.
package sheet
