package figures

// Sizes and hooks (the guide's rules on figures, section 9).

import (
	"cmp"
	"slices"

	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/measure"
	"guidegen/rivers"
	"guidegen/rivers/season"
	"guidegen/species"
	"guidegen/species/hook"
)

// lengths are the measured lengths of one stage × sex × flight on one water.
type lengths struct {
	mm       []float64
	digits   int
	setAside int
	visits   int
	years    map[int]bool
}

// measuredOn sorts a fly's measured lengths on one water by case. Rejected and
// reared specimens are left out; a stage must be given.
func (r *reckoner) measuredOn(s *stand) map[species.Words]*lengths {
	out := map[species.Words]*lengths{}
	for _, v := range s.water.visits {
		touched := map[species.Words]bool{}
		for _, f := range v.Finds {
			if f.Fly != s.fly.Account || f.Checked == rivers.Rejected || f.Reared || f.Absent || f.Stage == "" || len(f.Lengths) == 0 {
				continue
			}
			w := species.Words{Stage: f.Stage, Sex: f.Sex, Flight: r.flightOf(s, v)}
			l := out[w]
			if l == nil {
				l = &lengths{years: map[int]bool{}}
				out[w] = l
			}
			for _, x := range f.Lengths {
				if x.WithTails || !fits(x, s.fly.Group) {
					l.setAside++
					continue
				}
				l.mm = append(l.mm, x.Millimetres)
				l.digits = max(l.digits, x.Digits)
			}
			l.years[v.When.From.Year] = true
			if !touched[w] {
				touched[w] = true
				l.visits++
			}
		}
	}
	for _, l := range out {
		slices.Sort(l.mm)
	}
	return out
}

// fits reports whether a length measures what the group's sizes are: the body,
// or overall at rest. A length that doesn't say measures what is usual.
func fits(x rivers.Length, g species.Group) bool {
	return x.Part == "" || x.Part == usualPart(g)
}

func usualPart(g species.Group) string {
	switch g {
	case species.Sedge, species.Stonefly, species.Alder:
		return rivers.Overall
	}
	return rivers.Body
}

func whatIsMeasured(g species.Group) string {
	if usualPart(g) == rivers.Overall {
		return OverallLength
	}
	return BodyLength
}

func (r *reckoner) flightOf(s *stand, v *guide.Visit) string {
	if !v.When.Exact() {
		return ""
	}
	if k := season.Assign(v.When.From.OfYear(), s.moved, r.c.Season); k >= 0 {
		return s.fly.Account.Flights[k].Name
	}
	return ""
}

func median(sorted []float64) float64 {
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}

// sizes gives a row's sizes: every case with records here, and every case
// the account gives a length for that records here don't cover.
func (r *reckoner) sizes(s *stand, all []*stand) []Size {
	var cases []species.Words
	add := func(w species.Words) {
		if !slices.Contains(cases, w) {
			cases = append(cases, w)
		}
	}
	for w := range s.measured {
		add(w)
	}
	for _, w := range accountCases(s.fly.Account) {
		if _, ok := s.fly.Account.Length.First(w); ok && !r.covered(s, w) {
			add(w)
		}
	}
	slices.SortFunc(cases, func(a, b species.Words) int { return r.caseOrder(s.fly.Account, a, b) })
	var out []Size
	for _, w := range cases {
		out = append(out, r.size(s, all, w))
	}
	return out
}

// covered reports whether records here give the case, or both its sexes.
func (r *reckoner) covered(s *stand, w species.Words) bool {
	has := func(x species.Sex) bool {
		l := s.measured[species.Words{Stage: w.Stage, Sex: x, Flight: w.Flight}]
		return l != nil && len(l.mm) > 0
	}
	return w.Sex == species.NoSex && has(species.Male) && has(species.Female)
}

