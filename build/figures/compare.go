package figures

// Two stages of one fly side by side: features, sizes, colours, habits and
// hours, differing rows first (the guide's rules on figures, section 11).

import (
	"slices"

	"guidegen/content"
	"guidegen/species"
	"guidegen/species/colour"
)

// farApart is the ΔE₀₀ from which two stages' colours are said to differ: above it they are no longer near (section 12).
const farApart = 10

// compare is nil for a group that has no two stages to compare. The sizes are
// the account's on a fly's own page and the water's on a river's.
func (r *reckoner) compare(f *Fly, sizes []Size) *Comparison {
	first, second, ok := f.Group.Compared()
	if !ok {
		return nil
	}
	c := &Comparison{First: first, Second: second}
	for i := range r.e.Characters {
		if row, ok := featureRow(f.Account, &r.e.Characters[i], first, second); ok {
			c.Rows = append(c.Rows, row)
		}
	}
	c.Rows = append(c.Rows, sizeRows(f, sizes, first, second)...)
	for _, p := range f.Colours {
		if row, ok := colourRow(f.Account, p, first, second); ok {
			c.Rows = append(c.Rows, row)
		}
	}
	c.Rows = append(c.Rows, habitRows(f.Account, first, second)...)
	slices.SortStableFunc(c.Rows, func(a, b CompareRow) int {
		switch {
		case a.Differs == b.Differs:
			return 0
		case a.Differs:
			return -1
		}
		return 1
	})
	if len(c.Rows) == 0 {
		return nil
	}
	return c
}

func featureRow(a *species.Account, c *species.Character, first, second species.Stage) (CompareRow, bool) {
	row := CompareRow{Of: c.Name, Kind: "feature", Needs: string(c.Needs)}
	say := func(w species.Words) (SexSaid, bool) {
		claim, ok := a.Feature(c.Name, w)
		if !ok || !c.Sees(w) {
			return SexSaid{}, false
		}
		row.Basis = row.Basis.With(claim.Basis)
		return SexSaid{States: claim.Value}, true
	}
	row.First, row.Second = bySex(first, say), bySex(second, say)
	if row.First == nil && row.Second == nil {
		return row, false
	}
	x, y := statesOf(a, c, []species.Stage{first}), statesOf(a, c, []species.Stage{second})
	row.Differs = len(x) > 0 && len(y) > 0 && !slices.ContainsFunc(x, func(s string) bool { return slices.Contains(y, s) })
	return row, true
}

// bySex gives a statement for a stage: once where both sexes are alike or neither is told apart, else one for each.
func bySex(st species.Stage, say func(species.Words) (SexSaid, bool)) (out []SexSaid) {
	for _, sex := range []species.Sex{species.Male, species.Female} {
		if s, ok := say(species.Words{Stage: st, Sex: sex}); ok {
			s.Sex = sex
			out = append(out, s)
		}
	}
	if len(out) == 2 && slices.Equal(out[0].States, out[1].States) && out[0].Shade == out[1].Shade {
		out = out[:1]
		out[0].Sex = species.NoSex
	}
	if out == nil {
		if s, ok := say(species.Words{Stage: st}); ok {
			out = append(out, s)
		}
	}
	return out
}

// sizeRows compares one flight and sex at a time; nothing is pooled.
func sizeRows(f *Fly, sizes []Size, first, second species.Stage) []CompareRow {
	var out []CompareRow
	for _, x := range sizes {
		if x.Stage != first || x.Flight == "" && x.N > 0 {
			continue
		}
		for _, y := range sizes {
			if y.Stage != second || y.Flight != x.Flight || !samePair(sizes, x, y) {
				continue
			}
			row := CompareRow{Kind: "size", Sizes: [2]Size{x, y}, Flight: flightWord(f, x.Flight), Sex: sexOf(x, y)}
			a, aLow, aHigh := centre(x)
			b, bLow, bHigh := centre(y)
			if a > 0 && b > 0 {
				row.Ratio = b / a
				row.Differs = content.Round9(aHigh) < content.Round9(bLow) || content.Round9(bHigh) < content.Round9(aLow)
			}
			row.Basis = sizeBasis(x).With(sizeBasis(y))
			if !row.Basis.IsZero() {
				out = append(out, row)
			}
		}
	}
	return out
}

