package figures

// What the visits on one water say of one fly, as the kernels take it.

import (
	"slices"

	"guidegen/build/guide"
	"guidegen/content/calendar"
	"guidegen/rivers"
	"guidegen/rivers/season"
	"guidegen/species"
)

// evidence is one fly on one water in records.
type evidence struct {
	year   calendar.Day   // on which the fly's year begins here
	visits []season.Visit // dated visits that looked for the fly
	strays []calendar.Date
	vague  []vagueVisit // visits whose date is a month, a year or a range
	adults []calendar.Date
}

// vagueVisit feeds only summaries as coarse as its date.
type vagueVisit struct {
	when  calendar.When
	found bool
	stray bool

	unreviewed bool
}

// gatherEvidence sorts a water's visits by fly. Visits come in date order; x is the first day of the fly's year.
func gatherEvidence(visits []*guide.Visit, a *species.Account, x calendar.Day, c season.Constants) *evidence {
	e := &evidence{year: x}
	for _, v := range visits {
		says, count, unreviewed := v.Of(a)
		if says == guide.Nothing {
			continue
		}
		found := says == guide.FoundIt
		if !v.When.Exact() {
			e.vague = append(e.vague, vagueVisit{v.When, found || says == guide.Stray, says == guide.Stray, found && unreviewed})
			continue
		}
		if says != guide.Empty {
			e.adults = append(e.adults, v.When.From)
		}
		if says == guide.Stray {
			e.strays = append(e.strays, v.When.From)
			continue
		}
		e.visits = append(e.visits, season.Visit{
			Date: v.When.From, Found: found, Effort: v.Standard(c), Protocol: string(v.Protocol),
			Count: float64(max(count, 1)), Unreviewed: found && unreviewed, Season: season.SeasonOf(v.When.From, x),
		})
	}
	return e
}

// found reports whether any adult of the fly was ever found here.
func (e *evidence) found() bool {
	return len(e.adults) > 0 || slices.ContainsFunc(e.vague, func(v vagueVisit) bool { return v.found })
}

// classOf carries the guide's class to the kernel's.
func classOf(c species.Class) season.Class {
	if r := c.Rank(); r >= 0 {
		return season.Dominant - season.Class(r)
	}
	return season.NoClass
}

func classWord(c season.Class) species.Class {
	if c == season.NoClass {
		return species.NoClass
	}
	return species.Classes[season.Dominant-c]
}

// placeOf is what the moving rules need of a water.
func placeOf(w *rivers.Water, warmth *Warmth) season.Place {
	p := season.Place{Dam: w.Kind.BelowDam() || w.Regulated}
	if w.HasPlace {
		p.Latitude = season.Is(w.Place.Latitude.Degrees)
	}
	if w.HasAltitude() {
		// The middle of the water's range: the account's rule speaks of one altitude.
		p.Altitude = season.Is(float64(w.Altitude.Low+w.Altitude.High) / 2)
	}
	if warmth.Known {
		p.Temperature = &season.Wave{M: warmth.M, A: warmth.A, B: warmth.B}
	}
	return p
}

// monthly fits the wave to twelve or fewer monthly means.
func monthly(t rivers.MonthlyTemperature) (season.Fit, bool) {
	var r []season.Reading
	for i, k := range t.Known {
		if k {
			r = append(r, season.Reading{Day: calendar.MidMonth(monthOf(i)), Value: t.Months[i]})
		}
	}
	return fit(r)
}

// fit lays a wave through readings that leave no gap of half a year or more:
// a few weeks of one season settle no year. Our judgement.
func fit(r []season.Reading) (season.Fit, bool) {
	var days []float64
	for _, x := range r {
		days = append(days, x.Day)
	}
	slices.Sort(days)
	for i, d := range days {
		next := days[0] + calendar.Year
		if i+1 < len(days) {
			next = days[i+1]
		}
		if next-d > calendar.Year/2 {
			return season.Fit{}, false
		}
	}
	return season.FitWave(r)
}
