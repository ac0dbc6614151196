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
		{"a dressing of the male for a female", with(olive(Spinner), func(n *Natural) { n.Sex = Female }),
			dressing("x", StandsFor{Flies: []string{"olive"}, Stages: []string{Spinner}, Sex: Male}, Surface), []Code{OtherSex}},
		{"of the male, for both", olive(Spinner), dressing("x", StandsFor{Flies: []string{"olive"}, Stages: []string{Spinner}, Sex: Male}, Surface), nil},
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
	} {
		a := Consider(c.n, []Dressing{c.d}, Defaults())
		if len(a.RuledOut) > 0 {
			assert.Equal(t, c.want, codes(a.RuledOut[0].Reasons), c.name)
		}
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
	n.Length = 6
	nymph, far := dressing("nymph", copies("nymph", Spinner)), dressing("far", copies(Dun), Surface)
	far.Hooks = plain("10", "12")
	a := Consider(n, []Dressing{nymph, far}, Defaults())
	assert.Equal(t, []RuledOut{
		{"far", ByFly, []Reason{{Code: OtherSize, Hook: plain("12")[0], Body: 6}}},
		{"nymph", ByFly, []Reason{{Code: OtherStage, Stages: []string{"nymph", Spinner}}}},
	}, a.RuledOut)
}

// The best hook's shank against the body, either way: at most 1.40 of the fly's own, 1.25 of others.
func TestSizesRuleOut(t *testing.T) {
	for _, c := range []struct {
		body, shank float64
		own, group  bool // passes
	}{
		{7.3, 7.3, true, true}, {6, 7.5, true, true}, {6, 7.51, true, false}, {6, 8.4, true, false}, {6, 8.41, false, false},
		{7.5, 6, true, true}, {7.51, 6, true, false}, {8.4, 6, true, false}, {8.41, 6, false, false}, {0, 20, true, true},
	} {
		n := olive(Dun)
		n.Length = c.body
		own, group := dressing("x", copies(Dun), Surface), dressing("x", StandsFor{Groups: []string{"upwinged"}, Stages: []string{Dun}}, Surface)
		for _, x := range []struct {
			d    Dressing
			want bool
		}{{own, c.own}, {group, c.group}} {
			x.d.Hooks = []Hook{{"A", "14", -7, c.shank}, {"A", "6", -3, 40}}
			a := Consider(n, []Dressing{x.d}, Defaults())
			assert.Equal(t, x.want, len(a.RuledOut) == 0, "%v on %v", c.body, c.shank)
			assert.Equal(t, x.want, len(a.Offered)+len(a.NotScored) == 1, "%v on %v", c.body, c.shank)
		}
	}
}

// The three classes, and who is passed over, offered, listed and ruled out.
func TestClasses(t *testing.T) {
	n := olive(Dun)
	n.Length = 7.5
	n.Colours = map[string]colour.Lab{Body: blue}
	named := func(name string, s StandsFor, sizes ...string) Dressing {
		d := dressing(name, s, Surface)
		d.Hooks = plain(sizes...)
		if len(sizes) > 0 {
			d.Colours = map[string]colour.Lab{Body: blue1}
		}
		return d
	}
	group := func(stages ...string) StandsFor { return StandsFor{Groups: []string{"upwinged"}, Stages: stages} }
	kin := func(stages ...string) StandsFor {
		return StandsFor{Flies: []string{"another olive"}, Kin: []string{"upwinged"}, Stages: stages}
	}
	off := func(d Dressing, lab colour.Lab) Dressing {
		d.Colours = map[string]colour.Lab{Body: lab}
		return d
	}
	black := colour.Lab{L: 5}
	for _, c := range []struct {
		d    Dressing
		want string
	}{
		{named("own", copies(Dun), "16"), "fly"},
		{named("own of any stage", copies(), "16"), "fly"},
		{named("group's", group(Dun), "16"), "group"},
		{named("kin's", kin(Dun), "16"), "kin"},
		{named("stranger's", StandsFor{Flies: []string{"a sedge"}, Kin: []string{"sedge"}, Stages: []string{Dun}}, "16"), ""},
		{named("kin's nymph", kin("nymph"), "16"), ""},
		{named("group's nymph", group("nymph"), "16"), ""},
		{named("own without data", copies(Dun)), "fly, no score"},
		{named("group's without data", group()), "group, no score"},
		{named("kin's without data", kin(Dun)), ""},
		{off(named("own, another colour", copies(Dun), "16"), black), "fly"},
		{off(named("group's, another colour", group(Dun), "16"), black), ""},
		{named("own nymph", copies("nymph"), "16"), "ruled out"},
		{named("group's, too large", group(Dun), "10"), "ruled out"},
		{named("kin's, too large", kin(Dun), "10"), ""},
		// The species as a nymph, the group as a dun: for the dun it is the group's.
		{Dressing{Name: "two entries", For: []StandsFor{copies("nymph"), group(Dun)}, Hooks: plain("16"), Levels: []Level{Surface}}, "group"},
		{Dressing{Name: "own nymph, kin's dun", For: []StandsFor{copies("nymph"), kin(Dun)}, Hooks: plain("16"), Levels: []Level{Surface}}, "ruled out"},
	} {
		a := Consider(n, []Dressing{c.d}, Defaults())
		got := ""
		for _, o := range a.Offered {
			got += string(o.Named.By)
		}
		for _, o := range a.NotScored {
			got += string(o.By) + ", no score"
		}
		for range a.RuledOut {
			got += "ruled out"
		}
		assert.Equal(t, c.want, got, c.d.Name)
	}
}

