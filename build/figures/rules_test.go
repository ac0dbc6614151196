package figures

// Rules that a page merely prints, each as a table of cases at the place that reckons it.

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
)

const comparedGuide = `-- guide.yaml --
format: 1
name: Compared
basis: memory
-- characters.yaml --
tails: {states: {two: {about: a pair}, three: {about: with a middle one}}, seen: [dun, spinner], needs: naked eye}
-- species/olive.md --
---
name: Olive
group: upwinged
flights: {only: {from: early Apr, peak: 18 Apr, to: 5 May, abundance: frequent}}
ACCOUNT
---
-- rivers/one.yaml --
name: One
kind: rain-fed
flies: {Olive: frequent}
`

// Two stages side by side: each kind of row, alike and not.
func TestWhatDiffersBetweenStages(t *testing.T) {
	book := func(account string) *Book {
		return bookOf(t, strings.Replace(comparedGuide, "ACCOUNT", account, 1))
	}
	for account, want := range map[string]string{
		"features:\n  tails: {dun: two, spinner: three}":             "tails true",
		"features:\n  tails: {dun: two, spinner: two}":               "tails false",
		"features:\n  tails: {dun: [two, three], spinner: three}":    "tails false", // they may be alike
		"features:\n  tails: {dun: two}":                             "tails false", // of one nothing is known
		"length: {dun: 7 to 8 mm, spinner: 8.1 to 9 mm}":             "size true",
		"length: {dun: 7 to 8 mm, spinner: 8 to 9 mm}":               "size false",
		"length: {dun: 8.1 to 9 mm, spinner: 7 to 8 mm}":             "size true",
		"colours: {dun: {body: Black}, spinner: {body: White}}":      "colour body true",
		"colours: {dun: {body: Black}, spinner: {body: Black}}":      "colour body false",
		"colours: {dun: {body: sooty}, spinner: {body: glassy}}":     "colour body true",
		"hours: {dun: 11:00 to 13:00, spinner: sunset-1h to sunset}": "hours true",
		"hours: {dun: 11:00 to 13:00, spinner: 11:00 to 13:00}":      "hours false",
		"level: {dun: surface, spinner: surface}":                    "level false",
		"level: {dun: surface, spinner: film}":                       "level true",
	} {
		f := book(account).Flies[0]
		require.NotNil(t, f.Compared, account)
		got := map[string]bool{}
		for _, r := range f.Compared.Rows {
			got[compared(r)] = r.Differs
		}
		i := strings.LastIndex(want, " ")
		require.Contains(t, got, want[:i], account)
		assert.Equal(t, want[i+1:] == "true", got[want[:i]], account)
	}
}

// What both sexes share is said once, and of one sex only what is known of it.
func TestSexesAreSaidOnce(t *testing.T) {
	for features, want := range map[string][]SexSaid{
		"{dun: two, spinner: three}":                                {{States: []string{"two"}}},
		"{dun male: two, dun female: two, spinner: three}":          {{States: []string{"two"}}},
		"{dun male: two, dun female: three, spinner: three}":        {{Sex: species.Male, States: []string{"two"}}, {Sex: species.Female, States: []string{"three"}}},
		"{dun female: two, spinner: three}":                         {{Sex: species.Female, States: []string{"two"}}},
		"{dun male: [two, three], dun female: two, spinner: three}": {{Sex: species.Male, States: []string{"two", "three"}}, {Sex: species.Female, States: []string{"two"}}},
	} {
		f := bookOf(t, strings.Replace(comparedGuide, "ACCOUNT", "features:\n  tails: "+features, 1)).Flies[0]
		require.NotNil(t, f.Compared, features)
		assert.Equal(t, want, f.Compared.Rows[0].First, features)
	}
}

// compared names a row.
func compared(r CompareRow) string {
	kind := strings.TrimPrefix(r.Kind, "feature")
	return strings.Join(strings.Fields(kind+" "+r.Of+" "+r.Flight+" "+string(r.Sex)), " ")
}

