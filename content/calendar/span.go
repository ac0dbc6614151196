package calendar

// Hours as an account gives them: clock times, or times against the sun.
// rivers/daylight turns them into clock times for a place and a date.

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/text/unicode/norm"
)

// Sun names an event of the sun that a moment can hang on.
type Sun int

// The events; NoSun is a plain clock time.
const (
	NoSun   Sun = iota
	Dawn        // start of civil twilight
	Sunrise     // upper limb on the horizon
	Noon        // the sun's highest point
	Sunset      // upper limb on the horizon
	Dusk        // end of civil twilight
)

func (s Sun) String() string {
	return [...]string{"", "dawn", "sunrise", "solar noon", "sunset", "dusk"}[s]
}

// Moment is a clock time, or a number of minutes after (negative: before) an
// event of the sun.
type Moment struct {
	Sun     Sun
	Minutes int // after midnight where Sun is NoSun, else after the event
}

// Span is a stretch of the day; To may lie past midnight (To before From).
type Span struct{ From, To Moment }

// Evening reports whether a stretch belongs to the evening: it begins at five o'clock or later, in the dark of the
// night, or at a time that sunset or dusk sets (common practice, no source).
func (s Span) Evening() bool {
	if s.From.Sun == NoSun {
		return s.From.Minutes >= 17*60 || s.From.Minutes < 4*60
	}
	return s.From.Sun == Sunset || s.From.Sun == Dusk
}

// eventNames are the events as people write them in English, German and French.
var eventNames = map[Sun]string{
	Dawn: "dawn|morgengrauen|aube|point du jour", Sunrise: "sunrise|sonnenaufgang|lever", Noon: "solar noon|sonnenhöchststand|midi solaire",
	Sunset: "sunset|sonnenuntergang|coucher", Dusk: "dusk|dunkelwerden|crépuscule",
}

var moment = regexp.MustCompile(`(?i)^(` + strings.Join([]string{eventNames[Dawn], eventNames[Sunrise], eventNames[Noon], eventNames[Sunset], eventNames[Dusk]}, "|") +
	`)\s*(?:([+−-])\s*(?:(\d{1,2})\s*(?:h|hours?|std\.?|stunden?|heures?))?\s*(?:(\d{1,3})\s*(?:min|minuten?|minutes?))?)?$`)
var spanCut = regexp.MustCompile(`(?i)\s+(?:to|bis|à)\s+|\s*–\s*|(\d)\s*-\s*(\d{1,2}:)`)

// ParseSpan reads, in English, German or French, "11:00 to 15:30", "sunset-2h to sunset+30min", "sunrise to
// 10:00", or one event alone ("dusk" means half an hour either side of it).
func ParseSpan(s string) (Span, error) {
	t := strings.TrimSpace(norm.NFC.String(s))
	var parts []string
	if m := spanCut.FindStringSubmatchIndex(t); m != nil {
		if m[2] >= 0 { // 11:00-15:30: keep the digits on both sides
			parts = []string{t[:m[3]], t[m[4]:]}
		} else {
			parts = []string{t[:m[0]], t[m[1]:]}
		}
	}
	if parts == nil {
		m, err := ParseMoment(t)
		if err != nil || m.Sun == NoSun {
			return Span{}, &Error{s, "isn't a stretch of hours", "write 11:00 to 15:30, or sunset-2h to sunset+30min (bis, à)"}
		}
		from, to := m, m
		from.Minutes -= 30
		to.Minutes += 30
		return Span{from, to}, nil
	}
	from, err := ParseMoment(parts[0])
	if err != nil {
		return Span{}, err
	}
	to, err := ParseMoment(parts[1])
	if err != nil {
		return Span{}, err
	}
	switch {
	case from == to:
		return Span{}, &Error{s, "starts and ends at one moment", "write 11:00 to 15:30"}
	case from.Sun != NoSun && from.Sun == to.Sun && from.Minutes > to.Minutes:
		return Span{}, &Error{s, "ends before it starts", "write the earlier moment first"}
	}
	return Span{from, to}, nil
}

// ParseMoment reads a clock time, an event of the sun, or an event with a
// distance: sunset-2h, sunset+1h30min, sunrise + 45 min.
func ParseMoment(s string) (Moment, error) {
	t := strings.TrimSpace(s)
	if strings.EqualFold(t, "noon") {
		return Moment{}, &Error{s, "may be 12:00 or the sun's highest point", "write 12:00 or solar noon"}
	}
	m := moment.FindStringSubmatch(t)
	if m == nil {
		c, err := ParseClock(t)
		if err != nil {
			return Moment{}, &Error{s, "isn't a time of day", "write 18:30, or sunset-2h, sunrise+45min, dusk"}
		}
		return Moment{NoSun, int(c)}, nil
	}
	at := Moment{}
	for e := Dawn; e <= Dusk; e++ {
		if slices.Contains(strings.Split(eventNames[e], "|"), strings.ToLower(m[1])) {
			at.Sun = e
		}
	}
	hours, _ := strconv.Atoi(m[3])
	minutes, _ := strconv.Atoi(m[4])
	at.Minutes = 60*hours + minutes
	if m[2] != "" && m[3] == "" && m[4] == "" {
		return Moment{}, &Error{s, "has a sign but no hours or minutes", "write sunset-2h or sunset+30min"}
	}
	if at.Minutes > 12*60 {
		return Moment{}, &Error{s, "is more than 12 hours from its event", ""}
	}
	if m[2] == "-" || m[2] == "−" {
		at.Minutes = -at.Minutes
	}
	return at, nil
}
