package page

// A fly's page: the account property by property, its flights on each water, the months, two
// stages side by side, sizes and hooks, dressings, look-alikes, sources.

import (
	"cmp"
	"html/template"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/now"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers/season"
	"guidegen/species"
)

// FlyPage is a fly's page.
type FlyPage struct {
	view.Frame
	Scientific string
	Authority  string
	Family     string
	Group      string
	Order      string
	LandBred   bool
	Names      []NameView
	Drawings   []view.DrawingView
	Ties       []FlyTie // what to tie on, alike on all waters
	Rule       string   // by which all flights were moved that were, said once
	RuleBasis  view.Basis
	Properties []PropertyView
	MostBasis  view.Basis // of the statements that name none: said once
	Unsaid     bool       // of a colour among them neither wet nor dry is said
	Flights    []AccountFlight
	Waters     []FlyWater
	Data       template.HTML // what its waters are doing, for the script
	Advice     []view.StageAdvice
	Closer     *Closer
	Months     []string
	Pairs      []PairView
	Over       []OverView // all its waters in one table
	Compared   *view.CompareView
	Sizes      *SizesView
	Alike      *view.AlikesView
	Photos     []PhotoView
	Protected  []ProtectedView
	Highest    lang.Range
	Account    view.Prose
	Reviewed   lang.Date
	ReviewedBy string
	Sources    []view.SourceView
	Basis      view.Basis
}

// NameView is a kind of name and the names.
type NameView struct{ Kind, Lang, Names string }

// PropertyView is one property of the account; the first claim of a case is reckoned with.
type PropertyView struct {
	Name  lang.Link
	Cases []CaseView
}

// CaseView is what the account says in one case.
type CaseView struct {
	Case    string
	Text    string
	Swatch  *view.SwatchView
	Basis   view.Basis
	Others  []view.ClaimView
	Flights string
}

// saidOnce takes the basis that most statements have out of them.
func saidOnce(list []PropertyView) (most view.Basis) {
	n := map[string]int{}
	each := func(do func(*CaseView)) {
		for i := range list {
			for j := range list[i].Cases {
				do(&list[i].Cases[j])
			}
		}
	}
	each(func(c *CaseView) {
		if n[c.Basis.Key]++; len(c.Basis.Items) > 0 && (n[c.Basis.Key] > n[most.Key] || most.Key == "") {
			most = c.Basis
		}
	})
	if n[most.Key] < 3 {
		return view.Basis{}
	}
	each(func(c *CaseView) {
		if c.Basis.Key == most.Key && len(c.Others) == 0 {
			c.Basis = view.Basis{}
		}
	})
	return most
}

// AccountFlight is a flight as the account gives it for the reference conditions.
type AccountFlight struct {
	Name           string
	From, Peak, To lang.Date
	Written        string
	Class          string
	Basis          view.Basis
}

// OverView is one water of the table over all waters; what differs by flight names it.
type OverView struct {
	Water                lang.Link
	Found                string // "8 of 47"
	Seen, Middles, Sizes string // first and last seen, middle dates by season, median lengths
	Rests, Lent          string // what each month's chance is based on, in shares, and who lent visits
}

