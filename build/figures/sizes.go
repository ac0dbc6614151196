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

// lengths are the measured lengths of one stage × sex × flight on one water, of the body or overall.
type lengths struct {
	mm       []float64
	digits   int
	setAside int
	visits   int
	years    map[int]bool
}

// sizeCase is what lengths may be pooled over: one stage, sex, flight and part.
type sizeCase struct {
	species.Words
	part species.Part
}

// measuredOn sorts a fly's measured lengths on one water by case. Rejected and reared specimens are left out; a
// stage must be given. Body and overall are kept apart; lengths with tails, and of wings, are set aside.
func (r *reckoner) measuredOn(s *stand) map[sizeCase]*lengths {
	out := map[sizeCase]*lengths{}
	for _, v := range s.water.visits {
		touched := map[*lengths]bool{}
		for _, f := range v.Finds {
			if f.Fly != s.fly.Account || f.Checked == rivers.Rejected || f.Reared || f.Absent || f.Stage == "" || len(f.Lengths) == 0 {
				continue
			}
			w := species.Words{Stage: f.Stage, Sex: f.Sex, Flight: r.flightOf(s, v)}
			of := func(part species.Part) *lengths {
				c := sizeCase{w, part}
				if out[c] == nil {
					out[c] = &lengths{years: map[int]bool{}}
				}
				return out[c]
			}
			for _, x := range f.Lengths {
				part, ok := partOf(x, s.fly.Group.Habit(f.Stage))
				l := of(part)
				if !ok {
					l.setAside++
					continue
				}
				l.mm = append(l.mm, x.Millimetres)
				l.digits = max(l.digits, x.Digits)
				l.years[v.When.From.Year] = true
				if !touched[l] {
					touched[l] = true
					l.visits++
				}
			}
		}
	}
	for _, l := range out {
		slices.Sort(l.mm)
	}
	return out
}

// partOf is what a length measures; one that doesn't say measures what is usual. It is not ok with tails, or of
// a wing.
func partOf(x rivers.Length, usual species.Part) (species.Part, bool) {
	switch x.Part {
	case "":
		return usual, !x.WithTails
	case rivers.Body:
		return species.OfBody, !x.WithTails
	case rivers.Overall:
		return species.Overall, !x.WithTails
	}
	return usual, false
}

