package strict

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"github.com/BurntSushi/toml"
)

// isJSON reports a text that begins with a brace, as no TOML does.
func isJSON(text []byte) bool { return bytes.HasPrefix(bytes.TrimLeft(text, " \t\r\n"), []byte("{")) }

// jsonReader reads JSON into the values that TOML of the same keys gives.
type jsonReader struct {
	*json.Decoder
	keys    []toml.Key     // of tables, in the order of the text
	offsets map[string]int // by path, of what stands behind each
}

// readJSON reads a text that is one object, or tells the byte at fault.
func readJSON(text []byte) (values map[string]any, r *jsonReader, offset int, err error) {
	r = &jsonReader{json.NewDecoder(bytes.NewReader(text)), nil, map[string]int{}}
	r.UseNumber()
	v, err := r.value(nil, true)
	if err == nil {
		if _, rest := r.Token(); rest != io.EOF {
			err = errors.New("more behind the last brace")
		}
	}
	var broken *json.SyntaxError
	switch offset = int(r.InputOffset()); {
	case errors.As(err, &broken):
		offset, err = max(int(broken.Offset)-1, 0), fmt.Errorf("not JSON: %w", err)
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		err = errors.New("not JSON: it ends before its last brace")
	}
	values, _ = v.(map[string]any)
	return values, r, offset, err
}

// value reads what comes next. What stands inside a list has no place.
func (r *jsonReader) value(path toml.Key, placed bool) (any, error) {
	if len(path) > maxDepth {
		return nil, fmt.Errorf("nested more than %d deep", maxDepth)
	}
	token, err := r.Token()
	switch v := token.(type) {
	case json.Delim:
		if v == '{' {
			return r.object(path, placed)
		}
		list := []any{}
		for err == nil && r.More() {
			var item any
			item, err = r.value(append(path[:len(path):len(path)], ""), false)
			list = append(list, item)
		}
		if err == nil {
			_, err = r.Token()
		}
		return list, err
	case json.Number:
		if n, err := v.Int64(); err == nil {
			return n, nil
		}
		return v.Float64()
	case nil:
		if err == nil {
			err = errors.New("null; leave the key out")
		}
	}
	return token, err
}

func (r *jsonReader) object(path toml.Key, placed bool) (map[string]any, error) {
	values := map[string]any{}
	for r.More() {
		token, err := r.Token()
		if err != nil {
			return values, err
		}
		name, _ := token.(string) // a key, or the decoder had stopped
		key := append(path[:len(path):len(path)], name)
		if _, twice := values[name]; twice {
			return values, fmt.Errorf("key %s stands twice", key)
		}
		if placed {
			r.keys = append(r.keys, key)
			r.offsets[key.String()] = int(r.InputOffset())
		}
		if values[name], err = r.value(key, placed); err != nil {
			return values, err
		}
	}
	_, err := r.Token()
	return values, err
}
