package figures

// Where to look next: what stands beside each half-month, and which of them make the season plan.

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content/calendar"
)

const nextGuide = `-- guide.yaml --
format: 1
name: Next
basis: memory
-- species/olive.md --
---
name: Olive
group: upwinged
flights: {only: {from: 5 Apr, peak: 20 Apr, to: 5 May, abundance: abundant}}
---
-- species/sally.md --
---
name: Sally
group: stonefly
flights: {only: {from: 5 Apr, peak: 20 Apr, to: 5 May, abundance: frequent}}
---
-- species/alder.md --
---
name: Alder
group: alder
flights: {only: {from: 5 Apr, peak: 20 Apr, to: 5 May, abundance: dominant}}
---
-- rivers/one.yaml --
name: One
kind: rain-fed
flies: {Olive: abundant, Sally: frequent}
-- samples/one.csv --
` + head

func nextOf(w *Water, cell string) *Next {
	for i := range w.Coverage.Best {
		if w.Coverage.Best[i].Cell.String() == cell {
			return &w.Coverage.Best[i]
		}
	}
	return nil
}

func TestNext(t *testing.T) {
	bare := bookOf(t, nextGuide).Waters[0]
	second := nextOf(bare, "04b")
	require.NotNil(t, second)
	assert.Len(t, second.On, 2, "the alder isn't in the water's list")
	assert.Equal(t, "Olive", second.On[0].Fly.Name.S, "the likelier first")
	assert.Len(t, second.Never, 2)
	assert.Zero(t, second.Visits)
	assert.Nil(t, nextOf(bare, "10a"), "nothing flies in October")
	for i := 1; i < len(bare.Coverage.Best); i++ {
		assert.GreaterOrEqual(t, bare.Coverage.Best[i-1].Fall, bare.Coverage.Best[i].Fall)
	}

	visits := ""
	for i, k := range []string{"2024-04-20,Olive,dun", "2024-04-22,nothing,", "2026-04-23,Olive,dun", "2025-04-21,Alder,adult"} {
		p := append(strings.Split(k, ","), "1")
		if p[2] == "" {
			p[3] = ""
		}
		visits += fmt.Sprintf("V%d,%s,10:00,,One,,sweep net,50 sweeps,upwinged; stonefly; alder,%s,%s,,%s,,A,,,\n", i, p[0], p[1], p[2], p[3])
	}
	now := nextOf(bookOf(t, nextGuide+visits).Waters[0], "04b")
	require.NotNil(t, now)
	assert.Equal(t, []int{4, 3}, []int{now.Visits, now.Years})
	require.Len(t, now.Never, 1)
	assert.Equal(t, "Sally", now.Never[0].Fly.Name.S)
	assert.Len(t, now.On, 2, "a fly found but not listed is none that is expected")
	assert.Less(t, now.Fall, second.Fall, "what has been looked at tells less when it is looked at again")
}

func TestSeasonPlan(t *testing.T) {
	water := func(n int) string {
		return fmt.Sprintf("-- rivers/w%02d.yaml --\nname: Water %02d\nkind: rain-fed\nflies: {Olive: abundant, Sally: frequent}\n", n, n)
	}
	for waters, want := range map[int]int{1: 4, 6: 24, 7: 21, 13: 13, 40: 40} {
		text := nextGuide
		for n := 1; n < waters; n++ {
			text += water(n)
		}
		b := bookOf(t, text)
		plan := b.SeasonPlan()
		require.Len(t, plan, want, "%d waters", waters)
		of := map[*Water]int{}
		for i, p := range plan {
			of[p.Water]++
			if i > 0 {
				assert.False(t, p.From.Before(plan[i-1].From), "by date")
			}
			assert.Equal(t, 2027, p.From.Year, "the spring of 2026 is over on 24 November")
			assert.Equal(t, []calendar.Day{p.Cell.First(), p.Cell.Last()}, []calendar.Day{p.From.OfYear(), p.To.OfYear()})
		}
		assert.Len(t, of, waters, "no water is left out")
	}
	b := bookOf(t, nextGuide)
	b.Built = calendar.Date{Year: 2026, Month: 4, Day: 30}
	for _, p := range b.SeasonPlan() {
		year := 2027
		if p.Cell >= 7 { // the half-month that ends on the very day is still to come
			year = 2026
		}
		assert.Equal(t, year, p.From.Year, "%s", p.Cell)
	}
}
