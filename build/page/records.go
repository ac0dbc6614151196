package page

// The records: visits per water, who made them, prompts, downloads, how right the guide was.

import (
	"html/template"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/chart"
	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/share"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
)

// RecordsModel is the records page.
type RecordsModel struct {
	view.Frame
	Visits    content.Figure
	Last      string // year of the last visits, which the strips show filled
	Earlier   bool   // there are visits of years before it
	Sheet     lang.Link
	Plan      lang.Link
	Waters    []RecordWater
	Right     []RightOf
	Named     bool // there are people to name
	Under     bool // somebody counted larvae
	Months    []string
	ToName    bool // somebody found what is to be named
	Prompts   content.Figure
	Against   []AgainstView // in the members' edition
	Downloads []DownloadView
	Seasons   lang.Link
	Recorders lang.Link
	Due       lang.Link // in the members' edition, as is the next
	Handover  lang.Link
}

// RightOf is how right the guide was about waters of which it says the same.
type RightOf struct {
	Waters []lang.Link
	view.RightView
}

// BestView is a half-month in which one more visit would help most, and why.
type BestView struct{ Cell, Why string }

// DownloadView is one file to take away.
type DownloadView struct {
	File lang.Link
	Kind string
}

// RecordWater is one water's records.
type RecordWater struct {
	ID      string
	Water   lang.Link
	About   string
	To      lang.Date
	Visited bool
	Known   view.KnownView
	Strip   template.HTML
	Best    []BestView
	Prompts []string
	Under   []UnderView
	ToName  []ToNameView // in the members' edition
}

// ToNameView is one find that nobody could name yet: when and as what it was found, and where it is written.
type ToNameView struct {
	Date         string
	Called, What string
	MayBe        []lang.Link
	Visit, File  string
}

// mayBe is how many flies are listed that a find may be.
const mayBe = 6

func (p *Printer) toName(w *figures.Water) []ToNameView {
	if !p.Members() {
		return nil
	}
	var l []ToNameView
	for _, x := range w.ToName {
		f := x.Find
		v := ToNameView{Date: p.words.When(x.Visit.When), Called: f.Find.Fly.S, Visit: x.Visit.ID, File: x.Visit.File}
		var what []string
		if f.Stage != "" {
			what = append(what, p.words.Or("stage", string(f.Stage)))
		}
		if f.Sex != "" {
			what = append(what, p.words.Or("sex", string(f.Sex)))
		}
		if f.Counted {
			what = append(what, "× "+strconv.Itoa(f.Count))
		}
		v.What = strings.Join(append(what, f.Find.Remarks), ", ")
		v.What = strings.TrimSuffix(v.What, ", ")
		if len(f.Taxon) <= mayBe {
			for _, row := range w.Rows {
				if slices.Contains(f.Taxon, row.Fly.Account) {
					v.MayBe = append(v.MayBe, p.FlyLink(view.RecordsPage, row.Fly))
				}
			}
		}
		l = append(l, v)
	}
	return l
}

func (p *Printer) recordsModel() RecordsModel {
	m := RecordsModel{Frame: p.Frame("records", view.RecordsPage, p.words.Plain("records.title"))}
	m.Description = p.words.Plain("records.description", "guide", p.Settings().Name)
	m.Sheet = p.Link(view.RecordsPage, view.SheetPage, p.words.Plain("sheet.title"))
	visits, prompts, years := 0, 0, p.yearsOfVisits()
	if n := len(years); n > 0 {
		m.Last, m.Earlier = strconv.Itoa(years[n-1]), n > 1
	}
	for i, w := range p.book.Waters {
		visits += w.Visits
		r := RecordWater{ID: view.FlyID("w", i), Water: p.WaterLink(view.RecordsPage, w), About: p.KindAndAltitude(w), To: p.words.DateOf(w.RecordsTo),
			Visited: w.Visits > 0, Known: p.Known(view.RecordsPage, w), Strip: p.visitsStrip(w, years), Prompts: p.promptsOf(w.Prompts), Under: p.under(w), ToName: p.toName(w)}
		for _, n := range w.Coverage.Best[:min(view.MostCells, len(w.Coverage.Best))] {
			r.Best = append(r.Best, BestView{p.words.Cell(n.Cell), share.WhyThere(p.words, n)})
			m.Plan = p.Link(view.RecordsPage, view.PlanPage, p.words.Plain("plan.link"))
		}
		m.Waters = append(m.Waters, r)
		m.Named = m.Named || len(r.Known.Recorders) > 0
		m.Under = m.Under || len(r.Under) > 0
		m.ToName = m.ToName || len(r.ToName) > 0
		prompts += len(r.Prompts)
		right := p.Rightness(w)
		if k := slices.IndexFunc(m.Right, func(x RightOf) bool { return x.CannotTell != "" && x.CannotTell == right.CannotTell }); k >= 0 {
			m.Right[k].Waters = append(m.Right[k].Waters, r.Water)
		} else {
			m.Right = append(m.Right, RightOf{[]lang.Link{r.Water}, right})
		}
	}
	for i := range 12 {
		m.Months = append(m.Months, p.words.ShortMonth(i+1))
	}
	m.Seasons = p.Link(view.RecordsPage, view.SeasonsPage, p.words.Plain("over.seasons"))
	m.Recorders = p.Link(view.RecordsPage, view.RecordersPage, p.words.Plain("recorders.title"))
	if p.Members() {
		m.Against = p.against()
		m.Due, m.Handover = p.Link(view.RecordsPage, view.DuePage, p.words.Plain("due.title")), p.Link(view.RecordsPage, view.HandoverPage, p.words.Plain("handover.title"))
	}
	m.Visits, m.Prompts = view.Count(visits, view.OwnVisits("", visits, 0)), view.Count(prompts, content.Basis{})
	for _, d := range p.Deps.Downloads {
		text := d.What
		if text == "" {
			text = d.Address
		}
		m.Downloads = append(m.Downloads, DownloadView{p.Link(view.RecordsPage, d.Address, text), d.Kind})
	}
	return m
}

