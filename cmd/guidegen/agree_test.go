package main

// A site that agrees with itself: what its pages, data files, cards, tying lists and calendars say of each fly on each
// day is what tell says. Random guides are published whole and read back from the files.

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"guidegen/build"
	"guidegen/build/figures"
	"guidegen/build/trial"
	"guidegen/build/view"
	"guidegen/content/calendar"
	"guidegen/species/tying"
)

// riverJSON is of data/rivers/*.json what speaks of days.
type riverJSON struct {
	Flies map[string]struct {
		Days      []float64
		Runs      []runJSON
		Cells     []struct{ Cell, State string }
		Flights   []flightJSON
		Dressings []adviceJSON
	}
}

type runJSON struct {
	From, To        int
	State, Tendency string
}

type flightJSON struct {
	Name     string
	From, To struct{ Day int }
	Records  struct{ P10, P90 struct{ Day int } }
}

type adviceJSON struct {
	Stage, Sex, Flight string
	Offered            []struct {
		Name  string
		Parts struct{ Named struct{ By string } }
	}
}

// onJSON is what the script of a water's or a fly's page looks up.
type onJSON struct {
	States []string `json:"states"`
	Hours  []struct {
		Runs [][]any `json:"r"`
		Sun  int     `json:"a"`
		Zone string  `json:"z"`
	} `json:"hours"`
	Ties  []onTie `json:"ties"`
	Flies []onFly `json:"flies"`
}

type onFly struct {
	Name   string    `json:"n"`
	Href   string    `json:"h"`
	Runs   [][4]int  `json:"r"`
	C      []string  `json:"c"`
	Cells  string    `json:"b"`
	Stages []onStage `json:"s"`
}

type onStage struct {
	Name  string `json:"n"`
	Hours []struct {
		Hours  int    `json:"i"`
		Flight int    `json:"f"`
		Sex    string `json:"x"`
		Others []int  `json:"o"`
	} `json:"h"`
	Flights map[string]int `json:"f"`
}

type onTie struct {
	None      string `json:"w"`
	Dressings []struct {
		Name string `json:"n"`
		Hook string `json:"k"`
	} `json:"d"`
}

// tripData is what the script of a trip's page reckons with.
type tripData struct {
	Dressings []struct{ N string }
	Hooks     []struct{ T string }
	Flies     []tripFly
}

type tripFly struct {
	H       string
	C       []int
	Due     [][2]int `json:"on"`
	On      [][2]int `json:"e"`
	Flights [][3]int `json:"f"`
	Stages  []struct {
		ID     string
		Serves [][4]int `json:"d"`
	} `json:"st"`
}

type frontJSON struct {
	Flies  []struct{ H string }
	Waters []struct {
		F []int
		R string // runs: days, how many are on, the first of them
		C string
	}
}

// steps reads differences as scripts do: a letter from −26 to 26, any other with its sign.
func steps(t *testing.T, text string) (out []int) {
	for _, s := range regexp.MustCompile(`[-+]\d+|.`).FindAllString(text, -1) {
		switch c := int(s[0]); {
		case len(s) > 1:
			n, err := strconv.Atoi(s)
			require.NoError(t, err)
			out = append(out, n)
		case s == "_":
			out = append(out, 0)
		case c >= 'a':
			out = append(out, c-'a'+1)
		default:
			out = append(out, 'A'-1-c)
		}
	}
	return out
}

// published is a site read back.
type published struct {
	t    *testing.T
	dir  string
	who  string // the guide and edition, for what a failure says
	tell teller
	book *figures.Book
}

// publishedAt publishes a random guide and reckons it for tell.
func publishedAt(t *testing.T, seed uint64, edition build.Edition) published {
	files := trial.Random(seed)
	o := build.Options{Source: &build.Source{Files: files}, Edition: edition, Date: trial.Built, Out: filepath.Join(t.TempDir(), "site")}
	r, err := build.Publish(o)
	require.NoError(t, err)
	require.True(t, r.Sound(), "%d: %v", seed, r.Problems)
	book, _, err := build.Reckon(o)
	require.NoError(t, err)
	said, err := view.NewTeller(book)
	require.NoError(t, err)
	return published{t, o.Out, fmt.Sprintf("guide %d, %s", seed, edition), teller{said}, book}
}

