package figures

// A fly on a water: flights moved there, chance day by day, months, cells and
// what is on around each day (the guide's rules on figures, sections 3 to 7).

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers"
	"guidegen/rivers/season"
	"guidegen/species"
)

func monthOf(i int) time.Month { return time.Month(i + 1) }

// stand is one fly's place in one water's list, while it is being reckoned.
type stand struct {
	water    *Water
	fly      *Fly
	listing  *rivers.Listing // nil where the water doesn't list the fly
	across   bool            // the water lies across the equator: nothing is lent to or from it
	shown    bool            // has a row in this edition; else it only lends
	moved    []season.Moved
	ev       *evidence
	held     []season.Visit // ev.visits with unreviewed outliers held back
	lent     []season.Lent
	lenders  []lending
	chances  *season.Chances
	p        season.Curve
	dates    []season.FlightDates // by flight
	two      []bool               // by flight: the records show two
	trust    float64              // m of the row; 0 where the fly isn't listed
	measured map[sizeCase]*lengths
}

type lending struct {
	water *Water
	first int // index into lent
	n     int
}

// move carries the account's flights to the water and sets the evidence.
func (r *reckoner) stand(w *Water, f *Fly, l *rivers.Listing, ev *evidence) *stand {
	s := &stand{water: w, fly: f, listing: l, ev: ev}
	c := r.c.Season
	for _, fl := range f.Account.Flights {
		local := season.Local{}
		if l != nil {
			local.Class = classOf(l.Class)
			if own, ok := ownFlight(l, fl.Name, len(f.Account.Flights)); ok {
				local.Dates = season.Dates{From: own.From, Peak: own.Peak, To: own.To}
				if own.Class != species.NoClass {
					local.Class = classOf(own.Class)
				}
			}
		}
		flight := season.Flight{
			Dates: season.Dates{From: fl.From, Peak: fl.Peak, To: fl.To},
			Class: classOf(fl.Class), Moves: season.Rule(fl.Moves),
		}
		if d, ok := fl.DaysPerDegree.First(); ok {
			flight.DaysPerDegree = season.Is(float64(d.Value))
		}
		s.moved = append(s.moved, season.Move(flight, local, w.place, r.reference, c))
	}
	s.across = guide.Across(w.Water, r.reference.South)
	s.held = season.Hold(ev.visits, ev.strays, s.moved, c)
	return s
}

// ownFlight finds a water's own dates for a flight: by its name, or the one
// unnamed set where the account has one flight.
func ownFlight(l *rivers.Listing, name string, flights int) (species.Flight, bool) {
	for _, f := range l.Flights {
		if f.Name == name || f.Name == "" && flights == 1 {
			return f, true
		}
	}
	return species.Flight{}, false
}

// reckon gives the row of a stand; others are the same fly's stands on the
// waters that list it, which lend.
func (r *reckoner) reckon(s *stand, others []*stand) *Row {
	c := r.c.Season
	if s.listing != nil {
		c = c.ForRow(s.moved, r.book.Trust)
		s.trust = c.Trust
		s.p = season.Expected(s.moved, c)
		for _, o := range others {
			if o.water == s.water || o.listing == nil || o.across != s.across {
				continue
			}
			first := len(s.lent)
			s.lent = season.Lend(s.lent, s.moved, o.moved, o.held, c)
			if n := len(s.lent) - first; n > 0 {
				s.lenders = append(s.lenders, lending{o.water, first, n})
			}
		}
	} else {
		s.p = season.Flat(c.Unlisted)
	}
	s.chances = season.Reckon(&s.p, s.held, s.lent, c)

	row := &Row{Water: s.water, Fly: s.fly, Listed: s.listing != nil,
		Account: s.p, Chance: s.chances.Chance, stand: s, Year: s.ev.year}
	for i, c := range row.Chance {
		row.Chance[i] = content.Round9(c) // once, so that all who round it further agree
	}
	row.Far = row.Listed && season.Far(s.moved)
	row.Flights = r.flightsHere(s)
	if s.listing != nil {
		row.Class = s.listing.Class
	}
	if row.Class == species.NoClass {
		for _, f := range row.Flights { // the commonest of its flights stands for the fly
			if row.Class == species.NoClass || f.Class.Rank() < row.Class.Rank() {
				row.Class = f.Class
			}
		}
	}
	for _, v := range s.ev.visits {
		row.Looked++
		if v.Found {
			row.FoundOn++
		}
	}
	row.Never, row.Borrows = !s.ev.found(), len(s.lent) > 0
	row.Years = yearsOf(s.ev.visits)
	r.months(row)
	r.cells(row)
	r.days(row)
	for _, d := range s.ev.adults {
		if d.Year == r.built.Year && !slices.Contains(row.ThisYear, d) {
			row.ThisYear = append(row.ThisYear, d)
		}
	}
	row.Prompts = r.gaps(s)
	return row
}

