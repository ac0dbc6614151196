package daylight

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"guidegen/content/calendar"
)

func clockAt(t require.TestingT, s string) calendar.Clock {
	c, err := calendar.ParseClock(s)
	require.NoError(t, err)
	return c
}

// Printed hours against the sun are no finer than the rule of thumb they come from; hours by the clock
// stand as they were written.
func TestAbout(t *testing.T) {
	for _, c := range []struct{ span, from, to, wantFrom, wantTo string }{
		{"sunset-1h to sunset", "20:21", "21:21", "20:20", "21:20"},
		{"sunset-2h to sunset+30min", "20:23", "22:53", "20:25", "22:55"},
		{"17:03 to sunset+45min", "17:03", "21:22", "17:03", "21:20"},
		{"11:02 to 15:33", "11:02", "15:33", "11:02", "15:33"},
		{"sunset to sunset+30min", "23:28", "23:58", "23:30", "00:00"},
		{"sunset to sunset+3min", "21:21", "21:24", "21:20", "21:25"},
		{"sunset to sunset+2min", "21:19", "21:21", "21:19", "21:21"}, // would end as it starts
		{"21:21 to sunset", "21:21", "21:22", "21:21", "21:22"},       // would end before it starts
		{"sunset to 02:00", "00:19", "02:00", "00:20", "02:00"},
	} {
		from, to := About(span(t, c.span), clockAt(t, c.from), clockAt(t, c.to))
		assert.Equal(t, []string{c.wantFrom, c.wantTo}, []string{from.String(), to.String()}, c.span)
	}
	from, to := About(span(t, "sunset to dusk"), calendar.NoClock, calendar.NoClock)
	assert.Equal(t, []calendar.Clock{calendar.NoClock, calendar.NoClock}, []calendar.Clock{from, to})
}

func TestAboutMovesNothingFar(t *testing.T) {
	const day = 24 * 60
	rapid.Check(t, func(t *rapid.T) {
		s := calendar.Span{From: calendar.Moment{Sun: calendar.Sunset}, To: calendar.Moment{Sun: calendar.Dusk}}
		from := calendar.Clock(rapid.IntRange(0, day-1).Draw(t, "from"))
		to := (from + calendar.Clock(rapid.IntRange(1, 600).Draw(t, "minutes"))) % day
		a, b := About(s, from, to)
		for _, off := range []calendar.Clock{a - from, b - to} {
			if off = (off + day + 2) % day; off > 4 {
				t.Fatalf("%v to %v became %v to %v", from, to, a, b)
			}
		}
	})
}
