package draw

import (
	"slices"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
)

// filled is the figure of the only account of a guide.
func filled(t *testing.T, head string, stage species.Stage, sex species.Sex) *subject {
	t.Helper()
	file := func(s string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(s)} }
	var ps content.Problems
	today := calendar.Date{Year: 2026, Month: 11, Day: 20}
	g, err := guide.Read(fstest.MapFS{
		"guide.yaml": file("format: 1\nname: One fly\n"),
		"characters.yaml": file("tails: {states: {two: {draw: 2}, three: {draw: 3}, none: {draw: 0}, stubs: {}}, draw: tail count, needs: naked eye}\n" +
			"tail length: {states: {short: {}, long: {}, twelve: {draw: 12 mm}, measured: {draw: 1.2 body}}, draw: tail length, needs: naked eye}\n" +
			"at rest: {states: [rolled, spread, flat], draw: wing posture, needs: naked eye}\n" +
			"horns: {states: [short, very long], draw: antennae, needs: naked eye}\n" +
			"body marks: {states: {rings: {draw: all segments}, tip: {draw: last segments}}, draw: bands, needs: naked eye}\n" +
			"threads: {states: [ringed], draw: antenna rings, needs: naked eye}\n" +
			"tail joints: {states: [ringed], draw: tail rings, needs: naked eye}\n" +
			"undrawn: {states: [short, long], needs: naked eye}\n"),
		"species/one.md": file("---\nname: One\nbasis: memory\nflights:\n  spring: {from: mid Mar, to: late Apr, abundance: frequent}\n" +
			head + "\n---\n\nA fly.\n"),
		"rivers/beck.yaml": file("name: Beck\nkind: rain-fed\ntime_zone: Europe/London\nflies:\n  One: frequent\n"),
	}, today, &ps)
	require.NoError(t, err)
	require.Zero(t, ps.Count(content.Error), head)
	book := figures.Reckon(guide.Cut(g, false), today)
	a := &Album{characters: book.Edition.Characters, constants: book.Edition.Constants}
	s, ok := a.subject(book.Flies[0], stage, sex, false)
	require.True(t, ok, head)
	return s
}

// Tails: what the account gives goes first, then the family's middle for stage and sex, then a common
// length; all but the first are dashed. Long isn't twice the body for all.
func TestTails(t *testing.T) {
	for _, c := range []struct {
		head   string
		stage  species.Stage
		sex    species.Sex
		n      int
		ratio  float64
		dashed bool
	}{
		{"group: upwinged\nfamily: Baetidae\nfeatures: {tails: two}", species.Dun, species.Female, 2, 0.9, true},
		{"group: upwinged\nfamily: Baetidae\nfeatures: {tails: two}", species.Spinner, species.Male, 2, 2.05, true},
		{"group: upwinged\nfamily: baetidae\nfeatures: {tails: two, tail length: long}", species.Spinner, species.Female, 2, 1.5, false},
		{"group: upwinged\nfamily: Heptageniidae\nfeatures: {tails: two, tail length: short}", species.Dun, species.Female, 2, 1, false},
		{"group: upwinged\nfeatures: {tails: three, tail length: long}", species.Spinner, species.Female, 3, 1.5, true},
		{"group: upwinged\nfeatures: {tails: three, tail length: short}", species.Dun, species.Female, 3, 0.8, false},
		{"group: upwinged\nfeatures: {tails: three}", species.Dun, species.Female, 3, 1, true},
		{"group: upwinged\nlength: {dun: 8 mm}\nfeatures: {tails: two, tail length: twelve}", species.Dun, species.Female, 2, 1.5, false},
		{"group: upwinged\nfamily: Baetidae\nfeatures: {tails: two, tail length: measured}", species.Dun, species.Female, 2, 1.2, false},
		{"group: upwinged", species.Dun, species.Female, 0, 0, false},
		{"group: stonefly\nfeatures: {tails: stubs}", species.Adult, species.Female, 0, 0.55, false},
	} {
		s := filled(t, c.head, c.stage, c.sex)
		assert.Equal(t, c.n, s.Tails, c.head)
		if c.n > 0 {
			assert.InDelta(t, c.ratio, s.TailRatio, 1e-9, c.head)
		}
		assert.Equal(t, c.dashed, s.Unsure["tails"], c.head)
	}
}

