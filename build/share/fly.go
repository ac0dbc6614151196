package share

// One fly on one water, as a river's file holds it.

import (
	"guidegen/build/figures"
	"guidegen/content/calendar"
	"guidegen/species/key"
)

type fly struct {
	Name       string   `json:"name" doc:"the fly's name"`
	Scientific *string  `json:"scientific" doc:"scientific name"`
	Group      string   `json:"group" doc:"the angler's division"`
	Listed     bool     `json:"listed" doc:"in the water's list; false: found there but not listed"`
	Class      *string  `json:"class" doc:"abundance class that holds here" enum:"dominant|abundant|frequent|occasional|rare"`
	Looked     int      `json:"looked" doc:"dated visits that looked for it"`
	Found      int      `json:"found" doc:"of them, found"`
	Years      []int    `json:"years" doc:"years of these visits"`
	ThisYear   []date   `json:"found_this_year" doc:"finds of the year built for"`
	Largest    *day     `json:"largest_day" doc:"day of the largest chance; null where there is none outside the time between flights"`
	Months     []month  `json:"months" doc:"chance and counts, January first" items:"12"`
	Cells      []cell   `json:"cells" doc:"the year's half-months in three states" items:"24"`
	Days       curve    `json:"days" doc:"chance that a standard visit finds it, 1 January first" range:"0 1" items:"365"`
	Account    curve    `json:"account" doc:"what the account alone says, moved to the water and softened; for a fly not listed the chance assumed in its place" range:"0 1" items:"365"`
	Runs       []run    `json:"runs" doc:"what is on around a date, as stretches of days that fill the year"`
	Flights    []flight `json:"flights" doc:"the account's flights here; empty for a fly not listed"`
	Unassigned []size   `json:"sizes_outside_flights" doc:"measured on days that lie in no flight listed above"`
	Short      []short  `json:"short_flights" doc:"short flights that also stand in words"`
	Hours      []hours  `json:"hours" doc:"hours on the water by stage and month"`
	Dressings  []advice `json:"dressings" doc:"what to tie on for each stage, sex and flight"`
	Alike      []alike  `json:"lookalikes" doc:"flies of this water that could be taken for it, most similar first, up to the guide's limit, and those that its account names"`
	MoreAlike  int      `json:"more_lookalikes" doc:"further ones, less similar, which are not listed"`
}

type month struct {
	Month      int     `json:"month" doc:"1 to 12" range:"1 12"`
	State      string  `json:"state" doc:"visited; unlooked: nobody looked; not expected: nobody looked and the account expects too little for pages to print a number" enum:"visited|unlooked|not expected"`
	Chance     number  `json:"chance" doc:"mean of the days' chances" range:"0 1"`
	Low        number  `json:"low" doc:"lower end of the 80 % range" range:"0 1"`
	High       number  `json:"high" doc:"upper end of the 80 % range" range:"0 1"`
	Looked     int     `json:"looked" doc:"visits that looked for it"`
	Found      int     `json:"found" doc:"of them, found"`
	Years      []int   `json:"years" doc:"years of these visits"`
	Shares     shares  `json:"basis" doc:"shares of what the chance rests on; they sum to 1"`
	Lenders    []lends `json:"lenders" doc:"waters whose visits reach the month"`
	Thin       bool    `json:"thin" doc:"thin evidence: few own visits, or all in one year"`
	Unreviewed int     `json:"unreviewed" doc:"of found, resting on unreviewed records alone"`
	Held       int     `json:"held" doc:"of found, kept out of the chance until reviewed"`
}

type shares struct {
	Own     number `json:"own" doc:"this water's visits" range:"0 1"`
	Lent    number `json:"lent" doc:"other waters' visits" range:"0 1"`
	Account number `json:"account" doc:"the account" range:"0 1"`
	Assumed bool   `json:"assumed" doc:"the account's share is a flat assumption, since the fly isn't in the water's list"`
}

