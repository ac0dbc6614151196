package guide

// Which withheld texts a site can be searched for: not those that the guide itself
// shows to everyone somewhere.

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"guidegen/content"
)

// Mention is a withheld text that the edition's own prose names.
type Mention struct {
	Text string
	At   content.Place // the prose, from its start or before it
}

// open is something that an edition shows to everyone.
type open struct {
	text  string // folded
	at    content.Place
	prose bool // words that could be written otherwise; a name, a source or a credit couldn't
}

// leakable drops withheld texts too short to search for, and those that the
// guide itself shows; where its prose does, that is told.
func (c *cutter) leakable() (withheld []string, named []Mention) {
	shown := c.openTexts()
	var all strings.Builder
	for _, o := range shown {
		all.WriteString(o.text + "\n")
	}
	var done []string
	for _, s := range append(slices.Clone(c.said), c.nameVariants()...) {
		s = strings.TrimSpace(s)
		if len([]rune(s)) < 4 || slices.Contains(done, s) {
			continue
		}
		done = append(done, s)
		k := content.Fold(s)
		if !WholeWords(all.String(), k) {
			withheld = append(withheld, s)
			continue
		}
		for _, o := range shown {
			if o.prose && WholeWords(o.text, k) {
				named = append(named, Mention{s, o.at})
			}
		}
	}
	slices.Sort(withheld)
	return withheld, named
}

// nameVariants are the ways to write the names that are not to be shown in full,
// without those that are the name of somebody who may be.
func (c *cutter) nameVariants() (l []string) {
	for _, name := range c.names {
		for _, v := range variants(name) {
			if c.e.Settings.People[content.Fold(v)] != FullName && v != initials(name) {
				l = append(l, v)
			}
		}
	}
	return l
}

// surnames are the last words of those names: text for everyone that holds one may
// mean the person.
func (c *cutter) surnames() (l []string) {
	for _, name := range c.names {
		if s := surname(name); s != "" && !slices.Contains(l, s) {
			l = append(l, s)
		}
	}
	slices.Sort(l)
	return l
}

// openTexts is what the edition shows in the editor's own words.
func (c *cutter) openTexts() []open {
	var l []open
	put := func(at content.Place, prose bool, texts ...string) {
		for _, s := range texts {
			if s != "" {
				l = append(l, open{content.Fold(s), at, prose})
			}
		}
	}
	names := func(list ...content.Text) {
		for _, t := range list {
			put(t.At, false, t.S)
		}
	}
	texts := func(list ...content.Text) {
		for _, t := range list {
			put(t.At, true, t.S)
		}
	}
	e := c.e
	put(content.Place{File: "guide.yaml"}, true, e.Settings.Name, e.Settings.Publisher, e.Settings.Region, e.Settings.About, e.Settings.Contact, e.Settings.Licence)
	for _, a := range e.Accounts {
		names(a.Names()...)
		put(a.At, false, a.Scientific.Authority)
		put(content.Place{File: a.Body.File, Offset: a.Body.Offset}, true, a.Body.Markdown)
	}
	for _, n := range e.Notes {
		put(n.At, true, n.Title)
		put(content.Place{File: n.Body.File, Offset: n.Body.Offset}, true, n.Body.Markdown)
	}
	for _, d := range e.Dressings {
		names(d.Name)
		texts(d.Notes)
	}
	for _, w := range e.Waters {
		names(append(slices.Clone(w.Also), w.Name)...)
		texts(w.Bed, w.About, w.Rules, w.Access, w.Code, w.Meet)
		texts(w.Hazards...)
		for _, b := range w.Beats {
			names(b.Name)
		}
		put(w.PlaceAt, false, w.Place.String())
	}
	for _, p := range e.Photos {
		put(p.At, true, p.Alt, p.Caption)
	}
	for _, s := range e.Sources {
		put(s.At, false, s.Cite.S)
	}
	for name, how := range e.Settings.People {
		if how == FullName {
			put(content.Place{}, false, name)
		}
	}
	return l
}

// WholeWords reports whether words are in a text as words of their
// own: "bridge" doesn't in "footbridge". In scripts that are written without spaces
// any place will do.
func WholeWords(text, words string) bool {
	for from := 0; ; {
		i := strings.Index(text[from:], words)
		if i < 0 {
			return false
		}
		i += from
		before, _ := utf8.DecodeLastRuneInString(text[:i])
		after, _ := utf8.DecodeRuneInString(text[i+len(words):])
		first, size := utf8.DecodeRuneInString(words)
		last, _ := utf8.DecodeLastRuneInString(words)
		if !(joins(before) && joins(first)) && !(joins(last) && joins(after)) {
			return true
		}
		from = i + size
	}
}

func joins(r rune) bool {
	return r != utf8.RuneError && (unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r)) && !unicode.In(r, unicode.Thai, unicode.Lao, unicode.Khmer,
		unicode.Myanmar, unicode.Han, unicode.Hiragana, unicode.Katakana)
}
