package view

// One fly on one water, ready to print: flights, months, hours, sizes, and what of it both the
// water's and the fly's page show.

import (
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
	"guidegen/species/hook"
)

// FlightView is one flight on one water.
type FlightView struct {
	Name     string
	From, To lang.Date
	Peak     lang.Date
	AllYear  bool
	Moved    string // "9 days later than the account describes"
	Days     string // "9 days later"
	Rule     string // by which it was moved, or why it was not
	Why      string // by what that rule moved it
	Class    string
	Share    content.Figure
	Basis    Basis
	Records  RecordDates
	Short    *ShortView
}

// RecordDates is what records say of a flight.
type RecordDates struct {
	P10, P50, P90 lang.Date
	Protocol      string
	Visits        content.Figure
	Years         string
	First, Last   lang.Date
	Finds         []lang.Date
	Any, Thin     bool
	Why           string         // why there is no middle date, where finds are torn apart
	GiveOrTake    content.Figure // days, beside P50
	Basis         Basis
}

// ShortView is a short flight in words: about so many days, some time between two dates.
type ShortView struct {
	Days, Share  content.Figure
	Between, And lang.Date
}

// Flights are a fly's flights on a water, moved, with what records say of them.
func (p *Printer) Flights(at string, r *figures.Row) []FlightView {
	var out []FlightView
	for _, f := range r.Flights {
		v := FlightView{
			Name: f.Name, From: p.words.DayOf(f.From), To: p.words.DayOf(f.To), Peak: p.words.DayOf(f.Peak),
			AllYear: f.Rule == "all year" || calendar.Fwd(f.From, f.To) >= 364,
			Class:   p.words.Or("class", string(f.Class)), Basis: p.Basis(at, f.Basis),
			Share: Percent(f.Share, content.On(content.Part{Ground: content.Assumed})),
		}
		v.Moved, v.Rule, v.Why = p.moved(f)
		switch {
		case f.Own:
		case f.Shift > 0:
			v.Days = p.words.Plain("against.later", "n", strconv.Itoa(f.Shift))
		case f.Shift < 0:
			v.Days = p.words.Plain("against.earlier", "n", strconv.Itoa(-f.Shift))
		}
		v.Records = p.recordDates(at, r, f.Dates)
		for _, s := range r.ShortFlights {
			if s.Flight == f.Name {
				v.Short = &ShortView{Count(s.Days, s.Basis), Percent(s.Share, s.Basis), p.words.DayOf(s.Between), p.words.DayOf(s.And)}
			}
		}
		out = append(out, v)
	}
	return out
}

// moved says how far a flight was moved and by which rule.
func (p *Printer) moved(f figures.FlightHere) (moved, rule, why string) {
	w := p.words
	switch {
	case f.Own:
		return w.Plain("shift.own"), "", ""
	case f.Shift > 0:
		moved = w.Plain("shift.later", "n", strconv.Itoa(f.Shift))
	case f.Shift < 0:
		moved = w.Plain("shift.earlier", "n", strconv.Itoa(-f.Shift))
	default:
		moved = w.Plain("shift.not")
	}
	switch {
	case f.WhyNot != "":
		rule = w.Or("whynot", f.WhyNot)
	case f.Rule != "":
		rule = w.Or("rule", string(f.Rule))
		if f.Default {
			rule = w.Plain("shift.by_default", "rule", rule)
		}
	}
	var by []string
	if f.HasWarmer && f.Rule == "warmth" {
		warmer := content.Round9(f.Warmer)
		word := "shift.warmer"
		if warmer < 0 {
			word, warmer = "shift.colder", -warmer
		}
		by = append(by, w.Plain(word, "by", w.Amount(p.step(warmer, f.Basis))))
	}
	if f.Limited {
		by = append(by, w.Plain("shift.limited"))
	}
	return moved, rule, strings.Join(by, w.Plain("list.semicolon"))
}

