package page

// What is on where, month by month, and the year at a glance.

import (
	"html/template"
	"slices"
	"time"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
)

// YearModel is the year: twelve months × waters.
type YearModel struct {
	view.Frame
	Waters  []lang.Link
	Months  []YearMonth
	Letters []lang.Date // the months by their first letter
	Flies   []YearFly
}

// YearFly is a fly with a lane for each of its waters; flies follow each other by their first day.
type YearFly struct {
	Fly   lang.Link
	Lanes []YearLane
	first calendar.Day
}

// YearLane is a fly's year on one water.
type YearLane struct {
	Water lang.Link
	SVG   template.HTML
	Says  string
}

// YearMonth is one month's row.
type YearMonth struct {
	Month lang.Link
	Cells []YearCell // one per water
	None  bool       // nothing is expected on any of them
}

// YearCell is one water in one month.
type YearCell struct {
	Water string
	On    content.Figure
	Flies []string
	More  content.Figure
}

// MonthModel is one month's page.
type MonthModel struct {
	view.Frame
	Before, After lang.Link
	Waters        []MonthWaterView
}

// MonthWaterView is one water in the month.
type MonthWaterView struct {
	ID       string
	Water    lang.Link
	About    string
	Shut     []string // what is closed in the month
	Seasons  []view.SeasonView
	Visits   content.Figure
	Unlooked bool
	Flies    []MonthFly
	Key      lang.Link
}

// MonthFly is one fly on one water in the month.
type MonthFly struct {
	Fly      lang.Link
	LandBred bool
	Unlisted bool
	Month    view.MonthView
	Halves   [2]GridCell
	Picture  view.Picture
	Mark     string // what the month's figure is based on, as basisMark
	MarkSays string
	Hours    []HoursLine
}

// monthWide is the most that a fly takes in a month's table, in CSS pixels; monthScale what a millimetre takes at most.
const (
	monthWide  = 64.0
	monthScale = 1.5
)

// HoursLine is a stage's hours.
type HoursLine struct{ Case, Text string }

func (p *Printer) year() YearModel {
	m := YearModel{Frame: p.Frame("year", view.YearPage, p.words.Plain("year.title"), view.ListStyle, "today.js")}
	m.Description = p.words.Plain("year.description", "guide", p.Settings().Name)
	for _, w := range p.book.Waters {
		m.Waters = append(m.Waters, p.WaterLink(view.YearPage, w))
	}
	for i := 1; i <= 12; i++ {
		row := YearMonth{Month: p.Link(view.YearPage, view.MonthPage(i), p.words.Month(i))}
		for _, w := range p.book.Waters {
			on := w.OnMonth(time.Month(i))
			b := view.OwnVisits(w.Name.S, w.Visits, len(w.Years))
			c := YearCell{Water: w.Name.S, On: view.Count(len(on), b)}
			for k, r := range on {
				if k == 3 {
					c.More = view.Count(len(on)-3, b)
					break
				}
				c.Flies = append(c.Flies, r.Fly.Name.S)
			}
			row.Cells = append(row.Cells, c)
		}
		row.None = !slices.ContainsFunc(row.Cells, func(c YearCell) bool { return len(c.Flies) > 0 })
		m.Months = append(m.Months, row)
		m.Letters = append(m.Letters, lang.Date{Text: p.words.Month(i), Machine: string([]rune(p.words.Month(i))[:1])})
	}
	for _, f := range p.book.Flies {
		v := YearFly{Fly: p.FlyLink(view.YearPage, f), first: calendar.Year + 1}
		for _, r := range f.Rows {
			y := p.chartYear(r.Water.Name.S, r)
			v.Lanes = append(v.Lanes, YearLane{p.WaterLink(view.YearPage, r.Water), y.Lane(), p.bandWords(r)})
			for _, run := range r.Runs {
				if run.State == figures.On {
					v.first = min(v.first, run.From)
				}
			}
		}
		if len(v.Lanes) > 0 {
			m.Flies = append(m.Flies, v)
		}
	}
	slices.SortStableFunc(m.Flies, func(a, b YearFly) int { return int(a.first - b.first) })
	return m
}

func (p *Printer) month(i int) MonthModel {
	at, w := view.MonthPage(i), p.words
	m := MonthModel{Frame: p.Frame("month", at, lang.UpperFirst(w.Month(i)), view.ListStyle),
		Before: p.Link(at, view.MonthPage((i+10)%12+1), w.Month((i+10)%12+1)), After: p.Link(at, view.MonthPage(i%12+1), w.Month(i%12+1))}
	m.Way = []lang.Link{p.Link(at, view.YearPage, w.Plain("nav.year"))}
	m.Description = w.Plain("month.description", "month", w.Month(i), "guide", p.Settings().Name)
	scale := p.ScaleOf(p.book.Flies, monthWide, monthScale)
	for n, water := range p.book.Waters {
		v := MonthWaterView{ID: view.FlyID("w", n), Water: p.WaterLink(at, water), About: p.KindAndAltitude(water), Shut: p.ShutIn(water, time.Month(i)), Seasons: p.Seasons(water),
			Key: p.Link(at, view.WaterMonthKeyPage(water, i), w.Plain("month.key", "month", w.Month(i), "water", water.Name.S))}
		visits := 0
		for _, c := range []int{2*i - 2, 2*i - 1} {
			for _, k := range water.Coverage.Cells[c] {
				visits += k
			}
		}
		v.Visits, v.Unlooked = view.Count(visits, view.OwnVisits(water.Name.S, visits, 0)), visits == 0
		for _, r := range water.OnMonth(time.Month(i)) {
			f := MonthFly{Fly: p.FlyLink(at, r.Fly), LandBred: !r.Fly.Group.WaterBred(), Unlisted: !r.Listed, Month: p.MonthView(r, i-1)}
			f.Picture, f.Mark = p.RowPicture(at, r.Fly, scale), view.BasisMark(&r.Months[i-1])
			f.MarkSays = w.Plain("basis_mark.m" + f.Mark)
			f.Halves = [2]GridCell{gridCell(water, r.Cells[2*i-2]), gridCell(water, r.Cells[2*i-1])}
			for _, h := range r.Hours {
				if t := p.Clock(h.Stretch); h.Month == i && t != "" && h.Stage.OnTheWing() {
					f.Hours = append(f.Hours, HoursLine{p.ShortCase(view.StageSex{Stage: h.Stage, Sex: h.Sex}), t})
				}
			}
			v.Flies = append(v.Flies, f)
		}
		m.Waters = append(m.Waters, v)
	}
	return m
}

// gridCell is one half-month in its state.
func gridCell(w *figures.Water, c figures.CellHere) GridCell {
	cell := GridCell{State: view.CellState(c)}
	if c.State != figures.CellUnlooked && c.Looked > 0 {
		b := view.OwnVisits(w.Name.S, c.Looked, len(c.Years))
		cell.Found, cell.Looked = view.Count(c.Found, b), view.Count(c.Looked, b)
	}
	return cell
}

// GridCell is one half-month: f found, l looked for and not found, u nobody looked.
type GridCell struct {
	State         string
	Found, Looked content.Figure
}
