package page

// Keys in numbered couplets, and the sieve that works on the reader's device.

import (
	"cmp"
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
	Only      []KeyedFly // where no couplet is needed
	LeftOut   []Link     // flies of which a form is left out: male spinners without a body colour
	Wingless  []Link     // flies that have no form to be keyed by
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
	Hint       string // how to measure, of a length
	Both       string // "can't see it: both ways, n flies"
	Leads      [2]LeadView
}

// LeadView is one side of it.
type LeadView struct {
	Sign   string // "1" or "1′"
	States string
	Signs  []string // pictograms of the states
	Next   Link
	Flies  []KeyedFly
	Cut    bool
}

// KeyedFly is a fly that a key leads to, with its length and the colour of its body there.
type KeyedFly struct {
	Link
	About string
	Fill  string // colour of the body; "" where no value is known
	Picture
}

// Picture is a drawing in a row.
type Picture struct {
	Src    string `json:"i"`
	Width  string `json:"w"`
	Height string `json:"t"`
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
	scale := p.scaleOf(k.Flies, keyWide, keyScale)
	flies := func(ids []string) []KeyedFly {
		var out []KeyedFly
		for _, id := range ids {
			if f := byID[id]; f != nil {
				out = append(out, KeyedFly{p.flyLink(at, f), p.keyedAbout(k, f), bodyFill(f), p.rowPicture(at, f, scale)})
			}
		}
		return out
	}
	for _, id := range k.LeftOut {
		m.LeftOut = append(m.LeftOut, p.flyLink(at, byID[id]))
	}
	for _, f := range k.Wingless {
		m.Wingless = append(m.Wingless, p.flyLink(at, f))
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
		v.Both = w.Plain("key.both", "n", strconv.Itoa(c.Flies))
		if c.Character == key.LengthCharacter {
			v.Hint = w.Plain("key.length_hint")
		}
		for i, l := range c.Leads {
			lv := LeadView{Sign: v.Number, States: p.leadStates(c, i, l), Flies: flies(l.Flies), Cut: l.Cut}
			for _, s := range l.States {
				if pic := p.sign(at, c.Character, s); pic != "" {
					lv.Signs = append(lv.Signs, pic)
				}
			}
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

// keyWide is the most that a fly of a key takes, in CSS pixels; keyScale what a millimetre takes at most.
const (
	keyWide  = 70.0
	keyScale = 2.4
)

// scaleOf is one scale for flies that stand in rows of one page.
func (p *Printer) scaleOf(flies []*figures.Fly, wide, scale float64) float64 {
	for _, f := range flies {
		if pic := p.flyPicture(f); pic.WidthMM > 0 {
			scale = min(scale, wide/pic.WidthMM)
		}
	}
	return scale
}

// rowPicture is a fly's drawing at so many pixels to a millimetre.
func (p *Printer) rowPicture(at string, f *figures.Fly, scale float64) Picture {
	pic := p.flyPicture(f)
	if !pic.Known() {
		return Picture{}
	}
	w, h := pic.Pixels(scale)
	return Picture{p.deps.Site.Link(at, cmp.Or(pic.Small, pic.Address)), w, h}
}

// sign is the pictogram of a feature's state; "" where there is none.
func (p *Printer) sign(at, character, state string) string {
	if pic := p.album.Pictogram(character, state); pic != "" {
		return p.deps.Site.Link(at, pic)
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
			if s, ok := c.Cases.First(species.Words{Stage: rowStage(f), Sex: sex}); ok && s.Value.Colour.HasValue {
				return "#" + s.Value.Colour.Value.Hex()
			}
		}
	}
	return ""
}

// leadStates words one side of a couplet.
func (p *Printer) leadStates(c key.Couplet, side int, l key.Lead) string {
	if c.Character == key.LengthCharacter {
		mm := p.words.Amount(p.length(c.Limit, 1, content.On(content.Part{Ground: content.Assumed})))
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

// keyedAbout is a fly's length and body colours, by which flies that a key can't separate are still told.
func (p *Printer) keyedAbout(k *figures.Key, f *figures.Fly) string {
	var parts []string
	low, high := 0.0, 0.0
	for _, m := range k.Lengths[f.Address] {
		if high == 0 {
			low = m.Low
		}
		low, high = min(low, m.Low), max(high, m.High)
	}
	if high > 0 {
		parts = append(parts, p.rangeText(p.lengths(low, high, accountDigits(low, high), ground(f.Basis))))
	}
	for _, form := range f.Described.Forms {
		if c := p.colourName(f.Described.Colours[form][key.Body].Words); c != "" && !slices.Contains(parts, c) {
			parts = append(parts, c)
		}
	}
	return strings.Join(parts, p.words.Plain("list.comma"))
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
	if p.book.Lesson(x, i) != nil {
		m.OtherHead = w.Plain("lesson.heading")
		m.Others = []Link{p.link(at, lessonPage(x, i), w.Plain("lesson.title", "water", x.Name.S, "month", w.month(i)))}
	}
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
type SieveState struct{ ID, Name, About, Sign string }

// sieveData is what the script works on: the vocabulary, and each fly form by form with its states as places in it.
type sieveData struct {
	Characters []sieveCharacter `json:"characters"`
	Forms      []string         `json:"forms"`
	Flies      []sieveFly       `json:"flies"`
	Waters     []string         `json:"waters"`
	Easy       float64          `json:"easy"`
	Near       float64          `json:"near"`
	Memory     float64          `json:"memory"`
	Base       float64          `json:"base"`
}

type sieveCharacter struct {
	Name   string   `json:"name"`
	Needs  int      `json:"needs"`
	Place  int      `json:"place"` // in the order in which one looks
	States []string `json:"states"`
}

type sieveFly struct {
	ID    string      `json:"id"`
	Name  string      `json:"name"`
	Href  string      `json:"href"`
	Forms []sieveForm `json:"f"`
	Picture
	Chances [][]int `json:"c"` // per water, per half-month, in thousandths; [] where it isn't
}

// sieveForm is a fly in one form: its states, and whether it can show a character at all; lengths as [low, high].
type sieveForm struct {
	Form    int           `json:"n"`
	States  map[int][]int `json:"s"`
	Shows   []int         `json:"a"`
	Memory  []int         `json:"m,omitempty"` // characters known from memory alone
	Lengths [][2]float64  `json:"l"`
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
	d := sieveData{Easy: set.Easy, Near: set.Near, Memory: set.Memory, Base: set.Base, Characters: []sieveCharacter{}, Flies: []sieveFly{}, Waters: []string{}}
	var chars []key.Character
	for i, c := range p.book.Vocabulary {
		if len(c.Groups) == 0 || !slices.ContainsFunc(p.book.Flies, func(f *figures.Fly) bool { return knows(f, c) }) {
			continue // a character of the nymph, or one that no account gives
		}
		n := strconv.Itoa(len(chars))
		sc := SieveCharacter{ID: "q" + n, Name: c.Name, Needs: p.needs(c.Needs.String()), About: about[c.Name]}
		for i, s := range c.States {
			sc.States = append(sc.States, SieveState{"q" + n + "-" + strconv.Itoa(i), s, about[c.Name+"\x00"+s], p.sign(SievePage, c.Name, s)})
		}
		m.Characters = append(m.Characters, sc)
		d.Characters = append(d.Characters, sieveCharacter{c.Name, int(c.Needs), c.Looked(i), c.States})
		chars = append(chars, c)
	}
	for _, x := range p.book.Waters {
		m.Waters = append(m.Waters, p.waterLink(SievePage, x))
		d.Waters = append(d.Waters, x.Name.S)
	}
	scale := p.scaleOf(p.book.Flies, keyWide, keyScale)
	for _, f := range p.book.Flies {
		m.Flies = append(m.Flies, p.flyLink(SievePage, f))
		d.Flies = append(d.Flies, p.sieveFly(f, chars, &d.Forms, scale))
	}
	text, err := json.Marshal(d)
	if err != nil {
		panic(err) // numbers and strings only
	}
	m.Data = jsonBlock("sieve-data", text)
	return m
}

// knows reports whether an account gives a character in some form.
func knows(f *figures.Fly, c key.Character) bool {
	return slices.ContainsFunc(f.Described.Forms, func(form key.Form) bool { return len(f.Described.States[form][c.Name]) > 0 })
}

// sieveFly is a fly as the key takes it, form by form.
func (p *Printer) sieveFly(f *figures.Fly, chars []key.Character, forms *[]string, scale float64) sieveFly {
	s := sieveFly{Picture: p.rowPicture(SievePage, f, scale), ID: f.Address, Name: f.Name.S, Href: p.deps.Site.Link(SievePage, flyPage(f)), Forms: []sieveForm{}, Chances: [][]int{}}
	for _, form := range f.Described.Forms {
		word := p.words.Plain("form", "sex", p.words.Or("sex", form.Sex), "stage", p.words.Or("stage", form.Stage))
		n := slices.Index(*forms, word)
		if n < 0 {
			n = len(*forms)
			*forms = append(*forms, word)
		}
		x := sieveForm{Form: n, States: map[int][]int{}, Shows: []int{}, Lengths: f.LengthsOf(form)}
		for i, c := range chars {
			if c.Applies(form, f.Described.Group) {
				x.Shows = append(x.Shows, i)
			}
			if f.Described.Memory[form][c.Name] {
				x.Memory = append(x.Memory, i)
			}
			for j, st := range c.States {
				if slices.Contains(f.Described.States[form][c.Name], st) {
					x.States[i] = append(x.States[i], j)
				}
			}
		}
		s.Forms = append(s.Forms, x)
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
