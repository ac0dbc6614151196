package figures

// Sizes, hooks and what to tie on, as sections 9, 13 and 17 of the rules on figures have them, on small guides and
// on the demo.

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content/calendar"
	"guidegen/species"
	"guidegen/species/tying"
)

// oneFly writes a guide of one fly, its head given, on one water.
func oneFly(head, more string) string {
	return "-- guide.yaml --\nformat: 1\nname: Test\nbasis: memory\n-- species/fly.md --\n---\nname: Fly\n" + head +
		"\nflights:\n  summer: {from: 1 May, peak: 1 Jun, to: 1 Jul, abundance: frequent}\n---\n" +
		"-- rivers/one.yaml --\nname: One\nkind: rain-fed\nflies: {Fly: frequent}\n" +
		"-- hooks.csv --\nmodel,size,shank mm,gape mm,shape\nDry,12,9.5,5,straight\nDry,14,8.4,5,straight\nDry,16,7.3,5,straight\nDry,18,6.2,5,straight\n" + more
}

func lengthsIn(stage, mm string, n int) string {
	text := head
	for i := range n {
		text += strings.Replace(row(fmt.Sprint("v", i), fmt.Sprintf("2024-06-%02d", i+1), "Fly,"+stage+",female,1", mm), ",One,", ",One,", 1)
	}
	return "-- samples/one.csv --\n" + text
}

// The body goes on the shank: measured, else the share of the length overall that its group has.
func TestTheBodyGoesOnTheShank(t *testing.T) {
	for _, c := range []struct {
		what, head, more string
		stage            species.Stage
		body, share      float64
		from             string
	}{
		{"a sedge overall", "group: sedge\nlength: {adult: 12 mm}", "", species.Adult, 8.4, 0.70, FromAccount},
		{"a stonefly overall", "group: stonefly\nlength: {adult: 10 to 12 mm}", "", species.Adult, 8.25, 0.75, FromAccount},
		{"an alder overall", "group: alder\nlength: {adult: 14 mm}", "", species.Adult, 9.8, 0.70, FromAccount},
		{"a sedge's body", "group: sedge\nlength: {adult: 8 to 9 mm body}", "", species.Adult, 8.5, 0, FromAccount},
		{"a sedge's pupa", "group: sedge\nlength: {pupa: 9 mm}", "", species.Pupa, 9, 0, FromAccount},
		{"an upwinged fly", "group: upwinged\nlength: {dun: 7 to 8 mm}", "", species.Dun, 7.5, 0, FromAccount},
		{"overall of a group without a share", "group: upwinged\nlength: {dun: 7 to 8 mm overall}", "", species.Dun, 0, 0, ""},
		{"both sexes: lesser low to greater high", "group: upwinged\nlength: {dun male: 6 to 7 mm, dun female: 8 to 9 mm}", "", species.Dun, 7.5, 0, FromAccount},
		{"measured overall here", "group: sedge\nlength: {adult: 12 mm}", lengthsIn("adult", "10", 5), species.Adult, 7, 0.70, FromWater},
		{"too few measured", "group: sedge\nlength: {adult: 12 mm}", lengthsIn("adult", "11", 4), species.Adult, 8.4, 0.70, FromAccount},
	} {
		r := bookOf(t, oneFly(c.head, c.more)).Waters[0].Rows[0]
		var got HookGround
		for _, d := range r.Dressings {
			if d.Stage == c.stage {
				got = d.Length
			}
		}
		assert.InDelta(t, c.body, got.Length, 1e-9, c.what)
		assert.InDelta(t, c.share, got.Share, 1e-9, c.what)
		assert.Equal(t, c.from, got.From, c.what)
	}
}

// Body and overall are never pooled: a sheet's overall lengths of a sedge and its account's body stay apart.
func TestBodyAndOverallStayApart(t *testing.T) {
	r := bookOf(t, oneFly("group: sedge\nlength: {adult: 8 to 9 mm body}", lengthsIn("adult", "12", 3))).Waters[0].Rows[0]
	require.Len(t, r.Sizes, 2)
	assert.Equal(t, species.OfBody, r.Sizes[0].Part)
	assert.Zero(t, r.Sizes[0].N)
	assert.Equal(t, species.Overall, r.Sizes[1].Part)
	assert.Equal(t, 3, r.Sizes[1].N)
	assert.Empty(t, r.Sizes[1].Account)
}

