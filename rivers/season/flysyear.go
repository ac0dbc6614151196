package season

// A fly's year: section 1 of the rules on figures. A flight that crosses New Year belongs to one season,
// so years are held against each other by seasons that begin where the fly is least about.

import (
	"fmt"

	"guidegen/content/calendar"
)

// FlysYear is the day X on which a fly's year begins, reckoned from the account's unmoved flights: 1 where
// none crosses New Year, else the middle of the longest run of days in no flight (ties: the run that begins
// first in the calendar); 1 where no day lies outside. Flights without limits are passed over.
func FlysYear(flights []Dates) calendar.Day {
	var in [calendar.Year]bool
	crosses := false
	for _, f := range flights {
		if !f.Given() {
			continue
		}
		crosses = crosses || f.From > f.To
		for n := range f.Length() {
			in[f.From.Add(n)-1] = true
		}
	}
	if !crosses {
		return 1
	}
	start, length := 0, 0
	for i := range in {
		before := in[(i+calendar.Year-1)%calendar.Year]
		if in[i] || !before {
			continue
		}
		n := 1
		for n < calendar.Year && !in[(i+n)%calendar.Year] {
			n++
		}
		if n > length {
			start, length = i, n
		}
	}
	if length == 0 {
		return 1
	}
	return calendar.Day(start + 1).Add(length / 2)
}

// SeasonOf is the season to which a date belongs in a year that begins on day x: where x lies in the first
// half of the calendar, the calendar year of its first day, else of its last. The zero date is of season 0.
func SeasonOf(d calendar.Date, x calendar.Day) int {
	if d.IsZero() {
		return 0
	}
	switch late := d.OfYear() >= x; {
	case x <= 182 && !late:
		return d.Year - 1
	case x > 182 && late:
		return d.Year + 1
	}
	return d.Year
}

// SeasonName is a season as printed: "2023" where the year begins on 1 January, else the two years that it
// touches, "2023/24".
func SeasonName(season int, x calendar.Day) string {
	switch {
	case x == 1:
		return fmt.Sprint(season)
	case x > 182:
		season--
	}
	return fmt.Sprintf("%d/%02d", season, (season+1)%100)
}