// over puts all waters beside each other, those in vain last.
func (p *Printer) over(at string, f *figures.Fly) []OverView {
	var out []OverView
	add := func(w *figures.Water, looked, found int, years []int) *OverView {
		out = append(out, OverView{Water: p.WaterLink(at, w), Found: p.FoundOn(found, looked, years)})
		return &out[len(out)-1]
	}
	for _, r := range f.Rows {
		rests := p.rests(r)
		if r.Looked == 0 && rests == "" {
			continue
		}
		v := add(r.Water, r.Looked, r.FoundOn, r.Years)
		var seen, middles, sizes []string
		for _, x := range r.Flights {
			of := func(parts ...string) []string {
				text := strings.Join(parts, p.words.Plain("list.comma"))
				if text != "" && len(r.Flights) > 1 {
					text = x.Name + p.words.Plain("list.colon") + text
				}
				return view.Kept(text)
			}
			if d := x.Dates; !d.First.IsZero() {
				seen = append(seen, of(p.words.Plain("range", "low", p.words.DateOf(d.First), "high", p.words.DateOf(d.Last)))...)
			}
			middles = append(middles, of(p.middles(x.Dates)...)...)
			var measured []string
			for _, z := range r.Sizes {
				if z.Flight == x.Name && z.N > 0 {
					measured = append(measured, p.words.Plain("over.size", "case", p.CaseOf(z.Stage, z.Sex, ""), "median", p.Length(z.Median, max(1, z.Digits), z.Basis), "n", strconv.Itoa(z.N)))
				}
			}
			sizes = append(sizes, of(measured...)...)
		}
		join := func(l []string) string { return strings.Join(l, p.words.Plain("list.semicolon")) }
		v.Seen, v.Middles, v.Sizes = join(seen), join(middles), join(sizes)
		v.Rests, v.Lent = rests, p.lent(r)
	}
	for _, x := range f.InVain {
		add(x.Water, x.Visits, 0, x.Years)
	}
	return out
}

// middles words each season's middle date.
func (p *Printer) middles(d figures.FlightDates) (l []string) {
	for _, m := range d.BySeason {
		l = append(l, p.words.Plain("over.middle", "season", m.Season, "day", p.words.DayOf(m.P50), "n", strconv.Itoa(m.GiveOrTake)))
	}
	return l
}

// FlyWater is the fly on one water.
type FlyWater struct {
	Water   lang.Link
	Kind    string
	Class   string
	Year    YearRow
	Never   string   // "looked for on 14 visits, never found"
	Ties    []FlyTie // what isn't the same on all waters
	Flights []FlightOnWater
}

// FlightOnWater is a flight, and what to tie on in it that isn't the same on all waters.
type FlightOnWater struct {
	view.FlightView
	Ties []FlyTie
}

// FlyTie is a stage in one flight: hours, the body, and what to tie on. On a page what all waters share stands in one
// table, and a water has the rest.
type FlyTie struct {
	Flight    string // where the fly has two
	First     bool   // of its flight
	Stage     string
	Hours     string
	Month     string // whose 15th the hours are of, where the sun sets them
	Length    content.Figure
	Torn      string // why no length is given
	Dressings []TieView
	Hook      string // asked for, where the box holds nothing
	None      string // why there is no dressing
	// What differs from water to water.
	HoursDiffer, LengthDiffers, DressingsDiffer bool
}

// TieView is a dressing on its hook.
type TieView struct {
	Dressing lang.Link
	Hook     string
}

// PairView compares one flight on two waters, on shared years only.
type PairView struct {
	Flight  string
	A, B    lang.Link
	Text    string
	Thin    bool
	Years   []PairYear
	LeftOut string
}

// PairYear is one shared year.
type PairYear struct {
	Year string
	A, B lang.Date
	Days string
}

// ProtectedView is a legal status, dated.
type ProtectedView struct{ Country, Status, Date string }

