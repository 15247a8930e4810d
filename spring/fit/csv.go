package fit

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// Bounds of a reading, beyond what any fork reaches.
const (
	shallow, deep = -10 * units.Millimeter, 500 * units.Millimeter
	strong        = 50 * units.Kilonewton
)

// Bounds of a record: whatever is larger is another file, or has no end.
const (
	MaxCSV      = 16 << 20 // bytes of the whole text
	maxLine     = 64 << 10 // bytes
	maxReadings = 100_000
	maxFaults   = 20 // that are listed
)

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
// The text may have [MaxCSV] bytes and 100 000 readings. The error joins the first 20
// faults, each a *[units.FileError] with the name given here, the line, the column and
// the header of the column. The readings may still be refused by [spring.NewMeasured]
// for where they start.
func ReadCSV(name string, r io.Reader) (spring.MeasuredSpec, error) {
	c := &reader{name: name}
	b := bufio.NewReader(&bounded{r: r})
	if err := c.start(b); err != nil {
		return spring.MeasuredSpec{}, err
	}
	for more := true; more && len(c.faults) < maxFaults; {
		more = c.row()
	}
	if len(c.faults) > 0 {
		return spring.MeasuredSpec{}, errors.Join(c.faults...)
	}
	s, err := spring.Branches(c.record)
	var reading *spring.ReadingError
	switch {
	case errors.As(err, &reading):
		out := *reading.Err
		out.Field = c.travel.header
		return spring.MeasuredSpec{}, &units.FileError{File: name, Line: c.lines[reading.Index], Key: out.Field,
			Text: fmt.Sprintf("%.6g", out.Value), Err: &out}
	case err != nil:
		return spring.MeasuredSpec{}, c.fault(0, "%d readings in all, want 2 or more", len(c.record))
	}
	return s, nil
}

// reader reads one record.
type reader struct {
	name          string
	comma         rune
	rows          *csv.Reader
	line          int // read last
	width         int // fields of the header
	travel, force column

	record []spring.Reading
	lines  []int // they stand on
	faults []error
}

// fault is an error of the line read last.
func (c *reader) fault(column int, format string, args ...any) *units.FileError {
	return &units.FileError{File: c.name, Line: c.line, Column: column, Err: fmt.Errorf(format, args...)}
}

// start reads up to the header, which tells where the quantities stand.
func (c *reader) start(b *bufio.Reader) error {
	c.line = 1
	if err := c.skipMark(b); err != nil {
		return err
	}
	if err := c.findSeparator(b); err != nil {
		return err
	}
	c.rows = csv.NewReader(b)
	c.rows.Comma, c.rows.Comment = c.comma, '#'
	c.rows.FieldsPerRecord, c.rows.ReuseRecord = -1, true
	c.rows.TrimLeadingSpace = c.comma != '\t' // which it would take for a space
	header, err := c.rows.Read()
	if err == io.EOF {
		return c.fault(0, "no header; want one like travel [mm],force [N]")
	}
	if err != nil {
		return c.broken(err)
	}
	c.line, _ = c.rows.FieldPos(0)
	c.width = len(header)
	c.travel = c.find(header, "travel", "compression", "displacement", "position")
	c.force = c.find(header, "force", "load")
	return errors.Join(c.faults...)
}

// row reads one reading and reports whether there may be another.
func (c *reader) row() bool {
	row, err := c.rows.Read()
	if err != nil {
		if err != io.EOF {
			c.line++
			c.faults = append(c.faults, c.broken(err))
		}
		return false
	}
	c.line, _ = c.rows.FieldPos(0)
	switch {
	case blank(row):
		return true
	case len(row) != c.width:
		hint := ""
		if c.comma == ',' && len(row) > c.width {
			hint = "; with decimal commas, write decimal points"
		}
		c.faults = append(c.faults, c.fault(0, "%d fields, want the %d of the header%s", len(row), c.width, hint))
		return true
	case len(c.record) == maxReadings:
		c.faults = append(c.faults, c.fault(0, "more than %d readings; thin them out", maxReadings))
		return false
	}
	x, travelErr := cell(c, row, c.travel, shallow, deep)
	f, forceErr := cell(c, row, c.force, -strong, strong)
	for _, err := range []error{travelErr, forceErr} {
		if err != nil {
			c.faults = append(c.faults, err)
		}
	}
	c.record, c.lines = append(c.record, spring.Reading{Travel: x, Force: f}), append(c.lines, c.line)
	return true
}

