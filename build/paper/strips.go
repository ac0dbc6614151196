package paper

// The year of flies in strips, on the card and in booklets.

import (
	"html/template"
	"strings"

	"guidegen/build/chart"
	"guidegen/build/figures"
	"guidegen/build/view"
	"guidegen/content/calendar"
)

// StripsView is the year of several flies.
type StripsView struct {
	Name   string // of the water
	Months []string
	Years  []StripView
}

// StripView is a fly's year in half-months.
type StripView struct {
	Fly      string
	LandBred bool
	Unlisted bool
	SVG      template.HTML
	Words    string // the same in words
}

// SignView explains one sign of the strips.
type SignView struct {
	SVG  template.HTML
	Word string
}

func (p printer) strips(w *figures.Water) StripsView {
	v := StripsView{Name: w.Name.S}
	for i := 1; i <= 12; i++ {
		v.Months = append(v.Months, p.words.ShortMonth(i))
	}
	return v
}

// strip draws a fly's year on a water.
func (p printer) strip(r *figures.Row) StripView {
	v := StripView{Fly: r.Fly.Name.S, LandBred: !r.Fly.Group.WaterBred(), Unlisted: !r.Listed}
	var year [calendar.Cells]chart.HalfMonth
	for c := calendar.Cell(0); c < calendar.Cells; c++ {
		year[c] = chart.HalfMonth{Grade: chart.GradeOf(r.OnCells[c], r.Mean(c)), Seen: view.SeenAs(r.Cells[c].State)}
	}
	v.SVG = chart.YearStrip(year)
	v.Words = p.stripWords(year)
	return v
}

var gradeWords = [...]string{chart.GradeNone: "none", chart.GradeSome: "some", chart.GradeMany: "many", chart.GradeMost: "most"}

var seenWords = [...]string{chart.CellUnlooked: "unlooked", chart.CellLooked: "looked", chart.CellFound: "found"}

// stripWords says a strip in words, for those who don't see it: the half-months of each grade, and of each state.
func (p printer) stripWords(year [calendar.Cells]chart.HalfMonth) string {
	var s []string
	add := func(key string, in func(h chart.HalfMonth) bool) {
		if runs := p.words.CellRuns(func(c calendar.Cell) bool { return in(year[c]) }); runs != "" {
			s = append(s, p.words.Plain(key)+p.words.Plain("list.colon")+runs)
		}
	}
	for _, g := range []chart.Grade{chart.GradeMost, chart.GradeMany, chart.GradeSome} {
		add("paper.grade."+gradeWords[g], func(h chart.HalfMonth) bool { return h.Grade == g })
	}
	for _, c := range []chart.Cell{chart.CellFound, chart.CellLooked, chart.CellUnlooked} {
		add("paper.seen."+seenWords[c], func(h chart.HalfMonth) bool { return h.Seen == c })
	}
	return strings.Join(s, p.words.Plain("list.semicolon"))
}

// signs explain the strips.
func (p printer) signs() []SignView {
	var out []SignView
	for _, g := range []chart.Grade{chart.GradeMost, chart.GradeMany, chart.GradeSome, chart.GradeNone} {
		out = append(out, SignView{chart.GradeSign(g), p.words.Plain("paper.grade." + gradeWords[g])})
	}
	for _, c := range []chart.Cell{chart.CellFound, chart.CellLooked, chart.CellUnlooked} {
		out = append(out, SignView{chart.SeenSign(c), p.words.Plain("paper.seen." + seenWords[c])})
	}
	return out
}
