package page

// Who took a net to the water, each named as they wish, and what came of it.

import (
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
)

// RecordersModel is the page.
type RecordersModel struct {
	view.Frame
	People  []RecorderPage
	Unnamed content.Figure // visits of people who wish no name
	Untold  content.Figure // visits whose people this edition doesn't tell
}

// RecorderPage is one person's visits.
type RecorderPage struct {
	ID, Name, Years              string
	Visits, Empty, Others, Flies content.Figure
	First                        []FirstFinds
}

// FirstFinds are the flies that somebody was the first to find on a water.
type FirstFinds struct {
	Water lang.Link
	Flies []lang.Link
}

func (p *Printer) recorders() RecordersModel {
	m := RecordersModel{Frame: p.Frame("recorders", view.RecordersPage, p.words.Plain("recorders.title"))}
	m.Description = p.words.Plain("recorders.description", "guide", p.Settings().Name)
	m.Way = []lang.Link{p.Link(view.RecordersPage, view.RecordsPage, p.words.Plain("foot.records"))}
	for _, r := range p.book.Recorders {
		if r.Shown == "" {
			continue
		}
		b := view.OwnVisits("", r.Looked, len(r.Years))
		v := RecorderPage{ID: view.FlyID("r", len(m.People)), Name: r.Shown, Years: years(r.Years), First: p.firstFinds(r)}
		if r.Looked > 0 {
			v.Visits, v.Empty, v.Flies = view.Count(r.Looked, b), view.Count(r.Empty, b), view.Count(len(r.Flies), b)
		}
		if r.Others > 0 {
			v.Others = view.Count(r.Others, b)
		}
		m.People = append(m.People, v)
	}
	if n := p.book.Unnamed; n > 0 {
		m.Unnamed = view.Count(n, view.OwnVisits("", n, 0))
	}
	untold := 0
	for _, w := range p.book.Waters {
		untold += w.Coverage.Withheld
	}
	if untold > 0 {
		m.Untold = view.Count(untold, view.OwnVisits("", untold, 0))
	}
	return m
}

// years are the first and the last of some years.
func years(l []int) string {
	var s []string
	for _, y := range l {
		if len(s) < 2 {
			s = append(s, strconv.Itoa(y))
		} else {
			s[1] = strconv.Itoa(y)
		}
	}
	return strings.Join(s, "–")
}

func (p *Printer) firstFinds(r figures.Recorder) (out []FirstFinds) {
	for _, w := range p.book.Waters {
		f := FirstFinds{Water: p.WaterLink(view.RecordersPage, w)}
		for _, row := range w.Rows {
			for _, x := range r.First {
				if x.Water == w.Address && x.Fly == row.Fly.Address {
					f.Flies = append(f.Flies, p.FlyLink(view.RecordersPage, row.Fly))
				}
			}
		}
		if len(f.Flies) > 0 {
			out = append(out, f)
		}
	}
	return out
}
