package page

// What is on where, month by month, and the year at a glance.

import (
	"html/template"
	"slices"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/content/calendar"
)

// YearModel is the year: twelve months × waters.
type YearModel struct {
	Frame
	Waters  []Link
	Months  []YearMonth
	Letters []Date // the months by their first letter
	Flies   []YearFly
}

// YearFly is a fly with a lane for each of its waters; flies follow each other by their first day.
type YearFly struct {
	Fly   Link
	Lanes []YearLane
	first calendar.Day
}

// YearLane is a fly's year on one water.
type YearLane struct {
	Water Link
	SVG   template.HTML
	Says  string
}

// YearMonth is one month's row.
type YearMonth struct {
	Month Link
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
	Frame
	Before, After Link
	Waters        []MonthWaterView
}

// MonthWaterView is one water in the month.
type MonthWaterView struct {
	ID       string
	Water    Link
	About    string
	Seasons  []SeasonView
	Visits   content.Figure
	Unlooked bool
	Flies    []MonthFly
	Key      Link
}

// MonthFly is one fly on one water in the month.
type MonthFly struct {
	Fly      Link
	LandBred bool
	Unlisted bool
	Month    MonthView
	Halves   [2]GridCell
	Picture  Picture
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
	m := YearModel{Frame: p.frame("year", YearPage, p.words.Plain("year.title"), "today.js")}
	m.Description = p.words.Plain("year.description", "guide", p.settings().Name)
	for _, w := range p.book.Waters {
		m.Waters = append(m.Waters, p.waterLink(YearPage, w))
	}
	for i := 1; i <= 12; i++ {
		row := YearMonth{Month: p.link(YearPage, monthPage(i), p.words.month(i))}
		for _, w := range p.book.Waters {
			on := monthRows(w, i)
			b := ownVisits(w.Name.S, w.Visits, len(w.Years))
			c := YearCell{Water: w.Name.S, On: count(len(on), b)}
			for k, r := range on {
				if k == 3 {
					c.More = count(len(on)-3, b)
					break
				}
				c.Flies = append(c.Flies, r.Fly.Name.S)
			}
			row.Cells = append(row.Cells, c)
		}
		row.None = !slices.ContainsFunc(row.Cells, func(c YearCell) bool { return len(c.Flies) > 0 })
		m.Months = append(m.Months, row)
		m.Letters = append(m.Letters, Date{p.words.month(i), string([]rune(p.words.month(i))[:1])})
	}
	for _, f := range p.book.Flies {
		v := YearFly{Fly: p.flyLink(YearPage, f), first: calendar.Year + 1}
		for _, r := range f.Rows {
			y := p.chartYear(r.Water.Name.S, r)
			v.Lanes = append(v.Lanes, YearLane{p.waterLink(YearPage, r.Water), y.Lane(), p.bandWords(r)})
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
	at, w := monthPage(i), p.words
	m := MonthModel{Frame: p.frame("month", at, upperFirst(w.month(i))),
		Before: p.link(at, monthPage((i+10)%12+1), w.month((i+10)%12+1)), After: p.link(at, monthPage(i%12+1), w.month(i%12+1))}
	m.Way = []Link{p.link(at, YearPage, w.Plain("nav.year"))}
	m.Description = w.Plain("month.description", "month", w.month(i), "guide", p.settings().Name)
	scale := p.scaleOf(p.book.Flies, monthWide, monthScale)
	for n, water := range p.book.Waters {
		v := MonthWaterView{ID: flyID("w", n), Water: p.waterLink(at, water), About: p.kindAndAltitude(water), Seasons: p.seasons(water),
			Key: p.link(at, waterMonthKeyPage(water, i), w.Plain("month.key", "month", w.month(i), "water", water.Name.S))}
		visits := 0
		for _, c := range []int{2*i - 2, 2*i - 1} {
			for _, k := range water.Coverage.Cells[c] {
				visits += k
			}
		}
		v.Visits, v.Unlooked = count(visits, ownVisits(water.Name.S, visits, 0)), visits == 0
		for _, r := range monthRows(water, i) {
			f := MonthFly{Fly: p.flyLink(at, r.Fly), LandBred: !r.Fly.Group.WaterBred(), Unlisted: !r.Listed, Month: p.monthView(r, i-1)}
			f.Picture, f.Mark = p.rowPicture(at, r.Fly, scale), basisMark(&r.Months[i-1])
			f.MarkSays = w.Plain("basis_mark.m" + f.Mark)
			f.Halves = [2]GridCell{gridCell(water, r.Cells[2*i-2]), gridCell(water, r.Cells[2*i-1])}
			for _, h := range r.Hours {
				if t := p.clock(h.Stretch); h.Month == i && t != "" && h.Stage.OnTheWing() {
					f.Hours = append(f.Hours, HoursLine{p.shortCase(stageSex{h.Stage, h.Sex}), t})
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
	cell := GridCell{State: cellState(c)}
	if c.State != figures.CellUnlooked && c.Looked > 0 {
		b := ownVisits(w.Name.S, c.Looked, len(c.Years))
		cell.Found, cell.Looked = count(c.Found, b), count(c.Looked, b)
	}
	return cell
}

// GridCell is one half-month: f found, l looked for and not found, u nobody looked.
type GridCell struct {
	State         string
	Found, Looked content.Figure
}
