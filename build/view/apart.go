package view

// Telling apart, ready to print: two stages side by side, and look-alikes.

import (
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/content"
	"guidegen/species"
	"guidegen/species/colour"
	"guidegen/species/key"
)

// CompareView is two stages side by side; rows that differ come first.
type CompareView struct {
	First, Second string
	Rows          []CompareRow
	More          []CompareRow // not known of both, or not different for certain
	Alike         string       // what is the same in both, in one sentence
}

// CompareRow is one character in both stages.
type CompareRow struct {
	Character     lang.Link
	Needs         string
	First, Second string
	Differs       bool
	Same          bool // a colour difference no tyer could control
	Ratio, DeltaE content.Figure
	Basis         Basis
}

// Compared is two stages of a fly side by side; nil for a fly of which nothing can be compared.
func (p *Printer) Compared(at string, c *figures.Comparison) *CompareView {
	if c == nil {
		return nil
	}
	known := func(s string) string {
		if s == "" {
			return p.words.Plain("not_known")
		}
		return s
	}
	both := func(r CompareRow) string {
		text := p.words.Plain("compare.both", "character", r.Character, "state", r.First)
		if r.Needs != "" {
			text = p.words.Plain("compare.with", "what", text, "needs", r.Needs)
		}
		return text
	}
	var alike []string
	v := &CompareView{First: p.words.Or("stage", string(c.First)), Second: p.words.Or("stage", string(c.Second))}
	for _, r := range c.Rows {
		var first, second string
		switch r.Kind {
		case "size":
			first, second = p.comparedSize(r.Sizes[0]), p.comparedSize(r.Sizes[1])
		case "hours":
			first, second = p.hoursWords(r.Hours[0]), p.hoursWords(r.Hours[1])
		default:
			first, second = p.said(r.Kind, r.First), p.said(r.Kind, r.Second)
		}
		row := CompareRow{Character: p.comparedName(at, r), Needs: p.Needs(r.Needs),
			First: known(first), Second: known(second), Differs: r.Differs, Basis: p.Basis(at, r.Basis)}
		if r.Ratio > 0 {
			row.Ratio = content.NewFigure(r.Ratio, "", 2, Grounded(r.Basis))
		}
		if r.HasDeltaE {
			row.DeltaE = content.NewFigure(r.DeltaE, "", 0, Grounded(r.Basis))
			row.Same = content.Round9(r.DeltaE) < colour.JustControlled
		}
		switch {
		case r.Differs:
			v.Rows = append(v.Rows, row)
		case row.First == row.Second && r.Kind != "size":
			alike = append(alike, both(row))
		default:
			v.More = append(v.More, row)
		}
	}
	v.Alike = strings.Join(alike, p.words.Plain("list.comma"))
	return v
}

// comparedName is what a row compares.
func (p *Printer) comparedName(at string, r figures.CompareRow) lang.Link {
	switch r.Kind {
	case "feature":
		return p.Term(at, r.Of)
	case "colour":
		return lang.Link{Text: p.words.Plain("compare.colour", "part", p.words.Or("body_part", r.Of))}
	}
	name := p.words.Plain("compare." + r.Kind)
	for _, x := range []string{r.Flight, p.words.Or("sex", string(r.Sex))} {
		if x != "" {
			name = p.words.Plain("compare.name_of", "name", name, "of", x)
		}
	}
	return lang.Link{Text: name}
}

// said words what an account says of a stage, for each sex where they differ; "" where it says nothing.
func (p *Printer) said(kind string, list []figures.SexSaid) string {
	var out []string
	for _, s := range list {
		var said []string
		for _, state := range s.States {
			if kind == "level" {
				state = p.words.Or("level_short", state)
			}
			said = append(said, state)
		}
		text := strings.Join(said, p.words.Plain("list.or"))
		if kind == "colour" {
			v := p.Swatch("", s.Shade)
			text = strings.Join(Kept(v.Words, v.Seen), p.words.Plain("list.comma"))
		}
		if s.Sex != species.NoSex {
			text = p.words.Plain("compare.of_sex", "sex", p.words.Or("sex", string(s.Sex)), "said", text)
		}
		out = append(out, text)
	}
	return strings.Join(out, p.words.Plain("list.semicolon"))
}

