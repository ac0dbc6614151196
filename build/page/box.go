package page

// A water's sizes and hooks in one table, and its box: each dressing with the hooks it is tied on here and
// what it imitates, then the stages for which the box holds nothing.

import (
	"cmp"
	"slices"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/species"
	"guidegen/species/hook"
)

// SizesView is the lengths and hooks of a water's flies.
type SizesView struct {
	Caption string
	Flies   []SizesFly
}

// SizesFly is a fly, in one flight where it has two.
type SizesFly struct {
	Fly    lang.Link
	Flight string
	Rows   []SizesRow
}

// SizesRow is one stage: what was measured here, else what the account says, and for each model a hook.
type SizesRow struct {
	Stage   string
	Middle  content.Figure
	Range   lang.Range
	N       content.Figure
	Account lang.Range

	stage    species.Stage
	sex      species.Sex
	Hooks    string // in the order of the club's table; "" where none is near enough
	Why      string // why there can be none
	Book     string
	SetAside content.Figure // on a fly's page: lengths taken otherwise
	Share    string         // and how the body was had that the hooks go by
	Steps    string         // "▲2": the book's hook from the first model's, where they differ
}

// sizeTable is nil where no length is known of any fly.
func (p *Printer) sizeTable(at string, w *figures.Water) *SizesView {
	v := &SizesView{Caption: p.words.Plain("sizes.caption", "water", w.Name.S)}
	for _, r := range w.Rows {
		for _, s := range r.Sizes {
			if row, ok := p.sizesRow(s); ok {
				v.add(p.FlyLink(at, r.Fly), s.Flight, len(r.Fly.Flights) > 1, row)
			}
		}
	}
	if len(v.Flies) == 0 {
		return nil
	}
	for i := range v.Flies {
		v.Flies[i].once()
	}
	return v
}

// sizesOfFly is the lengths and hooks of a fly over all its waters, in each flight; nil where no length is known.
func (p *Printer) sizesOfFly(f *figures.Fly) *SizesView {
	v := &SizesView{Caption: p.words.Plain("sizes.fly_caption", "fly", f.Name.S)}
	for _, s := range f.Sizes {
		if row, ok := p.sizesRow(s); ok {
			if s.Hook.Share > 0 {
				row.Share = p.HookGround(s.Hook)
			}
			if s.SetAside > 0 {
				row.SetAside = view.Count(s.SetAside, view.Grounded(s.Basis))
			}
			v.add(lang.Link{}, s.Flight, true, row)
		}
	}
	if len(v.Flies) == 0 {
		return nil
	}
	for i := range v.Flies {
		v.Flies[i].once()
	}
	return v
}

func (v *SizesView) add(fly lang.Link, flight string, several bool, row SizesRow) {
	if !several {
		flight = ""
	}
	i := slices.IndexFunc(v.Flies, func(f SizesFly) bool { return f.Fly == fly && f.Flight == flight })
	if i < 0 {
		i = len(v.Flies)
		v.Flies = append(v.Flies, SizesFly{Fly: fly, Flight: flight})
	}
	v.Flies[i].Rows = append(v.Flies[i].Rows, row)
}

// once drops what says the same again with the same hooks: what the account gives of a stage beside what was measured of
// it or of one sex, and what it gives of one sex beside the same of both.
func (f *SizesFly) once() {
	all := slices.Clone(f.Rows)
	f.Rows = slices.DeleteFunc(f.Rows, func(x SizesRow) bool {
		return !x.Middle.Known() && slices.ContainsFunc(all, func(y SizesRow) bool {
			switch {
			case x.stage != y.stage || x.Hooks != y.Hooks || x.Why != y.Why:
				return false
			case y.Middle.Known():
				return x.sex == "" || x.sex == y.sex
			}
			return x.sex != "" && y.sex == "" && x.Account.Low.Number() == y.Account.Low.Number() && x.Account.High.Number() == y.Account.High.Number()
		})
	})
}

