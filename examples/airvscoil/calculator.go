package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// evaluate is a pocket calculator: + − · / ^ ² ( ) ln cos π °.
func evaluate(text string) (v float64, err error) {
	c := calculator{rest: text}
	defer func() {
		if r := recover(); r != nil {
			v, err = math.NaN(), fmt.Errorf("%v at %q", r, c.rest)
		}
	}()
	v = c.sum()
	if c.rest = strings.TrimSpace(c.rest); c.rest != "" {
		panic("left over")
	}
	return v, nil
}

type calculator struct{ rest string }

func (c *calculator) take(symbol string) bool {
	rest, ok := strings.CutPrefix(strings.TrimLeft(c.rest, " "), symbol)
	if ok {
		c.rest = rest
	}
	return ok
}

func (c *calculator) want(symbol string) {
	if !c.take(symbol) {
		panic("no " + symbol)
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
	c.rest = strings.TrimLeft(text, "0123456789.")
	v, err := strconv.ParseFloat(text[:len(text)-len(c.rest)], 64)
	if err != nil {
		panic(err)
	}
	return v
}

func (c *calculator) closed() float64 {
	v := c.sum()
	c.want(")")
	return v
}
