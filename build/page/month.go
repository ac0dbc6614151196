package page

// What is on where, month by month, and the year at a glance.

import (
	"guidegen/build/figures"
	"guidegen/content"
)

// YearModel is the year: twelve months × waters.
type YearModel struct {
	Frame
	Waters []Link
	Months []YearMonth
}

// YearMonth is one month's row.
type YearMonth struct {
	Month Link
	Cells []YearCell // one per water
}

// YearCell is one water in one month.
type YearCell struct {
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
	Hours    []HoursLine
}

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
			c := YearCell{On: count(len(on), b)}
			for k, r := range on {
				if k == 3 {
					c.More = count(len(on)-3, b)
					break
				}
				c.Flies = append(c.Flies, r.Fly.Name.S)
			}
			row.Cells = append(row.Cells, c)
		}
		m.Months = append(m.Months, row)
	}
	return m
}

func (p *Printer) month(i int) MonthModel {
	at, w := monthPage(i), p.words
	m := MonthModel{Frame: p.frame("month", at, w.month(i)),
		Before: p.link(at, monthPage((i+10)%12+1), w.month((i+10)%12+1)), After: p.link(at, monthPage(i%12+1), w.month(i%12+1))}
	m.Way = []Link{p.link(at, YearPage, w.Plain("nav.year"))}
	m.Description = w.Plain("month.description", "month", w.month(i), "guide", p.settings().Name)
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
			f := MonthFly{Fly: p.flyLink(at, r.Fly), LandBred: !r.Fly.Group.WaterBred(), Unlisted: !r.Listed, Month: p.monthView(at, r, i-1)}
			f.Halves = [2]GridCell{gridCell(water, r.Cells[2*i-2]), gridCell(water, r.Cells[2*i-1])}
			for _, h := range r.Hours {
				if t := p.clock(h.Stretch); h.Month == i && t != "" && h.Stage.OnTheWing() {
					f.Hours = append(f.Hours, HoursLine{p.caseOf(h.Stage, h.Sex, h.Flight), t})
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
