package ride

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"sort"
	"strconv"
	"strings"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Profile is a road by its heights, straight from point to point or, Smooth, along
// cubics that keep the slope. Before the first point and after the last it is level.
type Profile struct {
	points  []point
	density float64 // points a second, in the mean
	smooth  bool
}

// point begins a piece of road, h + v·τ + c·τ² + d·τ³ at τ after its time.
type point struct{ t, h, v, c, d float64 } // s, m, m/s, m/s², m/s³

// Height is one point of a profile.
type Height struct {
	Time   units.Time   // after the start of the course
	Height units.Length // of the road over where the vehicle stands
}

// NewProfile takes 2 to 10 million points by rising time, at least 1 µs apart, within ±10 m
// and with slopes up to 50 m/s. The first has height 0, where the vehicle stands.
func NewProfile(heights []Height, smooth bool) (Profile, error) {
	f := check.Of("Profile")
	if n := len(heights); n < 2 || n > 10_000_000 {
		f.Report("heights", fmt.Sprintf("%d points", n), "2 to 10 000 000 points", "")
		return Profile{}, f.Err()
	}
	p := Profile{points: make([]point, len(heights)), smooth: smooth}
	for i, h := range heights {
		field := fmt.Sprintf("heights[%d]", i)
		ok := check.Between(f, field+".Height", h.Height, -10*units.Meter, 10*units.Meter)
		p.points[i] = point{t: float64(h.Time), h: float64(h.Height)}
		if i == 0 {
			check.Between(f, field+".Time", h.Time, 0, units.Hour)
			check.Between(f, field+".Height", h.Height, 0, 0)
			continue
		}
		before := heights[i-1]
		if !check.Between(f, field+".Time", h.Time, before.Time+1e-6*units.Second, units.Hour) || !ok {
			break // what follows hangs on it
		}
		slope := units.Speed(float64(h.Height-before.Height) / float64(h.Time-before.Time))
		if math.Abs(float64(slope)) > 50 {
			f.Report(field+".Height", h.Height, "a slope from the point before of at most 50 m/s",
				fmt.Sprintf("this one is %.3g", slope))
			break
		}
	}
	if err := f.Err(); err != nil {
		return Profile{}, err
	}
	last := len(p.points) - 1
	p.density = float64(last) / (p.points[last].t - p.points[0].t)
	if smooth {
		p.slopes()
	}
	for i := range last {
		a, b := &p.points[i], &p.points[i+1]
		width, rise := b.t-a.t, b.h-a.h
		if !smooth {
			a.v = rise / width
			continue
		}
		// Hermite's cubic through both heights and slopes.
		begins, ends := a.v*width-rise, b.v*width-rise
		a.c, a.d = -(2*begins+ends)/(width*width), (begins+ends)/(width*width*width)
	}
	return p, nil
}

// slopes at the points of a smooth profile, level at both ends: the mean of those on
// either side, weighed so that a parabola is kept.
func (p *Profile) slopes() {
	for i := 1; i+1 < len(p.points); i++ {
		a, b, c := p.points[i-1], p.points[i], p.points[i+1]
		before, after := b.t-a.t, c.t-b.t
		p.points[i].v = ((b.h-a.h)/before*after + (c.h-b.h)/after*before) / (before + after)
	}
}

// At a time.
func (p Profile) At(t units.Time) (units.Length, units.Speed) {
	h, v := p.at(float64(t))
	return units.Length(h), units.Speed(v)
}

// at is At in SI numbers.
func (p *Profile) at(s float64) (h, v float64) {
	last := len(p.points) - 1
	if last < 1 || !(s >= p.points[0].t) {
		return 0, 0
	}
	if end := &p.points[last]; s >= end.t {
		return end.h, 0
	}
	// Most profiles have even steps: look where the point then is first.
	i := min(int((s-p.points[0].t)*p.density), last-1)
	if !(p.points[i].t <= s && s < p.points[i+1].t) {
		i = sort.Search(last, func(i int) bool { return p.points[i+1].t > s })
	}
	q := &p.points[i]
	after := s - q.t
	squared := after * after
	return q.h + after*q.v + squared*(q.c+after*q.d), q.v + 2*after*q.c + 3*squared*q.d
}

// Corners of a profile of straight lines are its points.
func (p Profile) Corners() []units.Time {
	if p.smooth {
		return nil
	}
	list := make([]units.Time, len(p.points))
	for i, q := range p.points {
		list[i] = units.Time(q.t)
	}
	return list
}

// Step is a road that rises, or falls, by a height within a time: a ramp.
func Step(height units.Length, start, within units.Time) (Profile, error) {
	return NewProfile([]Height{{}, {start, 0}, {start + within, height}}, false)
}

