// Package colour holds colours as an angler gives them: words first, with an
// sRGB value where one is known, so that two can be compared.
package colour

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"guidegen/content/measure"
)

// Error is the refusal that every reader of a text in the guide returns.
type Error = measure.Error

// RGB is a colour in 8-bit sRGB (IEC 61966-2-1).
type RGB struct{ R, G, B uint8 }

// Hex writes the six digits, lower case, without #.
func (c RGB) Hex() string { return fmt.Sprintf("%02x%02x%02x", c.R, c.G, c.B) }

// Colour is a colour as given. Words are as written, and empty where only hex
// digits were; without a value it can be shown but not compared.
type Colour struct {
	Words    string
	Value    RGB
	HasValue bool
}

// IsZero reports whether no colour was given.
func (c Colour) IsZero() bool { return c == Colour{} }

// String is the words, or the hex digits where there are none.
func (c Colour) String() string {
	if c.Words == "" && c.HasValue {
		return c.Value.Hex()
	}
	return c.Words
}

var (
	sixDigits = regexp.MustCompile(`^[0-9A-Fa-f]{6}$`)
	nearlyHex = regexp.MustCompile(`^(?:[0-9A-Fa-f]*[0-9][0-9A-Fa-f]*|0x[0-9A-Fa-f]+)$`)
)

// Parse reads words, which bring a value where they are a name of the table,
// or six hex digits without #. Words not in the table are a colour without a
// value and no error.
func Parse(s string) (Colour, error) {
	t := strings.Join(strings.Fields(s), " ")
	refuse := func(reason, want string) (Colour, error) {
		return Colour{}, &Error{Found: s, Reason: reason, Want: want}
	}
	switch digits, hashed := strings.CutPrefix(t, "#"); {
	case t == "":
		return refuse("isn't a colour", "write words such as Dark Olive, or six hex digits without #")
	case hashed && sixDigits.MatchString(digits):
		return refuse("starts with #, which begins a comment", "write "+digits)
	case hashed:
		return refuse("isn't a colour", "write six hex digits without #: 403d21")
	case sixDigits.MatchString(t):
		n, _ := strconv.ParseUint(t, 16, 24)
		return Colour{Value: RGB{uint8(n >> 16), uint8(n >> 8), uint8(n)}, HasValue: true}, nil
	case nearlyHex.MatchString(t):
		return refuse("is neither words nor six hex digits", "write six hex digits without #: 403d21")
	}
	v, ok := Named(t)
	return Colour{t, v, ok}, nil
}
