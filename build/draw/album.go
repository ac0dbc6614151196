// Package draw draws what a guide shows of its animals: a fly in each stage and sex, the states of
// its features as pictograms, the dressings. Each drawing is a file of the site, stored once, with
// its own rule for the dark, and shown by img. The same guide gives the same bytes.
//
// What is drawn is what an account and a recipe say. What they leave open is left out or dashed, and
// named in the description. Nothing here reckons: lengths come from build/figures.
package draw

import (
	"bytes"
	"fmt"
	"math"
	"strconv"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/species"
)

// Words words what a drawing says of itself, in the language of the site.
type Words interface {
	Plain(key string, pairs ...any) string
	Or(list, word string) string
	Case(stage species.Stage, sex species.Sex, flight string) string
}

// Picture is one drawing: where its files are, how large the animal is, and what it says to those
// who don't see it. The zero Picture is none.
type Picture struct {
	Address string // "fig/iron-blue-dun-male.svg", with veins, from about 150 px
	Small   string // "fig/s/iron-blue-dun-male.svg", for rows and trays; "" where one file is all
	Alt     string // "Iron blue: diagram of the male dun"
	Desc    string // what is to be seen, to what length it is drawn, what is left out

	// LengthMM is what the animal is drawn to: body, or head to wing tip where that is measured; of a
	// dressing the shank. 0: no length is known, and the picture shows the group's usual one.
	LengthMM                  float64
	Ground                    figures.HookGround // what that length rests on; zero of a dressing
	WidthMM, HeightMM, FootMM float64            // the whole picture; base line FootMM above its bottom edge

	Above bool // seen from above, without feet on a base line

	Unknown []string // parts that the account doesn't give, in English, for Words.Or("drawing_part", …)
}

// Known reports whether there is a picture.
func (p Picture) Known() bool { return p.Address != "" }

// To is the picture at another length of the animal, as on another water.
func (p Picture) To(mm float64) Picture {
	if p.LengthMM > 0 && mm > 0 {
		k := mm / p.LengthMM
		p.LengthMM, p.WidthMM, p.HeightMM, p.FootMM = mm, p.WidthMM*k, p.HeightMM*k, p.FootMM*k
	}
	return p
}

// Pixels are the attributes width and height of an img at so many CSS pixels to a millimetre; 96/25.4 is
// life size.
func (p Picture) Pixels(perMM float64) (width, height string) {
	px := func(mm float64) string { return strconv.Itoa(max(1, int(math.Round(mm*perMM)))) }
	return px(p.WidthMM), px(p.HeightMM)
}

// File is one file of the site to be written.
type File struct {
	Address string
	Bytes   []byte
}

// Album holds all drawings of a book. Safe for several goroutines.
type Album struct {
	words      Words
	characters []species.Character
	constants  guide.Constants
	flies      map[form]Picture
	dressings  map[string]Picture
	states     map[[2]string]string
	files      []File
}

// form is one form of a fly.
type form struct {
	fly   string // address of its account
	stage species.Stage
	sex   species.Sex
	spent bool
}

// New draws everything. An error is a fault of the partials, not of the guide.
func New(book *figures.Book, words Words) (*Album, error) {
	a := &Album{
		words: words, flies: map[form]Picture{}, dressings: map[string]Picture{}, states: map[[2]string]string{},
	}
	if book.Edition != nil {
		a.characters, a.constants = book.Edition.Characters, book.Edition.Constants
	}
	for _, f := range book.Flies {
		for _, stage := range f.Group.Stages() {
			if err := a.stage(f, stage, false); err != nil {
				return nil, fmt.Errorf("%s, %s: %w", f.Address, stage, err)
			}
			if stage == species.Spinner {
				if err := a.stage(f, stage, true); err != nil {
					return nil, fmt.Errorf("%s, %s: %w", f.Address, stage, err)
				}
			}
		}
	}
	for _, d := range book.Dressings {
		if err := a.dressing(d, book.Edition.Hooks); err != nil {
			return nil, fmt.Errorf("%s: %w", d.Address, err)
		}
	}
	return a, a.pictograms()
}

// Fly is the drawing of a fly in a stage. Where the sexes look alike, both and neither share one;
// where they don't, of no sex it is the female's.
func (a *Album) Fly(f *figures.Fly, stage species.Stage, sex species.Sex) Picture {
	return a.flies[form{f.Address, stage, sex, false}]
}

// Spent is a spinner lying with its wings spread, from above, as it is seen on the water.
func (a *Album) Spent(f *figures.Fly, sex species.Sex) Picture {
	return a.flies[form{f.Address, species.Spinner, sex, true}]
}

