package page

// What to tie on, ready to print: each offer with its score's parts in words, each exclusion with
// its reason, and what would serve where the box holds nothing.

import (
	"reflect"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/species"
	"guidegen/species/hook"
	"guidegen/species/tying"
)

// StageAdvice is what to tie on for one stage, sex and flight.
type StageAdvice struct {
	Stage    string
	Offered  []OfferView
	More     content.Figure // offered too, on the fly's own page
	Named    []OfferView
	RuledOut []RuledView
	Unknown  []string // habits that aren't known
	Serve    *ServeView
}

// OfferView is one dressing offered.
type OfferView struct {
	Dressing    Link
	Score       content.Figure
	Hook, Model string
	Parts       []PartView
	Full        bool // each part with its points
}

// PartView is one part of a score in words.
type PartView struct {
	Name, Words string
	Points      content.Figure
	Most        content.Figure // the points the part could bring
}

// RuledView is one dressing ruled out and why.
type RuledView struct {
	Dressing Link
	Reasons  []string
}

// ServeView is what a dressing would have to be like.
type ServeView struct {
	Length  content.Figure
	Hooks   []string
	Levels  string
	Colours []SwatchView
	Avoid   []string
}

// SwatchView is a colour: words first, the patch only beside them.
type SwatchView struct {
	Part, Words string
	Fill        string // "#403d21"; "" where no value is known
	Seen        string // wet or dry where that is said, and against what light
	Unsaid      bool   // neither wet nor dry is said of it
}

func (p *Printer) advice(at string, fly *figures.Fly, list []figures.StageDressings) []StageAdvice {
	return p.joined(list, func(s figures.StageDressings) StageAdvice { return p.stageAdvice(at, fly, s) })
}

// joined makes the advice, what flies comes first, and gives flights, then sexes, that want the same
// one heading. Nothing is averaged: they are joined only where every word and figure is the same.
func (p *Printer) joined(list []figures.StageDressings, advice func(figures.StageDressings) StageAdvice) []StageAdvice {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b figures.StageDressings) int {
		return boolInt(!a.Stage.OnTheWing()) - boolInt(!b.Stage.OnTheWing())
	})
	type group struct {
		figures.StageDressings
		view StageAdvice
	}
	var groups []group
	for _, s := range list {
		groups = append(groups, group{s, advice(s)})
	}
	join := func(same func(a, b group) bool, drop func(*group)) {
		for i := 0; i < len(groups); i++ {
			dropped := false
			for j := i + 1; j < len(groups); {
				a, b := groups[i].view, groups[j].view
				a.Stage, b.Stage = "", ""
				if same(groups[i], groups[j]) && reflect.DeepEqual(a, b) {
					groups, dropped = slices.Delete(groups, j, j+1), true
					continue
				}
				j++
			}
			if dropped {
				drop(&groups[i])
			}
		}
	}
	flights := map[string]bool{}
	for _, g := range groups {
		flights[g.Flight] = true
	}
	if len(flights) <= 2 { // of three flights two alike would leave a heading that says neither
		join(func(a, b group) bool { return a.Stage == b.Stage && a.Sex == b.Sex }, func(g *group) { g.Flight = "" })
	}
	join(func(a, b group) bool { return a.Stage == b.Stage && a.Flight == b.Flight && a.Sex != b.Sex }, func(g *group) { g.Sex = "" })
	var out []StageAdvice
	for _, g := range groups {
		if len(flights) == 1 {
			g.Flight = ""
		}
		g.view.Stage = p.caseOf(g.Stage, g.Sex, g.Flight)
		out = append(out, g.view)
	}
	return out
}

