// Package hook holds hook sizes, which order by the real size of the hook and
// never as text, and the hooks that the club has measured.
//
// No standard ties a hook number to a length; makers differ by two sizes and
// more (makers' own statements). Hence a measured table, and no formula.
package hook

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"guidegen/content/measure"
)

// Error is the refusal that every reader of a text in the guide returns.
type Error = measure.Error

// Size is a place on the catalogue's scale, in half steps; the larger the
// hook, the larger the Size: 22 < 20 < … < 2 < 1 < 1/0 < 2/0. The zero Size is
// not given.
//
// Catalogues list the even numbers down to 2, then 1, 1/0, 2/0 and on: each is
// one step (common practice, no source). The odd numbers that some makers add
// (13, 15) lie half a step from their neighbours.
type Size int

const (
	size2  Size = 100 // so that the smallest hook, 40, is still above 0
	size1  Size = size2 + 2
	finest      = 40
	ocean       = 20
)

// numbered is the Size of a plain number, naught of a number over nought.
func numbered(n int) Size {
	if n == 1 {
		return size1
	}
	return size2 - Size(n-2)
}

func naught(n int) Size { return size1 + Size(2*n) }

// String is the size as the trade writes it: 14, 1, 2/0; "" where not given.
func (s Size) String() string {
	switch {
	case s == 0:
		return ""
	case s <= size2:
		return strconv.Itoa(int(size2-s) + 2)
	case s == size1:
		return "1"
	}
	return strconv.Itoa(int(s-size1)/2) + "/0"
}

// Odd reports whether the size lies between two sizes of the common catalogue.
func (s Size) Odd() bool { return s%2 != 0 }

// Step is the size's place in the catalogue, in steps, larger for a larger
// hook: 14 lies one above 16.
func (s Size) Step() float64 { return float64(s) / 2 }

// Compare orders by real size, the smaller hook first.
func Compare(a, b Size) int { return cmp.Compare(a, b) }

// PrintOrder orders as sizes are listed, the largest hook first: 12, 14, 16.
func PrintOrder(a, b Size) int { return cmp.Compare(b, a) }

// Steps is a distance on the catalogue's scale, in half steps; positive is
// towards the larger hook.
type Steps int

// From is the steps from another size to s: positive where s is the larger.
func (s Size) From(other Size) Steps { return Steps(s - other) }

// Count is the number of steps, signed.
func (d Steps) Count() float64 { return float64(d) / 2 }

// String says a distance with its direction: "one step larger", "2½ steps
// smaller", "the same size".
func (d Steps) String() string {
	direction := "larger"
	if d < 0 {
		d, direction = -d, "smaller"
	}
	half := ""
	if d%2 != 0 {
		half = "½"
	}
	switch d {
	case 0:
		return "the same size"
	case 1:
		return "half a step " + direction
	case 2:
		return "one step " + direction
	}
	return fmt.Sprintf("%d%s steps %s", int(d)/2, half, direction)
}

// Range is a run of sizes; Small and Large are the same for one size.
type Range struct{ Small, Large Size }

// String writes the range as the trade does, the larger hook first: 14–18.
func (r Range) String() string {
	if r.Small == r.Large {
		return r.Large.String()
	}
	return r.Large.String() + "–" + r.Small.String()
}

// Sizes are the sizes of a range, largest first: every second half step from
// its ends, so 14–18 has 14, 16 and 18, 13–17 has 13, 15 and 17, and 13–18 has
// 13 and then the even ones.
func (r Range) Sizes() []Size {
	var l []Size
	for s := r.Large; s >= r.Small; s-- {
		if s == r.Large || s == r.Small || s.Odd() == (r.Large.Odd() && r.Small.Odd()) {
			l = append(l, s)
		}
	}
	return l
}