func yearsOf(visits []season.Visit) []int {
	var y []int
	for _, v := range visits {
		y = append(y, v.Date.Year)
	}
	slices.Sort(y)
	return slices.Compact(y)
}

func (r *reckoner) flightsHere(s *stand) []FlightHere {
	if s.listing == nil {
		return nil
	}
	var out []FlightHere
	for k, m := range s.moved {
		fl := s.fly.Account.Flights[k]
		given := season.Dates{From: fl.From, Peak: fl.Peak, To: fl.To}.Peaked()
		f := FlightHere{
			Name: fl.Name, From: m.From, Peak: m.Peak, To: m.To,
			Account: [3]calendar.Day{given.From, given.Peak, given.To},
			Shift:   m.Shift.Days, Rule: string(m.Shift.Rule), Default: m.Shift.ByDefault, WhyNot: string(m.Shift.Why),
			Limited: m.Shift.Limited, Class: classWord(m.Class), Share: r.c.Season.Share(m.Class),
			Basis: fl.Basis,
		}
		if m.Shift.Rule == season.OwnDates {
			f.Own, f.Rule, f.WhyNot = true, "own dates", ""
			if own, ok := ownFlight(s.listing, fl.Name, len(s.moved)); ok && !own.Basis.IsZero() {
				f.Basis = own.Basis
			}
		}
		if m.Shift.Warmer.OK {
			f.Warmer, f.HasWarmer = m.Shift.Warmer.Value, true
		}
		f.Dates = r.flightDates(s, k)
		out = append(out, f)
	}
	return out
}

func (r *reckoner) flightDates(s *stand, k int) FlightDates {
	d := s.dates[k]
	out := FlightDates{Protocol: d.Protocol, Visits: d.Visits, P10: d.P10, P50: d.P50, P90: d.P90,
		First: d.First, Last: d.Last, Finds: d.Finds}
	// A find outside a visit's scope has no weight, but it is a find: it is listed.
	for _, d := range s.ev.strays {
		if season.Assign(d.OfYear(), s.moved, r.c.Season) == k {
			out.Finds = append(out.Finds, d)
		}
	}
	start := s.moved[k].From.Add(-max(30, int(r.c.Season.AssignWithin)))
	slices.SortStableFunc(out.Finds, func(a, b calendar.Date) int {
		return cmp.Or(calendar.Fwd(start, a.OfYear())-calendar.Fwd(start, b.OfYear()), a.Sub(b))
	})
	if n := len(out.Finds); n > 0 {
		out.First, out.Last = out.Finds[0], out.Finds[n-1]
	}
	for _, y := range d.Seasons {
		out.Seasons = append(out.Seasons, season.SeasonName(y, s.ev.year))
	}
	out.GiveOrTake, out.Torn = d.GiveOrTake, d.TornDays
	out.Thin = d.P50 == 0 || len(out.Seasons) < 2
	if out.Two = s.two[k]; !out.Two {
		for _, m := range season.BySeason(s.ev.visits, s.moved, k, r.c.Season) {
			out.BySeason = append(out.BySeason, SeasonMiddle{season.SeasonName(m.Season, s.ev.year), m.Day, m.GiveOrTake})
		}
	} else {
		out.P10, out.P50, out.P90, out.GiveOrTake = 0, 0, 0, 0
	}
	return out
}

// dated reckons what the records say of each flight's dates, and whether they show two flights in one.
func (r *reckoner) dated(s *stand) {
	for k := range s.moved {
		s.dates = append(s.dates, season.FromRecords(s.ev.visits, s.moved, k, r.c.Season))
		s.two = append(s.two, slices.ContainsFunc(season.Gaps(s.ev.visits, s.moved, k, r.c.Season),
			func(g season.Gap) bool { return g.Says == season.TwoFlights }))
	}
}

// torn reports whether the finds of a flight lie in two runs, so that no length of it may be pooled.
func (s *stand) torn(flight string) bool {
	for k := range s.dates {
		if s.fly.Account.Flights[k].Name == flight && (s.two[k] || s.dates[k].TornDays > 0) {
			return true
		}
	}
	return false
}

