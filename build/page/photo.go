package page

// Photos beside a fly and on a water's page. A caption is made of what the
// guide says of the picture, so that no other water's, sex's or stage's is
// taken for the one a page is about.

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/lang"
	"guidegen/build/photo"
	"guidegen/build/view"
)

// photoStyle is asked for by pages that show a photo.
const photoStyle = "photos.css"

// mostPhotos is how many photos a water's page shows where they aren't all its own.
const mostPhotos = 12

// PhotoView is one photo with its caption.
type PhotoView struct {
	Src, SrcSet   string
	Width, Height string // of the largest, for the space it takes before it is there
	Alt           string
	Sentence      string      // the editor's
	Shown         []lang.Link // fly, stage, water, date, wild or reared
	Elsewhere     string      // on a water's page: that it was not taken there
	Credit        string
	Licence       string
	ScreenOnly    bool // it may not be printed
}

// photos are those that the edition shows, in the editor's order.
func (p *Printer) photos() []*guide.Photo {
	if p.book.Edition == nil {
		return nil
	}
	return p.book.Edition.Photos
}

func (p *Printer) photo(at string, x *guide.Photo, on *figures.Water) PhotoView {
	v := PhotoView{Alt: x.Alt, Sentence: x.Caption, Credit: x.Credit, Licence: x.Licence, ScreenOnly: !x.InPrint(), Shown: p.shown(at, x)}
	var set []string
	for _, s := range x.Picture.Sizes() {
		link := p.Deps.Site.Link(at, view.PhotoAddress(x, s))
		set = append(set, fmt.Sprintf("%s %dw", link, s.Width))
		if v.Src == "" || s.Width <= photo.Widths[1] { // a reader without srcset gets the middle one
			v.Src = link
		}
		v.Width, v.Height = strconv.Itoa(s.Width), strconv.Itoa(s.Height)
	}
	v.SrcSet = strings.Join(set, ", ")
	if on != nil {
		switch w := x.Shows.Water; {
		case w == nil:
			v.Elsewhere = p.words.Plain("photo.unplaced")
		case w.Address != on.Address:
			v.Elsewhere = p.words.Plain("photo.elsewhere")
		}
	}
	return v
}

// shown is what a photo shows, each with its page where that is another one.
func (p *Printer) shown(at string, x *guide.Photo) []lang.Link {
	s, w := x.Shows, p.words
	var out []lang.Link
	add := func(text, page string) {
		if text == "" {
			return
		}
		l := lang.Link{Text: text}
		if page != "" && page != at {
			l = p.Link(at, page, text)
		}
		out = append(out, l)
	}
	if s.Fly != nil {
		page := ""
		for _, f := range p.book.Flies {
			if f.Address == s.Fly.Address {
				page = view.FlyPage(f)
			}
		}
		add(s.Fly.Name.S, page)
	}
	if s.Stage != "" || s.Sex != "" {
		add(p.CaseOf(s.Stage, s.Sex, ""), "")
	}
	if s.Water != nil {
		page := ""
		for _, f := range p.book.Waters {
			if f.Address == s.Water.Address {
				page = view.WaterPage(f)
			}
		}
		add(s.Water.Name.S, page)
	}
	add(w.When(s.Date), "")
	switch {
	case s.Reared:
		add(w.Plain("photo.reared"), "")
	case s.Wild:
		add(w.Plain("photo.wild"), "")
	}
	return out
}

// flyPhotos are all that show a fly.
func (p *Printer) flyPhotos(at string, f *figures.Fly) []PhotoView {
	var out []PhotoView
	for _, x := range p.photos() {
		if x.Shows.Fly != nil && x.Shows.Fly.Address == f.Address {
			out = append(out, p.photo(at, x, nil))
		}
	}
	return out
}

// waterPhotos are those that name the water, then one of each of its other
// flies, said to be from elsewhere.
func (p *Printer) waterPhotos(at string, w *figures.Water) []PhotoView {
	var out []PhotoView
	var seen []string
	for _, x := range p.photos() {
		if x.Shows.Water != nil && x.Shows.Water.Address == w.Address {
			out = append(out, p.photo(at, x, w))
			if x.Shows.Fly != nil {
				seen = append(seen, x.Shows.Fly.Address)
			}
		}
	}
	for _, r := range w.Rows {
		i := slices.IndexFunc(p.photos(), func(x *guide.Photo) bool { return x.Shows.Fly != nil && x.Shows.Fly.Address == r.Fly.Address })
		if i >= 0 && len(out) < mostPhotos && !slices.Contains(seen, r.Fly.Address) {
			out = append(out, p.photo(at, p.photos()[i], w))
		}
	}
	return out
}

// withPhotos asks for the photos' style where there are any.
func (p *Printer) withPhotos(f *view.Frame, list []PhotoView) []PhotoView {
	if len(list) > 0 {
		f.Styles = append(f.Styles, p.Deps.Site.Link(f.Address, view.Assets+photoStyle))
	}
	return list
}

// PhotoCredit is one line of the credits.
type PhotoCredit struct {
	Shown   []lang.Link
	Alt     string
	Credit  string
	Scope   string
	Until   lang.Date
	Licence string
}

func (p *Printer) photoCredits() []PhotoCredit {
	var out []PhotoCredit
	for _, x := range p.photos() {
		q := x.Permission
		out = append(out, PhotoCredit{p.shown(view.CreditsPage, x), x.Alt, x.Credit, p.words.Or("photo_scope", q.Scope), p.words.DateOf(q.Until), x.Licence})
	}
	return out
}
