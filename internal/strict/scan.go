package strict

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
)

// maxDepth bounds the nesting of lists, inline tables and dotted keys. The TOML
// parser recurses on the first two and takes quadratic time on all.
const maxDepth = 16

// errTableList is the fault of a text that begins with a [[list of tables]].
func errTableList(text []byte) error {
	name := strings.TrimLeft(string(text[2:min(len(text), 42)]), " \t")
	if end := strings.IndexAny(name, ".] \t\r\n"); end > 0 {
		return fmt.Errorf("a list of tables [[…]]; name each table instead, as [%s.mine]", name[:end])
	}
	return errors.New("a list of tables [[…]]; name each table instead")
}

// scan looks for what the TOML parser must not see: nesting beyond maxDepth and
// [[lists of tables]], whose faults it reports at the wrong line. It follows the
// grammar of strings and comments only; where a text breaks that grammar the
// parser stops by itself. It returns the byte at fault.
func scan(text []byte) (offset int, err error) {
	depth, dots := 0, 0
	start := true // of a statement
	for i := 0; i < len(text); i++ {
		switch c := text[i]; c {
		case '\n':
			dots = 0
			start = depth == 0
			continue
		case ' ', '\t', '\r':
			continue
		case '#':
			if n := bytes.IndexByte(text[i:], '\n'); n >= 0 {
				i += n - 1
			} else {
				i = len(text)
			}
			continue
		case '"', '\'':
			i += quoted(text[i:]) - 1
		case '[', '{':
			if start && bytes.HasPrefix(text[i:], []byte("[[")) {
				return i, errTableList(text[i:])
			}
			depth++
			dots = 0
		case ']', '}':
			depth = max(depth-1, 0)
		case '=', ',':
			dots = 0
		case '.':
			dots++
		}
		if depth > maxDepth || dots > maxDepth {
			return i, fmt.Errorf("nested more than %d deep", maxDepth)
		}
		start = false
	}
	return 0, nil
}

// quoted is the length of the TOML string that text begins with.
func quoted(text []byte) int {
	q := text[0]
	if n := len(text); n >= 3 && text[1] == q && text[2] == q {
		for i := 3; i < n; i++ {
			switch {
			case text[i] == '\\' && q == '"':
				i++
			case text[i] == q && i+2 < n && text[i+1] == q && text[i+2] == q:
				// The string itself may end in one or two quotes.
				i += 3
				for more := 0; more < 2 && i < n && text[i] == q; more++ {
					i++
				}
				return i
			}
		}
		return n
	}
	for i := 1; i < len(text); i++ {
		switch text[i] {
		case '\\':
			if q == '"' {
				i++
			}
		case q:
			return i + 1
		case '\n':
			return i // unfinished
		}
	}
	return len(text)
}
