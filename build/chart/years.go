package chart

// The option of years: a panel of twelve bars for each, one under the other on
// one scale. At 360 px twelve months of side-by-side bars can't be read.

import (
	"strings"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// Years are the flies of one water, or the waters of one fly, in the caller's order.
type Years struct {
	Years []Year
	Words *Words // nil: English
}

// Option makes it. The error is ours: a share outside 0 … 1, or an option that can't be written.
func (c Years) Option() (Option, error) {
	w := wordsOr(c.Words)
	o := newOption(w)
	var all []Month
	for _, y := range c.Years {
		if err := checked(y.Months); err != nil {
			return Option{}, err
		}
		all = append(all, y.Months[:]...)
	}
	top := topPercent(all)
	for i, y := range c.Years {
		name := y.Name
		if y.Months == ([12]Month{}) {
			name += ": " + w.Unlisted
		}
		o.panel(30+i*118, 60, name, w.Unit, top)
		o.monthly(i, y.Months)
		o.finds(i, y.Finds)
		o.points(i, idToday, w.Today, "none", nil, []opts.LineData{})
	}
	o.height = 70 + len(c.Years)*118
	return o.done()
}

// monthly adds one year's bars in a series per state, so that each has its pattern.
func (o *option) monthly(panel int, months [12]Month) {
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
		o.bars(panel, kind.id, kind.name, "months", data, spans)
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
