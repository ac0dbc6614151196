package view

// The drawings of a fly on its page: the stages that fly, by sex where they look different, all at one
// scale, since what stands side by side is compared.

import (
	"math"
	"slices"
	"strconv"

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

// Drawings are a fly's stages, all at one scale.
func (p *Printer) Drawings(at string, f *figures.Fly) []DrawingView {
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
		male, female := p.Album.Fly(f, stage, species.Male), p.Album.Fly(f, stage, species.Female)
		if male.Address == female.Address {
			add(form{p.Album.Fly(f, stage, species.NoSex), stage, species.NoSex})
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
		v := DrawingView{wide: x.WidthMM, Src: p.Deps.Site.Link(at, x.Address), Alt: x.Alt,
			Caption: p.words.Plain("drawing.caption", "fly", f.Name.S, "stage", p.CaseOf(x.stage, x.sex, ""))}
		v.Width, v.Height = x.Pixels(math.Min(drawnWide/widest, 24))
		if x.LengthMM > 0 {
			v.Length, v.From = p.Length(x.LengthMM, 1, Grounded(x.Ground.Basis)), p.words.Plain("paper.measured.account")
			if x.Ground.N > 0 {
				v.From = p.words.Plain("drawing.measured", "n", strconv.Itoa(x.Ground.N))
			}
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

// SideBySide draws a fly and a look-alike at one scale.
func (p *Printer) SideBySide(at string, a, b *figures.Fly) []DrawingView {
	mine, theirs := p.FlyPicture(a), p.FlyPicture(b)
	if !mine.Known() || !theirs.Known() || mine.LengthMM == 0 || theirs.LengthMM == 0 {
		return nil
	}
	scale := min(alikeScale, alikeWide/max(mine.WidthMM, theirs.WidthMM))
	var out []DrawingView
	for _, x := range []struct {
		draw.Picture
		*figures.Fly
	}{{mine, a}, {theirs, b}} {
		v := DrawingView{Src: p.Deps.Site.Link(at, x.Picture.Address), Alt: x.Alt, Caption: x.Name.S,
			Length: p.Length(x.LengthMM, 1, Grounded(x.Ground.Basis))}
		v.Width, v.Height = x.Pixels(scale)
		out = append(out, v)
	}
	return out
}

// LevelOf is where in the water a stage is met, in words.
func (p *Printer) LevelOf(r *figures.Row, w species.Words) string {
	return p.LevelsIn("level", figures.Levels(r.Fly.Account, w))
}

// LevelsIn words levels with one of the lists of words.
func (p *Printer) LevelsIn(with string, list []species.Level) string {
	var words []string
	for _, l := range list {
		words = append(words, p.words.Or(with, string(l)))
	}
	return p.words.List(words)
}

// FlyPicture is how a fly stands in a row: the dun, or the adult; where the sexes differ, the female.
func (p *Printer) FlyPicture(f *figures.Fly) draw.Picture {
	return p.Album.Fly(f, RowStage(f), species.NoSex)
}

// RowStage is the stage that stands for a fly in a row: the dun, or the adult.
func RowStage(f *figures.Fly) species.Stage {
	stages := f.Group.Stages()
	for _, s := range stages {
		if s.OnTheWing() {
			return s
		}
	}
	return stages[len(stages)-1] // what never flies
}

// Measured says what a length is.
func (p *Printer) Measured(g figures.HookGround) string {
	n := strconv.Itoa(g.N)
	switch g.From {
	case figures.FromWater:
		return p.words.Plain("paper.measured.water", "n", n)
	case figures.FromAll:
		return p.words.Plain("paper.measured.all", "n", n, "waters", p.words.List(g.Waters))
	}
	return p.words.Plain("paper.measured.account")
}
