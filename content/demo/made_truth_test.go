package demo

// The demo's made records come from seven simulated waters. What these are truly like stands in testdata/truth.csv: when
// each flight of each fly begins, peaks and ends there, the share of standard visits that find it at its peak, when in
// the day it hatches, and how long it is. The dates lie about the accounts' moved ones (sd 6 days; below the dam 16 days
// late, which no rule knows), the shares about their classes'.

import (
	"encoding/csv"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"guidegen/content/calendar"
)

// trueFlight is one flight of a fly on a water.
type trueFlight struct {
	water, fly, latin, group, name string
	from, peak, to                 calendar.Day
	share                          float64
	evening                        bool
	male, female                   float64 // mm, as the group is usually measured
}

func truth(t *testing.T) []trueFlight {
	t.Helper()
	f, err := os.Open("testdata/truth.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var out []trueFlight
	for _, r := range rows[1:] {
		day := func(s string) calendar.Day {
			d, err := time.Parse("01-02", s)
			require.NoError(t, err)
			return calendar.DayOf(d.Month(), d.Day())
		}
		number := func(s string) float64 {
			v, err := strconv.ParseFloat(s, 64)
			require.NoError(t, err)
			return v
		}
		out = append(out, trueFlight{r[0], r[1], r[2], r[3], r[4], day(r[5]), day(r[6]), day(r[7]), number(r[8]), r[9] == "evening", number(r[10]), number(r[11])})
	}
	return out
}

// chance is the share of standard visits that find the flight on a day of a season that is so many days late: two half
// bell curves that meet at the peak.
func (f trueFlight) chance(d calendar.Day, late float64) float64 {
	off := float64(calendar.Gap(f.peak, d)) - late
	side := float64(calendar.Fwd(f.peak, f.to)) / 2
	if off < 0 {
		side = float64(calendar.Fwd(f.from, f.peak)) / 2
	}
	off /= max(2, side)
	return f.share * math.Exp(-off*off/2)
}

// spring reports whether a cold spring holds the flight back.
func (f trueFlight) spring() bool { return f.peak < calendar.DayOf(7, 1) }

// crowd is the mean number beyond the first of a catch where the chance is p.
func crowd(p float64) float64 { return 12 * p }

// Seasons differ by a sd of seven days: of flights up to June five in common and five of each flight's own.
const shared, apart = 5.0, 5.0

// lateness is by how many days each flight of truth is late in each year: in common as given, the rest drawn.
func lateness(r *rand.Rand, flights []trueFlight, common map[int]float64) []map[int]float64 {
	out := make([]map[int]float64, len(flights))
	for i, f := range flights {
		out[i] = map[int]float64{}
		for y := firstYear; y <= lastYear; y++ {
			if f.spring() {
				out[i][y] = common[y] + apart*r.NormFloat64()
			} else {
				out[i][y] = math.Hypot(shared, apart) * r.NormFloat64()
			}
		}
	}
	return out
}

// genus is the first of a name's two words, "" where it has one.
func (f trueFlight) genus() string {
	g, _, two := strings.Cut(f.latin, " ")
	if !two {
		return ""
	}
	return g
}
