// Package prose sets a text that is kept apart from the code that works out its numbers: a template of text/template
// whose actions wrap what they print at the width of a sheet.
//
//	{{section "HEAT, AT %.0f" .Power}}          heads a part
//	{{line "Sag" "%.0f, %.0f %%" .Sag .Share}}  names a value and says what there is of it
//	{{para "  - " "Wrapped at %d." 80}}         wraps a paragraph after an indent
//	{{table 12 .Rows 8 8 18}}                   rows: the first cell so wide, the rest in columns ending so
//	{{row 12 8 "%.0f" "name" 1.2 3.4}}          a row of such a table, its cells in one format and width
//
// Quantities print with their unit, those that the facts have a method Shown for as it hands them over, and numbers as
// [typeset.Numbers] sets them. Empty rows and lines of no text print nothing, nor does the empty line before a section
// that begins the text. Safe for concurrent use.
package prose

import (
	"fmt"
	"strings"
	"text/template"

	"example.org/forkcurve/internal/typeset"
)

// blank takes out the lines of a template whose actions printed nothing.
var blank = strings.NewReplacer("\x00\n", "", "\x00", "")

// Set fills in a template, with what lines say from column 24 on. Its actions may also call the functions given.
func Set(text string, facts any, calls ...template.FuncMap) (string, error) {
	return SetAt(24, text, facts, calls...)
}

// SetAt fills in a template, with what lines say from a column on.
func SetAt(column int, text string, facts any, calls ...template.FuncMap) (string, error) {
	set := func(write func(s *typeset.Sheet)) string {
		var s typeset.Sheet
		write(&s)
		if s.Len() == 0 {
			return "\x00"
		}
		return strings.TrimSuffix(s.String(), "\n")
	}
	sprintf := fmt.Sprintf
	if style, ok := facts.(interface{ Shown(any) any }); ok {
		sprintf = func(format string, args ...any) string {
			for i := range args {
				args[i] = style.Shown(args[i])
			}
			return fmt.Sprintf(format, args...)
		}
	}
	page := template.New("sheet")
	for _, c := range calls {
		page.Funcs(c)
	}
	t, err := page.Funcs(template.FuncMap{
		"section": func(format string, args ...any) string {
			return "\n" + set(func(s *typeset.Sheet) { s.Section(sprintf(format, args...)) })
		},
		"line": func(name, format string, args ...any) string {
			return set(func(s *typeset.Sheet) {
				if text := sprintf(format, args...); text != "" {
					s.LineAt(column, name, text)
				}
			})
		},
		"para": func(indent, format string, args ...any) string {
			return set(func(s *typeset.Sheet) {
				if text := sprintf(format, args...); text != "" {
					s.Paragraph(indent, text)
				}
			})
		},
		"row": func(first, width int, format, name string, cells ...any) string {
			row := make([]string, len(cells))
			for i, cell := range cells {
				row[i] = sprintf(format, cell)
			}
			return set(func(s *typeset.Sheet) { s.Row(name, first, row, width) })
		},
		"table": func(first int, rows [][]string, widths ...int) string {
			return set(func(s *typeset.Sheet) {
				for _, row := range rows {
					s.Row(row[0], first, row[1:], widths...)
				}
			})
		},
	}).Parse(text)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	err = t.Execute(&b, facts)
	return strings.TrimLeft(blank.Replace(b.String()), "\n"), err
}