func (p *Printer) fly(f *figures.Fly) (FlyPage, []content.Problem) {
	at, w := view.FlyPage(f), p.words
	m := FlyPage{Frame: p.Frame("fly", at, f.Name.S), Scientific: f.Scientific.Name.S, Authority: f.Scientific.Authority,
		Family: f.Family.S, Group: w.Or("group", string(f.Group)), Order: f.Group.Order(), LandBred: !f.Group.WaterBred(),
		Reviewed: w.DateOf(f.Reviewed), ReviewedBy: f.ReviewedBy, Basis: p.Basis(at, f.Basis)}
	m.Way = []lang.Link{p.Link(at, view.FliesPage, w.Plain("nav.flies"))}
	m.Description = w.Plain("fly.description", "fly", f.Name.S, "group", m.Group)
	m.Names = p.names(f.Account)
	m.Data, m.Run = view.JsonBlock("on-data", now.OfFly(p.Printer, p.book, at, f)), p.Run(at, "today.js", "rows.js", "fly.js")
	m.Properties = p.properties(at, f.Account)
	m.MostBasis = saidOnce(m.Properties)
	for _, x := range m.Properties {
		m.Unsaid = m.Unsaid || slices.ContainsFunc(x.Cases, func(c CaseView) bool { return c.Swatch != nil && c.Swatch.Unsaid })
	}
	for _, fl := range f.Account.Flights {
		m.Flights = append(m.Flights, AccountFlight{fl.Name, w.DayOf(fl.From), w.DayOf(fl.Peak), w.DayOf(fl.To),
			strings.Join(view.Kept(fl.DatesText[:]...), " – "), w.Or("class", string(fl.Class)), p.Basis(at, fl.Basis)})
	}
	for i, r := range f.Rows {
		v := FlyWater{Water: p.WaterLink(at, r.Water), Kind: p.KindAndAltitude(r.Water), Class: w.Or("class", string(r.Class)),
			Flights: p.flightsOn(at, r)}
		v.Year, v.Ties = p.yearRow(v.Water, r), p.flyTies(at, r)
		v.Year.ID = view.FlyID("bars", i)
		v.Year.About = strings.Join(view.Kept(v.Class, v.Kind), " · ")
		if r.Looked > 0 && r.FoundOn == 0 {
			v.Never = w.Plain("never_found", "n", strconv.Itoa(r.Looked))
		}
		m.Waters = append(m.Waters, v)
	}
	m.Ties = tiesOnce(m.Waters)
	for i := range m.Waters {
		m.Waters[i].flightsWith()
	}
	m.Rule, m.RuleBasis = ruleOnce(m.Waters)
	if m.Closer = p.closerOfFly(at, f); m.Closer != nil {
		m.Library = p.Deps.Site.Link(at, view.Assets+"echarts.js")
	}
	for i := 1; i <= 12; i++ {
		m.Months = append(m.Months, w.ShortMonth(i))
	}
	for _, pair := range f.Pairs {
		if pair.Median.OK { // waters without a season in common have nothing to compare
			m.Pairs = append(m.Pairs, p.pair(at, pair))
		}
	}
	m.Over = p.over(at, f)
	m.Advice = p.Advice(at, f)
	m.Compared = p.Compared(at, f.Compared)
	m.Sizes = p.sizesOfFly(f)
	if m.Alike = p.Alike(at, f.Alike, f.MoreAlike); m.Alike != nil {
		for i := range m.Alike.List {
			for _, a := range f.Alike {
				if a.Fly != nil && p.FlyLink(at, a.Fly) == m.Alike.List[i].Fly {
					m.Alike.List[i].Drawings = p.SideBySide(at, f, a.Fly)
				}
			}
		}
	}
	for _, x := range f.Protected {
		m.Protected = append(m.Protected, ProtectedView{x.Country, x.Status, w.When(x.Date)})
	}
	if c, ok := f.Highest.First(); ok {
		m.Highest = p.Altitude(c.Value, c.Basis)
	}
	var problems []content.Problem
	m.Account, problems = p.Prose(at, f.Body, 3, "t")
	m.Sources = p.SourcesOf(at, f)
	m.Drawings = p.Drawings(at, f)
	m.Photos = p.withPhotos(&m.Frame, p.flyPhotos(at, f))
	return m, problems
}

func (p *Printer) flightsOn(at string, r *figures.Row) (out []FlightOnWater) {
	for _, f := range p.Flights(at, r) {
		out = append(out, FlightOnWater{FlightView: f})
	}
	return out
}

// flightsWith hands a water's ties to its flights, where each is of one of them.
func (w *FlyWater) flightsWith() {
	of := func(t FlyTie) int {
		return slices.IndexFunc(w.Flights, func(f FlightOnWater) bool { return f.Name == t.Flight || len(w.Flights) == 1 && t.Flight == "" })
	}
	if slices.ContainsFunc(w.Ties, func(t FlyTie) bool { return of(t) < 0 }) {
		return
	}
	for _, t := range w.Ties {
		f := &w.Flights[of(t)]
		f.Ties = append(f.Ties, t)
	}
	w.Ties = nil
}