// yearsOfVisits are the years in which somebody went to some water, in order.
func (p *Printer) yearsOfVisits() []int {
	var years []int
	for _, w := range p.book.Waters {
		years = append(years, w.Years...)
	}
	slices.Sort(years)
	return slices.Compact(years)
}

// visitsStrip draws a water's visits by half-month, and says them.
func (p *Printer) visitsStrip(w *figures.Water, years []int) template.HTML {
	var counts [calendar.Cells][]int
	var best [calendar.Cells]bool
	var said []string
	for i := range calendar.Cell(calendar.Cells) {
		var by []string
		for _, y := range years {
			n := w.Coverage.Cells[i][y]
			counts[i] = append(counts[i], n)
			if n > 0 {
				by = append(by, p.words.Plain("records.in_year", "n", strconv.Itoa(n), "year", strconv.Itoa(y)))
			}
		}
		if len(by) > 0 {
			said = append(said, p.words.Cell(i)+p.words.Plain("list.colon")+strings.Join(by, p.words.Plain("list.comma")))
		}
	}
	for _, n := range w.Coverage.Best[:min(view.MostCells, len(w.Coverage.Best))] {
		best[n.Cell] = true
	}
	text := p.words.Plain("records.nobody_yet")
	if len(said) > 0 {
		text = strings.Join(said, p.words.Plain("list.semicolon")) + p.words.Plain("list.semicolon") + p.words.Plain("records.nobody_else")
	}
	var letters [12]string
	for m := range letters {
		letters[m] = string([]rune(p.words.Month(m + 1))[:1])
	}
	return chart.Visits(counts, best, letters, p.words.Plain("records.strip", "water", w.Name.S, "said", text))
}

// ExplainedModel is the page on how figures are reckoned.
type ExplainedModel struct {
	view.Frame
	Sections []RuleSection
	States   []RuleTerm
	Grounds  []RuleTerm
	Changed  bool
}

// RuleSection is one part of the rules with the constants it uses.
type RuleSection struct {
	ID, Number, Title string
	Text              []string
	Constants         []RuleConstant
}

// RuleConstant is one constant in force.
type RuleConstant struct {
	What, Key, Source string
	Value, Default    content.Figure
	Changed           bool
}

// RuleTerm is a word and what it means.
type RuleTerm struct{ Kind, Term, Text string }

// ruleSections are the parts of the rules in words, by the number they have in the list of constants.
var ruleSections = []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 16, 17}

func (p *Printer) explained() ExplainedModel {
	w := p.words
	m := ExplainedModel{Frame: p.Frame("explained", view.ExplainedPage, w.Plain("explained.title"), view.ListStyle)}
	m.Description = w.Plain("explained.description")
	for _, k := range []string{"found", "looked", "unlooked"} {
		m.States = append(m.States, RuleTerm{k[:1], w.Plain("state." + k), w.Plain("explained.state_" + k)})
	}
	for _, k := range []string{"own_records", "lent_records", "published", "own", "common", "memory", "assumed"} {
		m.Grounds = append(m.Grounds, RuleTerm{"", w.Plain("ground." + k), w.Plain("explained.ground_" + k)})
	}
	for _, n := range ruleSections {
		s := RuleSection{ID: "rule-" + strconv.Itoa(n), Number: strconv.Itoa(n), Title: w.Plain("rules.t" + strconv.Itoa(n))}
		for i := 1; w.Has(ruleKey(n, i)); i++ {
			s.Text = append(s.Text, w.Plain(ruleKey(n, i)))
		}
		if n == 5 && p.book.Trust > 0 {
			s.Text = append(s.Text, w.Plain("rules.p5_measured", "m", content.Decimal(p.book.Trust, 1)))
		}
		if p.book.Edition != nil {
			for _, c := range p.book.Edition.Constants.List() {
				if c.Section == n {
					b := content.On(content.Part{Ground: content.Assumed})
					rc := RuleConstant{What: w.Plain("constant." + c.Group + "_" + c.Key), Key: c.Group + ": " + c.Key, Source: w.Plain("constant_basis." + content.Address(c.Basis)), Changed: c.Changed(),
						Value: content.NewFigure(c.Value, c.Unit, digitsOf(c.Value), b), Default: content.NewFigure(c.Default, c.Unit, digitsOf(c.Default), b)}
					m.Changed = m.Changed || rc.Changed
					s.Constants = append(s.Constants, rc)
				}
			}
		}
		m.Sections = append(m.Sections, s)
	}
	return m
}

func ruleKey(section, paragraph int) string {
	return "rules.p" + strconv.Itoa(section) + "_" + strconv.Itoa(paragraph)
}

// digitsOf are the decimals that a constant needs.
func digitsOf(v float64) int {
	s := strconv.FormatFloat(content.Round9(v), 'f', -1, 64)
	for i := range s {
		if s[i] == '.' {
			return len(s) - i - 1
		}
	}
	return 0
}