func (p published) read(name string) []byte {
	b, err := os.ReadFile(filepath.Join(p.dir, filepath.FromSlash(name)))
	require.NoError(p.t, err)
	return b
}

func (p published) page(name string) *html.Node {
	doc, err := html.ParseWithOptions(strings.NewReader(string(p.read(name))), html.ParseOptionEnableScripting(false)) // what stands in noscript too
	require.NoError(p.t, err)
	return doc
}

// block decodes a page's data for its script.
func (p published) block(doc *html.Node, id string, into any) {
	for n := range doc.Descendants() {
		if n.Type == html.ElementNode && attr(n, "id") == id {
			require.NoError(p.t, json.Unmarshal([]byte(attr(n, "data-json")), into))
			return
		}
	}
	require.Fail(p.t, "no block", id)
}

func attr(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

// all lists the elements of a name and class below a node.
func all(n *html.Node, name, class string) (l []*html.Node) {
	for d := range n.Descendants() {
		if d.Type == html.ElementNode && d.Data == name && (class == "" || slices.Contains(strings.Fields(attr(d, "class")), class)) {
			l = append(l, d)
		}
	}
	return l
}

func textOf(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// addressOf is the address of a fly's page, without folder and ending.
func addressOf(href string) string { return strings.TrimSuffix(path.Base(href), ".html") }

// A guide's surfaces say the same flies on every day of the year.
func TestEverySurfaceSaysTheSame(t *testing.T) {
	t.Parallel()
	counted := map[string]int{} // what was compared: a test that compares nothing can't fail
	for seed := range uint64(12) {
		p := publishedAt(t, seed, build.Editions[seed/3%2])
		var front frontJSON
		p.block(p.page(view.FrontPage), "front-data", &front)
		for i, w := range p.book.Waters {
			p.compare(w, front, i, counted)
		}
	}
	for _, what := range []string{"on", "to come", "just over", "between flights", "on between flights", "unlisted, two flights", "dressing", "hook", "hours", "nothing in the box",
		"trip", "calendar", "calendar from records", "across New Year", "land-bred", "more than 99 %", "not allowed", "more than two"} {
		require.Positive(t, counted[what], "no guide has it: %s", what)
	}
}

// surfaces are a water's, each read from its file.
type surfaces struct {
	published
	w        *figures.Water
	on       onJSON
	flyPages map[string]onJSON
	data     riverJSON
	trip     tripData
	ties     map[string]string // the card's: by fly and stage, what to tie on
	counted  map[string]int
}

func (p published) compare(w *figures.Water, front frontJSON, place int, counted map[string]int) {
	s := surfaces{published: p, w: w, flyPages: map[string]onJSON{}, ties: map[string]string{}, counted: counted}
	river, card := p.page(view.WaterPage(w)), p.page(view.PocketPage(w))
	p.block(river, "on-data", &s.on)
	p.block(p.page(view.TripPage(w)), "trip-data", &s.trip)
	require.NoError(p.t, json.Unmarshal(p.read("data/rivers/"+w.Address+".json"), &s.data))
	for _, r := range w.Rows {
		var x onJSON
		p.block(p.page(view.FlyPage(r.Fly)), "on-data", &x)
		s.flyPages[r.Fly.Address] = x
	}
	s.cardTies(card)
	require.Len(p.t, s.on.Flies, len(w.Rows), p.who)
	require.Len(p.t, s.data.Flies, len(w.Rows), p.who)
	onIn := map[string]map[calendar.Cell]bool{}
	for n := range calendar.Year {
		date := calendar.Date{Year: trial.Built.Year, Month: 1, Day: 1}.AddDays(n)
		told := p.tell.around(w, date)
		byFly, on := map[string]*toldFly{}, []string{}
		for k, f := range told.Flies {
			byFly[f.Address] = &told.Flies[k]
			if f.State == "on" {
				on = append(on, f.Address)
				if onIn[f.Address] == nil {
					onIn[f.Address] = map[calendar.Cell]bool{}
				}
				onIn[f.Address][date.OfYear().Cell()] = true
			}
		}
		for _, f := range s.on.Flies {
			s.day(date, f, byFly[addressOf(f.Href)])
		}
		s.front(front, place, date.OfYear(), on, byFly)
		if n%30 == 0 {
			s.oneDayTrip(date, told)
		}
	}
	s.halfMonths(river, card, onIn)
	s.calendar()
}

// stateKey is the key of a state's words as told.
func stateKey(f *toldFly) string {
	switch {
	case f.State == "on" && f.Tendency == "":
		return "on"
	case f.State == "on":
		return "on_" + strings.TrimSuffix(f.Tendency, " flights")
	}
	return strings.ReplaceAll(strings.TrimSuffix(f.State, " flights"), " ", "_")
}

// day holds each surface's word on a fly and day against tell's; told is nil where it says nothing.
func (s surfaces) day(date calendar.Date, f onFly, told *toldFly) {
	d, address := int(date.OfYear()), addressOf(f.Href)
	at := func(what string) string {
		return fmt.Sprintf("%s: %s, %s on %s: %s", s.who, date, f.Name, s.w.Name.S, what)
	}
	run := slices.IndexFunc(f.Runs, func(r [4]int) bool { return r[0] <= d && d <= r[1] })
	data := s.data.Flies[address]
	k := slices.IndexFunc(data.Runs, func(r runJSON) bool { return r.From <= d && d <= r.To })
	require.GreaterOrEqual(s.t, k, 0, at("a run of the data file"))
	trip := slices.IndexFunc(s.trip.Flies, func(x tripFly) bool { return addressOf(x.H) == address })
	in := func(runs [][2]int) bool {
		return slices.ContainsFunc(runs, func(r [2]int) bool { return r[0] <= d && d <= r[1] })
	}
	if told == nil {
		require.Equal(s.t, -1, run, at("the page says something"))
		require.Equal(s.t, "off", data.Runs[k].State, at("the data file"))
		require.False(s.t, trip >= 0 && in(s.trip.Flies[trip].On), at("the trip has it on"))
		return
	}
	s.counted[strings.Replace(told.State, "starting", "to come", 1)]++
	if told.Tendency == "between flights" {
		s.counted["on between flights"]++
	}
	require.GreaterOrEqual(s.t, run, 0, at("the page says nothing"))
	require.Equal(s.t, stateKey(told), s.on.States[f.Runs[run][2]], at("state on the page"))
	require.Equal(s.t, [2]string{told.State, told.Tendency}, [2]string{data.Runs[k].State, data.Runs[k].Tendency}, at("state in the data file"))
	chance := 0
	for _, s := range steps(s.t, f.C[run])[:d-f.Runs[run][0]+1] {
		chance += s
	}
	if told.Chance != nil {
		require.InDelta(s.t, *told.Chance*1000, chance, 1, at("chance on the page"))
		require.Equal(s.t, percent(*told.Chance), math.Round(float64(chance)/10), at("chance in per cent"))
		require.InDelta(s.t, *told.Chance, data.Days[d-1], 1e-6, at("chance in the data file"))
	}
	s.flyPage(at, d, f, address, chance)
	if trip >= 0 {
		x := s.trip.Flies[trip]
		require.Equal(s.t, chance, x.C[d-1], at("chance in the trip"))
		require.Equal(s.t, told.State == "on", in(x.On), at("on in the trip"))
	} else if told.Listed {
		require.NotEqual(s.t, "on", told.State, at("no trip takes it"))
	}
	s.stages(at, date, f, f.Runs[run][3], told)
}

func percent(chance float64) float64 { return math.Round(math.Round(chance*1e11) / 1e9) }

// flyPage holds the fly's own page against its water's.
func (s surfaces) flyPage(at func(string) string, d int, f onFly, address string, chance int) {
	own := s.flyPages[address]
	i := slices.IndexFunc(own.Flies, func(x onFly) bool { return addressOf(x.Href) == s.w.Address })
	require.GreaterOrEqual(s.t, i, 0, at("the fly's page"))
	require.Equal(s.t, f.Runs, own.Flies[i].Runs, at("states on the fly's page"))
	require.Equal(s.t, f.C, own.Flies[i].C, at("chances on the fly's page"))
	require.Len(s.t, own.Flies[i].Stages, len(f.Stages), at("stages on the fly's page"))
	for k, st := range f.Stages {
		there := own.Flies[i].Stages[k].Flights
		require.Len(s.t, there, len(st.Flights), at("flights on the fly's page"))
		for flight, tie := range st.Flights {
			place, ok := there[flight]
			require.True(s.t, ok, at("a flight on the fly's page"))
			require.Equal(s.t, s.on.Ties[tie], own.Ties[place], at("dressings on the fly's page"))
		}
	}
}

// stages holds what to tie on, and when, against tell's.
func (s surfaces) stages(at func(string) string, date calendar.Date, f onFly, flight int, told *toldFly) {
	row := s.w.Rows[slices.IndexFunc(s.w.Rows, func(r *figures.Row) bool { return r.Fly.Address == told.Address })]
	if !row.Listed && len(row.Fly.Flights) > 1 {
		s.counted["unlisted, two flights"]++
	}
	if !row.Fly.Group.WaterBred() {
		s.counted["land-bred"]++
	}
	for _, st := range told.Stages {
		says := st.Stage + " " + st.Sex + ", " + st.Flight
		want := append([]string{}, st.ties...)
		short := st.Stage
		if st.Sex != "" {
			short += " " + st.Sex[:1] + "."
		}
		i := slices.IndexFunc(f.Stages, func(x onStage) bool { return x.Name == short })
		if i < 0 {
			i = slices.IndexFunc(f.Stages, func(x onStage) bool { return x.Name == st.Stage })
		}
		if i < 0 {
			require.Empty(s.t, want, at("the page lacks the "+says))
		} else {
			got := []string{}
			for _, d := range s.tie(f.Stages[i], flight).Dressings {
				size, _, _ := strings.Cut(d.Hook, ",") // "dry 12, its smallest"
				if words := strings.Fields(size); len(words) > 0 && !strings.HasSuffix(size, "(recipe)") {
					size = words[len(words)-1]
				}
				got = append(got, strings.TrimSpace(d.Name+" "+size))
			}
			require.Equal(s.t, want, got, at("dressings on the page for the "+says))
			if none := s.tie(f.Stages[i], flight).None; none != "" {
				require.Equal(s.t, st.none, none, at("why there is none for the "+says))
				s.counted["not allowed"]++
			}
			s.hoursOf(at, date, f.Stages[i], flight, st)
		}
		s.countTies(want, st)
		s.cardRow(at, f.Name, st, want)
		s.dataFile(at, told.Address, st)
	}
}

func (s surfaces) countTies(want []string, st toldStage) {
	if len(want) == 0 {
		s.counted["nothing in the box"]++
	} else {
		s.counted["dressing"]++
	}
	if len(st.Dressings) > 0 && st.Dressings[0].Hook != "" {
		s.counted["hook"]++
	}
	if len(st.Hours) > 0 {
		s.counted["hours"]++
	}
}

// tie looks up as the script does: of the flight, else of all, else the first's where no flight speaks for the day.
func (s surfaces) tie(st onStage, flight int) onTie {
	keys := []string{strconv.Itoa(flight), "-1"}
	if flight < 0 {
		keys = append(keys, "0")
	}
	for _, k := range keys {
		if t, ok := st.Flights[k]; ok {
			return s.on.Ties[t]
		}
	}
	return onTie{}
}

// hoursOf looks hours up as the script does.
func (s surfaces) hoursOf(at func(string) string, date calendar.Date, st onStage, flight int, told toldStage) {
	said := func(i int) string {
		h := s.on.Hours[i]
		var run []any
		for _, r := range h.Runs {
			if r[0].(float64) <= float64(date.OfYear()) {
				run = slices.Clone(r)
			}
		}
		if len(run) < 3 {
			return run[1].(string)
		}
		moved := 0
		if len(run) > 3 { // five minutes at each of the sun's ends, so many days after the move before
			at := int(run[0].(float64))
			for _, step := range steps(s.t, run[3].(string)) {
				if at += max(step, -step); at > int(date.OfYear()) {
					break
				}
				moved += 5 * step / max(step, -step)
			}
		}
		var clock [2]string
		for k := range clock {
			minutes := int(run[k+1].(float64))
			if h.Sun&(k+1) != 0 {
				minutes += moved
			}
			if h.Sun&(k+1) != 0 {
				zone, err := time.LoadLocation(h.Zone)
				require.NoError(s.t, err)
				_, ahead := time.Date(date.Year, date.Month, date.Day, 12, 0, 0, 0, time.UTC).In(zone).Zone()
				minutes += ahead/60 + 1440
			}
			clock[k] = fmt.Sprintf("%02d:%02d", minutes/60%24, minutes%60)
		}
		return s.tell.Plain("hours_span", "from", clock[0], "to", clock[1])
	}
	got := []string{}
	for _, h := range st.Hours {
		if h.Flight < 0 || flight < 0 || h.Flight == flight {
			got = append(got, said(h.Hours))
		}
	}
	require.ElementsMatch(s.t, slices.Compact(slices.Sorted(slices.Values(told.Hours))), slices.Compact(slices.Sorted(slices.Values(got))), at("hours of the "+told.Stage+" "+told.Sex))
}

// cardTies reads the card's table of what to tie on.
func (s surfaces) cardTies(card *html.Node) {
	for _, table := range all(card, "table", "ties") {
		fly := ""
		for _, tr := range all(table, "tr", "") {
			if th := all(tr, "th", ""); len(th) > 0 {
				fly = textOf(th[0])
			}
			td := all(tr, "td", "")
			if len(td) < 2 {
				continue
			}
			stage := strings.TrimSpace(td[0].FirstChild.Data)
			ties := []string{}
			for _, tie := range all(td[1], "span", "tie-on") {
				ties = append(ties, textOf(tie))
			}
			s.ties[fly+": "+stage] = strings.Join(ties, ", ")
		}
	}
}

// cardRow finds a stage on the card, whether its row is for one flight and sex or for both.
func (s surfaces) cardRow(at func(string) string, fly string, st toldStage, want []string) {
	for _, sex := range []string{st.Sex, ""} {
		for _, flight := range []string{st.Flight, ""} {
			key := fly + ": " + st.Stage
			if sex != "" {
				key = fly + ": " + sex + " " + st.Stage
			}
			if flight != "" {
				key += ", " + flight
			}
			if got, ok := s.ties[key]; ok {
				require.Equal(s.t, strings.Join(want, ", "), got, at("the card on "+key))
				return
			}
		}
	}
	require.Empty(s.t, want, at("the card lacks the "+st.Stage))
}

// dataFile holds the offers of a data file's stage against tell's.
func (s surfaces) dataFile(at func(string) string, address string, st toldStage) {
	want := []string{}
	for _, d := range st.Dressings {
		want = append(want, d.Name)
	}
	for _, d := range s.data.Flies[address].Dressings {
		if d.Stage != st.Stage || d.Sex != st.Sex || d.Flight != st.Flight {
			continue
		}
		got := []string{}
		for _, o := range d.Offered {
			if o.Parts.Named.By == d.Offered[0].Parts.Named.By { // the best class alone
				got = append(got, o.Name)
			}
		}
		require.Subset(s.t, got, want, at("dressings in the data file"))
		if len(want) > 0 {
			require.Equal(s.t, got[0], want[0], at("the best in the data file"))
		}
		s.counted["more than two"] += view.BoolInt(len(got) > 2)
		return
	}
	require.Fail(s.t, at("the data file lacks the "+st.Stage))
}

// front holds the front page's line of a water against the flies that are on.
func (s surfaces) front(front frontJSON, place int, d calendar.Day, on []string, told map[string]*toldFly) {
	w, from, before := front.Waters[place], 0, 0
	chances := []rune(w.C)
	for _, m := range regexp.MustCompile(`(\d+):(\d+)([^,]*)`).FindAllStringSubmatch(w.R, -1) {
		days, err := strconv.Atoi(m[1])
		require.NoError(s.t, err)
		first := []rune(m[3])
		if int(d) > before+days {
			from, before = from+days*len(first), before+days
			continue
		}
		require.Equal(s.t, strconv.Itoa(len(on)), m[2], "%s: day %d on %s: how many are on in front", s.who, d, s.w.Name.S)
		for k, letter := range first {
			f := strings.IndexRune("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ", letter)
			require.Equal(s.t, on[k], addressOf(front.Flies[w.F[f]].H), "%s: day %d on %s: the likeliest in front", s.who, d, s.w.Name.S)
			c := chances[from+(int(d)-before-1)*len(first)+k] - '?'
			if c >= 64 {
				c += '?' - 0xA1 + 64
			}
			share := percent(*told[on[k]].Chance)
			if share == 100 {
				s.counted["more than 99 %"]++
			}
			require.EqualValues(s.t, share, c, "%s: day %d on %s: chance in front", s.who, d, s.w.Name.S)
		}
		return
	}
	require.Fail(s.t, "no run in front")
}

// oneDayTrip holds what tell lists for a trip of one day against the data of the trip's page.
func (s surfaces) oneDayTrip(date calendar.Date, told told) {
	d := date.OfYear()
	t := s.book.Trip(s.w, d, d)
	at := fmt.Sprintf("%s: %s on %s", s.who, date, s.w.Name.S)
	type tie struct{ stage, dressing, hook string }
	serves, due := map[tie]bool{}, map[string]bool{}
	for _, f := range s.trip.Flies {
		if !slices.ContainsFunc(f.Due, func(r [2]int) bool { return r[0] <= int(d) && int(d) <= r[1] }) {
			continue
		}
		flight := f.Flights[slices.IndexFunc(f.Flights, func(r [3]int) bool { return r[0] <= int(d) && int(d) <= r[1] })][2]
		for _, st := range f.Stages {
			due[st.ID] = true
			for _, x := range st.Serves {
				if x[1] == flight || flight < 0 {
					hook := ""
					if x[2] >= 0 {
						hook = s.trip.Hooks[x[2]].T
					}
					serves[tie{st.ID, s.trip.Dressings[x[0]].N, hook}] = true
				}
			}
		}
	}
	for _, p := range t.Picks {
		for _, f := range p.For {
			require.True(s.t, due[f.ID()], "%s: %s is due", at, f.ID())
			delete(due, f.ID())
			ok := slices.ContainsFunc(append(p.Hooks, p.Hooks[:0]...), func(h tying.Hook) bool {
				return serves[tie{f.ID(), p.Dressing.Name.S, strings.TrimSpace(h.Model + " " + h.Size)}]
			})
			require.True(s.t, ok || serves[tie{f.ID(), p.Dressing.Name.S, ""}], "%s: %s for %s", at, p.Dressing.Name.S, f.ID())
			s.counted["trip"]++
		}
	}
	for _, f := range append(slices.Clone(t.Nothing), t.Left...) {
		require.True(s.t, due[f.ID()], "%s: %s is due", at, f.ID())
		delete(due, f.ID())
	}
	require.Empty(s.t, due, "%s: due on the page alone", at)
	for _, f := range told.Flies { // what tell offers first covers its stage
		for _, st := range f.Stages {
			id := f.Address + " " + st.Stage
			for _, x := range st.Dressings {
				if f.State == "on" && f.Listed {
					require.True(s.t, slices.ContainsFunc([]string{"", "dry ", "wet "}, func(model string) bool { return serves[tie{id, x.Name, strings.TrimSpace(model + x.Hook)}] }),
						"%s: the trip's %s lacks %s %s", at, id, x.Name, x.Hook)
				}
			}
		}
	}
}

var halfMonth = regexp.MustCompile(`(\d+)(?: (\p{L}+))?–(\d+) (\p{L}+)`)

// halfMonths holds the table of a water's page, its data file and the strips of the card against the days.
func (s surfaces) halfMonths(river, card *html.Node, onIn map[string]map[calendar.Cell]bool) {
	listed := map[string]map[calendar.Cell]bool{}
	for _, table := range all(river, "table", "cells") {
		for c, tr := range all(table, "tr", "")[1:] {
			require.Equal(s.t, calendar.Cell(c).String(), attr(tr, "data-cell"))
			for _, a := range all(tr, "a", "") {
				f := addressOf(attr(a, "href"))
				if listed[f] == nil {
					listed[f] = map[calendar.Cell]bool{}
				}
				listed[f][calendar.Cell(c)] = true
			}
		}
	}
	require.Equal(s.t, onIn, listed, "%s: the half-months of %s", s.who, s.w.Name.S)
	for _, f := range s.on.Flies {
		cells := map[string]byte{}
		for _, c := range s.data.Flies[addressOf(f.Href)].Cells {
			cells[c.Cell] = c.State[0]
		}
		for c := range calendar.Cell(calendar.Cells) {
			want := byte('u')
			if x, ok := cells[c.String()]; ok {
				want = x
			}
			require.Equal(s.t, string(want), f.Cells[c:c+1], "%s: %s on %s in %s", s.who, f.Name, s.w.Name.S, c)
		}
	}
	byName := map[string]string{}
	for _, f := range s.on.Flies {
		byName[f.Name] = addressOf(f.Href)
	}
	seen := 0
	for _, table := range all(card, "table", "strips") {
		for _, tr := range all(table, "tr", "")[1:] {
			name := strings.TrimSpace(all(tr, "th", "")[0].FirstChild.Data)
			got := map[calendar.Cell]bool{}
			for _, part := range strings.Split(textOf(all(tr, "span", "vh")[0]), "; ") {
				key, runs, _ := strings.Cut(part, ": ")
				if strings.HasPrefix(key, "expected") || strings.HasPrefix(key, "on,") {
					for _, m := range halfMonth.FindAllStringSubmatch(runs, -1) {
						s.addCells(got, m)
					}
				}
			}
			want := onIn[byName[name]]
			if want == nil {
				want = map[calendar.Cell]bool{}
			}
			require.Equal(s.t, want, got, "%s: the card's strip of %s on %s", s.who, name, s.w.Name.S)
			seen++
		}
	}
	require.Equal(s.t, len(s.w.Rows), seen)
}

// addCells adds the half-months from one day to another: "16 June–31 August".
func (s surfaces) addCells(to map[calendar.Cell]bool, m []string) {
	month := func(name string) time.Month {
		for i := time.January; i <= time.December; i++ {
			if i.String() == name {
				return i
			}
		}
		require.Fail(s.t, "no month", name)
		return 0
	}
	if m[2] == "" {
		m[2] = m[4]
	}
	cell := func(day, name string) calendar.Cell {
		c := calendar.FirstOf(month(name)).Cell()
		if n, _ := strconv.Atoi(day); n > 15 {
			c++
		}
		return c
	}
	for c := cell(m[1], m[2]); c <= cell(m[3], m[4]); c++ {
		to[c] = true
	}
}

// calendar holds a water's calendar against its data file: an entry for each flight and year.
func (s surfaces) calendar() {
	text := strings.ReplaceAll(string(s.read("calendar/"+s.w.Address+".ics")), "\r\n ", "")
	got := map[string]int{}
	for _, e := range strings.Split(text, "BEGIN:VEVENT")[1:] {
		of := map[string]string{}
		for _, l := range strings.Split(e, "\r\n") {
			k, v, _ := strings.Cut(l, ":")
			of[k] = v
		}
		if of["CATEGORIES"] == "flight" {
			got[of["SUMMARY"]+" "+of["DTSTART;VALUE=DATE"]+" "+of["DTEND;VALUE=DATE"]]++
		}
	}
	want := map[string]int{}
	for _, r := range s.w.Rows {
		f := s.data.Flies[r.Fly.Address]
		require.Len(s.t, f.Flights, len(r.Flights))
		for _, x := range f.Flights {
			from, to := calendar.Day(x.From.Day), calendar.Day(x.To.Day)
			if x.Records.P10.Day > 0 && x.Records.P90.Day > 0 {
				from, to = calendar.Day(x.Records.P10.Day), calendar.Day(x.Records.P90.Day)
				s.counted["calendar from records"]++
			}
			for year := trial.Built.Year - 1; year <= trial.Built.Year+1; year++ {
				first := calendar.Date{Year: year, Month: from.Month(), Day: from.DayOfMonth()}
				last := calendar.Date{Year: year, Month: to.Month(), Day: to.DayOfMonth()}
				if to < from {
					last.Year++
					s.counted["across New Year"]++
				}
				if last.Year < trial.Built.Year {
					continue
				}
				after := last.AddDays(1)
				if last.Month == time.February && last.Day == 28 {
					after = calendar.Date{Year: last.Year, Month: time.March, Day: 1} // the 29th counts with the 28th
				}
				basic := func(d calendar.Date) string { return strings.ReplaceAll(d.String(), "-", "") }
				summary := s.tell.Plain("calendar.expected", "water", s.w.Name.S, "fly", r.Fly.Name.S, "flight", x.Name)
				want[strings.ReplaceAll(summary, ",", `\,`)+" "+basic(first)+" "+basic(after)]++
				s.counted["calendar"]++
			}
		}
	}
	require.Equal(s.t, want, got, "%s: the calendar of %s", s.who, s.w.Name.S)
}
