package page

// Keys in numbered couplets, and the sieve that works on the reader's device.

import (
	"html/template"
	"slices"
	"strconv"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species/key"
)

func (p *Printer) wholeKey() view.KeyModel {
	w := p.words
	m := p.KeyModel(view.KeyPage, w.Plain("key.title"), w.Plain("key.about"), p.book.Key)
	m.OtherHead = w.Plain("key.waters")
	for _, x := range p.book.Waters {
		m.Others = append(m.Others, p.Link(view.KeyPage, view.WaterKeyPage(x), x.Name.S))
	}
	return m
}

func (p *Printer) waterMonthKey(x *figures.Water, i int) view.KeyModel {
	w, at := p.words, view.WaterMonthKeyPage(x, i)
	m := p.KeyModel(at, w.Plain("key.month_title", "water", x.Name.S, "month", w.Month(i)),
		w.Plain("key.month_about", "water", x.Name.S, "month", w.Month(i)), x.MonthKeys[i-1])
	m.Way = []lang.Link{p.Link(at, view.KeyPage, w.Plain("nav.key")), p.Link(at, view.WaterKeyPage(x), x.Name.S)}
	if p.book.Lesson(x, i) != nil {
		m.OtherHead = w.Plain("lesson.heading")
		m.Others = []lang.Link{p.Link(at, view.LessonPage(x, i), w.Plain("lesson.title", "water", x.Name.S, "month", w.Month(i)))}
	}
	return m
}

// SieveModel is the sieve's page.
type SieveModel struct {
	view.Frame
	Characters []SieveCharacter
	Flies      []lang.Link
	Waters     []lang.Link
	Data       template.HTML
	Key        lang.Link
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
	view.Picture
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
	m := SieveModel{Frame: p.Frame("sieve", view.SievePage, w.Plain("sieve.title"), view.ToolStyle), Key: p.Link(view.SievePage, view.KeyPage, w.Plain("nav.key"))}
	m.Run = p.Run(view.SievePage, "kit.js", "sieve.js")
	m.Way = []lang.Link{p.Link(view.SievePage, view.KeyPage, w.Plain("nav.key"))}
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
		sc := SieveCharacter{ID: "q" + n, Name: c.Name, Needs: p.Needs(c.Needs.String()), About: about[c.Name]}
		for i, s := range c.States {
			sc.States = append(sc.States, SieveState{"q" + n + "-" + strconv.Itoa(i), s, about[c.Name+"\x00"+s], p.Sign(view.SievePage, c.Name, s)})
		}
		m.Characters = append(m.Characters, sc)
		d.Characters = append(d.Characters, sieveCharacter{c.Name, int(c.Needs), c.Looked(i), c.States})
		chars = append(chars, c)
	}
	for _, x := range p.book.Waters {
		m.Waters = append(m.Waters, p.WaterLink(view.SievePage, x))
		d.Waters = append(d.Waters, x.Name.S)
	}
	scale := p.ScaleOf(p.book.Flies, view.KeyWide, view.KeyScale)
	for _, f := range p.book.Flies {
		m.Flies = append(m.Flies, p.FlyLink(view.SievePage, f))
		d.Flies = append(d.Flies, p.sieveFly(f, chars, &d.Forms, scale))
	}
	m.Data = view.JsonBlock("sieve-data", d)
	return m
}

// knows reports whether an account gives a character in some form.
func knows(f *figures.Fly, c key.Character) bool {
	return slices.ContainsFunc(f.Described.Forms, func(form key.Form) bool { return len(f.Described.States[form][c.Name]) > 0 })
}

// sieveFly is a fly as the key takes it, form by form.
func (p *Printer) sieveFly(f *figures.Fly, chars []key.Character, forms *[]string, scale float64) sieveFly {
	s := sieveFly{Picture: p.RowPicture(view.SievePage, f, scale), ID: f.Address, Name: f.Name.S, Href: p.Deps.Site.Link(view.SievePage, view.FlyPage(f)), Forms: []sieveForm{}, Chances: [][]int{}}
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
