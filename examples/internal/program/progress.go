package program

import (
	"fmt"
	"io"
	"os"
	"strings"
)

// Progress tells a terminal how far some work is, as a bar that grows; a file or a pipe is spared it.
func Progress(w io.Writer, what string) func(done, of int) {
	f, ok := w.(*os.File)
	if ok {
		info, err := f.Stat()
		ok = err == nil && info.Mode()&os.ModeCharDevice != 0
	}
	const width = 30
	last := -1
	return func(done, of int) {
		if full := width * done / max(1, of); ok && (full != last || done == of) {
			last = full
			fmt.Fprintf(w, "\r%s [%s%s] %d of %d", what, strings.Repeat("#", full), strings.Repeat(".", width-full), done, of)
			if done == of {
				fmt.Fprintln(w)
			}
		}
	}
}