// comparedSize is what was measured of a stage, else what the account says; "" where neither is known.
func (p *Printer) comparedSize(s figures.Size) string {
	if s.N == 0 {
		if c, ok := s.Account.First(); ok {
			return p.RangeText(p.Claimed(c.Value, c.Basis))
		}
		return ""
	}
	text := p.words.Amount(p.Length(s.Median, s.Digits, s.Basis))
	if s.N > 1 {
		text += p.words.Plain("list.comma") + p.RangeText(p.Lengths(s.Low, s.High, s.Digits, s.Basis))
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

// fewAlikes is how many look-alikes are shown at length for one fly: those its account names first.
const fewAlikes = 3

// FewAlike is the likest of the look-alikes.
func (p *Printer) FewAlike(at string, list []figures.Alike, more int) *AlikesView {
	var few []figures.Alike
	for i, a := range list {
		if i < fewAlikes || a.Named {
			few = append(few, a)
		}
	}
	return p.Alike(at, few, more+len(list)-len(few))
}

// Needs is what it takes to see a character; the naked eye goes without saying.
func (p *Printer) Needs(n string) string {
	if n == "" || n == key.NakedEye.String() {
		return ""
	}
	return p.words.Or("needs", n)
}

// Term is a character's name as a link into the glossary, where it stands there.
func (p *Printer) Term(at, name string) lang.Link {
	if p.terms[name] {
		return p.Link(at, GlossaryPage+"#"+TermID(name), name)
	}
	return lang.Link{Text: p.words.Or("character", name)}
}

// TermID is the id of a character in the glossary.
func TermID(name string) string { return "g-" + CleanID(name) }

// AlikesView is the look-alikes of a fly that are listed, and how many are not.
type AlikesView struct {
	List []AlikeView
	Less []AlikeView // less like it, and no account warns of them: with one character each
	More content.Figure
}

// mostSeparators is how many characters stand beside a look-alike: the easiest to see, and what merely helps only where
// there is room. The key has them all.
const mostSeparators = 3

// AlikeView is one look-alike.
type AlikeView struct {
	Fly        lang.Link
	Scientific string
	When       string // not on the wing together, or not compared; "" else
	Verdict    string
	Separating []SeparatorView
	Drawings   []DrawingView // the fly and its look-alike at one scale; none where one can't be drawn
}

// Surely are the characters that tell the two apart, Helping those that merely help.
func (a AlikeView) Surely() []SeparatorView  { return a.separating(false) }
func (a AlikeView) Helping() []SeparatorView { return a.separating(true) }

func (a AlikeView) separating(helps bool) (out []SeparatorView) {
	for _, s := range a.Separating {
		if s.Helps == helps {
			out = append(out, s)
		}
	}
	return out
}

// SeparatorView is one character that tells two flies apart, or helps to.
type SeparatorView struct {
	Character    lang.Link
	Says         string // "always longer", "mostly shorter"; "" of a feature
	Mine, Theirs string
	Needs, Where string
	Helps        bool
}

var verdicts = map[key.Verdict]string{key.InTheHand: "in_the_hand", key.InTheHandBut: "in_the_hand_but", key.SomeForms: "some_forms",
	key.OnlyHelp: "only_help", key.NotInTheHand: "not_in_the_hand", key.NotEnough: "not_enough", key.AnotherKind: "another_kind"}

// Alike is nil where there is no look-alike.
func (p *Printer) Alike(at string, list []figures.Alike, more int) *AlikesView {
	var out, less []AlikeView
	for _, a := range list {
		if a.Fly == nil {
			continue
		}
		v := AlikeView{Fly: p.FlyLink(at, a.Fly), Scientific: a.Fly.Scientific.Name.S, Verdict: p.verdict(a)}
		switch {
		case a.NoForm:
			v.When, v.Verdict = p.words.Plain("alike.not_compared"), ""
		case !a.Meet:
			v.When = p.words.Plain("alike.not_together", "n", strconv.Itoa(a.Apart))
		}
		for _, s := range a.Separates {
			v.Separating = append(v.Separating, p.separator(at, s, a, false))
		}
		for _, s := range a.Helps {
			if len(v.Separating) < mostSeparators {
				v.Separating = append(v.Separating, p.separator(at, s, a, true))
			}
		}
		v.Separating = v.Separating[:min(len(v.Separating), mostSeparators)]
		if len(out) >= fewAlikes {
			v.Separating = v.Separating[:min(len(v.Separating), 1)]
			less = append(less, v)
			continue
		}
		out = append(out, v)
	}
	if len(out) == 0 {
		return nil
	}
	m := &AlikesView{List: out, Less: less}
	if more > 0 {
		m.More = Count(more, content.Basis{})
	}
	return m
}

func (p *Printer) verdict(a figures.Alike) string {
	told, rest := a.Covered, []key.Form{}
	for _, f := range a.Fly.Described.Forms {
		if !slices.Contains(told, f) {
			rest = append(rest, f)
		}
	}
	return p.words.Plain("verdict."+verdicts[a.Verdict], "forms", p.forms(told), "rest", p.forms(rest))
}

// forms names forms as short as can be: "duns", "male spinners", "males".
func (p *Printer) forms(l []key.Form) string {
	both := func(f key.Form) bool {
		return slices.Contains(l, key.Form{Stage: f.Stage, Sex: string(otherSex(f.Sex))})
	}
	var out []string
	add := func(s string) {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	for _, f := range l {
		if both(f) {
			add(p.words.Or("stages", f.Stage))
		} else {
			add(p.words.Plain("form", "sex", p.words.Or("sex", f.Sex), "stage", p.words.Or("stages", f.Stage)))
		}
	}
	return p.words.List(out)
}

func (p *Printer) separator(at string, s key.Separator, a figures.Alike, helps bool) SeparatorView {
	v := SeparatorView{Character: p.Term(at, s.Character), Needs: p.Needs(s.Needs.String()), Helps: helps}
	if n := len(s.Forms); n > 0 && n < len(a.Fly.Described.Forms) {
		v.Where = p.forms(s.Forms)
	}
	if s.Flight != "" {
		v.Where = p.words.Plain("flight.named", "flight", s.Flight)
	}
	b := content.On(content.Part{Ground: content.Assumed})
	switch {
	case s.Character == key.LengthCharacter:
		word := map[bool]string{true: "longer", false: "shorter"}[s.A.Length.Mid() > s.B.Length.Mid()]
		v.Says = p.words.Plain("alike." + map[bool]string{true: "mostly_", false: "always_"}[helps] + word)
		mm := func(m key.Measure) string {
			return p.RangeText(p.Lengths(m.Low, m.High, accountDigits(m.Low, m.High), b))
		}
		v.Mine, v.Theirs = mm(s.A.Length), mm(s.B.Length)
	case s.Character == key.ShadeCharacter:
		v.Says = p.words.Plain("alike.colour", "part", p.words.Or("body_part", s.Part))
		v.Mine, v.Theirs = p.colourName(s.A.Colour.Words), p.colourName(s.B.Colour.Words)
	default:
		v.Mine, v.Theirs = strings.Join(s.A.States, p.words.Plain("list.or")), strings.Join(s.B.States, p.words.Plain("list.or"))
	}
	return v
}

// FlyLink leads to a fly's page, under its name.
func (p *Printer) FlyLink(at string, f *figures.Fly) lang.Link {
	return p.Link(at, FlyPage(f), f.Name.S)
}

// WaterLink leads to a water's page, under its name.
func (p *Printer) WaterLink(at string, w *figures.Water) lang.Link {
	return p.Link(at, WaterPage(w), w.Name.S)
}
