package share

// How numbers, days and texts stand in the data files: plain decimals without
// an exponent. What is not known, not given, false or an empty list is left out, with no 0 in its place.

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strconv"

	"guidegen/content"
	"guidegen/content/calendar"
)

// Format is the version of the data files' format: it changes when a key
// changes its meaning or goes away.
const Format = 2

// number is written to 1e-9, which is finer than any figure is good for.
type number float64

func (n number) MarshalJSON() ([]byte, error) { return appendNumber(nil, float64(n)) }

func appendNumber(b []byte, v float64) ([]byte, error) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil, fmt.Errorf("share: %v isn't a number to publish", v)
	}
	return strconv.AppendFloat(b, content.Round9(v), 'f', -1, 64), nil
}

// millionth is a share or a score to 1e-6, which is enough to check it by; millionths makes one.
type millionth = number

func millionths(v float64) millionth { return millionth(rounded(v, 1e6)) }

func rounded(v, parts float64) float64 { return math.Round(content.Round9(v)*parts) / parts }

// curve is a year of values, 1 January first, to 1e-6; coarse is one to 1e-4, which pages round to whole per cents.
// Two curves for each fly are a third of a water's file.
type (
	curve  [calendar.Year]float64
	coarse [calendar.Year]float64
)

func (c curve) MarshalJSON() ([]byte, error)  { return appendYear(c, 1e6) }
func (c coarse) MarshalJSON() ([]byte, error) { return appendYear(c, 1e4) }

func appendYear(year [calendar.Year]float64, parts float64) ([]byte, error) {
	b := make([]byte, 0, 4096)
	for i, v := range year {
		sep := byte(',')
		if i == 0 {
			sep = '['
		}
		var err error
		if b, err = appendNumber(append(b, sep), rounded(v, parts)); err != nil {
			return nil, err
		}
	}
	return append(b, ']'), nil
}

// day is a day of every year.
type day struct {
	Date string `json:"date" doc:"month and day" pattern:"^(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"`
	Day  int    `json:"day" doc:"day of the year of 365 days; 29 February counts with 28 February" range:"1 365"`
}

func dayOf(d calendar.Day) day {
	return day{fmt.Sprintf("%02d-%02d", int(d.Month()), d.DayOfMonth()), int(d)}
}

// maybeDay is null for the day that isn't known.
func maybeDay(d calendar.Day) *day {
	if !d.Valid() {
		return nil
	}
	return new(dayOf(d))
}

// date is an ISO 8601 date.
type date string

func maybeDate(d calendar.Date) *date {
	if d.IsZero() {
		return nil
	}
	return new(date(d.String()))
}

func dates(l []calendar.Date) []date {
	out := make([]date, len(l))
	for i, d := range l {
		out[i] = date(d.String())
	}
	return out
}

// clock is a local clock time.
type clock string

func maybeClock(c calendar.Clock) *clock {
	if c == calendar.NoClock {
		return nil
	}
	return new(clock(c.String()))
}

// known is null unless ok.
func known(v float64, ok bool) *number {
	if !ok {
		return nil
	}
	return new(number(v))
}

// text is null for what isn't given.
func text[T ~string](s T) *T {
	if s == "" {
		return nil
	}
	return &s
}

// list is never null.
func list[T any](l []T) []T {
	if l == nil {
		return []T{}
	}
	return l
}

func each[T, U any](l []T, f func(T) U) []U {
	out := make([]U, len(l))
	for i, x := range l {
		out[i] = f(x)
	}
	return out
}

func encode(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
