package benchfile_test

import (
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/shared"
	"example.org/forkcurve/spring/bench/benchfile"
)

// One set serves many readers of files.
func TestShared(t *testing.T) {
	set := data.Reference()
	shared.Read(t, func() any {
		f, err := benchfile.Decode("good.toml", strings.NewReader(good), set)
		if err != nil {
			return err
		}
		return []any{f.Title, f.Names, f.Readings, f.Fork}
	})
}
