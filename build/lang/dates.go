package lang

// Dates, seasons and lists as a language writes them, and links to be printed.

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"guidegen/content/calendar"
)

// Link is a link ready to print; without an Href its text stands alone.
type Link struct{ Text, Href string }

// Date is a day ready to print: "21 March" and "03-21", or with its year.
type Date struct{ Text, Machine string }

// Month returns a month's name; short is the form for narrow columns.
func (w *Words) Month(m int) string { return w.Plain("month.m" + strconv.Itoa(m)) }

// ShortMonth is a month's name in narrow columns, 1 to 12.
func (w *Words) ShortMonth(m int) string { return w.Plain("month.s" + strconv.Itoa(m)) }

// DayOfMonth is a day's number within a date; the first is an ordinal in some languages.
func (w *Words) DayOfMonth(n int) string {
	if n == 1 {
		return w.Plain("date.first")
	}
	return strconv.Itoa(n)
}

// DayOf is a day of any year; zero where there is none.
func (w *Words) DayOf(d calendar.Day) Date {
	if !d.Valid() {
		return Date{}
	}
	m, n := int(d.Month()), d.DayOfMonth()
	return Date{w.Plain("date.day", "day", w.DayOfMonth(n), "month", w.Month(m)), fmt.Sprintf("%02d-%02d", m, n)}
}

// FirstDay and LastDay print the days from and to which a law runs, for 29 February what it is in any year.
func (w *Words) FirstDay(d calendar.MonthDay) Date { return w.lawDay(d, "date.leap_first") }

// LastDay prints the last day of a term.
func (w *Words) LastDay(d calendar.MonthDay) Date { return w.lawDay(d, "date.leap_last") }

func (w *Words) lawDay(d calendar.MonthDay, leap string) Date {
	if d == (calendar.MonthDay{Month: 2, Day: 29}) {
		return Date{w.Plain(leap, "february", w.Month(2), "march", w.Month(3)), d.String()}
	}
	if !d.Valid() {
		return Date{}
	}
	return w.DayOf(d.OfYear())
}

// DateOf is a day of one year; zero where there is none.
func (w *Words) DateOf(d calendar.Date) Date {
	if d.IsZero() {
		return Date{}
	}
	return Date{w.Plain("date.full", "day", w.DayOfMonth(d.Day), "month", w.Month(int(d.Month)), "year", strconv.Itoa(d.Year)), d.String()}
}

// DayIn is a date without its year in plain text; 29 February is itself.
func (w *Words) DayIn(d calendar.Date) string {
	return w.Plain("date.day", "day", w.DayOfMonth(d.Day), "month", w.Month(int(d.Month)))
}

// Day is a day of any year in plain text, "" where there is none.
func (w *Words) Day(d calendar.Day) string { return w.DayOf(d).Text }

// Date is a day of one year in plain text, "" where there is none.
func (w *Words) Date(d calendar.Date) string { return w.DateOf(d).Text }

// When prints a date that may be vague.
func (w *Words) When(d calendar.When) string {
	switch {
	case d.IsZero():
		return ""
	case d.Exact():
		return w.DateOf(d.From).Text
	case d.From.Day == 1 && d.To.AddDays(1).Day == 1 && d.From.Year == d.To.Year:
		if d.From.Month == d.To.Month {
			return w.Plain("date.month", "month", w.Month(int(d.From.Month)), "year", strconv.Itoa(d.From.Year))
		}
		if d.From.Month == time.January && d.To.Month == time.December {
			return strconv.Itoa(d.From.Year)
		}
	}
	return w.Plain("date.range", "from", w.DateOf(d.From).Text, "to", w.DateOf(d.To).Text)
}

// Cell names a half-month; the second half of February ends on the 29th, which counts with the 28th.
func (w *Words) Cell(c calendar.Cell) string {
	to := c.Last().DayOfMonth()
	if c.Last() == calendar.LastOf(time.February) {
		to = 29
	}
	return w.Plain("date.cell", "from", w.DayOfMonth(c.First().DayOfMonth()), "to", strconv.Itoa(to), "month", w.Month(int(c.Month())))
}

// CellRuns words the half-months that are in, neighbours together: "16–31 May, 1 July–15 August"; "" for none.
func (w *Words) CellRuns(in func(c calendar.Cell) bool) string {
	var runs []string
	for c := calendar.Cell(0); c < calendar.Cells; c++ {
		if !in(c) {
			continue
		}
		from := c
		for c+1 < calendar.Cells && in(c+1) {
			c++
		}
		run := w.Cell(c)
		if c > from {
			run = w.Plain("range", "low", w.DayOf(from.First()).Text, "high", w.DayOf(c.Last()).Text)
		}
		runs = append(runs, run)
	}
	return strings.Join(runs, w.Plain("list.comma"))
}

// Years prints years in runs: "2019, 2021–2023".
func (w *Words) Years(ys []int) string {
	var s []string
	for i := 0; i < len(ys); i++ {
		j := i
		for j+1 < len(ys) && ys[j+1] == ys[j]+1 {
			j++
		}
		switch {
		case j > i+1:
			s = append(s, strconv.Itoa(ys[i])+"–"+strconv.Itoa(ys[j]))
			i = j
		default:
			s = append(s, strconv.Itoa(ys[i]))
		}
	}
	return strings.Join(s, w.Plain("list.comma"))
}

// Seasons prints seasons as figures name them, whole years in runs.
func (w *Words) Seasons(names []string) string {
	var years []int
	for _, n := range names {
		y, err := strconv.Atoi(n)
		if err != nil {
			return strings.Join(names, w.Plain("list.comma"))
		}
		years = append(years, y)
	}
	return w.Years(years)
}

// List joins words as a sentence does: "a, b and c".
func (w *Words) List(items []string) string {
	switch len(items) {
	case 0:
		return ""
	case 1:
		return items[0]
	}
	n := len(items) - 1
	return w.Plain("list.and", "first", strings.Join(items[:n], w.Plain("list.comma")), "last", items[n])
}