func whatIsMeasured(part species.Part) string {
	if part == species.Overall {
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
	var cases []sizeCase
	add := func(c sizeCase) {
		if !slices.Contains(cases, c) {
			cases = append(cases, c)
		}
	}
	for c := range s.measured {
		add(c)
	}
	for _, w := range accountCases(s.fly.Account) {
		for _, part := range accountParts(s.fly.Account, w) {
			if c := (sizeCase{w, part}); !s.covered(c) {
				add(c)
			}
		}
	}
	slices.SortFunc(cases, func(a, b sizeCase) int { return r.caseOrder(s.fly.Account, a, b) })
	var out []Size
	for _, c := range cases {
		out = append(out, r.size(s, all, c))
	}
	return out
}

// covered reports whether records here give the case, or both its sexes.
func (s *stand) covered(c sizeCase) bool {
	has := func(x species.Sex) bool {
		l := s.measured[sizeCase{species.Words{Stage: c.Stage, Sex: x, Flight: c.Flight}, c.part}]
		return l != nil && len(l.mm) > 0
	}
	return c.Sex == species.NoSex && has(species.Male) && has(species.Female)
}

// accountParts are the parts of which an account gives a length in a case.
func accountParts(a *species.Account, w species.Words) []species.Part {
	var out []species.Part
	for _, part := range []species.Part{species.OfBody, species.Overall} {
		if len(lengthsOf(a, w, part)) > 0 {
			out = append(out, part)
		}
	}
	return out
}

// lengthsOf are an account's lengths of one part in a case, the first to be reckoned with.
func lengthsOf(a *species.Account, w species.Words, part species.Part) species.Claims[species.Length] {
	var out species.Claims[species.Length]
	for _, c := range a.Length.For(w) {
		if c.Value.Part == part || c.Value.Part == "" && a.Group.Habit(w.Stage) == part {
			out = append(out, c)
		}
	}
	return out
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

func (r *reckoner) caseOrder(a *species.Account, x, y sizeCase) int {
	flight := func(name string) int {
		i := slices.IndexFunc(a.Flights, func(f species.Flight) bool { return f.Name == name })
		if i < 0 {
			return len(a.Flights)
		}
		return i
	}
	return cmp.Or(slices.Index(species.AllStages, x.Stage)-slices.Index(species.AllStages, y.Stage),
		flight(x.Flight)-flight(y.Flight), cmp.Compare(x.Sex, y.Sex), cmp.Compare(x.part, y.part))
}

func (r *reckoner) size(s *stand, all []*stand, c sizeCase) Size {
	a := s.fly.Account
	out := Size{Stage: c.Stage, Sex: c.Sex, Flight: c.Flight, Part: c.part, What: whatIsMeasured(c.part),
		Account: lengthsOf(a, c.Words, c.part), Book: a.Books.For(c.Words)}
	out.Unmet = !a.MeetsCase(c.Stage, c.Sex) && !slices.Contains(a.Seldom(), c.Stage)
	out.Torn = s.torn(c.Flight)
	if l := s.measured[c]; l != nil && !out.Torn { // over a long season no median
		out.SetAside = l.setAside
		if out.N = len(l.mm); out.N > 0 {
			out.Median, out.Low, out.High, out.Digits = median(l.mm), l.mm[0], l.mm[out.N-1], l.digits
			out.Basis = content.On(content.Part{Ground: content.OwnRecords, Water: s.water.Name.S, Visits: l.visits, Years: len(l.years)})
		}
	}
	if !out.Unmet {
		out.Hook = r.hookGround(s, all, c.Words, out.Book)
	}
	return out
}

// hookGround finds the body that a hook rests on: measured here, else on all waters together, else the account's;
// at each of these measured as body, else overall times the share that the body has of it. Where the finds of a flight lie
// in two runs nothing measured counts: the account's length gives the hook.
func (r *reckoner) hookGround(s *stand, all []*stand, w species.Words, book species.Claims[hook.Range]) HookGround {
	a := s.fly.Account
	torn := s.torn(w.Flight)
	if torn {
		s, all = &stand{fly: s.fly}, nil
	}
	g := HookGround{}
	for _, part := range []species.Part{species.OfBody, species.Overall} {
		if x, ok := r.groundIn(s, all, sizeCase{w, part}); ok && (g.From == "" || Nearer(x.From, g.From)) {
			if part == species.Overall {
				if x, ok = r.bodyOf(x, all, a, w); !ok {
					continue
				}
			}
			g = x
		}
	}
	if g.Torn = torn; g.From == "" {
		return g
	}
	for _, h := range r.e.Hooks.Suggest(measure.Millimetres(g.Length), string(w.Stage), string(a.Group)) {
		f := HookFor{Suggestion: h, Off: hook.Against(float64(h.Shank), g.Length)}
		if b, ok := book.First(); ok && h.Beyond == hook.Within {
			f.Steps, f.HasBook = b.Value.Steps(h.Size), true
		}
		g.Hooks = append(g.Hooks, f)
	}
	return g
}

// grounds in the order in which a hook rests on them.
var grounds = []string{FromWater, FromAll, FromAccount}

// Nearer reports whether a length of one ground goes before one of another.
func Nearer(a, b string) bool { return slices.Index(grounds, a) < slices.Index(grounds, b) }

// groundIn is the length of one part: this water's own where enough were measured, else all waters' together, else
// the account's middle. A case of either sex takes an account's lesser low and greater high over both sexes.
func (r *reckoner) groundIn(s *stand, all []*stand, c sizeCase) (HookGround, bool) {
	least := int(r.c.OwnMeasured)
	if l := s.measured[c]; l != nil && len(l.mm) >= least {
		b := content.On(content.Part{Ground: content.OwnRecords, Water: s.water.Name.S, Visits: l.visits, Years: len(l.years)})
		return HookGround{From: FromWater, Length: median(l.mm), N: len(l.mm), Basis: b}, true
	}
	if mm, waters, basis := pooled(all, c); len(mm) >= least {
		return HookGround{From: FromAll, Length: median(mm), N: len(mm), Waters: waters, Basis: basis}, true
	}
	low, high, basis, ok := accountRange(s.fly.Account, c)
	return HookGround{From: FromAccount, Length: (low + high) / 2, Basis: basis}, ok
}

func accountRange(a *species.Account, c sizeCase) (low, high float64, basis content.Basis, ok bool) {
	sexes := []species.Sex{c.Sex}
	if c.Sex == species.NoSex {
		sexes = []species.Sex{species.Male, species.Female}
	}
	for _, x := range sexes {
		w := c.Words
		w.Sex = x
		l, is := lengthsOf(a, w, c.part).First()
		switch {
		case !is:
			continue
		case !ok:
			low, high = float64(l.Value.Low), float64(l.Value.High)
		}
		low, high, ok = min(low, float64(l.Value.Low)), max(high, float64(l.Value.High)), true
		basis = basis.With(l.Basis)
	}
	return low, high, basis, ok
}

// bodyOf turns an overall length into a body: the wing overhangs, and isn't put on the shank. Enough measured
// bodies of the fly replace its group's share.
func (r *reckoner) bodyOf(g HookGround, all []*stand, a *species.Account, w species.Words) (HookGround, bool) {
	share, basis := r.c.Share(string(a.Group)), content.On(content.Part{Ground: content.Assumed})
	if mm, _, b := pooled(all, sizeCase{w, species.OfBody}); len(mm) >= int(r.c.ShareBodies) {
		if over, ok := r.groundIn(&stand{fly: &Fly{Account: a}}, all, sizeCase{w, species.Overall}); ok && over.Length > 0 {
			share, basis = median(mm)/over.Length, b
		}
	}
	if !(share > 0) {
		return HookGround{}, false
	}
	g.Overall, g.Share, g.Length = g.Length, share, share*g.Length
	g.Basis = g.Basis.With(basis)
	return g, true
}

// pooled joins one case's lengths over all waters; the case keeps its stage,
// sex, flight and part, so nothing else is pooled.
func pooled(all []*stand, c sizeCase) (mm []float64, waters []string, b content.Basis) {
	for _, s := range all {
		l := s.measured[c]
		if l == nil || len(l.mm) == 0 || s.torn(c.Flight) {
			continue
		}
		mm = append(mm, l.mm...)
		waters = append(waters, s.water.Name.S)
		b = b.With(content.On(content.Part{Ground: content.OwnRecords, Water: s.water.Name.S, Visits: l.visits, Years: len(l.years)}))
	}
	slices.Sort(mm)
	return mm, waters, b
}
