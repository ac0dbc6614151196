package page

// Charts on pages: what a chart needs, from the same figures as the table beside it.

import (
	"bytes"
	"cmp"
	"fmt"
	"html/template"
	"strconv"

	"guidegen/build/chart"
	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/content/calendar"
)

// ChartView is one drawn chart; the numbers stand in a table of the page's own. A reader who wants to
// look closer is shown the option of this name in the file.
type ChartView struct {
	SVG  template.HTML
	File string // from the page
	Name string // of the option
}

func (p *Printer) chartWords() *chart.Words {
	w := chart.English
	for m := 1; m <= 12; m++ {
		w.Months[m-1], w.Short[m-1] = p.words.month(m), p.words.shortMonth(m)
	}
	for key, to := range map[string]*string{
		"own": &w.Own, "thin": &w.Thin, "unlooked": &w.Unlooked, "unexpected": &w.Unexpected, "unlisted": &w.Unlisted,
		"no_number": &w.NoNumber, "range": &w.Range, "found": &w.Found, "today": &w.Today, "month": &w.Month,
		"chance": &w.Chance, "count": &w.Count, "basis": &w.Basis, "water": &w.Water, "sum": &w.Sum,
	} {
		*to = p.words.Plain("chart."+key, "year", strconv.Itoa(p.book.Built.Year))
	}
	return &w
}

// heading says what the bars show: land-bred flies never emerge from the water.
func (p *Printer) barHeading(r *figures.Row) string {
	if r.Fly.Group.WaterBred() {
		return p.words.Plain("bars.emergence")
	}
	return p.words.Plain("bars.on_the_water")
}

func (p *Printer) chartMonths(r *figures.Row) (out [12]chart.Month) {
	for i, m := range r.Months {
		c := chart.Month{Chance: m.Chance, Low: m.Low, High: m.High, State: chart.Own}
		switch {
		case m.State == figures.NotExpected:
			c = chart.Month{State: chart.Unexpected}
		case m.State == figures.Unlooked:
			c.State = chart.Unlooked
		case m.Thin:
			c.State = chart.Thin
		}
		if m.Looked > 0 {
			c.Text = p.foundOn(m.Found, m.Looked, m.Years)
		}
		out[i] = c
	}
	return out
}

// monthlyChart shows one fly on one water.
func (p *Printer) monthlyChart(id string, r *figures.Row) charter {
	c := chart.MonthlyBars{
		ID: id, Heading: p.barHeading(r), Months: p.chartMonths(r), Words: p.chartWords(),
		Title: p.words.Plain("bars.title", "fly", r.Fly.Name.S, "water", r.Water.Name.S),
	}
	for _, d := range r.ThisYear {
		c.Finds = append(c.Finds, chart.Find{Month: int(d.Month), Day: d.Day, Text: p.words.Plain("bars.find", "date", p.words.date(d).Text)})
	}
	return c
}

// stackedChart shows the flies to expect per group.
func (p *Printer) stackedChart(id string, w *figures.Water) charter {
	c := chart.StackedMonths{ID: id, Title: p.words.Plain("groups.title", "water", w.Name.S), Heading: p.words.Plain("groups.heading"), Words: p.chartWords()}
	for _, g := range w.Groups {
		c.Groups = append(c.Groups, chart.GroupMonths{Key: string(g.Group), Name: p.words.Or("groups_of", string(g.Group)), Flies: g.Sum})
	}
	for m := range 12 {
		c.Unlooked[m] = !lookedIn(w, m+1)
	}
	return c
}

// lookedIn reports whether anybody looked for flies in a month, 1 … 12.
func lookedIn(w *figures.Water, month int) bool {
	first := calendar.Cell(2 * (month - 1))
	return w.Coverage.Looked(first) || w.Coverage.Looked(first+1)
}

// waterChart shows one fly on all its waters.
func (p *Printer) waterChart(id string, f *figures.Fly) charter {
	c := chart.CompareWaters{ID: id, Title: p.words.Plain("waters.title", "fly", f.Name.S), Words: p.chartWords()}
	for _, r := range f.Rows {
		c.Waters = append(c.Waters, chart.WaterMonths{Name: r.Water.Name.S, Months: p.chartMonths(r)})
	}
	return c
}

type charter interface{ Chart() (chart.Chart, error) }

// drawChart draws a chart for the page at an address; its option stands in the file under its name.
func (p *Printer) drawChart(at, file, name string, c charter) (ChartView, error) {
	drawn, err := c.Chart()
	return ChartView{drawn.SVG, p.deps.Site.Link(at, file), name}, err
}

// chartFiles hold the options, a fly's in one file wherever its charts stand, a water's own in another.
func (p *Printer) chartFiles() (out []File, failed error) {
	for _, f := range p.book.Flies {
		var text bytes.Buffer
		for _, r := range f.Rows {
			failed = cmp.Or(failed, writeOption(&text, rowChart(r), p.monthlyChart("c", r)))
		}
		if len(f.Rows) > 1 {
			failed = cmp.Or(failed, writeOption(&text, comparedChart(f), p.waterChart("c", f)))
		}
		if len(f.Rows) > 0 {
			out = append(out, File{chartsFile(flyPage(f)), text.Bytes()})
		}
	}
	for _, w := range p.book.Waters {
		if len(w.Groups) > 0 {
			var text bytes.Buffer
			failed = cmp.Or(failed, writeOption(&text, groupsChart(w), p.stackedChart("c", w)))
			out = append(out, File{chartsFile(waterPage(w)), text.Bytes()})
		}
	}
	return out, failed
}

// Names of options, each the only one of its name on a page.
func rowChart(r *figures.Row) string      { return r.Fly.Address + " on " + r.Water.Address }
func comparedChart(f *figures.Fly) string { return f.Address + " on all its waters" }
func groupsChart(w *figures.Water) string { return "groups on " + w.Address }

// writeOption writes one statement of a classic script, so that a page opened from disk can load it.
func writeOption(to *bytes.Buffer, name string, c charter) error {
	drawn, err := c.Chart()
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(to, "guideOption(%q,%d,%s);\n", name, drawn.Height, drawn.Option)
	return err
}

// GroupRow is one group's flies to expect, month by month.
type GroupRow struct {
	Group  string
	Months []content.Figure
}

func (p *Printer) groupRows(w *figures.Water) []GroupRow {
	var out []GroupRow
	for _, g := range w.Groups {
		r := GroupRow{Group: p.words.Or("groups_of", string(g.Group))}
		for i, v := range g.Sum {
			r.Months = append(r.Months, content.NewFigure(v, "", 1, ground(g.Basis[i])))
		}
		out = append(out, r)
	}
	return out
}

func flyID(prefix string, i int) string { return prefix + "-" + strconv.Itoa(i+1) }
