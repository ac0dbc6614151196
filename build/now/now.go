// Package now says what is on around a date. The device's date is not known when the page is made, so the page holds
// what can be said of each fly as data: its year as runs of states, its chances, and for each stage
// hours, hook and dressing. The script of the page looks the date up and builds the rows; it reckons
// nothing. Without it a list of half-months stands.
package now

import (
	"cmp"
	"fmt"
	"html/template"
	"reflect"
	"slices"
	"strconv"
	"time"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
	"guidegen/species/tying"
)

// printer makes what the pages say around a date.
type printer struct {
	*view.Printer
	book  *figures.Book
	words *lang.Words
}

// On is what a water's page says around a date.
func On(p *view.Printer, book *figures.Book, at string, w *figures.Water) OnView {
	return printer{p, book, p.Words()}.on(at, w)
}

// OfFly is what a fly's page holds for the script: its waters, each under its name.
func OfFly(p *view.Printer, book *figures.Book, at string, f *figures.Fly) any {
	return printer{p, book, p.Words()}.onDataOfFly(at, f)
}

// OnView is what the page says around a date.
type OnView struct {
	Cells    []OnCell
	Unlooked string // the half-months in which nobody looked, for the script: "01a 12b"
	Data     template.HTML
	Scale    string // CSS pixels to a millimetre, of all its drawings
}

// OnCell is one half-month with the flies on in it.
type OnCell struct {
	Cell  string
	Short string
	Flies []lang.Link

	Unlooked bool // nobody looked: what isn't expected is not known either
}

// onData is what the script looks up. A text that many flies share stands once and is named by its place
// in the list.
type onData struct {
	States []string     `json:"states"`
	Shown  []string     `json:"shown"` // the states' words
	Months []string     `json:"months"`
	Texts  []string     `json:"texts"`
	Hours  []onHours    `json:"hours"`
	Ties   []flightData `json:"ties"`
	Flies  []flyData    `json:"flies"`
}

// flyData is one fly. Runs are [from, to, state, flight], days from 1 to 365, states and flights as
// places in their lists. C holds the chance of each run in thousandths, as view.Steps: that of its first day, then each
// day's difference from the day before. R and C have one length.
type flyData struct {
	Name     string           `json:"n"`
	Href     string           `json:"h"`
	Order    int              `json:"o"` // among flies of one chance
	Runs     [][4]int         `json:"r"`
	C        []string         `json:"c"`
	Drawing  string           `json:"i,omitempty"`
	Drawn    map[string]drawn `json:"z,omitempty"` // by flight; "-1" where the flight says nothing
	Cells    string           `json:"b"`           // the state of each half-month: f, l or u
	Basis    string           `json:"e"`           // of each month: 3 mostly own visits … 0 nobody looked
	Counted  [12]int          `json:"t"`           // of each month, among the texts
	Unlisted bool             `json:"u,omitempty"`
	Never    string           `json:"v,omitempty"`
	Coming   [][2]int         `json:"q,omitempty"` // the flights in which it is on at some time, by their dates here
	Stages   []stageData      `json:"s,omitempty"`
}

// drawn is a fly at the page's scale: [width, height, "6.7–7.1 mm"], pixels.
type drawn [3]string

// stageData is one line: a stage with its hours, and for each flight its hook and dressings, by their place among the ties.
type stageData struct {
	Name    string         `json:"n"`
	Sex     string         `json:"x,omitempty"` // in short, where the line is for one
	Kind    string         `json:"k"`           // ShortDun, ShortSpinner or ShortUnder
	Hours   []stageHours   `json:"h,omitempty"` // in the order of the account
	Flights map[string]int `json:"f"`           // by number; "-1" for all
	Under   int            `json:"w,omitempty"` // a female that lays under water: 1 known, 2 said to, from memory alone
}

