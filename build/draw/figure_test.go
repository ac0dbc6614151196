package draw

import (
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/species"
	"guidegen/species/hook"
)

// A uniform Catmull–Rom curve goes through its points, and leaves each along the line between its
// neighbours with half their distance as its speed (Catmull and Rom, "A class of local interpolating
// splines", 1974; from memory).
func TestCurveIsCatmullRom(t *testing.T) {
	at := []pt{{0, 0}, {100, 30}, {180, -40}, {260, 10}, {300, 90}}
	for _, closed := range []bool{false, true} {
		c := curve{bend: smooth, closed: closed, at: at}
		n := float64(c.pieces())
		for i := 1; i < 4; i++ {
			here := float64(i) / n
			assert.InDelta(t, at[i].x, c.on(here).x, 1e-9)
			assert.InDelta(t, at[i].y, c.on(here).y, 1e-9)
			const h = 1e-6
			for _, step := range []float64{h, -h} {
				speed := c.on(here + step/n).minus(c.on(here)).times(1 / step)
				want := at[i+1].minus(at[i-1]).times(0.5)
				assert.InDelta(t, want.x, speed.x, 1e-2)
				assert.InDelta(t, want.y, speed.y, 1e-2)
			}
		}
	}
	arc := curve{bend: smooth, at: []pt{{0, 0}, {5, 5}, {10, 0}}}
	assert.Equal(t, pt{5, 5}, arc.on(0.5), "three points are one arc, through the middle one at its half")
}

// Path data says the same curve: SVG's s takes the mirrored handle of the piece before (SVG 1.1, 8.3.6).
func TestPathData(t *testing.T) {
	grid := func(p pt) spot { return spot{int(math.Round(p.x)), int(math.Round(p.y))} }
	for _, c := range []struct {
		curve curve
		want  string
	}{
		{curve{at: []pt{{1, 2}, {4, 6}, {4, 6}, {0, 6}}}, "M1 2l3 4-4 0"},
		{curve{closed: true, at: []pt{{0, 0}, {5, 0}, {5, 5}}}, "M0 0l5 0 0 5z"},
		{curve{bend: smooth, at: []pt{{0, 0}, {5, 5}, {10, 0}}}, "M0 0q5 10 10 0"},
		{curve{bend: smooth, at: []pt{{0, 0}, {60, 0}, {120, 60}, {120, 120}}}, "M0 0c10 0 40-10 60 0s50 40 60 60 0 50 0 60"},
		{curve{bend: oval, at: []pt{{10, 10}, {14, 10}, {10, 12}}}, "M6 10a4 2 0 1 0 8 0a4 2 0 1 0-8 0"},
	} {
		assert.Equal(t, c.want, string(c.curve.path(nil, grid)))
	}
}

func TestTint(t *testing.T) {
	of := map[string]string{"pale": "#e0e0e0", "dark": "#202020", "none": ""}
	for text, want := range map[string]string{
		"#1c2624": "#1c2624", "pale": "#e0e0e0", "dark": "#202020", "none": "", "none shade 40": "",
		"pale shade 50": "#707070", "dark shade 50": "#797979", // a dark part's shade is lighter
		"pale white 50": "#f0f0f0", "dark grey 50": "#505050", "dark ring 75": "#e8e4d8", "dark black 50": "#101010", "none black 50": "#3a3330",
		"none mark 70": "#3a3330", "pale mark 50": "#707070", "pale ring 50": "#707070",
	} {
		assert.Equal(t, want, tint(of, text), text)
	}
	assert.Equal(t, "#abc", short("#aabbcc"))
	assert.Equal(t, "#aabbcd", short("#aabbcd"))
}

func TestTransform(t *testing.T) {
	m, err := transform("translate(10 20) rotate(90) scale(2 3)")
	require.NoError(t, err)
	p := m.of(pt{1, 1})
	assert.InDelta(t, 7, p.x, 1e-9) // scaled to (2, 3), turned to (−3, 2), moved
	assert.InDelta(t, 22, p.y, 1e-9)
	m, err = transform("rotate(180 5 5)")
	require.NoError(t, err)
	assert.InDelta(t, 10, m.of(pt{}).x, 1e-9, "about a point")
	_, err = transform("scale(a)")
	assert.Error(t, err)
}

