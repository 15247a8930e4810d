package main

import (
	"bytes"
	"compress/gzip"
	"context"
	"embed"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"example.org/forkcurve/examples/page/explore"
)

//go:embed site
var site embed.FS

// build writes the whole site into a folder. It needs the go command and the source of this module, which
// the working folder is in.
func build(ctx context.Context, folder string) error {
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return fmt.Errorf("writing the page to %s: %w", folder, err)
	}
	static, err := fs.Sub(site, "site")
	if err != nil {
		return err
	}
	err = fs.WalkDir(static, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		to := filepath.Join(folder, filepath.FromSlash(name))
		if entry.IsDir() {
			return os.MkdirAll(to, 0o777)
		}
		content, err := fs.ReadFile(static, name)
		if err != nil {
			return err
		}
		return os.WriteFile(to, content, 0o666)
	})
	if err != nil {
		return err
	}
	root, err := exec.CommandContext(ctx, "go", "env", "GOROOT").Output()
	if err != nil {
		return fmt.Errorf("asking go where it is installed: %w", err)
	}
	support, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return fmt.Errorf("the go installation has no lib/wasm: %w", err)
	}
	if err := os.WriteFile(filepath.Join(folder, "wasm_exec.js"), support, 0o666); err != nil {
		return err
	}
	for name, of := range map[string]string{"forkcurve": "wasm", "jobsheet": "jobsheet"} {
		if err := compile(ctx, of, filepath.Join(folder, name+".wasm.gz")); err != nil {
			return err
		}
	}
	records, err := json.Marshal(explore.Records())
	if err != nil {
		return err
	}
	return compress(records, filepath.Join(folder, "records.json.gz"))
}

// compile builds one of the commands for the browser, smaller by a tenth for what is not inlined.
func compile(ctx context.Context, command, to string) error {
	temp, err := os.MkdirTemp("", "forkcurve-wasm")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temp)
	plain := filepath.Join(temp, "plain.wasm")
	c := exec.CommandContext(ctx, "go", "build", "-trimpath", "-gcflags=all=-l", "-ldflags=-s -w", "-o", plain,
		"example.org/forkcurve/examples/page/"+command)
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if said, err := c.CombinedOutput(); err != nil {
		return fmt.Errorf("building the wasm, which needs the folder examples or one within: %w\n%s", err, said)
	}
	content, err := os.ReadFile(plain)
	if err != nil {
		return err
	}
	return compress(content, to)
}

// compress stores a file compressed. The page takes it apart, so that a plain server need not know how.
func compress(content []byte, to string) error {
	packed, err := zipped(content)
	if err != nil {
		return err
	}
	return os.WriteFile(to, packed, 0o666)
}

// zipped is a content as gzip -9 has it.
func zipped(content []byte) ([]byte, error) {
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := z.Write(content); err != nil {
		return nil, err
	}
	err = z.Close()
	return b.Bytes(), err
}
