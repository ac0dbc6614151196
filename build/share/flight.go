package share

// A flight moved to one water, and what its records say of its dates.

import (
	"guidegen/build/figures"
	"guidegen/content/calendar"
)

type flight struct {
	Name    string    `json:"name" doc:"the flight's name in the account"`
	From    day       `json:"from" doc:"first day, moved to this water"`
	Peak    day       `json:"peak" doc:"day of most flies, moved"`
	To      day       `json:"to" doc:"last day, moved"`
	Given   *given    `json:"given,omitempty" doc:"the days before they were moved: the account's, or the water's own; left out where nothing moved them"`
	Shift   int       `json:"shift" doc:"days moved, later is positive; for own dates, own peak less the account's" range:"-365 365"`
	Rule    string    `json:"rule" doc:"how it was moved, or asked to be" enum:"warmth|altitude|nothing|own dates"`
	Default bool      `json:"by_default,omitempty" doc:"the account names no rule"`
	Limited bool      `json:"limited,omitempty" doc:"cut to the largest shift allowed"`
	Warmer  *number   `json:"warmer,omitempty" doc:"°C, water less reference over the days before the peak; left out where not known or not asked"`
	WhyNot  *string   `json:"why_not,omitempty" doc:"why it was not moved; left out where it was, or where its dates are its own" enum:"account-says|all-year|below-dam|no-temperature|no-place"`
	Own     bool      `json:"own_dates,omitempty" doc:"the water's record gives the dates"`
	Class   *string   `json:"class,omitempty" doc:"abundance class that holds here" enum:"dominant|abundant|frequent|occasional|rare"`
	Share   *number   `json:"share,omitempty" doc:"of standard visits that find the fly at its peak" range:"0 1"`
	Basis   []support `json:"basis,omitempty" doc:"what the days given rest on"`
	Records records   `json:"records" doc:"what this water's records say"`
	Sizes   []size    `json:"sizes,omitempty" doc:"lengths by stage and sex where this water has some of its own; for others the fly's in guide.json hold"`
}

type given struct {
	From day `json:"from" doc:"first day"`
	Peak day `json:"peak" doc:"day of most flies"`
	To   day `json:"to" doc:"last day"`
}

type records struct {
	Protocol   *string  `json:"protocol,omitempty" doc:"way of sampling the dates rest on; left out where no find has a known effort"`
	Visits     int      `json:"visits" doc:"visits that found it by that protocol"`
	Seasons    []string `json:"seasons,omitempty" doc:"seasons of these visits: a year, or the two that the fly's year touches"`
	P10        *day     `json:"p10,omitempty" doc:"day by which a tenth of the weight is reached; left out with too few records"`
	P50        *day     `json:"p50,omitempty" doc:"day by which half is reached"`
	P90        *day     `json:"p90,omitempty" doc:"day by which nine tenths are reached"`
	GiveOrTake *int     `json:"give_or_take,omitempty" doc:"days by which p50 may be off, eight times in ten; left out without one"`
	Torn       int      `json:"torn,omitempty" doc:"days between two neighbouring finds, where six weeks or more, so that nothing is pooled; left out for none"`
	Two        bool     `json:"two_flights,omitempty" doc:"the records show two flights where the account gives one: nothing is pooled"`
	First      *date    `json:"first_seen,omitempty" doc:"earliest find in the flight, by any protocol: not the flight's limit"`
	Last       *date    `json:"last_seen,omitempty" doc:"latest find in the flight: not the flight's limit"`
	Finds      []date   `json:"finds,omitempty" doc:"every find in the flight"`
	Thin       bool     `json:"thin,omitempty" doc:"too few visits or years for a middle date"`
}

func flightOf(f figures.FlightHere, sizes []size) flight {
	d := f.Dates
	out := flight{Name: f.Name, From: dayOf(f.From), Peak: dayOf(f.Peak), To: dayOf(f.To),
		Shift: f.Shift, Rule: f.Rule, Default: f.Default, Limited: f.Limited, Warmer: known(f.Warmer, f.HasWarmer), WhyNot: text(f.WhyNot),
		Own: f.Own, Class: text(string(f.Class)), Share: known(f.Share, f.Class != ""), Basis: basisOf(f.Basis),
		Records: records{text(d.Protocol), d.Visits, list(d.Seasons), maybeDay(d.P10), maybeDay(d.P50), maybeDay(d.P90), giveOrTake(d), d.Torn, d.Two,
			maybeDate(d.First), maybeDate(d.Last), dates(d.Finds), d.Thin}}
	if f.Account != [3]calendar.Day{f.From, f.Peak, f.To} {
		out.Given = &given{dayOf(f.Account[0]), dayOf(f.Account[1]), dayOf(f.Account[2])}
	}
	for _, s := range sizes {
		if or(s.Flight, "") == f.Name {
			out.Sizes = append(out.Sizes, s)
		}
	}
	return out
}

func giveOrTake(d figures.FlightDates) *int {
	if d.P50 == 0 {
		return nil
	}
	return &d.GiveOrTake
}
