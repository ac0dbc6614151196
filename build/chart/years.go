package chart

// The option of years: a panel of twelve bars for each, one under the other on
// one scale. At 360 px twelve months of side-by-side bars can't be read.

import (
	"encoding/json"
	"math"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// Years are the flies of one water, or the waters of one fly, in the caller's order.
type Years struct {
	Years []Year
	Words *Words
}

// Panel is the option of one year without its data, the same for every page of a guide: the closer view repeats it.
func Panel(w *Words) (Option, error) {
	o := newOption(w)
	o.panel(30, 60, "", w.Unit, 100)
	for _, b := range []struct{ id, name string }{{idOwn, w.Own}, {idThin, w.Thin}, {idUnlooked, w.Unlooked}} {
		o.bars(b.id, b.name, "months", [12]opts.BarData{})
		o.bar.MultiSeries[len(o.bar.MultiSeries)-1].MarkLines = &opts.MarkLines{MarkLineStyle: opts.MarkLineStyle{
			Symbol: []string{"none", "none"}, Label: &opts.Label{Show: opts.Bool(false)}, LineStyle: &opts.LineStyle{Type: "solid", Width: 1.5, Color: grey}}}
	}
	o.strip([]opts.LineData{})
	o.points(idFinds, w.Found, "path://M0 0H8L4 7Z", []int{9, 8}, []opts.LineData{})
	o.points(idToday, w.Today, "none", nil, []opts.LineData{})
	o.legendName(w.Found)
	return o.done()
}

// made is what the closer view fills panels with: for each year its name, its months and its finds, and the words
// that join them to what a pointer shows.
type made struct {
	Top    float64         `json:"top"` // end of the axis, per cent
	Texts  []string        `json:"texts"`
	Years  []madeYear      `json:"years"`
	Months [12]string      `json:"months"`
	Range  string          `json:"range"`
	None   string          `json:"none"`  // in place of a number
	Based  [Own + 1]string `json:"based"` // by state
}

type madeYear struct {
	Name   string        `json:"name"`
	Months [12]madeMonth `json:"months"`
	Finds  [][2]float64  `json:"finds,omitempty"` // place on the axis 0 … 12, and text
}

// madeMonth is [state, place of its text or -1, chance, chance in words, low, high, range in words]: the chance where
// there is a number, the last three where it has a range.
type madeMonth []any

// Option makes it, for panels that are Panel's. The error is ours: a share outside 0 … 1, or an option that can't be
// written.
func (c Years) Option() (Option, error) {
	w := c.Words
	m := made{Texts: []string{}, Years: []madeYear{}, Months: w.Months, Range: w.Range, None: w.NoNumber}
	for s := range m.Based {
		m.Based[s] = w.basis(State(s))
	}
	at := map[string]int{}
	place := func(text string) int {
		i, ok := at[text]
		switch {
		case text == "":
			return -1
		case !ok:
			i = len(m.Texts)
			at[text], m.Texts = i, append(m.Texts, text)
		}
		return i
	}
	var all []Month
	for _, y := range c.Years {
		if err := checked(y.Months); err != nil {
			return Option{}, err
		}
		all = append(all, y.Months[:]...)
		made := madeYear{Name: y.Name}
		if y.Months == ([12]Month{}) {
			made.Name += ": " + w.Unlisted
		}
		for i, month := range y.Months {
			made.Months[i] = w.made(month, place(month.Text))
		}
		for _, f := range y.Finds {
			if x, ok := dayPlace(f.Month, f.Day); ok {
				made.Finds = append(made.Finds, [2]float64{x, float64(place(f.Text))})
			}
		}
		m.Years = append(m.Years, made)
	}
	m.Top = topPercent(all)
	text, err := json.Marshal(m)
	return Option{text, 70 + len(c.Years)*118}, err
}

func (w *Words) made(m Month, text int) madeMonth {
	out := madeMonth{m.State, text}
	if m.State.Numbered() {
		chance, span := w.shown(m)
		out = append(out, hundredth(m.Chance), chance)
		if m.High > 0 {
			out = append(out, hundredth(m.Low), hundredth(m.High), span)
		}
	}
	return out
}

// stripMark is three slanting strokes: the hatching of a month nobody looked in,
// under the axis, where even a bar too low to see can't hide it.
const stripMark = "path://M0 8L3 0H5L2 8ZM4 8L7 0H9L6 8ZM8 8L11 0H13L10 8Z"

func (o *option) strip(data []opts.LineData) {
	o.points(idStrip, o.words.Unlooked, stripMark, []int{16, 7}, data)
	o.legendName(o.words.Unlooked)
}

// hundredth is a share in per cent, to a hundredth: a bar of 60 px shows no more.
func hundredth(share float64) float64 { return math.Round(percent(share)*100) / 100 }

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
