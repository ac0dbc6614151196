package figures

// What is reckoned once per water: temperature, how well it is known, how
// right the guide was, its keys (the guide's rules on figures, sections 10,
// 11, 14, 16 and 17).

import (
	"slices"
	"sync"

	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers"
	"guidegen/rivers/season"
	"guidegen/rivers/survey"
	"guidegen/species"
)

// warmth fits the water's year: monthly means of its record where they settle
// a wave, else the logger's daily means.
func (r *reckoner) warmth(w *Water) Warmth {
	out := Warmth{Regulated: w.Kind.BelowDam() || w.Regulated}
	wave, ok := monthly(w.Temperature)
	if ok {
		out.From, out.Basis = FromMonths, w.Temperature.Basis
	} else if days := r.loggerDays(w); len(days) > 0 {
		if wave, ok = fit(daily(days)); ok {
			out.From = FromLogger
			out.Basis = content.On(content.Part{Ground: content.OwnRecords, Water: w.Name.S, Years: yearsIn(days)}) // a logger's days are no visits
		}
	}
	if ok {
		out.Known, out.M, out.A, out.B, out.Residual, out.N = true, wave.M, wave.A, wave.B, wave.Residual, wave.N
	}
	for i, t := range r.spots(w) {
		if i == 0 {
			out.SpotMin, out.SpotMax = t, t
		}
		out.SpotN++
		out.SpotMin, out.SpotMax = min(out.SpotMin, t), max(out.SpotMax, t)
		out.SpotMean += t
	}
	if out.SpotN > 0 {
		out.SpotMean /= float64(out.SpotN)
	}
	return out
}

func daily(days []season.DayMean) []season.Reading {
	var out []season.Reading
	for _, d := range days {
		out = append(out, season.Reading{Day: float64(d.Date.OfYear()), Value: d.Mean})
	}
	return out
}