// Edge is a square edge of a height ridden over at a speed, as the axle of a wheel of that
// radius meets it: it climbs along the circle about the edge.
func Edge(height, radius units.Length, speed units.Speed, start units.Time) (Profile, error) {
	f := check.Of("Edge")
	r := check.Between(f, "radius", radius, 50*units.Millimeter, 1*units.Meter)
	check.Between(f, "speed", speed, 0.1*units.MeterPerSecond, 100*units.MeterPerSecond)
	check.Between(f, "start", start, 0.001*units.Second, units.Hour)
	if r {
		check.Between(f, "height", height, 1*units.Millimeter, radius/2)
	}
	if err := f.Err(); err != nil {
		return Profile{}, err
	}
	// Contact begins where the circle reaches down to the ground.
	reach := math.Sqrt(2*float64(radius)*float64(height) - float64(height)*float64(height))
	const n = 64
	list := []Height{{}, {start, 0}}
	for i := 1; i <= n; i++ {
		s := reach * (1 - float64(i)/n)
		h := math.Sqrt(float64(radius)*float64(radius)-s*s) - float64(radius) + float64(height)
		list = append(list, Height{start + units.Time((reach-s)/float64(speed)), units.Length(h)})
	}
	return NewProfile(list, false)
}

// Whoops are n rounded bumps of a height and length from crest to crest at a speed.
func Whoops(height, length units.Length, n int, speed units.Speed, start units.Time) (Profile, error) {
	f := check.Of("Whoops")
	check.Between(f, "height", height, 1*units.Millimeter, 2*units.Meter)
	check.Between(f, "length", length, 100*units.Millimeter, 50*units.Meter)
	check.Between(f, "n", float64(n), 1, 1000)
	check.Between(f, "speed", speed, 0.1*units.MeterPerSecond, 100*units.MeterPerSecond)
	check.Between(f, "start", start, 0, units.Hour)
	if err := f.Err(); err != nil {
		return Profile{}, err
	}
	const parts = 48
	list := []Height{{}}
	period := units.Time(float64(length) / float64(speed))
	if level := start - period/parts; level > 1*units.Millisecond { // or the smooth road dips all the way to the bumps
		list = append(list, Height{level, 0})
	}
	for i := range n*parts + 1 {
		t := start + period*units.Time(i)/parts
		if i == 0 && start == 0 {
			continue
		}
		list = append(list, Height{t, height * units.Length(0.5*(1-math.Cos(2*math.Pi*float64(i)/parts)))})
	}
	return NewProfile(list, true)
}

// ReadProfile reads a recorded road from CSV with the columns time_s and height_mm, in
// that order under that header, up to 64 MiB. The record is taken as smooth, and from
// its first height as 0. Faults are *[units.FileError].
func ReadProfile(name string, r io.Reader) (Profile, error) {
	const most = 64 << 20
	within := &io.LimitedReader{R: r, N: most + 1}
	in := csv.NewReader(within)
	in.FieldsPerRecord, in.ReuseRecord, in.Comment = 2, true, '#'
	fault := func(key, text string, err error) error {
		line, column := in.FieldPos(0)
		return &units.FileError{File: name, Line: line, Column: column, Key: key, Text: text, Err: err}
	}
	header := [...]string{"time_s", "height_mm"}
	var list []Height
	var start float64
	for row := 0; ; row++ {
		record, err := in.Read()
		switch {
		case within.N <= 0:
			return Profile{}, &units.FileError{File: name, Line: 1, Err: errors.New("longer than 64 MiB")}
		case errors.Is(err, io.EOF) && row == 0:
			return Profile{}, &units.FileError{File: name, Line: 1, Err: errors.New("empty; want time_s,height_mm")}
		case errors.Is(err, io.EOF):
			p, err := NewProfile(list, true)
			if err != nil {
				err = &units.FileError{File: name, Line: 1, Err: err}
			}
			return p, err
		case err != nil:
			var parse *csv.ParseError
			line := row + 1
			if errors.As(err, &parse) {
				line, err = parse.Line, parse.Err
			}
			return Profile{}, &units.FileError{File: name, Line: line, Err: err}
		case row == 0:
			if record[0] != header[0] || record[1] != header[1] {
				return Profile{}, fault("", strings.Join(record, ","), errors.New("want the header time_s,height_mm"))
			}
			continue
		}
		var x [2]float64
		for i, text := range record {
			if x[i], err = strconv.ParseFloat(text, 64); err != nil {
				return Profile{}, fault(header[i], text, errors.New("want a number with a decimal point"))
			}
		}
		if row == 1 {
			start = x[1]
		}
		list = append(list, Height{units.Time(x[0]), units.Length(x[1]-start) * units.Millimeter})
	}
}

// End is the time of the last point.
func (p Profile) End() units.Time {
	if len(p.points) == 0 {
		return 0
	}
	return units.Time(p.points[len(p.points)-1].t)
}
