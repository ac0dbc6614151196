package main

// What tell says of one water on one day: gathered once, printed as text or JSON.

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species/hook"
)

// told is what is on around a day.
type told struct {
	Guide     guideJSON  `json:"guide"`
	Edition   string     `json:"edition"`
	Water     string     `json:"water"`
	Address   string     `json:"address"`
	On        string     `json:"on"`
	RecordsTo string     `json:"records_to,omitempty"` // of this water; absent without records
	Closed    []closed   `json:"closed"`
	Rules     string     `json:"rules,omitempty"` // the water's own
	Hazards   []string   `json:"hazards"`
	Emergency *emergency `json:"emergency,omitempty"`
	Flies     []toldFly  `json:"flies"`
	Looked    bool       `json:"looked"` // whether anybody looked in the half-month, in any year
	date      calendar.Date
	recordsTo calendar.Date
	about     string
	seasons   []string // in words, the closed ones
}

type closed struct {
	Fish    string `json:"fish"`
	Open    string `json:"open"`
	Close   string `json:"close"`
	Checked string `json:"checked,omitempty"`
}

type emergency struct {
	Code string `json:"code,omitempty"`
	Meet string `json:"meet,omitempty"`
	At   string `json:"place,omitempty"`
}

type toldFly struct {
	Fly      string      `json:"fly"`
	Address  string      `json:"address"`
	Group    string      `json:"group"`
	Bred     string      `json:"bred"` // water or land
	Listed   bool        `json:"listed"`
	State    string      `json:"state"`
	Rests    string      `json:"state_rests_on,omitempty"` // where the fly was never found here
	Tendency string      `json:"tendency,omitempty"`
	Chance   *float64    `json:"chance,omitempty"` // absent between flights
	Month    toldMonth   `json:"month"`
	Stages   []toldStage `json:"stages"`
	head     []string    // in words, as what follows
	month    []string
	heading  string
}

// toldMonth is how sure the figure is, from the day's month.
type toldMonth struct {
	Month    int       `json:"month"`
	Looked   int       `json:"looked"`
	Found    int       `json:"found"`
	Years    []int     `json:"years"`
	Chance   float64   `json:"chance"`
	Range    []float64 `json:"range"`
	Thin     bool      `json:"thin"`
	Evidence string    `json:"state"`
	Basis    []share   `json:"basis"`
}

type share struct {
	Rests string  `json:"rests_on"`
	Share float64 `json:"share"`
}

type toldStage struct {
	Stage     string         `json:"stage"`
	Sex       string         `json:"sex,omitempty"`
	Flight    string         `json:"flight,omitempty"`
	Hours     []string       `json:"hours"` // on the very date
	Others    []string       `json:"others_say_hours,omitempty"`
	Length    float64        `json:"length_mm,omitempty"`
	Measured  int            `json:"measured,omitempty"`
	From      string         `json:"length_from,omitempty"`
	Overall   float64        `json:"overall,omitempty"` // the length that the body is a share of
	Share     float64        `json:"body_share,omitempty"`
	Hooks     []toldHook     `json:"hooks"`
	Dressings []toldDressing `json:"dressings"`
	Named     []string       `json:"named_not_scored,omitempty"` // dressings of which neither size nor colour is known
	which     string         // in words
	length    string
	hooks     []string
	ties      []string // what lists with little room name, each on its hook
	named     []string
	none      string // why there is no dressing
}

type toldHook struct {
	Model string `json:"model"`
	Size  string `json:"size"`
}

type toldDressing struct {
	Name  string   `json:"name"`
	Score float64  `json:"score"`
	Hook  string   `json:"hook,omitempty"`
	Sizes string   `json:"recipe,omitempty"` // the recipe's own, where no hook is near the fly
	Why   []string `json:"why"`
}

// teller says what is told as the guide's pages do.
type teller struct{ view.Teller }

