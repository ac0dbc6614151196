package figures

// What sections 1 and 4 to 6 of the rules on figures say of rows: seasons, the worth of accounts, flights too far
// off, waters across the equator, two flights in one.

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content/calendar"
)

// fly writes an account of one flight; at writes a water that lists it.
func fly(flight string) string {
	return "-- guide.yaml --\nformat: 1\nname: Test\nbasis: memory\nreference: {latitude: 50 N, altitude: 0 m}\n" +
		"-- species/olive.md --\n---\nname: Olive\nscientific: Baetis rhodani\ngroup: upwinged\nflights:\n  spring: " + flight +
		"\nlength: {dun: 7 to 8 mm}\n---\n-- hooks.csv --\nmodel,size,shank mm,gape mm,shape,measured by,measured on\n" +
		"Straight,14,8.4,4.9,straight,A. B,2026-01-11\nStraight,16,7.3,4.3,straight,A. B,2026-01-11\n"
}

func at(name, place string, altitude int, listing string) string {
	return fmt.Sprintf("-- rivers/%s.yaml --\nname: %s\nkind: rain-fed\nplace: %s\naltitude: %d m\nflies: {Olive: %s}\n",
		strings.ToLower(name), name, place, altitude, listing)
}

func visitsOn(water string, found bool, dates ...string) string {
	text := ""
	for i, d := range dates {
		what := "nothing,,,"
		if found {
			what = "Olive,dun,female,1"
		}
		text += strings.Replace(row(fmt.Sprint(water, found, i), d, what, ""), ",One,", ","+water+",", 1)
	}
	return text
}

func rowOf(t *testing.T, b *Book, water string) *Row {
	t.Helper()
	for _, w := range b.Waters {
		if w.Name.S == water {
			require.Len(t, w.Rows, 1)
			return w.Rows[0]
		}
	}
	require.Fail(t, "no water "+water)
	return nil
}

const spring = "{from: 1 Apr, peak: 20 Apr, to: 10 May, abundance: frequent}"

func TestSeasonsOfAWinterFlight(t *testing.T) {
	b := bookOf(t, fly("{from: 25 Nov, peak: 28 Dec, to: 31 Jan, abundance: frequent}")+at("One", "50 N, 1 W", 0, "frequent")+
		"-- samples/one.csv --\n"+head+visitsOn("One", true, "2023-12-28", "2024-01-10", "2024-12-20"))
	r := rowOf(t, b, "One")
	assert.Equal(t, calendar.Day(180), r.Year)
	assert.Equal(t, []string{"2023/24", "2024/25"}, r.Flights[0].Dates.Seasons)
	assert.NotZero(t, r.Flights[0].Dates.P50)
	assert.Equal(t, []int{2023, 2024}, r.Months[11].Years, "a month counts calendar years")
}

func TestFlightsTooFarOff(t *testing.T) {
	// 4 days for each 121.92 m: 31 days at 945 m, 30 at 914.
	for _, c := range []struct {
		altitude int
		far      bool
		july     MonthState
	}{{914, false, NotExpected}, {945, true, Unlooked}} {
		b := bookOf(t, fly(strings.Replace(spring, "{", "{moves: altitude, ", 1))+at("One", "50 N, 1 W", c.altitude, "frequent"))
		r := rowOf(t, b, "One")
		assert.Equal(t, c.far, r.Far, "%d m", c.altitude)
		assert.Equal(t, 30, r.Flights[0].Shift)
		assert.Equal(t, c.july, r.Months[8].State, "%d m", c.altitude)
		assert.Equal(t, map[bool]float64{true: 1, false: 3}[c.far], r.stand.trust)
	}
}

func TestNothingIsLentAcrossTheEquator(t *testing.T) {
	own := "{from: 1 Oct, peak: 20 Oct, to: 10 Nov, abundance: frequent}"
	samples := "-- samples/one.csv --\n" + head + visitsOn("One", true, "2024-04-20", "2025-04-20", "2025-04-22")
	north := rowOf(t, bookOf(t, fly(spring)+at("One", "50 N, 1 W", 0, "frequent")+at("Two", "51 N, 1 W", 0, own)+samples), "Two")
	south := rowOf(t, bookOf(t, fly(spring)+at("One", "50 N, 1 W", 0, "frequent")+at("Two", "45 S, 1 W", 0, own)+samples), "Two")
	assert.True(t, north.Borrows)
	assert.False(t, south.Borrows)
	assert.Equal(t, calendar.Day(1), south.Year)
	assert.Greater(t, south.Chance[calendar.DayOf(10, 20)-1], 0.3)
	assert.Less(t, south.Chance[calendar.DayOf(4, 20)-1], 0.01, "no northern dates")
}

// The account's worth is measured over listed rows and printed; an unlisted row keeps the most.
func TestWorthOfAccounts(t *testing.T) {
	var dates []string
	for y := 2021; y <= 2026; y++ {
		for d := 15; d < 27; d++ {
			dates = append(dates, fmt.Sprintf("%d-04-%02d", y, d))
		}
	}
	text := fly(spring) + at("One", "50 N, 1 W", 0, "dominant") + "-- samples/one.csv --\n" + head
	assert.Equal(t, 3.0, bookOf(t, text).Trust)
	b := bookOf(t, text+visitsOn("One", false, dates...))
	assert.Equal(t, 1.0, b.Trust, "a dominant fly that nobody ever found")
	assert.Equal(t, 1.0, rowOf(t, b, "One").stand.trust)
}

// Finds in two runs, with or without visits between: no middle date, no pooled length, no hook, and no hook from
// other waters' lengths.
func TestNothingIsPooledOverTwoFlights(t *testing.T) {
	long := "{from: 1 Mar, peak: 1 May, to: 31 Oct, abundance: frequent}"
	finds := ""
	for i, d := range []string{"2024-04-10", "2025-04-18", "2025-04-25", "2024-09-12", "2025-09-20", "2025-09-22"} {
		finds += row(fmt.Sprint("v", i), d, "Olive,dun,female,6", "7.0 7.2 7.4 7.6 7.8 8.0")
	}
	for name, more := range map[string]string{
		"unvisited": "",
		"visited":   visitsOn("One", false, "2024-06-10", "2024-07-01", "2025-07-10"),
	} {
		b := bookOf(t, fly(long)+at("One", "50 N, 1 W", 0, "frequent")+at("Two", "50 N, 1 W", 0, "frequent")+"-- samples/one.csv --\n"+head+finds+more)
		r := rowOf(t, b, "One")
		d := r.Flights[0].Dates
		assert.Zero(t, d.P50, name)
		assert.Zero(t, d.GiveOrTake, name)
		assert.Equal(t, 140, d.Torn, name, "25 April to 12 September")
		assert.Equal(t, name == "visited", d.Two)
		assert.Len(t, d.Finds, 6)
		for _, s := range r.Sizes {
			assert.True(t, s.Torn, name)
			assert.Zero(t, s.N, "%s: %+v", name, s)
			assert.Equal(t, FromAccount, s.Hook.From, name)
		}
		for _, s := range rowOf(t, b, "Two").Sizes {
			assert.Equal(t, FromAccount, s.Hook.From, name)
		}
	}
}