// stageHours is [hours, flight or -1, sex in words, what others say …].
type stageHours struct {
	Hours  int    `json:"i"`
	Dusk   bool   `json:"e,omitempty"` // of the evening
	Flight int    `json:"f"`
	Sex    string `json:"x,omitempty"`
	Others []int  `json:"o,omitempty"`
}

// flightData is what to tie on for a stage in one flight; None where the box holds nothing for it.
type flightData struct {
	Hook      string         `json:"k,omitempty"` // asked for, where no dressing names one
	None      string         `json:"w,omitempty"` // why there is none, where the box isn't empty for it
	Dressings []dressingData `json:"d,omitempty"`
}

// dressingData is one dressing: name, address, the hook to tie it on and where it is fished.
type dressingData struct {
	Name  string `json:"n"`
	Href  string `json:"h"`
	Hook  string `json:"k,omitempty"`
	Level string `json:"l,omitempty"`
	Sunk  bool   `json:"s,omitempty"` // fished below the film and not on top
	Sex   string `json:"x,omitempty"` // in short, where it imitates one sex of the fly alone
}

// onHours is one stretch of hours: runs of days [first day, from, to] in minutes. An end set by the sun
// (Sun 1 the start, 2 the end, 3 both) is in UTC, any other by the water's clock. A day without such hours,
// and hours that can't be told by the clock, have words instead: [first day, "the sun does not set"]. Where the sun's
// ends then move by five minutes at a time, a run ends with view.Steps: the days to each move, less than 0 where it is earlier.
type onHours struct {
	Runs [][]any `json:"r"`
	Sun  int     `json:"a,omitempty"`
	Zone string  `json:"z,omitempty"` // the water's, IANA name
}

// The kinds of lines of the short list for the reader's date: flies fresh on the water, flies back to lay, what rises to
// hatch, and what is below while nothing shows. The script puts a fly on the water by its hours into the day or the
// evening, and what is fished below for it beside what rises.
const (
	ShortDun     = "dun"
	ShortSpinner = "spinner"
	ShortRise    = "rise"
	ShortUnder   = "under"
)

func shortKind(f *figures.Fly, st species.Stage) string {
	how, _ := f.Emerges.First()
	switch {
	case st == species.Spinner:
		return ShortSpinner
	case st == species.Pupa:
		return ShortRise
	case st.OnTheWing() && how.Value != species.NeverEmerge:
		return ShortDun
	}
	return ShortUnder
}

func (p printer) on(at string, w *figures.Water) OnView {
	var v OnView
	for c := calendar.Cell(0); c < calendar.Cells; c++ {
		cell := OnCell{Cell: p.words.Cell(c), Short: c.String(), Unlooked: !w.Coverage.Looked(c)}
		for _, r := range w.OnCell(c) {
			cell.Flies = append(cell.Flies, p.FlyLink(at, r.Fly))
		}
		v.Cells = append(v.Cells, cell)
	}
	v.Unlooked = view.UnlookedCells(w)
	v.Data = view.JsonBlock("on-data", p.onData(at, w))
	return v
}

// hoursKey is a span on one water: the sun's times differ from place to place.
type hoursKey struct {
	water string
	span  calendar.Span
}

// onMaker gathers a page's data: texts and hours stand once.
type onMaker struct {
	printer
	at    string
	water *figures.Water
	data  onData
	texts map[string]int
	ties  map[string]int
	hours map[hoursKey]int
	spans []spanHere // of data.Hours, until they are told
}

// spanHere is a span on one water, and the days on which a fly with these hours is shown there.
type spanHere struct {
	water *figures.Water
	span  calendar.Span
	days  [calendar.Year]bool
}

func (p printer) onMaker(at string) *onMaker {
	m := &onMaker{printer: p, at: at, texts: map[string]int{}, ties: map[string]int{}, hours: map[hoursKey]int{}}
	for _, s := range view.OnStates {
		m.data.States = append(m.data.States, s.Key)
		m.data.Shown = append(m.data.Shown, p.words.Plain("on_state."+s.Key))
	}
	for i := 1; i <= 12; i++ {
		m.data.Months = append(m.data.Months, p.words.Month(i))
	}
	return m
}

