package figures

// What to tie on: each fly, stage, sex and flight held against the box (the
// guide's rules on figures, section 13).

import (
	"cmp"
	"slices"

	"guidegen/content"
	"guidegen/content/measure"
	"guidegen/species"
	"guidegen/species/colour"
	"guidegen/species/hook"
	"guidegen/species/tying"
)

// box turns the dressings into what the kernel takes, once.
func (r *reckoner) box() []tying.Dressing {
	var out []tying.Dressing
	for _, d := range r.e.Dressings {
		x := tying.Dressing{Name: d.Name.S, Colours: map[string]colour.Lab{}}
		for _, s := range d.For {
			y := tying.StandsFor{Flies: s.Accounts, Sex: string(s.Sex)}
			for _, g := range s.Groups {
				y.Groups = append(y.Groups, string(g))
			}
			for _, st := range s.Stages {
				y.Stages = append(y.Stages, string(st))
			}
			x.For = append(x.For, y)
		}
		for _, l := range d.Fishes {
			x.Levels = append(x.Levels, tying.Level(l.Rank()))
		}
		for _, model := range r.modelsFor(d) {
			for _, size := range d.Sizes {
				h := tying.Hook{Model: model, Size: size.String(), Step: size.Step()}
				if mm, ok := r.e.Hooks.Shank(model, size); ok {
					h.Shank = float64(mm)
				}
				x.Hooks = append(x.Hooks, h)
			}
		}
		for _, p := range d.Parts {
			if p.Shade.Colour.HasValue {
				x.Colours[p.Part] = p.Shade.Colour.Value.Lab()
			}
		}
		out = append(out, x)
	}
	return out
}

// modelsFor is the model a dressing names, where the club has measured it,
// else every straight one.
func (r *reckoner) modelsFor(d *species.Dressing) []string {
	all := r.e.Hooks.Models()
	for _, p := range d.Parts {
		if p.Part != "hook" {
			continue
		}
		if i := slices.IndexFunc(all, func(m string) bool { return content.Fold(m) == content.Fold(p.Of.S) }); i >= 0 {
			return all[i : i+1]
		}
	}
	if len(all) == 0 {
		return []string{""} // no straight hook measured: sizes still have their place in the catalogue
	}
	return all
}

// adviceFor considers the box for every case of a row that has a size, and
// for every stage that has none.
func (r *reckoner) adviceFor(row *Row) []StageDressings {
	a := row.Fly.Account
	var out []StageDressings
	for _, st := range a.Group.Stages() {
		for _, f := range flightsOf(row) {
			for _, c := range r.adviceCases(row, st, f) {
				d := StageDressings{Stage: st, Sex: c.Sex, Flight: f, Length: c.Hook}
				for i := range d.Months {
					d.Months[i] = monthsOf(row, f, i)
				}
				n := natural(a, species.Words{Stage: st, Sex: c.Sex, Flight: f}, c.Hook)
				d.Advice = tying.Consider(n, r.boxed, r.c.Tying)
				d.Serve = tying.WouldServe(n)
				out = append(out, d)
			}
		}
	}
	return out
}

// Named are the offers that name the fly or its group and, where sizes are
// known, come near the fly's at all, by score: what a box has for it, as against
// what would pass by size and colour alone, or bears the name but not the size.
func (s StageDressings) Named() []tying.Offer {
	var l []tying.Offer
	for _, o := range s.Advice.Offered {
		if o.Named.By != tying.ByNone && (o.Size == nil || o.Size.Value > 0) {
			l = append(l, o)
		}
	}
	return l
}

// Short is the best n of them, for a list with little room. Where there is none
// the list says that the box has nothing.
func (s StageDressings) Short(n int) []tying.Offer {
	l := s.Named()
	return l[:min(n, len(l))]
}

// flightsOf lists the flights to advise on; a fly not in the water's list has
// those of its account, without dates here.
func flightsOf(row *Row) []string {
	var l []string
	for _, f := range row.Fly.Account.Flights {
		l = append(l, f.Name)
	}
	if len(l) == 0 {
		l = []string{""}
	}
	return l
}