// samePair reports whether two sizes are of one sex. A size of either sex
// stands in only where the other's sex has none of its own in that stage.
func samePair(sizes []Size, x, y Size) bool {
	if x.Sex == y.Sex {
		return true
	}
	own := func(of, sex Size) bool {
		return slices.ContainsFunc(sizes, func(s Size) bool {
			return s.Stage == of.Stage && s.Flight == of.Flight && s.Sex == sex.Sex
		})
	}
	switch {
	case x.Sex == species.NoSex:
		return !own(x, y)
	case y.Sex == species.NoSex:
		return !own(y, x)
	}
	return false
}

func sexOf(x, y Size) species.Sex {
	if x.Sex != species.NoSex {
		return x.Sex
	}
	return y.Sex
}

func flightWord(f *Fly, name string) string {
	if len(f.Account.Flights) < 2 {
		return ""
	}
	return name
}

// centre is the median of the measured flies, else the middle of the account's range.
func centre(s Size) (mid, low, high float64) {
	if s.N > 0 {
		return s.Median, s.Low, s.High
	}
	if c, ok := s.Account.First(); ok {
		return float64(c.Value.Low+c.Value.High) / 2, float64(c.Value.Low), float64(c.Value.High)
	}
	return 0, 0, 0
}

func sizeBasis(s Size) content.Basis {
	if s.N > 0 {
		return s.Basis
	}
	if c, ok := s.Account.First(); ok {
		return c.Basis
	}
	return content.Basis{}
}

func colourRow(a *species.Account, p species.PartColour, first, second species.Stage) (CompareRow, bool) {
	row := CompareRow{Of: p.Part, Kind: "colour", Needs: string(species.NakedEye)}
	say := func(w species.Words) (SexSaid, bool) {
		c, ok := p.Cases.First(w)
		if !ok {
			return SexSaid{}, false
		}
		row.Basis = row.Basis.With(c.Basis)
		return SexSaid{Shade: c.Value}, true
	}
	row.First, row.Second = bySex(first, say), bySex(second, say)
	if row.First == nil && row.Second == nil {
		return row, false
	}
	x, okX := shadeOf(a, p.Part, first)
	y, okY := shadeOf(a, p.Part, second)
	if okX && okY {
		if x.Colour.HasValue && y.Colour.HasValue {
			row.DeltaE, row.HasDeltaE = colour.Difference(x.Colour.Value.Lab(), y.Colour.Value.Lab()), true
			row.Differs = content.Round9(row.DeltaE) >= farApart
		} else {
			row.Differs = content.Fold(x.Colour.Words) != content.Fold(y.Colour.Words)
		}
	}
	return row, true
}

// habitRows compares level and hours.
func habitRows(a *species.Account, first, second species.Stage) []CompareRow {
	var out []CompareRow
	level := CompareRow{Kind: "level"}
	say := func(w species.Words) (SexSaid, bool) {
		list := Levels(a, w)
		if len(list) == 0 {
			return SexSaid{}, false
		}
		if c, ok := a.Level.First(w); ok {
			level.Basis = level.Basis.With(c.Basis)
		}
		s := SexSaid{}
		for _, l := range list {
			s.States = append(s.States, string(l))
		}
		return s, true
	}
	level.First, level.Second = bySex(first, say), bySex(second, say)
	same := func(x, y SexSaid) bool { return x.Sex == y.Sex && slices.Equal(x.States, y.States) }
	level.Differs = level.First != nil && level.Second != nil && !slices.EqualFunc(level.First, level.Second, same)
	if level.First != nil || level.Second != nil {
		out = append(out, level)
	}
	for _, f := range a.Flights {
		x, xBasis := hoursOf(a, first, f.Name)
		y, yBasis := hoursOf(a, second, f.Name)
		if len(x)+len(y) == 0 {
			continue
		}
		row := CompareRow{Kind: "hours", Hours: [2][]SexHours{x, y}, Basis: xBasis.With(yBasis)}
		row.Differs = len(x) > 0 && len(y) > 0 && !slices.Equal(x, y)
		if len(a.Flights) > 1 {
			row.Flight = f.Name
		}
		out = append(out, row)
	}
	return out
}

// hoursOf are a stage's hours in a flight: one stretch where both sexes share it, else one for each.
func hoursOf(a *species.Account, st species.Stage, flight string) (out []SexHours, b content.Basis) {
	for _, sex := range []species.Sex{species.Male, species.Female} {
		if c, ok := a.Hours.First(species.Words{Stage: st, Sex: sex, Flight: flight}); ok {
			out, b = append(out, SexHours{sex, c.Value}), b.With(c.Basis)
		}
	}
	if len(out) == 2 && out[0].Span == out[1].Span {
		out = []SexHours{{species.NoSex, out[0].Span}}
	}
	return out, b
}
