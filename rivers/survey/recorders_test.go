package survey

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTallies(t *testing.T) {
	on := func(flies ...string) (l []FoundOn) {
		for _, f := range flies {
			l = append(l, FoundOn{f, "beck"})
		}
		return l
	}
	trip := func(day int, found []FoundOn, who ...int) Trip {
		return Trip{Who: who, Year: 2025, Day: day, Exact: true, Looked: true, Empty: len(found) == 0, Found: found}
	}
	for _, c := range []struct {
		name  string
		trips []Trip
		want  map[int]*Tally
	}{
		{"none", nil, map[int]*Tally{}},
		{"an empty net, and a find of two", []Trip{trip(1, nil, 1), trip(2, on("mayfly"), 1, 2)}, map[int]*Tally{
			1: {Looked: 2, Empty: 1, Years: []int{2025}, Flies: []string{"mayfly"}, First: on("mayfly")},
			2: {Looked: 1, Years: []int{2025}, Flies: []string{"mayfly"}, First: on("mayfly")}}},
		{"the earlier is first, in whatever order they come", []Trip{trip(9, on("alder"), 1), trip(3, on("alder"), 2)}, map[int]*Tally{
			1: {Looked: 1, Years: []int{2025}, Flies: []string{"alder"}},
			2: {Looked: 1, Years: []int{2025}, Flies: []string{"alder"}, First: on("alder")}}},
		{"two of one day share it, one of them once", []Trip{trip(3, on("alder"), 1), trip(3, on("alder"), 2), trip(3, on("alder"), 2)}, map[int]*Tally{
			1: {Looked: 1, Years: []int{2025}, Flies: []string{"alder"}, First: on("alder")},
			2: {Looked: 2, Years: []int{2025}, Flies: []string{"alder"}, First: on("alder")}}},
		{"nobody inherits what somebody untold found first", []Trip{trip(3, on("alder")), trip(9, on("alder"), 2)}, map[int]*Tally{
			2: {Looked: 1, Years: []int{2025}, Flies: []string{"alder"}}}},
		{"a month alone may have been before", []Trip{{Who: []int{1}, Year: 2025, Looked: true, Found: on("alder")}, trip(9, on("alder"), 2)}, map[int]*Tally{
			1: {Looked: 1, Years: []int{2025}, Flies: []string{"alder"}},
			2: {Looked: 1, Years: []int{2025}, Flies: []string{"alder"}}}},
		{"a kick sample is another visit", []Trip{{Who: []int{1}, Year: 2024, Exact: true}}, map[int]*Tally{1: {Others: 1, Years: []int{2024}}}},
	} {
		assert.Equal(t, c.want, Tallies(c.trips), c.name)
	}
}
