package chart

// Reads a built option back into what is to be drawn. Nothing drawn comes from
// the chart's input; this and the option's JSON have one source.

import (
	"math"
	"strconv"
	"strings"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// plot is a chart as its option tells it.
type plot struct {
	panels []panel
	legend []entry
	today  string // the word for the reader's date
}

// panel is one grid: twelve months under one value axis.
type panel struct {
	name      string
	months    [12]string
	top, step float64
	unit      string
	series    []series
	strip     []mark
	finds     []mark
}

// empty reports whether there is nothing to draw: the fly is not listed here.
func (q *panel) empty() bool {
	for _, s := range q.series {
		if len(s.bars) > 0 {
			return false
		}
	}
	return len(q.strip) == 0
}

// series is one series of bars; base is where a stacked bar starts.
type series struct {
	kind, name string
	gap        float64 // share of a month's width left free
	bars       []bar
	spans      []span
}

type bar struct {
	month       int
	base, value float64
	name        string
}

// mark is a point on the axis of months, 0 … 12.
type mark struct {
	at   float64
	name string
}

// entry is one line of the legend.
type entry struct{ kind, name string }

func readBack(b *charts.Bar) plot {
	var p plot
	p.panels = make([]panel, len(b.YAxisList))
	for i, y := range b.YAxisList {
		q := &p.panels[i]
		q.name = y.Name
		q.months, _ = b.XAxisList[2*i].Data.([12]string)
		q.top, _ = asValue(y.Max)
		q.step = y.MaxInterval
		q.unit = strings.TrimPrefix(string(y.AxisLabel.Formatter), valueMark)
	}
	stacks := map[string]*[12]float64{}
	for i := range b.MultiSeries {
		s := &b.MultiSeries[i]
		kind := kindOf(s.Id)
		switch data := s.Data.(type) {
		case []opts.BarData:
			q := &p.panels[s.YAxisIndex]
			if stacks[s.Stack] == nil {
				stacks[s.Stack] = new([12]float64)
			}
			q.series = append(q.series, readBars(s, kind, data, stacks[s.Stack]))
			p.enter(kind, s.Name)
		case []opts.LineData:
			q := &p.panels[s.YAxisIndex]
			switch kind {
			case idToday:
				p.today = s.Name
			case idStrip:
				q.strip = readMarks(data)
				p.enter(idUnlooked, s.Name)
			case idFinds:
				q.finds = readMarks(data)
				p.enter(kind, s.Name)
			}
		}
	}
	return p
}

func (p *plot) enter(kind, name string) {
	for _, have := range p.legend {
		if have.kind == kind {
			return
		}
	}
	p.legend = append(p.legend, entry{kind, name})
}

func readBars(s *charts.SingleSeries, kind string, data []opts.BarData, base *[12]float64) series {
	out := series{kind: kind, name: s.Name}
	if gap, err := strconv.ParseFloat(strings.TrimSuffix(s.BarCategoryGap, "%"), 64); err == nil {
		out.gap = gap / 100
	}
	for m, d := range data {
		v, ok := asValue(d.Value)
		if !ok {
			continue
		}
		out.bars = append(out.bars, bar{m, base[m], v, d.Name})
		base[m] += v
	}
	if s.MarkLines != nil {
		for _, line := range s.MarkLines.Data {
			if ends, ok := line.([2]rangeEnd); ok {
				out.spans = append(out.spans, span{int(math.Round(ends[0].Coord[0])), ends[0].Coord[1], ends[1].Coord[1], ends[0].Name})
			}
		}
	}
	return out
}

func readMarks(data []opts.LineData) []mark {
	var out []mark
	for _, d := range data {
		if at, ok := d.Value.([2]float64); ok {
			out = append(out, mark{at[0], d.Name})
		}
	}
	return out
}