// flysYear is the day on which a fly's year begins on a water: one day for the whole guide, but for a water
// across the equator, where the fly's own dates decide.
func (r *reckoner) flysYear(w *Water, f *Fly, l *rivers.Listing) calendar.Day {
	var flights []season.Dates
	for _, fl := range f.Account.Flights {
		d := season.Dates{From: fl.From, Peak: fl.Peak, To: fl.To}
		if guide.Across(w.Water, r.reference.South) && l != nil {
			if own, ok := ownFlight(l, fl.Name, len(f.Account.Flights)); ok {
				d = season.Dates{From: own.From, Peak: own.Peak, To: own.To}
			}
		}
		flights = append(flights, d)
	}
	return season.FlysYear(flights)
}

// months turns the kernel's months into bars, adds visits whose date is as
// coarse as a month, and says what each rests on.
func (r *reckoner) months(row *Row) {
	s := row.stand
	for i := range row.Months {
		m := s.chances.Months[i]
		h := MonthHere{Chance: m.Chance, Low: m.Low, High: m.High, Looked: m.Looked, Found: m.Found,
			Own: m.Own, Lent: m.Lent, Rest: m.Account, Assumed: !row.Listed, State: Visited}
		for j, v := range s.ev.visits {
			if int(v.Date.Month) != i+1 {
				continue
			}
			h.Years = append(h.Years, v.Date.Year)
			if v.Unreviewed {
				h.Unreviewed++
			}
			if s.held[j].Held {
				h.Held++
			}
		}
		for _, v := range s.ev.vague {
			if v.stray || v.when.From.Year != v.when.To.Year || v.when.From.Month != v.when.To.Month || int(v.when.From.Month) != i+1 {
				continue
			}
			h.Looked++
			if v.found {
				h.Found++
			}
			if v.unreviewed {
				h.Unreviewed++
			}
			h.Years = append(h.Years, v.when.From.Year)
		}
		slices.Sort(h.Years)
		h.Years = slices.Compact(h.Years)
		h.Thin = h.Looked < int(r.c.Season.ThinVisits) || len(h.Years) == 1
		if h.Looked == 0 {
			h.State = Unlooked
			if !row.Far && content.Round9(m.Chance) < r.c.Season.NotExpected {
				h.State = NotExpected
			}
		}
		h.Lenders = r.lendersOf(s, i)
		h.Basis = r.monthBasis(row, i, h)
		row.Months[i] = h
	}
}

// lendersOf names the waters whose visits reach the month: moved to within
// two bandwidths of it, beyond which a visit says next to nothing.
func (r *reckoner) lendersOf(s *stand, i int) []Lender {
	first, last := r.reach(i)
	var out []Lender
	for _, l := range s.lenders {
		years := map[int]bool{}
		n := 0
		for _, v := range s.lent[l.first : l.first+l.n] {
			if calendar.Within(v.Day, first, last) {
				n++
				years[v.Year] = true
			}
		}
		if n > 0 {
			out = append(out, Lender{Water: l.water, Visits: n, Years: len(years)})
		}
	}
	return out
}

// reach is a month and the days on both its sides whose visits still tell of it.
func (r *reckoner) reach(i int) (first, last calendar.Day) {
	days := int(2 * r.c.Season.Bandwidth)
	return calendar.FirstOf(monthOf(i)).Add(-days), calendar.LastOf(monthOf(i)).Add(days)
}

// monthBasis is what a month's chance rests on. Where nobody looked in the month
// itself, visits just before or after it may be a part; else the water's own records
// are none, however little they weigh.
func (r *reckoner) monthBasis(row *Row, i int, h MonthHere) content.Basis {
	var parts []content.Part
	visits, years := h.Looked, len(h.Years)
	if visits == 0 {
		first, last := r.reach(i)
		in := map[int]bool{}
		for _, v := range row.stand.ev.visits {
			if calendar.Within(v.Date.OfYear(), first, last) {
				visits++
				in[v.Date.Year] = true
			}
		}
		years = len(in)
	}
	if h.Own > 0 && visits > 0 {
		parts = append(parts, content.Part{Ground: content.OwnRecords, Water: row.Water.Name.S, Visits: visits, Years: years, Share: h.Own})
	}
	for _, l := range h.Lenders {
		parts = append(parts, content.Part{Ground: content.LentRecords, Water: l.Water.Name.S, Visits: l.Visits, Years: l.Years})
	}
	if len(h.Lenders) > 0 {
		parts[len(parts)-len(h.Lenders)].Share = h.Lent
	}
	if h.Assumed {
		parts = append(parts, content.Part{Ground: content.Assumed, Share: h.Rest})
		return content.On(parts...)
	}
	rest := content.Basis{}
	for _, f := range row.Flights {
		rest = rest.With(f.Basis)
	}
	ground := rest.Parts()
	if len(ground) == 0 {
		ground = []content.Part{{Ground: content.Memory}}
	}
	ground[0].Share = h.Rest
	return content.On(append(parts, ground...)...)
}

