package main

import "example.org/forkcurve/examples/internal/typeset"

// sheet is what the program prints.
type sheet struct{ typeset.Sheet }
