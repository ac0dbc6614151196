package chart

// One fly on several waters: a row of twelve bars for each, one under the other
// on the same scale. At 360 px twelve months of side-by-side bars can't be read.

import (
	"strings"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// CompareWaters is one fly on several waters, in the caller's order.
type CompareWaters struct {
	ID     string
	Title  string
	Desc   string // optional
	Waters []WaterMonths
	Words  *Words // nil: English
}

// WaterMonths is one water's row. Months left empty: the fly is not in the
// water's list, and the row says so in words.
type WaterMonths struct {
	Name   string
	Months [12]Month
}

// Chart draws it.
func (c CompareWaters) Chart() (Chart, error) {
	w := wordsOr(c.Words)
	id := cleanID(c.ID)
	o := newOption(id, w)
	var all []Month
	for _, water := range c.Waters {
		if err := checked(id, water.Months); err != nil {
			return Chart{}, err
		}
		all = append(all, water.Months[:]...)
	}
	top := topPercent(all)
	for i, water := range c.Waters {
		name := water.Name
		if water.Months == ([12]Month{}) {
			name += ": " + w.Unlisted
		}
		o.panel(30+i*118, 60, name, w.Unit, top)
		o.monthly(i, water.Months, &c.Waters[i].Name)
		o.points(i, idToday, w.Today, "none", nil, []opts.LineData{})
	}
	o.height = 70 + len(c.Waters)*118

	table := Table{Caption: c.Title, Head: []string{w.Month}}
	for _, water := range c.Waters {
		table.Head = append(table.Head, water.Name)
	}
	for m, name := range w.Months {
		row := []string{name}
		for _, water := range c.Waters {
			row = append(row, w.cell(water.Months[m]))
		}
		table.Rows = append(table.Rows, row)
	}
	return o.chart(id, c.Title, or(c.Desc, func() string { return strings.Join(table.Head[1:], "; ") }), table)
}

// cell is one month in few words: the number, its range, what it rests on.
func (w *Words) cell(m Month) string {
	if !m.State.Numbered() {
		return w.basis(m.State)
	}
	chance, span := w.shown(m)
	if span != "" {
		chance += " (" + span + ")"
	}
	if m.Text != "" {
		chance += ", " + m.Text
	}
	if m.State != Own {
		chance += ", " + w.basis(m.State)
	}
	return chance
}
