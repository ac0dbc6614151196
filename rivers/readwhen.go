package rivers

// When a visit was: the day, and the start and end in local time. Darwin Core
// allows all of it in one eventDate (ISO 8601-1): 2024-04-03T10:00/11:00.

import (
	"regexp"
	"slices"
	"strings"

	"guidegen/content"
	"guidegen/content/calendar"
)

// when fills in the date and the times of a visit.
func (r *sampleReader) when(e *Event, v *visit) {
	start, end := v.cells[visitStart], v.cells[visitEnd]
	if t := v.cells[visitTime]; t.S != "" {
		start, end = halves(t)
	}
	e.Start, e.End = r.clock(start), r.clock(end)
	switch t := v.cells[visitDate]; {
	case t.S == "":
	case timeOfDay.MatchString(t.S) && (r.darwinCore || start.S == ""): // a spreadsheet merges the two
		r.dateAndTimes(e, t, v.cells[visitTime])
	default:
		e.When = r.date(t)
	}
	if e.Start != calendar.NoClock && e.End != calendar.NoClock && e.End < e.Start && !e.Protocol.LeftOvernight() {
		at := end
		if at.IsZero() {
			at = v.cells[visitDate]
		}
		r.ps.Warnf("end-before-start", at.At, "check both times; a visit past midnight may be acknowledged", "visit %q ends at %s, before it starts at %s", e.ID, e.End, e.Start)
	}
}

var (
	timeOfDay   = regexp.MustCompile(`\dT\d`)
	wholeMinute = regexp.MustCompile(`^\d\d:\d\d:00$`)
)

func halves(t content.Text) (a, b content.Text) {
	i := strings.IndexByte(t.S, '/')
	if i < 0 {
		return t, content.Text{}
	}
	return t.Sub(0, i).Trim(), t.Sub(i+1, len(t.S)).Trim()
}

func (r *sampleReader) date(t content.Text) calendar.When {
	w, err := calendar.ParseWhen(t.S)
	if err != nil {
		r.ps.Refuse("bad-date", t, err)
	}
	return w
}

// dateAndTimes reads an eventDate that holds times too. What eventTime says
// besides must be the same.
func (r *sampleReader) dateAndTimes(e *Event, t, eventTime content.Text) {
	a, b := halves(t)
	day, from := atT(a)
	until := b
	next := content.Text{}
	if strings.Contains(b.S, "-") { // else the end is a time of the same day
		next, until = atT(b)
	}
	for _, x := range []content.Text{from, until} {
		if i := strings.IndexAny(x.S, "Zz+-"); i >= 0 {
			r.ps.Errorf("bad-time", x.Sub(i, len(x.S)).At, "write the local time without a zone", "%q names a time zone, but times are those of the water's own zone", x.S)
			return
		}
	}
	e.When = r.date(day)
	start, end := r.clock(from), r.clock(until)
	if next.S != "" && next.S != day.S {
		to := r.date(next)
		if e.When.IsZero() || to.IsZero() {
			return
		}
		if night := to.From.Sub(e.When.From); night != 1 || until.S == "" || end >= start {
			r.ps.Errorf("bad-date", t.At, "write the dates alone", "%q holds times, but is longer than a day", t.S)
			return
		}
	}
	if eventTime.S != "" && (e.Start != start || e.End != calendar.NoClock && e.End != end) {
		r.ps.Clash("visit-contradiction", eventTime.At, t.At, "but this here", "give the times once", "visit %q says %q for its %s", e.ID, eventTime.S, r.heading[visitTime])
		return
	}
	e.Start, e.End = start, end
}

// atT cuts a date from its time.
func atT(t content.Text) (date, time content.Text) {
	i := strings.IndexByte(t.S, 'T')
	if i < 0 {
		return t, content.Text{}
	}
	return t.Sub(0, i).Trim(), t.Sub(i+1, len(t.S)).Trim()
}

func (r *sampleReader) clock(t content.Text) calendar.Clock {
	if t.S == "" {
		return calendar.NoClock
	}
	if r.darwinCore && wholeMinute.MatchString(t.S) {
		t = t.Sub(0, len(t.S)-len(":00"))
	}
	c, err := calendar.ParseClock(t.S)
	if err != nil {
		r.ps.Refuse("bad-time", t, err)
		return calendar.NoClock
	}
	return c
}

// LeftOvernight reports whether the protocol's gear stands for a night or longer.
func (p Protocol) LeftOvernight() bool {
	return slices.Contains([]Protocol{"light trap", "emergence trap", "sticky trap", "drift net"}, p)
}