func (p *Printer) recordDates(at string, r *figures.Row, d figures.FlightDates) RecordDates {
	v := RecordDates{
		P10: p.words.DayOf(d.P10), P50: p.words.DayOf(d.P50), P90: p.words.DayOf(d.P90), Thin: d.Thin,
		Protocol: p.words.Or("protocol", d.Protocol), Years: p.words.Seasons(d.Seasons),
		First: p.words.DateOf(d.First), Last: p.words.DateOf(d.Last), Any: d.Visits > 0 || len(d.Finds) > 0 || !d.First.IsZero(),
	}
	b := OwnVisits(r.Water.Name.S, d.Visits, len(d.Seasons))
	v.Visits, v.Basis = Count(d.Visits, b), p.Basis(at, b)
	switch {
	case d.Two:
		v.Why = p.words.Plain("flight.two")
	case d.Torn > 0:
		v.Why = p.words.Plain("flight.torn", "n", strconv.Itoa(d.Torn))
	}
	v.GiveOrTake = content.Count(d.GiveOrTake, "days", b)
	if d.P50 == 0 {
		for _, f := range d.Finds {
			v.Finds = append(v.Finds, p.words.DateOf(f))
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
	Range          lang.Range
	Looked, Found  content.Figure
	Years          string
	Own, Lent, Acc content.Figure
	Lenders        []string
	Assumed, Near  bool
	Unreviewed     content.Figure
	Held           content.Figure // finds kept out of the chance until somebody has reviewed them
}

// Months are the twelve months of a fly on a water.
func (p *Printer) Months(r *figures.Row) []MonthView {
	out := make([]MonthView, 12)
	for i := range r.Months {
		out[i] = p.MonthView(r, i)
	}
	return out
}

// MonthView is one month of a fly on a water, 0 to 11.
func (p *Printer) MonthView(r *figures.Row, i int) MonthView {
	m := &r.Months[i]
	v := MonthView{Month: p.words.Month(i + 1), State: "visited", Years: p.words.Years(m.Years), Assumed: m.Assumed}
	own := OwnVisits(r.Water.Name.S, m.Looked, len(m.Years))
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
		v.Looked, v.Found = Count(m.Looked, own), Count(m.Found, own)
	}
	if m.Unreviewed > 0 {
		v.Unreviewed = Count(m.Unreviewed, own)
	}
	if m.Held > 0 {
		v.Held = Count(m.Held, own)
	}
	if v.State == "not-expected" {
		return v
	}
	v.Chance = Percent(m.Chance, m.Basis)
	if m.High > 0 {
		v.Range = lang.Range{Low: Percent(m.Low, m.Basis), High: Percent(m.High, m.Basis)}
	}
	for _, s := range []struct {
		share float64
		to    *content.Figure
	}{{m.Own, &v.Own}, {m.Lent, &v.Lent}, {m.Rest, &v.Acc}} {
		if content.Round9(s.share*100) >= 0.5 {
			*s.to = Percent(float64(int(s.share*1000+0.5))/1000, m.Basis) // a share of a basis says no more than that
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

// RestsOn says what a month's chance is based on, in shares.
func (p *Printer) RestsOn(v MonthView) string {
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

// Kept keeps what isn't empty.
func Kept(s ...string) []string {
	var out []string
	for _, x := range s {
		if x != "" {
			out = append(out, x)
		}
	}
	return out
}

// FoundOn is the plain count in words.
func (p *Printer) FoundOn(found, looked int, years []int) string {
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

// CaseOf names a stage, sex and flight: "female spinner, autumn".
func (p *Printer) CaseOf(stage species.Stage, sex species.Sex, flight string) string {
	return p.words.Case(stage, sex, flight)
}

// ClaimView is a statement in words with what it rests on.
type ClaimView struct {
	Text  string
	Basis Basis
}

// Torn says that no length is given, since the finds lie too far apart and the account has none; "" elsewhere.
func (p *Printer) Torn(g figures.HookGround) string {
	if !g.Torn || g.From != "" {
		return ""
	}
	return p.words.Plain("sizes.torn")
}

// WhyNoHook says why a stage has no hook at all; "" where a length is known and no hook is near it.
func (p *Printer) WhyNoHook(s figures.Size) string {
	switch {
	case s.Unmet:
		return p.words.Plain("sizes.unmet")
	case s.Hook.Torn && s.Hook.From == "":
		return p.words.Plain("sizes.torn")
	case s.Hook.From == "":
		return p.words.Plain("sizes.no_hook")
	}
	return ""
}

// Claimed is a length as stated, rounded as it was written.
func (p *Printer) Claimed(r species.Length, b content.Basis) lang.Range {
	if r.Low == 0 && r.High == 0 {
		return lang.Range{}
	}
	return p.Lengths(float64(r.Low), float64(r.High), accountDigits(float64(r.Low), float64(r.High)), b)
}

// HookGround says which length a hook rests on, and how the body was had from it.
func (p *Printer) HookGround(g figures.HookGround) string {
	from := p.lengthFrom(g)
	if g.Share > 0 {
		return p.words.Plain("size_from.share", "from", from, "body", p.words.Amount(p.Length(g.Length, 1, g.Basis)),
			"share", content.Decimal(g.Share, 2), "overall", p.words.Amount(p.Length(g.Overall, 1, g.Basis)))
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
		if g.Torn {
			return p.words.Plain("size_from.account_torn")
		}
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

// HookSize is the size suggested in a model, or that none measured fits.
func (p *Printer) HookSize(h hook.Suggestion) string {
	switch h.Beyond {
	case hook.SmallerThanTable:
		return p.words.Plain("outside.smaller")
	case hook.LargerThanTable:
		return p.words.Plain("outside.larger")
	}
	return h.Size.String()
}

// Clock prints a stretch of hours by the clock.
func (p *Printer) Clock(s figures.Stretch) string {
	switch {
	case s.SunWord != "":
		return p.words.Or("sun", s.SunWord)
	case s.From == calendar.NoClock || s.To == calendar.NoClock:
		return ""
	}
	return p.words.Plain("hours", "from", s.From.String(), "to", s.To.String())
}
