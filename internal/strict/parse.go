package strict

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// MaxSize is the largest text Parse accepts, in bytes.
const MaxSize = 1 << 20

// Doc is one text that has been read. It serves one goroutine.
type Doc struct {
	name    string
	text    []byte
	root    *Table
	faults  []fault
	offsets map[string]int // by path, of a text in JSON
	written map[string]int // how often each unit of a quantity was, by both
}

// Parse reads a text of that name: TOML, or JSON of the same keys where it begins with a
// brace. The error is a *units.FileError: a text that is too long, empty, not UTF-8, nested
// too deep or neither of both.
func Parse(name string, r io.Reader) (*Doc, error) {
	text, err := io.ReadAll(io.LimitReader(r, MaxSize+1))
	fail := func(offset int, key string, err error) (*Doc, error) {
		line, column := place(text, offset)
		return nil, &units.FileError{File: name, Line: line, Column: column, Key: key, Err: err}
	}
	if err != nil {
		return nil, &units.FileError{File: name, Line: 1, Err: err}
	}
	if len(text) > MaxSize {
		return nil, &units.FileError{File: name, Line: 1, Err: errors.New("more than 1 MiB of text; is this the right file?")}
	}
	if i := binary(text); i >= 0 {
		return fail(i, "", fmt.Errorf("not a text in UTF-8: byte %#02x", text[i]))
	}
	d := &Doc{name: name, text: text}
	values, keys, offset, key, err := d.read()
	if err == nil && len(values) == 0 {
		return nil, &units.FileError{File: name, Line: 1, Err: errors.New("empty: no key in it")}
	}
	if err != nil {
		return fail(offset, key, err)
	}
	d.root = &Table{doc: d, values: values}
	for _, key := range keys {
		if err := check.Text(key[len(key)-1]); err != nil {
			line, column := d.positions().of(key)
			return nil, &units.FileError{File: name, Line: line, Column: column, Err: fmt.Errorf("a key: %w", err)}
		}
		d.root.place(key)
	}
	return d, nil
}

// read takes the text for JSON or TOML. A fault comes with its offset and, where the text is
// TOML, the key.
func (d *Doc) read() (values map[string]any, keys []toml.Key, offset int, key string, err error) {
	if isJSON(d.text) {
		values, r, offset, err := readJSON(d.text)
		d.offsets = r.offsets
		return values, r.keys, offset, "", err
	}
	if offset, err = scan(d.text); err != nil {
		return nil, nil, offset, "", err
	}
	md, err := toml.Decode(string(d.text), &values)
	var pe toml.ParseError
	if errors.As(err, &pe) {
		message := strings.TrimSuffix(pe.Message, ".")
		if strings.Contains(message, "top-level item to end") {
			message += "; texts and quantities go in quotes"
		}
		return nil, nil, pe.Position.Start, pe.LastKey, errors.New("not TOML: " + message)
	}
	return values, md.Keys(), 0, "", err
}

// Root is the table of the keys before the first [table].
func (d *Doc) Root() *Table { return d.root }

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
