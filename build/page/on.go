package page

// What is on around a date. The device's date is not known when the page is made, so the page
// holds a card for each fly and the year as runs of states; the script looks the date up and
// shows the cards. Without it, and in print, a table of half-months stands.

import (
	"cmp"
	"encoding/json"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
	"guidegen/species/hook"
)

// OnView is the panel.
type OnView struct {
	Cards    []CardView
	Cells    []OnCell
	Unlooked string // the half-months in which nobody looked, for the script: "01a 12b"
	Data     template.HTML
}

// OnCell is one half-month with the flies on in it.
type OnCell struct {
	Cell  string
	Short string
	Flies []Link

	Unlooked bool // nobody looked: what isn't expected is not known either
}

// CardView is one fly's card; the script shows what fits the date. Months and flights are named by
// number for it.
type CardView struct {
	Number   string
	Fly      Link
	LandBred bool
	Unlisted bool
	Never    string // what the card rests on where the fly was never found here
	Months   []CardMonth
	Stages   []CardStage
}

// CardMonth is how sure the month's figure is.
type CardMonth struct {
	Number string
	Text   string
	State  string
	Word   string
}

// CardStage is one line: a stage with its hours, size and dressings.
type CardStage struct {
	Stage    string
	Immature bool
	Kind     string // ShortDun, ShortSpinner or ShortUnder: the line of the short list it belongs to
	Level    string // where in the water the insect is; "" where not known
	Hours    []CardHours
	Flights  []CardFlight
	Only     string // the flights it is for, by number; "" for all
}

// The lines of the short list for the reader's date: flies fresh on the water,
// flies back to lay, and what is below while nothing shows.
const (
	ShortDun     = "dun"
	ShortSpinner = "spinner"
	ShortUnder   = "under"
)

func shortKind(st species.Stage) string {
	switch {
	case st == species.Spinner:
		return ShortSpinner
	case st.OnTheWing():
		return ShortDun
	}
	return ShortUnder
}

func (p *Printer) levelOf(r *figures.Row, w species.Words) string {
	c, ok := r.Fly.Level.First(w)
	if !ok {
		return ""
	}
	var words []string
	for _, l := range c.Value {
		words = append(words, p.words.Or("level", string(l)))
	}
	return p.words.list(words)
}

// insectLevel says it beside a dressing, which may be fished elsewhere.
func (p *Printer) insectLevel(r *figures.Row, w species.Words) string {
	if level := p.levelOf(r, w); level != "" {
		return p.words.Plain("card.level", "level", level)
	}
	return ""
}

// CardHours are the hours in some months.
type CardHours struct{ Months, Text string }

// CardFlight is the size and the dressings in one flight; Number is "" where there is only one.
type CardFlight struct {
	Number    string
	Lengths   []CardLength
	Hook      string // the suggestion where no dressing names a hook of its own
	Model     string
	Dressings []CardDressing
	None      bool // the box holds nothing for it
}

// CardDressing is one dressing and the hook to tie it on, "" where no size is known.
type CardDressing struct {
	Link
	Hook string
}

// CardLength is a length, with the sex where the two share a line.
type CardLength struct {
	Sex    string
	Length content.Figure
}

func (p *Printer) on(at string, w *figures.Water) OnView {
	var v OnView
	for i, r := range w.Rows {
		v.Cards = append(v.Cards, p.card(at, i, r))
	}
	for c := calendar.Cell(0); c < calendar.Cells; c++ {
		cell := OnCell{Cell: p.words.cell(c), Short: c.String(), Unlooked: !w.Coverage.Looked(c)}
		for _, r := range byChance(w.Rows, c) {
			cell.Flies = append(cell.Flies, p.flyLink(at, r.Fly))
		}
		v.Cells = append(v.Cells, cell)
	}
	v.Unlooked = unlookedCells(w)
	data, err := json.Marshal(p.onData(w))
	if err != nil {
		panic(err) // numbers and strings only
	}
	v.Data = jsonBlock("on-data", data)
	return v
}

// unlookedCells names the half-months in which nobody looked on a water.
func unlookedCells(w *figures.Water) string {
	var out []string
	for c := calendar.Cell(0); c < calendar.Cells; c++ {
		if !w.Coverage.Looked(c) {
			out = append(out, c.String())
		}
	}
	return strings.Join(out, " ")
}

