package fit

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// maxReadings bounds what ReadCSV keeps.
const maxReadings = 100_000

// CSVError is a fault of a record in CSV.
type CSVError struct {
	Line   int    // from 1
	Column string // header of the column, "" for the line as a whole
	Err    error
}

func (e *CSVError) Error() string {
	if e.Column != "" {
		return fmt.Sprintf("line %d, column %q: %v", e.Line, e.Column, e.Err)
	}
	return fmt.Sprintf("line %d: %v", e.Line, e.Err)
}

// Unwrap is the error behind, a *units.ParseError for a number that does not
// parse.
func (e *CSVError) Unwrap() error { return e.Err }

// ReadCSV reads the record of a test bench: one stroke in and, if the record goes
// on, one stroke out, in the order taken.
//
//	travel [mm];force [N]
//	0.0;52.1
//	5.0;97.4
//
// The header names a travel (or compression, displacement, position) and a force
// (or load) with their units as "travel [mm]", "travel (mm)", "travel/mm" or
// "travel_mm"; other columns are left alone, as are blank lines and those that
// begin with #. Columns are parted by commas, semicolons or tabs, lines
// end in LF or CRLF, and a byte order mark is skipped. Numbers have a decimal
// point: a decimal comma is refused, because it can not be told from a
// thousands separator.
//
// Every fault is a *CSVError with its line. The readings may still be refused
// by [spring.NewMeasured] for where they start.
func ReadCSV(r io.Reader) (spring.MeasuredSpec, error) {
	b := bufio.NewReader(r)
	if err := skipMark(b); err != nil {
		return spring.MeasuredSpec{}, err
	}
	comma, err := separator(b)
	if err != nil {
		return spring.MeasuredSpec{}, err
	}
	rows := csv.NewReader(b)
	rows.Comma, rows.Comment = comma, '#'
	rows.FieldsPerRecord, rows.ReuseRecord = -1, true
	rows.TrimLeadingSpace = comma != '\t' // which it would take for a space

	header, err := rows.Read()
	if err != nil {
		return spring.MeasuredSpec{}, rowError(err, 1)
	}
	line, _ := rows.FieldPos(0)
	width := len(header)
	travel, err := findColumn(header, line, "travel", "compression", "displacement", "position")
	if err != nil {
		return spring.MeasuredSpec{}, err
	}
	force, err := findColumn(header, line, "force", "load")
	if err != nil {
		return spring.MeasuredSpec{}, err
	}

	var record []spring.Reading
	var lines []int
	for {
		row, err := rows.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return spring.MeasuredSpec{}, rowError(err, line+1)
		}
		line, _ = rows.FieldPos(0)
		if blank(row) {
			continue
		}
		if len(row) != width {
			err := fmt.Errorf("%d fields, want the %d of the header", len(row), width)
			if comma == ',' && len(row) > width {
				err = fmt.Errorf("%w; with decimal commas, write decimal points", err)
			}
			return spring.MeasuredSpec{}, &CSVError{line, "", err}
		}
		if len(record) == maxReadings {
			return spring.MeasuredSpec{}, &CSVError{line, "", fmt.Errorf("more than %d readings; thin them out", maxReadings)}
		}
		x, err := cell[units.Length](row, travel, line)
		if err != nil {
			return spring.MeasuredSpec{}, err
		}
		f, err := cell[units.Force](row, force, line)
		if err != nil {
			return spring.MeasuredSpec{}, err
		}
		record, lines = append(record, spring.Reading{Travel: x, Force: f}), append(lines, line)
	}
	s, err := spring.Branches(record)
	var reading *spring.ReadingError
	switch {
	case errors.As(err, &reading):
		e := reading.Err
		return spring.MeasuredSpec{}, &CSVError{lines[reading.Index], travel.header,
			fmt.Errorf("%.6g: want %s (%s)", e.Value, e.Want, e.Hint)}
	case err != nil:
		return spring.MeasuredSpec{}, &CSVError{line, "", fmt.Errorf("%d readings in all, want 2 or more", len(record))}
	}
	return s, nil
}

