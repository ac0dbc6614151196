package view

// How well a water is known, how right the guide was, and its temperature.

import (
	"strconv"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/content"
)

// KnownView is how well a water is known.
type KnownView struct {
	Withheld  content.Figure // visits whose people are not for this edition
	Recorders []RecorderView
	Observed  content.Figure
	Expected  content.Figure
	StdErr    content.Figure
	Best      []string
	Plan      lang.Link
	Visits    content.Figure
}

// RecorderView is one person's share of empty visits.
type RecorderView struct {
	Name          string
	Visits, Empty content.Figure
}

// MostCells is how many half-months are named as those where a visit would help most.
const MostCells = 4

// Known is how well a water is known.
func (p *Printer) Known(at string, w *figures.Water) KnownView {
	c := w.Coverage
	b := OwnVisits(w.Name.S, w.Visits, len(w.Years))
	v := KnownView{Visits: Count(w.Visits, b), Observed: Count(c.Expected.Found, b)}
	if c.Expected.Known {
		v.Expected = content.NewFigure(c.Expected.Expected, "", 0, b)
		v.StdErr = content.NewFigure(c.Expected.StdErr, "", 1, b)
	}
	for _, r := range c.Recorders {
		v.Recorders = append(v.Recorders, RecorderView{r.Shown, Count(r.Looked, b), Count(r.Empty, b)})
	}
	if c.Withheld > 0 {
		v.Withheld = Count(c.Withheld, b)
	}
	for _, n := range c.Best[:min(MostCells, len(c.Best))] {
		v.Best = append(v.Best, p.words.Cell(n.Cell))
	}
	if len(v.Best) > 0 {
		v.Plan = p.Link(at, PlanPage, p.words.Plain("plan.link"))
	}
	return v
}

// RightView is the table of chance said against share found.
type RightView struct {
	CannotTell          string
	Years               string
	Bands               []BandView
	Brier, BrierAccount content.Figure
	N                   content.Figure
}

// BandView is one line of it.
type BandView struct {
	Range           lang.Range
	Found, N, Share content.Figure
}

// Rightness is the table of chance said against share found.
func (p *Printer) Rightness(w *figures.Water) RightView {
	r := w.Rightness
	v := RightView{Years: p.words.Years(r.Years)}
	if !r.Tell || r.N == 0 {
		v.CannotTell = p.words.Plain("right.too_few")
		return v
	}
	b := OwnVisits(w.Name.S, w.Visits, r.Right.Years)
	v.Brier, v.BrierAccount = content.NewFigure(r.Brier, "", 3, b), content.NewFigure(r.Account, "", 3, b)
	v.N = Count(r.N, b)
	for _, x := range r.Bands {
		band := BandView{Range: lang.Range{Low: Percent(x.From, b), High: Percent(x.Below, b)}, N: Count(x.N, b), Found: Count(x.Found, b)}
		if x.N > 0 {
			band.Share = Percent(float64(x.Found)/float64(x.N), b)
		}
		v.Bands = append(v.Bands, band)
	}
	return v
}

// WarmthView is a water's temperature through the year.
type WarmthView struct {
	Months             []TempMonth
	Mean, Residual     content.Figure
	From               string
	Regulated, Curve   bool
	Spots, SpotLow     content.Figure
	SpotMean, SpotHigh content.Figure
	Basis              Basis
}

// TempMonth is a month's mean as recorded.
type TempMonth struct {
	Month string
	Mean  content.Figure
}

