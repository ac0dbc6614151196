package content

// Statements: a text that may end in what it rests on, "6 to 10 mm (memory)",
// and lists of them, which are claims. A basis is inherited: statement, block,
// file, guide.

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	"guidegen/content/calendar"
)

// Stated is one statement: its words without the basis, and what it rests on.
type Stated struct {
	Text  Text  // trimmed, without "(basis)"
	Basis Basis // its own or the inherited one; zero where neither is written
	Own   bool  // the statement names its basis itself
}

// Grounds is what the basis of a statement is read against: the keys of the
// sources, and the basis inherited from the block, file or guide (zero if none).
type Grounds struct {
	Sources []string
	Basis   Basis
}

// Has reports whether a key of the sources is known.
func (g Grounds) Has(key string) bool { return slices.Contains(g.Sources, key) }

// Under returns the grounds inside a block that has its own `basis:` (the
// zero Text if it has none).
func (g Grounds) Under(t Text, ps *Problems) Grounds {
	if t.IsZero() {
		return g
	}
	if b, ok := g.read(t, ps); ok {
		g.Basis = b
	}
	return g
}

func (g Grounds) read(t Text, ps *Problems) (Basis, bool) {
	b, ok := ParseBasis(t, g.Has)
	if !ok {
		known := append([]string{"own", "common practice", "memory"}, g.Sources...)
		ps.Errorf("unknown-basis", t.At, "a basis is own, common practice, memory or a key of sources.yaml",
			"%q isn't a basis%s", t.S, DidYouMean(t.S, known))
	}
	return b, ok
}

// State splits a text into its words and its basis. A basis that isn't known
// is reported; the words are kept.
func (g Grounds) State(t Text, ps *Problems) Stated {
	t = t.Trim()
	words, basis := cutBasis(t)
	if basis.IsZero() {
		return Stated{words, g.Basis, false}
	}
	if b, ok := g.read(basis, ps); ok {
		return Stated{words, b, true}
	}
	return Stated{words, g.Basis, false}
}

// Claims reads a text or a list of texts as statements, in the order written.
func (g Grounds) Claims(v Value, ps *Problems) []Stated {
	var l []Stated
	for _, t := range v.Texts(ps) {
		if s := g.State(t, ps); s.Text.S == "" {
			ps.Errorf("empty-statement", t.At, "write the statement, or leave the key out", "nothing is stated here")
		} else {
			l = append(l, s)
		}
	}
	return l
}

// cutBasis takes the last brackets off the end of a text.
func cutBasis(t Text) (words, basis Text) {
	s := t.S
	if !strings.HasSuffix(s, ")") {
		return t, Text{}
	}
	depth := 0
	for i := len(s) - 1; i >= 0; i-- {
		switch s[i] {
		case ')':
			depth++
		case '(':
			if depth--; depth == 0 {
				return t.Sub(0, i).Trim(), t.Sub(i+1, len(s)-1).Trim()
			}
		}
	}
	return t, Text{}
}

// Trim cuts white space off both ends; the place narrows where it can.
func (t Text) Trim() Text {
	i := len(t.S) - len(strings.TrimLeft(t.S, " \t\r\n\u00a0"))
	j := len(strings.TrimRight(t.S, " \t\r\n\u00a0"))
	if i == 0 && j == len(t.S) {
		return t
	}
	return t.Sub(min(i, j), j)
}

// Split cuts a text at each of the separating characters; parts are trimmed,
// empty ones left out.
func (t Text) Split(separators string) []Text {
	var l []Text
	from := 0
	add := func(to int) {
		if p := t.Sub(from, to).Trim(); p.S != "" {
			l = append(l, p)
		}
	}
	for i, r := range t.S {
		if strings.ContainsRune(separators, r) {
			add(i)
			from = i + len(string(r))
		}
	}
	add(len(t.S))
	return l
}

// Refuse reports why a text could not be read, at the part of it that is
// meant. The parsers of dates and quantities refuse with a *calendar.Error.
func (ps *Problems) Refuse(id string, t Text, err error) {
	e, ok := errors.AsType[*calendar.Error](err)
	if !ok {
		ps.Errorf(id, t.At, "", "%q: %v", t.S, err)
		return
	}
	at := t.At
	if i := strings.Index(t.S, e.Found); e.Found != "" && i >= 0 {
		at = t.Sub(i, i+len(e.Found)).At
	}
	ps.Errorf(id, at, e.Want, "%q %s", cmp.Or(e.Found, t.S), e.Reason)
}