// skipMark skips the byte order mark of UTF-8 and refuses those of UTF-16.
func skipMark(b *bufio.Reader) error {
	mark, _ := b.Peek(3)
	switch {
	case bytes.HasPrefix(mark, []byte("\xef\xbb\xbf")):
		_, _ = b.Discard(3) // it has been peeked
	case bytes.HasPrefix(mark, []byte("\xff\xfe")), bytes.HasPrefix(mark, []byte("\xfe\xff")):
		return &CSVError{1, "", errors.New("the file is in UTF-16; save it as CSV in UTF-8")}
	}
	return nil
}

// separator is the one that the first line that says something has most of.
func separator(b *bufio.Reader) (rune, error) {
	const reach = 4096
	head, err := b.Peek(reach)
	if len(head) == 0 {
		if err != nil && err != io.EOF {
			return 0, &CSVError{1, "", err}
		}
		return 0, &CSVError{1, "", errors.New("the file is empty")}
	}
	for line := range strings.Lines(string(head)) {
		if text := strings.TrimSpace(line); text == "" || text[0] == '#' {
			continue
		}
		best, most := ',', 0
		for _, c := range []rune{';', '\t', ','} {
			if n := strings.Count(line, string(c)); n > most {
				best, most = c, n
			}
		}
		return best, nil
	}
	return ',', nil
}

// rowError brings an error of package csv into ours.
func rowError(err error, line int) error {
	var parse *csv.ParseError
	switch {
	case errors.As(err, &parse):
		return &CSVError{parse.Line, "", parse.Err}
	case err == io.EOF:
		return &CSVError{line, "", errors.New("no header; want one like travel [mm],force [N]")}
	}
	return &CSVError{line, "", err}
}

// column is where a quantity stands.
type column struct {
	index  int
	header string
	unit   string
}

func findColumn(header []string, line int, names ...string) (column, error) {
	found := column{index: -1}
	for i, h := range header {
		name, unit := cutUnit(h)
		for _, n := range names {
			if !strings.EqualFold(name, n) {
				continue
			}
			if found.index >= 0 {
				return column{}, &CSVError{line, strings.TrimSpace(h), fmt.Errorf("a second column of %s", names[0])}
			}
			found = column{i, strings.TrimSpace(h), unit}
		}
	}
	switch {
	case found.index < 0:
		return column{}, &CSVError{line, "", fmt.Errorf("no column of %s in the header; want one named %s", names[0], strings.Join(names, ", "))}
	case found.unit == "":
		return column{}, &CSVError{line, found.header, fmt.Errorf("no unit; name it as %s [%s]", found.header, map[string]string{"travel": "mm", "force": "N"}[names[0]])}
	}
	return found, nil
}

// cutUnit splits "travel [mm]", "travel (mm)", "travel/mm" and "travel_mm".
func cutUnit(header string) (name, unit string) {
	header = strings.TrimSpace(header)
	i := strings.IndexAny(header, "[(/_")
	if i < 0 {
		return header, ""
	}
	unit = strings.TrimSpace(header[i+1:])
	switch header[i] {
	case '[':
		unit = strings.TrimSuffix(unit, "]")
	case '(':
		unit = strings.TrimSuffix(unit, ")")
	}
	return strings.TrimSpace(header[:i]), strings.TrimSpace(unit)
}

func blank(row []string) bool {
	for _, field := range row {
		if strings.TrimSpace(field) != "" {
			return false
		}
	}
	return true
}

func cell[Q units.Length | units.Force](row []string, c column, line int) (Q, error) {
	text := strings.TrimSpace(row[c.index])
	switch {
	case text == "":
		return 0, &CSVError{line, c.header, errors.New("no number")}
	case strings.Contains(text, ",") && strings.Contains(text, "."):
		return 0, &CSVError{line, c.header, fmt.Errorf("%q has both a point and a comma; write a decimal point and no other separator", text)}
	case strings.Contains(text, ","):
		return 0, &CSVError{line, c.header, fmt.Errorf("%q has a decimal comma; write %s", text, strings.Replace(text, ",", ".", 1))}
	}
	q, err := units.Parse[Q](text + " " + c.unit)
	if err != nil {
		return 0, &CSVError{line, c.header, err}
	}
	return q, nil
}
