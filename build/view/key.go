package view

// Keys in numbered couplets, on their pages, in booklets and on the sheets of a club evening.

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/content"
	"guidegen/species"
	"guidegen/species/key"
)

// KeyModel is a key's page.
type KeyModel struct {
	Frame
	About     string
	Flies     content.Figure
	Couplets  []CoupletView
	Only      []KeyedFly  // where no couplet is needed
	LeftOut   []lang.Link // flies of which a form is left out: male spinners without a body colour
	Wingless  []lang.Link // flies that have no form to be keyed by
	Tools     []string
	Mean      content.Figure
	ByChance  content.Figure
	Cut       bool
	Others    []lang.Link // keys of waters, or of months
	OtherHead string
	Sieve     lang.Link
}

// CoupletView is one numbered question.
type CoupletView struct {
	ID, Number string
	From       lang.Link
	Character  lang.Link
	Needs      string
	Hint       string // how to measure, of a length
	Both       string // "can't see it: both ways, n flies"
	Leads      [2]LeadView
}

// LeadView is one side of it.
type LeadView struct {
	Sign   string // "1" or "1′"
	States string
	Signs  []string // pictograms of the states
	Next   lang.Link
	Flies  []KeyedFly
	Cut    bool
}

// KeyedFly is a fly that a key leads to, with its length and the colour of its body there.
type KeyedFly struct {
	lang.Link
	About string
	Fill  string // colour of the body; "" where no value is known
	Picture
}

// Picture is a drawing in a row.
type Picture struct {
	Src, Width, Height string
}

// KeyModel is a key as a page prints it.
func (p *Printer) KeyModel(at, title, about string, k *figures.Key) KeyModel {
	w := p.words
	m := KeyModel{Frame: p.Frame("key", at, title, ListStyle), About: about, Sieve: p.Link(at, SievePage, w.Plain("nav.sieve"))}
	m.Description = about
	if k == nil {
		return m
	}
	b := content.On(content.Part{Ground: content.Assumed})
	m.Flies, m.Cut = Count(len(k.Flies), b), k.Cut
	byID := map[string]*figures.Fly{}
	for _, f := range k.Flies {
		byID[f.Address] = f
	}
	scale := p.ScaleOf(k.Flies, KeyWide, KeyScale)
	flies := func(ids []string) []KeyedFly {
		var out []KeyedFly
		for _, id := range ids {
			if f := byID[id]; f != nil {
				out = append(out, KeyedFly{p.FlyLink(at, f), p.keyedAbout(k, f, len(ids) == 1), bodyFill(f), p.RowPicture(at, f, scale)})
			}
		}
		return out
	}
	for _, id := range k.LeftOut {
		m.LeftOut = append(m.LeftOut, p.FlyLink(at, byID[id]))
	}
	for _, f := range k.Wingless {
		m.Wingless = append(m.Wingless, p.FlyLink(at, f))
	}
	if k.Start.Next == 0 {
		m.Only = flies(k.Start.Flies)
	}
	for _, t := range k.Tools {
		m.Tools = append(m.Tools, w.Or("needs", t.String()))
	}
	if len(k.Couplets) > 0 {
		m.Mean, m.ByChance = content.NewFigure(k.MeanSteps, "", 1, b), content.NewFigure(k.MeanStepsByChance, "", 1, b)
	}
	for _, c := range k.Couplets {
		v := CoupletView{ID: "c" + strconv.Itoa(c.Number), Number: strconv.Itoa(c.Number), Character: p.Term(at, c.Character), Needs: p.Needs(c.Needs.String())}
		if c.From > 0 {
			v.From = lang.Link{Text: strconv.Itoa(c.From), Href: "#c" + strconv.Itoa(c.From)}
		}
		v.Both = w.Plain("key.both", "n", strconv.Itoa(c.Flies))
		if c.Character == key.LengthCharacter {
			v.Hint = w.Plain("key.length_hint." + cmp.Or(c.Part, "mixed"))
		}
		for i, l := range c.Leads {
			lv := LeadView{Sign: v.Number, States: p.leadStates(c, i, l), Flies: flies(l.Flies), Cut: l.Cut}
			for _, s := range l.States {
				if pic := p.Sign(at, c.Character, s); pic != "" {
					lv.Signs = append(lv.Signs, pic)
				}
			}
			if i == 1 {
				lv.Sign += "′"
			}
			if l.Next > 0 {
				lv.Next = lang.Link{Text: strconv.Itoa(l.Next), Href: "#c" + strconv.Itoa(l.Next)}
			}
			v.Leads[i] = lv
		}
		m.Couplets = append(m.Couplets, v)
	}
	return m
}

