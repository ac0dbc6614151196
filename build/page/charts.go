package page

// Charts on pages: what a chart needs, from the same figures as the text beside it.

import (
	"cmp"
	"fmt"
	"strconv"

	"guidegen/build/chart"
	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
)

// Closer is what a reader who looks closer is shown: options by name in a file, with what each shows.
type Closer struct {
	Files, Script string // from the page: the options, separated by "|", and the script that shows them
	Names, Titles string // separated by "|"
}

func (p *Printer) chartWords() *chart.Words {
	var w chart.Words
	for m := 1; m <= 12; m++ {
		w.Months[m-1], w.Short[m-1] = p.words.Month(m), p.words.ShortMonth(m)
	}
	for key, to := range map[string]*string{
		"own": &w.Own, "thin": &w.Thin, "unlooked": &w.Unlooked, "unexpected": &w.Unexpected, "unlisted": &w.Unlisted,
		"no_number": &w.NoNumber, "range": &w.Range, "found": &w.Found, "today": &w.Today,
	} {
		*to = p.words.Plain("chart."+key, "year", strconv.Itoa(p.book.Built.Year))
	}
	say := p.words
	share := func(x float64) string { return say.Amount(view.Percent(x, content.Basis{})) }
	w.Percent = share
	w.Span = func(low, high float64) string {
		return say.Range(lang.Range{Low: view.Percent(low, content.Basis{}), High: view.Percent(high, content.Basis{})})
	}
	w.Amount = func(v float64) string { return say.Number(content.Decimal(v, 1)) }
	w.Unit = say.Plain("percent.is", "n", "")
	return &w
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
			c.Text = p.FoundOn(m.Found, m.Looked, m.Years)
		}
		out[i] = c
	}
	return out
}

// chartYear is one fly's year on one water; name is the fly's or the water's, whichever the page doesn't bear.
func (p *Printer) chartYear(name string, r *figures.Row) chart.Year {
	y := chart.Year{Name: name, Months: p.chartMonths(r), Cells: cellsOf(r)}
	for _, d := range r.ThisYear {
		y.Finds = append(y.Finds, chart.Find{Month: int(d.Month), Day: d.Day, Text: p.words.Plain("bars.find", "date", p.words.DateOf(d).Text)})
	}
	return y
}

func cellsOf(r *figures.Row) (out [24]chart.Cell) {
	for i, c := range r.Cells {
		out[i] = view.SeenAs(c.State)
	}
	return out
}

// stackedChart shows the flies to expect per group.
func (p *Printer) stackedChart(w *figures.Water) chart.StackedMonths {
	c := chart.StackedMonths{Heading: p.words.Plain("groups.heading"), Words: p.chartWords()}
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

// yearsOnWater are all flies of a water, yearsOfFly all waters of a fly.
func (p *Printer) yearsOnWater(w *figures.Water) chart.Years {
	c := chart.Years{Words: p.chartWords()}
	for _, r := range w.Rows {
		c.Years = append(c.Years, p.chartYear(r.Fly.Name.S, r))
	}
	return c
}

func (p *Printer) yearsOfFly(f *figures.Fly) chart.Years {
	c := chart.Years{Words: p.chartWords()}
	for _, r := range f.Rows {
		c.Years = append(c.Years, p.chartYear(r.Water.Name.S, r))
	}
	return c
}

// Names of options, each the only one of its name on a page.
const (
	panelOption  = "panel" // of one year, which the closer view fills
	yearOption   = "year"
	groupsOption = "groups"
)

func (p *Printer) closerOfWater(at string, w *figures.Water) *Closer {
	if len(w.Rows) == 0 {
		return nil
	}
	return &Closer{p.chartFilesOf(at), p.Deps.Site.Link(at, view.Assets+"closer.js"), yearOption + "|" + groupsOption,
		p.words.Plain("closer.water", "water", w.Name.S) + "|" + p.words.Plain("groups.title", "water", w.Name.S)}
}

func (p *Printer) closerOfFly(at string, f *figures.Fly) *Closer {
	if len(f.Rows) == 0 {
		return nil
	}
	return &Closer{p.chartFilesOf(at), p.Deps.Site.Link(at, view.Assets+"closer.js"), yearOption, p.words.Plain("waters.title", "fly", f.Name.S)}
}

func (p *Printer) chartFilesOf(at string) string {
	return p.Deps.Site.Link(at, view.PanelFile) + "|" + p.Deps.Site.Link(at, view.ChartsFile(at))
}

// chartFiles hold the options: the panel of a year once, and what fills it, for a fly on all its waters and for a
// water with all its flies and its groups.
func (p *Printer) chartFiles() (out []File, failed error) {
	// Each is one statement of a classic script, so that a page opened from disk can load it.
	statement := func(call, name string, o chart.Option, err error) []byte {
		failed = cmp.Or(failed, err)
		return fmt.Appendf(nil, "%s(%q,%d,%s);\n", call, name, o.Height, o.JSON)
	}
	years := func(c chart.Years) []byte {
		o, err := c.Option()
		return statement("guideYears", yearOption, o, err)
	}
	panel, err := chart.Panel(p.chartWords())
	out = append(out, File{view.PanelFile, statement("guideOption", panelOption, panel, err)})
	for _, f := range p.book.Flies {
		if len(f.Rows) > 0 {
			out = append(out, File{view.ChartsFile(view.FlyPage(f)), years(p.yearsOfFly(f))})
		}
	}
	for _, w := range p.book.Waters {
		if len(w.Rows) > 0 {
			groups, err := p.stackedChart(w).Option()
			out = append(out, File{view.ChartsFile(view.WaterPage(w)), append(years(p.yearsOnWater(w)), statement("guideOption", groupsOption, groups, err)...)})
		}
	}
	return out, failed
}
