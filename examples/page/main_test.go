package main

import (
	"context"
	"io/fs"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"example.org/forkcurve/examples/internal/golden"
)

// scratch is a folder that all tests share, and ended is done when they are.
var (
	scratch     string
	ended, stop = context.WithCancel(context.Background())
)

func TestMain(m *testing.M) {
	var err error
	if scratch, err = os.MkdirTemp("", "forkcurve-page-test"); err != nil {
		panic(err)
	}
	status := m.Run()
	stop()
	os.RemoveAll(scratch)
	os.Exit(status)
}

// built is the site as -out writes it, once for all tests.
var built = sync.OnceValues(func() (string, error) {
	folder := filepath.Join(scratch, "site")
	return folder, build(ended, folder)
})

func siteFolder(t *testing.T) string {
	t.Helper()
	dir, err := built()
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

func TestRefuses(t *testing.T) {
	golden.Refuses(t, command, golden.Bad{Name: "no such address", Args: []string{"-listen", "nowhere:x"},
		Want: []string{"listen"}})
}

// What is sent to open the page is under 1.5 MB, compressed with gzip -9 as a server would, or as it is stored. The
// records, which are loaded once somebody opens them, and the part for job files, once one is dropped, are told
// beside it.
func TestSize(t *testing.T) {
	dir := siteFolder(t)
	var start, later int
	err := filepath.WalkDir(dir, func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		content, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		size := len(content)
		if !strings.HasSuffix(name, ".gz") {
			packed, err := zipped(content)
			if err != nil {
				return err
			}
			size = len(packed)
		}
		if base := filepath.Base(name); base == "jobsheet.wasm.gz" || base == "records.json.gz" {
			later += size
		} else {
			start += size
		}
		return nil
	})
	t.Logf("%d bytes compressed, and %d later: records and job files", start, later)
	if err != nil || start > 1_500_000 {
		t.Errorf("%d bytes, %v", start, err)
	}
}

func TestServe(t *testing.T) {
	l, err := net.Listen("tcp", "localhost:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	var out strings.Builder
	done := make(chan error)
	go func() { done <- serve(ctx, l, siteFolder(t), &out) }()
	client := http.Client{Timeout: 10 * time.Second}
	r, err := client.Get("http://" + l.Addr().String() + "/")
	if err != nil {
		t.Fatal(err)
	}
	r.Body.Close()
	if r.StatusCode != http.StatusOK {
		t.Error(r.Status)
	}
	stop()
	if err := <-done; err != nil || !strings.HasPrefix(out.String(), "http://127.0.0.1:") {
		t.Errorf("%v, printed %q", err, out.String())
	}
}
