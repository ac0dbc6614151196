package chart

// The option: what go-echarts is told, and the little its types lack (patterns,
// the tooltip's mode), added through its visitor.

import (
	"encoding/json"
	"fmt"
	"strconv"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"
)

// valueMark is where the chart library puts a tick's number in its label.
const valueMark = "{value}"

// A series' id says what it is: "own", "thin", "unlooked" for bars by what they
// rest on, "group-…" for a group of flies, "strip", "finds" and "today" for the
// marks; ":2" after it is its panel where there are several.
const (
	idOwn      = "own"
	idThin     = "thin"
	idUnlooked = "unlooked"
	idGroup    = "group-"
	idStrip    = "strip"
	idFinds    = "finds"
	idToday    = "today"
)

// option collects panels (one grid with twelve months each) and series.
type option struct {
	bar    *charts.Bar
	words  *Words
	panels int
	height int // px the chart library is given
	legend []string
}

func newOption(w *Words) *option {
	bar := charts.NewBar()
	bar.SetGlobalOptions(
		charts.WithInitializationOpts(opts.Initialization{ChartID: "chart"}), // else one is drawn by lot
		charts.WithTooltipOpts(opts.Tooltip{Show: opts.Bool(true), Trigger: "item", Formatter: "{b}"}),
		charts.WithAriaOpts(&opts.Aria{
			Enabled: opts.Bool(true),
			Label:   &opts.AriaLabel{Enabled: opts.Bool(false)}, // the figure has a name already
			Decal:   &opts.AriaDecal{Show: opts.Bool(true)},
		}),
	)
	return &option{bar: bar, words: w}
}

// panel adds a grid of twelve months under a value axis from 0 to top.
// Its second, hidden month axis runs from 0 to 12, for days within a month.
func (o *option) panel(y, height int, name, unit string, top float64) int {
	i := o.panels
	o.panels++
	o.bar.SetGlobalOptions(charts.WithGridOpts(opts.Grid{
		Left: "52", Right: "12", Top: strconv.Itoa(y), Height: strconv.Itoa(height),
	}))
	var months [12]string
	for m, label := range o.words.Short {
		months[m] = short(label)
	}
	x := opts.XAxis{Type: "category", GridIndex: i, Data: months,
		AxisLabel: &opts.AxisLabel{Interval: "0", HideOverlap: opts.Bool(true)},
		AxisTick:  &opts.AxisTick{Show: opts.Bool(false)}}
	days := opts.XAxis{Type: "value", GridIndex: i, Min: 0, Max: 12, Show: opts.Bool(false)}
	value := opts.YAxis{Type: "value", GridIndex: i, Name: name, Min: 0, Max: top,
		MinInterval: top / 2, MaxInterval: top / 2,
		AxisLabel: &opts.AxisLabel{Formatter: types.FuncStr(valueMark + unit)}}
	if i == 0 {
		o.bar.SetXAxis(months)
		o.bar.XAxisList[0], o.bar.YAxisList[0] = x, value
		o.bar.ExtendXAxis(days)
		return i
	}
	o.bar.ExtendXAxis(x, days)
	o.bar.ExtendYAxis(value)
	return i
}

// rangeEnd is one end of a mark line that shows a range.
type rangeEnd struct {
	Name  string     `json:"name,omitempty"`
	Coord [2]float64 `json:"coord"`
}

// span is a range drawn over a month's bar, in the axis' unit.
type span struct {
	month     int // 0 … 11
	low, high float64
	name      string
}

func (o *option) bars(panel int, id, name, stack string, data [12]opts.BarData, spans []span) {
	o.bar.AddSeries(name, nil, charts.WithSeriesOpts(func(s *charts.SingleSeries) {
		// a stack's name reaches across panels
		s.Id, s.Stack, s.BarCategoryGap = panelID(id, panel), panelID(stack, panel), "24%"
		s.XAxisIndex, s.YAxisIndex = 2*panel, panel
		s.Data = data[:]
		if len(spans) == 0 {
			return
		}
		lines := &opts.MarkLines{}
		lines.Symbol = []string{"none", "none"}
		lines.LineStyle = &opts.LineStyle{Type: "solid", Width: 1.5, Color: mark}
		lines.Label = &opts.Label{Show: opts.Bool(false)}
		for _, p := range spans {
			lines.Data = append(lines.Data, [2]rangeEnd{
				{Name: p.name, Coord: [2]float64{float64(p.month), p.low}},
				{Coord: [2]float64{float64(p.month), p.high}},
			})
		}
		s.MarkLines = lines
	}))
	o.legendName(name)
}

// points adds marks at places on the 0 … 12 axis, in a line series without a line.
func (o *option) points(panel int, id, name, symbol string, size []int, data []opts.LineData) {
	s := charts.SingleSeries{Name: name, Type: types.ChartLine, Data: data}
	s.Id, s.Symbol, s.SymbolSize = panelID(id, panel), symbol, size
	s.XAxisIndex, s.YAxisIndex = 2*panel+1, panel
	s.LineStyle = noLine
	o.bar.MultiSeries = append(o.bar.MultiSeries, s)
}

var noLine = &opts.LineStyle{Opacity: opts.Float(0)}

func (o *option) legendName(name string) {
	for _, have := range o.legend {
		if have == name {
			return
		}
	}
	o.legend = append(o.legend, name)
}

func panelID(id string, panel int) string {
	if panel == 0 {
		return id
	}
	return id + ":" + strconv.Itoa(panel)
}

// done closes the option and gives its JSON.
func (o *option) done() (Option, error) {
	o.bar.SetGlobalOptions(charts.WithLegendOpts(opts.Legend{
		Type: "plain", Bottom: "0", Left: "center", ItemWidth: 18, ItemHeight: 12, Data: o.legend,
	}))
	o.bar.Validate()
	o.bar.Accept(extras{})
	text, err := json.Marshal(o.bar.JSON())
	if err != nil {
		return Option{}, fmt.Errorf("chart: %w", err)
	}
	return Option{text, o.height}, nil
}

// extras adds what the library's types lack and drops what it writes empty.
type extras struct {
	charts.BaseConfigurationVisitor
}

type tooltip struct {
	opts.Tooltip
	RenderMode string `json:"renderMode"` // as HTML it would need inline styles
	Confine    bool   `json:"confine"`
}

func (extras) VisitTooltipOpt(t opts.Tooltip) interface{} { return tooltip{t, "richText", true} }

type styledSeries struct {
	charts.SingleSeries
	Style *style `json:"itemStyle,omitempty"`
}

func (extras) VisitSeriesOpt(all charts.MultiSeries) interface{} {
	out := make([]styledSeries, len(all))
	for i, s := range all {
		out[i] = styledSeries{s, styleOf(s.Id)}
	}
	return out
}

type valueAxis struct {
	opts.YAxis
	NameStyle nameStyle `json:"nameTextStyle"` // else a long name runs out on the left
}

type nameStyle struct {
	Align      string `json:"align"`
	Padding    [4]int `json:"padding"`
	FontWeight string `json:"fontWeight"`
}

func (extras) VisitYAxis(axes []opts.YAxis) interface{} {
	out := make([]valueAxis, len(axes))
	for i, a := range axes {
		out[i] = valueAxis{a, nameStyle{"left", [4]int{0, 0, 0, -40}, "bold"}}
	}
	return out
}

func (extras) Visit(option map[string]interface{}) {
	delete(option, "toolbox")
	delete(option, "title")
	delete(option, "color")
}
