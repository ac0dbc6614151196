package page

// One fly on one water, ready to print: flights, months, hours, sizes, and what of it both the
// water's and the fly's page show.

import (
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
	"guidegen/species/hook"
)

// FlightView is one flight on one water.
type FlightView struct {
	Name     string
	From, To Date
	Peak     Date
	AllYear  bool
	Moved    string // "9 days later than the account describes"
	Why      string // the rule, or why it was not moved
	Class    string
	Share    content.Figure
	Basis    Basis
	Records  RecordDates
	Short    *ShortView
}

// RecordDates is what records say of a flight.
type RecordDates struct {
	P10, P50, P90 Date
	Protocol      string
	Visits        content.Figure
	Years         string
	First, Last   Date
	Finds         []Date
	Any, Thin     bool
	Why           string         // why there is no middle date, where finds are torn apart
	GiveOrTake    content.Figure // days, beside P50
	Basis         Basis
}

// ShortView is a short flight in words: about so many days, some time between two dates.
type ShortView struct {
	Days, Share  content.Figure
	Between, And Date
}

func (p *Printer) flights(at string, r *figures.Row) []FlightView {
	var out []FlightView
	for _, f := range r.Flights {
		v := FlightView{
			Name: f.Name, From: p.words.day(f.From), To: p.words.day(f.To), Peak: p.words.day(f.Peak),
			AllYear: f.Rule == "all year" || calendar.Fwd(f.From, f.To) >= 364,
			Class:   p.words.Or("class", string(f.Class)), Basis: p.basis(at, f.Basis),
			Share: percent(f.Share, content.On(content.Part{Ground: content.Assumed})),
		}
		v.Moved, v.Why = p.moved(f)
		v.Records = p.recordDates(at, r, f.Dates)
		for _, s := range r.ShortFlights {
			if s.Flight == f.Name {
				v.Short = &ShortView{count(s.Days, s.Basis), percent(s.Share, s.Basis), p.words.day(s.Between), p.words.day(s.And)}
			}
		}
		out = append(out, v)
	}
	return out
}

// moved says how far a flight was moved and by which rule.
func (p *Printer) moved(f figures.FlightHere) (moved, why string) {
	w := p.words
	switch {
	case f.Own:
		return w.Plain("shift.own"), ""
	case f.Shift > 0:
		moved = w.Plain("shift.later", "n", strconv.Itoa(f.Shift))
	case f.Shift < 0:
		moved = w.Plain("shift.earlier", "n", strconv.Itoa(-f.Shift))
	default:
		moved = w.Plain("shift.not")
	}
	switch {
	case f.WhyNot != "":
		why = w.Or("whynot", f.WhyNot)
	case f.Rule != "":
		why = w.Or("rule", string(f.Rule))
		if f.Default {
			why = w.Plain("shift.by_default", "rule", why)
		}
	}
	if f.HasWarmer && f.Rule == "warmth" {
		warmer := content.Round9(f.Warmer)
		word := "shift.warmer"
		if warmer < 0 {
			word, warmer = "shift.colder", -warmer
		}
		why += p.words.Plain("list.semicolon") + w.Plain(word, "by", w.Amount(p.step(warmer, f.Basis)))
	}
	if f.Limited {
		why += p.words.Plain("list.semicolon") + w.Plain("shift.limited")
	}
	return moved, why
}

func (p *Printer) recordDates(at string, r *figures.Row, d figures.FlightDates) RecordDates {
	v := RecordDates{
		P10: p.words.day(d.P10), P50: p.words.day(d.P50), P90: p.words.day(d.P90), Thin: d.Thin,
		Protocol: p.words.Or("protocol", d.Protocol), Years: p.words.seasons(d.Seasons),
		First: p.words.date(d.First), Last: p.words.date(d.Last), Any: d.Visits > 0 || len(d.Finds) > 0 || !d.First.IsZero(),
	}
	b := ownVisits(r.Water.Name.S, d.Visits, len(d.Seasons))
	v.Visits, v.Basis = count(d.Visits, b), p.basis(at, b)
	switch {
	case d.Two:
		v.Why = p.words.Plain("flight.two")
	case d.Torn > 0:
		v.Why = p.words.Plain("flight.torn", "n", strconv.Itoa(d.Torn))
	}
	v.GiveOrTake = content.Count(d.GiveOrTake, "days", b)
	if d.P50 == 0 {
		for _, f := range d.Finds {
			v.Finds = append(v.Finds, p.words.date(f))
		}
		v.Finds = slices.Compact(v.Finds) // two visits on one day
	}
	return v
}