// Rows that differ stand first, in the order they had.
func TestDifferentRowsFirst(t *testing.T) {
	b := bookOf(t, twoFlights[:strings.Index(twoFlights, "length:")]+"level: {dun: surface, spinner: surface}\nhours: {dun: {spring: 11:00 to 13:00, autumn: 12:00 to 14:00}, spinner: 16:00 to 18:00}\n---\n-- rivers/one.yaml --\nname: One\nkind: rain-fed\nflies: {Olive: frequent}\n")
	var got []string
	for _, r := range b.Flies[0].Compared.Rows {
		got = append(got, compared(r))
	}
	assert.Equal(t, []string{"hours spring", "hours autumn", "level"}, got)
}

// A month is thin with fewer than three visits, or with all of one year.
func TestThinMonths(t *testing.T) {
	for _, c := range []struct {
		dates []string
		thin  bool
	}{
		{[]string{"2024-04-10", "2025-04-11"}, true},
		{[]string{"2024-04-10", "2024-04-11", "2024-04-12", "2024-04-13"}, true}, // one year
		{[]string{"2024-04-10", "2024-04-11", "2025-04-12"}, false},
		{[]string{"2024-04-10", "2025-04-11", "2026-04"}, false}, // a visit dated by its month counts for the month
		{nil, true},
	} {
		text := twoFlights + head
		for i, d := range c.dates {
			text += row(fmt.Sprint("v", i), d, "nothing,,,", "")
		}
		m := bookOf(t, text).Waters[0].Rows[0].Months[3]
		assert.Equal(t, c.thin, m.Thin, c.dates)
		assert.Equal(t, len(c.dates), m.Looked, c.dates)
	}
}

// A find far outside every flight that nobody reviewed is drawn, and counted as held; a reviewed one is a find as others.
func TestHeldFinds(t *testing.T) {
	for checked, want := range map[string]int{"unreviewed": 1, "verified": 0} {
		text := twoFlights + head
		for i, d := range []string{"2024-07-10", "2025-07-11"} {
			text += strings.Replace(row(fmt.Sprint("e", i), d, "nothing,,,", ""), "verified", "", 1)
		}
		text += strings.Replace(row("x", "2025-07-12", "Olive,dun,female,1", ""), "verified", checked, 1)
		m := bookOf(t, text).Waters[0].Rows[0].Months[6]
		assert.Equal(t, want, m.Held, checked)
		assert.Equal(t, 1, m.Found, checked)
	}
}

// Lent visits speak of a month from two bandwidths before it to two after, 14 days by default; those moved further
// away are no part of what it rests on.
func TestReachOfLenders(t *testing.T) {
	lenders := func(date string) []int {
		text := twoFlights + head + strings.ReplaceAll(row("a", date, "Olive,dun,female,1", ""), "One", "Two") +
			"-- rivers/two.yaml --\nname: Two\nkind: rain-fed\nflies: {Olive: frequent}\n"
		var months []int
		for i, m := range bookOf(t, text).Waters[0].Rows[0].Months {
			if len(m.Lenders) > 0 {
				months = append(months, i+1)
			}
		}
		return months
	}
	r := &reckoner{c: bookOf(t, twoFlights+head).Edition.Constants}
	days := int(2 * r.c.Season.Bandwidth)
	first, last := r.reach(3)
	assert.Equal(t, calendar.DayOf(4, 1).Add(-days), first)
	assert.Equal(t, calendar.DayOf(4, 30).Add(days), last)
	assert.Equal(t, 14, days, "the default bandwidth is a week")
	assert.Equal(t, []int{3, 4}, lenders("2024-04-14"), "a fortnight after March")
	assert.Equal(t, []int{4}, lenders("2024-04-15"))
	assert.Equal(t, []int{4, 5}, lenders("2024-04-17"), "a fortnight before May")
}

// Around a day those on stand first, whatever the chance of the others; then by chance.
func TestThoseOnStandFirst(t *testing.T) {
	on, off := [calendar.Year]float64{}, [calendar.Year]float64{}
	d := calendar.DayOf(5, 15)
	on[d-1], off[d-1] = 0.2, 0.9
	fly := func(name string, chance [calendar.Year]float64, state OnState, tend Tendency) *Row {
		r := &Row{Fly: &Fly{}, Chance: chance, Runs: []Run{{1, calendar.Year, state, tend}}}
		r.Fly.Account = &species.Account{Name: content.Text{S: name}}
		return r
	}
	low := on
	low[d-1] = 0.1
	w := &Water{Rows: []*Row{fly("over", off, JustOver, NoTendency), fly("rare", low, On, NoTendency), fly("likely", on, On, NoTendency), fly("off", off, Off, NoTendency)}}
	var got []string
	for _, r := range w.Around(d) {
		got = append(got, r.Fly.Name.S)
	}
	assert.Equal(t, []string{"likely", "rare", "over"}, got)
}

