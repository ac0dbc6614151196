package page

// The sieve, which works on the reader's device: what is ticked and measured against every form of every fly.

import (
	"cmp"
	"html/template"
	"math"
	"slices"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/now"
	"guidegen/build/view"
	"guidegen/content/calendar"
	"guidegen/species"
	"guidegen/species/key"
)

// SieveModel is the sieve's page. All but its frame is made by the script from the data.
type SieveModel struct {
	view.Frame
	Waters []lang.Link
	Data   template.HTML
	Key    lang.Link
}

// sieveData is what the script works on: the vocabulary, and each fly form by form with its states as places in it.
type sieveData struct {
	Characters []sieveCharacter `json:"characters"`
	Forms      [][2]string      `json:"forms"`    // "male dun", "dun"
	Drawings   []string         `json:"drawings"` // "fig/s/mayfly-dun.svg 57 37": width and height in pixels, at the page's one scale
	Flies      []sieveFly       `json:"flies"`
	Waters     []string         `json:"waters"`
	Longest    int              `json:"longest"` // of all flies, in mm
	Easy       float64          `json:"easy"`
	Near       float64          `json:"near"`
	Memory     float64          `json:"memory"`
	Base       float64          `json:"base"`
}

// sieveCharacter is a feature: Needs grades what it takes to see it, Place is its place in the order in which one looks.
type sieveCharacter struct {
	Name   string       `json:"name"`
	Needs  int          `json:"needs"`
	With   string       `json:"with,omitempty"`
	About  string       `json:"about,omitempty"`
	Place  int          `json:"place"`
	States []sieveState `json:"states"`
}

// sieveState is one answer, with its pictogram.
type sieveState struct {
	Name  string `json:"n"`
	About string `json:"a,omitempty"`
	Sign  string `json:"i,omitempty"`
}

// sieveFly is a fly on each water: its chances as runs of days, [first day, steps, first day, steps …] as packedDays has them;
// null where it isn't known.
type sieveFly struct {
	Name    string      `json:"name"`
	Href    string      `json:"href"`
	Forms   []sieveForm `json:"f"`
	Chances [][]any     `json:"c"`
}

// sieveForm is a fly in one form. Of each character, what is known there: 1 where it can show it at all, 2 where what is
// known is from memory alone, and from 4 on a bit for each state. The first form has all of them, the others where they
// differ from it; so with lengths, [low, high] in mm, of the body and overall.
type sieveForm struct {
	Form    int              `json:"n"`
	Drawing int              `json:"p"` // among the drawings; -1 where there is none
	Known   []int            `json:"v,omitempty"`
	Differs map[int]int      `json:"d,omitempty"`
	Lengths *[2][][2]float64 `json:"l,omitempty"`
}

func (p *Printer) sieve() SieveModel {
	w := p.words
	m := SieveModel{Frame: p.Frame("sieve", view.SievePage, w.Plain("sieve.title"), view.ToolStyle), Key: p.Link(view.SievePage, view.KeyPage, w.Plain("nav.key"))}
	m.Run = p.Run(view.SievePage, "kit.js", "sieve.js")
	m.Way = []lang.Link{m.Key}
	m.Description = w.Plain("sieve.about")
	about, set := map[string]string{}, key.Defaults()
	if e := p.book.Edition; e != nil {
		set = e.Constants.Key
		for _, c := range e.Characters {
			about[c.Name] = c.About
			for _, s := range c.States {
				about[c.Name+"\x00"+s.Name] = s.About
			}
		}
	}
	d := sieveData{Easy: set.Easy, Near: set.Near, Memory: set.Memory, Base: set.Base, Characters: []sieveCharacter{}, Flies: []sieveFly{}, Waters: []string{}}
	var chars []key.Character
	for i, c := range p.book.Vocabulary {
		if len(c.Groups) == 0 || !slices.ContainsFunc(p.book.Flies, func(f *figures.Fly) bool { return knows(f, c) }) {
			continue // a character of the nymph, or one that no account gives
		}
		sc := sieveCharacter{Name: c.Name, Needs: int(c.Needs), With: p.Needs(c.Needs.String()), About: about[c.Name], Place: c.Looked(i)}
		for _, s := range c.States {
			sc.States = append(sc.States, sieveState{s, about[c.Name+"\x00"+s], p.Sign(view.SievePage, c.Name, s)})
		}
		d.Characters = append(d.Characters, sc)
		chars = append(chars, c)
	}
	for _, x := range p.book.Waters {
		m.Waters = append(m.Waters, p.WaterLink(view.SievePage, x))
		d.Waters = append(d.Waters, x.Name.S)
	}
	scale := p.ScaleOf(p.book.Flies, now.RowWide, view.KeyScale)
	for _, f := range p.book.Flies {
		d.Flies = append(d.Flies, p.sieveFly(f, chars, &d, scale))
	}
	m.Data = view.JsonBlock("sieve-data", d)
	return m
}

