package check

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// longestText bounds what a person has to read as one name, title or note.
const longestText = 200

// Text is what is wrong with a text that ends on a sheet, if anything: it is empty, too
// long, or holds what is no letter, digit, sign or space. A line feed forges lines of the
// sheet, an escape those of the terminal.
func Text(s string) error {
	if strings.TrimSpace(s) == "" {
		return errors.New("empty; want a text")
	}
	if n := utf8.RuneCountInString(s); n > longestText {
		return fmt.Errorf("%d characters; want %d at most", n, longestText)
	}
	for _, r := range s {
		if r == utf8.RuneError || !unicode.IsGraphic(r) {
			return fmt.Errorf("holds the control character %U; want letters, digits, signs and spaces in one line", r)
		}
	}
	return nil
}
