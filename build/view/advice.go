package view

// What to tie on, ready to print: each offer with its score's parts in words, each exclusion with
// its reason, and what would serve where the box holds nothing.

import (
	"cmp"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/content"
	"guidegen/species"
	"guidegen/species/colour"
	"guidegen/species/hook"
	"guidegen/species/tying"
)

// StageAdvice is what to tie on for one stage and sex in a flight, over all waters: what they agree in is said once.
type StageAdvice struct {
	Stage    string
	Offered  []OfferView
	More     []OfferView    // less near than the first few and tied for other flies: named, without the parts of their scores
	Rest     content.Figure // how many are not named
	Named    []lang.Link
	RuledOut []RuledView
	Unknown  []string // habits that aren't known
	Serve    []ServeView
}

// OfferView is one dressing offered.
type OfferView struct {
	Dressing lang.Link
	Hooks    []HookOn // where waters differ each names its own
	Score    lang.Range
	On       string // the water whose parts are listed, where the score differs
	Parts    []PartView

	by tying.By
}

// Short are the parts of a score that fall short of what they could bring.
func (o OfferView) Short() (out []PartView) {
	for _, p := range o.Parts {
		if p.Points.Number() != p.Most.Number() {
			out = append(out, p)
		}
	}
	return out
}

// HookOn is a hook, and the waters it is for; "" for all.
type HookOn struct{ Hook, Waters string }

// PartView is one part of a score in words.
type PartView struct {
	Name, Words string
	Points      content.Figure
	Most        content.Figure // the points the part could bring
}

// RuledView is one dressing ruled out and why.
type RuledView struct {
	Dressing lang.Link
	Reasons  []string

	codes []tying.Code
}

