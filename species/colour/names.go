package colour

// Names with a value. The names are those of the ISCC–NBS system (Kelly & Judd
// 1976, NBS Special Publication 440); the values are after the hex list of
// Color::Library::Dictionary::NBS_ISCC (Jaffer). Another published list of
// centroids (Centore 2016) differs a little.

import (
	"slices"
	"strings"
)

var named = []struct {
	name string
	rgb  RGB
}{
	{"Dark Olive", RGB{0x40, 0x3d, 0x21}},
	{"Moderate Olive", RGB{0x66, 0x5d, 0x1e}},
	{"Light Olive", RGB{0x86, 0x7e, 0x36}},
	{"Grayish Olive", RGB{0x5b, 0x58, 0x42}},
	{"Light Grayish Olive", RGB{0x8c, 0x87, 0x67}},
	{"Dark Grayish Olive", RGB{0x36, 0x35, 0x27}},
	{"Olive Gray", RGB{0x57, 0x55, 0x4c}},
	{"Light Olive Gray", RGB{0x8a, 0x87, 0x76}},
	{"Olive Black", RGB{0x25, 0x24, 0x1d}},
	{"Light Olive Brown", RGB{0x96, 0x71, 0x17}},
	{"Moderate Olive Brown", RGB{0x6c, 0x54, 0x1e}},
	{"Dark Olive Brown", RGB{0x3b, 0x31, 0x21}},
	{"Moderate Olive Green", RGB{0x4a, 0x5d, 0x23}},
	{"Grayish Olive Green", RGB{0x51, 0x57, 0x44}},
	{"Moderate Yellow", RGB{0xc9, 0xae, 0x5d}},
	{"Dark Yellow", RGB{0xab, 0x91, 0x44}},
	{"Grayish Yellow", RGB{0xc2, 0xb2, 0x80}},
	{"Dark Grayish Yellow", RGB{0xa1, 0x8f, 0x60}},
	{"Pale Yellow", RGB{0xf3, 0xe5, 0xab}},
	{"Light Yellow", RGB{0xf8, 0xde, 0x7e}},
	{"Grayish Greenish Yellow", RGB{0xb9, 0xb5, 0x7d}},
	{"Moderate Greenish Yellow", RGB{0xb9, 0xb4, 0x59}},
	{"Pale Greenish Yellow", RGB{0xeb, 0xe8, 0xa4}},
	{"Moderate Yellow Green", RGB{0x8a, 0x9a, 0x5b}},
	{"Moderate Yellowish Brown", RGB{0x82, 0x66, 0x44}},
	{"Dark Yellowish Brown", RGB{0x4b, 0x36, 0x21}},
	{"Light Yellowish Brown", RGB{0xc1, 0x9a, 0x6b}},
	{"Grayish Yellowish Brown", RGB{0x7e, 0x6d, 0x5a}},
	{"Moderate Brown", RGB{0x6f, 0x4e, 0x37}},
	{"Dark Brown", RGB{0x42, 0x25, 0x18}},
	{"Light Brown", RGB{0xa6, 0x7b, 0x5b}},
	{"Strong Brown", RGB{0x80, 0x46, 0x1b}},
	{"Grayish Brown", RGB{0x63, 0x51, 0x47}},
	{"Dark Grayish Brown", RGB{0x3e, 0x32, 0x2c}},
	{"Brownish Black", RGB{0x28, 0x20, 0x1c}},
	{"Moderate Reddish Brown", RGB{0x79, 0x44, 0x3b}},
	{"Dark Reddish Brown", RGB{0x3e, 0x1d, 0x1e}},
	{"Strong Reddish Brown", RGB{0x88, 0x2d, 0x17}},
	{"Grayish Reddish Brown", RGB{0x67, 0x4c, 0x47}},
	{"Brownish Orange", RGB{0xae, 0x69, 0x38}},
	{"Medium Gray", RGB{0x84, 0x84, 0x82}},
	{"Dark Gray", RGB{0x55, 0x55, 0x55}},
	{"Dark Bluish Gray", RGB{0x51, 0x58, 0x5e}},
	{"Bluish Gray", RGB{0x81, 0x87, 0x8b}},
	{"Light Gray", RGB{0xb9, 0xb8, 0xb5}},
	{"Pinkish White", RGB{0xea, 0xe3, 0xe1}},
	{"Black", RGB{0x22, 0x22, 0x22}},
}

// Named finds a name's value in any case, with gray or grey, and with hyphens
// or spaces.
func Named(words string) (RGB, bool) {
	rgb, ok := byName[fold(words)]
	return rgb, ok
}

var byName = func() map[string]RGB {
	m := make(map[string]RGB, len(named))
	for _, n := range named {
		m[fold(n.name)] = n.rgb
	}
	return m
}()

// Misspelt is the name that a colour's words look like a slip for, "" where they
// have a value or are words of the writer's own. Word by word at most one letter
// differs, is missing, is too many or has changed places with the next: with more
// than that, "pale brown" is near "Pale Green".
func Misspelt(c Colour) string {
	if c.HasValue || c.Words == "" {
		return ""
	}
	words := strings.Fields(fold(c.Words))
	for _, n := range named {
		name := strings.Fields(fold(n.name))
		if len(name) != len(words) {
			continue
		}
		slips := 0
		for i, w := range words {
			switch {
			case w == name[i]:
			case len(w) > 3 && oneSlip([]rune(w), []rune(name[i])):
				slips++
			default:
				slips = -len(words)
			}
		}
		if slips > 0 {
			return n.name
		}
	}
	return ""
}

// oneSlip reports whether two different words are one slip apart.
func oneSlip(a, b []rune) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	switch len(b) - len(a) {
	case 0:
		swapped := i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && slices.Equal(a[i+2:], b[i+2:])
		return swapped || slices.Equal(a[i+1:], b[i+1:])
	case 1:
		return slices.Equal(a[i:], b[i+1:])
	}
	return false
}

func fold(words string) string {
	s := strings.ToLower(strings.ReplaceAll(words, "-", " "))
	return strings.ReplaceAll(strings.Join(strings.Fields(s), " "), "grey", "gray")
}
