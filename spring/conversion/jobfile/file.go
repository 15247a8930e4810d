package jobfile

import (
	"io"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// File is a job as it was written, and the conversion.Job it stands for.
type File struct {
	Title      string
	Stance     string
	Discipline data.Discipline
	Fork       data.Fork
	Fill       gas.Fill // of a fork on air
	Workshop   Place
	Event      Place
	Torques    []Torque

	Job conversion.Job
}

// Place is where a fork is, and when.
type Place struct {
	Name     string       `json:"name,omitempty"`
	Altitude units.Length `json:"altitude"`
	Ambient  gas.Ambient  `json:"ambient"`
}

// Torque is one the technician wants on the sheet.
type Torque struct {
	Name  string       `json:"name"`
	Value units.Torque `json:"value"`
}

// Decode reads a job. Forks, materials, fluids and disciplines are looked up in
// the set. The error joins a fault for each thing wrong, as
//
//	job.toml:4: rider.mass = "79": unit missing; want kg, g, lb, oz
func Decode(name string, r io.Reader, set *data.Set) (*File, error) {
	doc, err := strict.Parse(name, r)
	if err != nil {
		return nil, err
	}
	d := decoder{set: set, root: doc.Root(), file: &File{}}
	d.decode()
	if err := doc.Err(); err != nil {
		return nil, err
	}
	return d.file, nil
}
