package view

// A dressing: its parts, sizes and where it is fished.

import (
	"cmp"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/species"
	"guidegen/species/colour"
	"guidegen/species/hook"
	"guidegen/species/tying"
)

// DressPart is one line of the recipe, beside the colour of the natural that it imitates best.
type DressPart struct {
	Part    string
	Of      string
	Swatch  *SwatchView
	Natural *SwatchView
	Match   string // "a match", or how far the colours are apart

	part string
}

// Fishes says where in the water a dressing is fished.
func (p *Printer) Fishes(d *figures.Dressing) string {
	var s []string
	for _, l := range d.Fishes {
		s = append(s, p.words.Or("level", string(l)))
	}
	return p.words.List(s)
}

// DressingSizes are the sizes that a dressing is tied in.
func (p *Printer) DressingSizes(d *figures.Dressing) string {
	if d.SizesText.S != "" && len(d.Dressing.Sizes) == 0 {
		return d.SizesText.S
	}
	return hook.List(d.Dressing.Sizes)
}

// Recipe is what a dressing is made of, in the order in which it is tied.
func (p *Printer) Recipe(d *figures.Dressing) []DressPart {
	var parts []DressPart
	for _, part := range d.Parts {
		dp := DressPart{Part: p.words.Or("dress_part", part.Part), Of: part.Of.S, part: part.Part}
		if !part.Shade.Colour.IsZero() {
			s := p.Swatch("", part.Shade)
			dp.Swatch = &s
		}
		parts = append(parts, dp)
	}
	if u := BestUse(d); u != nil {
		p.besideColours(parts, u)
	}
	return parts
}

// besideColours puts the natural's colours beside the recipe's, for the parts that the score compares.
func (p *Printer) besideColours(parts []DressPart, u *figures.DressingUse) {
	if u.Offer.Colour == nil {
		return
	}
	for _, c := range u.Offer.Colour.Parts {
		for i := range parts {
			part := &parts[i]
			if part.part != c.Name && !(c.Name == "legs" && part.part == "hackle") {
				continue
			}
			for _, of := range u.Fly.Colours {
				if of.Part != c.Name && !(c.Name == "hackle" && of.Part == "legs") {
					continue
				}
				if shade, ok := of.Cases.First(species.Words{Stage: u.Stage, Sex: u.Sex, Flight: u.Flight}); ok {
					s := p.Swatch("", shade.Value)
					part.Natural = &s
				}
			}
			part.Match = p.words.Plain("dressing.apart", "delta", content.Decimal(c.DeltaE, 0))
			if content.Round9(c.DeltaE) < colour.JustControlled {
				part.Match = p.words.Plain("dressing.match")
			}
			break
		}
	}
}

// BestUse is the use to show: for a fly that the dressing names before another, with lengths before without, then
// that of the highest score; nil where there is none.
func BestUse(d *figures.Dressing) *figures.DressingUse {
	var best *figures.DressingUse
	for i := range d.For {
		u := &d.For[i]
		if u.Fly == nil {
			continue
		}
		if best == nil || cmp.Or(u.Offer.Named.By.Rank()-best.Offer.Named.By.Rank(), sizedFirst(u)-sizedFirst(best),
			cmp.Compare(content.Round9(best.Offer.Score), content.Round9(u.Offer.Score))) < 0 {
			best = u
		}
	}
	return best
}

// HookText is a model and a size: "dry fly 14".
func (p *Printer) HookText(h tying.Hook) string {
	if h.Model == "" {
		return h.Size
	}
	return p.words.Plain("sizes.hook", "size", h.Size, "model", h.Model)
}

// Sized reports whether the shank that a dressing is offered on is known.
func Sized(u *figures.DressingUse) bool { return u.Offer.Size != nil && u.Offer.Size.Hook.Shank > 0 }

func sizedFirst(u *figures.DressingUse) int {
	if Sized(u) {
		return 0
	}
	return 1
}
