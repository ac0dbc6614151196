package season

// What is on, around any day of the year: section 7 of the rules on figures.
// Nothing here knows today's date; the page looks the reader's day up.

import (
	"cmp"
	"math"

	"guidegen/content/calendar"
)

// On says whether a fly is on, on a day.
type On string

// The states of a day.
const (
	Off      On = "off"
	IsOn     On = "on"
	Starting On = "starting" // not on, but within the next 7 days
	JustOver On = "just-over"
)

// Word is the word that goes with a day.
type Word string

// The words. Between two flights less than six weeks apart the word is Between
// in whatever state, and takes the place of the others.
const (
	NoWord  Word = ""
	Rising  Word = "rising"
	Fading  Word = "fading"
	Steady  Word = "steady"
	Between Word = "between-flights"
)

// Today is a fly's state on one day.
type Today struct {
	On   On
	Word Word
}

const week = 7

// Days returns the state of every day of the year, of those on which the fly is on and their chances; index 0 is
// 1 January.
func Days(on [calendar.Year]bool, chance *Curve, flights []Moved) [calendar.Year]Today {
	var out [calendar.Year]Today
	for i := range out {
		d := calendar.Day(i + 1)
		var next, last float64
		var soon, lately bool
		for n := 1; n <= week; n++ {
			a, b := d.Add(n), d.Add(-n)
			next += chance.At(a)
			last += chance.At(b)
			soon = soon || on[a-1]
			lately = lately || on[b-1]
		}
		t := &out[i]
		switch {
		case on[i]:
			t.On, t.Word = IsOn, tendency(next, last)
		case soon:
			t.On = Starting
		case lately:
			t.On = JustOver
		default:
			t.On = Off
		}
		if BetweenFlights(d, flights) {
			t.Word = Between
		}
	}
	return out
}

// tendency takes the sums of the 7 days after and before: the ratio of sums is
// the ratio of means.
func tendency(next, last float64) Word {
	switch ratio := round9(next / last); {
	case math.IsNaN(ratio):
		return Steady
	case ratio > 1.1:
		return Rising
	case ratio < 0.9:
		return Fading
	}
	return Steady
}

// BetweenFlights reports whether a day lies after the end of one flight and
// before the start of another, less than six weeks apart.
func BetweenFlights(d calendar.Day, flights []Moved) bool {
	const sixWeeks = 42
	since, until := calendar.Year, calendar.Year // days from the last end, to the next start
	for _, f := range flights {
		if calendar.Within(d, f.From, f.To) {
			return false
		}
		since = min(since, calendar.Fwd(f.To, d))
		until = min(until, calendar.Fwd(d, f.From))
	}
	if since+until >= sixWeeks {
		return false
	}
	for k, f := range flights {
		for j, g := range flights {
			if k != j && calendar.Fwd(f.To, d) == since && calendar.Fwd(d, g.From) == until {
				return true
			}
		}
	}
	return false
}

// LargestDay returns the day of the largest chance outside the stretches
// between flights, the first of equal ones; 0 where there is no chance at all.
func LargestDay(chance *Curve, flights []Moved) calendar.Day {
	var best calendar.Day
	top := 0.0
	for i := range chance {
		d := calendar.Day(i + 1)
		if v := round9(chance[i]); v > top && !BetweenFlights(d, flights) {
			best, top = d, v
		}
	}
	return best
}

// Run is a stretch of days alike, as the site's script looks them up.
type Run struct {
	Today
	Length int // days
}

// Runs packs a year's days, from 1 January; the lengths add up to 365.
func Runs(days [calendar.Year]Today) []Run {
	var out []Run
	for _, t := range days {
		if n := len(out); n > 0 && out[n-1].Today == t {
			out[n-1].Length++
			continue
		}
		out = append(out, Run{t, 1})
	}
	return out
}

// Short is a short flight put in words: "about Days days, some time between
// Earliest and Latest; then found on Share of visits".
type Short struct {
	Flight           int
	Days             int
	Earliest, Latest calendar.Day // from - τ, to + τ
	Share            float64      // A, in [0,1]
}

// ShortFlights returns the flights that need words: shorter than four weeks, and
// on their days less than half of the weight is the water's own visits.
func ShortFlights(flights []Moved, ch *Chances, c Constants) []Short {
	var out []Short
	tau := int(math.Round(round9(c.Softening)))
	for k, f := range flights {
		if f.Length() >= int(c.ShortFlight) {
			continue
		}
		var own, all float64
		for n := range f.Length() {
			d := f.From.Add(n)
			own += ch.Own.At(d)
			all += ch.Weight(d)
		}
		if round9(own/all) < 0.5 {
			out = append(out, Short{k, f.Length(), f.From.Add(-tau), f.To.Add(tau), c.Share(f.Class)})
		}
	}
	return out
}

// Ranked is what the order of a list of flies rests on.
type Ranked struct {
	Chance float64
	Class  Class
	Name   string
}

// Order compares for a list: chance, then abundance class, then name.
func Order(a, b Ranked) int {
	return cmp.Or(cmp.Compare(round9(b.Chance), round9(a.Chance)), cmp.Compare(b.Class, a.Class), cmp.Compare(a.Name, b.Name))
}