// around gathers what is on around a date.
func (tell teller) around(w *figures.Water, date calendar.Date) told {
	d := date.OfYear()
	t := told{Water: w.Name.S, Address: w.Address, On: date.String(), Closed: []closed{}, Rules: w.Rules.S, Hazards: []string{}, Flies: []toldFly{}, Looked: w.Coverage.Looked(d.Cell()), date: date}
	t.about = tell.About(w)
	if !w.RecordsTo.IsZero() {
		t.RecordsTo, t.recordsTo = w.RecordsTo.String(), w.RecordsTo
	}
	for _, s := range w.Seasons {
		if s.Open.Valid() && s.Close.Valid() && !s.Holds(date) {
			open, last := tell.FirstDay(s.Open).Text, tell.LastDay(s.Close).Text
			c := closed{Fish: s.Fish.S, Open: open, Close: last}
			checked := tell.Plain("season.law_never")
			if !s.Checked.IsZero() {
				c.Checked = s.Checked.String()
				checked = tell.Plain("season.law_checked", "date", tell.Date(s.Checked))
			}
			t.Closed = append(t.Closed, c)
			t.seasons = append(t.seasons, tell.Plain("tell.closed", "fish", s.Fish.S, "open", open, "close", last, "checked", checked))
		}
	}
	for _, h := range w.Hazards {
		t.Hazards = append(t.Hazards, h.S)
	}
	if w.Code.S != "" || w.Meet.S != "" || w.HasMeetAt {
		t.Emergency = &emergency{Code: w.Code.S, Meet: w.Meet.S}
		if w.HasMeetAt {
			t.Emergency.At = w.MeetAt.String()
		}
	}
	for _, row := range w.Around(d) {
		t.Flies = append(t.Flies, tell.fly(row, date))
	}
	return t
}

// forTerminal puts ordinary spaces for those that don't break, which a search on a terminal misses, and leaves out
// where a long word may break.
var forTerminal = strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u00ad", "")

func (tell teller) fly(row *figures.Row, date calendar.Date) toldFly {
	d := date.OfYear()
	state, tendency := row.On(d)
	f := toldFly{Fly: row.Fly.Name.S, Address: row.Fly.Address, Group: string(row.Fly.Group), Bred: "water", Listed: row.Listed,
		State: string(state), Tendency: string(tendency), Stages: []toldStage{}}
	if !row.Fly.Group.WaterBred() {
		f.Bred = "land"
	}
	if state != figures.BetweenFlights {
		c := row.Chance[d-1]
		f.Chance = &c
	}
	f.Rests = tell.Never(row)
	m := row.Months[d.Month()-1]
	f.Month = toldMonth{Month: int(d.Month()), Looked: m.Looked, Found: m.Found, Years: append([]int{}, m.Years...),
		Chance: content.Round9(m.Chance), Range: []float64{content.Round9(m.Low), content.Round9(m.High)}, Thin: m.Thin, Evidence: string(m.State), Basis: rests(row, m)}
	f.heading, f.month = tell.State(state, figures.NoTendency), tell.Month(row, d.Month())
	f.head = append(f.head, f.Fly, tell.Or("group", f.Group))
	if tendency != figures.NoTendency {
		f.head = append(f.head, tell.State(state, tendency))
	}
	if f.Chance != nil {
		f.head = append(f.head, tell.Plain("tell.chance", "chance", tell.Percent(*f.Chance), "day", tell.DayIn(date)))
	}
	f.head = append(f.head, f.Rests)
	if !f.Listed {
		f.head = append(f.head, tell.Plain("tag.unlisted"))
	}
	flight := row.FlightAt(d)
	for _, s := range row.Dressings {
		if s.Flight == flight || flight == "" {
			f.Stages = append(f.Stages, tell.stage(row, s, date))
		}
	}
	return f
}

// rests gives the shares of a month's figure.
func rests(row *figures.Row, m figures.MonthHere) []share {
	out := []share{}
	add := func(words string, x float64) {
		if x = content.Round9(x); x > 0 {
			out = append(out, share{words, x})
		}
	}
	own := "own records"
	if m.Looked == 0 {
		own = "own visits in neighbouring months"
	}
	add(own, m.Own)
	var lenders []string
	for _, l := range m.Lenders {
		name := l.Water.Name.S
		if name == "" {
			name = "a water of the club"
		}
		lenders = append(lenders, name)
	}
	add("records lent by "+strings.Join(lenders, ", "), m.Lent)
	if m.Assumed {
		add("assumed, since the fly is not in the water's list", m.Rest)
	} else {
		add("the account", m.Rest)
	}
	return out
}

