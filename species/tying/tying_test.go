package tying

import (
	"math"
	"testing"

	"guidegen/species/colour"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// plain is the example table of measured hooks: 14 = 8.4, 16 = 7.3, 18 = 6.2 mm.
func plain(sizes ...string) (out []Hook) {
	table := map[string]Hook{
		"10": {"Plain dry", "10", -10, 10.6}, "12": {"Plain dry", "12", -12, 9.5}, "14": {"Plain dry", "14", -14, 8.4},
		"16": {"Plain dry", "16", -16, 7.3}, "18": {"Plain dry", "18", -18, 6.2}, "20": {"Plain dry", "20", -20, 5.1}}
	for _, s := range sizes {
		h := table[s]
		h.Step /= 2 // one step from each even number to the next
		out = append(out, h)
	}
	return out
}

// The first published pairs share their first colour: 2.0425 and 3.4412 from
// it (Sharma, Wu & Dalal 2005, Color Res. Appl. 30:21–30, pairs 1 and 3).
var (
	blue  = colour.Lab{L: 50, A: 0, B: -82.7485}
	blue1 = colour.Lab{L: 50, A: 2.6772, B: -79.7751}
	blue3 = colour.Lab{L: 50, A: 2.8361, B: -74.0200}
)

func olive(stage string) Natural {
	return Natural{Fly: "olive", Groups: []string{"upwinged"}, Stage: stage, Levels: []Level{Surface}}
}

func dressing(name string, stands StandsFor, levels ...Level) Dressing {
	return Dressing{Name: name, For: []StandsFor{stands}, Levels: levels}
}

func copies(stages ...string) StandsFor {
	return StandsFor{Flies: []string{"olive"}, Stages: stages}
}

func codes(rs []Reason) (out []Code) {
	for _, r := range rs {
		out = append(out, r.Code)
	}
	return out
}

func TestHabitsRuleOut(t *testing.T) {
	with := func(n Natural, change func(*Natural)) Natural { change(&n); return n }
	under := func(n *Natural) { n.LaysUnder = Yes }
	for _, c := range []struct {
		name string
		n    Natural
		d    Dressing
		want []Code
	}{
		{"another stage", olive(Dun), dressing("x", copies("nymph"), Midwater), []Code{OtherStage}},
		{"any stage", olive(Dun), dressing("x", copies(), Surface), nil},
		{"one of its stages", olive(Dun), dressing("x", copies("nymph", Dun), Surface), nil},
		{"spent on the surface", with(olive(Spinner), under), dressing("x", copies(Spinner), Surface), []Code{LaysUnderWater}},
		{"spent, female", with(olive(Spinner), func(n *Natural) { n.LaysUnder, n.Sex = Yes, Female }), dressing("x", copies(Spinner), Surface), []Code{LaysUnderWater}},
		{"spent, male", with(olive(Spinner), func(n *Natural) { n.LaysUnder, n.Sex = Yes, Male }), dressing("x", copies(Spinner), Surface), nil},
		{"a dressing of the male", with(olive(Spinner), under), dressing("x", StandsFor{Flies: []string{"olive"}, Stages: []string{Spinner}, Sex: Male}, Surface), nil},
		{"a wet spent fly", with(olive(Spinner), under), dressing("x", copies(Spinner), Midwater), nil},
		{"fished wet too", with(olive(Spinner), under), dressing("x", copies(Spinner), Surface, Midwater), nil},
		{"level not given", with(olive(Spinner), under), dressing("x", copies(Spinner)), nil},
		{"a dun doesn't lay", with(olive(Dun), under), dressing("x", copies(Dun), Surface), nil},
		{"doesn't go under", with(olive(Spinner), func(n *Natural) { n.LaysUnder = No }), dressing("x", copies(Spinner), Surface), nil},
		{"habit unknown", olive(Spinner), dressing("x", copies(Spinner), Surface), nil},
		{"a sedge's female", with(olive(Adult), func(n *Natural) { n.LaysUnder, n.Sex = Yes, Female }), dressing("x", copies(Adult), Surface), []Code{LaysUnderWater}},
		{"a sedge of either sex", with(olive(Adult), under), dressing("x", copies(Adult), Surface), nil},
		{"crawls out", with(olive(Dun), func(n *Natural) { n.CrawlsOut = Yes }), dressing("x", copies(Dun), Surface), []Code{CrawlsOut}},
		{"crawls out, spinner", with(olive(Spinner), func(n *Natural) { n.CrawlsOut = Yes }), dressing("x", copies(Spinner), Surface), nil},
		{"crawls out, nymph", with(olive("nymph"), func(n *Natural) { n.CrawlsOut = Yes }), dressing("x", copies("nymph"), Surface), nil},
		{"both reasons", with(olive(Dun), func(n *Natural) { n.CrawlsOut = Yes }), dressing("x", copies(Spinner), Surface), []Code{OtherStage, CrawlsOut}},
	} {
		assert.Equal(t, c.want, codes(c.d.against(c.n)), c.name)
		a := Consider(c.n, []Dressing{c.d}, Defaults())
		assert.Equal(t, c.want == nil, len(a.RuledOut) == 0, c.name)
		assert.Equal(t, c.want == nil, len(a.NotScored) == 1, c.name)
	}
}

func TestUnknownHabits(t *testing.T) {
	assert.Equal(t, []Code{CrawlsOut}, Consider(olive(Dun), nil, Defaults()).Unknown)
	assert.Equal(t, []Code{LaysUnderWater}, Consider(olive(Spinner), nil, Defaults()).Unknown)
	assert.Empty(t, Consider(olive("nymph"), nil, Defaults()).Unknown)
	n := olive(Dun)
	n.CrawlsOut = No
	assert.Empty(t, Consider(n, nil, Defaults()).Unknown)
}

func TestReasonsCarryTheirData(t *testing.T) {
	n := olive(Dun)
	n.Hooks = plain("16")
	d := dressing("x", copies("nymph", Spinner))
	d.Hooks = plain("10", "12")
	assert.Equal(t, []Reason{
		{Code: OtherStage, Stages: []string{"nymph", Spinner}},
		{Code: OtherSize, Hook: plain("12")[0], Suggested: plain("16")[0], Steps: 2},
	}, d.against(n))
}

func TestSizesRuleOut(t *testing.T) {
	other := Hook{Model: "Long shank", Size: "14", Step: -7, Shank: 9.9}
	for _, c := range []struct {
		name      string
		suggested []Hook
		sizes     []Hook
		want      bool
	}{
		{"the same", plain("16"), plain("16"), false},
		{"one step", plain("16"), plain("14"), false},
		{"two steps larger", plain("16"), plain("12"), true},
		{"two steps smaller", plain("16"), plain("20"), true},
		{"one of them near", plain("16"), plain("10", "12", "14"), false},
		{"near in another model", append(plain("18"), other), plain("12"), false},
		{"far in both", append(plain("18"), other), plain("10"), true},
		{"no suggestion", nil, plain("10"), false},
		{"no sizes", plain("16"), nil, false},
		{"no shank known", plain("16"), []Hook{{Size: "12", Step: -6}}, true},
	} {
		n, d := olive(Dun), dressing("x", copies(Dun))
		n.Hooks, d.Hooks = c.suggested, c.sizes
		assert.Equal(t, c.want, len(d.against(n)) == 1, c.name)
	}
}

// Only dressings that name the fly or its group are listed as ruled out.
func TestWhoIsListed(t *testing.T) {
	n := olive(Dun)
	n.Length = 7.5
	named := func(name string, s StandsFor, sizes ...string) Dressing {
		d := dressing(name, s, Surface)
		d.Hooks = plain(sizes...)
		return d
	}
	group := StandsFor{Groups: []string{"upwinged"}, Stages: []string{"nymph"}}
	a := Consider(n, []Dressing{
		named("stranger of this stage", StandsFor{Flies: []string{"caddis"}, Stages: []string{Dun}}, "16"),
		named("stranger of another", StandsFor{Flies: []string{"caddis"}, Stages: []string{"pupa"}}, "16"),
		named("stranger without data", StandsFor{Flies: []string{"caddis"}, Stages: []string{Dun}}),
		named("group's nymph", group, "16"),
		named("b without data", copies(Dun)),
		named("a without data", StandsFor{Groups: []string{"upwinged"}}),
		// The species as a nymph, the group as a dun: for the dun it names the group.
		{Name: "two entries", For: []StandsFor{copies("nymph"), {Groups: []string{"upwinged"}, Stages: []string{Dun}}}, Hooks: plain("16"), Levels: []Level{Surface}},
	}, Defaults())
	require.Len(t, a.Offered, 2)
	assert.Equal(t, "two entries", a.Offered[0].Name)
	assert.Equal(t, ByGroup, a.Offered[0].Named.By)
	assert.Equal(t, "stranger of this stage", a.Offered[1].Name)
	assert.Equal(t, ByNone, a.Offered[1].Named.By)
	assert.Equal(t, []NamedOnly{{"a without data", ByGroup}, {"b without data", ByFly}}, a.NotScored)
	require.Len(t, a.RuledOut, 1)
	assert.Equal(t, "group's nymph", a.RuledOut[0].Name)
	assert.Equal(t, ByGroup, a.RuledOut[0].Named)
}

// By hand, with all four parts: 18 of 6.2 mm for a fly of 6.5 mm is
// 1 - |log₂(6.2/6.5)|/0.5 = 1 - 0.068172/0.5 = 0.863657; colours ΔE 2.0425 for
// the body (2) and 3.4412 for the hackle (1): (2·0.948938 + 0.913970)/3 =
// 0.937282; film for a fly on the surface 0.5; named by group 0.5. Score
// 100 (0.35·0.863657 + 0.35·0.937282 + 0.2·0.5 + 0.1·0.5) = 78.0329.
func TestScoreWorkedByHand(t *testing.T) {
	n := olive(Dun)
	n.Length = 6.5
	n.Colours = map[string]colour.Lab{Body: blue, Legs: blue, Wing: blue}
	d := dressing("x", StandsFor{Groups: []string{"upwinged"}, Stages: []string{Dun}}, Bottom, Film)
	d.Hooks = plain("14", "18", "20")
	d.Colours = map[string]colour.Lab{Body: blue1, Hackle: blue3, Legs: blue1, Tail: blue1, "rib": blue}
	o := Consider(n, []Dressing{d}, Defaults()).Offered[0]
	assert.InDelta(t, 78.0329, o.Score, 0.005)
	assert.InDelta(t, 0.863657, o.Size.Value, 1e-6)
	assert.Equal(t, "18", o.Size.Hook.Size)
	assert.InDelta(t, -0.3, o.Size.Longer, 1e-12)
	assert.Equal(t, 6.5, o.Size.Length)
	assert.InDelta(t, 0.937282, o.Colour.Value, 1e-4)
	require.Len(t, o.Colour.Parts, 2)
	assert.Equal(t, Hackle, o.Colour.Parts[1].Name)
	assert.InDelta(t, 3.4412, o.Colour.Parts[1].DeltaE, 1e-4)
	assert.Equal(t, Part{0.5, 0.2, 10}, o.Place.Part)
	assert.Equal(t, []Level{Surface, Film}, []Level{o.Place.Natural, o.Place.Dressing})
	assert.Equal(t, Part{0.5, 0.1, 5}, o.Named.Part)

	// Without lengths and levels the rest is rescaled: (0.35·0.937282 + 0.05)/0.45.
	n.Length, n.Levels = 0, nil
	o = Consider(n, []Dressing{d}, Defaults()).Offered[0]
	assert.Nil(t, o.Size)
	assert.Nil(t, o.Place)
	assert.InDelta(t, 84.0108, o.Score, 0.01)
	assert.InDelta(t, 0.35/0.45, o.Colour.Weight, 1e-12)
}

func TestScoreAtTheEdges(t *testing.T) {
	n := olive(Dun)
	n.Length = 8.4
	d := dressing("x", copies(Dun), Surface)
	d.Hooks = plain("14")
	o := Consider(n, []Dressing{d}, Defaults()).Offered[0]
	assert.InDelta(t, 100, o.Score, 1e-9, "all that is known agrees")
	n.Length = 1
	o = Consider(n, []Dressing{d}, Defaults()).Offered[0]
	assert.Zero(t, o.Size.Value, "floored")
	// 7 mm lies between shanks of 4.9 and 10 on the log scale: the smaller hook.
	n.Length = 7
	d.Hooks = []Hook{{"A", "10", -5, 10}, {"A", "20", -10, 4.9}, {"B", "?", 0, 0}}
	assert.Equal(t, "20", bySize(n, d).Hook.Size)
	d.Hooks = []Hook{{"B", "14", -7, 7.2}, {"A", "14", -7, 7.2}}
	assert.Equal(t, "A", bySize(n, d).Hook.Model)
	// Beyond ΔE 40 a colour is worth nothing, never less.
	n.Colours = map[string]colour.Lab{Body: {L: 0}}
	d.Colours = map[string]colour.Lab{Body: {L: 100}}
	assert.Zero(t, byColour(n, d).Value)
	assert.Nil(t, byPlace(Natural{Levels: []Level{Film}}, Dressing{}))
	assert.Zero(t, byPlace(Natural{Levels: []Level{Surface}}, Dressing{Levels: []Level{Midwater}}).Value)
	assert.Equal(t, 1.0, byPlace(Natural{Levels: []Level{Surface, Bottom}}, Dressing{Levels: []Level{Midwater, Bottom}}).Value)
}

func TestOrderOfOffers(t *testing.T) {
	n := olive(Dun)
	n.Length = 7.3
	var box []Dressing
	for _, name := range []string{"c", "b", "a"} {
		d := dressing(name, copies(Dun), Surface)
		d.Hooks = plain("16")
		box = append(box, d)
	}
	box[0].Hooks = plain("18")
	var got []string
	for _, o := range Consider(n, box, Defaults()).Offered {
		got = append(got, o.Name)
	}
	assert.Equal(t, []string{"a", "b", "c"}, got)
	// A difference below 1e-9 is a tie.
	box[2].Hooks[0].Shank += 1e-13
	assert.Equal(t, "a", Consider(n, box, Defaults()).Offered[0].Name)
}

// The points sum to the score, the weights to 1, and all lie within bounds.
func TestScoreIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lab := func(name string) map[string]colour.Lab {
			m := map[string]colour.Lab{}
			for _, p := range []string{Body, Wing, Hackle, Legs, Tail} {
				if rapid.Bool().Draw(t, name+" "+p) {
					m[p] = colour.Lab{L: rapid.Float64Range(0, 100).Draw(t, "L"), A: rapid.Float64Range(-60, 60).Draw(t, "a")}
				}
			}
			return m
		}
		levels := func(name string) []Level {
			return rapid.SliceOfN(rapid.SampledFrom([]Level{Bottom, Midwater, Film, Surface}), 0, 2).Draw(t, name)
		}
		n := olive(Dun)
		n.Levels, n.Colours = levels("natural"), lab("natural")
		n.Length = rapid.SampledFrom([]float64{0, 3, 7.3, 20}).Draw(t, "length")
		d := dressing("x", rapid.SampledFrom([]StandsFor{copies(Dun), {}, {Groups: []string{"upwinged"}}}).Draw(t, "for"), levels("dressing")...)
		d.Colours = lab("dressing")
		if rapid.Bool().Draw(t, "sized") {
			d.Hooks = plain("14", "18")
		}
		a := Consider(n, []Dressing{d}, Defaults())
		if len(a.RuledOut) > 0 {
			t.Fatal("nothing speaks against it")
		}
		for _, o := range a.Offered {
			parts := []Part{o.Named.Part}
			if o.Size != nil {
				parts = append(parts, o.Size.Part)
			}
			if o.Colour != nil {
				parts = append(parts, o.Colour.Part)
			}
			if o.Place != nil {
				parts = append(parts, o.Place.Part)
			}
			var weight, points float64
			for _, p := range parts {
				weight, points = weight+p.Weight, points+p.Points
				if p.Value < 0 || p.Value > 1 || p.Points < 0 {
					t.Fatalf("part %+v", p)
				}
			}
			if math.Abs(weight-1) > 1e-9 || math.Abs(points-o.Score) > 1e-9 || o.Score < 0 || o.Score > 100+1e-9 {
				t.Fatalf("weights %v, points %v, score %v", weight, points, o.Score)
			}
		}
	})
}

