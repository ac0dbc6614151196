package chart

// The words that stand in a chart, so that a site in another language can bring its own.

import (
	"math"
	"strconv"
)

// Words are the few words a chart adds to what its caller gives. English
// is complete; a copy with some fields changed will do.
type Words struct {
	Months [12]string // table and titles
	Short  [12]string // under the bars; cut to three letters where longer than four

	Own, Thin, Unlooked string // what a bar rests on, in the legend
	Unexpected          string // in place of a number
	Unlisted            string // in place of a number
	NoNumber            string // the empty cell of a table
	Range               string // before a range, in a bar's title
	Found               string // this year's finds, in the legend
	Today               string // the reader's date

	Percent func(share float64) string     // one share, 0 … 1, as a reader wants it
	Span    func(low, high float64) string // two of them
	Amount  func(v float64) string         // a sum of chances, flies
	Unit    string                         // after a figure on the axis of shares
}

// English holds the words of the default site.
var English = Words{
	Months: [12]string{"January", "February", "March", "April", "May", "June",
		"July", "August", "September", "October", "November", "December"},
	Short: [12]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"},

	Own: "own visits", Thin: "thin evidence", Unlooked: "nobody looked",
	Unexpected: "not expected by the account; nobody looked",
	Unlisted:   "not in this water's list",
	NoNumber:   "no figure", Range: "80 % range", Found: "found this year", Today: "your date",
	Percent: percentWords, Span: spanWords, Amount: amountWords, Unit: "\u00a0%",
}

// percentWords rounds to a whole per cent, but never turns a small chance into
// none or a large one into certainty.
func percentWords(share float64) string {
	p := tidy(share * 100)
	switch {
	case p > 0 && p < 0.5:
		return "under 1\u00a0%"
	case p >= 99.5 && p < 100:
		return "over 99\u00a0%"
	}
	return strconv.FormatFloat(math.Round(p), 'f', 0, 64) + "\u00a0%"
}

func spanWords(low, high float64) string {
	return strconv.FormatFloat(math.Round(tidy(low*100)), 'f', 0, 64) + "–" +
		strconv.FormatFloat(math.Round(tidy(high*100)), 'f', 0, 64) + "\u00a0%"
}

func amountWords(v float64) string {
	return strconv.FormatFloat(math.Round(tidy(v)*10)/10, 'f', 1, 64)
}

// tidy rounds to 1e-9, so that a half is a half before it is rounded.
func tidy(v float64) float64 { return math.Round(v*1e9) / 1e9 }

// short cuts a month's label to what a narrow column can hold.
func short(label string) string {
	if r := []rune(label); len(r) > 4 {
		return string(r[:3])
	}
	return label
}

// basis is the word for what a month rests on.
func (w *Words) basis(s State) string {
	switch s {
	case Own:
		return w.Own
	case Thin:
		return w.Thin
	case Unlooked:
		return w.Unlooked
	case Unexpected:
		return w.Unexpected
	}
	return w.Unlisted
}