// onData is a water's flies.
func (p printer) onData(at string, w *figures.Water) onData {
	m := p.onMaker(at)
	m.water = w
	order := slices.Clone(w.Rows)
	slices.SortStableFunc(order, figures.ByClass)
	scale := p.rowScale(w)
	for _, r := range w.Rows {
		f := m.fly(r, scale)
		f.Order = slices.Index(order, r)
		m.data.Flies = append(m.data.Flies, f)
	}
	return m.told()
}

// onDataOfFly is a fly's waters, each under its name.
func (p printer) onDataOfFly(at string, f *figures.Fly) onData {
	m := p.onMaker(at)
	for _, r := range f.Rows {
		m.water = r.Water
		x := m.fly(r, 0)
		x.Name, x.Href = r.Water.Name.S, m.Deps.Site.Link(at, view.WaterPage(r.Water))
		m.data.Flies = append(m.data.Flies, x)
	}
	return m.told()
}

// told is the data with its hours, which are told on the days alone on which one of their flies is shown.
func (m *onMaker) told() onData {
	for _, s := range m.spans {
		m.data.Hours = append(m.data.Hours, m.hoursOf(s))
	}
	return m.data
}

func (m *onMaker) text(s string) int {
	i, ok := m.texts[s]
	if !ok {
		i = len(m.data.Texts)
		m.texts[s], m.data.Texts = i, append(m.data.Texts, s)
	}
	return i
}

// tie is the place of what to tie on among the page's.
func (m *onMaker) tie(f flightData) int {
	key := fmt.Sprintf("%#v", f)
	i, ok := m.ties[key]
	if !ok {
		i = len(m.data.Ties)
		m.ties[key], m.data.Ties = i, append(m.data.Ties, f)
	}
	return i
}

func (m *onMaker) fly(r *figures.Row, scale float64) flyData {
	f := flyData{Name: r.Fly.Name.S, Href: m.Deps.Site.Link(m.at, view.FlyPage(r.Fly)), Runs: runsOf(r), C: []string{},
		Unlisted: !r.Listed, Never: m.words.Never(r)}
	for _, s := range r.Coming {
		f.Coming = append(f.Coming, [2]int{int(s.From), int(s.To)})
	}
	for _, run := range f.Runs {
		var steps []int
		before := 0
		for d := run[0]; d <= run[1]; d++ {
			c := figures.PerMille(r.Chance[d-1])
			steps = append(steps, c-before)
			before = c
		}
		f.C = append(f.C, view.Steps(steps))
	}
	for _, c := range r.Cells {
		f.Cells += view.CellState(c)
	}
	for i := range r.Months {
		f.Basis += view.BasisMark(&r.Months[i])
		f.Counted[i] = m.text(m.Counted(&r.Months[i]))
	}
	m.draw(&f, r, scale)
	f.Stages = m.stages(r)
	return f
}

// rowWide is the tray of a row, in CSS pixels; rowScale what a millimetre takes there at most.
const (
	RowWide  = 118.0
	RowScale = 3.0
)

// rowScale is the one scale of a water's page: the widest fly has its tray.
func (p printer) rowScale(w *figures.Water) float64 {
	scale := RowScale
	for _, r := range w.Rows {
		for _, g := range p.drawnLengths(r, "", true) {
			if pic := p.FlyPicture(r.Fly).To(g); pic.WidthMM > 0 {
				scale = min(scale, RowWide/pic.WidthMM)
			}
		}
	}
	return scale
}

// drawnLengths are the lengths of the stage a row shows, in millimetres as it is drawn, in one flight or in all.
func (p printer) drawnLengths(r *figures.Row, flight string, all bool) []float64 {
	var out []float64
	for _, s := range r.Sizes {
		if s.Stage == view.RowStage(r.Fly) && s.Hook.Length > 0 && (all || s.Flight == "" || s.Flight == flight) {
			out = append(out, content.Round9(p.Album.Drawn(r.Fly, s.Stage, s.Hook)))
		}
	}
	return out
}