func TestWouldServe(t *testing.T) {
	n := olive(Spinner)
	n.LaysUnder, n.Length = Yes, 6.5
	n.Levels = []Level{Film, Bottom, Film}
	n.Hooks = []Hook{{Model: "B", Size: "16"}, {Model: "A", Size: "18"}}
	n.Colours = map[string]colour.Lab{Tail: blue, Legs: blue1, Body: blue3, "eyes": blue}
	assert.Equal(t, Aim{
		Length:  6.5,
		Hooks:   []Hook{{Model: "A", Size: "18"}, {Model: "B", Size: "16"}},
		Levels:  []Level{Bottom, Film},
		Colours: []Tint{{Body, blue3}, {Legs, blue1}, {Tail, blue}},
		Avoid:   []Code{LaysUnderWater},
	}, WouldServe(n))
	assert.Equal(t, "B", n.Hooks[0].Model, "the natural is untouched")
	assert.Equal(t, Aim{Unknown: []Code{CrawlsOut}, Levels: []Level{Surface}}, WouldServe(olive(Dun)))
}

func TestLevelWords(t *testing.T) {
	for _, l := range []Level{Bottom, Midwater, Film, Surface} {
		text, err := l.MarshalText()
		require.NoError(t, err)
		var back Level
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, l, back)
	}
	var l Level
	assert.ErrorContains(t, l.UnmarshalText([]byte("top")), "top")
	assert.Equal(t, "Level(9)", Level(9).String())
}

// What scores nothing is no offer: nothing in it agrees.
func TestNothingIsOfferedThatScoresNothing(t *testing.T) {
	n := olive(Dun)
	n.Colours = map[string]colour.Lab{Body: {L: 0}}
	d := dressing("white", StandsFor{Flies: []string{"other"}}, Bottom)
	d.Colours = map[string]colour.Lab{Body: {L: 100}}
	a := Consider(n, []Dressing{d}, Defaults())
	assert.Empty(t, a.Offered)
	assert.Empty(t, a.RuledOut)
	d.Levels = []Level{Film}
	assert.Len(t, Consider(n, []Dressing{d}, Defaults()).Offered, 1)
}