var (
	plainSize = regexp.MustCompile(`^\d+$`)
	overSize  = regexp.MustCompile(`^(\d+)\s*/\s*(\d+)$`)
	label     = regexp.MustCompile(`(?i)^(?:sizes?|no\.?)\s+`)
	through   = regexp.MustCompile(`(?i)\s*(?:\bto\b|-|–|—)\s*`)
	apart     = regexp.MustCompile(`(?i)\s*(?:[,;]|\band\b|\bor\b)\s*`)
)

// ParseSize reads one size: "14", "1/0".
func ParseSize(s string) (Size, error) {
	t := label.ReplaceAllString(strings.TrimSpace(s), "")
	refuse := func(reason, want string) (Size, error) { return 0, &Error{Found: s, Reason: reason, Want: want} }
	if m := overSize.FindStringSubmatch(t); m != nil {
		switch n, err := strconv.Atoi(m[1]); {
		case strings.Trim(m[1], "0") == "" && m[2] != "0":
			return refuse("isn't a hook size", "write the nought last: "+m[2]+"/0")
		case m[2] != "0":
			return refuse("may be two sizes or one", "write "+m[1]+", "+m[2]+" for two sizes; a size over nought ends in /0")
		case err != nil || n < 1 || n > ocean || m[1][0] == '0':
			return refuse("isn't a hook size", fmt.Sprintf("sizes over nought run from 1/0 to %d/0", ocean))
		default:
			return naught(n), nil
		}
	}
	switch n, err := strconv.Atoi(t); {
	case !plainSize.MatchString(t):
		return refuse("isn't a hook size", "write a catalogue size: 14, or 1/0")
	case strings.Trim(t, "0") == "":
		return refuse("is a size of an old scale that makers did not agree on", "write the size in today's catalogue numbers, or measure the hook's shank in mm")
	case t[0] == '0':
		return refuse("starts with a nought", "write "+strings.TrimLeft(t, "0"))
	case err != nil || n > finest:
		return refuse("isn't a hook size", fmt.Sprintf("sizes run from %d, the smallest, to %d/0, the largest", finest, ocean))
	default:
		return numbered(n), nil
	}
}

// ParseRange reads a size or a run of sizes, from either end: "14", "14-18",
// "18 to 14", "2/0–4".
func ParseRange(s string) (Range, error) {
	ends := through.Split(label.ReplaceAllString(strings.TrimSpace(s), ""), -1)
	if len(ends) > 2 {
		return Range{}, &Error{Found: s, Reason: "has more than two ends", Want: "write 14-18"}
	}
	var sizes []Size
	for _, end := range ends {
		size, err := ParseSize(end)
		if err != nil {
			e := err.(*Error)
			return Range{}, &Error{Found: s, Reason: e.Reason, Want: e.Want}
		}
		sizes = append(sizes, size)
	}
	return Range{slices.Min(sizes), slices.Max(sizes)}, nil
}

// ParseSizes reads the sizes that a dressing is tied in, as sizes and ranges:
// "14", "14-18", "10, 12 and 14-18". They come largest first, each once.
func ParseSizes(s string) ([]Size, error) {
	var l []Size
	for _, part := range apart.Split(label.ReplaceAllString(strings.TrimSpace(s), ""), -1) {
		r, err := ParseRange(part)
		if err != nil {
			e := err.(*Error)
			return nil, &Error{Found: s, Reason: e.Reason, Want: e.Want}
		}
		l = append(l, r.Sizes()...)
	}
	slices.SortFunc(l, PrintOrder)
	return slices.Compact(l), nil
}

// List prints sizes the largest first, runs of whole steps drawn together:
// "10, 14–18".
func List(sizes []Size) string {
	l := slices.Clone(sizes)
	slices.SortFunc(l, PrintOrder)
	l = slices.Compact(l)
	var parts []string
	for i := 0; i < len(l); {
		j := i
		for j+1 < len(l) && l[j].From(l[j+1]) == 2 {
			j++
		}
		if j < i+2 { // a run of two is shorter as a list
			j = i
		}
		parts = append(parts, Range{l[j], l[i]}.String())
		i = j + 1
	}
	return strings.Join(parts, ", ")
}
