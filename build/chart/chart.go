// Package chart draws the guide's charts and its signs for paper.
//
// A fly's year is one model, Year. It is drawn as SVG by a small writer of our own,
// which needs no script, no style attribute and nothing from elsewhere; and for a
// reader who looks closer go-echarts makes an option of the same model, in a file of
// its own. Neither is made from the other. Colours stand in the style sheet alone.
//
// The package reckons nothing: shares, states and words come ready from its
// caller. Text may be anything; all of it is escaped.
package chart

import (
	"fmt"
	"math"
	"strconv"
)

// Year is one fly on one water.
type Year struct {
	Name   string // over its panel of the option: the fly, or the water
	Months [12]Month
	Cells  [24]Cell
	Finds  []Find // of the year the guide is built in
}

// Option is a chart for the chart library.
type Option struct {
	JSON   []byte // no <, >, & or U+2028/9 stands bare in it
	Height int    // px
}

// State says what a month's bar is based on. The zero State is Unlisted, so that
// a month nobody filled in claims nothing.
type State uint8

const (
	Unlisted   State = iota // the fly is not in this water's list: no number
	Unexpected              // not expected by the account, and nobody looked: no number
	Unlooked                // a number, but without one visit of this water's own
	Thin                    // fewer than three own visits, or all in one year
	Own                     // own visits enough
)

// Numbered reports whether a month in this state has a number to show.
func (s State) Numbered() bool { return s >= Unlooked }

// Month is one month of one fly on one water.
type Month struct {
	Chance    float64 // share of visits, 0 … 1
	Low, High float64 // its 80 % range; both 0 where there is none
	State     State
	Text      string // the plain count: "found on 3 of 7 visits in 2 years"
}

// Cell is the state of a fly in one half-month.
type Cell uint8

const (
	CellUnlooked Cell = iota // nobody looked
	CellLooked               // looked for and not found
	CellFound                // found
)

// Find is one find of the current year, marked on its day.
type Find struct {
	Month, Day int    // 1 … 12, 1 … 31; a day that no year has is left out
	Text       string // "found 12 May 2026, Upper Beat"
}

// checked refuses months whose shares are no shares: a fault of ours, not the guide's.
func checked(months [12]Month) error {
	for m, month := range months {
		for _, v := range []float64{month.Chance, month.Low, month.High} {
			if month.State.Numbered() && !(v >= 0 && v <= 1) {
				return fmt.Errorf("chart: month %d: %v isn't a share", m+1, v)
			}
		}
	}
	return nil
}

// percent turns a share into a percentage with digits enough for a bar.
func percent(share float64) float64 {
	return math.Round(math.Min(math.Max(share, 0), 1)*1e6) / 1e4
}

// topOf is the lowest tidy end of an axis that holds v.
func topOf(v float64, steps ...float64) float64 {
	for _, s := range steps {
		if v <= s {
			return s
		}
	}
	return steps[len(steps)-1] * math.Ceil(v/steps[len(steps)-1])
}

var monthDays = [12]int{31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// dayPlace is the place of a day on an axis of twelve equal months, 0 … 12.
// The script that puts the reader's date on a chart does the same.
func dayPlace(month, day int) (float64, bool) {
	if month < 1 || month > 12 || day < 1 || day > monthDays[month-1] {
		return 0, false
	}
	at := float64(month-1) + (float64(day)-0.5)/float64(monthDays[month-1])
	return math.Round(at*1000) / 1000, true
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
