package bath_test

import (
	"testing"

	"example.org/forkcurve/internal/shared"
	"example.org/forkcurve/oil"
)

func TestShared(t *testing.T) {
	b, _ := of(t, find(t, "M07"))
	shared.Read(t, func() any {
		room := b.Room(oil.LockRatio, warm)
		end, err := b.End(room/2, warm)
		return []any{room, end, err}
	})
}
