package figures

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A fly beside all its waters: where it was looked for and never found, and each season's own middle.
func TestFlyOverItsWaters(t *testing.T) {
	water := func(name, flies string) string {
		return fmt.Sprintf("-- rivers/%s.yaml --\nname: %s\nkind: rain-fed\nflies: %s\n", strings.ToLower(name), name, flies)
	}
	visit := func(id, date, water, scope, fly string) string {
		finds := fly + ",adult,,3"
		if fly == "nothing" {
			finds = "nothing,,,"
		}
		return fmt.Sprintf("%s,%s,10:00,,%s,,sweep net,50 sweeps,%s,%s,,A,,,\n", id, date, water, scope, finds)
	}
	text := strings.Replace(nextGuide, "-- samples/one.csv --", water("Two", "{Olive: abundant}")+water("Three", "{Olive: abundant}")+water("Four", "{Sally: rare}")+"-- samples/one.csv --", 1)
	for _, d := range []string{"2024-04-10", "2024-04-20", "2024-04-30", "2025-04-14", "2025-04-24"} {
		text += visit("A"+d, d, "One", "stonefly", "Sally")
	}
	text += visit("B1", "2024-04-20", "Two", "stonefly", "nothing") + visit("B2", "2025-04-20", "Two", "stonefly", "nothing") +
		visit("C1", "2024-04-20", "Three", "upwinged", "nothing") + visit("D1", "2024-04-20", "Four", "stonefly", "nothing")
	var sally *Fly
	for _, f := range bookOf(t, text).Flies {
		if f.Name.S == "Sally" {
			sally = f
		}
	}
	require.Len(t, sally.InVain, 1, "nobody looked for it on Three; Four lists it and has a row")
	assert.Equal(t, "Two", sally.InVain[0].Water.Name.S)
	assert.Equal(t, []int{2024, 2025}, sally.InVain[0].Years)
	assert.Equal(t, 2, sally.InVain[0].Visits)
	for _, r := range sally.Rows {
		if r.Water.Name.S == "One" {
			require.Len(t, r.Flights[0].Dates.BySeason, 1, "2025 has too few finds for a middle of its own")
			assert.Equal(t, "2024", r.Flights[0].Dates.BySeason[0].Season)
			assert.Equal(t, "20 Apr", dayText(r.Flights[0].Dates.BySeason[0].P50))
		}
	}
}
