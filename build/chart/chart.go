// Package chart draws the guide's charts and its diagrams of insects.
//
// A chart is built once as an option of go-echarts. From that same option, read
// back, an inline SVG is drawn when the site is built; beside it go the numbers
// as a table, and in a file of its own the option, for a reader who presses
// "Look closer". The SVG needs no script, no style attribute and nothing from elsewhere.
//
// The package reckons nothing: shares, states and words come ready from its
// caller. Text may be anything; all of it is escaped.
package chart

import (
	"fmt"
	"html/template"
	"math"
	"strconv"
	"strings"
)

// Chart is one chart in its three forms, ready to print.
type Chart struct {
	ID     string        // as the caller gave it, cut to what an id may hold
	SVG    template.HTML // <svg class="chart" role="img" …>
	Option []byte        // JSON for the chart library: no <, >, & or U+2028/9 stands bare in it
	Height int           // px the chart library is given
	Table  Table
}

// Table holds a chart's numbers as text. The first cell of a row is its heading.
type Table struct {
	Caption string
	Head    []string
	Rows    [][]string
}

// inWords lists one column for those who hear the chart: "May: 42 %; …".
func (t Table) inWords(column int) string {
	rows := make([]string, 0, len(t.Rows))
	for _, r := range t.Rows {
		rows = append(rows, r[0]+": "+r[column])
	}
	return strings.Join(rows, "; ")
}

// or is text, or what instead makes where there is none.
func or(text string, instead func() string) string {
	if text != "" {
		return text
	}
	return instead()
}

// State says what a month's bar rests on. The zero State is Unlisted, so that
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

// Find is one find of the current year, marked above its day.
type Find struct {
	Month, Day int    // 1 … 12, 1 … 31; a day that no year has is left out
	Text       string // "found 12 May 2026, Upper Beat"
}

// checked refuses months whose shares are no shares: a fault of ours, not the guide's.
func checked(id string, months [12]Month) error {
	for m, month := range months {
		for _, v := range []float64{month.Chance, month.Low, month.High} {
			if month.State.Numbered() && !(v >= 0 && v <= 1) {
				return fmt.Errorf("chart %s: month %d: %v is no share", id, m+1, v)
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

// cleanID keeps what may stand in an id and in url(#…) without escaping.
func cleanID(id string) string {
	out := []byte(id)
	for i, c := range out {
		letter := 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z'
		if !letter && (i == 0 || c != '-' && c != '_' && (c < '0' || c > '9')) {
			out[i] = '_'
		}
	}
	if len(out) == 0 {
		return "chart"
	}
	return string(out)
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
