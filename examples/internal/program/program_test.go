package program_test

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/units"
)

func command(p *program.Program) func() error {
	forks := program.Flag(p, "fork", "M06", "`ids`", program.List(data.Reference().Fork))
	mass := program.Flag(p, "rider", "", "`mass`", program.Between(10*units.Kilogram, 250*units.Kilogram))
	set := p.Data()
	no := p.Flags.Bool("no", false, "no answer")
	folder := p.Folder("out", "write a plot into this `folder`")
	return func() error {
		if *no {
			return fmt.Errorf("nothing fits: %w", program.ErrNoAnswer)
		}
		var ids []string
		for _, f := range *forks {
			ids = append(ids, f.ID)
		}
		known := 0
		for range (*set).Forks() {
			known++
		}
		if err := p.Print(fmt.Sprintf("%s, %.0f, of many: %v\n", strings.Join(ids, " and "), *mass,
			known > 40)); err != nil {
			return err
		}
		axis := chart.Axis{Label: "Travel"}
		return folder.Draw("line", &chart.Figure{X: axis, Y: axis,
			Lines: []chart.Line{{Name: "a", X: []float64{0, 1}, Y: []float64{0, 1}}}})
	}
}

func TestRun(t *testing.T) {
	for _, c := range []struct {
		name   string
		args   []string
		status int
		out    string
	}{
		{"fallbacks", nil, program.Done, "M06, 0 kg, of many: true\n"},
		{"given", []string{"-fork", "m07, B04", "-rider", " 176.37 lb"}, program.Done,
			"M07 and B04, 80 kg, of many: true\n"},
		{"no answer", []string{"-no"}, program.NoAnswer, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, out, problems := golden.Run(t, command, c.args...)
			if status != c.status || out != c.out || problems != "" {
				t.Errorf("status %d, printed %q, %s", status, out, problems)
			}
		})
	}
	golden.Pictures(t, command, 2)
}

func TestRefuses(t *testing.T) {
	golden.Refuses(t, command,
		golden.Bad{Name: "all flags at fault", Args: []string{"-fork", "none,M06,nothing", "-rider", "1 kg"},
			Want: []string{`-fork: no fork "none"`, `-fork: no fork "nothing"`, "-rider = 1 kg: want 10 kg to 250 kg"}},
		golden.Bad{Name: "no such file", Args: []string{"-data", filepath.Join(t.TempDir(), "none")},
			Want: []string{"-data: ", "none"}})
}