type lends struct {
	Water  *string `json:"water" doc:"address of the water; null for one that this edition doesn't name"`
	Visits int     `json:"visits" doc:"visits lent"`
	Years  int     `json:"years" doc:"years of these"`
}

type cell struct {
	Cell   string `json:"cell" doc:"half-month: a from the 1st, b from the 16th" pattern:"^(0[1-9]|1[0-2])[ab]$"`
	State  string `json:"state" doc:"found; looked: looked for and not found; unlooked: nobody looked" enum:"found|looked|unlooked"`
	Looked int    `json:"looked" doc:"visits that looked for it; a find outside its visit's scope marks the cell and is no visit"`
	Found  int    `json:"found" doc:"of them, found"`
	Years  []int  `json:"years" doc:"years of these visits"`
}

type run struct {
	From     day     `json:"from" doc:"first day"`
	To       day     `json:"to" doc:"last day; no run crosses New Year"`
	State    string  `json:"state" doc:"what is on" enum:"on|starting|just over|between flights|off"`
	Tendency *string `json:"tendency" doc:"only while it is on; between two flights of it that word stands in place of a tendency" enum:"rising|steady|fading|between flights"`
}

type short struct {
	Flight string `json:"flight" doc:"name of the flight"`
	Days   int    `json:"days" doc:"about so many days"`
	After  day    `json:"between" doc:"some time between this day"`
	Before day    `json:"and" doc:"and this one"`
	Share  number `json:"share" doc:"then found on this share of visits" range:"0 1"`
}

type hours struct {
	Stage   string    `json:"stage" doc:"stage of life"`
	Sex     *string   `json:"sex" doc:"null: either" enum:"male|female"`
	Flight  string    `json:"flight" doc:"name of the flight"`
	Month   int       `json:"month" doc:"1 to 12" range:"1 12"`
	Written string    `json:"written" doc:"as the account gives them"`
	From    *clock    `json:"from" doc:"local time on the 15th of the month, to the minute; null where the sun gives none"`
	To      *clock    `json:"to" doc:"local time, may lie past midnight"`
	WhyNot  *string   `json:"why_not" doc:"in words, why there is no clock time"`
	Basis   []support `json:"basis" doc:"what they rest on"`
}

type alike struct {
	Fly       string      `json:"fly" doc:"address of the other fly"`
	Name      string      `json:"name" doc:"its name"`
	Named     bool        `json:"named" doc:"one of the two accounts warns of it"`
	Meet      bool        `json:"meet" doc:"they are on the wing together"`
	Apart     int         `json:"days_apart" doc:"days between their nearest flights; 0 where they overlap"`
	Separates []separator `json:"separates" doc:"what separates the two, easiest to see first"`
	Helps     []separator `json:"helps" doc:"what helps without deciding"`
	Verdict   string      `json:"verdict" doc:"how the two can be told apart" enum:"in the hand|in the hand in most forms|in some forms|size and colour help|not in the hand|not enough known|another kind of fly"`
	Forms     []form      `json:"forms" doc:"the forms told apart, where not all are"`
}

type separator struct {
	Character string   `json:"character" doc:"the feature; length and shade beside the vocabulary's"`
	Part      *string  `json:"part" doc:"of a shade, the part of the fly"`
	Needs     string   `json:"needs" doc:"what it takes to see it" enum:"naked eye|hand lens|microscope"`
	Forms     []form   `json:"forms" doc:"in which it separates"`
	Flight    *string  `json:"flight" doc:"of a length that separates in one flight alone"`
	Memory    bool     `json:"from_memory" doc:"it rests on memory alone on either side"`
	This      featured `json:"this" doc:"this fly"`
	Other     featured `json:"other" doc:"the other"`
}

type featured struct {
	States []string `json:"states" doc:"states of the feature, or the words of a shade; empty for a length"`
	Low    *number  `json:"low" doc:"shortest, millimetres" range:"0"`
	High   *number  `json:"high" doc:"longest, millimetres" range:"0"`
}

