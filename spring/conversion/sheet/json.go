package sheet

import (
	"encoding/json"
	"io"

	"example.org/forkcurve/spring/conversion"
)

// WriteJSON prints what the sheet says; quantities are texts with units.
func WriteJSON(out io.Writer, report *conversion.Report) error {
	e := json.NewEncoder(out)
	e.SetIndent("", "  ")
	return e.Encode(report)
}
