package main

import "example.org/forkcurve/internal/typeset"

// sheet is what the program prints.
type sheet struct{ typeset.Sheet }
