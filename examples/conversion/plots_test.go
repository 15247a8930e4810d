package main

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// demo is an invented job: an air fork, a rider and three coils. Oil is what the
// converted leg may hold.
func demo(t *testing.T, oilVolume conversion.Setting[units.Volume]) conversion.Job {
	t.Helper()
	const mm, mL = units.Millimeter, units.Milliliter
	home, err := gas.StandardAt(200*units.Meter, units.Celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	event, err := gas.StandardAt(2500*units.Meter, units.Celsius(4))
	if err != nil {
		t.Fatal(err)
	}
	wire, err := data.Reference().Wire("sicrv")
	if err != nil {
		t.Fatal(err)
	}
	gap := &setup.Gap{Area: geometry.Circle(48 * mm), Residual: 304 * mL}
	fluid, err := oil.NewFluid(oil.FluidSpec{Density: 860, Reference: units.Celsius(15), Expansion: 7.5e-4})
	if err != nil {
		t.Fatal(err)
	}
	var shelf []conversion.ShelfCoil
	for _, k := range []units.Stiffness{8.2, 8.6, 9.0} {
		k *= units.NewtonPerMillimeter
		shelf = append(shelf, conversion.ShelfCoil{Name: fmt.Sprintf("%.1f", k.In(units.NewtonPerMillimeter)), Rate: k,
			Wire: helical.Spec{Wire: 6.4 * mm, OuterDiameter: 42.5 * mm, Rate: k, FreeLength: 605 * mm, Material: wire}})
	}
	return conversion.Job{
		Rider: 79 * units.Kilogram,
		Chassis: geometry.Chassis{Rake: 27.2 * units.Degree, Offset: 56 * mm, WheelRadius: 345 * mm, Wheelbase: 1485 * mm,
			Mass: 111, UnsprungMass: 15.3, FrontShare: 0.485, FrontShareRidden: 0.47, CenterOfGravity: 910 * mm},
		Fork: geometry.Fork{Layout: geometry.Inverted, Travel: 305 * mm, Stanchion: geometry.Tube{Outer: 48 * mm, Bore: 44 * mm}, OuterBore: 54 * mm},
		Present: setup.Spec{Travel: 305 * mm, Closed: home, Friction: 84,
			Left: setup.Leg{Gap: gap, Air: &setup.Air{Bore: 34 * mm, Rod: 12 * mm, Volume: 430 * mL, NegativeVolume: 70 * mL, Port: 8 * mm,
				Fill: gas.Fill{Gauge: units.Gauge(9 * units.Bar), Ambient: home}}},
			Right: setup.Leg{Gap: gap}},
		ConvertedFriction: 63,
		Legs: []conversion.ConvertedLeg{{Side: setup.Left, Room: geometry.Room{Length: 620 * mm, Bore: 44 * mm},
			Bath: conversion.Bath{Interior: 900 * mL, Area: geometry.Circle(48 * mm), Metal: 30 * mL, SpringInOil: true}}},
		Shelf:   shelf,
		Preload: conversion.Setting[units.Length]{Min: 3 * mm, Aim: 4 * mm, Max: 5 * mm}, OilVolume: oilVolume,
		Oil:       fluid,
		Criterion: conversion.Energy, RideExponent: 1.3, SagWindow: [2]units.Share{0.18, 0.27},
		Workshop: home, Event: event,
	}
}

const mL = units.Milliliter

var usualOil = conversion.Setting[units.Volume]{Min: 500 * mL, Aim: 540 * mL, Max: 575 * mL}

func TestWritePlots(t *testing.T) {
	tooMuch := conversion.Setting[units.Volume]{Min: 690 * mL, Aim: 690 * mL, Max: 700 * mL}
	for _, c := range []struct {
		name string
		oil  conversion.Setting[units.Volume]
		safe bool
		edit func(*conversion.Job)
	}{
		{"safe", usualOil, true, func(*conversion.Job) {}},
		{"long name", usualOil, true, func(j *conversion.Job) {
			for i := range j.Shelf {
				j.Shelf[i].Name = strings.Repeat("a long <name> ", 20) + j.Shelf[i].Name
			}
		}},
		{"far event", usualOil, true, func(j *conversion.Job) {
			j.Event = gas.Ambient{Temperature: units.Celsius(-50), Pressure: units.Absolute(550 * units.Millibar)}
		}},
		{"no safe coil", tooMuch, false, func(*conversion.Job) {}},
		{"too soft to carry the rider", usualOil, false, func(j *conversion.Job) {
			j.Shelf, j.Rider = j.Shelf[:1], 200*units.Kilogram
			j.Shelf[0].Rate = 0.5 * units.NewtonPerMillimeter
			j.OilVolume = conversion.Setting[units.Volume]{Min: 50 * mL, Aim: 50 * mL, Max: 50 * mL}
			j.Present.Right.Gap = nil
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			job := demo(t, c.oil)
			c.edit(&job)
			r, err := conversion.Plan(job)
			if err != nil {
				t.Fatal(err)
			}
			if _, ok := r.Chosen(); ok != c.safe {
				t.Fatalf("safe %v, want %v: %v", ok, c.safe, r.Candidates[0].Findings)
			}
			dir := filepath.Join(t.TempDir(), "new")
			paths, err := writePlots(dir, r, job.RideExponent, job.Workshop, job.Event)
			if err != nil {
				t.Fatal(err)
			}
			var want []string
			for _, name := range []string{"force-travel", "rate-travel", "drift-temperature", "drift-altitude"} {
				want = append(want, filepath.Join(dir, name+".svg"), filepath.Join(dir, name+".png"))
			}
			if fmt.Sprint(paths) != fmt.Sprint(want) {
				t.Errorf("wrote %v, want %v", paths, want)
			}
			again := t.TempDir()
			if _, err := writePlots(again, r, job.RideExponent, job.Workshop, job.Event); err != nil {
				t.Fatal(err)
			}
			for _, path := range paths {
				data, err := os.ReadFile(path)
				if err != nil {
					t.Fatal(err)
				}
				second, err := os.ReadFile(filepath.Join(again, filepath.Base(path)))
				if err != nil {
					t.Fatal(err)
				}
				if !bytes.Equal(data, second) {
					t.Errorf("%s differs from one run to the next", path)
				}
				if filepath.Ext(path) == ".png" {
					if _, err := png.Decode(bytes.NewReader(data)); err != nil {
						t.Errorf("%s: %v", path, err)
					}
					continue
				}
				text := svgText(t, path, data)
				if warned := strings.Contains(text, "NO SAFE COIL"); warned == c.safe {
					t.Errorf("%s: warning in the title: %v", path, warned)
				}
			}
		})
	}
}

func TestWritePlotsErrors(t *testing.T) {
	job := demo(t, usualOil)
	r, err := conversion.Plan(job)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name   string
		dir    string
		report *conversion.Report
		want   string
	}{
		{"no report", t.TempDir(), nil, "no fork"},
		{"empty report", t.TempDir(), &conversion.Report{}, "no fork"},
		{"file for a folder", file, r, filepath.Join(file, "force-travel")},
	} {
		t.Run(c.name, func(t *testing.T) {
			paths, err := writePlots(c.dir, c.report, job.RideExponent, job.Workshop, job.Event)
			if err == nil || len(paths) != 0 || !strings.Contains(err.Error(), c.want) {
				t.Errorf("writePlots = %v, %v; want an error that says %q", paths, err, c.want)
			}
		})
	}
}

// svgText is the words of a well-formed drawing.
func svgText(t *testing.T, path string, data []byte) string {
	t.Helper()
	var b strings.Builder
	for d := xml.NewDecoder(bytes.NewReader(data)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return b.String()
		}
		if err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		if text, ok := token.(xml.CharData); ok {
			b.Write(text)
		}
	}
}
