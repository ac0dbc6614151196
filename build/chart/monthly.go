package chart

// Twelve bars: the chance of finding one fly on one water, month by month.

import (
	"strings"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// MonthlyBars is one fly on one water.
type MonthlyBars struct {
	ID      string // unique on its page
	Title   string // the accessible name and the table's caption: "Large dark olive on the Thessel, month by month"
	Heading string // over the bars: "Emergence by month"; for land-bred flies "On the water by month"
	Desc    string // optional: what the chart shows, in a sentence or two
	Months  [12]Month
	Finds   []Find // of the current year
	Words   *Words // nil: English
}

// Chart draws it. The error is ours: a share outside 0 … 1, or an option that can't be written.
func (c MonthlyBars) Chart() (Chart, error) {
	w := wordsOr(c.Words)
	id := cleanID(c.ID)
	if err := checked(id, c.Months); err != nil {
		return Chart{}, err
	}
	o := newOption(id, w)
	o.height = 300
	o.panel(40, 170, c.Heading, w.Unit, topPercent(c.Months[:]))
	o.monthly(0, c.Months, nil)
	o.finds(0, c.Finds)
	o.points(0, idToday, w.Today, "none", nil, []opts.LineData{})

	table := Table{Caption: c.Title, Head: []string{w.Month, w.Chance, w.Range, w.Count, w.Basis}}
	for m, month := range c.Months {
		chance, span := w.shown(month)
		table.Rows = append(table.Rows, []string{w.Months[m], chance, span, month.Text, w.basis(month.State)})
	}
	return o.chart(id, c.Title, or(c.Desc, func() string { return table.inWords(1) }), table)
}

// monthly adds one water's bars in a series per state, so that each has its
// pattern in the legend. With names nil the states name the series.
func (o *option) monthly(panel int, months [12]Month, name *string) {
	w := o.words
	for _, kind := range []struct {
		state    State
		id, name string
	}{{Own, idOwn, w.Own}, {Thin, idThin, w.Thin}, {Unlooked, idUnlooked, w.Unlooked}} {
		var data [12]opts.BarData
		var spans []span
		used := false
		for m, month := range months {
			if month.State != kind.state {
				continue
			}
			used = true
			label := w.barName(m, month)
			data[m] = opts.BarData{Name: label, Value: percent(month.Chance)}
			if month.High > 0 {
				spans = append(spans, span{m, percent(month.Low), percent(month.High), label})
			}
		}
		if !used {
			continue
		}
		title := kind.name
		if name != nil {
			title = *name
		}
		o.bars(panel, kind.id, title, "months", data, spans)
	}
	o.strip(panel, func(m int) (string, bool) {
		s := months[m].State
		return w.barName(m, months[m]), s == Unlooked || s == Unexpected
	})
}

// stripMark is three slanting strokes: the hatching of a month nobody looked in,
// under the axis, where even a bar too low to see can't hide it.
const stripMark = "path://M0 8L3 0H5L2 8ZM4 8L7 0H9L6 8ZM8 8L11 0H13L10 8Z"

func (o *option) strip(panel int, unlooked func(m int) (string, bool)) {
	var data []opts.LineData
	for m := range 12 {
		if name, ok := unlooked(m); ok {
			data = append(data, opts.LineData{Name: name, Value: [2]float64{float64(m) + 0.5, 0}})
		}
	}
	if data != nil {
		o.points(panel, idStrip, o.words.Unlooked, stripMark, []int{16, 7}, data)
		o.legendName(o.words.Unlooked)
	}
}

func (o *option) finds(panel int, finds []Find) {
	var data []opts.LineData
	for _, f := range finds {
		if at, ok := dayPlace(f.Month, f.Day); ok {
			top := o.bar.YAxisList[panel].Max.(float64)
			data = append(data, opts.LineData{Name: f.Text, Value: [2]float64{at, top}})
		}
	}
	if data != nil {
		o.points(panel, idFinds, o.words.Found, "path://M0 0H8L4 7Z", []int{9, 8}, data)
		o.legendName(o.words.Found)
	}
}

// topPercent is the end of an axis that holds all bars and ranges.
func topPercent(months []Month) float64 {
	high := 0.0
	for _, m := range months {
		if m.State.Numbered() {
			high = max(high, percent(m.Chance), percent(m.High))
		}
	}
	return topOf(high, 10, 20, 40, 60, 80, 100)
}

// shown is a month's number and range in words.
func (w *Words) shown(m Month) (chance, span string) {
	if !m.State.Numbered() {
		return w.NoNumber, ""
	}
	if m.High > 0 {
		span = w.Span(m.Low, m.High)
	}
	return w.Percent(m.Chance), span
}

// barName is what a pointer shows over a month: a line each for the month with
// its chance, the range, the count and what it rests on.
func (w *Words) barName(m int, month Month) string {
	chance, span := w.shown(month)
	lines := []string{w.Months[m] + ": " + chance}
	if span != "" {
		lines = append(lines, w.Range+" "+span)
	}
	if month.Text != "" {
		lines = append(lines, month.Text)
	}
	return strings.Join(append(lines, w.basis(month.State)), "\n")
}

func wordsOr(w *Words) *Words {
	if w == nil {
		return &English
	}
	return w
}