// loggerDays gives a water's daily means; a day with only a lowest and a
// highest has the mean of the two.
func (r *reckoner) loggerDays(w *Water) []season.DayMean {
	var out []season.DayMean
	for _, s := range r.e.Series {
		for _, d := range s.Logger {
			if d.WaterAddress != w.Address || w.Address == "" {
				continue
			}
			day := season.DayMean{Date: d.Date, Mean: d.Mean, Low: d.Min, High: d.Max, Range: d.HasMinMax}
			if !d.HasMean {
				day.Mean = (d.Min + d.Max) / 2
			}
			if d.HasMean || d.HasMinMax {
				out = append(out, day)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b season.DayMean) int { return a.Date.Sub(b.Date) })
	return out
}

func yearsIn(days []season.DayMean) int {
	seen := map[int]bool{}
	for _, d := range days {
		seen[d.Date.Year] = true
	}
	return len(seen)
}

// spots gives a water's spot readings, those made on visits too.
func (r *reckoner) spots(w *Water) []float64 {
	var out []float64
	for _, s := range r.e.Series {
		for _, x := range s.Spots {
			if x.WaterAddress == w.Address && w.Address != "" {
				out = append(out, x.Celsius)
			}
		}
	}
	for _, v := range w.visits {
		for _, x := range v.Readings {
			if x.What == rivers.WaterTemperature {
				out = append(out, x.Celsius)
			}
		}
	}
	return out
}

// Thresholds of the degree-day sums that are shown: none is a fly's own.
var thresholds = []float64{0, 4}

// NewestReading is how old a logger's newest reading may be, in days, for the
// days ahead or behind to be of use (section 10).
const NewestReading = 30

// ahead says for the newest logger year how far it is ahead or behind. The
// thermal year starts on 1 January, south of the equator on 1 July.
func (r *reckoner) ahead(w *Water) []Ahead {
	days := r.loggerDays(w)
	if len(days) == 0 {
		return nil
	}
	on := days[len(days)-1].Date
	start := calendar.Day(1)
	if r.reference.South {
		start = calendar.DayOf(7, 1)
	}
	smooth, earlier := r.normal(w, days, season.ThermalYear(on, start), start)
	var out []Ahead
	for _, t := range thresholds {
		a := Ahead{On: on, Threshold: t, Stale: r.built.Sub(on) > NewestReading, Progress: season.Ahead(on, start, t, days, smooth),
			Basis: content.On(content.Part{Ground: content.OwnRecords, Water: w.Name.S, Years: yearsIn(days)})}
		switch {
		case a.Years > 0:
			a.Against, a.NormalYears = FromYears, a.Years
		case t <= 0 && smooth != nil:
			a.Against = w.Warmth.From
			if a.Against == FromLogger {
				a.NormalYears = earlier
			}
		}
		a.Thin = a.NormalYears < season.EnoughNormal
		switch {
		case a.Why != "":
		case a.Against != FromYears && w.Warmth.Regulated:
			a.Withheld = NoCurve
		case content.Round9(max(a.Days, -a.Days)) > r.c.Season.LargestShift:
			a.Withheld = FarAhead
		}
		out = append(out, a)
	}
	return out
}

// normal gives the smooth curve of a normal year, nil where there is none, and
// the logger years in it: the year judged is no normal for itself.
func (r *reckoner) normal(w *Water, days []season.DayMean, judged int, start calendar.Day) (*season.Wave, int) {
	switch w.Warmth.From {
	case FromMonths:
		return &season.Wave{M: w.Warmth.M, A: w.Warmth.A, B: w.Warmth.B}, 0
	case FromLogger:
		earlier := slices.DeleteFunc(slices.Clone(days), func(d season.DayMean) bool {
			return season.ThermalYear(d.Date, start) == judged
		})
		if wave, ok := fit(daily(earlier)); ok {
			return &wave.Wave, yearsIn(earlier)
		}
	}
	return nil, 0
}

func (r *reckoner) perWater() {
	var all []*guide.Visit
	for _, w := range r.book.Waters {
		all = append(all, w.visits...)
		slices.SortStableFunc(w.Rows, func(a, b *Row) int { return r.flyOrder(a.Fly, b.Fly) })
		for _, v := range w.visits {
			for _, f := range v.Finds {
				if f.ToName() {
					w.ToName = append(w.ToName, ToName{v, f})
				}
			}
			if !v.LooksForAny() {
				continue
			}
			w.Visits++
			if v.When.From.Year == v.When.To.Year {
				w.Years = append(w.Years, v.When.From.Year)
			}
			if w.RecordsTo.Before(v.When.To) {
				w.RecordsTo = v.When.To
			}
		}
		slices.Sort(w.Years)
		w.Years = slices.Compact(w.Years)
		w.Sun = r.sun(w)
		w.Ahead = r.ahead(w)
		w.Groups = r.groups(w)
		w.Coverage = r.coverage(w)
		w.Coverage.Best = r.next(w)
		w.Rightness = r.rightness(w)
		w.Prompts = r.prompts(w)
	}
	r.book.Recorders, r.book.Unnamed, _ = r.recorders(all)
}

func (r *reckoner) groups(w *Water) []GroupMonths {
	var out []GroupMonths
	for _, g := range species.Groups {
		sum := GroupMonths{Group: g}
		var chances []*season.Chances
		for _, row := range w.Rows {
			if row.Fly.Group != g {
				continue
			}
			chances = append(chances, row.stand.chances)
			for i, m := range row.Months {
				sum.Basis[i] = sum.Basis[i].With(m.Basis.Grounded())
			}
		}
		if len(chances) > 0 {
			sum.Sum = season.ToExpect(chances)
			out = append(out, sum)
		}
	}
	return out
}

func (r *reckoner) coverage(w *Water) Coverage {
	var c Coverage
	looked := 0
	var under []survey.Under
	for _, v := range w.visits {
		if u, ok := v.Under(); ok {
			under = append(under, u)
		}
		if !v.LooksForAny() {
			continue
		}
		looked++
		if v.When.Exact() {
			cell := v.When.From.OfYear().Cell()
			if c.Cells[cell] == nil {
				c.Cells[cell] = map[int]int{}
			}
			c.Cells[cell][v.When.From.Year]++
		}
	}
	c.Under = survey.UnderRows(under)
	c.Recorders, _, c.Withheld = r.recorders(w.visits)
	c.Recorders = slices.DeleteFunc(c.Recorders, func(x Recorder) bool { return x.Looked == 0 })
	var counts []int
	for _, row := range w.Rows {
		counts = append(counts, row.FoundOn)
	}
	c.Expected = survey.Chao2(counts, looked)
	return c
}

func (r *reckoner) rightness(w *Water) Rightness {
	var tried []season.Tried
	for _, row := range w.Rows {
		s := row.stand
		tried = append(tried, season.Tried{P: &s.p, Own: s.held, Lent: s.lent, Trust: s.trust})
	}
	right := season.HowRight(tried, r.c.Season)
	for _, row := range w.Rows {
		row.stand.held, row.stand.lent = nil, nil // nothing after this asks for single visits
	}
	return Rightness{right, w.Years}
}

// makeKeys says how to build the keys of waters, their months and the guide.
func (r *reckoner) makeKeys() {
	best := map[*Fly]float64{}
	for _, w := range r.book.Waters {
		by := map[*Fly]*Row{}
		row := func(f *Fly) *Row { return by[f] }
		for _, x := range w.Rows {
			by[x.Fly] = x
			best[x.Fly] = max(best[x.Fly], largestMonth(x))
		}
		for i := range w.MonthKeys {
			w.keyed[i] = r.sorted(keyed(w, i))
			w.MonthKeys[i] = sync.OnceValue(func() *Key {
				return r.keyFor(w, i+1, w.keyed[i], func(f *Fly) float64 { return by[f].Months[i].Chance }, row)
			})
		}
		w.Key = sync.OnceValue(func() *Key {
			rows := slices.DeleteFunc(slices.Clone(w.Rows), func(x *Row) bool {
				return !slices.ContainsFunc(w.keyed[:], func(flies []*Fly) bool { return slices.Contains(flies, x.Fly) })
			})
			return r.keyFor(w, 0, r.sorted(rows), func(f *Fly) float64 { return largestMonth(by[f]) }, row)
		})
	}
	r.book.Key = sync.OnceValue(func() *Key {
		return r.keyFor(nil, 0, r.book.Flies, func(f *Fly) float64 { return best[f] }, func(*Fly) *Row { return nil })
	})
}

// sorted are the flies of rows in the order of keys.
func (r *reckoner) sorted(rows []*Row) []*Fly {
	flies := make([]*Fly, len(rows))
	for i, x := range rows {
		flies[i] = x.Fly
	}
	slices.SortStableFunc(flies, r.flyOrder)
	return flies
}

// keyed are the flies of a month's key: listed ones with a largest chance of a fiftieth or more on a day of the month,
// and any fly found there in it.
func keyed(w *Water, month int) []*Row {
	var out []*Row
	for _, row := range w.Rows {
		top := 0.0
		for d := calendar.FirstOf(monthOf(month)); d <= calendar.LastOf(monthOf(month)); d++ {
			top = max(top, row.Chance[d-1])
		}
		if row.Listed && content.Round9(top) >= leastDue || row.Months[month].Found > 0 || row.Cells[2*month].State == CellFound || row.Cells[2*month+1].State == CellFound {
			out = append(out, row)
		}
	}
	return out
}

// largestMonth is the largest of a row's monthly bars.
func largestMonth(x *Row) float64 {
	top := 0.0
	for _, m := range x.Months {
		top = max(top, m.Chance)
	}
	return top
}
