package page

// Keys in numbered couplets, and the sieve that works on the reader's device.

import (
	"encoding/json"
	"html/template"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
	"guidegen/species/key"
)

// KeyModel is a key's page.
type KeyModel struct {
	Frame
	About     string
	Flies     content.Figure
	Couplets  []CoupletView
	Only      []Link // where no couplet is needed
	Tools     []string
	Mean      content.Figure
	ByChance  content.Figure
	Cut       bool
	Others    []Link // keys of waters, or of months
	OtherHead string
	Sieve     Link
}

// CoupletView is one numbered question.
type CoupletView struct {
	ID, Number string
	From       Link
	Character  Link
	Needs      string
	Only       string // the sex it is confined to, in words
	Other      string // of which the other sex may be any of Either, since it doesn't show the character
	Either     []Link
	Leads      [2]LeadView
}

// LeadView is one side of it.
type LeadView struct {
	Sign   string // "1" or "1′"
	States string
	Next   Link
	Flies  []Link
	Cut    bool
}

func (p *Printer) keyModel(at, title, about string, k *figures.Key) KeyModel {
	w := p.words
	m := KeyModel{Frame: p.frame("key", at, title), About: about, Sieve: p.link(at, SievePage, w.Plain("nav.sieve"))}
	m.Description = about
	if k == nil {
		return m
	}
	b := content.On(content.Part{Ground: content.Assumed})
	m.Flies, m.Cut = count(len(k.Flies), b), k.Cut
	byID := map[string]*figures.Fly{}
	for _, f := range k.Flies {
		byID[f.Address] = f
	}
	flies := func(ids []string) []Link {
		var out []Link
		for _, id := range ids {
			if f := byID[id]; f != nil {
				out = append(out, p.flyLink(at, f))
			} else {
				out = append(out, Link{Text: id})
			}
		}
		return out
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
		v := CoupletView{ID: "c" + strconv.Itoa(c.Number), Number: strconv.Itoa(c.Number), Character: p.term(at, c.Character), Needs: p.needs(c.Needs.String())}
		if c.From > 0 {
			v.From = Link{strconv.Itoa(c.From), "#c" + strconv.Itoa(c.From)}
		}
		if c.OnlyIn != "" {
			v.Only = w.Plain("only_in", "sex", w.Or("sexes", c.OnlyIn))
			v.Other = w.Plain("key.other_sex", "sex", w.Or("sex", string(otherSex(c.OnlyIn))))
			v.Either = flies(k.Under(c.Number))
		}
		for i, l := range c.Leads {
			lv := LeadView{Sign: v.Number, States: strings.Join(l.States, w.Plain("list.or")), Flies: flies(l.Flies), Cut: l.Cut}
			if i == 1 {
				lv.Sign += "′"
			}
			if l.Next > 0 {
				lv.Next = Link{strconv.Itoa(l.Next), "#c" + strconv.Itoa(l.Next)}
			}
			v.Leads[i] = lv
		}
		m.Couplets = append(m.Couplets, v)
	}
	return m
}

func otherSex(s string) species.Sex {
	if s == string(species.Male) {
		return species.Female
	}
	return species.Male
}

func (p *Printer) wholeKey() KeyModel {
	w := p.words
	m := p.keyModel(KeyPage, w.Plain("key.title"), w.Plain("key.about"), p.book.Key)
	m.OtherHead = w.Plain("key.waters")
	for _, x := range p.book.Waters {
		m.Others = append(m.Others, p.link(KeyPage, waterKeyPage(x), x.Name.S))
	}
	return m
}

func (p *Printer) waterKey(x *figures.Water) KeyModel {
	w, at := p.words, waterKeyPage(x)
	m := p.keyModel(at, w.Plain("key.water_title", "water", x.Name.S), w.Plain("key.water_about", "water", x.Name.S), x.Key)
	m.Way = []Link{p.link(at, KeyPage, w.Plain("nav.key")), p.waterLink(at, x)}
	m.OtherHead = w.Plain("key.months")
	for i := 1; i <= 12; i++ {
		m.Others = append(m.Others, p.link(at, waterMonthKeyPage(x, i), w.month(i)))
	}
	return m
}

func (p *Printer) waterMonthKey(x *figures.Water, i int) KeyModel {
	w, at := p.words, waterMonthKeyPage(x, i)
	m := p.keyModel(at, w.Plain("key.month_title", "water", x.Name.S, "month", w.month(i)),
		w.Plain("key.month_about", "water", x.Name.S, "month", w.month(i)), x.MonthKeys[i-1])
	m.Way = []Link{p.link(at, KeyPage, w.Plain("nav.key")), p.link(at, waterKeyPage(x), x.Name.S)}
	return m
}

