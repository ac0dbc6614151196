package page

// The front page: the waters, each with what is on around the reader's date, so that a reader is
// on a water's page in one tap. And the list of flies.

import (
	"cmp"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/chart"
	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/now"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
)

// FrontPageModel is the front page.
type FrontPageModel struct {
	view.Frame
	About  string
	Waters []FrontWater
	Data   template.HTML
	Visits content.Figure
	Flies  content.Figure
	Years  string
	Sieve  lang.Link
	Key    lang.Link
	Search lang.Link
	Paper  []lang.Link // the booklet
	Begin  []lang.Link // notes that the guide wants in front
	Months []lang.Link // for readers without scripts: what is on in each month
}

// FrontWater is one water.
type FrontWater struct {
	Unlooked string // as in OnView
	Number   string
	Water    lang.Link
	About    string
	Seasons  []view.SeasonView
	SVG      template.HTML // flies to expect, over the half-months that somebody looked in
	Expect   string        // the same in words
	Known    string
}

// frontData is what the script looks up: each water's year, and the flies that it names with their drawings at the
// page's one scale.
type frontData struct {
	Flies  []frontFly   `json:"flies"`
	Waters []frontWater `json:"waters"`
}

// frontFly is a fly; H and I are short for the addresses that flyAt and drawnAt make of them, unless they hold a stroke.
type frontFly struct {
	Name   string `json:"n"`
	H      string `json:"h"`
	I      string `json:"i,omitempty"`
	Width  string `json:"w,omitempty"`
	Height string `json:"t,omitempty"`
}

// frontWater is a water's year: the flies that it names at some time, as places in the list, and of each month of theirs
// what the chance is based on, as in flyData. Runs are of days with the same flies on in the same order, "16:2ab,…": days,
// how many are on, the first few as letters. Chances are those of the few, day by day, a sign each of chanceSign.
type frontWater struct {
	Flies   []int    `json:"f"`
	Basis   []string `json:"e"`
	Runs    string   `json:"r"`
	Chances string   `json:"c"`
}

const (
	flyAt   = "species/%s.html"
	drawnAt = "fig/s/%s-%s.svg"
)

// letter stands for a place in a list.
func letter(i int) rune {
	switch {
	case i < 26:
		return 'a' + rune(i)
	case i < 52:
		return 'A' + rune(i-26)
	}
	return 0x100 + rune(i)
}

// chanceSign stands for a chance in whole per cent. What is on is never under one per cent; 100 stands for more than 99.
func chanceSign(chance float64) rune {
	n := rune(math.Round(content.Round9(chance * 100)))
	if n < 64 {
		return '?' + n
	}
	return 0xA1 + n - 64
}

// frontFlies is how many flies the front page names for a water; frontScale is CSS pixels to a millimetre, and
// frontWide the most that a drawing takes.
const (
	frontFlies = 3
	frontScale = 2.2
	frontWide  = 96.0
)

func (p *Printer) front() FrontPageModel {
	w := p.words
	title := cmp.Or(p.Settings().Name, w.Plain("front.title"))
	m := FrontPageModel{Frame: p.Frame("front", view.FrontPage, title, view.ToolStyle, "search.js"), About: p.Settings().About,
		Sieve: p.Link(view.FrontPage, view.SievePage, w.Plain("nav.sieve")), Key: p.Link(view.FrontPage, view.KeyPage, w.Plain("nav.key")),
		Search: p.Link(view.FrontPage, view.SearchPage, w.Plain("nav.search"))}
	m.Run = p.Run(view.FrontPage, "today.js", "front.js")
	m.Paper = p.PaperLinks(view.FrontPage, nil)
	m.Description = w.Plain("front.description", "guide", title)
	visits, years := 0, []int{}
	for i, water := range p.book.Waters {
		visits += water.Visits
		years = append(years, water.Years...)
		m.Waters = append(m.Waters, p.frontWater(i, water))
	}
	slices.Sort(years)
	years = slices.Compact(years)
	b := view.OwnVisits("", visits, len(years))
	m.Visits, m.Years = view.Count(visits, b), w.Years(years)
	m.Flies = view.Count(len(p.book.Flies), b)
	m.Data = view.JsonBlock("front-data", p.frontData())
	for i := 1; i <= 12; i++ {
		m.Months = append(m.Months, p.Link(view.FrontPage, view.MonthPage(i), w.Month(i)))
	}
	for _, n := range p.Notes() {
		m.Begin = append(m.Begin, p.Link(view.FrontPage, view.NotePage(n.Address), n.Title))
	}
	return m
}

func (p *Printer) frontWater(i int, water *figures.Water) FrontWater {
	w := p.words
	fw := FrontWater{Number: strconv.Itoa(i), Water: p.WaterLink(view.FrontPage, water), About: p.KindAndAltitude(water), Seasons: p.Seasons(water),
		Unlooked: view.UnlookedCells(water), Known: w.Plain("count.visits", "n", strconv.Itoa(water.Visits))}
	if water.Visits == 0 {
		fw.Known = w.Plain("river.no_visits")
	}
	var year chart.Year
	var sums []string
	for m := range 12 {
		sum := 0.0
		for _, g := range water.Groups {
			sum += g.Sum[m]
		}
		year.Months[m] = chart.Month{Chance: min(sum/mostExpected, 1), State: chart.Own}
		if !lookedIn(water, m+1) {
			year.Months[m].State = chart.Unlooked
		}
		sums = append(sums, w.ShortMonth(m+1)+" "+w.Number(content.Decimal(content.Round9(sum), 1)))
	}
	for c := range calendar.Cell(calendar.Cells) {
		if water.Coverage.Looked(c) {
			year.Cells[c] = chart.CellLooked
		}
		for _, r := range water.Rows {
			if r.Cells[c].State == figures.CellFound {
				year.Cells[c] = chart.CellFound
			}
		}
	}
	fw.SVG, fw.Expect = year.SVG(), strings.Join(sums, w.Plain("list.comma"))
	return fw
}

