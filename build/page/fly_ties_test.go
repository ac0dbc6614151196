package page

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/view"
	"guidegen/content"
	"guidegen/species"
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

// A fly that was found on a water and isn't in its list has its hours and dressings on its own page as on the card.
func TestUnlistedFliesHaveTheirHours(t *testing.T) {
	book := demoBook()
	p, err := NewPrinter(book, view.Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	unlisted := 0
	for _, w := range book.Waters {
		for _, r := range w.Rows {
			ties := p.flyTies("x.html", r)
			assert.Len(t, ties, len(r.Dressings), "%s on %s: each stage that fish meet", r.Fly.Name.S, w.Name.S)
			hours := 0
			for _, d := range r.Dressings {
				if _, ok := r.Fly.Hours.First(species.Words{Stage: d.Stage, Sex: d.Sex, Flight: d.Flight}); ok && d.Stage.OnTheWing() {
					hours++
				}
			}
			got := slices.DeleteFunc(ties, func(t FlyTie) bool { return t.Hours == "" })
			assert.GreaterOrEqual(t, len(got), hours, "%s on %s", r.Fly.Name.S, w.Name.S)
			if hours > 0 {
				assert.NotEmpty(t, p.hoursFlies("x.html", r), "%s on %s", r.Fly.Name.S, w.Name.S)
				assert.NotEmpty(t, r.Hours, "%s on %s", r.Fly.Name.S, w.Name.S)
				if !r.Listed {
					unlisted++
				}
			}
		}
	}
	assert.Positive(t, unlisted)
}

// What a dressing isn't for is said with its stage, and no stage of a water stands both there and among its uses.
func TestNotForNamesTheStage(t *testing.T) {
	book := demoBook()
	p, err := NewPrinter(book, view.Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	n := 0
	for _, d := range book.Dressings {
		for _, v := range p.ruledOut("x.html", d) {
			n++
			assert.NotEmpty(t, v.Case, d.Name.S)
			for _, u := range d.For {
				if u.Fly.Name.S == v.Fly.Text && p.CaseOf(u.Stage, u.Sex, "") == v.Case {
					assert.NotEmpty(t, v.Waters, "%s is for the %s of %s elsewhere", d.Name.S, v.Case, v.Fly.Text)
				}
			}
		}
	}
	assert.Positive(t, n)
}
