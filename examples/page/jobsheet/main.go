//go:build js && wasm

// Command jobsheet makes a bench sheet of a job file, for the page, which loads it when a file is dropped.
// It gives the page the function jobSheet(name, text), which returns {Sheet, Faults}.
package main

import (
	"strings"
	"syscall/js"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/conversion/sheet"
	"example.org/forkcurve/units"
)

func main() {
	js.Global().Set("jobSheet", js.FuncOf(func(_ js.Value, args []js.Value) any {
		text, err := write(args[0].String(), args[1].String())
		faults := []any{}
		for _, err := range units.Faults(err) {
			faults = append(faults, err.Error())
		}
		return map[string]any{"Sheet": text, "Faults": faults}
	}))
	js.Global().Call("dispatchEvent", js.Global().Get("Event").New("jobsheet"))
	select {}
}

func write(name, text string) (string, error) {
	job, err := jobfile.Decode(name, strings.NewReader(text), data.Reference())
	if err != nil {
		return "", err
	}
	var b strings.Builder
	if job.Air != nil {
		report, err := conversion.PlanAir(*job.Air)
		if err != nil {
			return "", err
		}
		err = sheet.WriteAirText(&b, report)
		return b.String(), err
	}
	report, err := job.Report()
	if err != nil {
		return "", err
	}
	err = sheet.WriteText(&b, report)
	return b.String(), err
}
