package tying

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The table of cases that the site's script has to pass as well.
func TestTripCases(t *testing.T) {
	text, err := os.ReadFile("../../testdata/tying-cases.json")
	require.NoError(t, err)
	var file struct {
		Cases []struct {
			Name   string
			Enough float64
			Due    []Due
			Box    []Covers
			Picks  []Pick
			Open   []string
		}
	}
	require.NoError(t, json.Unmarshal(text, &file))
	require.Len(t, file.Cases, 16)
	for _, c := range file.Cases {
		l := Trip(c.Due, c.Box, c.Enough)
		require.Len(t, l.Picks, len(c.Picks), c.Name)
		for i, p := range l.Picks {
			assert.Equal(t, c.Picks[i].Name, p.Name, c.Name)
			assert.Equal(t, c.Picks[i].For, p.For, c.Name)
			assert.InDelta(t, c.Picks[i].Adds, p.Adds, 1e-9, c.Name)
			assert.InDelta(t, c.Picks[i].Share, p.Share, 1e-9, c.Name)
		}
		assert.ElementsMatch(t, c.Open, l.Open, c.Name)
	}
}

// Every pick adds, no more than the one before; the list stops for one of its
// two reasons and never lists a dressing twice.
func TestTripIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var due []Due
		var ids []string
		for i := range rapid.IntRange(1, 8).Draw(t, "due") {
			ids = append(ids, fmt.Sprint("fly ", i))
			due = append(due, Due{ids[i], float64(rapid.IntRange(0, 1000).Draw(t, "chance")) / 1000})
		}
		var box []Covers
		for i := range rapid.IntRange(0, 8).Draw(t, "box") {
			box = append(box, Covers{fmt.Sprint("dressing ", i), rapid.SliceOfN(rapid.SampledFrom(ids), 0, 4).Draw(t, "for")})
		}
		l := Trip(due, box, Enough)
		seen := map[string]bool{}
		for i, p := range l.Picks {
			if seen[p.Name] || p.Adds <= 0 || len(p.For) == 0 {
				t.Fatalf("pick %+v", p)
			}
			seen[p.Name] = true
			if i > 0 && (settle(p.Adds) > settle(l.Picks[i-1].Adds) || settle(l.Picks[i-1].Share) >= Enough) {
				t.Fatalf("picks %+v", l.Picks)
			}
		}
		if settle(l.Covered) < settle(Enough*l.Sum) {
			for _, c := range box {
				for _, d := range due {
					if d.Chance > 0 && slices.Contains(c.For, d.ID) && slices.Contains(l.Open, d.ID) {
						t.Fatalf("stopped at %v of %v though %s adds", l.Covered, l.Sum, c.Name)
					}
				}
			}
		}
		slices.Reverse(box)
		if back := Trip(due, box, Enough); fmt.Sprint(back) != fmt.Sprint(l) {
			t.Fatalf("the order of the box matters: %v, %v", l, back)
		}
	})
}
