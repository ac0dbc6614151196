package page

// A dressing beside the natural it imitates best, at one scale: what each of its hooks says of the length.

import (
	"math"
	"slices"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/species/hook"
	"guidegen/species/tying"
)

// PairedView is a natural and a dressing side by side.
type PairedView struct {
	Drawings []view.DrawingView // the natural, the dressing
	Says     string             // "On a 16 the shank is a third too long; on a 20 body and shank agree."
}

// pairWide is what the wider of the two takes, in CSS pixels; pairScale what a millimetre takes at most.
const (
	pairWide  = 160.0
	pairScale = 14.0
)

func (p *Printer) paired(at string, d *figures.Dressing) *PairedView {
	u := view.BestUse(d)
	if u == nil {
		return nil
	}
	natural, artificial := p.Album.Pair(u.Fly, u.Stage, u.Sex, d.Address)
	if !natural.Known() || !artificial.Known() {
		return nil
	}
	v, caption := &PairedView{}, d.Name.S
	long, shank := natural.LengthMM, 0.0
	if size := u.Offer.Size; view.Sized(u) {
		ground := natural.Ground
		ground.Length, ground.Overall = size.Length, ground.Overall*size.Length/max(ground.Length, 1e-9)
		long, shank = p.Album.Drawn(u.Fly, u.Stage, ground), size.Hook.Shank
		natural, artificial = natural.To(long), artificial.To(shank)
		v.Says, caption = p.onHooks(d, size), caption+p.words.Plain("list.comma")+p.HookText(size.Hook)
	} else if artificial.LengthMM > 0 { // a bent hook has no shank
		v.Says = p.words.Plain("drawing.dressing.curved", "length", content.Decimal(artificial.LengthMM, 1))
	}
	scale := min(pairScale, pairWide/max(natural.WidthMM, artificial.WidthMM))
	b := content.On(content.Part{Ground: content.Assumed})
	for i, x := range []struct{ src, alt, caption string }{
		{natural.Address, natural.Alt, u.Fly.Name.S + p.words.Plain("list.comma") + p.CaseOf(u.Stage, u.Sex, "")},
		{artificial.Address, artificial.Alt, caption},
	} {
		pic, mm := natural, long
		if i == 1 {
			pic, mm = artificial, shank
		}
		dv := view.DrawingView{Src: p.Deps.Site.Link(at, x.src), Alt: x.alt, Caption: x.caption}
		if mm > 0 {
			dv.Length = p.Length(mm, 1, b)
		}
		dv.Width, dv.Height = pic.Pixels(scale)
		v.Drawings = append(v.Drawings, dv)
	}
	return v
}

// onHooks says of each of a dressing's hooks how its shank compares with the body.
func (p *Printer) onHooks(d *figures.Dressing, s *tying.SizePart) string {
	sizes := slices.Clone(d.Dressing.Sizes)
	slices.SortFunc(sizes, func(a, b hook.Size) int { return int(b.Step() - a.Step()) })
	var says []string
	for _, size := range sizes {
		shank, ok := p.book.Edition.Hooks.Shank(s.Hook.Model, size)
		if !ok {
			continue
		}
		says = append(says, p.words.Plain("paired."+fraction(float64(shank)/s.Length), "size", size.String()))
	}
	if len(says) == 0 {
		return ""
	}
	text := strings.Join(says, p.words.Plain("list.semicolon"))
	return p.words.Plain("paired.says", "text", text)
}

// fraction words a shank against a body, to the nearest of a few fractions: "agree", "long_3" a third too long,
// "short_5" a fifth too short. Under a twentieth nobody sees a difference; judgement.
func fraction(ratio float64) string {
	off, word := ratio-1, "long_"
	if off < 0 {
		off, word = -off, "short_"
	}
	if content.Round9(off) < 0.05 {
		return "agree"
	}
	best, near := "", math.Inf(1)
	for name, f := range map[string]float64{"10": 0.1, "5": 0.2, "4": 0.25, "3": 1.0 / 3, "2": 0.5, "1": 1} {
		if d := math.Abs(f - off); d < near {
			best, near = name, d
		}
	}
	return word + best
}