func (m *onMaker) draw(f *flyData, r *figures.Row, scale float64) {
	pic := m.FlyPicture(r.Fly)
	if !pic.Known() || scale == 0 {
		return
	}
	f.Drawing, f.Drawn = m.Deps.Site.Link(m.at, cmp.Or(pic.Small, pic.Address)), map[string]drawn{}
	add := func(key, flight string) {
		lengths, d := m.drawnLengths(r, flight, false), drawn{}
		if len(lengths) > 0 {
			low, high := slices.Min(lengths), slices.Max(lengths)
			d[0], d[1] = pic.To(high).Pixels(scale)
			d[2] = m.RangeText(m.Lengths(low, high, 1, content.Basis{}))
		} else {
			d[0], d[1] = pic.Pixels(scale)
		}
		f.Drawn[key] = d
	}
	add("-1", "")
	for i, fl := range r.Fly.Flights {
		add(strconv.Itoa(i), fl.Name)
	}
}

// stages are the lines of a fly's row: what a fish meets first, with advice or hours, sexes that want the same
// on one line.
func (m *onMaker) stages(r *figures.Row) []stageData {
	var out []stageData
	var before view.StageSex
	for _, st := range view.StagesOf(r) {
		s := stageData{Name: m.ShortCase(st), Sex: m.ShortSex(st), Kind: shortKind(r.Fly, st.Stage), Flights: map[string]int{},
			Under: laysUnder(r.Fly, st)}
		offered := false
		for _, sd := range r.Dressings {
			if sd.Stage == st.Stage && sd.Sex == st.Sex {
				f := m.flight(r, sd)
				offered = offered || len(f.Dressings) > 0
				s.Flights[flightKey(r, sd.Flight)] = m.tie(f)
			}
		}
		if !st.Stage.OnTheWing() && !offered {
			continue // what shows in the hand or on the water has room; an empty line for a larva doesn't
		}
		s.Hours = m.stageHours(r, st)
		if n := len(out) - 1; n >= 0 && before.Stage == st.Stage && before.Sex != st.Sex && alike(out[n], s) {
			out[n].Name, out[n].Sex = m.ShortCase(view.StageSex{Stage: st.Stage}), ""
		} else {
			out = append(out, s)
		}
		before = st
	}
	return out
}

// flightKey is the place of a flight among those of a fly; "-1" where it has one.
func flightKey(r *figures.Row, name string) string {
	if len(r.Fly.Flights) < 2 {
		return "-1"
	}
	return strconv.Itoa(view.FlightPlace(r, name))
}

// laysUnder reports whether the line is for females that go under water to lay: 1 where that is known, 2 where it is
// from memory alone.
func laysUnder(f *figures.Fly, st view.StageSex) int {
	lays, _ := f.Lays.First()
	if lays.Value != species.LaysUnderWater || !st.Stage.OnTheWing() || st.Stage == species.Dun || st.Sex == species.Male {
		return 0
	}
	return 1 + view.BoolInt(lays.Basis.FromMemory())
}

// alike reports whether two sexes of a stage want the same hours, hooks and dressings.
func alike(a, b stageData) bool {
	a.Name, b.Name, a.Sex, b.Sex = "", "", "", ""
	return reflect.DeepEqual(a, b)
}

// flight is what to tie on for a stage in one flight, each dressing on its hook.
func (m *onMaker) flight(r *figures.Row, sd figures.StageDressings) flightData {
	var f flightData
	for _, t := range m.Ties(sd) {
		hook := m.TieHook(t.Name, t.Size())
		if t.Size() != nil {
			hook = m.hookFor(sd, *t.Offer)
		}
		f.Dressings = append(f.Dressings, m.dressing(r, sd, t.Name, hook))
	}
	if len(f.Dressings) == 0 {
		if f.Hook = m.HookAsked(sd); sd.Advice.Barred() {
			f.Hook, f.None = "", m.Untied(m.water, sd)
		}
	}
	return f
}

