package units

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
)

// text is the exact text of q in SI.
func (k *kind) text(q float64) string {
	var buf [48]byte
	return string(k.append(buf[:0], q))
}

func (k *kind) marshal(b []byte, q float64) ([]byte, error) {
	if !isFinite(q) {
		return b, notFinite(k.name, k.text(q))
	}
	return k.append(b, q), nil
}

func (k *kind) format(s fmt.State, verb rune, q float64) {
	u := k.shown(q)
	write(s, verb, k.name, (q-k.origin)/u.size, u.symbol+k.mark, func(b []byte) []byte { return k.append(b, q) })
}

// shown is the unit q is shown in.
func (k *kind) shown(q float64) *unit {
	if k.largeFrom > 0 && math.Abs(q) >= k.largeFrom {
		return &k.large
	}
	return &k.units[0]
}

// append appends the shortest text that parses back to exactly q.
func (k *kind) append(b []byte, q float64) []byte {
	u := k.shown(q)
	symbol := u.symbol
	shift, isDecimal := k.shift(u)
	switch {
	case !isFinite(q):
		b = strconv.AppendFloat(b, q, 'g', -1, 64)
	case isDecimal:
		b = appendShifted(b, q, -shift)
	default:
		b, symbol = k.appendMultiple(b, q, u)
	}
	b = append(b, ' ')
	b = append(b, symbol...)
	return append(b, k.mark...)
}

// appendMultiple appends q as a number of a unit that is no power of ten, or in SI
// where no number of those units gives q exactly.
func (k *kind) appendMultiple(b []byte, q float64, u *unit) ([]byte, string) {
	same := func(n float64) bool { return math.Float64bits(k.si(n, u)) == math.Float64bits(q) }
	if b, ok := appendShortest(b, (q-k.origin)/u.size, same); ok {
		return b, u.symbol
	}
	si := u
	for i := range k.units {
		if k.units[i].size == 1 {
			si = &k.units[i]
		}
	}
	return appendShifted(b, q, 0), si.symbol
}

// appendShortest appends the shortest rounding of x that is the same quantity.
func appendShortest(b []byte, x float64, same func(float64) bool) ([]byte, bool) {
	var buf [32]byte
	for digits := range 17 {
		text := strconv.AppendFloat(buf[:0], x, 'e', digits, 64)
		if v, err := strconv.ParseFloat(string(text), 64); err == nil && same(v) {
			return appendPlain(b, text, 0), true
		}
	}
	return b, false
}

// appendShifted appends the shortest decimal text of x with its point moved right by
// shift places. Moving the point of the text costs no rounding, a product would.
func appendShifted(b []byte, x float64, shift int) []byte {
	var buf [32]byte
	return appendPlain(b, strconv.AppendFloat(buf[:0], x, 'e', -1, 64), shift)
}

// appendPlain appends the number in e, of the form -d.ddde±dd, times 10^shift: without
// an exponent from 1e-6 to below 1e21, with one outside.
func appendPlain(b, e []byte, shift int) []byte {
	if e[0] == '-' {
		b = append(b, '-')
		e = e[1:]
	}
	end := bytes.IndexByte(e, 'e')
	exponent, _ := strconv.Atoi(string(e[end+1:]))
	var buf [32]byte
	digits := append(append(buf[:0], e[0]), e[min(2, end):end]...) // without the point
	digits = bytes.TrimRight(digits, "0")
	if len(digits) == 0 {
		return append(b, '0')
	}
	exponent += shift
	switch whole := exponent + 1; {
	case exponent < -6 || exponent >= 21:
		b = append(b, digits[0])
		if len(digits) > 1 {
			b = append(b, '.')
			b = append(b, digits[1:]...)
		}
		b = append(b, 'e')
		return strconv.AppendInt(b, int64(exponent), 10)
	case whole <= 0:
		b = append(b, "0."...)
		b = append(b, zeros[:-whole]...)
		return append(b, digits...)
	case whole >= len(digits):
		b = append(b, digits...)
		return append(b, zeros[:whole-len(digits)]...)
	default:
		b = append(b, digits[:whole]...)
		b = append(b, '.')
		return append(b, digits[whole:]...)
	}
}

const zeros = "00000000000000000000"

// write formats for package fmt: number and symbol under a verb for numbers or with a
// precision, the exact text under a plain %v or %s.
func write(s fmt.State, verb rune, name string, number float64, symbol string, exact func([]byte) []byte) {
	var buf [64]byte
	b := buf[:0]
	precision, hasPrecision := s.Precision()
	switch verb {
	case 'v', 's':
		if !hasPrecision {
			b = exact(b)
			break
		}
		b = appendNumber(b, number, 'g', precision, symbol)
	case 'e', 'E', 'f', 'F', 'g', 'G':
		if s.Flag('+') && isFinite(number) && !math.Signbit(number) {
			b = append(b, '+')
		}
		if !hasPrecision {
			precision = 6
			if verb == 'g' || verb == 'G' {
				precision = -1
			}
		}
		b = appendNumber(b, number, byte(verb), precision, symbol)
	case 'q':
		b = strconv.AppendQuote(b, string(exact(nil)))
	default:
		b = fmt.Appendf(b, "%%!%c(units.%s=%s)", verb, name, exact(nil))
	}
	width, _ := s.Width()
	if s.Flag('-') {
		width = -width
	}
	fmt.Fprintf(s, "%*s", width, b) // fmt keeps a failing writer's error itself
}

func appendNumber(b []byte, number float64, verb byte, precision int, symbol string) []byte {
	if verb == 'F' {
		verb = 'f'
	}
	if verb == 'f' {
		number = untied(number, precision)
	}
	b = strconv.AppendFloat(b, number, verb, precision, 64)
	b = append(b, ' ')
	return append(b, symbol...)
}

// untied moves a number that is within a millionth of a tie of its decimals past it, away from zero: else its last
// digit would hang on how a processor rounds.
func untied(number float64, decimals int) float64 {
	if number == 0 {
		return number
	}
	return number + math.Copysign(1e-6*math.Pow10(-decimals), number)
}

func isFinite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