// Which figure is drawn, and with which of its parts.
func TestFigureOfAnAccount(t *testing.T) {
	for _, c := range []struct {
		head     string
		stage    species.Stage
		sex      species.Sex
		group    string
		has, not []string
	}{
		{"group: upwinged", species.Spinner, species.Male, "upwinged", []string{"male", "spinner", "claspers"}, []string{"dun", "fringed"}},
		{"group: upwinged", species.Dun, species.Female, "upwinged", []string{"dun", "fringed"}, []string{"male", "claspers", "paired", "single"}},
		{"group: upwinged\nfeatures: {at rest: spread}", species.Dun, species.Female, "spread", nil, nil},
		{"group: upwinged\nfamily: Heptageniidae", species.Nymph, "", "nymph-clinger", nil, nil},
		{"group: upwinged", species.Nymph, "", "nymph-swimmer", nil, nil},
		{"group: stonefly", species.Nymph, "", "nymph-stone", nil, nil},
		{"group: stonefly\nfeatures: {at rest: rolled, tails: stubs}", species.Adult, "", "needle", []string{"stubs"}, nil},
		{"group: stonefly\nfeatures: {at rest: flat, undrawn: long}", species.Adult, "", "stonefly", nil, []string{"stubs", "long"}},
		{"group: sedge\nfeatures: {horns: very long}", species.Adult, "", "sedge", []string{"slender", "long"}, []string{"egg", "mottled"}},
		{"group: sedge\nfeatures: {threads: ringed}", species.Adult, "", "sedge", []string{"ringed antennae"}, nil},
		{"group: upwinged\nfeatures: {tail joints: ringed}", species.Dun, "", "upwinged", []string{"ringed tails"}, nil},
		{"group: sedge\nfeatures: {horns: short}", species.Adult, "", "sedge", nil, []string{"slender", "long"}},
		{"group: sedge\nfamily: Rhyacophilidae", species.Larva, "", "caddis-free", nil, nil},
		{"group: sedge", species.Larva, "", "caddis-stones", nil, nil},
		{"group: midge", species.Adult, species.Male, "midge-male", nil, nil},
		{"group: midge", species.Adult, species.NoSex, "midge-female", nil, nil},
		{"group: gnat\nfamily: Simuliidae", species.Adult, "", "smut", nil, nil},
		{"group: land-bred\nfamily: Formicidae", species.Adult, "", "ant", nil, nil},
		{"group: land-bred\nfamily: Bibionidae\nform: gnat", species.Adult, "", "gnat", nil, nil}, // the account goes first
		{"group: land-bred\nform: hawthorn", species.Adult, species.Female, "hawthorn-female", nil, []string{"red-thighs"}},
	} {
		s := filled(t, c.head, c.stage, c.sex)
		assert.Equal(t, c.group, s.Group, c.head)
		for _, h := range c.has {
			assert.True(t, s.Has[h], "%s has no %s", c.head, h)
		}
		for _, h := range c.not {
			assert.False(t, s.Has[h], "%s has %s", c.head, h)
		}
	}
	assert.Equal(t, "last", filled(t, "group: upwinged\nfeatures: {body marks: tip}", species.Dun, "").Bands)
	assert.Equal(t, "all", filled(t, "group: upwinged\nfeatures: {body marks: rings}", species.Dun, "").Bands)
	many := filled(t, "group: upwinged\nfeatures: {body marks: [rings, tip]}", species.Dun, "")
	assert.Empty(t, many.Bands, "either may be seen, so neither is drawn")
	form := filled(t, "group: land-bred", species.Adult, "")
	assert.True(t, slices.Contains(form.left, "form"), "a common build, said so")
}

// A roofed fly is drawn overall: what was measured of it so, else its body over its group's share; and its
// body is the share of the drawing that its hook goes by.
func TestRoofedFliesAreDrawnOverall(t *testing.T) {
	overall := filled(t, "group: sedge\nlength: {adult: 12 mm}", species.Adult, "")
	assert.InDelta(t, 12, overall.length, 1e-9)
	body := filled(t, "group: sedge\nlength: {adult: 9 mm body}", species.Adult, "")
	require.True(t, body.share > 0.5 && body.share < 1)
	assert.InDelta(t, 9/body.share, body.length, 1e-9)
	assert.InDelta(t, 9, body.UnitMM, 1e-9, "the body as it is")
	dun := filled(t, "group: upwinged\nlength: {dun: 9 mm}", species.Dun, "")
	assert.InDelta(t, 9, dun.UnitMM, 1e-9)
}
