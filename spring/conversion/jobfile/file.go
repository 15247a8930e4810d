package jobfile

import (
	"io"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/spring/conversion"
)

// File is a job as it was written: what it looked up in the dataset, and the conversion.Job it
// stands for.
type File struct {
	Fork       data.Fork       // as the dataset has it
	Discipline data.Discipline // as the dataset has it; the zero one if the job names none
	Job        conversion.Job  // what both, and the job itself, come to

	Build *conversion.Build  // that stands on the bench, to be judged; nil: to be planned
	Air   *conversion.AirJob // where the fork is to be filled with air, from Build if there is one; nil: coil springs
}

// Report is the plan for the job, or where it has a build what is to be said of that.
func (f *File) Report() (*conversion.Report, error) {
	if f.Build != nil {
		return conversion.Check(f.Job, *f.Build)
	}
	return conversion.Plan(f.Job)
}

// Decode reads a job of at most 1 MiB, TOML or JSON of the same keys. Forks, materials, fluids and disciplines are
// looked up in the set. The error joins a fault for each thing wrong, as
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
	d.file.Job.Heading.Units = doc.Style()
	if d.file.Air != nil {
		d.file.Air.Heading.Units = doc.Style()
	}
	return d.file, nil
}
