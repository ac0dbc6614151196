package share

// One fly on one water, as a river's file holds it.

import (
	"cmp"
	"reflect"
	"slices"

	"guidegen/build/figures"
	"guidegen/content/calendar"
	"guidegen/species/key"
)

type fly struct {
	Name       string   `json:"name" doc:"the fly's name"`
	Scientific *string  `json:"scientific,omitempty" doc:"scientific name"`
	Group      string   `json:"group" doc:"the angler's division"`
	Listed     bool     `json:"listed,omitempty" doc:"in the water's list; false: found there but not listed"`
	Class      *string  `json:"class,omitempty" doc:"abundance class that holds here" enum:"dominant|abundant|frequent|occasional|rare"`
	Looked     int      `json:"looked" doc:"dated visits that looked for it"`
	Found      int      `json:"found" doc:"of them, found"`
	Years      []int    `json:"years,omitempty" doc:"years of these visits"`
	ThisYear   []date   `json:"found_this_year,omitempty" doc:"finds of the year built for"`
	Largest    *day     `json:"largest_day,omitempty" doc:"day of the largest chance; left out where there is none outside the time between flights"`
	Months     []month  `json:"months" doc:"chance and counts, January first" items:"12"`
	Cells      []cell   `json:"cells" doc:"the year's half-months that somebody looked in, or with a find; in all others nobody looked"`
	Days       curve    `json:"days" doc:"chance that a standard visit finds it, 1 January first" range:"0 1" items:"365"`
	Account    coarse   `json:"account" doc:"what the account alone says, moved to the water and softened; for a fly not listed the chance assumed in its place; to 1e-4" range:"0 1" items:"365"`
	Runs       []run    `json:"runs,omitempty" doc:"what is on around a date, as stretches of days that fill the year"`
	Flights    []flight `json:"flights,omitempty" doc:"the account's flights here; left out for a fly not listed"`
	Unassigned []size   `json:"sizes_outside_flights,omitempty" doc:"measured on days that lie in no flight listed above"`
	Short      []short  `json:"short_flights,omitempty" doc:"short flights that also stand in words"`
	Hours      []hours  `json:"hours,omitempty" doc:"hours on the water by stage, months with the same hours together"`
	Dressings  []advice `json:"dressings,omitempty" doc:"what to tie on for each stage, sex and flight"`
	Alike      []alike  `json:"lookalikes,omitempty" doc:"flies of this water that could be taken for it, most similar first, up to the guide's limit, and those that its account names"`
	MoreAlike  int      `json:"more_lookalikes,omitempty" doc:"further ones, less similar, which are not listed; left out for none"`
}

type month struct {
	Month      int       `json:"month" doc:"1 to 12" range:"1 12"`
	State      string    `json:"state" doc:"visited; unlooked: nobody looked; not expected: nobody looked and the account expects too little for pages to print a number" enum:"visited|unlooked|not expected"`
	Chance     millionth `json:"chance" doc:"mean of the days' chances" range:"0 1"`
	Low        millionth `json:"low" doc:"lower end of the 80 % range" range:"0 1"`
	High       millionth `json:"high" doc:"upper end of the 80 % range" range:"0 1"`
	Looked     int       `json:"looked" doc:"visits that looked for it"`
	Found      int       `json:"found" doc:"of them, found"`
	Years      []int     `json:"years,omitempty" doc:"years of these visits"`
	Shares     shares    `json:"basis" doc:"shares of what the chance rests on; they sum to 1"`
	Lenders    []lends   `json:"lenders,omitempty" doc:"waters whose visits reach the month, the five with most"`
	More       int       `json:"more_lenders,omitempty" doc:"further waters that lend; left out for none"`
	Thin       bool      `json:"thin,omitempty" doc:"thin evidence: few own visits, or all in one year"`
	Unreviewed int       `json:"unreviewed,omitempty" doc:"of found, resting on unreviewed records alone; left out for none"`
	Held       int       `json:"held,omitempty" doc:"of found, kept out of the chance until reviewed; left out for none"`
}

type shares struct {
	Own     millionth `json:"own" doc:"this water's visits" range:"0 1"`
	Lent    millionth `json:"lent" doc:"other waters' visits" range:"0 1"`
	Account millionth `json:"account" doc:"the account" range:"0 1"`
	Assumed bool      `json:"assumed,omitempty" doc:"the account's share is a flat assumption, since the fly isn't in the water's list"`
}

type lends struct {
	Water  *string `json:"water,omitempty" doc:"address of the water; left out for one that this edition doesn't name"`
	Visits int     `json:"visits" doc:"visits lent"`
	Years  int     `json:"years" doc:"years of these"`
}

