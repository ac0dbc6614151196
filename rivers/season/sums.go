package season

// Sums over flies and dates for the calendar: section 17 of the rules on figures.

import "guidegen/content/calendar"

// ToExpect is the number of flies to expect in each month: the sum of their
// monthly chances. The caller picks the flies, as those of one group.
func ToExpect(flies []*Chances) [12]float64 {
	var out [12]float64
	for _, f := range flies {
		for i := range out {
			out[i] += f.Months[i].Chance
		}
	}
	return out
}

// Entry is one flight in a calendar.
type Entry struct {
	From, To    calendar.Day
	FromRecords bool // p10–p90 of the records; else the moved limits
}

// CalendarEntry takes p10–p90 where the records give them, else the moved limits.
func CalendarEntry(f Moved, d FlightDates) Entry {
	if d.P10 != 0 && d.P90 != 0 {
		return Entry{d.P10, d.P90, true}
	}
	return Entry{f.From, f.To, false}
}
