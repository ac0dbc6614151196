package chart

// Flies to expect by group, month by month: stacked bars.

import (
	"math"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// StackedMonths is one water's flies to expect: per group, the sum of the
// flies' chances in each month.
type StackedMonths struct {
	Heading  string // "Flies to expect on a visit"
	Groups   []GroupMonths
	Unlooked [12]bool // months without one visit to this water: hatched under the axis
	Words    *Words
}

// GroupMonths is one group's row of the stack, from the bottom up.
type GroupMonths struct {
	Key   string // upwinged, sedge, stonefly, alder, midge, gnat, other water-bred, land-bred
	Name  string // as printed: "Upwinged flies"
	Flies [12]float64
}

// Option makes it.
func (c StackedMonths) Option() (Option, error) {
	w := c.Words
	o := newOption(w)
	o.height = 350

	var sums [12]float64
	for _, g := range c.Groups {
		for m, v := range g.Flies {
			sums[m] += amount(v)
		}
	}
	high := 0.0
	for _, v := range sums {
		high = max(high, v)
	}
	o.panel(40, 180, c.Heading, "", topOf(high, 1, 2, 4, 6, 8, 10, 12, 16, 20, 30, 40, 60, 80, 100))

	for i, g := range c.Groups {
		var data [12]opts.BarData
		for m, v := range g.Flies {
			if v := amount(v); v > 0 {
				data[m] = opts.BarData{Name: w.Months[m] + ": " + g.Name + " " + w.Amount(v), Value: v}
			}
		}
		o.bars(idGroup+groupKey(g.Key, i), g.Name, "groups", data)
	}
	var hatched []opts.LineData
	for m, unlooked := range c.Unlooked {
		if unlooked {
			hatched = append(hatched, opts.LineData{Name: w.Months[m] + ": " + w.Unlooked, Value: [2]float64{float64(m) + 0.5, 0}})
		}
	}
	if hatched != nil {
		o.strip(hatched)
	}
	o.points(idToday, w.Today, "none", nil, []opts.LineData{})
	return o.done()
}

// amount is a sum of chances with digits enough for a bar.
func amount(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
		return 0
	}
	return math.Round(v*1e6) / 1e6
}
