package main

// What tell says of one water on one day: gathered once, printed as text or JSON.

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
	"guidegen/species/hook"
	"guidegen/species/tying"
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
	about     string
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
}

type toldHook struct {
	Model string `json:"model"`
	Size  string `json:"size"`
}

type toldDressing struct {
	Name  string   `json:"name"`
	Score float64  `json:"score"`
	Hook  string   `json:"hook,omitempty"`
	Why   []string `json:"why"`
}

// mostDressings is how many dressings are named for a stage.
const mostDressings = 2

// teller words what is told as the guide's pages do: in its units and its words.
type teller struct {
	units guide.Units
	words *lang.Words
}

func newTeller(b *figures.Book) (teller, error) {
	words, err := lang.WordsOf(b.Edition.Guide)
	return teller{b.Edition.Settings.Units, words}, err
}

// length is millimetres in the guide's unit.
func (t teller) length(mm float64) string {
	f := view.Length(t.units, mm, 1, content.Basis{})
	return f.Number() + " " + f.Unit()
}

// around gathers what is on around a date.
func (tell teller) around(w *figures.Water, date calendar.Date) told {
	d := date.OfYear()
	t := told{Water: w.Name.S, Address: w.Address, On: date.String(), Closed: []closed{}, Rules: w.Rules.S, Hazards: []string{}, Flies: []toldFly{}, Looked: w.Coverage.Looked(d.Cell()), date: date}
	about := []string{string(w.Kind), plainSpaces(tell.words.Range(view.Altitude(tell.units, w.Altitude, w.Basis)))}
	t.about = strings.Join(slices.DeleteFunc(about, func(s string) bool { return s == "" }), ", ")
	if !w.RecordsTo.IsZero() {
		t.RecordsTo = w.RecordsTo.String()
	}
	for _, s := range w.Seasons {
		if s.Open.Valid() && s.Close.Valid() && !calendar.Within(d, s.Open, s.Close) {
			c := closed{Fish: s.Fish.S, Open: dayText(s.Open), Close: dayText(s.Close)}
			if !s.Checked.IsZero() {
				c.Checked = s.Checked.String()
			}
			t.Closed = append(t.Closed, c)
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

func dayText(d calendar.Day) string { return fmt.Sprintf("%d %s", d.DayOfMonth(), d.Month()) }

// plainSpaces puts ordinary spaces for those that don't break, which a search on a terminal misses.
func plainSpaces(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

func (tell teller) fly(row *figures.Row, date calendar.Date) toldFly {
	d := date.OfYear()
	state, tendency := row.On(d)
	f := toldFly{Fly: row.Fly.Name.S, Address: row.Fly.Address, Group: string(row.Fly.Group), Bred: "water", Listed: row.Listed,
		State: string(state), Tendency: string(tendency), Stages: []toldStage{}}
	if !row.Fly.Group.WaterBred() {
		f.Bred = "land"
	}
	if state != figures.BetweenFlights {
		c := content.Round9(row.Chance[d-1])
		f.Chance = &c
	}
	f.Rests = tell.words.Never(row)
	m := row.Months[d.Month()-1]
	f.Month = toldMonth{Month: int(d.Month()), Looked: m.Looked, Found: m.Found, Years: append([]int{}, m.Years...),
		Chance: content.Round9(m.Chance), Range: []float64{content.Round9(m.Low), content.Round9(m.High)}, Thin: m.Thin, Evidence: string(m.State), Basis: rests(row, m)}
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
	for _, h := range row.HoursOn(date, s.Stage, s.Sex, s.Flight) {
		t.Hours = append(t.Hours, tell.hours(h.Stretch))
		for _, o := range h.Others {
			t.Others = append(t.Others, tell.hours(o))
		}
	}
	t.Hours, t.Others = slices.Compact(t.Hours), slices.Compact(t.Others)
	for _, h := range s.Length.Hooks {
		switch h.Beyond {
		case hook.Within:
			t.Hooks = append(t.Hooks, toldHook{h.Model, h.Size.String()})
		default:
			t.Hooks = append(t.Hooks, toldHook{h.Model, beyond(h.Beyond)})
		}
	}
	for _, o := range s.Short(mostDressings) {
		d := toldDressing{Name: o.Name, Score: content.Round9(o.Score), Why: tell.reasons(o, s.Stage)}
		if o.Size != nil {
			d.Hook = o.Size.Hook.Size
		}
		t.Dressings = append(t.Dressings, d)
	}
	for _, n := range s.Advice.NotScored {
		t.Named = append(t.Named, n.Name)
	}
	return t
}

// hours are clock times, or hours against the sun in words where there are none.
func (tell teller) hours(s figures.Stretch) string {
	switch {
	case s.From != calendar.NoClock && s.To != calendar.NoClock:
		return s.From.String() + " to " + s.To.String()
	case s.SunWord == figures.NoPlace || s.SunWord == figures.NoZone || s.SunWord == "":
		return tell.words.Span(s.Span)
	}
	return s.SunWord
}

func beyond(b hook.Beyond) string {
	if b == hook.SmallerThanTable {
		return "smaller than any measured"
	}
	return "larger than any measured"
}

// at words a level as a place.
var at = map[tying.Level]string{tying.Bottom: "on the bottom", tying.Midwater: "in midwater", tying.Film: "in the film", tying.Surface: "on the surface"}

// reasons words the parts of a dressing's score.
func (tell teller) reasons(o tying.Offer, stage species.Stage) []string {
	out := []string{}
	if s := o.Size; s != nil {
		off := content.Round9(s.Longer)
		by := tell.length(max(off, -off))
		switch {
		case content.Decimal(max(off, -off), 1) == "0.0":
			out = append(out, "of the fly's length")
		case off > 0:
			out = append(out, by+" longer than the fly")
		default:
			out = append(out, by+" shorter than the fly")
		}
	}
	if c := o.Colour; c != nil {
		var parts []string
		for _, p := range c.Parts {
			parts = append(parts, p.Name+" "+content.Decimal(p.DeltaE, 0))
		}
		out = append(out, "colour difference ΔE "+strings.Join(parts, ", "))
	}
	if p := o.Place; p != nil {
		if p.Natural == p.Dressing {
			out = append(out, fmt.Sprintf("fishes %s, where the %s is", at[p.Dressing], stage))
		} else {
			out = append(out, fmt.Sprintf("fishes %s, while the %s is %s", at[p.Dressing], stage, at[p.Natural]))
		}
	}
	switch o.Named.By {
	case tying.ByFly:
		out = append(out, "named for the fly")
	case tying.ByGroup:
		out = append(out, "named for its group")
	}
	return out
}

func percent(x float64) string { return content.Decimal(100*x, 0) + " %" }

// print writes it for a terminal, what must stand before advice first.
func (t told) print(w io.Writer, tell teller) {
	about := t.about
	if about != "" {
		about = ", " + about
	}
	fmt.Fprintf(w, "%s%s: around %s\n", t.Water, about, dayText(t.date.OfYear()))
	for _, c := range t.Closed {
		checked := "the dates were never checked"
		if c.Checked != "" {
			checked = "checked " + c.Checked
		}
		fmt.Fprintf(w, "CLOSED for %s: open from %s to %s (%s)\n", c.Fish, c.Open, c.Close, checked)
	}
	if t.Rules != "" {
		fmt.Fprintf(w, "rules here: %s\n", strings.Join(strings.Fields(t.Rules), " "))
	}
	if len(t.Hazards) > 0 {
		fmt.Fprintf(w, "beware: %s\n", strings.Join(t.Hazards, "; "))
	}
	if e := t.Emergency; e != nil {
		fmt.Fprintf(w, "in an emergency: %s\n", strings.Join(slices.DeleteFunc([]string{e.Code, e.Meet, e.At}, func(s string) bool { return s == "" }), ", "))
	}
	if t.RecordsTo == "" {
		fmt.Fprintln(w, "no visits here; the figures rest on the accounts and on other waters")
	} else {
		fmt.Fprintf(w, "records to %s\n", t.RecordsTo)
	}
	if len(t.Flies) == 0 {
		fmt.Fprintln(w, "\nnothing is expected around this date")
	}
	if !t.Looked && t.RecordsTo != "" {
		fmt.Fprintln(w, "nobody has looked here in this half-month: the figures rest on the accounts and on neighbouring dates")
	}
	day := dayText(t.date.OfYear())
	if slices.ContainsFunc(t.Flies, func(f toldFly) bool { return f.Chance != nil }) {
		fmt.Fprintf(w, "a chance is the share of visits that find the fly: of visits around %s, and below it of visits on any day of the month\n", day)
	}
	state := ""
	for _, f := range t.Flies {
		if f.State != state {
			state = f.State
			fmt.Fprintf(w, "\n%s\n", strings.ToUpper(state))
		}
		f.print(w, tell, day)
	}
}

func (f toldFly) print(w io.Writer, tell teller, day string) {
	head := []string{f.Fly, f.Group}
	if f.Bred == "land" {
		head[1] = "land-bred, on the water"
	}
	if f.Tendency != "" {
		head = append(head, f.Tendency)
	}
	if f.Chance != nil {
		head = append(head, "chance "+percent(*f.Chance)+" around "+day)
	}
	if f.Rests != "" {
		head = append(head, f.Rests)
	}
	if !f.Listed {
		head = append(head, "not in the water's list")
	}
	fmt.Fprintf(w, "  %s\n", strings.Join(head, "; "))
	m := f.Month
	name := calendar.FirstOf(monthOf(m.Month)).Month().String()
	switch {
	case m.Looked > 0:
		thin := ""
		if m.Thin {
			thin = "; thin evidence"
		}
		fmt.Fprintf(w, "      %s: found on %d of %s in %s%s\n", name, m.Found, several(m.Looked, "visit"), several(len(m.Years), "year"), thin)
	default:
		fmt.Fprintf(w, "      %s: nobody looked\n", name)
	}
	if m.Evidence != string(figures.NotExpected) {
		var rest []string
		for _, s := range m.Basis {
			rest = append(rest, s.Rests+" "+percent(s.Share))
		}
		fmt.Fprintf(w, "      %s over all of %s, 80 %% range %s to %s; rests on %s\n", percent(m.Chance), name, percent(m.Range[0]), percent(m.Range[1]), strings.Join(rest, ", "))
	}
	for _, s := range f.Stages {
		s.print(w, tell)
	}
}

func (s toldStage) print(w io.Writer, tell teller) {
	head := strings.TrimSpace(s.Sex + " " + s.Stage)
	var parts []string
	if len(s.Hours) > 0 {
		hours := strings.Join(s.Hours, " and ")
		if len(s.Others) > 0 {
			hours += " (others say " + strings.Join(s.Others, " or ") + ")"
		}
		parts = append(parts, hours)
	}
	if s.Length > 0 {
		from := s.From
		if s.Measured > 0 {
			from = fmt.Sprintf("%d measured, %s", s.Measured, s.From)
		}
		said := fmt.Sprintf("%s (%s)", tell.length(s.Length), from)
		if s.Share > 0 {
			said = fmt.Sprintf("body about %s (%s of %s overall, %s)", tell.length(s.Length), content.Decimal(s.Share, 2), tell.length(s.Overall), from)
		}
		parts = append(parts, said)
	}
	for _, h := range s.Hooks {
		parts = append(parts, h.Model+" "+h.Size)
	}
	if len(parts) == 0 && len(s.Dressings)+len(s.Named) == 0 {
		return
	}
	fmt.Fprintln(w, strings.TrimRight("      "+head+": "+strings.Join(parts, "; "), " "))
	for _, d := range s.Dressings {
		at := ""
		if d.Hook != "" {
			at = " on " + content.A(d.Hook)
		}
		fmt.Fprintf(w, "          %s%s, score %s: %s\n", d.Name, at, content.Decimal(d.Score, 0), strings.Join(d.Why, "; "))
	}
	for _, name := range s.Named {
		fmt.Fprintf(w, "          %s, not scored: neither its size nor its colour is known\n", name)
	}
	if len(s.Dressings)+len(s.Named) == 0 {
		fmt.Fprintln(w, "          nothing in the box")
	}
}