func monthsOf(row *Row, flight string, month int) bool {
	for _, f := range row.Flights {
		if f.Name == flight && touches(f, month) {
			return true
		}
	}
	return !row.Listed && row.OnMonths[month]
}

// adviceCases gives the sexes told apart by size, or one case for either. A
// spinner whose female goes under to lay is told apart too.
func (r *reckoner) adviceCases(row *Row, st species.Stage, flight string) []Size {
	bySex := map[species.Sex]Size{}
	for _, s := range row.Sizes {
		if s.Stage == st && s.Flight == flight && s.Hook.From != "" {
			bySex[s.Sex] = s
		}
	}
	lays, known := row.Fly.Lays.First()
	split := st == species.Spinner && known && lays.Value == species.LaysUnderWater
	m, okM := bySex[species.Male]
	f, okF := bySex[species.Female]
	e := bySex[species.NoSex]
	if !okM && !okF && !split {
		e.Sex = species.NoSex
		return []Size{e}
	}
	if !okM {
		m = e
	}
	if !okF {
		f = e
	}
	m.Sex, f.Sex = species.Male, species.Female
	return []Size{m, f}
}

func natural(a *species.Account, w species.Words, length HookGround) tying.Natural {
	n := tying.Natural{Fly: a.Address, Groups: []string{string(a.Group)}, Stage: string(w.Stage), Sex: string(w.Sex),
		Length: length.Length, Colours: labsOf(a, w)}
	if c, ok := a.Emerges.First(); ok && c.Value != "" {
		n.CrawlsOut = habit(c.Value == species.CrawlingOut)
	}
	if c, ok := a.Lays.First(); ok && c.Value != "" {
		n.LaysUnder = habit(c.Value == species.LaysUnderWater)
	}
	if c, ok := a.Level.First(w); ok {
		for _, l := range c.Value {
			n.Levels = append(n.Levels, tying.Level(l.Rank()))
		}
	}
	for _, h := range length.Hooks {
		if h.Beyond == hook.Within {
			n.Hooks = append(n.Hooks, tying.Hook{Model: h.Model, Size: h.Size.String(), Step: h.Size.Step(), Shank: float64(h.Shank)})
		}
	}
	return n
}

func habit(yes bool) tying.Habit {
	if yes {
		return tying.Yes
	}
	return tying.No
}

// dressings lists every dressing with each fly and water it is offered for.
func (r *reckoner) dressings() {
	byName := map[string]*Dressing{}
	for _, d := range r.e.Dressings {
		x := &Dressing{Dressing: d}
		r.book.Dressings = append(r.book.Dressings, x)
		byName[d.Name.S] = x
	}
	slices.SortStableFunc(r.book.Dressings, func(a, b *Dressing) int {
		return cmp.Or(cmp.Compare(content.Fold(a.Name.S), content.Fold(b.Name.S)), cmp.Compare(a.Address, b.Address))
	})
	r.book.byDressing = byName
	for _, w := range r.book.Waters {
		for _, row := range w.Rows {
			for _, s := range row.Dressings {
				for _, o := range s.Advice.Offered {
					byName[o.Name].For = append(byName[o.Name].For, DressingUse{row.Fly, w, s.Stage, s.Sex, s.Flight, o})
				}
			}
		}
	}
	for _, d := range r.book.Dressings {
		slices.SortStableFunc(d.For, func(a, b DressingUse) int {
			return cmp.Or(cmp.Compare(measure.Round9(b.Offer.Score), measure.Round9(a.Offer.Score)),
				flyOrder(a.Fly, b.Fly), cmp.Compare(a.Water.Address, b.Water.Address))
		})
	}
}

// Dressing finds a dressing by the name an offer gives.
func (b *Book) Dressing(name string) *Dressing { return b.byDressing[name] }
