package strict

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// MaxSize is the largest text Parse accepts, in bytes.
const MaxSize = 1 << 20

// Doc is one TOML text that has been read. It serves one goroutine.
type Doc struct {
	name   string
	text   []byte
	root   *Table
	faults []fault
}

// A fault is an error before its line has been looked up, which is slow.
type fault struct {
	path toml.Key
	text string // the value as written, "" if none
	err  error
}

// Parse reads a text of that name. The error is an *Error: a text that is too
// long, empty, not UTF-8, nested too deep or not TOML.
func Parse(name string, r io.Reader) (*Doc, error) {
	fail := func(line int, key, format string, args ...any) (*Doc, error) {
		return nil, &Error{File: name, Line: line, Key: key, Err: fmt.Errorf(format, args...)}
	}
	text, err := io.ReadAll(io.LimitReader(r, MaxSize+1))
	if err != nil {
		return nil, &Error{File: name, Line: 1, Err: err}
	}
	if len(text) > MaxSize {
		return fail(1, "", "more than 1 MiB of text; is this the right file?")
	}
	if i := binary(text); i >= 0 {
		return fail(1+bytes.Count(text[:i], []byte("\n")), "", "not a text in UTF-8: byte %#02x", text[i])
	}
	if line, err := scan(text); err != nil {
		return nil, &Error{File: name, Line: line, Err: err}
	}
	values := make(map[string]any)
	md, err := toml.Decode(string(text), &values)
	if err != nil {
		var pe toml.ParseError
		if errors.As(err, &pe) {
			message := strings.TrimSuffix(pe.Message, ".")
			if strings.Contains(message, "top-level item to end") {
				message += "; texts and quantities go in quotes"
			}
			return fail(max(pe.Position.Line, 1), pe.LastKey, "not TOML: %s", message)
		}
		return nil, &Error{File: name, Line: 1, Err: err}
	}
	if len(values) == 0 {
		return fail(1, "", "empty: no key in it")
	}
	d := &Doc{name: name, text: text}
	d.root = &Table{doc: d, values: values}
	for _, key := range md.Keys() {
		d.root.place(key)
	}
	return d, nil
}

// Root is the table of the keys before the first [table].
func (d *Doc) Root() *Table { return d.root }

// Name is the name given to Parse.
func (d *Doc) Name() string { return d.name }

// binary is the offset of the first byte that is no text, or -1.
func binary(text []byte) int {
	for i := 0; i < len(text); {
		if c := text[i]; c < utf8.RuneSelf {
			if c == 0 {
				return i
			}
			i++
			continue
		}
		r, n := utf8.DecodeRune(text[i:])
		if r == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return -1
}