// keyWide is the most that a fly of a key takes, in CSS pixels; keyScale what a millimetre takes at most.
const (
	KeyWide  = 70.0
	KeyScale = 2.4
)

// ScaleOf is one scale for flies that stand in rows of one page.
func (p *Printer) ScaleOf(flies []*figures.Fly, wide, scale float64) float64 {
	for _, f := range flies {
		if pic := p.FlyPicture(f); pic.WidthMM > 0 {
			scale = min(scale, wide/pic.WidthMM)
		}
	}
	return scale
}

// RowPicture is a fly's drawing at so many pixels to a millimetre.
func (p *Printer) RowPicture(at string, f *figures.Fly, scale float64) Picture {
	pic := p.FlyPicture(f)
	if !pic.Known() {
		return Picture{}
	}
	w, h := pic.Pixels(scale)
	return Picture{p.Deps.Site.Link(at, cmp.Or(pic.Small, pic.Address)), w, h}
}

// Sign is the pictogram of a feature's state; "" where there is none.
func (p *Printer) Sign(at, character, state string) string {
	if pic := p.Album.Pictogram(character, state); pic != "" {
		return p.Deps.Site.Link(at, pic)
	}
	return ""
}

// bodyFill is the colour of a fly's body in the form it is drawn in.
func bodyFill(f *figures.Fly) string {
	for _, c := range f.Colours {
		if c.Part != "body" {
			continue
		}
		for _, sex := range []species.Sex{species.Female, species.NoSex, species.Male} {
			if s, ok := c.Cases.First(species.Words{Stage: RowStage(f), Sex: sex}); ok && s.Value.Colour.HasValue {
				return "#" + s.Value.Colour.Value.Hex()
			}
		}
	}
	return ""
}

// leadStates words one side of a couplet.
func (p *Printer) leadStates(c key.Couplet, side int, l key.Lead) string {
	if c.Character == key.LengthCharacter {
		mm := p.words.Amount(p.Length(c.Limit, 1, content.On(content.Part{Ground: content.Assumed})))
		return p.words.Plain([]string{"key.up_to", "key.over"}[side], "length", mm)
	}
	var states []string
	for _, s := range l.States {
		if c.Character == key.ShadeCharacter {
			s = p.words.Or("shade", s)
		}
		states = append(states, s)
	}
	return strings.Join(states, p.words.Plain("list.or"))
}

// keyedAbout is a fly's length and body colours, by which flies that a key can't separate are still told; of one that
// a key leads to alone also what its stages are called.
func (p *Printer) keyedAbout(k *figures.Key, f *figures.Fly, alone bool) string {
	var parts []string
	low, high := 0.0, 0.0
	for _, m := range k.Lengths[f.Address] {
		if high == 0 {
			low = m.Low
		}
		low, high = min(low, m.Low), max(high, m.High)
	}
	if high > 0 {
		parts = append(parts, p.RangeText(p.Lengths(low, high, accountDigits(low, high), Grounded(f.Basis))))
	}
	for _, form := range f.Described.Forms {
		if c := p.colourName(f.Described.Colours[form][key.Body].Words); c != "" && !slices.Contains(parts, c) {
			parts = append(parts, c)
		}
	}
	if alone {
		for _, a := range f.Also {
			if _, ok := f.Called[a.S]; ok {
				parts = append(parts, p.calledAs(f.Account, a.S))
			}
		}
	}
	return strings.Join(parts, p.words.Plain("list.comma"))
}

// AlsoCalled lists a fly's other names, each with the stage that alone bears it.
func (p *Printer) AlsoCalled(a *species.Account) string {
	var names []string
	for _, n := range a.Also {
		names = append(names, p.calledAs(a, n.S))
	}
	return strings.Join(names, p.words.Plain("list.comma"))
}

func (p *Printer) calledAs(a *species.Account, name string) string {
	if of, ok := a.Called[name]; ok {
		return p.words.Plain("search.also", "name", name, "kind", p.CaseOf(of.Stage, of.Sex, ""))
	}
	return name
}

func otherSex(s string) species.Sex {
	if s == string(species.Male) {
		return species.Female
	}
	return species.Male
}

// WaterKey is the key of a water.
func (p *Printer) WaterKey(x *figures.Water) KeyModel {
	w, at := p.words, WaterKeyPage(x)
	m := p.KeyModel(at, w.Plain("key.water_title", "water", x.Name.S), w.Plain("key.water_about", "water", x.Name.S), x.Key())
	m.Way = []lang.Link{p.Link(at, KeyPage, w.Plain("nav.key")), p.WaterLink(at, x)}
	m.OtherHead = w.Plain("key.months")
	for i := 1; i <= 12; i++ {
		m.Others = append(m.Others, p.Link(at, WaterMonthKeyPage(x, i), w.Month(i)))
	}
	return m
}
