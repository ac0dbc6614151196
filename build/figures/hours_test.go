package figures

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content/calendar"
	"guidegen/rivers/daylight"
	"guidegen/species"
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

// Hours against the sun are those of the very date asked for: on the first and the last of a month they
// are what daylight gives for that date, not what it gives for the 15th. A second claim is kept beside.
func TestHoursOnTheVeryDate(t *testing.T) {
	row := bookOf(t, strings.Replace(sunset, "sunset-2h to sunset", "[sunset-2h to sunset, 5:00 to 7:00]", 1)).Waters[0].Rows[0]
	var from []calendar.Clock
	for _, day := range []int{1, 15, 30} {
		date := calendar.Date{Year: 2026, Month: 6, Day: day}
		list := row.HoursOn(date, species.Adult, species.NoSex, "summer")
		require.Len(t, list, 1)
		want := daylight.On(date, -45, 170, row.Water.Zone).Set
		assert.Equal(t, want.Clock(), list[0].End, date)
		assert.Equal(t, want.Clock()-120, list[0].Start, date)
		assert.Zero(t, list[0].From%5, "printed in five minutes")
		assert.InDelta(t, int(want.Clock()), int(list[0].To), 2, date)
		assert.True(t, list[0].BySun())
		require.Len(t, list[0].Others, 1)
		assert.Equal(t, calendar.Clock(5*60), list[0].Others[0].From)
		assert.False(t, list[0].Others[0].BySun())
		from = append(from, list[0].Start)
	}
	assert.NotEqual(t, from[0], from[1])
	assert.Equal(t, row.Hours[0].Start, from[1], "a month's hours are those of its 15th")
	assert.Empty(t, row.HoursOn(calendar.Date{Year: 2026, Month: 6, Day: 1}, species.Adult, species.NoSex, "autumn"), "no such flight here")
	assert.Empty(t, row.HoursOn(calendar.Date{Year: 2026, Month: 6, Day: 1}, species.Larva, species.NoSex, "summer"))
}

// Where the account tells the sexes' hours apart, each has its own, and a stage asked for without a sex both.
func TestHoursOfEachSex(t *testing.T) {
	row := bookOf(t, strings.Replace(sunset, "hours: {adult: sunset-2h to sunset}", "hours: {adult male: 10:00 to 12:00, adult female: 14:00 to 16:00}", 1)).Waters[0].Rows[0]
	date := calendar.Date{Year: 2026, Month: 6, Day: 10}
	assert.Len(t, row.HoursOn(date, species.Adult, species.NoSex, "summer"), 2)
	female := row.HoursOn(date, species.Adult, species.Female, "summer")
	require.Len(t, female, 1)
	assert.Equal(t, calendar.Clock(14*60), female[0].From)
}

// The sun of each date is kept under its own date, in whatever order dates are asked for.
func TestTheSunIsKeptByDate(t *testing.T) {
	w := bookOf(t, sunset).Waters[0]
	for _, day := range []int{20, 21, 22, 21, 20} {
		date := calendar.Date{Year: 2026, Month: 3, Day: day}
		assert.Equal(t, daylight.On(date, -45, 170, w.Zone), w.sunOn(date), date)
	}
}