// MonthView is one month of one fly on one water, as a row of a table.
type MonthView struct {
	Month          string
	State          string // visited, thin, unlooked, not-expected
	Word           string
	Chance         content.Figure
	Range          Range
	Looked, Found  content.Figure
	Years          string
	Own, Lent, Acc content.Figure
	Lenders        []string
	Assumed, Near  bool
	Unreviewed     content.Figure
	Held           content.Figure // finds kept out of the chance until somebody has reviewed them
}

func (p *Printer) months(r *figures.Row) []MonthView {
	out := make([]MonthView, 12)
	for i := range r.Months {
		out[i] = p.monthView(r, i)
	}
	return out
}

func (p *Printer) monthView(r *figures.Row, i int) MonthView {
	m := &r.Months[i]
	v := MonthView{Month: p.words.month(i + 1), State: "visited", Years: p.words.years(m.Years), Assumed: m.Assumed}
	own := ownVisits(r.Water.Name.S, m.Looked, len(m.Years))
	switch {
	case m.State == figures.NotExpected:
		v.State = "not-expected"
	case m.State == figures.Unlooked:
		v.State, v.Near = "unlooked", m.Own > 0
	case m.Thin:
		v.State = "thin"
	}
	v.Word = p.words.Plain("month_state." + v.State)
	if m.Looked > 0 {
		v.Looked, v.Found = count(m.Looked, own), count(m.Found, own)
	}
	if m.Unreviewed > 0 {
		v.Unreviewed = count(m.Unreviewed, own)
	}
	if m.Held > 0 {
		v.Held = count(m.Held, own)
	}
	if v.State == "not-expected" {
		return v
	}
	v.Chance = percent(m.Chance, m.Basis)
	if m.High > 0 {
		v.Range = Range{percent(m.Low, m.Basis), percent(m.High, m.Basis)}
	}
	for _, s := range []struct {
		share float64
		to    *content.Figure
	}{{m.Own, &v.Own}, {m.Lent, &v.Lent}, {m.Rest, &v.Acc}} {
		if content.Round9(s.share*100) >= 0.5 {
			*s.to = percent(float64(int(s.share*1000+0.5))/1000, m.Basis) // a share of a basis says no more than that
		}
	}
	for _, l := range m.Lenders {
		v.Lenders = append(v.Lenders, p.lender(l))
	}
	return v
}

// lender names a water that lent visits; one that is withheld has no name.
func (p *Printer) lender(l figures.Lender) string {
	water := p.words.Plain("lender.withheld")
	if l.Water != nil && l.Water.Name.S != "" {
		water = l.Water.Name.S
	}
	return p.words.Plain("lender.text", "water", water, "visits", p.words.Plain("count.visits", "n", strconv.Itoa(l.Visits)))
}

// restsOn says what a month's chance is based on, in shares.
func (p *Printer) restsOn(v MonthView) string {
	var parts []string
	add := func(word string, share content.Figure) {
		if share.Known() {
			parts = append(parts, p.words.Plain(word, "share", share))
		}
	}
	if v.Near {
		add("months.own_near", v.Own)
	} else {
		add("months.own", v.Own)
	}
	add("months.lent", v.Lent)
	if n := len(parts); v.Lent.Known() && len(v.Lenders) > 0 {
		parts[n-1] = p.words.Plain("months.lent_by", "lent", parts[n-1], "waters", p.words.List(v.Lenders))
	}
	if v.Assumed {
		add("months.assumed", v.Acc)
	} else {
		add("months.account", v.Acc)
	}
	if len(parts) == 0 {
		return ""
	}
	return p.words.Plain("months.rests", "parts", strings.Join(parts, p.words.Plain("list.comma")))
}

// words keeps what isn't empty.
func words(s ...string) []string {
	var out []string
	for _, x := range s {
		if x != "" {
			out = append(out, x)
		}
	}
	return out
}

// foundOn is the plain count in words.
func (p *Printer) foundOn(found, looked int, years []int) string {
	if looked == 0 {
		return p.words.Plain("state.unlooked")
	}
	visits := p.words.Plain("count.visits", "n", strconv.Itoa(looked))
	if len(years) == 0 {
		return p.words.Plain("found_on.bare", "found", strconv.Itoa(found), "visits", visits)
	}
	return p.words.Plain("found_on.years", "found", strconv.Itoa(found), "visits", visits,
		"years", p.words.Plain("count.years", "n", strconv.Itoa(len(years))))
}

