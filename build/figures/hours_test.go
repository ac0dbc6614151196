package figures

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content/calendar"
)

const sunset = `-- guide.yaml --
format: 1
name: Sunset
basis: memory
-- species/sedge.md --
---
name: Sedge
group: sedge
flights: {summer: {from: Jun, to: Jul, abundance: frequent}}
hours: {adult: sunset-2h to sunset}
---
-- rivers/beck.yaml --
name: Beck
kind: rain-fed
place: 45 S, 170 E
time_zone: Pacific/Auckland
flies: {Sedge: frequent}
`

// Without the water's own clock the sun's times would be those of Greenwich: in
// New Zealand half a day wrong. They are left out, and why is said.
func TestTheSunNeedsAClock(t *testing.T) {
	of := func(text string) (*Water, HoursHere) {
		w := bookOf(t, text).Waters[0]
		require.NotEmpty(t, w.Rows[0].Hours)
		return w, w.Rows[0].Hours[0]
	}
	w, h := of(sunset)
	assert.True(t, w.HasSun())
	assert.Empty(t, h.SunWord)
	assert.Greater(t, h.To, calendar.Clock(16*60), "a winter's sunset is in the afternoon")
	for without, why := range map[string]string{"time_zone: Pacific/Auckland\n": "no time zone", "place: 45 S, 170 E\n": "no place"} {
		w, h := of(strings.Replace(sunset, without, "", 1))
		assert.False(t, w.HasSun())
		assert.Zero(t, w.Sun)
		assert.Equal(t, why, h.SunWord)
		assert.Equal(t, calendar.NoClock, h.From)
		assert.Equal(t, calendar.NoClock, h.To)
		assert.Equal(t, "sunset-2h to sunset", h.Written)
	}
}
