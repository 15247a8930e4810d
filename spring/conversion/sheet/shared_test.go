package sheet_test

import (
	"bytes"
	"testing"

	"example.org/forkcurve/internal/shared"
	"example.org/forkcurve/spring/conversion/sheet"
)

func TestShared(t *testing.T) {
	r := plan(t, "B04", nil)
	shared.Read(t, func() any {
		var out bytes.Buffer
		return []any{sheet.WriteText(&out, r), sheet.WriteJSON(&out, r), out.String()}
	})
}