// caseOf names a stage, sex and flight: "female spinner, autumn".
func (p *Printer) caseOf(stage species.Stage, sex species.Sex, flight string) string {
	return p.words.Case(stage, sex, flight)
}

// Case is a stage, sex and flight in words.
func (w *Words) Case(stage species.Stage, sex species.Sex, flight string) string {
	s := w.Or("stage", string(stage))
	switch {
	case sex != "" && s != "":
		s = w.Plain("stage_of", "sex", w.Or("sex", string(sex)), "stage", s)
	case sex != "":
		s = w.Or("sex", string(sex))
	case s == "":
		s = w.Plain("stage.any")
	}
	if flight != "" {
		s = w.Plain("in_flight", "what", s, "flight", flight)
	}
	return s
}

// SizeView is the lengths of one stage × sex × flight.
type SizeView struct {
	Case      string
	Median, N content.Figure
	Range     Range
	Basis     Basis
	Account   Range
	AccBasis  Basis
	Others    []ClaimView // what others say of the length
	What      string
	SetAside  content.Figure
	From      string
	Elsewhere bool // the hooks go by another length than is shown first
	Hooks     []HookView
	Book      []ClaimView
	Disagree  bool // the first book's size is not the hook of every model
}

// ClaimView is a statement in words with what it rests on.
type ClaimView struct {
	Text  string
	Basis Basis
}

// HookView is the suggestion in one model.
type HookView struct {
	Model, Size string
	Shank       content.Figure
	Outside     bool
	Steps       string // the book's size from this one
	Differs     string // the same in short, where it differs
}

func (p *Printer) sizes(at string, list []figures.Size) []SizeView {
	var out []SizeView
	for _, s := range list {
		v := SizeView{Case: p.caseOf(s.Stage, s.Sex, s.Flight), What: p.words.Or("measured", s.What), Basis: p.basis(at, s.Basis)}
		if s.N > 0 {
			v.N = count(s.N, ground(s.Basis))
			v.Median = p.length(s.Median, s.Digits, s.Basis)
			if s.N > 1 {
				v.Range = p.lengths(s.Low, s.High, s.Digits, s.Basis)
			}
		}
		for i, c := range s.Account {
			if i == 0 {
				v.Account, v.AccBasis = p.claimed(c.Value, c.Basis), p.basis(at, c.Basis)
			} else {
				v.Others = append(v.Others, ClaimView{p.rangeText(p.claimed(c.Value, c.Basis)), p.basis(at, c.Basis)})
			}
		}
		for _, c := range s.Book {
			v.Book = append(v.Book, ClaimView{c.Value.String(), p.basis(at, c.Basis)})
		}
		if s.SetAside > 0 {
			v.SetAside = count(s.SetAside, ground(s.Basis))
		}
		v.From = p.hookGround(s.Hook)
		shown := figures.FromAccount
		if s.N > 0 {
			shown = figures.FromWater
		}
		v.Elsewhere = s.Hook.From != shown
		for _, h := range s.Hook.Hooks {
			v.Hooks = append(v.Hooks, p.hook(h, s.Hook.Basis))
			v.Disagree = v.Disagree || h.HasBook && h.Steps != 0
		}
		out = append(out, v)
	}
	return out
}

// claimed is a length as stated, rounded as it was written.
func (p *Printer) claimed(r species.Length, b content.Basis) Range {
	if r.Low == 0 && r.High == 0 {
		return Range{}
	}
	return p.lengths(float64(r.Low), float64(r.High), accountDigits(float64(r.Low), float64(r.High)), b)
}

// hookGround says which length a hook rests on, and how the body was had from it.
func (p *Printer) hookGround(g figures.HookGround) string {
	from := p.lengthFrom(g)
	if g.Share > 0 {
		return p.words.Plain("size_from.share", "from", from, "body", p.words.Amount(p.length(g.Length, 1, g.Basis)),
			"share", content.Decimal(g.Share, 2), "overall", p.words.Amount(p.length(g.Overall, 1, g.Basis)))
	}
	return from
}

func (p *Printer) lengthFrom(g figures.HookGround) string {
	switch g.From {
	case figures.FromWater:
		return p.words.Plain("size_from.water", "n", strconv.Itoa(g.N))
	case figures.FromAll:
		if len(g.Waters) == 1 {
			return p.words.Plain("size_from.other", "n", strconv.Itoa(g.N), "waters", g.Waters[0])
		}
		return p.words.Plain("size_from.all", "n", strconv.Itoa(g.N), "waters", p.words.List(g.Waters))
	case figures.FromAccount:
		return p.words.Plain("size_from.account")
	}
	return ""
}

