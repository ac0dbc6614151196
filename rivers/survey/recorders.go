package survey

// Who went to the water, and what came of it.

import "slices"

// Trip is one visit, as a tally takes it.
type Trip struct {
	Who    []int // keys of people; none where whose visit it was isn't told
	Year   int   // 0 for a date that isn't known to the year
	Day    int   // days from any fixed one; only where Exact
	Exact  bool
	Looked bool // for flies on the wing; else it is a kick sample, or for a temperature
	Empty  bool
	Found  []FoundOn
}

// FoundOn is a fly and the water it was found on.
type FoundOn struct{ Fly, Water string }

// Tally is what came of one person's trips.
type Tally struct {
	Looked, Empty, Others int
	Years                 []int
	Flies                 []string  // in order
	First                 []FoundOn // found on a water before anybody else, by water and fly; two of one day share it
}

// Tallies counts by person. A first find is told where no trip without an exact day could have been before; of a trip
// whose people aren't told nobody gets the credit.
func Tallies(trips []Trip) map[int]*Tally {
	out := map[int]*Tally{}
	first := map[FoundOn]Trip{}
	vague := map[FoundOn]bool{}
	for _, t := range trips {
		for _, f := range t.Found {
			was, ok := first[f]
			switch {
			case !t.Exact:
				vague[f] = true
			case !ok || t.Day < was.Day:
				first[f] = t
			case t.Day == was.Day:
				was.Who = slices.Concat(was.Who, t.Who)
				first[f] = was
			}
		}
		for _, who := range t.Who {
			x := out[who]
			if x == nil {
				x = &Tally{}
				out[who] = x
			}
			switch {
			case !t.Looked:
				x.Others++
			case t.Empty:
				x.Empty++
				fallthrough
			default:
				x.Looked++
			}
			if t.Year != 0 {
				x.Years = append(x.Years, t.Year)
			}
			for _, f := range t.Found {
				x.Flies = append(x.Flies, f.Fly)
			}
		}
	}
	for f, t := range first {
		slices.Sort(t.Who)
		for _, who := range slices.Compact(t.Who) {
			if !vague[f] {
				out[who].First = append(out[who].First, f)
			}
		}
	}
	for _, x := range out {
		slices.Sort(x.Years)
		slices.Sort(x.Flies)
		x.Years, x.Flies = slices.Compact(x.Years), slices.Compact(x.Flies)
		slices.SortFunc(x.First, func(a, b FoundOn) int {
			return slices.Compare([]string{a.Water, a.Fly}, []string{b.Water, b.Fly})
		})
	}
	return out
}