type cell struct {
	Cell   string `json:"cell" doc:"half-month: a from the 1st, b from the 16th" pattern:"^(0[1-9]|1[0-2])[ab]$"`
	State  string `json:"state" doc:"found; looked: looked for and not found" enum:"found|looked"`
	Looked int    `json:"looked" doc:"visits that looked for it; a find outside its visit's scope marks the cell and is no visit"`
	Found  int    `json:"found" doc:"of them, found"`
	Years  []int  `json:"years,omitempty" doc:"years of these visits"`
}

type run struct {
	From     int     `json:"from" doc:"first day, of the year of 365" range:"1 365"`
	To       int     `json:"to" doc:"last day; no run crosses New Year" range:"1 365"`
	State    string  `json:"state" doc:"what is on" enum:"on|starting|just over|between flights|off"`
	Tendency *string `json:"tendency,omitempty" doc:"only while it is on; between two flights of it that word stands in place of a tendency" enum:"rising|steady|fading|between flights"`
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
	Sex     *string   `json:"sex,omitempty" doc:"left out: either" enum:"male|female"`
	Flight  string    `json:"flight" doc:"name of the flight"`
	Months  []int     `json:"months" doc:"1 to 12, of the hours below" range:"1 12"`
	Written string    `json:"written" doc:"as the account gives them"`
	From    *clock    `json:"from,omitempty" doc:"local time on the 15th of the month, to the minute; left out where the sun gives none"`
	To      *clock    `json:"to,omitempty" doc:"local time, may lie past midnight"`
	WhyNot  *string   `json:"why_not,omitempty" doc:"in words, why there is no clock time"`
	Basis   []support `json:"basis,omitempty" doc:"what they rest on"`
}

type alike struct {
	Fly   string `json:"fly" doc:"address of the other fly; what separates the two is in guide.json"`
	Name  string `json:"name" doc:"its name"`
	Meet  bool   `json:"meet,omitempty" doc:"they are on the wing together"`
	Apart int    `json:"days_apart,omitempty" doc:"days between their nearest flights; left out for none, where they overlap"`
}

// pair is two flies that may be taken for each other, compared once for all waters.
type pair struct {
	Fly       string      `json:"fly" doc:"address of one fly"`
	Other     string      `json:"other" doc:"address of the other"`
	Named     bool        `json:"named,omitempty" doc:"one of the two accounts warns of it"`
	Separates []separator `json:"separates,omitempty" doc:"what separates the two, easiest to see first"`
	Helps     []separator `json:"helps,omitempty" doc:"what helps without deciding"`
	Verdict   string      `json:"verdict" doc:"how the two can be told apart" enum:"in the hand|in the hand in most forms|in some forms|size and colour help|not in the hand|not enough known|another kind of fly"`
	Forms     []form      `json:"forms,omitempty" doc:"the forms told apart, where not all are"`
}

type separator struct {
	Character string   `json:"character" doc:"the feature; length and shade beside the vocabulary's"`
	Part      *string  `json:"part,omitempty" doc:"of a shade, the part of the fly"`
	Needs     string   `json:"needs" doc:"what it takes to see it" enum:"naked eye|hand lens|microscope"`
	Forms     []form   `json:"forms,omitempty" doc:"in which it separates"`
	Flight    *string  `json:"flight,omitempty" doc:"of a length that separates in one flight alone"`
	Memory    bool     `json:"from_memory,omitempty" doc:"it rests on memory alone on either side"`
	This      featured `json:"this" doc:"the one fly"`
	Other     featured `json:"other" doc:"the other"`
}

type featured struct {
	States []string `json:"states,omitempty" doc:"states of the feature, or the words of a shade; left out for a length"`
	Low    *number  `json:"low,omitempty" doc:"shortest, millimetres" range:"0"`
	High   *number  `json:"high,omitempty" doc:"longest, millimetres" range:"0"`
}

func flyOf(book *figures.Book, r *figures.Row) fly {
	f := fly{Name: r.Fly.Name.S, Scientific: text(r.Fly.Scientific.Name.S), Group: string(r.Fly.Group), Listed: r.Listed,
		Class: text(string(r.Class)), Looked: r.Looked, Found: r.FoundOn, Years: list(r.Years), ThisYear: dates(r.ThisYear),
		Largest: maybeDay(r.Largest), Days: curve(r.Chance), Account: coarse(r.Account), Cells: []cell{}}
	for i, m := range r.Months {
		f.Months = append(f.Months, monthOf(i+1, m))
	}
	for i, c := range r.Cells {
		if c.State != figures.CellUnlooked {
			f.Cells = append(f.Cells, cell{calendar.Cell(i).String(), string(c.State), c.Looked, c.Found, c.Years})
		}
	}
	f.Runs = each(r.Runs, func(x figures.Run) run {
		state := string(x.State)
		if x.State == figures.Off {
			state = "off"
		}
		return run{int(x.From), int(x.To), state, text(string(x.Tendency))}
	})
	sizes := ownSizes(r)
	f.Flights = each(r.Flights, func(x figures.FlightHere) flight { return flightOf(x, sizes) })
	for _, s := range sizes {
		if !inFlights(r.Flights, or(s.Flight, "")) {
			f.Unassigned = append(f.Unassigned, s)
		}
	}
	f.Short = each(r.ShortFlights, func(s figures.ShortFlight) short {
		return short{s.Flight, s.Days, dayOf(s.Between), dayOf(s.And), number(s.Share)}
	})
	f.Hours = hoursOf(r.Hours)
	f.Dressings = each(r.Dressings, func(s figures.StageDressings) advice { return adviceOf(book, s) })
	f.Alike, f.MoreAlike = each(r.Alike, alikeOf), r.MoreAlike
	return f
}

