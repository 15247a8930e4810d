package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// evaluate is a pocket calculator: + − · / ^ ² ( ) ln cos π °.
func evaluate(text string) (float64, error) {
	c := calculator{rest: text}
	v := c.sum()
	if strings.TrimSpace(c.rest) != "" {
		c.fail("left over")
	}
	if c.err != nil {
		return math.NaN(), c.err
	}
	return v, nil
}

type calculator struct {
	rest string
	err  error // the first
}

func (c *calculator) fail(why string) {
	if c.err == nil {
		c.err = fmt.Errorf("%s at %q", why, strings.TrimSpace(c.rest))
	}
}

func (c *calculator) take(symbol string) bool {
	rest, ok := strings.CutPrefix(strings.TrimLeft(c.rest, " "), symbol)
	if ok {
		c.rest = rest
	}
	return ok
}

func (c *calculator) want(symbol string) {
	if !c.take(symbol) {
		c.fail("no " + symbol)
	}
}

func (c *calculator) sum() float64 {
	v := c.product()
	for {
		switch {
		case c.take("+"):
			v += c.product()
		case c.take("−"):
			v -= c.product()
		default:
			return v
		}
	}
}

func (c *calculator) product() float64 {
	v := c.signed()
	for {
		switch {
		case c.take("·"):
			v *= c.signed()
		case c.take("/"):
			v /= c.signed()
		default:
			return v
		}
	}
}

func (c *calculator) signed() float64 {
	if c.take("−") {
		return -c.signed()
	}
	v := c.value()
	for {
		switch {
		case c.take("²"):
			v *= v
		case c.take("^"):
			v = math.Pow(v, c.value())
		default:
			return v
		}
	}
}

func (c *calculator) value() float64 {
	switch {
	case c.take("π"):
		return math.Pi
	case c.take("ln("):
		return math.Log(c.closed())
	case c.take("cos("):
		v := c.sum()
		c.want("°")
		c.want(")")
		return math.Cos(v * math.Pi / 180)
	case c.take("("):
		return c.closed()
	}
	text := strings.TrimLeft(c.rest, " ")
	after := strings.TrimLeft(text, "0123456789.")
	v, err := strconv.ParseFloat(strings.TrimSuffix(text, after), 64)
	if err != nil {
		c.fail("no number")
	}
	c.rest = after
	return v
}

func (c *calculator) closed() float64 {
	v := c.sum()
	c.want(")")
	return v
}
