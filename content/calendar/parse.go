package calendar

// Parsing of days, dates and clock times as an editor writes them. A refusal
// is an *Error: what was found, and what would be right.

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"golang.org/x/text/unicode/norm"
)

// Error says why a text is no date or time, and what would be right.
type Error struct {
	Found  string // the text seen
	Reason string // a short clause: "isn't a date: February 2026 has 28 days"
	Want   string // a full suggestion: "write 2026-02-28"; may be empty
}

func (e *Error) Error() string { return fmt.Sprintf("%q %s", e.Found, e.Reason) }

// Role is the part a coarse date plays in a flight; a bare month means its
// first day as From, the 15th as Peak, its last day as To.
type Role int

// The roles of a day in a flight.
const (
	From Role = iota
	Peak
	To
)

var monthNames = map[string]time.Month{}

func init() {
	for m := time.January; m <= time.December; m++ {
		n := strings.ToLower(m.String())
		monthNames[n], monthNames[n[:3]] = m, m
	}
	monthNames["sept"] = time.September
	for m, names := range otherMonths {
		for _, n := range strings.Fields(names) {
			monthNames[n] = time.Month(m)
		}
	}
}

// otherMonths are the German and French names, with the short ones in use.
var otherMonths = [13]string{
	time.January: "januar jänner janvier janv", time.February: "februar feber février fevrier févr fév", time.March: "märz maerz mär mrz mars",
	time.April: "avril avr", time.May: "mai", time.June: "juni juin", time.July: "juli juillet juil", time.August: "août aout aoû",
	time.September: "septembre", time.October: "oktober okt octobre", time.November: "novembre", time.December: "dezember dez décembre decembre déc",
}

// parts of a month: early, mid, late.
var partNames = map[string]int{
	"early": 5, "mid": 15, "late": 25, "anfang": 5, "mitte": 15, "ende": 25, "début": 5, "debut": 5, "mi": 15, "fin": 25,
}

// MonthNamed finds a month by its English, German or French name or a short one, any case, a full stop allowed.
func MonthNamed(s string) (time.Month, bool) {
	m, ok := monthNames[strings.ToLower(norm.NFC.String(strings.TrimSuffix(strings.TrimSpace(s), ".")))]
	return m, ok
}

var (
	slashed  = regexp.MustCompile(`^(\d{1,4})[/.](\d{1,2})(?:[/.](\d{1,4}))?$`)
	joined   = regexp.MustCompile(`(\w)-(\w)`) // 21-Mar, mid-Apr
	nthDay   = regexp.MustCompile(`(?i)^(\d{1,2})(?:st|nd|rd|th|er)?\.?$`)
	isoDay   = regexp.MustCompile(`^(\d{4})-(\d{2})-(\d{2})$`)
	looseDay = regexp.MustCompile(`^(\d{4})-(\d{1,2})-(\d{1,2})$`)
	isoMonth = regexp.MustCompile(`^(\d{4})-(\d{2})$`)
	isoYear  = regexp.MustCompile(`^(\d{4})$`)
	clock    = regexp.MustCompile(`^(\d{1,2}):(\d{2})$`)
)

// ParseDay reads a day of the year, in English, German or French: "21 Mar", "21. März", "1er mars", "March 21", "early Apr" (the
// 5th), "mid Apr" (the 15th), "late Apr" (the 25th), "Apr" (by its role).
// A year is refused: an account speaks of every year.
func ParseDay(s string, role Role) (Day, error) {
	m, err := ParseMonthDay(s, role)
	if err != nil {
		return 0, err
	}
	return m.OfYear(), nil
}

// ParseMonthDay reads the same, with 29 February a day of its own; "Feb" as To is its last day, whatever the year.
func ParseMonthDay(s string, role Role) (MonthDay, error) {
	words := strings.Fields(joined.ReplaceAllString(s, "$1 $2"))
	bad := func(reason, want string) (MonthDay, error) { return MonthDay{}, &Error{s, reason, want} }
	const want = "write a day like 21 Mar (21. März, 21 mars), or early, mid or late and a month (Mitte April, mi-avril), or a month"
	if slashed.MatchString(strings.TrimSpace(s)) {
		return bad("is ambiguous: day and month can't be told apart", "write the month as a word: 3 May")
	}
	if isoDay.MatchString(strings.TrimSpace(s)) || slices.ContainsFunc(words, isoYear.MatchString) {
		return bad("names one year, but this date holds for every year", want)
	}
	switch len(words) {
	case 1:
		m, ok := MonthNamed(words[0])
		if !ok {
			return bad("isn't a day of the year", want)
		}
		switch role {
		case From:
			return MonthDay{m, 1}, nil
		case To:
			return MonthDay{m, longest(m)}, nil
		}
		return MonthDay{m, 15}, nil
	case 2:
		if day, ok := partNames[strings.ToLower(norm.NFC.String(words[0]))]; ok {
			if m, ok := MonthNamed(words[1]); ok {
				return MonthDay{m, day}, nil
			}
			return bad("names no month", want)
		}
		d, m := words[0], words[1]
		if _, ok := MonthNamed(d); ok {
			d, m = m, d
		}
		month, ok := MonthNamed(m)
		digits := nthDay.FindStringSubmatch(d)
		if !ok || digits == nil {
			return bad("isn't a day of the year", want)
		}
		n, _ := strconv.Atoi(digits[1])
		if n < 1 || n > longest(month) {
			return bad(fmt.Sprintf("isn't a date: %s has %d days", month, longest(month)), "")
		}
		return MonthDay{month, n}, nil
	}
	return bad("isn't a day of the year", want)
}