// byChance lists the flies on in a cell, as they are ordered on a date: chance in the middle of the
// cell, class, name.
func byChance(rows []*figures.Row, c calendar.Cell) []*figures.Row {
	var on []*figures.Row
	for _, r := range rows {
		if r.OnCells[c] {
			on = append(on, r)
		}
	}
	mid := c.First().Add(7)
	slices.SortStableFunc(on, func(a, b *figures.Row) int {
		return cmp.Or(cmp.Compare(content.Round9(b.Chance[mid-1]), content.Round9(a.Chance[mid-1])), byClass(a, b))
	})
	return on
}

func byClass(a, b *figures.Row) int {
	return cmp.Or(cmp.Compare(rank(a.Class), rank(b.Class)), cmp.Compare(a.Fly.Name.S, b.Fly.Name.S), cmp.Compare(a.Fly.Address, b.Fly.Address))
}

// rank puts a fly without a class after the others.
func rank(c species.Class) int {
	if n := c.Rank(); n >= 0 {
		return n
	}
	return len(species.Classes)
}

// onData is what the script looks up. Runs are [from, to, state, flight], days from 1 to 365,
// states and flights as places in their lists. c holds the chance of each run in thousandths: that of
// its first day, then each day's difference from the day before, which packs to half the size.
type onData struct {
	States []string  `json:"states"`
	Shown  []string  `json:"shown"` // the states' words
	Flies  []flyData `json:"flies"`
}

type flyData struct {
	Order int      `json:"o"` // among flies of one chance
	Runs  [][4]int `json:"r"`
	C     [][]int  `json:"c"`
}

// onStates are the states a run can have, in the order they are shown.
var onStates = []struct {
	state    figures.OnState
	tendency figures.Tendency
	key      string
}{
	{figures.On, figures.NoTendency, "on"}, {figures.On, figures.Rising, "on_rising"}, {figures.On, figures.Steady, "on_steady"},
	{figures.On, figures.Fading, "on_fading"}, {figures.On, figures.BetweenTwo, "on_between"},
	{figures.Starting, "", "starting"}, {figures.JustOver, "", "just_over"},
	{figures.BetweenFlights, "", "between"},
}

// stateOf is the place of a run's state among onStates; -1 where nothing is to be said. A pair that the list
// lacks would lose a fly from the page: that is a fault of the program, and no page is made.
func stateOf(r figures.Run) int {
	if r.State == figures.Off {
		return -1
	}
	for i, s := range onStates {
		if s.state == r.State && (s.tendency == r.Tendency || r.State != figures.On) {
			return i
		}
	}
	panic(fmt.Sprintf("page: no words for a fly that is %q, %q", r.State, r.Tendency))
}

func (p *Printer) onData(w *figures.Water) onData {
	var d onData
	for _, s := range onStates {
		d.States = append(d.States, s.key)
		d.Shown = append(d.Shown, p.words.Plain("on_state."+s.key))
	}
	order := slices.Clone(w.Rows)
	slices.SortStableFunc(order, byClass)
	for _, r := range w.Rows {
		f := flyData{Order: slices.Index(order, r), Runs: runsOf(r), C: [][]int{}}
		for _, run := range f.Runs {
			var steps []int
			before := 0
			for d := run[0]; d <= run[1]; d++ {
				c := perMille(r.Chance[d-1])
				steps = append(steps, c-before)
				before = c
			}
			f.C = append(f.C, steps)
		}
		d.Flies = append(d.Flies, f)
	}
	return d
}

// perMille rounds a chance to thousandths so that rounding it again, to a hundredth, gives what rounding once does.
func perMille(chance float64) int {
	t := math.Round(content.Round9(chance * 1000))
	if math.Round(t/10) != math.Round(content.Round9(chance*100)) {
		t--
	}
	return int(t)
}

// runsOf are the runs in which something is to be said, split where another flight comes nearer.
func runsOf(r *figures.Row) [][4]int {
	out := [][4]int{}
	for _, run := range r.Runs {
		s := stateOf(run)
		if s < 0 {
			continue
		}
		for d := run.From; d <= run.To; d++ {
			f := flightAt(r, d)
			if n := len(out) - 1; n >= 0 && out[n][1] == int(d)-1 && out[n][2] == s && out[n][3] == f && d > run.From {
				out[n][1] = int(d)
				continue
			}
			out = append(out, [4]int{int(d), int(d), s, f})
		}
	}
	return out
}

// flightAt is the place of the flight that speaks for a day; -1 for a fly without dates here.
func flightAt(r *figures.Row, d calendar.Day) int {
	name := r.FlightAt(d)
	return slices.IndexFunc(r.Flights, func(f figures.FlightHere) bool { return f.Name == name })
}