// Warmth is a water's temperature through the year; nil where none is known.
func (p *Printer) Warmth(at string, w *figures.Water) *WarmthView {
	t := w.Warmth
	v := WarmthView{Regulated: t.Regulated, Basis: p.Basis(at, t.Basis)}
	if t.Known {
		v.Curve = true
		v.Mean, v.Residual = p.degrees(t.M, t.Basis), p.step(t.Residual, t.Basis)
		v.From = p.words.Or("warmth_from", t.From)
	}
	if t.SpotN > 0 {
		b := content.On(content.Part{Ground: content.OwnRecords, Water: w.Name.S, Visits: t.SpotN})
		v.Spots, v.SpotLow = Count(t.SpotN, b), p.degrees(t.SpotMin, b)
		v.SpotMean, v.SpotHigh = p.degrees(t.SpotMean, b), p.degrees(t.SpotMax, b)
	}
	for m := range 12 {
		if w.Temperature.Known[m] {
			v.Months = append(v.Months, TempMonth{p.words.ShortMonth(m + 1), p.degrees(w.Temperature.Months[m], w.Temperature.Basis)})
		}
	}
	if !v.Curve && t.SpotN == 0 && len(v.Months) == 0 {
		return nil
	}
	return &v
}

// step is a difference of temperatures.
func (p *Printer) step(c float64, b content.Basis) content.Figure {
	if u := unit(p.Settings().Units.Temperature); u == "°f" || u == "f" {
		return content.NewFigure(c*9/5, "°F", 1, Grounded(b))
	}
	return content.NewFigure(c, "°C", 1, Grounded(b))
}

// AheadView is ahead or behind by a logger's newest year, and what is said of it where the newest reading is too old:
// on the date built for, and on the reader's own.
type AheadView struct {
	On, For string // the newest reading's ISO date, and the days for which it speaks
	Stale   bool
	Old     string
	Lines   []AheadLine
}

// AheadLine is ahead or behind above one threshold.
type AheadLine struct {
	On        lang.Date
	Threshold content.Figure
	Text      string
	Basis     Basis
}

// Ahead says for each logger whether its newest year is ahead of a normal one.
func (p *Printer) Ahead(at string, w *figures.Water) (out AheadView) {
	for _, a := range w.Ahead {
		n := strconv.Itoa(figures.NewestReading)
		out.On, out.For, out.Stale, out.Old = a.On.String(), n, a.Stale, p.words.Plain("ahead.old", "on", p.words.DateOf(a.On), "n", n)
		v := AheadLine{On: p.words.DateOf(a.On), Threshold: p.degrees(a.Threshold, a.Basis), Basis: p.Basis(at, a.Basis)}
		v.Text = p.aheadWords(a)
		out.Lines = append(out.Lines, v)
	}
	return out
}

// aheadWords never gives days alone: with them goes that they are a rule of thumb, what a normal year
// is and whether that is thin; or, where it can't carry them, why there are none.
func (p *Printer) aheadWords(a figures.Ahead) string {
	w := p.words
	if a.Why != "" {
		return w.Plain("ahead.cannot_tell", "why", w.Or("unsure", string(a.Why)))
	}
	days, sign := content.Decimal(max(a.Days, -a.Days), 0), "ahead"
	if a.Days < 0 {
		sign = "behind"
	}
	if days == "0" && a.Withheld == "" {
		sign = "level"
	}
	text := ""
	if a.Withheld == "" {
		text = w.Plain("ahead."+sign, "n", days)
	} else {
		off := Percent(max(a.Sum-a.Normal, a.Normal-a.Sum)/a.Normal, a.Basis)
		text = w.Plain("ahead.withheld", "warmth", w.Plain("ahead.warmth_"+sign, "share", off),
			"why", w.Plain("ahead.why_"+a.Withheld, "most", content.Decimal(p.book.Edition.Constants.Season.LargestShift, 0)))
	}
	against := w.Plain("ahead.against_years", "n", strconv.Itoa(a.NormalYears))
	switch {
	case a.Against == figures.FromMonths:
		against = w.Plain("ahead.against_months")
	case a.Against == figures.FromLogger:
		against = w.Plain("ahead.against_logger", "n", strconv.Itoa(a.NormalYears))
	}
	if a.Thin {
		against = w.Plain("ahead.thin", "against", against, "thin", w.Plain("month_state.thin"))
	}
	return w.Plain("ahead.told", "text", text, "against", against)
}
