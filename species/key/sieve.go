// The sieve: flies ranked by what a reader has ticked, in any order, and the
// next most useful question. The site's own script does the same on the
// reader's device; testdata/sieve-cases.json runs through both.

package key

import (
	"cmp"
	"slices"
)

// Ticks are the states a reader has ticked, by character. Several states of
// one character mean "one of these"; no state means not ticked.
type Ticks map[string][]string

// Standing is a fly's place in the sieve: the number of ticked characters that
// it disagrees with, and of those it is known to agree with.
type Standing struct {
	ID, Name          string
	Disagrees, Agrees int
}

// Sieve ranks the flies and names the character to ask about next ("" if no
// question would help).
//
// A fly disagrees with a ticked character if it is known for the fly and none
// of its states is ticked. Order: fewest disagreements, then largest chance
// (to 1e-9), then name, then ID. Flies that disagree sink; none is dropped,
// since a reader may have ticked wrongly.
//
// The next question is that of a key's first couplet (see Build) for the flies
// with the fewest disagreements, over the characters not ticked yet.
func Sieve(v Vocabulary, taxa []Taxon, ticks Ticks, set Settings) (order []Standing, next string) {
	type placed struct {
		Standing
		fly int
	}
	all := make([]placed, len(taxa))
	fewest := 0
	for i, x := range taxa {
		p := placed{Standing{ID: x.ID, Name: x.Name}, i}
		for _, c := range v {
			ticked, states := ticks[c.Name], x.Values[c.Name].States
			switch {
			case c.Kind != Words || len(ticked) == 0 || len(states) == 0:
			case meet(ticked, states):
				p.Agrees++
			default:
				p.Disagrees++
			}
		}
		if i == 0 || p.Disagrees < fewest {
			fewest = p.Disagrees
		}
		all[i] = p
	}
	var left []member
	for _, p := range all {
		if p.Disagrees == fewest {
			left = append(left, member{p.fly, taxa[p.fly].chance() + set.Base})
		}
	}
	q, ok := tabulate(v, taxa).best(set, left, make(open, len(v)), func(c int) bool {
		return len(ticks[v[c].Name]) > 0
	})
	if ok {
		next = v[q.character].Name
	}
	slices.SortStableFunc(all, func(a, b placed) int {
		return cmp.Or(
			cmp.Compare(a.Disagrees, b.Disagrees),
			cmp.Compare(settle(taxa[b.fly].chance()), settle(taxa[a.fly].chance())),
			cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID))
	})
	for _, p := range all {
		order = append(order, p.Standing)
	}
	return order, next
}