// accountDigits are the decimals that lengths were written with, two at most.
func accountDigits(lengths ...float64) int {
	for d := range 2 {
		same := true
		for _, v := range lengths {
			back, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'f', d, 64), 64)
			same = same && content.Round9(back-v) == 0
		}
		if same {
			return d
		}
	}
	return 2
}

func (p *Printer) hook(h figures.HookFor, b content.Basis) HookView {
	v := HookView{Model: h.Model, Size: h.Size.String(), Outside: h.Beyond != hook.Within}
	switch h.Beyond {
	case hook.SmallerThanTable:
		v.Size = p.words.Plain("outside.smaller")
	case hook.LargerThanTable:
		v.Size = p.words.Plain("outside.larger")
	}
	if h.Shank > 0 {
		v.Shank = p.length(float64(h.Shank), 1, b)
	}
	if h.HasBook {
		v.Steps = p.words.Plain("book.is", "steps", p.steps(h.Steps))
		if h.Steps != 0 {
			v.Differs = p.words.Plain("book.than", "steps", p.steps(h.Steps), "model", h.Model)
		}
	}
	return v
}

// clock prints a stretch of hours by the clock.
func (p *Printer) clock(s figures.Stretch) string {
	switch {
	case s.SunWord != "":
		return p.words.Or("sun", s.SunWord)
	case s.From == calendar.NoClock || s.To == calendar.NoClock:
		return ""
	}
	return p.words.Plain("hours", "from", s.From.String(), "to", s.To.String())
}

// Span says hours as an account states them: "2 hours before sunset to half an hour after".
func (w *Words) Span(s calendar.Span) string {
	to := w.moment(s.To, s.From.Sun == s.To.Sun)
	return w.Plain("hours_span", "from", w.moment(s.From, false), "to", to)
}

// moment is a clock time, an event of the sun or a time before or after it; an event just named
// isn't named again.
func (w *Words) moment(m calendar.Moment, named bool) string {
	if m.Sun == calendar.NoSun {
		return calendar.Clock(m.Minutes).String()
	}
	event := w.Or("sun_event", m.Sun.String())
	if m.Minutes == 0 {
		return event
	}
	word := "moment.before"
	if m.Minutes > 0 {
		word = "moment.after"
	}
	if named {
		word += "_it"
	}
	return w.Plain(word, "time", w.duration(max(m.Minutes, -m.Minutes)), "event", event)
}

// ShortSpan says the same as shortly as a table wants it: "sunset −2 h to +30 min", "11:00–15:30".
func (w *Words) ShortSpan(s calendar.Span) string {
	short := func(m calendar.Moment, named bool) string {
		if m.Sun == calendar.NoSun {
			return calendar.Clock(m.Minutes).String()
		}
		var parts []string
		if !named || m.Minutes == 0 {
			parts = append(parts, w.Or("sun_event", m.Sun.String()))
		}
		if n := max(m.Minutes, -m.Minutes); n > 0 {
			sign := "+"
			if m.Minutes < 0 {
				sign = "−"
			}
			if n >= 60 {
				parts = append(parts, sign+w.Plain("moment.short_hours", "n", strconv.Itoa(n/60)))
				sign = ""
			}
			if n%60 > 0 {
				parts = append(parts, sign+w.Plain("moment.short_minutes", "n", strconv.Itoa(n%60)))
			}
		}
		return strings.Join(parts, " ")
	}
	if s.From.Sun == calendar.NoSun && s.To.Sun == calendar.NoSun {
		return w.Plain("range", "low", short(s.From, false), "high", short(s.To, false))
	}
	return w.Plain("hours_span", "from", short(s.From, false), "to", short(s.To, s.From.Sun == s.To.Sun))
}

func (w *Words) duration(minutes int) string {
	hours := strconv.Itoa(minutes / 60)
	switch {
	case minutes == 30:
		return w.Plain("moment.half")
	case minutes%60 == 0:
		return w.Plain("moment.hours", "n", hours)
	case minutes%60 == 30:
		return w.Plain("moment.hours", "n", hours+"½")
	case minutes < 60:
		return w.Plain("moment.minutes", "n", strconv.Itoa(minutes))
	}
	return w.Plain("list.and", "first", w.Plain("moment.hours", "n", hours), "last", w.Plain("moment.minutes", "n", strconv.Itoa(minutes%60)))
}
