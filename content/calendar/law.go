package calendar

import (
	"cmp"
	"fmt"
	"time"
)

// A MonthDay is a day of every civil year, as a law or a notice names it. Unlike a Day it keeps 29 February
// apart: that day lies between 28 February and 1 March, so a season that closes on 28 February is closed on the
// 29th, and one that opens on the 29th opens on 1 March where the year has no 29th. (From the meaning of "from …
// to …, both days included": of a day that isn't in the year only its place between the others is left.) The
// zero value means not given.
type MonthDay struct {
	Month time.Month
	Day   int
}

// MonthDay is the date without its year.
func (d Date) MonthDay() MonthDay { return MonthDay{d.Month, d.Day} }

// Valid reports whether some year has the day.
func (m MonthDay) Valid() bool {
	return m.Month >= 1 && m.Month <= 12 && m.Day >= 1 && m.Day <= longest(m.Month)
}

// Compare orders days within a year.
func (m MonthDay) Compare(o MonthDay) int {
	return cmp.Or(cmp.Compare(m.Month, o.Month), cmp.Compare(m.Day, o.Day))
}

// OfYear is the day on the circle of 365 days, where 29 February counts with 28 February.
func (m MonthDay) OfYear() Day { return DayOf(m.Month, m.Day) }

// Add moves by n days of a year that has a 29 February.
func (m MonthDay) Add(n int) MonthDay {
	return DateOf(Date{2000, m.Month, m.Day}.Time().AddDate(0, 0, n%366)).MonthDay()
}

// In gives the first date of a year that is not before m: 1 March for 29 February in a year without one.
func (m MonthDay) In(year int) Date { return DateOf(Date{year, m.Month, m.Day}.Time()) }

// LastIn gives the last date of a year that is not after m: 28 February for 29 February in a year without one.
func (m MonthDay) LastIn(year int) Date {
	if d := m.In(year); d.MonthDay() == m {
		return d
	}
	return m.Add(-1).In(year)
}

// String writes month and day, 02-29.
func (m MonthDay) String() string { return fmt.Sprintf("%02d-%02d", int(m.Month), m.Day) }

// A Term runs every year from Open to Close, both included; it may cross New Year.
type Term struct{ Open, Close MonthDay }

// Holds reports whether a date lies in the term.
func (t Term) Holds(d Date) bool {
	m := d.MonthDay()
	if t.AllYear() {
		return true
	}
	after, before := m.Compare(t.Open) >= 0, m.Compare(t.Close) <= 0
	if t.Open.Compare(t.Close) <= 0 {
		return after && before
	}
	return after || before
}

// AllYear reports whether the term leaves out no day of a year without 29 February: nobody who writes "1 March to
// 28 February" means to leave out that one day.
func (t Term) AllYear() bool {
	return t.Open == t.Close.Add(1) || t == Term{MonthDay{3, 1}, MonthDay{2, 28}}
}

// Rest is the term between Close and Open.
func (t Term) Rest() Term { return Term{t.Close.Add(1), t.Open.Add(-1)} }

// In lists the runs of a month's days, by number, that lie in the term, in a year with a 29 February.
func (t Term) In(m time.Month) (runs [][2]int) {
	for d := 1; d <= longest(m); d++ {
		switch n := len(runs); {
		case !t.Holds(Date{2000, m, d}):
		case n > 0 && runs[n-1][1] == d-1:
			runs[n-1][1] = d
		default:
			runs = append(runs, [2]int{d, d})
		}
	}
	return runs
}

// Whole reports whether a run of days is the whole month.
func Whole(m time.Month, run [2]int) bool { return run[0] == 1 && run[1] == longest(m) }