func (tell teller) stage(row *figures.Row, s figures.StageDressings, date calendar.Date) toldStage {
	t := toldStage{Stage: string(s.Stage), Sex: string(s.Sex), Flight: s.Flight, Hours: []string{}, Hooks: []toldHook{}, Dressings: []toldDressing{},
		Length: content.Round9(s.Length.Length), Measured: s.Length.N, From: s.Length.From, Overall: content.Round9(s.Length.Overall), Share: content.Round9(s.Length.Share)}
	t.which, t.length = tell.Case(s.Stage, s.Sex, ""), tell.Length(s.Length)
	for _, h := range row.HoursOn(date, s.Stage, s.Sex, s.Flight) {
		t.Hours = append(t.Hours, tell.Hours(h.Stretch))
		for _, o := range h.Others {
			t.Others = append(t.Others, tell.Hours(o))
		}
	}
	t.Hours, t.Others = slices.Compact(t.Hours), slices.Compact(t.Others)
	for _, h := range s.Length.Hooks {
		size := h.Size.String()
		if h.Beyond != hook.Within {
			size = beyond(h.Beyond)
		}
		t.Hooks = append(t.Hooks, toldHook{h.Model, size})
		t.hooks = append(t.hooks, tell.Hook(h))
	}
	for _, x := range tell.Ties(s) {
		d := toldDressing{Name: x.Name}
		if x.Size() != nil {
			d.Hook = x.Size().Hook.Size
		} else {
			d.Sizes = tell.Recipe(x.Name)
		}
		t.ties = append(t.ties, strings.TrimSpace(d.Name+" "+d.Hook+d.Sizes))
		if x.Offer != nil {
			d.Score, d.Why = content.Round9(x.Offer.Score), tell.Reasons(*x.Offer)
			t.Dressings = append(t.Dressings, d)
		}
	}
	for _, n := range s.Advice.NotScored {
		t.Named = append(t.Named, n.Name)
		t.named = append(t.named, strings.TrimSpace(n.Name+" "+tell.Recipe(n.Name)))
	}
	t.none = tell.Untied(row.Water, s)
	return t
}

func beyond(b hook.Beyond) string {
	if b == hook.SmallerThanTable {
		return "smaller than any measured"
	}
	return "larger than any measured"
}

// print writes it for a terminal, what must come before advice first.
func (t told) print(out io.Writer, tell teller) {
	w := &strings.Builder{}
	line := func(s string) { fmt.Fprintln(w, s) }
	day := tell.DayIn(t.date)
	line(tell.Plain("tell.heading", "water", t.Water, "about", t.about, "day", day))
	for _, s := range t.seasons {
		line(s)
	}
	said := func(label, text string) {
		if text != "" {
			line(label + " " + strings.Join(strings.Fields(text), " "))
		}
	}
	said(tell.Plain("pocket.rules"), t.Rules)
	said(tell.Plain("river.mind"), tell.Joined(t.Hazards))
	if e := t.Emergency; e != nil {
		said(strings.TrimSpace(tell.Plain("emergency.heading")+tell.Plain("list.colon")), tell.Joined([]string{e.Code, e.Meet, e.At}))
	}
	if t.RecordsTo == "" {
		line(tell.Plain("tell.no_visits"))
	} else {
		line(tell.Plain("foot.records_to", "date", tell.Date(t.recordsTo)))
	}
	if len(t.Flies) == 0 {
		line("\n" + tell.Plain("on.nothing"))
	}
	if !t.Looked && t.RecordsTo != "" {
		line(tell.Plain("tell.unlooked"))
	}
	if slices.ContainsFunc(t.Flies, func(f toldFly) bool { return f.Chance != nil }) {
		line(tell.Plain("tell.chances", "day", day))
	}
	heading := ""
	for _, f := range t.Flies {
		if f.heading != heading {
			heading = f.heading
			line("\n" + strings.ToUpper(heading))
		}
		line("  " + tell.Joined(f.head))
		for _, s := range f.month {
			line("      " + s)
		}
		for _, s := range f.Stages {
			s.print(line, tell)
		}
	}
	io.WriteString(out, forTerminal.Replace(w.String()))
}

func (s toldStage) print(line func(string), tell teller) {
	var parts []string
	if len(s.Hours) > 0 {
		hours := tell.List(s.Hours)
		if len(s.Others) > 0 {
			hours = tell.Plain("hours_others", "hours", hours, "others", tell.List(s.Others))
		}
		parts = append(parts, hours)
	}
	parts = append(append(parts, s.length), s.hooks...)
	if said := tell.Joined(parts); said != "" {
		line("      " + tell.Plain("reading.month", "month", s.which, "says", said))
	} else if len(s.Dressings)+len(s.Named) > 0 {
		line("      " + s.which)
	} else {
		return
	}
	for _, d := range s.Dressings {
		name := d.Name
		if d.Hook != "" {
			name = tell.Plain("tell.with", "name", name, "what", d.Hook)
		} else if d.Sizes != "" {
			name += " " + d.Sizes
		}
		line("          " + tell.Plain("tell.offer", "dressing", name, "score", tell.Plain("offer.score", "n", content.Decimal(d.Score, 0)), "why", tell.Joined(d.Why)))
	}
	if len(s.Named) > 0 {
		line("          " + tell.Plain("offer.named") + " " + tell.List(s.named))
	}
	if len(s.Dressings)+len(s.Named) == 0 {
		line("          " + s.none)
	}
}
