package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"io"
	"maps"
	"slices"
	"strconv"
	"sync"

	"example.org/forkcurve/examples/internal/program"
)

// cell is one value of a row, a text or a number, under a key that ends in its unit.
type cell struct {
	key   string
	value any
}

// table is what is computed row by row, each on its own.
type table interface {
	what() string
	len() int
	row(i int) []cell
	text(w io.Writer) writer
	draw(folder program.Folder) error
}

// writer takes the rows in their order.
type writer interface {
	row([]cell) error
	end() error
}

// runner works on rows at once and hands them on in their order, so that any number of workers gives the same.
type runner struct {
	workers int
	tell    func(done, of int)
}

// rows hands every row to take. Where the context ends, those that are finished are handed on, whole and in order;
// so they are where taking one fails. It returns how many were taken.
func (r runner) rows(ctx context.Context, t table, take func([]cell) error) (int, error) {
	type result struct {
		i     int
		cells []cell
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	queue, results := make(chan int), make(chan result)
	var work sync.WaitGroup
	for range r.workers {
		work.Go(func() {
			for i := range queue {
				results <- result{i, t.row(i)}
			}
		})
	}
	go func() {
		defer func() { close(queue); work.Wait(); close(results) }()
		for i := range t.len() {
			select {
			case <-ctx.Done():
				return
			default:
			}
			select {
			case <-ctx.Done():
				return
			case queue <- i:
			}
		}
	}()
	waiting, next, finished, taken := map[int][]cell{}, 0, 0, 0
	var failed error
	hand := func(cells []cell) {
		if failed == nil {
			if failed = take(cells); failed == nil {
				taken++
				return
			}
			stop()
		}
	}
	for got := range results {
		waiting[got.i] = got.cells
		finished++
		r.tell(finished, t.len())
		for cells, ok := waiting[next]; ok; cells, ok = waiting[next] {
			hand(cells)
			delete(waiting, next)
			next++
		}
	}
	for _, i := range slices.Sorted(maps.Keys(waiting)) {
		hand(waiting[i])
	}
	return taken, failed
}

// csvTable writes a head and a line for each row.
type csvTable struct {
	out   *csv.Writer
	begun bool
}

func csvRows(w io.Writer) writer { return &csvTable{out: csv.NewWriter(w)} }

func (c *csvTable) row(cells []cell) error {
	var head, line []string
	for _, v := range cells {
		head = append(head, v.key)
		switch v := v.value.(type) {
		case float64:
			line = append(line, strconv.FormatFloat(v, 'g', 8, 64))
		case string:
			line = append(line, v)
		default:
			line = append(line, "")
		}
	}
	if !c.begun {
		c.begun = true
		if err := c.out.Write(head); err != nil {
			return err
		}
	}
	if err := c.out.Write(line); err != nil {
		return err
	}
	c.out.Flush() // so that what is finished stands
	return c.out.Error()
}

func (c *csvTable) end() error { return c.out.Error() }

// jsonLines writes an object on a line of its own for each row, its keys in order.
type jsonLines struct{ w io.Writer }

func jsonRows(w io.Writer) writer { return jsonLines{w} }

func (j jsonLines) row(cells []cell) error {
	var b bytes.Buffer
	before := "{"
	for _, v := range cells {
		key, err := json.Marshal(v.key)
		if err != nil {
			return err
		}
		value, err := json.Marshal(v.value)
		if err != nil {
			return err
		}
		b.WriteString(before)
		before = ", "
		b.Write(append(append(key, ": "...), value...))
	}
	b.WriteString("}\n")
	_, err := j.w.Write(b.Bytes())
	return err
}

func (jsonLines) end() error { return nil }