func (m *onMaker) dressing(r *figures.Row, sd figures.StageDressings, name, hook string) dressingData {
	link := m.DressingNamed(m.at, name)
	d := dressingData{Name: link.Text, Href: link.Href, Hook: hook}
	x := m.Dressings[name]
	if x == nil {
		return d
	}
	d.Level = m.LevelsIn("level_short", x.Fishes)
	d.Sunk = m.Sunk(name)
	for _, s := range x.Dressing.For {
		if sd.Sex == species.NoSex && s.Sex != species.NoSex && slices.Contains(s.Accounts, r.Fly.Address) && (len(s.Stages) == 0 || slices.Contains(s.Stages, sd.Stage)) {
			d.Sex = m.ShortSex(view.StageSex{Stage: sd.Stage, Sex: s.Sex})
		}
	}
	return d
}

// hookFor is the hook to tie an offer on; where it is the dressing's largest or smallest and not the one that the
// fly asks for, it says so.
func (m *onMaker) hookFor(sd figures.StageDressings, o tying.Offer) string {
	h := o.Size.Hook
	text := m.HookText(h)
	d := m.Dressings[o.Name]
	if d == nil || len(d.Sizes) == 0 {
		return text
	}
	for _, asked := range sd.Length.Hooks {
		if asked.Model != h.Model || asked.Size.String() == h.Size {
			continue
		}
		largest, smallest := d.Sizes[0], d.Sizes[0]
		for _, s := range d.Sizes {
			if s.Step() > largest.Step() {
				largest = s
			}
			if s.Step() < smallest.Step() {
				smallest = s
			}
		}
		switch {
		case h.Size == largest.String() && asked.Size.Step() > largest.Step():
			return m.words.Plain("hook_largest", "hook", text)
		case h.Size == smallest.String() && asked.Size.Step() < smallest.Step():
			return m.words.Plain("hook_smallest", "hook", text)
		}
	}
	return text
}

// stageHours are the hours of a stage in each flight, those of the sexes apart where the account tells them apart.
func (m *onMaker) stageHours(r *figures.Row, st view.StageSex) []stageHours {
	var out []stageHours
	for _, h := range r.Hours {
		if h.Stage != st.Stage || st.Sex != "" && h.Sex != "" && h.Sex != st.Sex {
			continue
		}
		x := stageHours{Hours: m.stretch(r, h.Stretch), Flight: -1, Dusk: h.Stretch.Span.Evening()}
		if len(r.Fly.Flights) > 1 {
			x.Flight = view.FlightPlace(r, h.Flight)
		}
		if h.Sex != "" && st.Sex == "" {
			x.Sex = m.words.Or("sex", string(h.Sex))
		}
		for _, o := range h.Others {
			x.Others = append(x.Others, m.stretch(r, o))
		}
		if !slices.ContainsFunc(out, func(y stageHours) bool { return reflect.DeepEqual(x, y) }) {
			out = append(out, x)
		}
	}
	for i := 0; i < len(out); i++ { // flights with the same hours share a line
		keep := out[i] // not out[i] below: deleting moves it
		same := func(y stageHours) bool {
			return y.Hours == keep.Hours && y.Sex == keep.Sex && slices.Equal(y.Others, keep.Others)
		}
		n := 0
		for _, y := range out {
			n += view.BoolInt(same(y))
		}
		if n > 1 && n == len(r.Fly.Flights) {
			keep.Flight = -1
			out = append(slices.DeleteFunc(out, same), keep)
			i = -1
		}
	}
	return out
}