// broken brings an error of package csv, or of what it reads from, into ours.
func (c *reader) broken(err error) error {
	var parse *csv.ParseError
	if errors.As(err, &parse) {
		return &units.FileError{File: c.name, Line: parse.Line, Column: parse.Column, Err: parse.Err}
	}
	return c.fault(0, "%w", err)
}

// bounded ends a text that is too long, or has no lines, with an error.
type bounded struct {
	r           io.Reader
	total, line int // bytes read, and of them in the last line
}

func (b *bounded) Read(p []byte) (int, error) {
	n, err := b.r.Read(p)
	b.total += n
	if last := bytes.LastIndexByte(p[:n], '\n'); last >= 0 {
		b.line = n - 1 - last
	} else {
		b.line += n
	}
	switch {
	case b.total > MaxCSV:
		return 0, fmt.Errorf("more than %d MiB; thin the readings out", MaxCSV>>20)
	case b.line > maxLine:
		return 0, fmt.Errorf("a line of more than %d KiB; is this the right file?", maxLine>>10)
	}
	return n, err
}

// skipMark skips the byte order mark of UTF-8 and refuses those of UTF-16.
func (c *reader) skipMark(b *bufio.Reader) error {
	mark, _ := b.Peek(3)
	switch {
	case bytes.HasPrefix(mark, []byte("\xef\xbb\xbf")):
		_, _ = b.Discard(3) // it has been peeked
	case bytes.HasPrefix(mark, []byte("\xff\xfe")), bytes.HasPrefix(mark, []byte("\xfe\xff")):
		return c.fault(0, "the file is in UTF-16; save it as CSV in UTF-8")
	}
	return nil
}

// findSeparator takes the one that the first line that says something has most of.
func (c *reader) findSeparator(b *bufio.Reader) error {
	const reach = 4096
	c.comma = ','
	head, err := b.Peek(reach)
	if len(head) == 0 {
		if err != nil && err != io.EOF {
			return c.broken(err)
		}
		return c.fault(0, "the file is empty")
	}
	for line := range strings.Lines(string(head)) {
		if text := strings.TrimSpace(line); text == "" || text[0] == '#' {
			continue
		}
		most := 0
		for _, r := range []rune{';', '\t', ','} {
			if n := strings.Count(line, string(r)); n > most {
				c.comma, most = r, n
			}
		}
		break
	}
	return nil
}

// column is where a quantity stands.
type column struct {
	index  int
	header string
	unit   string
}

// find finds the column of the quantity that goes by these names.
func (c *reader) find(header []string, names ...string) column {
	found := column{index: -1}
	fault := func(i int, key, format string, args ...any) {
		e := c.fault(0, format, args...)
		e.Key = key
		if i >= 0 {
			_, e.Column = c.rows.FieldPos(i)
		}
		c.faults = append(c.faults, e)
	}
	for i, h := range header {
		name, unit := cutUnit(h)
		if !slices.ContainsFunc(names, func(n string) bool { return strings.EqualFold(name, n) }) {
			continue
		}
		if h = strings.TrimSpace(h); found.index >= 0 {
			fault(i, h, "a second column of %s", names[0])
			continue
		}
		found = column{i, h, unit}
	}
	switch {
	case found.index < 0:
		fault(-1, "", "no column of %s in the header; want one named %s", names[0], strings.Join(names, ", "))
	case found.unit == "":
		usual := map[string]string{"travel": "mm", "force": "N"}[names[0]]
		fault(found.index, found.header, "no unit; name it as %s [%s]", found.header, usual)
	}
	return found
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

// cell is the quantity of a column in a row, within what any fork reaches.
func cell[Q units.Length | units.Force](c *reader, row []string, of column, lo, hi Q) (Q, error) {
	text := strings.TrimSpace(row[of.index])
	q, err := units.Parse[Q](text + " " + of.unit)
	switch {
	case text == "":
		err = errors.New("no number")
	case strings.Contains(text, ",") && strings.Contains(text, "."):
		err = errors.New("both a point and a comma; write a decimal point and no other separator")
	case strings.Contains(text, ","):
		err = fmt.Errorf("a decimal comma; write %s", strings.Replace(text, ",", ".", 1))
	}
	if err == nil && !(q >= lo && q <= hi) {
		err = &units.RangeError{Field: of.header, Value: q, Want: fmt.Sprintf("%v to %v", lo, hi), Hint: "is the unit right?"}
	}
	if err == nil {
		return q, nil
	}
	_, at := c.rows.FieldPos(of.index)
	e := &units.FileError{File: c.name, Line: c.line, Column: at, Key: of.header, Err: err}
	if len(text) > 0 && len(text) <= 40 {
		e.Text = strconv.Quote(text)
	}
	return 0, e
}
