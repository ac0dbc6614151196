package figures

// What is reckoned once per fly, and the names a person may search for.

import (
	"cmp"
	"slices"

	"guidegen/content"
	"guidegen/rivers/season"
	"guidegen/species"
)

// accountSizes gives a fly's sizes without a water: the account's lengths, and
// hooks from all waters together.
func (r *reckoner) accountSizes(f *Fly, stands []*stand) []Size {
	nowhere := &stand{fly: f, water: &Water{}, measured: nil}
	var cases []sizeCase
	for _, w := range accountCases(f.Account) {
		for _, part := range accountParts(f.Account, w) {
			cases = append(cases, sizeCase{w, part})
		}
	}
	for _, s := range stands {
		for w := range s.measured {
			if w.Flight != "" && !slices.Contains(cases, w) {
				cases = append(cases, w)
			}
		}
	}
	slices.SortFunc(cases, func(a, b sizeCase) int { return r.caseOrder(f.Account, a, b) })
	var out []Size
	for _, w := range cases {
		s := r.size(nowhere, stands, w)
		if mm, _, basis := pooled(stands, w); len(mm) > 0 {
			s.N, s.Median, s.Low, s.High, s.Basis = len(mm), median(mm), mm[0], mm[len(mm)-1], basis
			for _, o := range stands {
				if l := o.measured[w]; l != nil {
					s.Digits = max(s.Digits, l.digits)
					s.SetAside += l.setAside
				}
			}
		}
		if s.N > 0 || len(s.Account) > 0 && !bothSexes(stands, w) {
			out = append(out, s)
		}
	}
	return out
}

// bothSexes reports whether a case for either sex is measured for each.
func bothSexes(stands []*stand, w sizeCase) bool {
	has := func(x species.Sex) bool {
		mm, _, _ := pooled(stands, sizeCase{species.Words{Stage: w.Stage, Sex: x, Flight: w.Flight}, w.part})
		return len(mm) > 0
	}
	return w.Sex == species.NoSex && has(species.Male) && has(species.Female)
}

// accountCurve is the account's own curve, softened, at the reference.
func (r *reckoner) accountCurve(f *Fly) *season.Curve {
	var moved []season.Moved
	for _, fl := range f.Account.Flights {
		d := season.Dates{From: fl.From, Peak: fl.Peak, To: fl.To}.Peaked()
		moved = append(moved, season.Moved{Dates: d, Class: classOf(fl.Class)})
	}
	c := season.Expected(moved, r.c.Season)
	return &c
}

// pairs compares each flight on every two waters that list the fly.
func (r *reckoner) pairs(f *Fly, rows []*Row) []WaterPair {
	var out []WaterPair
	for i, a := range rows {
		for _, b := range rows[i+1:] {
			if !a.Listed || !b.Listed || a.Year != b.Year {
				continue
			}
			for k := range a.stand.moved {
				c := season.Compare(a.stand.ev.visits, b.stand.ev.visits, a.stand.moved, b.stand.moved, k, r.c.Season)
				if len(c.Seasons) > 0 || len(c.LeftOut) > 0 {
					out = append(out, WaterPair{a.Water, b.Water, f.Account.Flights[k].Name, c, len(c.Seasons) < int(r.c.Season.MedianYears), a.Year})
				}
			}
		}
	}
	return out
}

func (r *reckoner) perFly() {
	for _, f := range r.book.Flies {
		f.named = r.namedBy(f)
	}
	for _, w := range r.book.Waters {
		for _, row := range w.Rows {
			row.Alike, row.MoreAlike = r.alike(row, w.Rows)
		}
	}
	for _, f := range r.book.Flies {
		f.Alike, f.MoreAlike = r.alikeAnywhere(f)
	}
	r.names()
}

func (r *reckoner) names() {
	for _, f := range r.book.Flies {
		add := func(kind string, l ...content.Text) {
			for _, t := range l {
				if t.S != "" {
					r.book.Alphabet = append(r.book.Alphabet, NameEntry{t.S, f, kind, f.Called[t.S]})
				}
			}
		}
		add("name", f.Name)
		add("also", f.Also...)
		add("old", f.Old...)
		for lang, l := range f.ByLanguage {
			add(lang, l...)
		}
		add("scientific", f.Scientific.Name)
		add("synonym", f.Synonyms...)
	}
	slices.SortStableFunc(r.book.Alphabet, func(a, b NameEntry) int {
		return cmp.Or(r.e.Settings.Alphabet.Compare(a.Name, b.Name), cmp.Compare(a.Fly.Address, b.Fly.Address), cmp.Compare(a.Kind, b.Kind))
	})
}

// LeftOutNames are the seasons visited on either water and not compared, as they are printed.
func (p WaterPair) LeftOutNames() []string {
	var out []string
	for _, y := range p.LeftOut {
		out = append(out, season.SeasonName(y, p.Year))
	}
	return out
}
