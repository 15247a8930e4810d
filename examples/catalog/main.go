// Command catalog prints the reference dataset as tables, and one fork of it with
// every value, its source, what the library says about it, and a drawing to scale.
//
//	go -C examples run ./catalog                          the whole dataset
//	go -C examples run ./catalog -use enduro,motocross    only forks for some uses
//	go -C examples run ./catalog -travel "100 mm..180 mm" only those of such a travel
//	go -C examples run ./catalog -spring air              only those on air, or on coil
//	go -C examples run ./catalog -id M07                  one fork, all of it
//	go -C examples run ./catalog -id M07 -out drawings    and its legs and front end as SVG and PNG
//	go -C examples run ./catalog -out drawings            drawings of all forks, as SVG
//	go -C examples run ./catalog -field travel -out plots one field over all forks, with its spread and evidence
//	go -C examples run ./catalog -data my.toml            with forks of your own
//
// For people without Go, all values with unit, spread, source and grade:
//
//	go -C examples run ./catalog -csv > values.csv        as a table
//	go -C examples run ./catalog -json                    as JSON, with the sources
//	go -C examples run ./catalog -package                 the descriptor of the table, a Frictionless data package
//	go -C examples run ./catalog -schema                  the JSON Schema of a dataset file
//
// The exit status is 0, or 2 for an id, a filter or a file that is not there.
package main

import (
	"errors"
	"fmt"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

func main() { program.Main(command) }

func command(p *program.Program) func() error {
	id := p.Text("id", "", "show one fork, by `id`")
	use := program.Flag(p, "use", "", "only forks for these `disciplines`, by id, with commas between",
		program.List(func(text string) (string, error) { return text, nil }))
	travel := program.Flag(p, "travel", "", "only forks of this travel, as `\"100 mm..180 mm\"`", ofTravel)
	spring := program.Flag(p, "spring", "", "only forks on `coil or air`", onSpring)
	field := p.Text("field", "", "draw one `field` of all forks, as travel or chassis.rake; needs -out")
	set := p.Data()
	folder := p.Folder("out", "write drawings into this `folder`: SVG and PNG of one fork, SVG of several")
	export := exports(p)
	return func() error {
		if done, err := export(*set); done || err != nil {
			return err
		}
		sea, err := gas.Standard(0)
		if err != nil {
			return err
		}
		c := &catalog{Set: *set, sea: sea}
		var filters []data.Filter
		for _, f := range []data.Filter{*travel, *spring} {
			if f != nil {
				filters = append(filters, f)
			}
		}
		if *use != nil {
			used, err := c.UsedFor(*use...)
			if err != nil {
				return fmt.Errorf("-use: %w", err)
			}
			filters = append(filters, used)
		}
		switch {
		case *field != "" && (*id != "" || !folder.Given()):
			return errors.New("-field draws all forks: give -out with it, and no -id")
		case *field != "":
			f, err := c.field(*field, filters)
			if err != nil {
				return err
			}
			return folder.Draw(strings.ReplaceAll(*field, ".", "-"), f)
		case *id == "":
			return c.all(p, folder, filters)
		case len(filters) > 0:
			return errors.New("give -id or filters, not both")
		}
		return c.one(p, folder, *id)
	}
}

// ofTravel reads a travel, or two with dots between, as a filter.
func ofTravel(text string) (data.Filter, error) {
	from, to, found := strings.Cut(text, "..")
	if !found {
		to = from
	}
	length := program.Between(0, 10*units.Meter)
	lo, err := length(from)
	hi, err2 := length(to)
	if err := errors.Join(err, err2); err != nil {
		return nil, err
	}
	if lo > hi {
		return nil, fmt.Errorf("from %v to %v: the smaller one comes first", lo, hi)
	}
	return data.TravelFrom(lo, hi), nil
}

// onSpring reads a kind of spring as a filter.
func onSpring(text string) (data.Filter, error) {
	switch kind := data.Role(text); kind {
	case data.CoilLeg, data.AirLeg:
		return data.SprungBy(kind), nil
	}
	return nil, fmt.Errorf("%q: want coil or air", text)
}

// catalog prints a set.
type catalog struct {
	*data.Set
	sea gas.Ambient // the air all forks are set up in
}

// one prints a fork and draws it into the folder.
func (c *catalog) one(p *program.Program, folder program.Folder, id string) error {
	fork, err := c.Fork(id)
	if err != nil {
		return err
	}
	m, err := c.model(fork)
	if err != nil {
		return err
	}
	if err := p.Print(c.page(m)); err != nil {
		return err
	}
	return errors.Join(folder.Draw(m.ID, newDrawing(m)), folder.Draw(m.ID+"-front", newFront(m)))
}

// all prints the tables and draws the forks in them into the folder.
func (c *catalog) all(p *program.Program, folder program.Folder, filters []data.Filter) error {
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
	if err := p.Print(c.tables(models)); err != nil || !folder.Given() {
		return err
	}
	for _, m := range models {
		svg, err := newDrawing(m).SVG()
		if err == nil {
			err = folder.Save(m.ID+".svg", svg)
		}
		if err != nil {
			return fmt.Errorf("drawing %s: %w", m.ID, err)
		}
	}
	return nil
}