// accountCases lists the stage × sex × flight cases an account can speak of;
// a sex only where some length is given by sex.
func accountCases(a *species.Account) []species.Words {
	sexed := map[species.Stage]bool{}
	for _, c := range a.Length {
		if c.Words.Sex != species.NoSex {
			for _, st := range a.Group.Stages() {
				if c.Words.Stage == st || c.Words.Stage == species.NoStage {
					sexed[st] = true
				}
			}
		}
	}
	var out []species.Words
	for _, st := range a.Group.Stages() {
		sexes := []species.Sex{species.NoSex}
		if sexed[st] {
			sexes = []species.Sex{species.Male, species.Female}
		}
		for _, x := range sexes {
			for _, f := range a.Flights {
				out = append(out, species.Words{Stage: st, Sex: x, Flight: f.Name})
			}
		}
	}
	return out
}

func (r *reckoner) caseOrder(a *species.Account, x, y species.Words) int {
	flight := func(name string) int {
		i := slices.IndexFunc(a.Flights, func(f species.Flight) bool { return f.Name == name })
		if i < 0 {
			return len(a.Flights)
		}
		return i
	}
	return cmp.Or(slices.Index(species.AllStages, x.Stage)-slices.Index(species.AllStages, y.Stage),
		flight(x.Flight)-flight(y.Flight), cmp.Compare(x.Sex, y.Sex))
}

func (r *reckoner) size(s *stand, all []*stand, w species.Words) Size {
	a := s.fly.Account
	out := Size{Stage: w.Stage, Sex: w.Sex, Flight: w.Flight, What: whatIsMeasured(a.Group),
		Account: a.Length.For(w), Book: a.Books.For(w)}
	if out.Torn = s.torn(w.Flight); out.Torn {
		return out // two flights in one: no median, no hook
	}
	if l := s.measured[w]; l != nil {
		out.SetAside = l.setAside
		if out.N = len(l.mm); out.N > 0 {
			out.Median, out.Low, out.High, out.Digits = median(l.mm), l.mm[0], l.mm[out.N-1], l.digits
			out.Basis = content.On(content.Part{Ground: content.OwnRecords, Water: s.water.Name.S, Visits: l.visits, Years: len(l.years)})
		}
	}
	out.Hook = r.hookGround(s, all, w, out)
	return out
}

// hookGround finds the length a hook rests on: this water's, else all waters
// together, else the account's.
func (r *reckoner) hookGround(s *stand, all []*stand, w species.Words, here Size) HookGround {
	least := int(r.c.OwnMeasured)
	g := HookGround{}
	if here.N >= least {
		g = HookGround{From: FromWater, Length: here.Median, N: here.N, Basis: here.Basis}
	} else if mm, waters, basis := pooled(all, w); len(mm) >= least {
		g = HookGround{From: FromAll, Length: median(mm), N: len(mm), Waters: waters, Basis: basis}
	} else if c, ok := here.Account.First(); ok {
		g = HookGround{From: FromAccount, Length: float64(c.Value.Low+c.Value.High) / 2, Basis: c.Basis}
	} else {
		return g
	}
	for _, h := range r.e.Hooks.Suggest(measure.Millimetres(g.Length)) {
		f := HookFor{Suggestion: h}
		if book, ok := here.Book.First(); ok && h.Beyond == hook.Within {
			f.Steps, f.HasBook = bookSteps(book.Value, h.Size), true
		}
		g.Hooks = append(g.Hooks, f)
	}
	return g
}

// bookSteps is the distance of the book's nearest size from the suggestion.
func bookSteps(book hook.Range, size hook.Size) hook.Steps {
	switch {
	case size > book.Large:
		return book.Large.From(size)
	case size < book.Small:
		return book.Small.From(size)
	}
	return 0
}

// pooled joins one case's lengths over all waters; the case keeps its stage,
// sex and flight, so nothing else is pooled.
func pooled(all []*stand, w species.Words) (mm []float64, waters []string, b content.Basis) {
	for _, s := range all {
		l := s.measured[w]
		if l == nil || len(l.mm) == 0 || s.torn(w.Flight) {
			continue
		}
		mm = append(mm, l.mm...)
		waters = append(waters, s.water.Name.S)
		b = b.With(content.On(content.Part{Ground: content.OwnRecords, Water: s.water.Name.S, Visits: l.visits, Years: len(l.years)}))
	}
	slices.Sort(mm)
	return mm, waters, b
}