// mostExpected is how many flies a full bar stands for, the same on every water.
const mostExpected = 4.0

func (p *Printer) frontData() frontData {
	data := frontData{Flies: []frontFly{}}
	place := map[*figures.Fly]int{}
	scale := p.ScaleOf(p.book.Flies, frontWide, frontScale)
	for _, w := range p.book.Waters {
		x, named := frontYear(w)
		for _, r := range named {
			i, ok := place[r.Fly]
			if !ok {
				i = len(data.Flies)
				place[r.Fly], data.Flies = i, append(data.Flies, p.frontFly(r.Fly, scale))
			}
			marks := ""
			for m := range r.Months {
				marks += view.BasisMark(&r.Months[m])
			}
			x.Flies, x.Basis = append(x.Flies, i), append(x.Basis, marks)
		}
		data.Waters = append(data.Waters, x)
	}
	return data
}

func (p *Printer) frontFly(f *figures.Fly, scale float64) frontFly {
	x := frontFly{Name: f.Name.S, H: p.Deps.Site.Link(view.FrontPage, view.FlyPage(f))}
	pic := p.RowPicture(view.FrontPage, f, scale)
	x.I, x.Width, x.Height = pic.Src, pic.Width, pic.Height
	if x.H == fmt.Sprintf(flyAt, f.Address) {
		x.H = f.Address
		before, after, _ := strings.Cut(drawnAt, "%s-%s")
		if form, ok := strings.CutPrefix(strings.TrimSuffix(x.I, after), before+f.Address+"-"); ok && !strings.Contains(form, "/") {
			x.I = form
		}
	}
	return x
}

// frontYear is a water's year, with the rows that it names by their letters.
func frontYear(w *figures.Water) (x frontWater, named []*figures.Row) {
	x.Flies, x.Basis = []int{}, []string{}
	var runs, chances strings.Builder
	last, days := "", 0
	end := func() {
		if days > 0 {
			fmt.Fprintf(&runs, "%d:%s,", days, last)
		}
		days = 0
	}
	for d := calendar.Day(1); d <= calendar.Year; d++ {
		on := w.OnDay(d)
		run := strconv.Itoa(len(on))
		for _, r := range on[:min(len(on), frontFlies)] {
			i := slices.Index(named, r)
			if i < 0 {
				i, named = len(named), append(named, r)
			}
			run += string(letter(i))
			chances.WriteRune(chanceSign(r.Chance[d-1]))
		}
		if run != last {
			end()
			last = run
		}
		days++
	}
	end()
	x.Runs, x.Chances = strings.TrimSuffix(runs.String(), ","), chances.String()
	return x, named
}

// FliesModel is the list of flies.
type FliesModel struct {
	view.Frame
	Groups []FliesGroup
	Count  content.Figure
}

// FliesGroup is one group's flies.
type FliesGroup struct {
	ID, Name string
	LandBred bool
	Flies    []FlyLine
}

// FlyLine is one fly of the list.
type FlyLine struct {
	Fly        lang.Link
	Scientific string
	Also       string
	Length     string
	Picture    view.Picture
	Flights    []string
}

func (p *Printer) flies() FliesModel {
	w := p.words
	m := FliesModel{Frame: p.Frame("flies", view.FliesPage, w.Plain("flies.title"), view.ListStyle)}
	m.Count = view.Count(len(p.book.Flies), content.On(content.Part{Ground: content.OwnStatement}))
	m.Description = w.Plain("flies.description", "guide", p.Settings().Name)
	scale := p.ScaleOf(p.book.Flies, now.RowWide, now.RowScale)
	for _, f := range p.book.Flies {
		n := len(m.Groups) - 1
		name := w.Or("groups_of", string(f.Group))
		if n < 0 || m.Groups[n].Name != name {
			m.Groups = append(m.Groups, FliesGroup{ID: "g-" + view.CleanID(string(f.Group)), Name: name, LandBred: f.Group == species.LandBred})
			n++
		}
		l := FlyLine{Fly: p.FlyLink(view.FliesPage, f), Scientific: f.Scientific.Name.S, Picture: p.RowPicture(view.FliesPage, f, scale)}
		if pic := p.FlyPicture(f); pic.LengthMM > 0 {
			l.Length = w.Amount(p.Length(pic.LengthMM, 1, view.Grounded(pic.Ground.Basis)))
		}
		l.Also = p.AlsoCalled(f.Account)
		for _, fl := range f.Account.Flights {
			if fl.From.Valid() && fl.To.Valid() {
				l.Flights = append(l.Flights, w.Plain("date.range", "from", w.DayOf(fl.From).Text, "to", w.DayOf(fl.To).Text))
			}
		}
		m.Groups[n].Flies = append(m.Groups[n].Flies, l)
	}
	return m
}
