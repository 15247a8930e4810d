package units

import (
	"strconv"
	"strings"
)

// Parse reads a number with its unit, as Parse[Stiffness]("0.46 kgf/mm"). The grammar
// is in the package comment. An error is a *ParseError.
func Parse[Q Quantity](text string) (Q, error) {
	var q Q
	err := any(&q).(interface{ parse(string) error }).parse(text)
	return q, err
}

// parse reads a text of kind k into SI.
func (k *kind) parse(text string) (float64, error) {
	n, u, err := k.split(text)
	if err != nil {
		return 0, err
	}
	var v float64
	if shift, ok := k.shift(u); ok {
		v, err = n.float(shift)
	} else {
		v, err = n.float(0)
		v = k.si(v, u)
	}
	if err != nil || !isFinite(v) {
		return 0, k.tooLarge(text)
	}
	return v, nil
}

// split cuts a text of kind k into number and unit.
func (k *kind) split(text string) (decimal, *unit, error) {
	n, hint := scanDecimal(text)
	at := len(n.text)
	if hint != "" {
		return n, nil, k.fault(text, at, hint)
	}
	for _, space := range [...]string{" ", "\u00a0", "\u202f"} {
		if strings.HasPrefix(text[at:], space) {
			at += len(space)
			break
		}
	}
	symbol := text[at:]
	if symbol == "" {
		return n, nil, k.fault(text, at, "unit missing")
	}
	u, hint := k.lookup(symbol)
	if hint != "" {
		digits := skipDigits(symbol, 0)
		grouped := digits > 0 && at > len(n.text) && !strings.HasPrefix(symbol[digits:], "/")
		switch {
		case strings.TrimSpace(symbol) != symbol:
			hint = "write one space before the unit and none after it"
		case hint == unknownUnit && grouped:
			hint = "write a number without spaces in it"
		}
		return n, nil, k.fault(text, at, hint)
	}
	return n, u, nil
}

func (k *kind) fault(text string, offset int, hint string) error {
	accepted := make([]string, len(k.units))
	for i, u := range k.units {
		accepted[i] = u.symbol
	}
	return &ParseError{Quantity: k.name, Text: text, Offset: offset, Accepted: accepted, Hint: hint}
}

func (k *kind) tooLarge(text string) error { return k.fault(text, 0, "number too large") }

// decimal is a number in text: text[:mantissa] × 10^exponent.
type decimal struct {
	text     string
	mantissa int // length of the part before the e
	exponent int
}

// maxExponent is far beyond the range of float64 whatever the unit; larger exponents
// are cut to it.
const maxExponent = 99_999

// scanDecimal reads [+-]digits[.digits][e[+-]digits] at the start of s. With a hint,
// the text read ends where the fault is.
func scanDecimal(s string) (n decimal, hint string) {
	i := 0
	if i < len(s) && (s[i] == '+' || s[i] == '-') {
		i++
	}
	start := i
	i = skipDigits(s, i)
	switch {
	case i > start:
	case strings.HasPrefix(s[i:], "."):
		return decimal{text: s[:i]}, "write a digit before the decimal point"
	case strings.HasPrefix(s[i:], "\u2212"):
		return decimal{text: s[:i]}, "minus sign: write the hyphen -"
	default:
		return decimal{text: s[:i]}, "a number must come first"
	}
	if i < len(s) && s[i] == ',' {
		return decimal{text: s[:i]}, commaHint(s, i)
	}
	if i < len(s) && s[i] == '.' {
		point := i
		i = skipDigits(s, i+1)
		if i == point+1 {
			return decimal{text: s[:i]}, "write a digit after the decimal point"
		}
	}
	n.mantissa = i
	if i < len(s) && (s[i] == 'e' || s[i] == 'E') {
		i++
		negative := i < len(s) && s[i] == '-'
		if negative || i < len(s) && s[i] == '+' {
			i++
		}
		start := i
		i = skipDigits(s, i)
		if i == start {
			return decimal{text: s[:i]}, "write digits after the e of the exponent"
		}
		for _, c := range []byte(s[start:i]) {
			n.exponent = min(10*n.exponent+int(c-'0'), maxExponent)
		}
		if negative {
			n.exponent = -n.exponent
		}
	}
	n.text = s[:i]
	return n, ""
}

func skipDigits(s string, i int) int {
	for i < len(s) && '0' <= s[i] && s[i] <= '9' {
		i++
	}
	return i
}

// commaHint tells how to write the number with a comma at s[i], which in front of
// three digits may have been meant to group them.
func commaHint(s string, i int) string {
	end := skipDigits(s, i+1)
	switch end - (i + 1) {
	case 0:
		return "a comma is not part of a number"
	case 3:
		return "comma: write " + s[:i] + "." + s[i+1:end] + " or " + s[:i] + s[i+1:end]
	default:
		return "decimal comma: write " + s[:i] + "." + s[i+1:end]
	}
}

// float is the float64 nearest to n × 10^shift; the error says that it overflows.
// The shift goes into the exponent of the text, so that it costs no rounding.
func (n decimal) float(shift int) (float64, error) {
	if shift == 0 {
		return strconv.ParseFloat(n.text, 64)
	}
	var buf [32]byte
	b := append(buf[:0], n.text[:n.mantissa]...)
	b = append(b, 'e')
	b = strconv.AppendInt(b, int64(n.exponent+shift), 10)
	return strconv.ParseFloat(string(b), 64)
}

// shift is e when a number of units is moved by e decimals into SI.
func (k *kind) shift(u *unit) (e int, ok bool) {
	if k.point != nil {
		return 0, false
	}
	return decimalExponent(u.size)
}

// si is a number of units in SI.
func (k *kind) si(v float64, u *unit) float64 {
	if k.point != nil {
		return k.point(v, u)
	}
	return v * u.size
}

// decimalExponent is e when size is 10^e.
func decimalExponent(size float64) (e int, ok bool) {
	powers := [...]float64{1e-9, 1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 1e-1,
		1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9}
	for i, p := range powers {
		if p == size {
			return i - 9, true
		}
	}
	return 0, false
}
