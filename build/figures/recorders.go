package figures

// Who recorded, on one water and over the whole guide.

import (
	"cmp"
	"slices"

	"guidegen/build/guide"
	"guidegen/content/calendar"
	"guidegen/rivers/survey"
)

// Recorder is one person's visits and what came of them; flies and waters by address.
type Recorder struct {
	Shown string // as they wish to be named; "" wants no name
	survey.Tally
}

// recorders are those of some visits, by number of visits; unnamed are visits of people who wish no name, withheld those
// whose people are not for this edition.
func (r *reckoner) recorders(visits []*guide.Visit) (out []Recorder, unnamed, withheld int) {
	shown := map[int]string{}
	var trips []survey.Trip
	for _, v := range visits {
		t := survey.Trip{Exact: v.When.Exact(), Day: v.When.From.Sub(calendar.Date{Year: 1, Month: 1, Day: 1}), Looked: v.LooksForAny(), Empty: v.EmptyNet()}
		if v.When.From.Year == v.When.To.Year {
			t.Year = v.When.From.Year
		}
		for _, f := range v.Finds {
			if f.Counts() && f.Fly != nil && !f.Withheld {
				t.Found = append(t.Found, survey.FoundOn{Fly: f.Fly.Address, Water: v.Water.Address})
			}
		}
		switch {
		case !v.Withheld:
			for _, p := range r.e.People[v] {
				shown[p.Key] = p.Shown
				t.Who = append(t.Who, p.Key)
			}
			if slices.ContainsFunc(r.e.People[v], func(p guide.Person) bool { return p.Shown == "" }) {
				unnamed++
			}
		case t.Looked: // whose visits these are isn't told: not even that they want no name
			withheld++
		}
		trips = append(trips, t)
	}
	for k, t := range survey.Tallies(trips) {
		out = append(out, Recorder{shown[k], *t})
	}
	slices.SortFunc(out, func(a, b Recorder) int {
		return cmp.Or(b.Looked-a.Looked, cmp.Compare(a.Shown, b.Shown), a.Empty-b.Empty, slices.Compare(a.Years, b.Years), slices.Compare(a.Flies, b.Flies))
	})
	return out, unnamed, withheld
}