// ownSizes leaves out what the fly's own sizes in guide.json say already: stages of which this water has no lengths.
func ownSizes(r *figures.Row) []size {
	var out []size
	for _, s := range r.Sizes {
		x := sizeOf(s)
		i := slices.IndexFunc(r.Fly.Sizes, func(o figures.Size) bool { return o.Stage == s.Stage && o.Sex == s.Sex && o.Flight == s.Flight })
		if i >= 0 && x.N == 0 && x.SetAside == 0 && !x.Torn && reflect.DeepEqual(x.Hook, hookOf(r.Fly.Sizes[i].Hook)) {
			continue
		}
		if i >= 0 {
			x.Account, x.Book = nil, nil
		}
		out = append(out, x)
	}
	return out
}

// hoursOf puts months with the same hours together.
func hoursOf(l []figures.HoursHere) []hours {
	var out []hours
	for _, h := range l {
		x := hours{string(h.Stage), text(string(h.Sex)), h.Flight, nil, h.Written, maybeClock(h.Start), maybeClock(h.End), text(h.SunWord), basisOf(h.Basis)}
		i := slices.IndexFunc(out, func(o hours) bool { o.Months = nil; return reflect.DeepEqual(o, x) })
		if i < 0 {
			i, out = len(out), append(out, x)
		}
		out[i].Months = append(out[i].Months, h.Month)
	}
	return out
}

// mostLenders keeps a month's list from growing with the guide's waters.
const mostLenders = 5

func monthOf(n int, m figures.MonthHere) month {
	lenders := slices.SortedStableFunc(slices.Values(m.Lenders), func(a, b figures.Lender) int { return cmp.Compare(b.Visits, a.Visits) })
	lenders = lenders[:min(len(lenders), mostLenders)]
	return month{Month: n, More: len(m.Lenders) - len(lenders), State: string(m.State), Chance: millionths(m.Chance), Low: millionths(m.Low), High: millionths(m.High),
		Looked: m.Looked, Found: m.Found, Years: m.Years, Thin: m.Thin, Unreviewed: m.Unreviewed, Held: m.Held,
		Shares:  shares{millionths(m.Own), millionths(m.Lent), millionths(m.Rest), m.Assumed},
		Lenders: each(lenders, func(l figures.Lender) lends { return lends{text(l.Water.Address), l.Visits, l.Years} })}
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

func alikeOf(a figures.Alike) alike { return alike{a.ID, a.Name, a.Meet, a.Apart} }

// pairsOf compares each two flies that some water lists as look-alikes once.
func pairsOf(book *figures.Book) []pair {
	separators := func(l []key.Separator) []separator {
		return each(l, func(s key.Separator) separator {
			return separator{s.Character, text(s.Part), s.Needs.String(), each(s.Forms, formOf), text(s.Flight), s.Memory, featuredOf(s.A), featuredOf(s.B)}
		})
	}
	have, out := map[[2]string]bool{}, []pair{}
	for _, f := range book.Flies {
		lists := [][]figures.Alike{f.Alike}
		for _, r := range f.Rows {
			lists = append(lists, r.Alike)
		}
		for _, a := range slices.Concat(lists...) {
			if have[[2]string{f.Address, a.ID}] || have[[2]string{a.ID, f.Address}] {
				continue
			}
			have[[2]string{f.Address, a.ID}] = true
			out = append(out, pair{f.Address, a.ID, a.Named, separators(a.Separates), separators(a.Helps), verdicts[a.Verdict], each(a.Covered, formOf)})
		}
	}
	return out
}

func featuredOf(v key.Side) featured {
	f := featured{States: slices.Clone(v.States)}
	if v.Colour.Words != "" {
		f.States = append(f.States, v.Colour.Words)
	}
	if v.Length.High > 0 {
		f.Low, f.High = known(v.Length.Low, true), known(v.Length.High, true)
	}
	return f
}