// rests says what each month's chance is based on: the shares of own visits, lent ones and the account.
func (p *Printer) rests(r *figures.Row) string {
	var out []string
	for i := range r.Months {
		v := p.MonthView(r, i)
		if v.Own.Known() || v.Lent.Known() || v.Acc.Known() {
			share := func(f content.Figure) string { return cmp.Or(f.Number(), "0") }
			out = append(out, p.words.Plain("over.rest", "month", p.words.ShortMonth(i+1), "own", share(v.Own), "lent", share(v.Lent), "account", share(v.Acc)))
		}
	}
	return strings.Join(out, p.words.Plain("list.semicolon"))
}

// lent names the waters whose visits a row's chances lean on too.
func (p *Printer) lent(r *figures.Row) string {
	var names []string
	for i := range r.Months {
		for _, l := range r.Months[i].Lenders {
			name := p.words.Plain("lender.withheld")
			if l.Water != nil && l.Water.Name.S != "" {
				name = l.Water.Name.S
			}
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	return p.words.List(names)
}

// ruleOnce takes out of the waters' flights the rule by which they were moved, and its basis, where it is one for all.
func ruleOnce(waters []FlyWater) (rule string, basis view.Basis) {
	n := 0
	each := func(do func(*view.FlightView) bool) bool {
		for i := range waters {
			for j := range waters[i].Flights {
				if f := &waters[i].Flights[j].FlightView; f.Rule != "" && !do(f) {
					return false
				}
			}
		}
		return true
	}
	same := each(func(f *view.FlightView) bool {
		if n++; n == 1 {
			rule, basis = f.Rule, f.Basis
		}
		return f.Rule == rule && f.Basis.Key == basis.Key
	})
	if !same || n < 2 {
		return "", view.Basis{}
	}
	each(func(f *view.FlightView) bool {
		f.Rule, f.Basis = "", view.Basis{}
		if f.Days != "" {
			f.Moved = f.Days
		}
		return true
	})
	return rule, basis
}

// flyTies is what to tie on for a fly on one water, flight by flight.
func (p *Printer) flyTies(at string, r *figures.Row) []FlyTie {
	var out []FlyTie
	for _, f := range r.FlightsOf() {
		for _, sd := range r.Dressings {
			if sd.Flight != f.Name {
				continue
			}
			t := FlyTie{Stage: p.ShortCase(view.StageSex{Stage: sd.Stage, Sex: sd.Sex})}
			if len(r.FlightsOf()) > 1 {
				t.Flight = f.Name
			}
			if t.Torn = p.Torn(sd.Length); sd.Length.Length > 0 {
				t.Length = p.Length(sd.Length.Length, 1, sd.Length.Basis)
			}
			p.tieHours(&t, r, f, sd)
			for _, x := range p.Ties(sd) {
				t.Dressings = append(t.Dressings, TieView{p.DressingNamed(at, x.Name), p.TieHook(x.Name, x.Size())})
			}
			if t.None = p.Untied(r.Water, sd); len(t.Dressings) == 0 && !sd.Advice.Barred() {
				t.Hook = p.HookAsked(sd)
			}
			out = append(out, t)
		}
	}
	return out
}

// tiesOnce takes out of the waters' rows what is the same on all of them: hours, body and dressings each by itself.
func tiesOnce(waters []FlyWater) []FlyTie {
	var once []FlyTie
	find := func(t FlyTie) int {
		return slices.IndexFunc(once, func(o FlyTie) bool { return o.Flight == t.Flight && o.Stage == t.Stage })
	}
	for _, w := range waters {
		for _, t := range w.Ties {
			i := find(t)
			if i < 0 {
				at := len(once) // with its flight
				for j := range once {
					if once[j].Flight == t.Flight {
						at = j + 1
					}
				}
				once = slices.Insert(once, at, t)
				continue
			}
			o := &once[i]
			o.HoursDiffer = o.HoursDiffer || o.Hours != t.Hours || o.Month != t.Month
			o.LengthDiffers = o.LengthDiffers || o.Torn != t.Torn || o.Length.Number() != t.Length.Number() || o.Length.Basis().Key() != t.Length.Basis().Key()
			o.DressingsDiffer = o.DressingsDiffer || o.Hook != t.Hook || o.None != t.None && len(t.Dressings) == 0 || !slices.Equal(o.Dressings, t.Dressings)
		}
	}
	for i := range waters {
		var own []FlyTie
		for _, t := range waters[i].Ties {
			o := once[find(t)]
			if !o.HoursDiffer {
				t.Hours, t.Month = "", ""
			}
			if !o.LengthDiffers {
				t.Length, t.Torn = content.Figure{}, ""
			}
			t.DressingsDiffer = o.DressingsDiffer
			if t.Hours != "" || t.Length.Known() || t.Torn != "" || o.DressingsDiffer {
				own = append(own, t)
			}
		}
		waters[i].Ties = flightsNamedOnce(own)
	}
	return flightsNamedOnce(once)
}

func flightsNamedOnce(rows []FlyTie) []FlyTie {
	for i := range rows {
		rows[i].First = rows[i].Flight != "" && (i == 0 || rows[i-1].Flight != rows[i].Flight)
	}
	return rows
}

// tieHours are the hours on the 15th of the month of most flies.
func (p *Printer) tieHours(t *FlyTie, r *figures.Row, f figures.FlightHere, sd figures.StageDressings) {
	date := calendar.Date{Year: p.book.Built.Year, Month: peakMonth(r, f), Day: 15}
	var hours []string
	for _, h := range r.HoursOn(date, sd.Stage, sd.Sex, f.Name) {
		text := p.hoursRow(r.Water, h).Hours
		if h.Sex != "" && sd.Sex == "" {
			text = p.words.Plain("hours_of", "sex", p.words.Or("sex", string(h.Sex)), "hours", text)
		}
		hours = append(hours, text)
		if h.BySun() && h.SunWord == "" {
			t.Month = p.words.ShortMonth(int(date.Month))
		}
	}
	t.Hours = strings.Join(hours, p.words.Plain("list.semicolon"))
}

func (p *Printer) names(a *species.Account) []NameView {
	var out []NameView
	add := func(kind, lang string, list []content.Text) {
		var s []string
		for _, t := range list {
			s = append(s, t.S)
		}
		if len(s) > 0 {
			out = append(out, NameView{p.words.Plain("names." + kind), lang, strings.Join(s, p.words.Plain("list.comma"))})
		}
	}
	if len(a.Also) > 0 {
		out = append(out, NameView{p.words.Plain("names.also"), "", p.AlsoCalled(a)})
	}
	for _, lang := range view.SortedKeys(a.ByLanguage) {
		add("other_language", lang, a.ByLanguage[lang])
	}
	add("old", "", a.Old)
	add("synonyms", "la", a.Synonyms)
	return out
}

// properties is the account in the order of its head.
func (p *Printer) properties(at string, a *species.Account) []PropertyView {
	var out []PropertyView
	w := p.words
	add := func(name lang.Link, cases []CaseView) {
		if len(cases) > 0 {
			out = append(out, PropertyView{name, together(p, cases)})
		}
	}
	named := func(key string) lang.Link { return lang.Link{Text: w.Plain("property." + key)} }
	var kinds []string
	for _, k := range a.Water {
		kinds = append(kinds, k.S)
	}
	if len(kinds) > 0 {
		add(named("water"), []CaseView{{Text: w.List(kinds), Basis: p.Basis(at, a.Basis)}})
	}
	add(named("emerges"), claims(p, at, a.Emerges, func(e species.Emergence) string { return w.Or("emerges", string(e)) }))
	add(named("lays"), claims(p, at, a.Lays, func(l species.Laying) string { return w.Or("lays", string(l)) }))
	add(named("level"), cases(p, at, a.Level, func(l []species.Level) string {
		var s []string
		for _, x := range l {
			s = append(s, w.Or("level", string(x)))
		}
		return w.List(s)
	}))
	add(named("hours"), cases(p, at, a.Hours, w.Span))
	add(named("length"), cases(p, at, a.Length, nil))
	add(named("wing"), cases(p, at, a.Wing, nil))
	add(named("book"), cases(p, at, a.Books, nil))
	for _, c := range a.Colours {
		views := cases(p, at, c.Cases, nil)
		for i, k := range c.Cases {
			if shade, ok := k.Claims.First(); ok && i < len(views) {
				s := p.Swatch(c.Part, shade.Value)
				s.Part = "" // the heading names it
				views[i].Swatch, views[i].Text = &s, ""
			}
		}
		add(lang.Link{Text: w.Plain("property.colour", "part", w.Or("body_part", c.Part))}, views)
	}
	for _, f := range a.Features {
		add(p.Term(at, f.Name), cases(p, at, f.Cases, func(s []string) string { return strings.Join(s, w.Plain("list.or")) }))
	}
	return out
}

// claims is one statement with what others say; nil text prints it as written.
func claims[T any](p *Printer, at string, c species.Claims[T], text func(T) string) []CaseView {
	var v CaseView
	for i, x := range c {
		s := x.Text
		if text != nil {
			if t := text(x.Value); t != "" {
				s = t
			}
		}
		if i == 0 {
			v.Text, v.Basis = s, p.Basis(at, x.Basis)
		} else {
			v.Others = append(v.Others, view.ClaimView{Text: s, Basis: p.Basis(at, x.Basis)})
		}
	}
	if len(c) == 0 {
		return nil
	}
	return []CaseView{v}
}

func cases[T any](p *Printer, at string, prop species.Property[T], text func(T) string) []CaseView {
	var out []CaseView
	for _, k := range prop {
		for _, v := range claims(p, at, k.Claims, text) {
			if k.Words != (species.Words{}) {
				v.Case = p.CaseOf(k.Words.Stage, k.Words.Sex, k.Words.Flight)
			}
			out = append(out, v)
		}
	}
	return out
}

// together says once what holds in several cases.
func together(p *Printer, list []CaseView) []CaseView {
	var out []CaseView
	for _, v := range list {
		i := slices.IndexFunc(out, func(o CaseView) bool {
			o.Case = v.Case
			return reflect.DeepEqual(o, v)
		})
		if i >= 0 && v.Case != "" && out[i].Case != "" {
			out[i].Case += p.words.Plain("list.semicolon") + v.Case
			continue
		}
		out = append(out, v)
	}
	return out
}

func (p *Printer) pair(at string, c figures.WaterPair) PairView {
	v := PairView{Flight: c.Flight, A: p.WaterLink(at, c.A), B: p.WaterLink(at, c.B), LeftOut: p.words.Seasons(c.LeftOutNames())}
	for _, y := range c.Seasons {
		v.Years = append(v.Years, PairYear{season.SeasonName(y.Season, c.Year), p.words.DayOf(y.A), p.words.DayOf(y.B), p.laterBy(float64(y.Days), c.B.Name.S)})
	}
	if !c.Median.OK {
		v.Text = p.words.Plain("pair.none")
		return v
	}
	v.Text, v.Thin = p.words.Plain("pair.give_or_take", "by", p.laterBy(c.Median.Value, c.B.Name.S),
		"n", strconv.Itoa(c.GiveOrTake)), c.Thin
	return v
}

func (p *Printer) laterBy(days float64, water string) string {
	digits := 0
	if days != float64(int(days)) {
		digits = 1
	}
	n := content.Decimal(max(days, -days), digits)
	switch {
	case days > 0:
		return p.words.Plain("pair.later", "water", water, "n", n)
	case days < 0:
		return p.words.Plain("pair.earlier", "water", water, "n", n)
	}
	return p.words.Plain("pair.same")
}
