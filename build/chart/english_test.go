package chart

// The words of the tests' charts.

import (
	"math"
	"strconv"
)

// English holds words in English.
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
