package units_test

import (
	"fmt"
	"io"
	"testing"

	"example.org/forkcurve/units"
)

func BenchmarkParse(b *testing.B) {
	run := func(name string, parse func() error) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := parse(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	run("12.5 mm", func() error { _, err := units.Parse[units.Length]("12.5 mm"); return err })
	run("0.46 kgf÷mm", func() error { _, err := units.Parse[units.Stiffness]("0.46 kgf/mm"); return err })
	run("33.2 ft-lb", func() error { _, err := units.Parse[units.Torque]("33.2 ft-lb"); return err })
	run("10.8 bar(g)", func() error { _, err := units.Parse[units.GaugePressure]("10.8 bar(g)"); return err })
	run("20 °C", func() error { _, err := units.Parse[units.Temperature]("20 °C"); return err })
}

func BenchmarkAppendText(b *testing.B) {
	run := func(name string, q textMarshaler) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			buf := make([]byte, 0, 64)
			for b.Loop() {
				buf, _ = q.AppendText(buf[:0])
			}
		})
	}
	run("short length", 12.5*units.Millimeter)
	run("long length", units.Length(0.01234567890123456))
	run("short angle", 27.2*units.Degree)
	run("long angle", units.Angle(0.4747295565424))
	run("temperature", units.Celsius(20))
}

func BenchmarkFormat(b *testing.B) {
	b.ReportAllocs()
	var q any = 12.5 * units.Millimeter
	for b.Loop() {
		fmt.Fprintf(io.Discard, "%.1f", q)
	}
}