func (p *Printer) stageAdvice(at string, fly *figures.Fly, s figures.StageDressings) StageAdvice {
	v := StageAdvice{Stage: p.caseOf(s.Stage, s.Sex, s.Flight)}
	b := p.adviceBasis(fly, s)
	for _, o := range s.Advice.Offered {
		v.Offered = append(v.Offered, p.offer(at, o, b))
	}
	for _, n := range s.Advice.NotScored {
		v.Named = append(v.Named, OfferView{Dressing: p.dressingNamed(at, n.Name)})
	}
	for _, r := range s.Advice.RuledOut {
		rv := RuledView{Dressing: p.dressingNamed(at, r.Name)}
		for _, reason := range r.Reasons {
			rv.Reasons = append(rv.Reasons, p.reason(reason))
		}
		v.RuledOut = append(v.RuledOut, rv)
	}
	for _, c := range s.Advice.Unknown {
		v.Unknown = append(v.Unknown, p.words.Or("habit_unknown", string(c)))
	}
	if len(v.Offered) == 0 && len(v.Named) == 0 {
		v.Serve = p.serve(fly, s, b)
	}
	return v
}

// riverOffers is how many dressings a water's page lists for one stage and flight; the fly's page
// lists all.
const riverOffers = 2

// shortAdvice is the best of the advice, as a water's page has room for.
func (p *Printer) shortAdvice(at string, fly *figures.Fly, list []figures.StageDressings) []StageAdvice {
	return p.joined(list, func(s figures.StageDressings) StageAdvice {
		all := len(s.Advice.Offered)
		s.Advice.Offered = s.Short(riverOffers)
		v := p.stageAdvice(at, fly, s)
		if n := all - len(v.Offered); n > 0 {
			v.More = count(n, p.adviceBasis(fly, s))
		}
		for i := range v.Offered {
			v.Offered[i].Full = false
		}
		return v
	})
}

// adviceBasis is what a score rests on: the length held against, and the account.
func (p *Printer) adviceBasis(fly *figures.Fly, s figures.StageDressings) content.Basis {
	b := s.Length.Basis.With(content.On(content.Part{Ground: content.Assumed}))
	if fly != nil {
		b = b.With(fly.Basis)
	}
	return b
}

// dressingNamed is a link to a dressing by its name or address.
func (p *Printer) dressingNamed(at, name string) Link {
	if d := p.dressings[name]; d != nil {
		return p.dressingLink(at, d)
	}
	return Link{Text: name}
}

func (p *Printer) dressingLink(at string, d *figures.Dressing) Link {
	return p.link(at, dressingPage(d), d.Name.S)
}

func (p *Printer) offer(at string, o tying.Offer, b content.Basis) OfferView {
	v := OfferView{Dressing: p.dressingNamed(at, o.Name), Score: content.NewFigure(o.Score, "", 0, b), Full: true}
	part := func(name, words string, x tying.Part) {
		v.Parts = append(v.Parts, PartView{p.words.Plain("part." + name), words,
			content.NewFigure(x.Points, "", 0, b), content.NewFigure(100*x.Weight, "", 0, b)})
	}
	if s := o.Size; s != nil {
		v.Hook, v.Model = s.Hook.Size, s.Hook.Model
		part("size", p.sizeWords(s), s.Part)
	}
	if c := o.Colour; c != nil {
		part("colour", p.colourWords(c), c.Part)
	}
	if l := o.Place; l != nil {
		part("place", p.placeWords(l), l.Part)
	}
	part("named", p.words.Plain("part.named_by_"+by(o.Named.By)), o.Named.Part)
	return v
}

func by(b tying.By) string {
	if b == tying.ByNone {
		return "neither"
	}
	return string(b)
}

// sizeWords says "18 is 0.3 mm long".
func (p *Printer) sizeWords(s *tying.SizePart) string {
	off := content.Round9(s.Longer)
	d := content.Decimal(max(off, -off), 1)
	switch {
	case d == "0.0":
		return p.words.Plain("part.size_fits", "hook", s.Hook.Size, "model", s.Hook.Model)
	case off > 0:
		return p.words.Plain("part.size_long", "hook", s.Hook.Size, "model", s.Hook.Model, "by", p.millimetres(max(off, -off)))
	}
	return p.words.Plain("part.size_short", "hook", s.Hook.Size, "model", s.Hook.Model, "by", p.millimetres(max(off, -off)))
}

// millimetres is a small length in words, in the pages' unit.
func (p *Printer) millimetres(mm float64) string {
	return p.words.amount(p.length(mm, 1, content.On(content.Part{Ground: content.Assumed})))
}

// sameToATyer is the difference below which no tyer could control the colour.
const sameToATyer = 2