func (r *reckoner) cells(row *Row) {
	s := row.stand
	cells := season.Cells(s.ev.visits, s.ev.strays)
	for i, c := range cells {
		h := CellHere{State: CellState(c.State), Looked: c.Looked, Found: c.Found}
		for _, v := range s.ev.visits {
			if v.Date.OfYear().Cell() == calendar.Cell(i) {
				h.Years = append(h.Years, v.Date.Year)
			}
		}
		for _, v := range s.ev.vague {
			from, to := v.when.From.OfYear().Cell(), v.when.To.OfYear().Cell()
			if v.when.From.Year != v.when.To.Year || from != to || from != calendar.Cell(i) {
				continue
			}
			if v.stray {
				h.State = CellFound
				continue
			}
			h.Looked++
			h.Years = append(h.Years, v.when.From.Year)
			if v.found {
				h.Found++
				h.State = CellFound
			} else if h.State == CellUnlooked {
				h.State = CellLooked
			}
		}
		slices.Sort(h.Years)
		h.Years = slices.Compact(h.Years)
		row.Cells[i] = h
	}
}

// days reckons what is on around each day, as runs for the device.
func (r *reckoner) days(row *Row) {
	s, c := row.stand, r.c.Season
	moved := s.moved
	if s.listing == nil {
		moved = nil
	}
	var finds []calendar.Day
	for _, v := range s.ev.visits {
		if v.Found {
			finds = append(finds, v.Date.OfYear())
		}
	}
	on, coming := season.Borne(season.OnDays(&s.chances.Chance, c), moved, finds, c)
	row.Coming = coming
	row.due, _ = season.Borne(s.chances.Chance.AtLeast(leastDue), moved, finds, c)
	today := season.Days(on, &s.chances.Chance, moved)
	for i := range today {
		if k := season.FlightOn(calendar.Day(i+1), moved); k >= 0 {
			today[i].Word = season.Agreed(today[i].Word, calendar.Day(i+1), moved[k].Peak, row.Flights[k].Dates.P50)
		}
	}
	from := calendar.Day(1)
	for _, run := range season.Runs(today) {
		to := from + calendar.Day(run.Length) - 1
		out := Run{From: from, To: to, State: onState(run.Today)}
		if out.State == On {
			out.Tendency = Tendency(strings.ReplaceAll(string(run.Word), "-", " "))
		}
		row.Runs = append(row.Runs, out)
		from = to + 1
	}
	for i, t := range today {
		if t.On == season.IsOn {
			row.OnCells[calendar.Day(i+1).Cell()] = true
			row.OnMonths[calendar.Day(i+1).Month()-1] = true
		}
	}
	row.Largest = season.LargestDay(&s.chances.Chance, moved)
	for _, short := range season.ShortFlights(moved, s.chances, c) {
		row.ShortFlights = append(row.ShortFlights, ShortFlight{
			Flight: row.Flights[short.Flight].Name, Days: short.Days, Between: short.Earliest, And: short.Latest,
			Share: short.Share, Basis: row.Flights[short.Flight].Basis,
		})
	}
}

func onState(t season.Today) OnState {
	switch {
	case t.On == season.IsOn:
		return On
	case t.Word == season.Between:
		return BetweenFlights
	}
	switch t.On {
	case season.Starting:
		return Starting
	case season.JustOver:
		return JustOver
	}
	return Off
}

// gaps prompts the editor where finds of one flight fall into two runs.
func (r *reckoner) gaps(s *stand) []Prompt {
	if s.listing == nil {
		return nil
	}
	var out []Prompt
	for k := range s.moved {
		for _, g := range season.Gaps(s.ev.visits, s.moved, k, r.c.Season) {
			flight := s.fly.Account.Flights[k]
			id, grade, want := "gap-thin", content.Note, ""
			switch g.Says {
			case season.GapByChance:
				continue
			case season.TwoFlights:
				id, grade, want = "two-flights", content.Warning, "give the account two flights, each with its own dates"
			case season.GapUnvisited:
				id = "gap-unvisited"
			}
			out = append(out, newPrompt(id, grade, flight.At, want, "fly", s.fly.Name.S, "water", s.water.Name.S, "flight", flight.Name,
				"after", g.After, "before", g.Before, "days", strconv.Itoa(g.Days), "n", strconv.Itoa(g.Empty)))
		}
	}
	return out
}

func dayWords(d calendar.Day) string { return fmt.Sprintf("%d %s", d.DayOfMonth(), d.Month()) }
