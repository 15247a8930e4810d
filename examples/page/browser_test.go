//go:build !js

package main

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// page is the page open in a browser, as a plain server hands it out under some path.
type page struct {
	*testing.T
	ctx    context.Context
	origin string

	mu       sync.Mutex
	problems []string // exceptions, errors in the console, requests to elsewhere
}

const under = "/some/where/"

// long says that there is time for all of 200 states and 10 000 events, as in .ci/run.
var long = os.Getenv("FORKCURVE_LONG") != ""

// browser is started once for all tests; each has a tab of its own. nil: there is none.
var browser = sync.OnceValues(func() (context.Context, error) {
	for _, name := range []string{"chromium", "chromium-browser", "headless-shell"} {
		path, err := exec.LookPath(name)
		if err != nil {
			continue
		}
		options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox,
			chromedp.DisableGPU,
			chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
			chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
			chromedp.UserDataDir(filepath.Join(scratch,
				"browser")), chromedp.WSURLReadTimeout(2*time.Minute), chromedp.WindowSize(1366, 900))
		ctx, _ := chromedp.NewExecAllocator(ended, options...)
		ctx, _ = chromedp.NewContext(ctx)
		return ctx, chromedp.Do(ctx)
	}
	return nil, nil
})

// open is a tab with the page; the test is skipped where there is no browser.
func open(t *testing.T) *page {
	t.Helper()
	parent, err := browser()
	if err != nil {
		t.Fatal(err)
	}
	if parent == nil {
		fmt.Fprintln(os.Stderr, "!!! NO BROWSER HERE: the page is NOT tested; install the package chromium")
		t.Skip("NO BROWSER HERE: the page is NOT tested; install the package chromium")
	}
	server := httptest.NewServer(http.StripPrefix(under, http.FileServer(http.Dir(siteFolder(t)))))
	t.Cleanup(server.Close)
	p := &page{T: t, origin: server.URL}
	ctx, cancel := chromedp.NewContext(parent, chromedp.WithListener(p.watch))
	t.Cleanup(cancel)
	ctx, stop := context.WithTimeout(ctx, 5*time.Minute)
	t.Cleanup(stop)
	p.ctx = ctx
	order(p, network.Enable, network.EnableParams{})
	order(p, log.Enable, cdp.Empty{})
	p.load("")
	t.Cleanup(func() { // no test leaves anything in the console, or asks anything of elsewhere
		p.mu.Lock()
		defer p.mu.Unlock()
		for _, problem := range p.problems {
			t.Error(problem)
		}
	})
	return p
}

func (p *page) watch(event any) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		p.problems = append(p.problems, fmt.Sprintf("exception: %s %v", e.ExceptionDetails.Text,
			e.ExceptionDetails.Exception))
	case *runtime.EventConsoleAPICalled:
		if e.Type == "error" || e.Type == "warning" {
			p.problems = append(p.problems, fmt.Sprintf("console: %s", e.Args[0].Value))
		}
	case *log.EventEntryAdded:
		if e.Entry.Level == "error" {
			p.problems = append(p.problems, "log: "+e.Entry.Text)
		}
	case *network.EventRequestWillBeSent:
		if u := e.Request.URL; !strings.HasPrefix(u, p.origin+under) && !strings.HasPrefix(u, "blob:"+p.origin) {
			p.problems = append(p.problems, "asked elsewhere: "+u)
		}
	}
}

// forgive drops the problems a test has made itself and returns them.
func (p *page) forgive() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	list := p.problems
	p.problems = nil
	return list
}

func (p *page) run(steps ...chromedp.Action[chromedp.Void]) {
	p.Helper()
	if err := chromedp.Do(p.ctx, steps...); err != nil {
		p.Fatal(err)
	}
}

// order asks the browser itself for something.
func order[P, R any](p *page, c cdp.Command[P, R], params P) R {
	p.Helper()
	r, err := chromedp.Run(p.ctx, func(ctx context.Context, t *chromedp.Target) (R, error) {
		return cdp.Call(ctx, t, c,
			params)
	})
	if err != nil {
		p.Fatal(err)
	}
	return r
}

// load opens the page at a state and waits until it is drawn.
func (p *page) load(address string) {
	p.Helper()
	p.run(chromedp.Navigate("about:blank"), chromedp.Navigate(p.origin+under+"index.html#"+address),
		chromedp.WaitReady(chromedp.CSS("html[data-ready]")))
	p.forgiveBlank()
}

// visit takes the open page to a state, as a link within it would.
func (p *page) visit(address string) {
	p.Helper()
	eval[bool](p, fmt.Sprintf(`(history.replaceState(null, "", "#" + %q),
		dispatchEvent(new HashChangeEvent("hashchange")))`, address))
}

func (p *page) forgiveBlank() {
	p.mu.Lock()
	defer p.mu.Unlock()
	kept := p.problems[:0]
	for _, problem := range p.problems {
		if problem != "asked elsewhere: about:blank" {
			kept = append(kept, problem)
		}
	}
	p.problems = kept
}

// eval runs JavaScript in the page. A promise is waited for.
func eval[T any](p *page, script string) T {
	p.Helper()
	out, err := chromedp.Run(p.ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	if err != nil {
		p.Fatalf("%v in %.200s", err, script)
	}
	return out
}

// drawn waits for the frame after a change, and for what comes later.
const drawn = `await new Promise((done) =>
	requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 200))));`

func (p *page) width(w int64) {
	order(p, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: w, Height: 800,
		DeviceScaleFactor: 1,
		Mobile:            w < 500})
}