// knows reports whether an account gives a character in some form.
func knows(f *figures.Fly, c key.Character) bool {
	return slices.ContainsFunc(f.Described.Forms, func(form key.Form) bool { return len(f.Described.States[form][c.Name]) > 0 })
}

// sieveFly is a fly as the key takes it, form by form.
func (p *Printer) sieveFly(f *figures.Fly, chars []key.Character, d *sieveData, scale float64) sieveFly {
	s := sieveFly{Name: f.Name.S, Href: p.Deps.Site.Link(view.SievePage, view.FlyPage(f)), Forms: []sieveForm{}, Chances: [][]any{}}
	var first []int
	var long [2][][2]float64
	for i, form := range f.Described.Forms {
		stage := p.words.Or("stage", form.Stage)
		word := [2]string{p.words.Plain("form", "sex", p.words.Or("sex", form.Sex), "stage", stage), stage}
		x := sieveForm{Form: placeOf(&d.Forms, word), Drawing: -1}
		lengths := f.LengthsOf(form)
		for _, l := range slices.Concat(lengths[:]...) {
			d.Longest = max(d.Longest, int(math.Ceil(l[1])))
		}
		if pic := p.Album.Fly(f, species.Stage(form.Stage), species.Sex(form.Sex)); pic.Known() {
			wide, high := pic.Pixels(scale)
			x.Drawing = placeOf(&d.Drawings, p.Deps.Site.Link(view.SievePage, cmp.Or(pic.Small, pic.Address))+" "+wide+" "+high)
		}
		known := knownOf(f, form, chars)
		if i == 0 || !slices.Equal(lengths[0], long[0]) || !slices.Equal(lengths[1], long[1]) {
			x.Lengths = &lengths
		}
		if i == 0 {
			first, x.Known, long = known, known, lengths
		} else {
			x.Differs = map[int]int{}
			for c, v := range known {
				if v != first[c] {
					x.Differs[c] = v
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
		var c []any
		if r := rows[w]; r != nil {
			chance := r.Chance
			for i := range chance {
				if !r.Listed && !p.book.InFlight(r, calendar.Day(i+1)) {
					chance[i] = 0 // what is assumed of a fly that isn't listed says nothing of winter
				}
			}
			c = packedDays(&chance)
		}
		s.Chances = append(s.Chances, c)
	}
	return s
}

// knownOf is what is known of a form, character by character, as sieveForm has it.
func knownOf(f *figures.Fly, form key.Form, chars []key.Character) []int {
	var out []int
	for _, c := range chars {
		v := 0
		if c.Applies(form, f.Described.Group) {
			v = 1
		}
		if f.Described.Memory[form][c.Name] {
			v |= 2
		}
		for i, s := range c.States {
			if slices.Contains(f.Described.States[form][c.Name], s) {
				v |= 4 << i
			}
		}
		out = append(out, v)
	}
	return out
}

// placeOf is the place of x in a list, where it is put if it isn't there yet.
func placeOf[T comparable](list *[]T, x T) int {
	i := slices.Index(*list, x)
	if i < 0 {
		i = len(*list)
		*list = append(*list, x)
	}
	return i
}

// packedDays packs the chances of a year into runs of days on which there is one: each run's first day, then a letter a day,
// by how many thousandths the chance is above the day before's, the first day's above none. N is no step, O one up, M one
// down, and so on by code; what has no letter between ! and ~ counts round, and goes on at \u00a1, past the controls. A
// year without a chance is an empty list, and a chance that the page words as none counts as none.
func packedDays(chance *[calendar.Year]float64) []any {
	out, run, before := []any{}, []rune{}, 0
	end := func() {
		if len(run) > 0 {
			out = append(out, string(run))
		}
		run, before = nil, 0
	}
	for i, c := range chance {
		at := figures.PerMille(c)
		if at < hardlyAny {
			end()
			continue
		}
		if len(run) == 0 {
			out = append(out, i+1)
		}
		letter := 'N' + rune(at-before)
		if letter < '!' {
			letter += stepsRound
		}
		if letter > '~' {
			letter += '\u00a1' - '\x7f'
		}
		run = append(run, letter)
		before = at
	}
	end()
	return out
}

// hardlyAny is the chance in thousandths under which the sieve says that a fly is hardly to be expected.
const hardlyAny = 5

// stepsRound is how many steps there are from one day to the next, in thousandths: 1000 down to 1000 up.
const stepsRound = 2001