func flyOf(book *figures.Book, r *figures.Row) fly {
	f := fly{Name: r.Fly.Name.S, Scientific: text(r.Fly.Scientific.Name.S), Group: string(r.Fly.Group), Listed: r.Listed,
		Class: text(string(r.Class)), Looked: r.Looked, Found: r.FoundOn, Years: list(r.Years), ThisYear: dates(r.ThisYear),
		Largest: maybeDay(r.Largest), Days: curve(r.Chance), Account: curve(r.Account), Unassigned: []size{}}
	for i, m := range r.Months {
		f.Months = append(f.Months, monthOf(i+1, m))
	}
	for i, c := range r.Cells {
		f.Cells = append(f.Cells, cell{calendar.Cell(i).String(), string(c.State), c.Looked, c.Found, list(c.Years)})
	}
	f.Runs = each(r.Runs, func(x figures.Run) run {
		state := string(x.State)
		if x.State == figures.Off {
			state = "off"
		}
		return run{dayOf(x.From), dayOf(x.To), state, text(string(x.Tendency))}
	})
	f.Flights = each(r.Flights, func(x figures.FlightHere) flight { return flightOf(x, r.Sizes) })
	for _, s := range r.Sizes {
		if !inFlights(r.Flights, s.Flight) {
			f.Unassigned = append(f.Unassigned, sizeOf(s))
		}
	}
	f.Short = each(r.ShortFlights, func(s figures.ShortFlight) short {
		return short{s.Flight, s.Days, dayOf(s.Between), dayOf(s.And), number(s.Share)}
	})
	f.Hours = each(r.Hours, func(h figures.HoursHere) hours {
		return hours{string(h.Stage), text(string(h.Sex)), h.Flight, h.Month, h.Written, maybeClock(h.Start), maybeClock(h.End), text(h.SunWord), basisOf(h.Basis)}
	})
	f.Dressings = each(r.Dressings, func(s figures.StageDressings) advice { return adviceOf(book, s) })
	f.Alike, f.MoreAlike = each(r.Alike, alikeOf), r.MoreAlike
	return f
}

func monthOf(n int, m figures.MonthHere) month {
	return month{Month: n, State: string(m.State), Chance: number(m.Chance), Low: number(m.Low), High: number(m.High),
		Looked: m.Looked, Found: m.Found, Years: list(m.Years), Thin: m.Thin, Unreviewed: m.Unreviewed, Held: m.Held,
		Shares:  shares{number(m.Own), number(m.Lent), number(m.Rest), m.Assumed},
		Lenders: each(m.Lenders, func(l figures.Lender) lends { return lends{text(l.Water.Address), l.Visits, l.Years} })}
}

func inFlights(l []figures.FlightHere, name string) bool {
	for _, f := range l {
		if f.Name == name {
			return true
		}
	}
	return false
}

var verdicts = map[key.Verdict]string{key.InTheHand: "in the hand", key.InTheHandBut: "in the hand in most forms", key.SomeForms: "in some forms",
	key.OnlyHelp: "size and colour help", key.NotInTheHand: "not in the hand", key.NotEnough: "not enough known", key.AnotherKind: "another kind of fly"}

func alikeOf(a figures.Alike) alike {
	separators := func(l []key.Separator) []separator {
		return each(l, func(s key.Separator) separator {
			return separator{s.Character, text(s.Part), s.Needs.String(), each(s.Forms, formOf), text(s.Flight), s.Memory, featuredOf(s.A), featuredOf(s.B)}
		})
	}
	return alike{a.ID, a.Name, a.Named, a.Meet, a.Apart, separators(a.Separates), separators(a.Helps), verdicts[a.Verdict], each(a.Covered, formOf)}
}

func featuredOf(v key.Side) featured {
	f := featured{States: list(v.States)}
	if v.Colour.Words != "" {
		f.States = append(f.States, v.Colour.Words)
	}
	if v.Length.High > 0 {
		f.Low, f.High = known(v.Length.Low, true), known(v.Length.High, true)
	}
	return f
}