// Dressing is the drawing of a dressing on the middle one of its hooks; To gives it on another shank.
func (a *Album) Dressing(address string) Picture { return a.dressings[address] }

// Pair is a natural beside an artificial, seen from the same side: To and Pixels give both at one scale.
func (a *Album) Pair(
	f *figures.Fly, stage species.Stage, sex species.Sex, dressing string,
) (natural, artificial Picture) {
	natural, artificial = a.Fly(f, stage, sex), a.Dressing(dressing)
	if spent := a.Spent(f, sex); stage == species.Spinner && artificial.Above && spent.Known() {
		natural = spent
	}
	return natural, artificial
}

// Pictogram is the address of a state's pictogram, 48 units wide and high; "" where the vocabulary
// doesn't hold the state.
func (a *Album) Pictogram(character, state string) string {
	return a.states[[2]string{character, state}]
}

// Files are all files, in a lasting order.
func (a *Album) Files() []File { return a.files }

// stage draws a stage in both sexes, as one file where they look alike.
func (a *Album) stage(f *figures.Fly, stage species.Stage, spent bool) error {
	sexes := []species.Sex{species.Female, species.Male}
	var subjects []*subject
	var forms []*drawn
	var bodies [][]byte
	for _, sex := range sexes {
		s, ok := a.subject(f, stage, sex, spent)
		if !ok {
			return nil
		}
		d, err := s.draw()
		if err != nil {
			return err
		}
		body, _ := d.body(true)
		subjects, forms, bodies = append(subjects, s), append(forms, d), append(bodies, body)
	}
	at := func(sex species.Sex) form { return form{f.Address, stage, sex, spent} }
	if !bytes.Equal(bodies[0], bodies[1]) {
		for i, sex := range sexes {
			p, err := a.insect(subjects[i], forms[i], spent)
			if err != nil {
				return err
			}
			a.flies[at(sex)] = p
		}
		a.flies[at(species.NoSex)] = a.flies[at(species.Female)]
		return nil
	}
	either, _ := a.subject(f, stage, species.NoSex, spent)
	forms[0].perMM *= subjects[0].UnitMM / either.UnitMM
	p, err := a.insect(either, forms[0], spent)
	for _, s := range append(subjects, either) {
		q := p.To(s.length)
		q.Ground = s.ground
		a.flies[at(s.sex)] = q
	}
	return err
}

// insect writes the files of one form.
func (a *Album) insect(s *subject, d *drawn, spent bool) (Picture, error) {
	name := s.fly.Address + "-" + string(s.stage)
	if s.sex != "" {
		name += "-" + string(s.sex)
	}
	if spent {
		name += "-spent"
	}
	p := a.picture(name, d)
	p.Small = "fig/s/" + name + ".svg"
	p.LengthMM, p.Ground, p.Unknown = s.length, s.ground, s.left
	p.Alt = a.words.Plain("drawing.title", "fly", s.fly.Name.S, "stage", a.words.Case(s.stage, s.sex, ""))
	p.Desc, p.Above = a.describe(s), s.view() == "above"
	return p, a.write(p, d)
}

func (a *Album) picture(name string, d *drawn) Picture {
	return Picture{
		Address: "fig/" + name + ".svg",
		WidthMM: float64(d.width) / d.perMM, HeightMM: float64(d.height) / d.perMM, FootMM: d.foot / d.perMM,
	}
}

func (a *Album) write(p Picture, d *drawn) error {
	styles, err := sheets()
	if err != nil {
		return err
	}
	a.files = append(a.files, File{p.Address, d.file(p, styles["lines"], true)})
	if p.Small != "" {
		p.Desc = "" // a page says it beside the picture
		a.files = append(a.files, File{p.Small, d.file(p, styles["small"], false)})
	}
	return nil
}

// file is a drawing as a file of its own, of life size where nothing else is asked for.
func (d *drawn) file(p Picture, style string, fine bool) []byte {
	body, classes := d.body(fine)
	names, desc := "t d", `<desc id="d">`+escape(p.Desc)+"</desc>"
	if p.Desc == "" {
		names, desc = "t", ""
	}
	return fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="%s" `+
		`viewBox="0 0 %d %d" width="%.1fmm" height="%.1fmm">`+
		`<title id="t">%s</title>%s<style>%s</style>%s</svg>`+"\n",
		names, d.width, d.height, p.WidthMM, p.HeightMM, escape(p.Alt), desc, needed(style, classes), body)
}
