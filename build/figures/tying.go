package figures

// What to tie on: each fly, stage, sex and flight held against the box (the
// guide's rules on figures, section 13).

import (
	"cmp"
	"maps"
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
			y := tying.StandsFor{Flies: s.Accounts, Sex: string(s.Sex), Kin: r.groupsOf(s.Accounts)}
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

// groupsOf are the groups of the flies that a dressing names.
func (r *reckoner) groupsOf(accounts []string) []string {
	var out []string
	for _, a := range accounts {
		if f := r.flies[a]; f != nil && !slices.Contains(out, string(f.Group)) {
			out = append(out, string(f.Group))
		}
	}
	return out
}

// modelsFor is the model that a recipe names; where the club hasn't measured it, or it is curved, no shank is
// known of it. A recipe without a hook may be tied on every straight one.
func (r *reckoner) modelsFor(d *species.Dressing) []string {
	all := r.e.Hooks.Models()
	for _, p := range d.Parts {
		if p.Part != "hook" || p.Of.S == "" {
			continue
		}
		if i := slices.IndexFunc(all, func(m string) bool { return content.Fold(m) == content.Fold(p.Of.S) }); i >= 0 {
			return all[i : i+1]
		}
		return []string{p.Of.S}
	}
	if len(all) == 0 {
		return []string{""} // no straight hook measured: sizes still have their place in the catalogue
	}
	return all
}

// adviceFor considers the box for every stage that fish meet, flight by flight. Where they meet both sexes alike
// one dressing serves for both.
func (r *reckoner) adviceFor(row *Row, all []*stand) []StageDressings {
	a := row.Fly.Account
	var out []StageDressings
	for _, met := range a.Meets() {
		for _, f := range flightsOf(row) {
			w := species.Words{Stage: met.Stage, Sex: met.Sex, Flight: f}
			d := StageDressings{Stage: met.Stage, Sex: met.Sex, Flight: f, Length: r.metLength(row, all, w)}
			for i := range d.Months {
				d.Months[i] = monthsOf(row, f, i)
			}
			n := natural(a, w, d.Length)
			n.Methods = row.Water.Methods
			d.Natural = n.Levels
			d.Advice = tying.Consider(n, r.boxed, r.c.Tying)
			d.Serve = tying.WouldServe(n)
			out = append(out, d)
		}
	}
	return out
}

// metLength is the body that a dressing for a met stage is held against. Where both sexes are met and only one is
// measured, or both are, the female's goes first: she is the larger, and what is pooled must be of one sex.
func (r *reckoner) metLength(row *Row, all []*stand, w species.Words) HookGround {
	book := row.Fly.Books.For(w)
	best := r.hookGround(row.stand, all, w, book)
	if w.Sex != species.NoSex {
		return best
	}
	for _, sex := range []species.Sex{species.Female, species.Male} {
		x := w
		x.Sex = sex
		if g := r.hookGround(row.stand, all, x, book); g.From != "" && (best.From == "" || Nearer(g.From, best.From)) {
			best = g
		}
	}
	return best
}

// Named are the offers of the best class that the box holds, by score: what is tied for the fly, else for its
// group, else for its kin.
func (s StageDressings) Named() []tying.Offer {
	best := s.Advice.Best()
	var l []tying.Offer
	for _, o := range s.Advice.Offered {
		if o.Named.By == best {
			l = append(l, o)
		}
	}
	return l
}

// FlightsOf are a row's flights; of a fly that the water doesn't list those of its account, without dates here.
func (r *Row) FlightsOf() []FlightHere {
	if len(r.Flights) > 0 {
		return r.Flights
	}
	var l []FlightHere
	for _, name := range flightsOf(r) {
		l = append(l, FlightHere{Name: name})
	}
	return l
}

// flightsOf names the flights to advise on.
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

func natural(a *species.Account, w species.Words, length HookGround) tying.Natural {
	n := tying.Natural{Fly: a.Address, Groups: []string{string(a.Group)}, Stage: string(w.Stage), Sex: string(w.Sex),
		Length: length.Length, Colours: metColours(a, w)}
	if c, ok := a.Emerges.First(); ok && c.Value != "" {
		n.NoFly = c.Value == species.NeverEmerge
		n.CrawlsOut = habit(c.Value == species.CrawlingOut)
	}
	if c, ok := a.Lays.First(); ok && c.Value != "" {
		n.LaysUnder = habit(c.Value == species.LaysUnderWater)
	}
	for _, l := range Levels(a, w) {
		n.Levels = append(n.Levels, tying.Level(l.Rank()))
	}
	for _, h := range length.Hooks {
		if h.Beyond == hook.Within {
			n.Hooks = append(n.Hooks, tying.Hook{Model: h.Model, Size: h.Size.String(), Step: h.Size.Step(), Shank: float64(h.Shank)})
		}
	}
	return n
}

// Levels is where fish meet a stage, and the one source of it: the account's word, but from bottom to midwater for a female that lays under
// water, unless the account says where she is.
func Levels(a *species.Account, w species.Words) []species.Level {
	lays, _ := a.Lays.First()
	laying := w.Stage == species.Spinner && w.Sex != species.Male || w.Stage == species.Adult && w.Sex == species.Female
	if laying && lays.Value == species.LaysUnderWater && !slices.ContainsFunc(a.Level, func(c species.Case[[]species.Level]) bool {
		return c.Words.Stage == w.Stage && c.Words.Sex == species.Female
	}) {
		return []species.Level{species.Bottom, species.Midwater}
	}
	c, _ := a.Level.First(w)
	return c.Value
}

// metColours are the colours of a stage; of one that serves both sexes the female's, else the male's.
func metColours(a *species.Account, w species.Words) map[string]colour.Lab {
	if w.Sex != species.NoSex {
		return labsOf(a, w)
	}
	out := map[string]colour.Lab{}
	for _, sex := range []species.Sex{species.NoSex, species.Male, species.Female} {
		w.Sex = sex
		maps.Copy(out, labsOf(a, w))
	}
	return out
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
		return cmp.Or(r.e.Settings.Alphabet.Compare(a.Name.S, b.Name.S), cmp.Compare(a.Address, b.Address))
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
				r.flyOrder(a.Fly, b.Fly), cmp.Compare(a.Water.Address, b.Water.Address))
		})
	}
}

// Dressing finds a dressing by the name an offer gives.
func (b *Book) Dressing(name string) *Dressing { return b.byDressing[name] }