// Kin is offered from a score of 60, with size and colour known and a place that counts.
func TestKinIsOfferedSparingly(t *testing.T) {
	n := olive(Dun)
	n.Length = 7.3
	n.Colours = map[string]colour.Lab{Body: blue}
	d := dressing("x", StandsFor{Flies: []string{"another"}, Kin: []string{"upwinged"}, Stages: []string{Dun}}, Surface)
	d.Hooks, d.Colours = plain("16"), map[string]colour.Lab{Body: blue}
	offered := func(n Natural, d Dressing) bool { return len(Consider(n, []Dressing{d}, Defaults()).Offered) == 1 }
	assert.True(t, offered(n, d), "100 (0.35 + 0.35 + 0.20) = 90")
	deep, none, unsized, colourless := d, d, d, d
	deep.Levels, none.Levels, unsized.Hooks, colourless.Colours = []Level{Bottom}, nil, nil, nil
	for what, x := range map[string]Dressing{"two levels away": deep, "level not known": none, "no size": unsized, "no colour": colourless} {
		assert.False(t, offered(n, x), what)
	}
	n.Length = 7.3 / 1.25 // size 1 - log2(1.25)/0.5 = 0.356: 100 (0.1246 + 0.35 + 0.20) = 67.5
	assert.True(t, offered(n, d))
	n.Levels = []Level{Film} // 57.5
	assert.False(t, offered(n, d))
}

// Own first, then group, then kin, whatever the score; the best class alone fills a tying list.
func TestClassesComeInOrder(t *testing.T) {
	n := olive(Dun)
	n.Length, n.Colours = 7.3, map[string]colour.Lab{Body: blue}
	var box []Dressing
	for _, x := range []struct {
		name string
		s    StandsFor
		size string
	}{
		{"kin", StandsFor{Flies: []string{"another"}, Kin: []string{"upwinged"}}, "16"},
		{"group", StandsFor{Groups: []string{"upwinged"}}, "16"},
		{"own", copies(Dun), "18"},
	} {
		d := dressing(x.name, x.s, Surface)
		d.Hooks, d.Colours = plain(x.size), n.Colours
		box = append(box, d)
	}
	order := func(box []Dressing) (l []string) {
		for _, o := range Consider(n, box, Defaults()).Offered {
			l = append(l, o.Name)
		}
		return l
	}
	assert.Equal(t, []string{"own", "group", "kin"}, order(box))
	assert.Equal(t, ByFly, Consider(n, box, Defaults()).Best())
	assert.Equal(t, ByGroup, Consider(n, box[:2], Defaults()).Best())
	assert.Equal(t, ByKin, Consider(n, box[:1], Defaults()).Best())
	assert.Equal(t, ByNone, Consider(n, nil, Defaults()).Best())
	bare := []Dressing{dressing("own without data", copies(Dun)), dressing("group's without data", StandsFor{Groups: []string{"upwinged"}})}
	assert.Equal(t, ByFly, Consider(n, append(bare, box[1]), Defaults()).Best(), "tied for it, no score")
	assert.Equal(t, ByGroup, Consider(n, append(bare[1:], box[1]), Defaults()).Best())
	assert.Equal(t, ByNone, Consider(n, bare[1:], Defaults()).Best(), "a group's without a score covers nothing")
}

// The rules' worked example: body 7.5 mm, hooks of 8.4 and 7.3: size 0.922. Body ΔE 12, hackle against legs ΔE 20:
// colour 0.633. Same level, its group: 79.4.
func TestScoreOfTheRulesExample(t *testing.T) {
	size := bySize(Natural{Length: 7.5}, Dressing{Hooks: plain("14", "16")})
	assert.InDelta(t, 0.922, size.Value, 5e-4)
	assert.InDelta(t, 0.633, (2*(1-12.0/40)+(1-20.0/40))/3, 5e-4)
	assert.InDelta(t, 79.4, 100*(0.35*size.Value+0.35*0.633333+0.20+0.10*0.5), 0.05)
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
	assert.Zero(t, bySize(n, d).Value, "floored")
	// The nearest shank in millimetres, though the larger hook's ratio is the lesser; at a tie the smaller hook.
	for _, c := range []struct {
		length float64
		want   string
	}{{7.84, "16"}, {7.86, "14"}, {7.85, "16"}, {3, "16"}, {20, "14"}} {
		n.Length = c.length
		d.Hooks = []Hook{{"A", "14", -7, 8.5}, {"A", "16", -8, 7.2}, {"B", "?", 0, 0}}
		assert.Equal(t, c.want, bySize(n, d).Hook.Size, "%v mm", c.length)
	}
	n.Length = 7
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
		n.Length = rapid.SampledFrom([]float64{0, 6, 7.3, 8}).Draw(t, "length")
		d := dressing("x", rapid.SampledFrom([]StandsFor{copies(Dun), {Kin: []string{"upwinged"}}, {Groups: []string{"upwinged"}}}).Draw(t, "for"), levels("dressing")...)
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
		Hooks:   []Hook{{Model: "B", Size: "16"}, {Model: "A", Size: "18"}},
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
	n.Colours = map[string]colour.Lab{Wing: {L: 0}}
	w := Defaults()
	w.Named = 0
	d := dressing("white", copies(Dun), Bottom)
	d.Colours = map[string]colour.Lab{Wing: {L: 100}}
	a := Consider(n, []Dressing{d}, w)
	assert.Empty(t, a.Offered)
	assert.Empty(t, a.RuledOut)
	d.Levels = []Level{Film}
	assert.Len(t, Consider(n, []Dressing{d}, w).Offered, 1)
}
