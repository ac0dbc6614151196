package page

// Telling apart, ready to print: two stages side by side, and look-alikes.

import (
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/species/key"
)

// CompareView is two stages side by side; rows that differ come first.
type CompareView struct {
	First, Second string
	Rows          []CompareRow
	More          []CompareRow // known, and not different
}

// CompareRow is one character in both stages.
type CompareRow struct {
	Character     Link
	Needs         string
	First, Second string
	Differs       bool
	Same          bool // a colour difference no tyer could control
	Ratio, DeltaE content.Figure
	Basis         Basis
}

func (p *Printer) compared(at string, c *figures.Comparison) *CompareView {
	if c == nil {
		return nil
	}
	known := func(s string) string {
		if s == "" {
			return p.words.Plain("not_known")
		}
		return s
	}
	v := &CompareView{First: p.words.Or("stage", string(c.First)), Second: p.words.Or("stage", string(c.Second))}
	for _, r := range c.Rows {
		switch {
		case r.Kind == "size":
			r.First, r.Second = p.comparedSize(r.Sizes[0]), p.comparedSize(r.Sizes[1])
		case len(r.Hours[0])+len(r.Hours[1]) > 0:
			r.First, r.Second = p.hoursWords(r.Hours[0]), p.hoursWords(r.Hours[1])
		}
		row := CompareRow{Character: p.term(at, r.Character), Needs: p.needs(r.Needs),
			First: known(r.First), Second: known(r.Second), Differs: r.Differs, Basis: p.basis(at, r.Basis)}
		if r.Ratio > 0 {
			row.Ratio = content.NewFigure(r.Ratio, "", 2, ground(r.Basis))
		}
		if r.HasDeltaE {
			row.DeltaE = content.NewFigure(r.DeltaE, "", 0, ground(r.Basis))
			row.Same = content.Round9(r.DeltaE) < sameToATyer
		}
		if r.Differs {
			v.Rows = append(v.Rows, row)
		} else {
			v.More = append(v.More, row)
		}
	}
	return v
}

// comparedSize is what was measured of a stage, else what the account says; "" where neither is known.
func (p *Printer) comparedSize(s figures.Size) string {
	if s.N == 0 {
		if c, ok := s.Account.First(); ok {
			return p.rangeText(p.claimed(c.Value, c.Basis))
		}
		return ""
	}
	text := p.words.amount(p.length(s.Median, s.Digits, s.Basis))
	if s.N > 1 {
		text += p.words.Plain("list.comma") + p.rangeText(p.lengths(s.Low, s.High, s.Digits, s.Basis))
	}
	return text + p.words.Plain("list.comma") + p.words.Plain("sizes.n", "n", strconv.Itoa(s.N))
}

func (p *Printer) hoursWords(list []figures.SexHours) string {
	var out []string
	for _, h := range list {
		text := p.words.Span(h.Span)
		if h.Sex != "" {
			text = p.words.Plain("hours_of", "sex", p.words.Or("sex", string(h.Sex)), "hours", text)
		}
		out = append(out, text)
	}
	return strings.Join(out, p.words.Plain("list.semicolon"))
}

// differing keeps the rows that differ, for a water's page.
func (p *Printer) differing(at string, c *figures.Comparison) *CompareView {
	v := p.compared(at, c)
	if v != nil {
		v.More = nil
		if len(v.Rows) == 0 {
			return nil
		}
	}
	return v
}

// riverAlikes is how many look-alikes a water's page lists for one fly, beside those its account names.
const riverAlikes = 3

// fewAlike is the likest of the look-alikes.
func (p *Printer) fewAlike(at string, list []figures.Alike, more int) *AlikesView {
	var few []figures.Alike
	for i, a := range list {
		if i < riverAlikes || a.Named {
			few = append(few, a)
		}
	}
	return p.alike(at, few, more+len(list)-len(few))
}

// needs is what it takes to see a character; the naked eye goes without saying.
func (p *Printer) needs(n string) string {
	if n == "" || n == key.NakedEye.String() {
		return ""
	}
	return p.words.Or("needs", n)
}

// term is a character's name as a link into the glossary, where it stands there.
func (p *Printer) term(at, name string) Link {
	if p.terms[name] {
		return p.link(at, GlossaryPage+"#"+termID(name), name)
	}
	return Link{Text: p.words.Or("character", name)}
}

func termID(name string) string { return "g-" + cleanID(name) }

// AlikesView is the look-alikes of a fly that are listed, and how many are not.
type AlikesView struct {
	List []AlikeView
	More content.Figure
}

// AlikeView is one look-alike.
type AlikeView struct {
	Fly        Link
	Scientific string
	Similarity content.Figure
	Known      content.Figure
	Verdict    string
	InTheHand  bool
	Separating []SeparatorView
}

// SeparatorView is one character that tells two flies apart.
type SeparatorView struct {
	Character    Link
	Mine, Theirs string
	Needs, Where string
}

var verdicts = map[key.Verdict]string{key.InTheHand: "in_the_hand", key.OneSexInTheHand: "one_sex", key.OnlyMicroscope: "microscope",
	key.NotSeparable: "not_separable", key.NothingKnown: "nothing_known"}

// alike is nil where there is no look-alike.
func (p *Printer) alike(at string, list []figures.Alike, more int) *AlikesView {
	var out []AlikeView
	for _, a := range list {
		if a.Fly == nil {
			continue
		}
		v := AlikeView{Fly: p.flyLink(at, a.Fly), Scientific: a.Fly.Scientific.Name.S, InTheHand: a.Verdict.Separable(),
			Verdict: p.words.Plain("verdict."+verdicts[a.Verdict], "sex", p.words.Or("sexes", a.Sex))}
		b := ground(a.Fly.Basis)
		if a.Compared > 0 {
			v.Similarity, v.Known = percent(a.Similarity, b), count(a.Compared, b)
		}
		for _, s := range a.Separators {
			sv := SeparatorView{Character: p.term(at, s.Character), Mine: p.value(s.A), Theirs: p.value(s.B), Needs: p.needs(s.Needs.String())}
			if s.OnlyIn != "" {
				sv.Where = p.words.Plain("only_in", "sex", p.words.Or("sexes", s.OnlyIn))
			}
			v.Separating = append(v.Separating, sv)
		}
		out = append(out, v)
	}
	if len(out) == 0 {
		return nil
	}
	m := &AlikesView{List: out}
	if more > 0 {
		m.More = count(more, content.Basis{})
	}
	return m
}

// value is a character's value in words.
func (p *Printer) value(v key.Value) string {
	switch {
	case len(v.States) > 0:
		return strings.Join(v.States, p.words.Plain("list.or"))
	case v.Size != nil:
		b := content.On(content.Part{Ground: content.Assumed})
		return p.rangeText(p.lengths(v.Size.Low, v.Size.High, accountDigits(v.Size.Low, v.Size.High), b))
	}
	return p.words.Plain("not_known")
}

func (p *Printer) flyLink(at string, f *figures.Fly) Link { return p.link(at, flyPage(f), f.Name.S) }

func (p *Printer) waterLink(at string, w *figures.Water) Link {
	return p.link(at, waterPage(w), w.Name.S)
}
