// Command catalog prints the reference dataset as tables, and one fork of it with
// every value, its source, what the library says about it, and a drawing to scale.
//
//	go -C examples run ./catalog                          the whole dataset
//	go -C examples run ./catalog -use enduro,motocross    only forks for some uses
//	go -C examples run ./catalog -travel "100 mm..180 mm" only those of such a travel
//	go -C examples run ./catalog -spring air              only those on air, or on coil
//	go -C examples run ./catalog -id M07                  one fork, all of it
//	go -C examples run ./catalog -id M07 -out drawings    and its drawing as SVG and PNG
//	go -C examples run ./catalog -out drawings            drawings of all forks, as SVG
//	go -C examples run ./catalog -data my.toml            with forks of your own
//
// The exit status is 0, or 2 for an id, a filter or a file that is not there.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

const (
	exitDone = 0
	exitBad  = 2
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, problems io.Writer) int {
	flags := flag.NewFlagSet("catalog", flag.ContinueOnError)
	flags.SetOutput(problems)
	var (
		id     = flags.String("id", "", "show one fork, by `id`")
		use    = flags.String("use", "", "only forks for these `disciplines`, by id, with commas between")
		travel = flags.String("travel", "", "only forks of this travel, as `\"100 mm..180 mm\"`")
		spring = flags.String("spring", "", "only forks on `coil or air`")
		forks  = flags.String("data", "", "`file` with forks of your own, beside the dataset")
		dir    = flags.String("out", "", "write drawings into this `folder`: SVG and PNG of one fork, SVG of several")
	)
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return exitDone
	} else if err != nil {
		return exitBad
	}
	err := func() error {
		if flags.NArg() > 0 {
			return fmt.Errorf("what is %q? show a fork with -id", flags.Arg(0))
		}
		set, err := read(*forks)
		if err != nil {
			return err
		}
		sea, err := gas.Standard(0)
		if err != nil {
			return err
		}
		c := &catalog{Set: set, sea: sea}
		if *id != "" {
			if *use+*travel+*spring != "" {
				return errors.New("give -id or filters, not both")
			}
			return c.one(*id, *dir, out, problems)
		}
		filters, err := parseFilters(set, *use, *travel, *spring)
		if err != nil {
			return err
		}
		return c.all(filters, *dir, out, problems)
	}()
	if err != nil {
		fmt.Fprintln(problems, err)
		return exitBad
	}
	return exitDone
}

// read is the reference dataset, with forks of one's own if there is a file.
func read(name string) (*data.Set, error) {
	set := data.Reference()
	if name == "" {
		return set, nil
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	own, err := data.DecodeFile(name, f)
	if err != nil {
		return nil, err
	}
	return data.Merge(set, own), nil
}

// parseFilters turns flags into filters; an empty one lets everything pass.
func parseFilters(set *data.Set, use, travel, spring string) ([]data.Filter, error) {
	var filters []data.Filter
	if use != "" {
		uses := strings.Split(use, ",")
		for i := range uses {
			uses[i] = strings.TrimSpace(uses[i])
		}
		used, err := set.UsedFor(uses...)
		if err != nil {
			return nil, fmt.Errorf("-use: %w", err)
		}
		filters = append(filters, used)
	}
	if travel != "" {
		from, to, found := strings.Cut(travel, "..")
		if !found {
			to = from
		}
		lo, err := units.Parse[units.Length](strings.TrimSpace(from))
		if err != nil {
			return nil, fmt.Errorf("-travel: %w", err)
		}
		hi, err := units.Parse[units.Length](strings.TrimSpace(to))
		if err != nil {
			return nil, fmt.Errorf("-travel: %w", err)
		}
		if lo > hi {
			return nil, fmt.Errorf("-travel: from %v to %v: the smaller one comes first", lo, hi)
		}
		filters = append(filters, data.TravelFrom(lo, hi))
	}
	switch spring {
	case "":
	case string(data.CoilLeg), string(data.AirLeg):
		filters = append(filters, data.SprungBy(data.Role(spring)))
	default:
		return nil, fmt.Errorf("-spring: %q: want coil or air", spring)
	}
	return filters, nil
}

// catalog prints a set.
type catalog struct {
	*data.Set
	sea gas.Ambient // the air all forks are set up in
}

// one prints a fork and draws it into a folder if there is one.
func (c *catalog) one(id, dir string, out, problems io.Writer) error {
	fork, err := c.Fork(id)
	if err != nil {
		return err
	}
	m, err := c.model(fork)
	if err != nil {
		return err
	}
	if err := c.writePage(out, m); err != nil || dir == "" {
		return err
	}
	return save(m, dir, problems, ".svg", ".png")
}

// all prints the tables and draws the forks in them into a folder if there is one.
func (c *catalog) all(filters []data.Filter, dir string, out, problems io.Writer) error {
	var models []*model
	for fork := range c.Forks(filters...) {
		m, err := c.model(fork)
		if err != nil {
			return err
		}
		models = append(models, m)
	}
	if len(models) == 0 {
		return errors.New("no fork passes all filters")
	}
	if err := c.writeTables(out, models); err != nil || dir == "" {
		return err
	}
	for m := range slices.Values(models) {
		if err := save(m, dir, problems, ".svg"); err != nil {
			return err
		}
	}
	return nil
}

// save writes the drawing of a fork and names the files.
func save(m *model, dir string, problems io.Writer, kinds ...string) error {
	paths, err := writeDrawing(m, dir, kinds...)
	for _, path := range paths {
		fmt.Fprintln(problems, "wrote", path)
	}
	return err
}