// ServeView is what a dressing would have to be like.
type ServeView struct {
	Waters  string // where not on all
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

// Advice is what to tie on for a fly, stage by stage, what flies first. Flights, then sexes, that want the same
// share a heading; nothing is averaged.
func (p *Printer) Advice(at string, f *figures.Fly) []StageAdvice {
	var list []adviceOn
	for _, r := range f.Rows {
		for _, sd := range r.Dressings {
			i := slices.IndexFunc(list, func(a adviceOn) bool {
				return a.Stage == sd.Stage && a.Sex == sd.Sex && a.Flight == sd.Flight
			})
			if i < 0 {
				i = len(list)
				list = append(list, adviceOn{StageDressings: sd})
			}
			list[i].waters = append(list[i].waters, r.Water.Name.S)
			list[i].each = append(list[i].each, sd)
		}
	}
	slices.SortStableFunc(list, func(a, b adviceOn) int { return BoolInt(!a.Stage.OnTheWing()) - BoolInt(!b.Stage.OnTheWing()) })
	var views []StageAdvice
	for i := range list {
		views = append(views, p.stageAdvice(at, f, list[i]))
	}
	flights := map[string]bool{}
	for _, a := range list {
		flights[a.Flight] = true
	}
	if len(flights) <= 2 { // of three flights two alike would leave a heading that says neither
		list, views = joined(list, views, func(a, b adviceOn) bool { return a.Stage == b.Stage && a.Sex == b.Sex },
			func(a *adviceOn) { a.Flight = "" })
	}
	list, views = joined(list, views, func(a, b adviceOn) bool { return a.Stage == b.Stage && a.Flight == b.Flight },
		func(a *adviceOn) { a.Sex = "" })
	for i, a := range list {
		for j := range i {
			if list[j].Stage == a.Stage && list[j].Sex == a.Sex {
				views[i].without(views[j])
			}
		}
	}
	for i, a := range list {
		v := &views[i]
		if n := len(v.More) - moreNamed; n > 1 {
			v.More, v.Rest = v.More[:moreNamed], Count(n, content.Basis{})
		}
		if len(flights) == 1 {
			a.Flight = ""
		}
		v.Stage = p.CaseOf(a.Stage, a.Sex, a.Flight)
	}
	return views
}

// without drops what an earlier flight's advice says of the same stage: what is near it too, and what is ruled out.
func (v *StageAdvice) without(earlier StageAdvice) {
	v.More = slices.DeleteFunc(v.More, func(o OfferView) bool {
		return slices.ContainsFunc(earlier.More, func(x OfferView) bool { return x.Dressing == o.Dressing })
	})
	v.RuledOut = slices.DeleteFunc(v.RuledOut, func(r RuledView) bool {
		return slices.ContainsFunc(earlier.RuledOut, func(x RuledView) bool {
			return x.Dressing == r.Dressing && slices.Equal(x.Reasons, r.Reasons)
		})
	})
}

// adviceOn is the advice for one stage, sex and flight on each water.
type adviceOn struct {
	figures.StageDressings
	waters []string
	each   []figures.StageDressings
}

// joined drops what says the same as an earlier one of its kind.
func joined(list []adviceOn, views []StageAdvice, kind func(a, b adviceOn) bool, drop func(*adviceOn)) ([]adviceOn, []StageAdvice) {
	for i := 0; i < len(list); i++ {
		dropped := false
		for j := i + 1; j < len(list); {
			if kind(list[i], list[j]) && reflect.DeepEqual(views[i], views[j]) {
				list, views, dropped = slices.Delete(list, j, j+1), slices.Delete(views, j, j+1), true
				continue
			}
			j++
		}
		if dropped {
			drop(&list[i])
		}
	}
	return list, views
}

func (p *Printer) stageAdvice(at string, fly *figures.Fly, a adviceOn) StageAdvice {
	var v StageAdvice
	for i, s := range a.each {
		for _, o := range s.Advice.Offered {
			if !slices.ContainsFunc(v.Offered, func(x OfferView) bool { return x.Dressing.Text == o.Name }) {
				v.Offered = append(v.Offered, p.offers(at, fly, a, o.Name))
			}
		}
		for _, n := range s.Advice.NotScored {
			if l := p.DressingNamed(at, n.Name); !slices.Contains(v.Named, l) {
				v.Named = append(v.Named, l)
			}
		}
		for _, r := range s.Advice.RuledOut {
			v.ruleOut(p.DressingNamed(at, r.Name), r.Reasons, p.Reason)
		}
		for _, c := range s.Advice.Unknown {
			if text := p.words.Or("habit_unknown", string(c)); !slices.Contains(v.Unknown, text) {
				v.Unknown = append(v.Unknown, text)
			}
		}
		if len(s.Advice.Offered) == 0 && len(s.Advice.NotScored) == 0 {
			v.serve(p.serve(fly, s, p.adviceBasis(fly, s)), a.waters[i], p.words.Plain("list.comma"))
		}
	}
	if len(v.Serve) == 1 {
		v.Serve[0].Waters = ""
	}
	slices.SortStableFunc(v.Offered, func(x, y OfferView) int {
		return cmp.Or(x.by.Rank()-y.by.Rank(), cmp.Compare(y.Score.High.Value(), x.Score.High.Value()))
	})
	for len(v.Offered) > offersInFull && v.Offered[len(v.Offered)-1].by != tying.ByFly {
		last := len(v.Offered) - 1
		v.Offered, v.More = v.Offered[:last], append(v.More, v.Offered[last])
	}
	slices.Reverse(v.More)
	return v
}

// offersInFull is how many dressings a fly's page lists with the parts of their scores where none is tied for the fly;
// those that are, all.
const offersInFull = 1

// moreNamed is how many of the rest are named.
const moreNamed = 6

// ruleOut notes a dressing with reasons that aren't noted yet; of lengths, which differ from water to water, the first.
func (v *StageAdvice) ruleOut(d lang.Link, reasons []tying.Reason, words func(tying.Reason) string) {
	i := slices.IndexFunc(v.RuledOut, func(x RuledView) bool { return x.Dressing == d })
	if i < 0 {
		i = len(v.RuledOut)
		v.RuledOut = append(v.RuledOut, RuledView{Dressing: d})
	}
	x := &v.RuledOut[i]
	for _, r := range reasons {
		if !slices.Contains(x.codes, r.Code) {
			x.codes, x.Reasons = append(x.codes, r.Code), append(x.Reasons, words(r))
		}
	}
}

// serve notes what would be of use on a water; the same is said once.
func (v *StageAdvice) serve(s *ServeView, water, comma string) {
	if s == nil {
		return
	}
	for i := range v.Serve {
		x := v.Serve[i]
		x.Waters = ""
		if reflect.DeepEqual(x, *s) {
			v.Serve[i].Waters += comma + water
			return
		}
	}
	s.Waters = water
	v.Serve = append(v.Serve, *s)
}

// offers is one dressing on all waters: its hooks, the range of its scores, and the parts of the best.
func (p *Printer) offers(at string, fly *figures.Fly, a adviceOn, name string) OfferView {
	v := OfferView{Dressing: p.DressingNamed(at, name)}
	var low, high *content.Figure
	for i, s := range a.each {
		for _, o := range s.Advice.Offered {
			if o.Name != name {
				continue
			}
			b := p.adviceBasis(fly, s)
			score := content.NewFigure(o.Score, "", 0, b)
			if low == nil || score.Value() < low.Value() {
				low = &score
			}
			if high == nil || score.Value() > high.Value() {
				high, v.On = &score, a.waters[i]
				v.Parts = p.scoreParts(o, b)
			}
			v.by = o.Named.By
			if o.Size != nil {
				v.hook(p.HookText(o.Size.Hook), a.waters[i], p.words.Plain("list.comma"))
			}
		}
	}
	v.Score = lang.Range{Low: *low, High: *high}
	if v.Score.Single() {
		v.On = ""
	}
	if len(v.Hooks) == 1 {
		v.Hooks[0].Waters = ""
	}
	return v
}

func (v *OfferView) hook(hook, water, comma string) {
	for i := range v.Hooks {
		if v.Hooks[i].Hook == hook {
			v.Hooks[i].Waters += comma + water
			return
		}
	}
	v.Hooks = append(v.Hooks, HookOn{hook, water})
}

// adviceBasis is what a score rests on: the length held against, and the account.
func (p *Printer) adviceBasis(fly *figures.Fly, s figures.StageDressings) content.Basis {
	b := s.Length.Basis.With(content.On(content.Part{Ground: content.Assumed}))
	if fly != nil {
		b = b.With(fly.Basis)
	}
	return b
}

// DressingNamed is a link to a dressing by its name or address.
func (p *Printer) DressingNamed(at, name string) lang.Link {
	if d := p.Dressings[name]; d != nil {
		return p.DressingLink(at, d)
	}
	return lang.Link{Text: name}
}

// DressingLink leads to a dressing's page, under its name.
func (p *Printer) DressingLink(at string, d *figures.Dressing) lang.Link {
	return p.Link(at, DressingPage(d), d.Name.S)
}

// scoreParts are the parts of a score in words, each with its points.
func (p *Printer) scoreParts(o tying.Offer, b content.Basis) (list []PartView) {
	part := func(name, words string, x tying.Part) {
		list = append(list, PartView{p.words.Plain("part." + name), words,
			content.NewFigure(x.Points, "", 0, b), content.NewFigure(100*x.Weight, "", 0, b)})
	}
	if s := o.Size; s != nil {
		part("size", p.sizeWords(s), s.Part)
	}
	if c := o.Colour; c != nil {
		part("colour", p.colourWords(c), c.Part)
	}
	if l := o.Place; l != nil {
		part("place", p.placeWords(l), l.Part)
	}
	part("named", p.words.Plain("part.named_by_"+by(o.Named.By)), o.Named.Part)
	return list
}

func by(b tying.By) string {
	if b == tying.ByNone {
		return "neither"
	}
	return string(b)
}

// sizeWords says "18 is 0.3 mm long".
func (p *Printer) sizeWords(s *tying.SizePart) string {
	off := hook.Against(s.Hook.Shank, s.Length)
	by := p.words.Amount(Difference(p.Settings().Units, max(off, -off), content.On(content.Part{Ground: content.Assumed})))
	switch {
	case off == 0:
		return p.words.Plain("part.size_fits", "hook", s.Hook.Size, "model", s.Hook.Model)
	case off > 0:
		return p.words.Plain("part.size_long", "hook", s.Hook.Size, "model", s.Hook.Model, "by", by)
	}
	return p.words.Plain("part.size_short", "hook", s.Hook.Size, "model", s.Hook.Model, "by", by)
}

// millimetres is a small length in words, in the pages' unit.
func (p *Printer) millimetres(mm float64) string {
	return p.words.Amount(p.Length(mm, 1, content.On(content.Part{Ground: content.Assumed})))
}

func (p *Printer) colourWords(c *tying.ColourPart) string {
	var s, same []string
	for _, x := range c.Parts {
		part := p.words.Or("body_part", x.Name)
		if content.Round9(x.DeltaE) < colour.JustControlled {
			same = append(same, part)
			continue
		}
		s = append(s, p.words.Plain("part.colour_differs", "part", part, "delta", content.Decimal(x.DeltaE, 0)))
	}
	if len(same) > 0 {
		s = append(s, p.words.Plain("part.colour_same", "parts", p.words.List(same)))
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

// Reason says why a dressing is ruled out.
func (p *Printer) Reason(r tying.Reason) string {
	switch r.Code {
	case tying.OtherStage:
		var s []string
		for _, st := range r.Stages {
			s = append(s, p.words.Or("stage", st))
		}
		return p.words.Plain("ruled.stage", "stages", p.words.List(s))
	case tying.OtherSize:
		return p.words.Plain("ruled.size", "hook", p.HookText(r.Hook), "shank", p.millimetres(r.Hook.Shank), "body", p.millimetres(r.Body))
	case tying.OtherSex:
		return p.words.Plain("ruled.sex", "sex", p.words.Or("sex", r.Sex))
	}
	return p.words.Or("ruled", string(r.Code))
}

// StepCount is a distance in whole and half steps: "1½".
func StepCount(d hook.Steps) string {
	n := max(d, -d)
	text := strconv.Itoa(int(n) / 2)
	if n%2 != 0 {
		text = strings.TrimPrefix(text, "0") + "½"
	}
	return text
}

func (p *Printer) serve(fly *figures.Fly, s figures.StageDressings, b content.Basis) *ServeView {
	a, v := s.Serve, &ServeView{}
	if a.Length > 0 {
		v.Length = p.Length(a.Length, 1, b)
	}
	for _, h := range a.Hooks {
		v.Hooks = append(v.Hooks, p.words.Plain("hook_in_model", "size", h.Size, "model", h.Model))
	}
	var levels []string
	for _, l := range a.Levels {
		levels = append(levels, p.words.Or("level", l.String()))
	}
	v.Levels = p.words.List(levels)
	if fly != nil {
		for _, c := range fly.Colours {
			if shade, ok := c.Cases.First(species.Words{Stage: s.Stage, Sex: s.Sex, Flight: s.Flight}); ok {
				v.Colours = append(v.Colours, p.Swatch(c.Part, shade.Value))
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

// colourName is a colour's name as a club writes it: for a published English name the site's word, any other as it
// stands. In data the published name stays.
func (p *Printer) colourName(s string) string {
	if _, published := colour.Named(s); !published {
		return s
	}
	return p.words.Plain("colour." + strings.NewReplacer("gray", "grey", " ", "_", "-", "_").Replace(strings.ToLower(s)))
}

// Swatch is a colour as given; the patch never stands without words and part, nor without wet or dry
// where that is said. Where it isn't, the page says so once for all its colours.
func (p *Printer) Swatch(part string, s species.Shade) SwatchView {
	v := SwatchView{Part: p.words.Or("body_part", part), Words: p.colourName(s.Colour.String())}
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
