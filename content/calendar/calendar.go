// Package calendar holds the guide's days: the circle of the year, half-month
// cells, civil dates that may be vague, clock times and zones.
//
// A Day carries no year. 29 February counts with 28 February, so every year
// has 365 days and a flight may cross New Year without a special case.
package calendar

import (
	"fmt"
	"time"
)

// Year is the number of days on the circle.
const Year = 365

// Day is a day of the year without its year: 1 = 1 January … 365 = 31
// December. 29 February is the same day as 28 February. 0 means not given.
type Day int

var before = [13]int{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365}

// DayOf returns the day for a month and a day of the month; 29 February gives
// 28 February. It panics on a day that no year has: parse text with ParseDay.
func DayOf(month time.Month, day int) Day {
	if month < 1 || month > 12 || day < 1 || day > longest(month) {
		panic(fmt.Sprintf("calendar: no day %d in month %d", day, month))
	}
	if month == time.February && day == 29 {
		day = 28
	}
	return Day(before[month-1] + day)
}

func longest(m time.Month) int {
	if m == time.February {
		return 29
	}
	return before[m] - before[m-1]
}

// FirstOf and LastOf return a month's first and last day of the 365-day year.
func FirstOf(m time.Month) Day { return Day(before[m-1] + 1) }

// LastOf returns a month's last day of the 365-day year (28 for February).
func LastOf(m time.Month) Day { return Day(before[m]) }

// MidMonth is the mean day number of a month: 16, 45.5, 75, … (figures, section 10).
func MidMonth(m time.Month) float64 { return float64(before[m-1]+1+before[m]) / 2 }

// Month returns the month that holds d.
func (d Day) Month() time.Month {
	for m := time.January; m <= time.December; m++ {
		if int(d) <= before[m] {
			return m
		}
	}
	return time.December
}

// DayOfMonth returns the day within its month, from 1.
func (d Day) DayOfMonth() int { return int(d) - before[d.Month()-1] }

// Add moves a day by n days (either sign) round the circle.
func (d Day) Add(n int) Day { return Day(mod(int(d)-1+n, Year) + 1) }

// Cell returns the half-month that holds d.
func (d Day) Cell() Cell {
	c := Cell(2 * (int(d.Month()) - 1))
	if d.DayOfMonth() > 15 {
		c++
	}
	return c
}

// Valid reports whether d is on the circle.
func (d Day) Valid() bool { return d >= 1 && d <= Year }

// Gap is the number of days from a to b the short way round, signed:
// ((b - a + 182) mod 365) - 182.
func Gap(a, b Day) int { return mod(int(b-a)+182, Year) - 182 }

// Fwd is the number of days from a forward to b: (b - a) mod 365.
func Fwd(a, b Day) int { return mod(int(b-a), Year) }

// Within reports whether d lies in the run that goes forward from a to b, ends included.
func Within(d, a, b Day) bool { return Fwd(a, d) <= Fwd(a, b) }

func mod(a, n int) int { return ((a % n) + n) % n }

// Cell is a half-month: 1st–15th or 16th–end. 0 is the first half of January,
// 23 the second half of December.
type Cell int

// Cells is the number of half-months in a year.
const Cells = 24

// String writes a cell as 01a … 12b.
func (c Cell) String() string { return fmt.Sprintf("%02d%c", int(c)/2+1, 'a'+rune(int(c)%2)) }

// Month returns the cell's month.
func (c Cell) Month() time.Month { return time.Month(int(c)/2 + 1) }

// First and Last return the cell's first and last day.
func (c Cell) First() Day {
	if c%2 == 0 {
		return FirstOf(c.Month())
	}
	return FirstOf(c.Month()) + 15
}

// Last returns the cell's last day.
func (c Cell) Last() Day {
	if c%2 == 0 {
		return FirstOf(c.Month()) + 14
	}
	return LastOf(c.Month())
}

// Middle is the cell's middle day, of two the earlier: the 8th or the 23rd, the 22nd of February.
func (c Cell) Middle() Day { return c.First() + (c.Last()-c.First())/2 }

// Date is one civil day of one year, without a zone. The zero Date means not given.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// DateOf cuts a time to its civil day in the time's own zone.
func DateOf(t time.Time) Date { y, m, d := t.Date(); return Date{y, m, d} }

// IsZero reports whether the date was not given.
func (d Date) IsZero() bool { return d == Date{} }

// String writes ISO 8601, 2026-05-03.
func (d Date) String() string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, int(d.Month), d.Day) }

// OfYear returns the day on the circle.
func (d Date) OfYear() Day { return DayOf(d.Month, d.Day) }

// Before orders dates.
func (d Date) Before(e Date) bool { return d.Sub(e) < 0 }

// Sub returns the days from e to d, leap days counted.
func (d Date) Sub(e Date) int { return int((d.Time().Unix() - e.Time().Unix()) / 86400) }

// AddDays moves a date by n real days.
func (d Date) AddDays(n int) Date { return DateOf(d.Time().AddDate(0, 0, n)) }

// Time is the date's midnight in UTC.
func (d Date) Time() time.Time { return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC) }

// ISOWeek returns the ISO 8601 week and the year it belongs to.
func (d Date) ISOWeek() (year, week int) { return d.Time().ISOWeek() }

// When is a date as a record gives it: a day, a month, a year or a range. A
// vague date stays vague and feeds only summaries as coarse as itself.
type When struct {
	From, To Date // first and last day it may mean; equal for an exact day
}

// Exact reports whether one day is meant.
func (w When) Exact() bool { return !w.From.IsZero() && w.From == w.To }

// IsZero reports whether no date was given.
func (w When) IsZero() bool { return w.From.IsZero() }

// Clock is minutes after local midnight, 0 … 1439; -1 means not given.
type Clock int

// NoClock is the clock time that was not given.
const NoClock Clock = -1

// String writes 18:30, or nothing where no time was given.
func (c Clock) String() string {
	if c < 0 {
		return ""
	}
	return fmt.Sprintf("%02d:%02d", int(c)/60, int(c)%60)
}