// A fault of a partial is found when it is read, with its place.
func TestFaultsOfPartials(t *testing.T) {
	for body, want := range map[string]string{
		`<g id="a"/><g id="a"/>`:              `two groups are called "a"`,
		`<polygon points="1,2 3"/>`:           "these are not points",
		`<ellipse cx="1" cy="x"/>`:            "cy isn't a number",
		`<g transform="translate(one)"/>`:     "not a transform",
		`<path d="M1,2 3,4M5,6 seven,8"/>`:    "these are not points",
		`<polyline points="1,2 3,4"></wrong>`: "line",
	} {
		_, err := readPartials(fstest.MapFS{"figures/x.svg": {Data: []byte("<svg>\n" + body + "</svg>")}})
		assert.ErrorContains(t, err, want, body)
		assert.ErrorContains(t, err, "figures/x.svg", body)
	}
	_, err := Figure{Group: "unheard of"}.draw()
	assert.ErrorContains(t, err, `"unheard of"`)
}

// A style holds the rules of the classes that a drawing has, whole where they share a rule.
func TestNeeded(t *testing.T) {
	sheet := "svg{--ink:#000}\n.a,.b{fill:none}\n.c{fill:red}\n@media print{.c{fill:blue}}\n@media (max-width:70px){.a{x:y}.c{x:z}}\n"
	assert.Equal(t, "svg{--ink:#000}.b{fill:none}", needed(sheet, map[string]bool{"b": true}))
	assert.Equal(t, "svg{--ink:#000}.a{fill:none}@media (max-width:70px){.a{x:y}}", needed(sheet, map[string]bool{"a": true}))
	assert.Equal(t, "svg{--ink:#000}.c{fill:red}@media print{.c{fill:blue}}@media (max-width:70px){.c{x:z}}", needed(sheet, map[string]bool{"c": true}))
}

// What is measured is what is drawn to: of the roofed ones from head to wing tip, of the others from
// head to the tip of the abdomen, whatever hangs on them.
func TestAnimalsAreAsLongAsTheyAre(t *testing.T) {
	fly := func(g species.Group, form string) *figures.Fly {
		return &figures.Fly{Account: &species.Account{Group: g, Form: form, Length: species.Property[species.Length]{}}}
	}
	for _, c := range []struct {
		fly     *figures.Fly
		stage   species.Stage
		classes string // of the shapes that make up the length
	}{
		{fly(species.Sedge, ""), species.Adult, "bw"}, {fly(species.Alder, ""), species.Adult, "bw"}, {fly(species.Stonefly, ""), species.Adult, "bw"},
		{fly(species.Upwinged, ""), species.Dun, "b"}, {fly(species.Upwinged, ""), species.Spinner, "b"}, {fly(species.Midge, ""), species.Adult, "b"},
		{fly(species.Gnat, "smut"), species.Adult, "b"}, {fly(species.LandBred, "beetle"), species.Adult, "b"},
		{fly(species.LandBred, "ant"), species.Adult, "b"},
		{fly(species.OtherWater, "damselfly"), species.Adult, "b"}, {fly(species.Midge, ""), species.Larva, "b"},
	} {
		s, ok := (&Album{}).subject(c.fly, c.stage, species.Female, false)
		require.True(t, ok)
		groups, err := partials()
		require.NoError(t, err)
		// Only body and wing have a colour, so that legs, tails and antennae are told from them.
		s.Tint = map[string]string{"body": "#806040", "thorax": "#806040", "pronotum": "#806040", "wing": "#808080"}
		w := &writer{f: s.Figure, groups: groups}
		w.walk(groups[s.Group], same, "")
		low, high := math.Inf(1), math.Inf(-1)
		for _, x := range w.shapes {
			if x.fill == "" || !strings.Contains(c.classes, x.class[:1]) {
				continue
			}
			for _, v := range x.curves {
				for i := range 101 {
					p := v.on(float64(i) / 100)
					low, high = min(low, p.x), max(high, p.x)
				}
			}
		}
		assert.InDelta(t, 1000*s.over, high-low, 45*s.over, "%s %s", s.Group, c.stage)
	}
}