// A trip's list, a water's page and tell speak of one box: what a trip says isn't in it is offered nowhere, not even
// without a score; and where the water's page shows no fly on, on any day, the list says that it deals in outside chances.
func TestTripsAndPagesSpeakOfOneBox(t *testing.T) {
	guide := strings.Replace(comparedGuide, "ACCOUNT", "basis: memory", 1) + `-- dressings/box.yaml --
- {name: Any nymph, fishes: bottom, stands_for: {groups: [upwinged], stage: nymph}}
`
	unscored, unlikely := 0, 0
	demo, small := demoBook(t, false), bookOf(t, guide)
	for i, w := range append(slices.Clone(demo.Waters), small.Waters...) {
		book := demo
		if i >= len(demo.Waters) {
			book = small
		}
		for m := time.January; m <= time.December; m++ {
			from, to := calendar.FirstOf(m), calendar.LastOf(m)
			trip := book.Trip(w, from, to)
			holds := func(s FlyStage) (any, scored bool) {
				flight := s.Row.FlightAt(from.Add(calendar.Fwd(from, to) / 2))
				for _, d := range s.Row.Dressings {
					if d.Stage == s.Stage && (flight == "" || d.Flight == flight) {
						any = any || len(d.Advice.Offered)+len(d.Advice.NotScored) > 0
						scored = scored || len(d.Covering()) > 0
					}
				}
				return any, scored
			}
			for _, s := range trip.Nothing {
				any, _ := holds(s)
				assert.False(t, any, "%s on %s in %s", s.ID(), w.Name.S, m)
			}
			for _, s := range trip.Left {
				any, scored := holds(s)
				assert.True(t, any, "%s on %s in %s", s.ID(), w.Name.S, m)
				if !scored {
					unscored++
				}
			}
			on := false
			for d := from; d <= to; d++ {
				for _, r := range w.Around(d) {
					s, _ := r.On(d)
					on = on || s == On
				}
			}
			assert.Equal(t, on, trip.Expected, "%s in %s", w.Name.S, m)
			if !on && trip.Sum > 0 {
				unlikely++
			}
		}
	}
	assert.Positive(t, unscored)
	assert.Positive(t, unlikely)
}

// Where finds lie too far apart nothing is pooled, and every hook's ground says so: the account's length gives the hook. A stage that fish don't meet has
// no hook for another reason.
func TestWhyThereIsNoHook(t *testing.T) {
	book := demoBook(t, false)
	torn, unmet, given := 0, 0, 0
	for _, w := range book.Waters {
		for _, r := range w.Rows {
			for _, s := range r.Sizes {
				f := slices.IndexFunc(r.Flights, func(f FlightHere) bool { return f.Name == s.Flight })
				far := f >= 0 && (r.Flights[f].Dates.Two || r.Flights[f].Dates.Torn > 0)
				assert.Equal(t, far, s.Torn, "%s %s %s on %s", r.Fly.Name.S, s.Stage, s.Flight, w.Name.S)
				assert.Equal(t, far && !s.Unmet, s.Hook.Torn)
				if s.Unmet {
					assert.Empty(t, s.Hook.Hooks)
				}
				if s.Torn {
					assert.Zero(t, s.N, "nothing is pooled")
					assert.Contains(t, []string{"", FromAccount}, s.Hook.From)
				}
				if s.Unmet {
					unmet++
				}
			}
			for _, d := range r.Dressings {
				f := slices.IndexFunc(r.Flights, func(f FlightHere) bool { return f.Name == d.Flight })
				far := f >= 0 && (r.Flights[f].Dates.Two || r.Flights[f].Dates.Torn > 0)
				assert.Equal(t, far, d.Length.Torn)
				if far {
					torn++
					assert.Contains(t, []string{"", FromAccount}, d.Length.From, "only the account's length is used")
					given += min(1, len(d.Length.Hooks))
				}
			}
		}
	}
	assert.Positive(t, torn)
	assert.Positive(t, unmet)
	assert.Positive(t, given, "and gives a hook")
}
