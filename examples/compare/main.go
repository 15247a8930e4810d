// Command compare sets forks, jobs and builds side by side, sweeps one or two inputs, and maps what weather and
// altitude do.
//
//	go -C examples run ./compare                                   an air fork beside its coil, and a coil fork
//	go -C examples run ./compare -forks M07,B04                    forks of the dataset, present and planned
//	go -C examples run ./compare -jobs a.toml,b.toml               jobs of your own, with builds where they tell one
//	go -C examples run ./compare -sweep "rider = 60 kg to 100 kg by 5"    what each plan comes to, input by input
//	go -C examples run ./compare -sweep "rider = 60 kg to 100 kg by 5" -and "pressure = 8 bar to 10 bar by 3"
//	go -C examples run ./compare -map                              change of sag over temperature and altitude
//	go -C examples run ./compare -csv                              the same as CSV; -json as JSON, a line for each row
//	go -C examples run ./compare -out folder                       and plots as SVG and PNG
//
// Inputs are rider, pressure, sag, friction, exponent, temperature and altitude of the event. Ctrl-C ends it with
// the rows that are finished, each whole, and status 1.
package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"runtime"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/units"
)

func main() { program.Main(command) }

// most rows of a sweep or a map.
const most = 100_000

func command(p *program.Program) func() error {
	forks := program.Flag(p, "forks", "M06,M07", "forks of the dataset by `ids`, each with its typical rider",
		program.List(func(id string) (string, error) {
			_, err := data.Reference().Fork(id)
			return id, err
		}))
	jobs := program.Flag(p, "jobs", "", "job `files` instead, with commas between", program.List(plain))
	first := program.Flag(p, "sweep", "", "an `input` and its values, as \"rider = 60 kg to 100 kg by 5\"", readInput)
	second := program.Flag(p, "and", "", "a second `input`, of which every value meets every one of the first", readInput)
	asMap := p.Flags.Bool("map", false, "change of sag over temperature and altitude, and the worst of it")
	warmth := program.Flag(p, "temperatures", "-5 °C to 35 °C", "`range` of the event", readRange(-40, 60, celsius))
	height := program.Flag(p, "altitudes", "0 m to 3000 m", "`range` of the event", readRange(-500, 9000, meters))
	asCSV := p.Flags.Bool("csv", false, "print CSV")
	asJSON := p.Flags.Bool("json", false, "print JSON, a line for each row")
	workers := program.Flag(p, "workers", fmt.Sprint(max(1, min(64, runtime.NumCPU()))),
		"`number` of rows worked on at once",
		program.Number(1, 64))
	folder := p.Folder("out", "write plots into this `folder`")
	return func() error {
		switch {
		case *asCSV && *asJSON:
			return errors.New("give -csv or -json, not both")
		case *asMap && first.name != "":
			return errors.New("give -sweep or -map, not both")
		case first.name == "" && second.name != "":
			return errors.New("-and is a second input; give the first by -sweep")
		case second.name == first.name && first.name != "":
			return fmt.Errorf("-and: %s is swept already", first.name)
		}
		files, err := read(*jobs, *forks)
		if err != nil {
			return err
		}
		ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
		defer stop()
		var t table
		switch {
		case *asMap:
			t, err = newMap(files, *warmth, *height)
		case first.name != "":
			t, err = newSweep(files, *first, *second)
		default:
			t, err = newLineup(files)
		}
		if err != nil {
			return err
		}
		run := runner{workers: *workers, tell: program.Progress(p.Problems, t.what())}
		write := t.text(p.Out)
		if *asCSV {
			write = csvRows(p.Out)
		} else if *asJSON {
			write = jsonRows(p.Out)
		}
		done, err := run.rows(ctx, t, write.row)
		if err := errors.Join(err, write.end()); err != nil {
			return err
		}
		if ctx.Err() != nil {
			fmt.Fprintf(p.Problems, "stopped: %d of %d rows\n", done, t.len())
			return program.ErrNoAnswer
		}
		return t.draw(folder)
	}
}

func plain(text string) (string, error) {
	if strings.TrimSpace(text) == "" {
		return "", errors.New("a name is missing between commas")
	}
	return text, nil
}

// item is a job with the name it goes by.
type item struct {
	name string
	file *jobfile.File
}

// read gets jobs from files, or typical ones of forks.
func read(jobs, forks []string) ([]item, error) {
	var list []item
	var faults []error
	add := func(name string, file *jobfile.File, err error) {
		if err == nil && file.Air != nil {
			err = fmt.Errorf("%s: a job to air; compare plans coil springs", name)
		}
		list, faults = append(list, item{name, file}), append(faults, err)
	}
	if len(jobs) == 0 {
		for _, id := range forks {
			file, err := jobfile.Typical(id, data.Reference())
			add(id, file, err)
		}
		return list, errors.Join(faults...)
	}
	for _, name := range jobs {
		file, err := decode(name)
		base := filepath.Base(name)
		add(strings.TrimSuffix(base, filepath.Ext(base)), file, err)
	}
	return list, errors.Join(faults...)
}

func decode(name string) (*jobfile.File, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return jobfile.Decode(name, f, data.Reference())
}

func celsius(text string) (float64, error) {
	t, err := units.Parse[units.Temperature](text)
	return t.Celsius(), err
}

func meters(text string) (float64, error) {
	l, err := units.Parse[units.Length](text)
	return l.In(units.Meter), err
}

// readRange reads two rising values, as "0 m to 3000 m".
func readRange(lo, hi float64, value func(string) (float64, error)) func(string) ([2]float64, error) {
	return func(text string) ([2]float64, error) {
		from, to, ok := strings.Cut(text, " to ")
		if !ok {
			return [2]float64{}, errors.New(`want a range, as "0 m to 3000 m"`)
		}
		a, err1 := value(strings.TrimSpace(from))
		b, err2 := value(strings.TrimSpace(to))
		if err := errors.Join(err1, err2); err != nil {
			return [2]float64{}, err
		}
		if !(a >= lo && a < b && b <= hi) {
			return [2]float64{}, &units.RangeError{Value: text, Want: fmt.Sprintf("two rising values from %g to %g", lo, hi)}
		}
		return [2]float64{a, b}, nil
	}
}
