package calendar

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestDaysOfTheYear(t *testing.T) {
	for _, c := range []struct {
		month time.Month
		day   int
		want  Day
		cell  string
	}{
		{time.January, 1, 1, "01a"}, {time.January, 15, 15, "01a"}, {time.January, 16, 16, "01b"}, {time.February, 28, 59, "02b"},
		{time.March, 1, 60, "03a"}, {time.June, 15, 166, "06a"}, {time.December, 16, 350, "12b"}, {time.December, 31, 365, "12b"},
	} {
		d := DayOf(c.month, c.day)
		assert.Equal(t, c.want, d)
		assert.Equal(t, c.month, d.Month())
		assert.Equal(t, c.day, d.DayOfMonth())
		assert.Equal(t, c.cell, d.Cell().String())
	}
	assert.Equal(t, DayOf(time.February, 28), DayOf(time.February, 29), "29 February counts with 28 February")
	assert.Panics(t, func() { DayOf(time.February, 30) })
	assert.False(t, Day(0).Valid())
	assert.False(t, Day(366).Valid())

	// The mean day numbers of the months, as the guide's rules on water temperature give them.
	assert.Equal(t, []float64{16, 45.5, 75}, []float64{MidMonth(time.January), MidMonth(time.February), MidMonth(time.March)})
}

func TestCellsPartTheYear(t *testing.T) {
	next := Day(1)
	for c := Cell(0); c < Cells; c++ {
		assert.Equal(t, next, c.First(), c)
		for d := c.First(); d <= c.Last(); d++ {
			assert.Equal(t, c, d.Cell())
		}
		next = c.Last() + 1
	}
	assert.Equal(t, Day(366), next)
}

func TestTheCircle(t *testing.T) {
	newYear, eve := Day(1), Day(365)
	assert.Equal(t, 1, Gap(eve, newYear))
	assert.Equal(t, -1, Gap(newYear, eve))
	assert.Equal(t, 1, Fwd(eve, newYear))
	assert.Equal(t, 364, Fwd(newYear, eve))
	assert.Equal(t, 182, Gap(1, 183), "the furthest either way")
	assert.Equal(t, -182, Gap(183, 1))
	assert.Equal(t, -182, Gap(1, 184))
	assert.True(t, Within(newYear, DayOf(time.December, 1), DayOf(time.February, 1)))
	assert.False(t, Within(DayOf(time.July, 1), DayOf(time.December, 1), DayOf(time.February, 1)))
	assert.True(t, Within(5, 5, 5))

	rapid.Check(t, func(t *rapid.T) {
		day := rapid.Map(rapid.IntRange(1, Year), func(n int) Day { return Day(n) })
		a, b, n := day.Draw(t, "a"), day.Draw(t, "b"), rapid.IntRange(-2000, 2000).Draw(t, "n")
		if g := Gap(a, b); g < -182 || g > 182 || a.Add(g) != b || Gap(b, a) != -g {
			t.Fatalf("gap %v %v is %d", a, b, g)
		}
		if f := Fwd(a, b); f < 0 || f >= Year || a.Add(f) != b {
			t.Fatalf("fwd %v %v is %d", a, b, f)
		}
		if m := a.Add(n); !m.Valid() || m.Add(-n) != a {
			t.Fatalf("%v + %d is %v", a, n, m)
		}
		if DayOf(a.Month(), a.DayOfMonth()) != a {
			t.Fatalf("%v isn't a day of its own month", a)
		}
	})
}

// ISO 8601 week numbers at the edges of years, computed with Python 3.11, GNU
// date and R, which agree.
func TestISOWeek(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "..", "testdata", "checks", "isoweek.csv"))
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 90)
	for _, r := range rows[1:] {
		d, err := ParseDate(r[0])
		require.NoError(t, err)
		year, week := d.ISOWeek()
		assert.Equal(t, r[1]+" "+r[2], strconv.Itoa(year)+" "+strconv.Itoa(week), r[0])
		assert.Equal(t, r[0], d.String())
	}
}

func TestDates(t *testing.T) {
	leap := Date{2024, time.February, 28}
	assert.Equal(t, Date{2024, time.February, 29}, leap.AddDays(1))
	assert.Equal(t, 2, Date{2024, time.March, 1}.Sub(leap), "leap days are real days")
	assert.Equal(t, leap.OfYear(), leap.AddDays(1).OfYear())
	assert.Equal(t, 730119, Date{2000, time.January, 1}.Sub(Date{1, time.January, 1}), "further apart than a time.Duration reaches; Python 3.11")
	assert.True(t, Date{2025, time.December, 31}.Before(Date{2026, time.January, 1}))
	assert.True(t, Date{}.IsZero())
	far := time.FixedZone("far", 13*3600)
	assert.Equal(t, Date{2026, time.May, 4}, DateOf(time.Date(2026, 5, 3, 12, 0, 0, 0, time.UTC).In(far)), "the day of its own zone")
	assert.Equal(t, "18:30", Clock(1110).String())
	assert.Empty(t, NoClock.String())
}

func TestMiddleOfACell(t *testing.T) {
	for cell, want := range map[Cell]Day{0: DayOf(1, 8), 1: DayOf(1, 23), 3: DayOf(2, 22), 7: DayOf(4, 23), 23: DayOf(12, 23)} {
		assert.Equal(t, want, cell.Middle(), cell.String())
	}
}
