package page

// The drawings of a fly on its page: the stages that fly, by sex where they look different, all at one
// scale, since what stands side by side is compared.

import (
	"math"
	"slices"

	"guidegen/build/draw"
	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/species"
)

// DrawingView is one drawing as an img.
type DrawingView struct {
	Src, Alt      string
	Width, Height string // CSS pixels
	Caption       string
	Length        content.Figure // what it is drawn to
	From          string         // whose length that is
	Unknown       string         // what the account doesn't give

	wide float64 // mm of the animal's own
}

// drawnWide is what the widest drawing of a page takes, in CSS pixels: as much as a narrow phone has.
const drawnWide = 300

func (p *Printer) drawings(at string, f *figures.Fly) []DrawingView {
	type form struct {
		draw.Picture
		stage species.Stage
		sex   species.Sex
	}
	var forms []form
	widest := 0.0
	add := func(x form) {
		if x.Known() {
			forms, widest = append(forms, x), max(widest, x.WidthMM)
		}
	}
	for _, stage := range f.Group.Stages() {
		if !stage.OnTheWing() {
			continue
		}
		male, female := p.album.Fly(f, stage, species.Male), p.album.Fly(f, stage, species.Female)
		if male.Address == female.Address {
			add(form{p.album.Fly(f, stage, species.NoSex), stage, species.NoSex})
			continue
		}
		add(form{male, stage, species.Male})
		add(form{female, stage, species.Female})
	}
	measured := slices.ContainsFunc(forms, func(x form) bool { return x.LengthMM > 0 })
	var out []DrawingView
	for _, x := range forms {
		if measured && x.LengthMM == 0 {
			continue // it would stand at a scale of its own
		}
		v := DrawingView{wide: x.WidthMM, Src: p.deps.Site.Link(at, x.Address), Alt: x.Alt,
			Caption: p.words.Plain("drawing.caption", "fly", f.Name.S, "stage", p.caseOf(x.stage, x.sex, ""))}
		v.Width, v.Height = x.Pixels(math.Min(drawnWide/widest, 24))
		if x.LengthMM > 0 {
			v.Length, v.From = p.length(x.LengthMM, 1, ground(x.Ground.Basis)), p.measured(x.Ground)
		}
		var unknown []string
		for _, part := range x.Unknown {
			unknown = append(unknown, p.words.Or("drawing_part", part))
		}
		v.Unknown = p.words.List(unknown)
		out = append(out, v)
	}
	return out
}

// alikeWide is what the wider of two look-alikes takes, in CSS pixels; alikeScale what a millimetre takes at most.
const (
	alikeWide  = 150.0
	alikeScale = 12.0
)

// sideBySide draws a fly and a look-alike at one scale.
func (p *Printer) sideBySide(at string, a, b *figures.Fly) []DrawingView {
	mine, theirs := p.flyPicture(a), p.flyPicture(b)
	if !mine.Known() || !theirs.Known() || mine.LengthMM == 0 || theirs.LengthMM == 0 {
		return nil
	}
	scale := min(alikeScale, alikeWide/max(mine.WidthMM, theirs.WidthMM))
	var out []DrawingView
	for _, x := range []struct {
		draw.Picture
		*figures.Fly
	}{{mine, a}, {theirs, b}} {
		v := DrawingView{Src: p.deps.Site.Link(at, x.Picture.Address), Alt: x.Alt, Caption: x.Name.S,
			Length: p.length(x.LengthMM, 1, ground(x.Ground.Basis))}
		v.Width, v.Height = x.Pixels(scale)
		out = append(out, v)
	}
	return out
}