func (p *Printer) colourWords(c *tying.ColourPart) string {
	var s, same []string
	for _, x := range c.Parts {
		part := p.words.Or("body_part", x.Name)
		if content.Round9(x.DeltaE) < sameToATyer {
			same = append(same, part)
			continue
		}
		s = append(s, p.words.Plain("part.colour_differs", "part", part, "delta", content.Decimal(x.DeltaE, 0)))
	}
	if len(same) > 0 {
		s = append(s, p.words.Plain("part.colour_same", "parts", p.words.list(same)))
	}
	return strings.Join(s, p.words.Plain("list.semicolon"))
}

func (p *Printer) placeWords(l *tying.PlacePart) string {
	natural, dressing := p.words.Or("level", l.Natural.String()), p.words.Or("level", l.Dressing.String())
	if natural == dressing {
		return p.words.Plain("part.place_same", "level", natural)
	}
	return p.words.Plain("part.place_other", "natural", natural, "dressing", dressing)
}

func (p *Printer) reason(r tying.Reason) string {
	switch r.Code {
	case tying.OtherStage:
		var s []string
		for _, st := range r.Stages {
			s = append(s, p.words.Or("stage", st))
		}
		return p.words.Plain("ruled.stage", "stages", p.words.list(s))
	case tying.OtherSize:
		return p.words.Plain("ruled.size", "hook", p.hookText(r.Hook), "shank", p.millimetres(r.Hook.Shank), "body", p.millimetres(r.Body))
	case tying.OtherSex:
		return p.words.Plain("ruled.sex", "sex", p.words.Or("sex", r.Sex))
	}
	return p.words.Or("ruled", string(r.Code))
}

// steps says a distance in catalogue steps with its direction.
func (p *Printer) steps(d hook.Steps) string {
	n := max(d, -d)
	text := strconv.Itoa(int(n) / 2)
	if n%2 != 0 {
		text = strings.TrimPrefix(text, "0") + "½"
	}
	switch {
	case d > 0:
		return p.words.Plain("steps.larger", "n", text)
	case d < 0:
		return p.words.Plain("steps.smaller", "n", text)
	}
	return p.words.Plain("steps.same")
}

func (p *Printer) serve(fly *figures.Fly, s figures.StageDressings, b content.Basis) *ServeView {
	a, v := s.Serve, &ServeView{}
	if a.Length > 0 {
		v.Length = p.length(a.Length, 1, b)
	}
	for _, h := range a.Hooks {
		v.Hooks = append(v.Hooks, p.words.Plain("hook_in_model", "size", h.Size, "model", h.Model))
	}
	var levels []string
	for _, l := range a.Levels {
		levels = append(levels, p.words.Or("level", l.String()))
	}
	v.Levels = p.words.list(levels)
	if fly != nil {
		for _, c := range fly.Colours {
			if shade, ok := c.Cases.First(species.Words{Stage: s.Stage, Sex: s.Sex, Flight: s.Flight}); ok {
				v.Colours = append(v.Colours, p.swatch(c.Part, shade.Value))
			}
		}
	}
	for _, c := range a.Avoid {
		v.Avoid = append(v.Avoid, p.words.Or("avoid", string(c)))
	}
	if !v.Length.Known() && len(v.Hooks) == 0 && v.Levels == "" && len(v.Colours) == 0 && len(v.Avoid) == 0 {
		return nil
	}
	return v
}

// swatch is a colour as given; the patch never stands without words and part, nor without wet or dry
// where that is said. Where it isn't, the page says so once for all its colours.
func (p *Printer) swatch(part string, s species.Shade) SwatchView {
	v := SwatchView{Part: p.words.Or("body_part", part), Words: s.Colour.String()}
	if s.Colour.HasValue {
		v.Fill = "#" + s.Colour.Value.Hex()
	}
	var seen []string
	if s.Wet != species.NotSaid {
		seen = append(seen, p.words.Or("wetness", string(s.Wet)))
	} else {
		v.Unsaid = !s.Colour.IsZero()
	}
	if s.Light != "" {
		seen = append(seen, s.Light)
	}
	v.Seen = strings.Join(seen, p.words.Plain("list.comma"))
	return v
}