// How a part is tied is read from the trade's words (common practice, no source).
func TestWaysOfTying(t *testing.T) {
	part := func(of string) species.DressingPart { return species.DressingPart{Of: content.Text{S: of}} }
	for of, want := range map[string]string{"starling slips": "wing-slip", "dark hen slips sloped like a roof": "wing-roof",
		"hackle points upright": "wing-point", "white fibres tied flat": "wing-spent", "mallard": ""} {
		assert.Equal(t, want, way(part(of), wings), of)
	}
	for of, want := range map[string]string{"ginger cock palmered": "palmer", "two turns clipped beneath": "hackle-clipped",
		"brown Partridge": "hackle-soft", "blue dun cock": "hackle-collar", "CDC": ""} {
		assert.Equal(t, want, way(part(of), hackles), of)
	}
	for of, want := range map[string]string{"stripped peacock quill": "body-quill", "peacock herl": "body-herl", "olive fur": "body-dubbed",
		"yellow silk": "body-silk", "brown raffia": "body-silk", "two lumps of black thread": "body-lumps", "latex": ""} {
		assert.Equal(t, want, way(part(of), bodies), of)
	}
}

// What else a recipe names is on the hook too: a pupa's breathers and feelers, a beetle's back, the skin that a dun is
// half out of (common practice, no source).
func TestPartsThatADressingShows(t *testing.T) {
	of := func(parts ...species.DressingPart) map[string]bool {
		return dressing(&figures.Dressing{Dressing: &species.Dressing{Parts: parts}}, nil).Has
	}
	for part, flag := range map[string]string{"breathers": "breath", "antennae": "fly-antennae", "back": "back", "rib": "rib", "shell": "shell"} {
		assert.True(t, of(species.DressingPart{Part: part, Of: content.Text{S: "something"}})[flag], part)
		assert.False(t, of()[flag], part)
	}
	for tail, flag := range map[string]string{"a wisp of fur for the skin": "tail-skin", "a trailing shuck": "tail-skin", "three fibres": "tail-split", "dun cock": "tail-dry"} {
		assert.True(t, of(species.DressingPart{Part: "tail", Of: content.Text{S: tail}})[flag], tail)
	}
}

// A dressing has its hook's shape and length; where its model wasn't measured it has none.
func TestDressingsHaveTheirHook(t *testing.T) {
	hooks := hook.Table{
		{Model: "Plain dry", Size: size(t, "14"), Shank: 8.5, Gape: 5}, {Model: "Plain dry", Size: size(t, "16"), Shank: 7.2, Gape: 4.4},
		{Model: "Bent", Size: size(t, "12"), Gape: 5.5, Curved: true},
	}
	of := func(model, wing string, sizes ...string) *fly {
		d := &figures.Dressing{Dressing: &species.Dressing{Parts: []species.DressingPart{{Part: "hook", Of: content.Text{S: model}}, {Part: "wing", Of: content.Text{S: wing}}}}}
		for _, s := range sizes {
			d.Sizes = append(d.Sizes, size(t, s))
		}
		return dressing(d, hooks)
	}
	assert.Equal(t, 7.2, of("plain dry", "slips", "16").shank)
	assert.Equal(t, pt{7.2, 4.4}, of("plain dry", "slips", "16").Scale["shank"])
	assert.Equal(t, "dressing", of("Plain dry", "slips", "14").Group)
	bent := of("Bent", "slips")
	assert.Equal(t, "dressing-curved", bent.Group)
	assert.InDelta(t, 5.5*8.2/4.9, bent.shank, 1e-9, "along the bend")
	unknown := of("Never measured", "something else")
	assert.Zero(t, unknown.shank)
	assert.True(t, unknown.Has["wing-plain"])
	assert.Equal(t, []string{"wing"}, unknown.left)
}

func size(t *testing.T, s string) hook.Size {
	t.Helper()
	v, err := hook.ParseSize(s)
	require.NoError(t, err)
	return v
}