// Never says what a fly's state rests on where it was never found on the water; "" where it was.
func (w *Words) Never(r *figures.Row) string {
	switch {
	case !r.Never:
		return ""
	case r.Borrows && r.Looked == 0:
		return w.Plain("never.lent_unlooked")
	case r.Borrows:
		return w.Plain("never.lent")
	case r.Looked == 0:
		return w.Plain("never.unlooked")
	}
	return w.Plain("never.account")
}

func (p *Printer) card(at string, number int, r *figures.Row) CardView {
	c := CardView{Number: strconv.Itoa(number), Fly: Link{r.Fly.Name.S, "#" + flyID("fly", number)}, LandBred: !r.Fly.Group.WaterBred(), Unlisted: !r.Listed, Never: p.words.Never(r)}
	for i := range r.Months {
		m := &r.Months[i]
		v := p.monthView(at, r, i)
		cm := CardMonth{Number: strconv.Itoa(i + 1), State: v.State, Word: v.Word}
		if m.Looked > 0 {
			cm.Text = p.words.Plain("card.counted", "month", p.words.month(i+1), "count", p.foundOn(m.Found, m.Looked, m.Years))
		} else {
			cm.Text = p.words.Plain("card.unlooked", "month", p.words.month(i+1))
		}
		if v.State != "thin" {
			cm.Word = ""
		}
		c.Months = append(c.Months, cm)
	}
	var before stageSex
	for _, st := range stagesOf(r) {
		s := CardStage{Stage: p.caseOf(st.stage, st.sex, ""), Immature: !st.stage.OnTheWing(),
			Kind: shortKind(st.stage), Level: p.insectLevel(r, species.Words{Stage: st.stage, Sex: st.sex})}
		offered := false
		var flights []string
		for _, sd := range r.Dressings {
			if sd.Stage == st.stage && sd.Sex == st.sex {
				f := p.cardFlight(at, r, sd)
				offered = offered || len(f.Dressings) > 0
				s.Flights = append(s.Flights, f)
				flights = append(flights, sd.Flight)
			}
		}
		s.Hours = p.cardHours(r, st, flights)
		if s.Immature && !offered {
			continue // what shows in the hand or on the water has room; an empty line for a larva doesn't
		}
		s.Only = onlyIn(s.Flights, len(r.Flights))
		n := len(c.Stages) - 1
		if n >= 0 && before.stage == st.stage && before.sex != st.sex && alike(c.Stages[n], s) {
			p.join(&c.Stages[n], s, before, st)
		} else {
			c.Stages = append(c.Stages, s)
		}
		before = st
	}
	return c
}

// onlyIn lists the numbers of the flights that a line is for, where it isn't for all.
func onlyIn(list []CardFlight, all int) string {
	var numbers []string
	for _, f := range list {
		if f.Number == "" {
			return ""
		}
		numbers = append(numbers, f.Number)
	}
	if len(numbers) == all {
		return ""
	}
	return strings.Join(numbers, " ")
}

// alike reports whether two sexes of a stage want the same hours, hooks and dressings.
func alike(a, b CardStage) bool {
	return slices.Equal(a.Hours, b.Hours) && slices.EqualFunc(a.Flights, b.Flights, func(x, y CardFlight) bool {
		return x.Number == y.Number && x.Hook == y.Hook && x.Model == y.Model && slices.Equal(x.Dressings, y.Dressings)
	})
}

// join puts the second sex of a stage on the line of the first; their lengths stand side by side.
func (p *Printer) join(a *CardStage, b CardStage, first, second stageSex) {
	a.Stage = p.caseOf(first.stage, "", "")
	for i := range a.Flights {
		x, y := a.Flights[i].Lengths, b.Flights[i].Lengths
		if len(x) != 1 || len(y) != 1 {
			a.Flights[i].Lengths = append(x, y...)
			continue
		}
		if x[0].Length.Number() != y[0].Length.Number() {
			x[0].Sex, y[0].Sex = p.words.Or("sex", string(first.sex)), p.words.Or("sex", string(second.sex))
			a.Flights[i].Lengths = append(x, y...)
		}
	}
}

