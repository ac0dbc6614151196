package figures

// Two stages of one fly side by side: features, sizes, colours, habits and
// hours, differing rows first (the guide's rules on figures, section 11).

import (
	"slices"
	"strings"

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
	row := CompareRow{Character: c.Name, Kind: "feature", Needs: string(c.Needs)}
	row.First = bySex(first, func(w species.Words) (string, content.Basis, bool) { return stateWords(a, c, w, &row) })
	row.Second = bySex(second, func(w species.Words) (string, content.Basis, bool) { return stateWords(a, c, w, &row) })
	if row.First == "" && row.Second == "" {
		return row, false
	}
	x, y := statesOf(a, c, []species.Stage{first}), statesOf(a, c, []species.Stage{second})
	row.Differs = len(x) > 0 && len(y) > 0 && !slices.ContainsFunc(x, func(s string) bool { return slices.Contains(y, s) })
	return row, true
}

func stateWords(a *species.Account, c *species.Character, w species.Words, row *CompareRow) (string, content.Basis, bool) {
	if !c.Sees(w) {
		return "", content.Basis{}, false
	}
	claim, ok := a.Feature(c.Name, w)
	if !ok {
		return "", content.Basis{}, false
	}
	row.Basis = row.Basis.With(claim.Basis)
	return strings.Join(claim.Value, " or "), claim.Basis, true
}

// bySex words a statement for a stage: once where both sexes are alike, else
// "male …; female …".
func bySex(st species.Stage, say func(species.Words) (string, content.Basis, bool)) string {
	male, _, okM := say(species.Words{Stage: st, Sex: species.Male})
	female, _, okF := say(species.Words{Stage: st, Sex: species.Female})
	switch {
	case okM && okF && male == female:
		return male
	case okM && okF:
		return "male " + male + "; female " + female
	case okM:
		return "male " + male
	case okF:
		return "female " + female
	}
	either, _, _ := say(species.Words{Stage: st})
	return either
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
			row := CompareRow{Kind: "size", Sizes: [2]Size{x, y},
				Character: strings.Join(strings.Fields("length "+flightWord(f, x.Flight)+" "+string(sexOf(x, y))), " ")}
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
	row := CompareRow{Character: "colour of " + p.Part, Kind: "colour", Needs: string(species.NakedEye)}
	say := func(w species.Words) (string, content.Basis, bool) {
		c, ok := p.Cases.First(w)
		if !ok {
			return "", content.Basis{}, false
		}
		row.Basis = row.Basis.With(c.Basis)
		return shadeWords(c.Value), c.Basis, true
	}
	row.First, row.Second = bySex(first, say), bySex(second, say)
	if row.First == "" && row.Second == "" {
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

func shadeWords(s species.Shade) string {
	parts := []string{s.Colour.String()}
	if s.Wet != species.NotSaid {
		parts = append(parts, string(s.Wet))
	}
	if s.Light != "" {
		parts = append(parts, s.Light)
	}
	return strings.Join(parts, ", ")
}

// habitRows compares level and hours.
func habitRows(a *species.Account, first, second species.Stage) []CompareRow {
	var out []CompareRow
	add := func(name string, say func(species.Words) (string, content.Basis, bool)) bool {
		row := CompareRow{Character: name, Kind: "habit"}
		note := func(w species.Words) (string, content.Basis, bool) {
			s, b, ok := say(w)
			if ok {
				row.Basis = row.Basis.With(b)
			}
			return s, b, ok
		}
		row.First, row.Second = bySex(first, note), bySex(second, note)
		if row.First == "" && row.Second == "" {
			return false
		}
		row.Differs = row.First != "" && row.Second != "" && row.First != row.Second
		out = append(out, row)
		return true
	}
	add("level", func(w species.Words) (string, content.Basis, bool) {
		c, ok := a.Level.First(w)
		return c.Text, c.Basis, ok
	})
	for _, f := range a.Flights {
		name := "hours"
		if len(a.Flights) > 1 {
			name += " " + f.Name
		}
		if add(name, func(w species.Words) (string, content.Basis, bool) {
			w.Flight = f.Name
			c, ok := a.Hours.First(w)
			return c.Text, c.Basis, ok
		}) {
			out[len(out)-1].Hours = [2][]SexHours{hoursOf(a, first, f.Name), hoursOf(a, second, f.Name)}
		}
	}
	return out
}

// hoursOf are a stage's hours in a flight: one stretch where both sexes share it, else one for each.
func hoursOf(a *species.Account, st species.Stage, flight string) []SexHours {
	var out []SexHours
	for _, sex := range []species.Sex{species.Male, species.Female} {
		if c, ok := a.Hours.First(species.Words{Stage: st, Sex: sex, Flight: flight}); ok {
			out = append(out, SexHours{sex, c.Value})
		}
	}
	if len(out) == 2 && out[0].Span == out[1].Span {
		return []SexHours{{species.NoSex, out[0].Span}}
	}
	return out
}