func (p *Printer) sizesRow(s figures.Size) (SizesRow, bool) {
	row := SizesRow{stage: s.Stage, sex: s.Sex, Stage: p.ShortCase(view.StageSex{Stage: s.Stage, Sex: s.Sex})}
	if s.N > 0 {
		row.Middle, row.N = p.Length(s.Median, s.Digits, s.Basis), view.Count(s.N, view.Grounded(s.Basis))
		if s.N > 1 {
			row.Range = p.Lengths(s.Low, s.High, s.Digits, s.Basis)
		}
	} else if c, ok := s.Account.First(); ok {
		row.Account = p.Claimed(c.Value, c.Basis)
	}
	row.Why = p.WhyNoHook(s)
	hooks := slices.Clone(s.Hook.Hooks)
	if p.book.Edition != nil {
		order := p.book.Edition.Hooks.Models()
		slices.SortStableFunc(hooks, func(a, b figures.HookFor) int { return slices.Index(order, a.Model) - slices.Index(order, b.Model) })
	}
	var near []string
	for _, h := range hooks {
		if h.Beyond == hook.Within {
			near = append(near, p.words.Plain("sizes.hook", "model", h.Model, "size", h.Size.String()))
			if h.HasBook && h.Steps != 0 && row.Steps == "" {
				row.Steps = p.bookSteps(h.Steps)
			}
		}
	}
	row.Hooks = strings.Join(near, p.words.Plain("list.comma"))
	if c, ok := s.Book.First(); ok {
		row.Book = c.Value.String()
	}
	return row, row.Middle.Known() || row.Account.Known() || s.Torn
}

// bookSteps says in short how far a book's hook is from the one asked for.
func (p *Printer) bookSteps(d hook.Steps) string {
	word := "book.large"
	if d < 0 {
		word = "book.small"
	}
	return p.words.Plain(word, "n", view.StepCount(d))
}

// BoxView is the box for a water.
type BoxView struct {
	Dressings []BoxDressing
	None      []BoxNone
}

// BoxDressing is a dressing, the hooks it is tied on for this water's flies, and what it imitates.
type BoxDressing struct {
	Dressing lang.Link
	Hooks    string
	For      []BoxFor
}

// BoxFor is flies in one stage.
type BoxFor struct{ Flies, Stage string }

// BoxNone is a fly and the stages for which the box holds nothing.
type BoxNone struct {
	Fly    lang.Link
	Stages string // "dun (long 6)"
}

func (p *Printer) box(at string, w *figures.Water) BoxView {
	var v BoxView
	b := boxMaker{p: p, at: at, of: map[string]*boxed{}}
	for _, r := range w.Rows {
		var none []string
		for _, sd := range r.Dressings {
			if text := b.add(r, sd); text != "" && !slices.Contains(none, text) {
				none = append(none, text)
			}
		}
		if len(none) > 0 {
			v.None = append(v.None, BoxNone{p.FlyLink(at, r.Fly), p.words.List(none)})
		}
	}
	for _, d := range p.book.Dressings { // by name
		if x := b.of[d.Name.S]; x != nil {
			v.Dressings = append(v.Dressings, x.view(p, at))
		}
	}
	return v
}

type boxMaker struct {
	p  *Printer
	at string
	of map[string]*boxed // by the dressing's name
}

type boxed struct {
	name   string
	hooks  []string
	stages []string
	flies  [][]string // by stage
}

// add notes what imitates a stage; it returns the stage in words where nothing does.
func (b boxMaker) add(r *figures.Row, sd figures.StageDressings) string {
	stage := b.p.words.Or("stage", string(sd.Stage))
	named := sd.Named()
	for _, o := range named {
		h := ""
		if o.Size != nil {
			h = b.p.HookText(o.Size.Hook)
		}
		b.put(o.Name, h, stage, r.Fly.Name.S)
	}
	for _, n := range sd.Advice.NotScored {
		b.put(n.Name, "", stage, r.Fly.Name.S)
	}
	if len(named)+len(sd.Advice.NotScored) > 0 || sd.Advice.Barred() {
		return ""
	}
	text := b.p.CaseOf(sd.Stage, species.NoSex, "")
	if h := b.p.HookAsked(sd); h != "" {
		return b.p.words.Plain("box.asks", "stage", text, "hook", h)
	}
	return text
}

func (b boxMaker) put(name, hook, stage, fly string) {
	x := b.of[name]
	if x == nil {
		x = &boxed{name: name}
		b.of[name] = x
	}
	if hook != "" && !slices.Contains(x.hooks, hook) {
		x.hooks = append(x.hooks, hook)
	}
	i := slices.Index(x.stages, stage)
	if i < 0 {
		i = len(x.stages)
		x.stages, x.flies = append(x.stages, stage), append(x.flies, nil)
	}
	if !slices.Contains(x.flies[i], fly) {
		x.flies[i] = append(x.flies[i], fly)
	}
}

func (x *boxed) view(p *Printer, at string) BoxDressing {
	v := BoxDressing{Dressing: p.DressingNamed(at, x.name), Hooks: cmp.Or(strings.Join(x.hooks, p.words.Plain("list.comma")), p.TieHook(x.name, nil))}
	for i, s := range x.stages {
		v.For = append(v.For, BoxFor{strings.Join(x.flies[i], p.words.Plain("list.comma")), s})
	}
	return v
}