// SieveModel is the sieve's page.
type SieveModel struct {
	Frame
	Characters []SieveCharacter
	Flies      []Link
	Waters     []Link
	Data       template.HTML
	Key        Link
}

// SieveCharacter is one question.
type SieveCharacter struct {
	ID, Name string
	Needs    string
	About    string
	States   []SieveState
}

// SieveState is one answer.
type SieveState struct{ ID, Name, About string }

// sieveData is what the script works on: the vocabulary and the flies' states as places in it.
type sieveData struct {
	Characters []sieveCharacter `json:"characters"`
	Flies      []sieveFly       `json:"flies"`
	Waters     []string         `json:"waters"`
	Ease       [3]float64       `json:"ease"`
	Base       float64          `json:"base"`
}

type sieveCharacter struct {
	Name   string   `json:"name"`
	Needs  int      `json:"needs"`
	States []string `json:"states"`
}

type sieveFly struct {
	ID      string        `json:"id"`
	Name    string        `json:"name"`
	Href    string        `json:"href"`
	States  map[int][]int `json:"s"`
	Chances [][]int       `json:"c"` // per water, per half-month, in thousandths; [] where it isn't
}

func (p *Printer) sieve() SieveModel {
	w := p.words
	m := SieveModel{Frame: p.frame("sieve", SievePage, w.Plain("sieve.title"), toolStyle), Key: p.link(SievePage, KeyPage, w.Plain("nav.key"))}
	m.Run = p.run(SievePage, "kit.js", "sieve.js")
	m.Way = []Link{p.link(SievePage, KeyPage, w.Plain("nav.key"))}
	m.Description = w.Plain("sieve.about")
	about := map[string]string{}
	if p.book.Edition != nil {
		for _, c := range p.book.Edition.Characters {
			about[c.Name] = c.About
			for _, s := range c.States {
				about[c.Name+"\x00"+s.Name] = s.About
			}
		}
	}
	set := key.Defaults()
	if p.book.Edition != nil {
		set = p.book.Edition.Constants.Key
	}
	d := sieveData{Ease: set.Ease, Base: set.Base, Characters: []sieveCharacter{}, Flies: []sieveFly{}, Waters: []string{}}
	var chars []key.Character
	for _, c := range p.book.Vocabulary {
		if c.Kind != key.Words || !slices.ContainsFunc(p.book.Flies, func(f *figures.Fly) bool { return len(f.Taxon.Values[c.Name].States) > 0 }) {
			continue // a character of the nymph, or one that no account gives
		}
		n := strconv.Itoa(len(chars))
		sc := SieveCharacter{ID: "q" + n, Name: c.Name, Needs: p.needs(c.Needs.String()), About: about[c.Name]}
		for i, s := range c.States {
			sc.States = append(sc.States, SieveState{"q" + n + "-" + strconv.Itoa(i), s, about[c.Name+"\x00"+s]})
		}
		m.Characters = append(m.Characters, sc)
		d.Characters = append(d.Characters, sieveCharacter{c.Name, int(c.Needs), c.States})
		chars = append(chars, c)
	}
	for _, x := range p.book.Waters {
		m.Waters = append(m.Waters, p.waterLink(SievePage, x))
		d.Waters = append(d.Waters, x.Name.S)
	}
	for _, f := range p.book.Flies {
		m.Flies = append(m.Flies, p.flyLink(SievePage, f))
		d.Flies = append(d.Flies, p.sieveFly(f, chars))
	}
	text, err := json.Marshal(d)
	if err != nil {
		panic(err) // numbers and strings only
	}
	m.Data = jsonBlock("sieve-data", text)
	return m
}

// sieveFly is a fly as the key takes it: all its stages on the wing together.
func (p *Printer) sieveFly(f *figures.Fly, chars []key.Character) sieveFly {
	s := sieveFly{ID: f.Address, Name: f.Name.S, Href: p.deps.Site.Link(SievePage, flyPage(f)), States: map[int][]int{}, Chances: [][]int{}}
	for i, c := range chars {
		for j, st := range c.States {
			if slices.Contains(f.Taxon.Values[c.Name].States, st) {
				s.States[i] = append(s.States[i], j)
			}
		}
	}
	rows := map[*figures.Water]*figures.Row{}
	for _, r := range f.Rows {
		rows[r.Water] = r
	}
	for _, w := range p.book.Waters {
		c := []int{}
		if r := rows[w]; r != nil {
			for cell := range r.Cells {
				c = append(c, cellChance(r, cell))
			}
		}
		s.Chances = append(s.Chances, c)
	}
	return s
}

// cellChance is the chance in the middle of a half-month, in thousandths.
func cellChance(r *figures.Row, cell int) int {
	return int(content.Round9(r.Chance[calendar.Cell(cell).First()+6]*1000) + 0.5)
}
