package page

// Where to look next: a season plan for those who go with a net, on one sheet of paper.

import (
	"strconv"

	"guidegen/build/lang"
	"guidegen/build/share"
	"guidegen/build/view"
)

// PlanModel is the page.
type PlanModel struct {
	view.Frame
	Lines    []PlanLine
	Calendar lang.Link
	Sheet    lang.Link
}

// PlanLine is one half-month on one water, by date.
type PlanLine struct {
	When  string
	Water lang.Link
	Why   string
}

func (p *Printer) plan() PlanModel {
	w := p.words
	m := PlanModel{Frame: p.Frame("plan", view.PlanPage, w.Plain("plan.title"), "plan.css", "print.js"), Sheet: p.Link(view.PlanPage, view.SheetPage, w.Plain("nav.sheet"))}
	m.Description = w.Plain("plan.about")
	m.Way = []lang.Link{p.Link(view.PlanPage, view.RecordsPage, w.Plain("foot.records"))}
	for _, x := range p.book.SeasonPlan() {
		m.Lines = append(m.Lines, PlanLine{w.Plain("plan.cell", "cell", w.Cell(x.Cell), "year", strconv.Itoa(x.From.Year)), p.WaterLink(view.PlanPage, x.Water), share.WhyThere(w, x.Next)})
	}
	for _, d := range p.Deps.Downloads {
		if d.Address == share.SeasonPlan {
			m.Calendar = p.Link(view.PlanPage, d.Address, w.Plain("plan.calendar"))
		}
	}
	return m
}
