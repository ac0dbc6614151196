package page

// Where to look next: a season plan for those who go with a net, on one sheet of paper.

import (
	"strconv"

	"guidegen/build/share"
)

// PlanModel is the page.
type PlanModel struct {
	Frame
	Lines    []PlanLine
	Calendar Link
	Sheet    Link
}

// PlanLine is one half-month on one water, by date.
type PlanLine struct {
	When  string
	Water Link
	Why   string
}

func (p *Printer) plan() PlanModel {
	w := p.words
	m := PlanModel{Frame: p.frame("plan", PlanPage, w.Plain("plan.title"), "plan.css", "print.js"), Sheet: p.link(PlanPage, SheetPage, w.Plain("nav.sheet"))}
	m.Description = w.Plain("plan.about")
	m.Way = []Link{p.link(PlanPage, RecordsPage, w.Plain("foot.records"))}
	for _, x := range p.book.SeasonPlan() {
		m.Lines = append(m.Lines, PlanLine{w.Plain("plan.cell", "cell", w.Cell(x.Cell), "year", strconv.Itoa(x.From.Year)), p.waterLink(PlanPage, x.Water), share.WhyThere(w, x.Next)})
	}
	for _, d := range p.deps.Downloads {
		if d.Address == share.SeasonPlan {
			m.Calendar = p.link(PlanPage, d.Address, w.Plain("plan.calendar"))
		}
	}
	return m
}