// Ten measured bodies of a fly replace its group's share: 9 mm of 12 mm is 0.75.
func TestTenBodiesReplaceTheShare(t *testing.T) {
	sheet := func(n int) string {
		text := "eventID,eventDate,waterBody,samplingProtocol,sampleSizeValue,sampleSizeUnit,occurrenceID,vernacularName,lifeStage,sex,measurementType,measurementValue,measurementUnit\n"
		for i := range n {
			text += fmt.Sprintf("w%d,2024-06-%02d,Two,sweep net,50,sweeps,o%d,Fly,adult,female,body length,9,mm\n", i, i+1, i)
		}
		return "-- rivers/two.yaml --\nname: Two\nkind: rain-fed\nflies: {Fly: frequent}\n-- samples/two.csv --\n" + text + lengthsIn("adult", "10", 5)
	}
	for n, want := range map[int]float64{9: 0.70, 10: 0.90} {
		b := bookOf(t, oneFly("group: sedge\nlength: {adult: 12 mm}", sheet(n)))
		for _, s := range b.Waters[0].Rows[0].Sizes {
			if s.Part == species.Overall && s.N == 5 {
				assert.Equal(t, FromWater, s.Hook.From)
				assert.InDelta(t, 10*want, s.Hook.Length, 1e-9, "%d bodies", n)
			}
		}
	}
}

// A female that lays under water is met from bottom to midwater, unless the account says where.
func TestLevelOfTheLayingFemale(t *testing.T) {
	for _, c := range []struct {
		head string
		want []tying.Level
	}{
		{"group: upwinged\nlays: under water\nlevel: {spinner: surface}", []tying.Level{tying.Bottom, tying.Midwater}},
		{"group: upwinged\nlays: under water\nlevel: {spinner: surface, spinner female: film}", []tying.Level{tying.Film}},
		{"group: upwinged\nlays: on the surface\nlevel: {spinner: surface}", []tying.Level{tying.Surface}},
		{"group: upwinged\nlevel: {spinner: surface}", []tying.Level{tying.Surface}},
	} {
		r := bookOf(t, oneFly(c.head, "")).Waters[0].Rows[0]
		for _, d := range r.Dressings {
			if d.Stage == species.Spinner {
				assert.Equal(t, c.want, d.Natural, c.head)
			}
		}
	}
}

// Stages that fish meet: others get no offer and no place in a list, and no hook but those met now and then.
func TestOnlyStagesThatFishMeet(t *testing.T) {
	b := demoBook(t, false)
	for _, w := range b.Waters {
		for _, r := range w.Rows {
			for _, d := range r.Dressings {
				assert.True(t, r.Fly.MeetsCase(d.Stage, d.Sex), "%s %s %s", r.Fly.Name.S, d.Sex, d.Stage)
			}
			for _, s := range r.Sizes {
				if s.Hook.From != "" {
					assert.True(t, r.Fly.MeetsCase(s.Stage, s.Sex) || slices.Contains(r.Fly.Seldom(), s.Stage), "%s %s %s", r.Fly.Name.S, s.Sex, s.Stage)
				}
			}
		}
	}
}

// On the demo no sedge, stonefly or alder is more than one catalogue step from its book size.
func TestBodiesCloseToBookSizes(t *testing.T) {
	b := demoBook(t, false)
	n := 0
	for _, w := range b.Waters {
		for _, r := range w.Rows {
			if g := r.Fly.Group; g != species.Sedge && g != species.Stonefly && g != species.Alder {
				continue
			}
			for _, s := range r.Sizes {
				best := math.Inf(1)
				for _, h := range s.Hook.Hooks {
					if h.HasBook {
						best = min(best, math.Abs(h.Steps.Count()))
					}
				}
				if !math.IsInf(best, 1) {
					n++
					assert.LessOrEqual(t, best, 1.0, "%s on %s: body %.1f mm of %.1f", r.Fly.Name.S, w.Name.S, s.Hook.Length, s.Hook.Overall)
				}
			}
		}
	}
	assert.Positive(t, n)
}

// On nine trips no fly-stage that has its own dressing is covered by another.
func TestOwnDressingsGoFirst(t *testing.T) {
	b := demoBook(t, false)
	picks := 0
	for _, w := range b.Waters[:3] {
		for _, from := range []calendar.Day{calendar.DayOf(4, 10), calendar.DayOf(6, 1), calendar.DayOf(9, 5)} {
			trip := b.Trip(w, from, from.Add(6))
			for _, p := range trip.Picks {
				for _, f := range p.For {
					picks++
					for _, d := range f.Row.Dressings {
						if d.Stage == f.Stage && d.Flight == f.Row.FlightAt(from.Add(3)) {
							assert.Equal(t, d.Advice.Best(), f.By, "%s for %s", p.Dressing.Name.S, f.ID())
						}
					}
				}
			}
			few := b.FewTrip(w, from, from.Add(6), 2)
			assert.LessOrEqual(t, len(few.Picks), 2)
			assert.Equal(t, trip.Sum, few.Sum)
		}
	}
	assert.Greater(t, picks, 20)
}
