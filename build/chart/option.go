package chart

// The option: what go-echarts is told, and the little its types lack (patterns,
// the tooltip's mode), added through its visitor.

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"
)

// valueMark is where the chart library puts a tick's number in its label.
const valueMark = "{value}"

// A series' id says what it is: "own", "thin", "unlooked" for bars by what they
// rest on, "group-…" for a group of flies, "strip", "finds" and "today" for the
// marks; the closer view puts ":2" after it for the third panel of several.
const (
	idOwn      = "own"
	idThin     = "thin"
	idUnlooked = "unlooked"
	idGroup    = "group-"
	idStrip    = "strip"
	idFinds    = "finds"
	idToday    = "today"
)

// option collects a panel, one grid with twelve months, and its series.
type option struct {
	bar    *charts.Bar
	words  *Words
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

// panel sets a grid of twelve months under a value axis from 0 to top.
// Its second, hidden month axis runs from 0 to 12, for days within a month.
func (o *option) panel(y, height int, name, unit string, top float64) {
	o.bar.SetGlobalOptions(charts.WithGridOpts(opts.Grid{
		Left: "52", Right: "12", Top: strconv.Itoa(y), Height: strconv.Itoa(height),
	}))
	var months [12]string
	for m, label := range o.words.Short {
		months[m] = short(label)
	}
	o.bar.SetXAxis(months)
	o.bar.XAxisList[0] = opts.XAxis{Type: "category", Data: months,
		AxisLabel: &opts.AxisLabel{Interval: "0", HideOverlap: opts.Bool(true)},
		AxisTick:  &opts.AxisTick{Show: opts.Bool(false)}}
	o.bar.YAxisList[0] = opts.YAxis{Type: "value", Name: name, Min: 0, Max: top,
		MinInterval: top / 2, MaxInterval: top / 2,
		AxisLabel: &opts.AxisLabel{Formatter: types.FuncStr(valueMark + unit)}}
	o.bar.ExtendXAxis(opts.XAxis{Type: "value", Min: 0, Max: 12, Show: opts.Bool(false)})
}

func (o *option) bars(id, name, stack string, data [12]opts.BarData) {
	o.bar.AddSeries(name, nil, charts.WithSeriesOpts(func(s *charts.SingleSeries) {
		s.Id, s.Stack, s.BarCategoryGap = id, stack, "24%"
		s.Data = data[:]
	}))
	o.legendName(name)
}

// points adds marks at places on the 0 … 12 axis, in a line series without a line.
func (o *option) points(id, name, symbol string, size []int, data []opts.LineData) {
	s := charts.SingleSeries{Name: name, Type: types.ChartLine, Data: data}
	s.Id, s.Symbol, s.SymbolSize = id, symbol, size
	s.XAxisIndex = 1
	s.LineStyle = noLine
	o.bar.MultiSeries = append(o.bar.MultiSeries, s)
}

var noLine = &opts.LineStyle{Opacity: opts.Float(0)}

func (o *option) legendName(name string) {
	if !slices.Contains(o.legend, name) {
		o.legend = append(o.legend, name)
	}
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
		out[i] = styledSeries{s, styles[s.Id]}
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
