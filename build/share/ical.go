package share

// A calendar per water, RFC 5545: fishing seasons and expected flights as
// whole days of concrete years.

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"guidegen/build/figures"
	"guidegen/content/calendar"
	"guidegen/rivers/season"
)

// calendarOf covers the year built for and the next; a flight that began the
// year before and runs into the first of them is there too. It is nil for a water
// with neither: a calendar needs an event (section 3.6).
func calendarOf(book *figures.Book, words Words, w *figures.Water) []byte {
	c := newCalendar(book, "rivers/"+w.Address+".html", w.Name.S)
	for year := book.Built.Year; year <= book.Built.Year+1; year++ {
		for _, s := range w.Seasons {
			checked := words.Plain("calendar.unchecked")
			if !s.Checked.IsZero() {
				checked = words.Plain("calendar.checked", "date", words.Date(s.Checked))
			}
			about := strings.TrimPrefix(s.Note.S+"\n"+checked, "\n")
			for _, e := range []struct {
				what, word string
				on         calendar.Date
			}{{"first day", "calendar.first_day", s.Open.In(year)}, {"last day", "calendar.last_day", s.Close.LastIn(year)}} {
				c.event(uuid(book, "season", w.Address, s.Fish.S, e.what, fmt.Sprint(year)), e.on, e.on.AddDays(1),
					words.Plain(e.word, "water", w.Name.S, "fish", s.Fish.S), about, "season")
			}
		}
	}
	for _, r := range w.Rows {
		for _, f := range r.Flights {
			entry := season.CalendarEntry(season.Moved{Dates: season.Dates{From: f.From, Peak: f.Peak, To: f.To}},
				season.FlightDates{P10: f.Dates.P10, P50: f.Dates.P50, P90: f.Dates.P90})
			first := book.Built.Year
			if entry.To < entry.From {
				first--
			}
			for year := first; year <= book.Built.Year+1; year++ {
				from, after := span(year, entry.From, entry.To)
				c.event(uuid(book, "flight", w.Address, r.Fly.Address, f.Name, fmt.Sprint(year)), from, after,
					words.Plain("calendar.expected", "water", w.Name.S, "fly", r.Fly.Name.S, "flight", f.Name), expected(words, f, entry), "flight")
			}
		}
	}
	return c.bytes()
}

// expected says what an entry's dates are based on.
func expected(words Words, f figures.FlightHere, e season.Entry) string {
	rule := words.Or("rule", f.Rule)
	switch {
	case e.FromRecords:
		return words.Plain("calendar.records", "protocol", words.Or("protocol", f.Dates.Protocol),
			"visits", words.Plain("count.visits", "n", strconv.Itoa(f.Dates.Visits)), "seasons", words.Plain("count.seasons", "n", strconv.Itoa(len(f.Dates.Seasons))))
	case f.Own:
		return words.Plain("calendar.own")
	case f.WhyNot != "" || f.Rule != "warmth" && f.Rule != "altitude":
		return words.Plain("calendar.unmoved")
	case f.Shift == 0:
		return words.Plain("calendar.same", "rule", rule)
	case f.Shift < 0:
		return words.Plain("calendar.earlier", "n", strconv.Itoa(-f.Shift), "rule", rule)
	}
	return words.Plain("calendar.later", "n", strconv.Itoa(f.Shift), "rule", rule)
}

type ical struct {
	b           strings.Builder
	stamp, page string
	events      int
}

func newCalendar(book *figures.Book, page, name string) *ical {
	c := &ical{stamp: strings.ReplaceAll(book.Built.String(), "-", "") + "T000000Z", page: book.Edition.Settings.Address}
	if c.page != "" {
		c.page += page
	}
	c.line("BEGIN", "VCALENDAR")
	c.line("VERSION", "2.0")
	c.line("PRODID", "-//guidegen//figures//EN")
	c.line("NAME", escaped(name+": "+book.Edition.Settings.Name)) // RFC 7986
	return c
}

// bytes are nil for a calendar without an event.
func (c *ical) bytes() []byte {
	if c.events == 0 {
		return nil
	}
	c.line("END", "VCALENDAR")
	return []byte(c.b.String())
}

// span gives the dates of a flight that begins in a year, and the day after its last: of a flight to 28 February,
// with which the 29th counts, 1 March.
func span(year int, from, to calendar.Day) (first, after calendar.Date) {
	last, next := year, to.Add(1)
	if to < from {
		last++
	}
	if next < to {
		last++
	}
	return calendar.Date{Year: year, Month: from.Month(), Day: from.DayOfMonth()}, calendar.Date{Year: last, Month: next.Month(), Day: next.DayOfMonth()}
}

// event writes whole days; DTEND is the day after the last (RFC 5545 section 3.6.1).
func (c *ical) event(uid string, from, after calendar.Date, summary, about, category string) {
	c.events++
	c.line("BEGIN", "VEVENT")
	c.line("UID", uid)
	c.line("DTSTAMP", c.stamp)
	c.line("DTSTART;VALUE=DATE", basic(from))
	c.line("DTEND;VALUE=DATE", basic(after))
	c.line("SUMMARY", escaped(summary))
	c.line("DESCRIPTION", escaped(about))
	c.line("CATEGORIES", category)
	if c.page != "" {
		c.line("URL", c.page)
	}
	c.line("TRANSP", "TRANSPARENT")
	c.line("END", "VEVENT")
}

func basic(d calendar.Date) string { return strings.ReplaceAll(d.String(), "-", "") }

// line folds at 75 octets without splitting a character (section 3.1).
func (c *ical) line(name, value string) {
	s := name + ":" + value
	room := 75
	for len(s) > room {
		n := room
		for !utf8.RuneStart(s[n]) {
			n--
		}
		c.b.WriteString(s[:n] + "\r\n ")
		s, room = s[n:], 74 // the space that begins the next line counts
	}
	c.b.WriteString(s + "\r\n")
}

// escaped is a TEXT value (section 3.3.11); other controls may not stand in one.
func escaped(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '\\' || r == ';' || r == ',':
			b.WriteString(`\` + string(r))
		case r == '\n':
			b.WriteString(`\n`)
		case r < ' ' && r != '\t' || r == 0x7f:
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
