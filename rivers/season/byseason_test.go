package season

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
)

// One case a line: a season has a middle where it has the finds for one and no gap of six weeks between them, and
// says nothing of another season. A middle of three equal finds is the second, by the weights of section 6.
func TestBySeason(t *testing.T) {
	c := Defaults()
	flights := []Moved{still(day(4, 10), day(5, 10), day(6, 20), Frequent)}
	swept := func(vs []Visit) []Visit {
		for i := range vs {
			vs[i].Protocol, vs[i].Effort, vs[i].Count, vs[i].Season = "sweep net", Is(1), 3, vs[i].Date.Year
		}
		return vs
	}
	full := found(on(2024, 5, 1), on(2024, 5, 11), on(2024, 5, 21))
	for name, k := range map[string]struct {
		visits []Visit
		want   map[int]string
	}{
		"three finds":            {full, map[int]string{2024: "131"}},
		"two are too few":        {found(on(2024, 5, 1), on(2024, 5, 11)), map[int]string{}},
		"two seasons, each own":  {append(found(on(2025, 5, 10), on(2025, 5, 20), on(2025, 5, 30)), full...), map[int]string{2024: "131", 2025: "140"}},
		"six weeks between them": {found(on(2024, 4, 12), on(2024, 4, 13), on(2024, 6, 10)), map[int]string{}},
		"an empty season":        {append(empty(on(2025, 5, 10)), full...), map[int]string{2024: "131"}},
	} {
		got := map[int]string{}
		last := 0
		for _, m := range BySeason(swept(k.visits), flights, 0, c) {
			assert.Greater(t, m.Season, last, name)
			last = m.Season
			got[m.Season] = strconv.Itoa(int(m.Day))
			assert.Positive(t, m.GiveOrTake, name)
		}
		assert.Equal(t, k.want, got, name)
	}
	assert.Empty(t, BySeason(nil, flights, 0, c))
	pair := Compare(swept(full), swept(found(on(2024, 5, 1), on(2024, 5, 11), on(2024, 5, 21))), flights, flights, 0, c)
	alone := BySeason(swept(full), flights, 0, c)[0]
	// Two like waters differ by √2 times one's own give or take; both are rounded up to whole days.
	assert.InDelta(t, 1.4142*float64(alone.GiveOrTake), float64(pair.GiveOrTake), 1.5)
}
