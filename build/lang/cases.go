package lang

// Stages, sexes and flights in words, and hours as an account states them.

import (
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/content/calendar"
	"guidegen/species"
)

// Never says what a fly's state rests on where it was never found on the water; "" where it was.
func (w *Words) Never(r *figures.Row) string {
	switch {
	case !r.Never:
		return ""
	case r.Borrows && r.Looked == 0:
		return w.Plain("never.lent_unlooked")
	case r.Borrows:
		return w.Plain("never.lent")
	case r.Looked == 0:
		return w.Plain("never.unlooked")
	}
	return w.Plain("never.account")
}

// Case is a stage, sex and flight in words.
func (w *Words) Case(stage species.Stage, sex species.Sex, flight string) string {
	s := w.Or("stage", string(stage))
	switch {
	case sex != "" && s != "":
		s = w.Plain("stage_of", "sex", w.Or("sex", string(sex)), "stage", s)
	case sex != "":
		s = w.Or("sex", string(sex))
	case s == "":
		s = w.Plain("stage.any")
	}
	if flight != "" {
		s = w.Plain("in_flight", "what", s, "flight", flight)
	}
	return s
}

// Span says hours as an account states them: "2 hours before sunset to half an hour after".
func (w *Words) Span(s calendar.Span) string {
	to := w.moment(s.To, s.From.Sun == s.To.Sun)
	return w.Plain("hours_span", "from", w.moment(s.From, false), "to", to)
}

// moment is a clock time, an event of the sun or a time before or after it; an event just named
// isn't named again.
func (w *Words) moment(m calendar.Moment, named bool) string {
	if m.Sun == calendar.NoSun {
		return calendar.Clock(m.Minutes).String()
	}
	event := w.Or("sun_event", m.Sun.String())
	if m.Minutes == 0 {
		return event
	}
	word := "moment.before"
	if m.Minutes > 0 {
		word = "moment.after"
	}
	if named {
		word += "_it"
	}
	return w.Plain(word, "time", w.duration(max(m.Minutes, -m.Minutes)), "event", event)
}

// ShortSpan says the same as shortly as a table wants it: "sunset −2 h to +30 min", "11:00–15:30".
func (w *Words) ShortSpan(s calendar.Span) string {
	short := func(m calendar.Moment, named bool) string {
		if m.Sun == calendar.NoSun {
			return calendar.Clock(m.Minutes).String()
		}
		var parts []string
		if !named || m.Minutes == 0 {
			parts = append(parts, w.Or("sun_event", m.Sun.String()))
		}
		if n := max(m.Minutes, -m.Minutes); n > 0 {
			sign := "+"
			if m.Minutes < 0 {
				sign = "−"
			}
			if n >= 60 {
				parts = append(parts, sign+w.Plain("moment.short_hours", "n", strconv.Itoa(n/60)))
				sign = ""
			}
			if n%60 > 0 {
				parts = append(parts, sign+w.Plain("moment.short_minutes", "n", strconv.Itoa(n%60)))
			}
		}
		return strings.Join(parts, " ")
	}
	if s.From.Sun == calendar.NoSun && s.To.Sun == calendar.NoSun {
		return w.Plain("range", "low", short(s.From, false), "high", short(s.To, false))
	}
	return w.Plain("hours_span", "from", short(s.From, false), "to", short(s.To, s.From.Sun == s.To.Sun))
}

func (w *Words) duration(minutes int) string {
	hours := strconv.Itoa(minutes / 60)
	switch {
	case minutes == 30:
		return w.Plain("moment.half")
	case minutes%60 == 0:
		return w.Plain("moment.hours", "n", hours)
	case minutes%60 == 30:
		return w.Plain("moment.hours", "n", hours+"½")
	case minutes < 60:
		return w.Plain("moment.minutes", "n", strconv.Itoa(minutes))
	}
	return w.Plain("list.and", "first", w.Plain("moment.hours", "n", hours), "last", w.Plain("moment.minutes", "n", strconv.Itoa(minutes%60)))
}