func (p *Printer) cardFlight(at string, r *figures.Row, sd figures.StageDressings) CardFlight {
	var c CardFlight
	if len(r.Flights) > 1 {
		if i := slices.IndexFunc(r.Flights, func(f figures.FlightHere) bool { return f.Name == sd.Flight }); i >= 0 {
			c.Number = strconv.Itoa(i)
		}
	}
	if sd.Length.Length > 0 {
		c.Lengths = []CardLength{{Length: p.length(sd.Length.Length, 1, sd.Length.Basis)}}
	}
	for _, h := range sd.Length.Hooks {
		if h.Beyond == hook.Within {
			c.Hook, c.Model = h.Size.String(), h.Model
			break
		}
	}
	for _, o := range sd.Short(2) {
		d := CardDressing{Link: p.dressingNamed(at, o.Name)}
		if o.Size != nil {
			d.Hook = p.hookText(o.Size.Hook)
			c.Hook, c.Model = "", ""
		}
		c.Dressings = append(c.Dressings, d)
	}
	for _, o := range sd.Advice.NotScored {
		if len(c.Dressings) < 2 {
			c.Dressings = append(c.Dressings, CardDressing{Link: p.dressingNamed(at, o.Name)})
		}
	}
	c.None = len(c.Dressings) == 0
	return c
}

type stageSex struct {
	stage species.Stage
	sex   species.Sex
}

// stagesOf lists the stages of a card, those on the wing first: with advice where there is some,
// else those that have hours.
func stagesOf(r *figures.Row) []stageSex {
	var list []stageSex
	add := func(s species.Stage, x species.Sex) {
		if s != "" && !slices.Contains(list, stageSex{s, x}) {
			list = append(list, stageSex{s, x})
		}
	}
	for _, d := range r.Dressings {
		add(d.Stage, d.Sex)
	}
	for _, h := range r.Hours {
		if !slices.ContainsFunc(list, func(s stageSex) bool { return s.stage == h.Stage }) {
			add(h.Stage, h.Sex)
		}
	}
	slices.SortStableFunc(list, func(a, b stageSex) int {
		return cmp.Or(cmp.Compare(boolInt(!a.stage.OnTheWing()), boolInt(!b.stage.OnTheWing())),
			cmp.Compare(slices.Index(species.AllStages, a.stage), slices.Index(species.AllStages, b.stage)))
	})
	return list
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// cardHours joins the months that have the same hours, in the flights that a line is for (all, where
// none is named). Where two flights are on in one month at different hours, each is named.
func (p *Printer) cardHours(r *figures.Row, st stageSex, flights []string) []CardHours {
	type line struct {
		figures.HoursHere
		text string
	}
	var lines []line
	for _, h := range r.Hours {
		text := p.hoursAround(h)
		if h.Stage != st.stage || st.sex != "" && h.Sex != "" && h.Sex != st.sex || text == "" ||
			len(flights) > 0 && !slices.Contains(flights, h.Flight) {
			continue
		}
		if h.Sex != "" && st.sex == "" {
			text = p.words.Plain("hours_of", "sex", p.words.Or("sex", string(h.Sex)), "hours", text)
		}
		lines = append(lines, line{h, text})
	}
	var out []CardHours
	for _, l := range lines {
		text := l.text
		if slices.ContainsFunc(lines, func(o line) bool {
			return o.Month == l.Month && o.Sex == l.Sex && o.Flight != l.Flight && o.text != l.text
		}) {
			text = p.words.Plain("hours_in", "flight", l.Flight, "hours", text)
		}
		m := strconv.Itoa(l.Month)
		switch i := slices.IndexFunc(out, func(c CardHours) bool { return c.Text == text }); {
		case i < 0:
			out = append(out, CardHours{m, text})
		case !slices.Contains(strings.Fields(out[i].Months), m):
			out[i].Months += " " + m
		}
	}
	return out
}

// hoursAround is hours as a card shows them around a date: against the sun they are those of the
// month's middle, and say so; what others say follows.
func (p *Printer) hoursAround(h figures.HoursHere) string {
	say := func(s figures.Stretch) string {
		text := p.clock(s)
		switch {
		case s.SunWord == figures.NoPlace || s.SunWord == figures.NoZone:
			return p.words.Span(s.Span)
		case s.BySun():
			return p.words.Plain("hours_mid", "hours", text, "month", p.words.month(h.Month))
		}
		return text
	}
	return p.withOthers(h, say)
}

// withOthers is a stage's hours followed by what others say of them.
func (p *Printer) withOthers(h figures.HoursHere, say func(figures.Stretch) string) string {
	text := say(h.Stretch)
	if len(h.Others) == 0 {
		return text
	}
	var others []string
	for _, o := range h.Others {
		others = append(others, say(o))
	}
	return p.words.Plain("hours_others", "hours", text, "others", strings.Join(others, p.words.Plain("list.or")))
}
