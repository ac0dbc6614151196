package content

// Signs that nobody can see and that turn a text round or steer a screen: control characters, and the overrides and
// embeddings of direction (Unicode Standard Annex 9, section 2). Scripts that run right to left need none of them:
// isolates and marks are left as they are.

import (
	"regexp"
	"strings"
	"unicode/utf8"
)

// isControl reports such a sign; tabs and ends of lines are none.
func isControl(r rune) bool {
	return r < 0x20 && r != '\t' && r != '\n' && r != '\r' || r == 0x7f || r >= 0x80 && r < 0xa0 && r != 0x85 || r >= 0x202a && r <= 0x202e
}

// nameLine is a line of YAML that gives a name.
var nameLine = regexp.MustCompile(`^[\s\-{]*(name|also|old|was|by|credit|publisher|code|people)\s*:`)

// quiet blanks the control signs in a stretch of the file, byte for byte, so that places hold; each line that has one
// is reported, as an error where the line gives a name.
func (f *File) quiet(from int, text []byte, ps *Problems) {
	last := 0
	for i := 0; i < len(text); {
		r, n := rune(text[i]), 1
		if r >= utf8.RuneSelf {
			r, n = utf8.DecodeRune(text[i:])
		}
		if isControl(r) {
			if line, _ := f.LineColumn(from + i); line != last {
				f.sayControl(from+i, n, ps)
				last = line
			}
			for j := range n {
				text[i+j] = ' '
			}
		}
		i += n
	}
}

func (f *File) sayControl(at, n int, ps *Problems) {
	line, _ := f.LineColumn(at)
	p := Problem{ID: "control-sign", Grade: Warning, At: f.At(at, at+n), Want: "type the text anew; until then a space stands for it",
		Message: "a sign that nobody can see stands here, which steers a screen or turns text round"}
	if nameLine.Match(f.Bytes[f.start(line):min(f.charactersOn(f.start(line), 40), len(f.Bytes))]) {
		p.Grade, p.Want = Error, "type the name anew, without it"
	}
	ps.Add(p)
}

// withoutControls is a text in which spaces stand for control signs.
func withoutControls(s string) (string, bool) {
	if !strings.ContainsFunc(s, isControl) {
		return s, false
	}
	return strings.Map(func(r rune) rune {
		if isControl(r) {
			return ' '
		}
		return r
	}, s), true
}
