// Command page is a page to explore air against coil, in a browser, with the library itself inside: compiled
// to wasm it computes everything in the browser, and nothing is sent anywhere.
//
//	go -C examples run ./page             serves the page on a free local port, stops on Ctrl-C
//	go -C examples run ./page -out DIR    writes it as a static site, for any plain web server and any path
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/signal"
	"time"

	"example.org/forkcurve/examples/internal/program"
)

func main() { program.Main(command) }

func command(p *program.Program) func() error {
	address := p.Text("listen", "localhost:0", "`address` to listen at; port 0 is any that is free")
	folder := p.Text("out", "", "write the page into this `folder` as a static site, and serve nothing")
	return func() error {
		ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
		defer stop()
		if *folder != "" {
			if err := build(ctx, *folder); err != nil {
				return err
			}
			_, err := fmt.Fprintln(p.Problems, "wrote", *folder)
			return err
		}
		temp, err := os.MkdirTemp("", "forkcurve-page")
		if err != nil {
			return err
		}
		defer os.RemoveAll(temp)
		l, err := net.Listen("tcp", *address)
		if err != nil {
			return err
		}
		defer l.Close()
		if err := build(ctx, temp); err != nil {
			return err
		}
		return serve(ctx, l, temp, p.Out)
	}
}

// serve prints where it listens and serves the folder until the context ends.
func serve(ctx context.Context, l net.Listener, folder string, out io.Writer) error {
	fmt.Fprintf(out, "http://%s/\n", l.Addr())
	s := &http.Server{Handler: http.FileServer(http.Dir(folder)), ReadHeaderTimeout: 10 * time.Second}
	context.AfterFunc(ctx, func() { _ = s.Close() })
	if err := s.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}
