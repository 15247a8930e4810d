// Command serve answers questions about forks over HTTP, as a program that embeds the
// library would.
//
//	go -C examples run ./serve                         prints its address, stops on Ctrl-C
//	go -C examples run ./serve -listen localhost:8080  at an address of your own
//
//	GET  /forks   the forks of the dataset
//	POST /ride    {"job": …}   a fork with its rider: sag band, drift, curves and cautions
//	POST /plan    {"job": …}   a conversion: the report with its findings and cautions
//
// A job is what package jobfile reads, as JSON: the tables fork, rider, air, workshop and event, and
// for a plan the rest. Forks of one's own come beside it in the schema of package data, as {"job": …,
// "data": {"fork": {"mine": …}}}. Bad input gets the status 400 and all its faults by part and key.
package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/signal"
	"time"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/conversion/sheet"
	"example.org/forkcurve/units"
)

const most, limit = 1 << 20, 10 * time.Second // bytes of a body, time of an answer

func main() { program.Main(command) }

func command(p *program.Program) func() error {
	address := p.Text("listen", "localhost:0", "`address` to listen at; port 0 is any that is free")
	return func() error {
		ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
		defer stop()
		return serve(ctx, *address, p.Out)
	}
}

// serve prints where it listens and answers until the context ends; open answers then finish.
func serve(ctx context.Context, address string, out io.Writer) error {
	l, err := net.Listen("tcp", address)
	if err != nil {
		return err
	}
	fmt.Fprintln(out, "http://"+l.Addr().String())
	s := &http.Server{Handler: handler(), ReadTimeout: limit, WriteTimeout: 2 * limit, IdleTimeout: time.Minute}
	finished := make(chan error, 1)
	context.AfterFunc(ctx, func() {
		last, cancel := context.WithTimeout(context.Background(), limit)
		defer cancel()
		finished <- s.Shutdown(last)
	})
	if err := s.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return <-finished
}

func handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /forks", func(w http.ResponseWriter, _ *http.Request) {
		names := map[string]string{}
		for f := range data.Reference().Forks() {
			names[f.ID] = f.Name
		}
		reply(w, http.StatusOK, names)
	})
	mux.HandleFunc("POST /ride", handle(jobfile.DecodeRide, sheet.WriteRideJSON))
	mux.HandleFunc("POST /plan", handle(jobfile.Decode, func(out io.Writer, f *jobfile.File) error {
		report, err := f.Report()
		if err != nil {
			return err
		}
		return sheet.WriteJSON(out, report)
	}))
	return http.TimeoutHandler(http.MaxBytesHandler(mux, most), limit, `{"faults": [{"fault": "it took too long"}]}`)
}

type decoder[Q any] func(name string, r io.Reader, set *data.Set) (Q, error)

// handle reads a question and writes what a function makes of it.
func handle[Q any](decode decoder[Q], write func(io.Writer, Q) error) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		var b bytes.Buffer
		question, err := read(r.Body, decode)
		if err == nil {
			err = write(&b, question)
		}
		switch {
		case errors.As(err, new(*http.MaxBytesError)):
			reply(w, http.StatusRequestEntityTooLarge, faults(err))
		case err != nil:
			reply(w, http.StatusBadRequest, faults(err))
		default:
			reply(w, http.StatusOK, json.RawMessage(b.Bytes()))
		}
	}
}

// read takes a body apart: a job, and forks of one's own beside it.
func read[Q any](body io.Reader, decode decoder[Q]) (question Q, err error) {
	var parts struct{ Job, Data json.RawMessage }
	d := json.NewDecoder(body)
	d.DisallowUnknownFields()
	if err := d.Decode(&parts); err != nil {
		return question, err
	}
	set := data.Reference()
	if parts.Data != nil {
		own, err := data.DecodeFile("data", bytes.NewReader(parts.Data))
		if err != nil {
			return question, err
		}
		set = data.Merge(set, own)
	}
	return decode("job", bytes.NewReader(parts.Job), set)
}

// faults lists what is wrong, by the field where there is one.
func faults(err error) any {
	type fault struct{ Part, Key, Value, Fault string }
	var list []fault
	for _, err := range units.Faults(err) {
		f := fault{Fault: err.Error()}
		if file, ok := errors.AsType[*units.FileError](err); ok {
			f.Part, f.Key, f.Value = file.File, file.Key, file.Text
		} else if out, ok := errors.AsType[*units.RangeError](err); ok {
			f.Key = out.Field
		}
		list = append(list, f)
	}
	return map[string]any{"faults": list}
}

func reply(w http.ResponseWriter, status int, v any) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(v) // whoever asked may have gone
}