// ParseDate reads one exact ISO 8601 date, 2026-05-03.
func ParseDate(s string) (Date, error) {
	w, err := ParseWhen(s)
	if err != nil {
		return Date{}, err
	}
	if !w.Exact() {
		return Date{}, &Error{s, "is not one day", "write year-month-day: 2026-05-03"}
	}
	return w.From, nil
}

// ParseWhen reads an ISO 8601 date, month, year or range: 2026-05-03, 2026-05,
// 2026, 2026-05-01/2026-05-09. Everything else is refused with what would be right.
func ParseWhen(s string) (When, error) {
	t := strings.TrimSpace(s)
	if a, b, ok := strings.Cut(t, "/"); ok && (strings.Contains(a, "-") || isoYear.MatchString(a) && isoYear.MatchString(b)) {
		if strings.Contains(b, "/") {
			return When{}, &Error{s, "has more than two ends", "write 2026-05-01/2026-05-09"}
		}
		from, err := ParseWhen(a)
		if err != nil {
			return When{}, err
		}
		to, err := ParseWhen(b)
		if err != nil {
			return When{}, err
		}
		if to.To.Before(from.From) {
			return When{}, &Error{s, "ends before it starts", "write the earlier date first"}
		}
		return When{from.From, to.To}, nil
	}
	if m := slashed.FindStringSubmatch(t); m != nil {
		return When{}, slashedError(s, m)
	}
	if m := isoDay.FindStringSubmatch(t); m != nil {
		return exact(s, m)
	}
	if m := looseDay.FindStringSubmatch(t); m != nil {
		w, err := exact(s, m)
		if err != nil {
			return w, err
		}
		return When{}, &Error{s, "is not ISO 8601", "write " + w.From.String()}
	}
	if m := isoMonth.FindStringSubmatch(t); m != nil {
		y, _ := strconv.Atoi(m[1])
		n, _ := strconv.Atoi(m[2])
		if y < firstYear {
			return When{}, tooEarly(s)
		}
		if n < 1 || n > 12 {
			return When{}, &Error{s, "isn't a month: months run 01 to 12", ""}
		}
		return When{Date{y, time.Month(n), 1}, Date{y, time.Month(n), daysIn(y, time.Month(n))}}, nil
	}
	if m := isoYear.FindStringSubmatch(t); m != nil {
		y, _ := strconv.Atoi(m[1])
		if y < firstYear {
			return When{}, tooEarly(s)
		}
		return When{Date{y, 1, 1}, Date{y, 12, 31}}, nil
	}
	return When{}, &Error{s, "isn't a date", "write year-month-day: 2026-05-03"}
}

// firstYear is the first that ISO 8601 (4.3.2.1 of part 1, 2019; from memory) lets
// stand without an agreement between those who exchange dates.
const firstYear = 1583

func tooEarly(s string) error {
	return &Error{s, "isn't a date of a record: its year lies before 1583", "check the year"}
}

func slashedError(s string, m []string) error {
	if m[3] == "" || len(m[1]) > 2 {
		return &Error{s, "isn't a date", "write year-month-day: 2026-05-03"}
	}
	a, _ := strconv.Atoi(m[1])
	b, _ := strconv.Atoi(m[2])
	y, _ := strconv.Atoi(m[3])
	if len(m[3]) < 4 {
		return &Error{s, "has a short year and day and month can't be told apart", "write year-month-day: 2026-05-03"}
	}
	dm, md := Date{y, time.Month(b), a}, Date{y, time.Month(a), b}
	switch {
	case exists(dm) && exists(md) && dm != md:
		return &Error{s, "is ambiguous: day and month can't be told apart", fmt.Sprintf("write %s or %s", dm, md)}
	case exists(dm):
		return &Error{s, "is not ISO 8601", "write " + dm.String()}
	case exists(md):
		return &Error{s, "is not ISO 8601", "write " + md.String()}
	}
	return &Error{s, "isn't a date", "write year-month-day: 2026-05-03"}
}

func exists(d Date) bool {
	return d.Month >= 1 && d.Month <= 12 && d.Day >= 1 && d.Day <= daysIn(d.Year, d.Month)
}

func exact(s string, m []string) (When, error) {
	y, _ := strconv.Atoi(m[1])
	n, _ := strconv.Atoi(m[2])
	d, _ := strconv.Atoi(m[3])
	if y < firstYear {
		return When{}, tooEarly(s)
	}
	if n < 1 || n > 12 {
		return When{}, &Error{s, "isn't a date: months run 01 to 12", ""}
	}
	if last := daysIn(y, time.Month(n)); d < 1 || d > last {
		return When{}, &Error{s, fmt.Sprintf("isn't a date: %s %d has %d days", time.Month(n), y, last),
			fmt.Sprintf("the last is %s", Date{y, time.Month(n), last})}
	}
	date := Date{y, time.Month(n), d}
	return When{date, date}, nil
}

func daysIn(y int, m time.Month) int { return time.Date(y, m+1, 0, 0, 0, 0, 0, time.UTC).Day() }

// ParseClock reads a local clock time on the 24-hour clock, 18:30 or 9:05.
func ParseClock(s string) (Clock, error) {
	m := clock.FindStringSubmatch(strings.TrimSpace(s))
	if m == nil {
		return NoClock, &Error{s, "isn't a clock time", "write hours and minutes on the 24-hour clock: 18:30"}
	}
	hours, _ := strconv.Atoi(m[1])
	minutes, _ := strconv.Atoi(m[2])
	if hours > 23 || minutes > 59 {
		return NoClock, &Error{s, "isn't a clock time: a day has 24 hours of 60 minutes", ""}
	}
	return Clock(60*hours + minutes), nil
}
