package daylight

// Hours against the sun, as clock times of one date.

import (
	"time"

	"guidegen/content/calendar"
)

// Hours is a stretch of hours on one date at a place.
type Hours struct {
	From, To   calendar.Clock // local, to the nearest minute; To may lie past midnight. NoClock where Missing
	Start, End time.Time      // the same in full; zero where Missing
	Missing    string         // why there are no such hours that day; "" where there are
}

// NeverStarts says of hours such as sunrise+6h to sunset-6h that a short day
// has none.
const NeverStarts = "the day is too short or too long for these hours"

// Resolve turns a span into the clock times of one date at a place, whose sun's day on tells for a date.
// The zone is as for On. A span that spans midnight starts on the date.
func Resolve(s calendar.Span, date calendar.Date, zone *time.Location, on func(calendar.Date) Day) Hours {
	if zone == nil {
		zone = time.UTC
	}
	at := func(m calendar.Moment, date calendar.Date) Event {
		if m.Sun == calendar.NoSun {
			return Event{At: time.Date(date.Year, date.Month, date.Day, 0, m.Minutes, 0, 0, zone)}
		}
		e := on(date).Of(m.Sun)
		if e.Missing == "" {
			e.At = e.At.Add(time.Duration(m.Minutes) * time.Minute)
		}
		return e
	}
	last := date
	if overnight(s) {
		last = date.AddDays(1)
	}
	from, to := at(s.From, date), at(s.To, last)
	for _, e := range []Event{from, to} {
		if e.Missing != "" {
			return Hours{From: calendar.NoClock, To: calendar.NoClock, Missing: e.Missing}
		}
	}
	if to.At.Before(from.At) {
		return Hours{From: calendar.NoClock, To: calendar.NoClock, Missing: NeverStarts}
	}
	return Hours{From: from.Clock(), To: to.Clock(), Start: from.At, End: to.At}
}

// fine is what a stretch against the sun is worth in minutes: "an hour before sunset" is a rule of
// thumb, while sunset itself is known to the minute.
const fine = 5

// About rounds the clock times of a span to five minutes for print, those that hang on the sun; what was
// given by the clock stays. A stretch so short that rounding would end or turn it stays as it is.
func About(s calendar.Span, from, to calendar.Clock) (calendar.Clock, calendar.Clock) {
	if from == calendar.NoClock || to == calendar.NoClock {
		return from, to
	}
	const day = 24 * 60
	about := func(m calendar.Moment, c calendar.Clock) calendar.Clock {
		if m.Sun == calendar.NoSun {
			return c
		}
		return (c + fine/2) / fine * fine % day
	}
	length := func(from, to calendar.Clock) calendar.Clock { return (to - from + day) % day }
	a, b := about(s.From, from), about(s.To, to)
	if n := length(a, b); n == 0 || n > length(from, to)+fine {
		return from, to
	}
	return a, b
}

// overnight reports whether a span ends on the day after it starts. That
// follows from its words and not from the date, so that "sunset-2h to 21:00" of
// a midsummer evening never turns into a night and a day.
func overnight(s calendar.Span) bool {
	const noon = 12 * 60
	from, to := s.From, s.To
	switch {
	case from.Sun != calendar.NoSun && to.Sun != calendar.NoSun:
		return from.Sun > to.Sun
	case from.Sun != calendar.NoSun: // from the sun to the clock
		return to.Minutes == 0 || from.Sun >= calendar.Noon && to.Minutes < noon
	case to.Sun != calendar.NoSun: // from the clock to the sun
		return from.Minutes >= noon && to.Sun < calendar.Noon
	}
	return from.Minutes > to.Minutes
}