// stretch is the place of a stretch of a row's hours among the page's.
func (m *onMaker) stretch(r *figures.Row, s figures.Stretch) int {
	key := hoursKey{m.water.Address, s.Span}
	i, ok := m.hours[key]
	if !ok {
		i = len(m.spans)
		m.hours[key], m.spans = i, append(m.spans, spanHere{water: m.water, span: s.Span})
	}
	for _, run := range runsOf(r) {
		for d := run[0]; d <= run[1]; d++ {
			m.spans[i].days[d-1] = true
		}
	}
	return i
}

func (m *onMaker) hoursOf(s spanHere) onHours {
	h, span := onHours{}, s.span
	m.water = s.water
	if m.water.Zone != nil {
		h.Zone = m.water.ZoneName
	}
	if span.From.Sun != calendar.NoSun {
		h.Sun |= 1
	}
	if span.To.Sun != calendar.NoSun {
		h.Sun |= 2
	}
	if h.Sun == 0 {
		h.Runs = [][]any{{1, int(span.From.Minutes), int(span.To.Minutes)}}
		return h
	}
	if !m.water.HasSun() {
		h.Sun, h.Runs = 0, [][]any{{1, m.words.Span(span)}}
		return h
	}
	for d := calendar.Day(1); d <= calendar.Year; d++ {
		if !s.days[d-1] {
			continue
		}
		run := m.sunHours(span, d, h.Sun)
		if n := len(h.Runs); n == 0 || !slices.Equal(h.Runs[n-1][1:], run[1:]) {
			h.Runs = append(h.Runs, run)
		}
	}
	if len(h.Runs) == 0 {
		h.Runs = [][]any{{1, m.words.Span(span)}} // never shown, never asked for
	}
	h.Runs = moved(h.Runs, h.Sun)
	return h
}

// moved joins runs that differ from the one before by five minutes at each end that the sun sets.
func moved(runs [][]any, sun int) [][]any {
	var out [][]any
	var steps []int
	for i, run := range runs {
		if i > 0 && len(run) == 3 && len(runs[i-1]) == 3 {
			before := runs[i-1]
			from, to := run[1].(int)-before[1].(int), run[2].(int)-before[2].(int)
			for _, five := range []int{5, -5} {
				if from == five*(sun&1) && to == five*(sun>>1) {
					steps = append(steps, (run[0].(int)-before[0].(int))*five/5)
					run = nil
					break
				}
			}
			if run == nil {
				last := len(out) - 1
				out[last] = append(out[last][:3:3], view.Steps(steps))
				continue
			}
		}
		out, steps = append(out, run), nil
	}
	return out
}

// sunHours are the hours of one day of the year that the guide is built in.
func (m *onMaker) sunHours(span calendar.Span, d calendar.Day, sun int) []any {
	date := calendar.Date{Year: m.book.Built.Year, Month: d.Month(), Day: d.DayOfMonth()}
	s := m.water.HoursOn(span, date)
	if s.SunWord != "" {
		return []any{int(d), m.words.Or("sun", s.SunWord)}
	}
	_, offset := time.Date(date.Year, date.Month, date.Day, 12, 0, 0, 0, m.water.Zone).Zone()
	end := func(c calendar.Clock, bit int) int {
		if sun&bit == 0 {
			return int(c)
		}
		return (int(c) - offset/60 + 2*24*60) % (24 * 60)
	}
	return []any{int(d), end(s.From, 1), end(s.To, 2)}
}

// runsOf are the runs in which something is to be said, split where another flight comes nearer.
func runsOf(r *figures.Row) [][4]int {
	out := [][4]int{}
	for _, run := range r.Runs {
		s := view.StateOf(run)
		if s < 0 {
			continue
		}
		for d := run.From; d <= run.To; d++ {
			f := view.FlightPlace(r, r.FlightAt(d))
			if n := len(out) - 1; n >= 0 && out[n][1] == int(d)-1 && out[n][2] == s && out[n][3] == f && d > run.From {
				out[n][1] = int(d)
				continue
			}
			out = append(out, [4]int{int(d), int(d), s, f})
		}
	}
	return out
}
