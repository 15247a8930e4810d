package sheet_test

import (
	"bytes"
	"fmt"
	"log"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/conversion/sheet"
)

// A plan is written once, and read again by another program.
func ExampleReadJSON() {
	file, err := jobfile.Typical("B04", data.Reference())
	if err != nil {
		log.Fatal(err)
	}
	report, err := conversion.Plan(file.Job)
	if err != nil {
		log.Fatal(err)
	}
	var stored bytes.Buffer
	if err := sheet.WriteJSON(&stored, report); err != nil {
		log.Fatal(err)
	}
	back, err := sheet.ReadJSON(&stored)
	if err != nil {
		log.Fatal(err)
	}
	var text bytes.Buffer
	if err := sheet.WriteText(&text, back); err != nil {
		log.Fatal(err)
	}
	fmt.Println(back.Job.Heading.Title)
	for range 5 {
		line, _ := text.ReadString('\n')
		fmt.Print(line)
	}
	// Output:
	// Typical rider of fork B04
	// BENCH SHEET: SPRING CONVERSION
	// Typical rider of fork B04
	// Made up to show the sheet: rider, readings and shelf; no such spring need exist.
	// ================================================================================
	// Stored pressure: the charged air spring holds about 242 J. Wheel off the ground,
}
