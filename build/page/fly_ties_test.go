package page

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guidegen/content"
)

// What is the same on all waters is said once, the rest at each water; the naive way round: both together say for every
// water, flight and stage what it said alone.
func TestTiesAreSaidOnce(t *testing.T) {
	mm := func(v float64, ground content.Ground) content.Figure {
		return content.NewFigure(v, "mm", 1, content.On(content.Part{Ground: ground}))
	}
	own, memory := content.OwnRecords, content.Memory
	dun := FlyTie{Flight: "spring", Stage: "dun", Hours: "12:00–15:00", Length: mm(8, own), Dressings: []TieView{{Hook: "dry 14"}}}
	later, month, guessed, longer, unknown, other, nothing, larger := dun, dun, dun, dun, dun, dun, dun, dun
	later.Hours = "12:30–15:00"
	month.Month = "Apr"
	guessed.Length = mm(8, memory)
	longer.Length = mm(9, own)
	unknown.Length = content.Figure{}
	other.Dressings = []TieView{{Hook: "dry 16"}}
	nothing.Dressings, nothing.Hook = nil, "dry 14"
	larger.Dressings, larger.Hook = nil, "dry 12"
	autumn := FlyTie{Flight: "autumn", Stage: "dun", Hours: "12:00–14:00"}
	spinner := FlyTie{Flight: "spring", Stage: "spinner", Hours: "19:00"}
	for name, waters := range map[string][][]FlyTie{
		"one water":               {{dun, spinner, autumn}},
		"alike":                   {{dun, autumn}, {dun, autumn}},
		"hours":                   {{dun, autumn}, {later, autumn}},
		"the hours' month":        {{dun}, {month}},
		"a length":                {{dun}, {longer}},
		"a length known on one":   {{dun}, {unknown}},
		"a length's ground":       {{dun}, {guessed}},
		"hooks":                   {{dun}, {dun}, {other}},
		"nothing in the box":      {{dun}, {nothing}},
		"the hook asked for":      {{nothing}, {larger}},
		"a stage on one":          {{dun, autumn}, {dun, spinner, autumn}},
		"a water without":         {{}, {dun}},
		"the first flight is new": {{autumn}, {dun, spinner, autumn}},
	} {
		t.Run(name, func(t *testing.T) {
			var list []FlyWater
			for _, ties := range waters {
				list = append(list, FlyWater{Ties: append([]FlyTie(nil), ties...)})
			}
			once := tiesOnce(list)
			seen := map[string]bool{}
			for i, o := range once {
				assert.Equal(t, i == 0 || once[i-1].Flight != o.Flight, o.First, "each flight in one run")
				assert.False(t, o.First && seen[o.Flight])
				seen[o.Flight] = true
			}
			for i, ties := range waters {
				for _, want := range ties {
					got := FlyTie{Flight: want.Flight, Stage: want.Stage}
					for _, o := range once {
						if o.Flight != want.Flight || o.Stage != want.Stage {
							continue
						}
						from := func(differs bool) FlyTie {
							if !differs {
								return o
							}
							for _, x := range list[i].Ties {
								if x.Flight == o.Flight && x.Stage == o.Stage {
									return x
								}
							}
							return FlyTie{}
						}
						got.Hours, got.Month = from(o.HoursDiffer).Hours, from(o.HoursDiffer).Month
						got.Length = from(o.LengthDiffers).Length
						got.Dressings, got.Hook = from(o.DressingsDiffer).Dressings, from(o.DressingsDiffer).Hook
					}
					assert.Equal(t, want, got)
				}
			}
			if name == "alike" || name == "one water" {
				for _, w := range list {
					assert.Empty(t, w.Ties)
				}
			}
		})
	}
}
