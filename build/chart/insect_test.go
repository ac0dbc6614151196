package chart

// The figures are to scale, show each character, and say what they don't know.

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func mustDraw(t require.TestingT, in Insect, v View) Drawing {
	d, ok := in.Draw("fig", "title", "desc", v, nil)
	require.True(t, ok)
	return d
}

var pathPart = regexp.MustCompile(`[MclsZz]|-?\d+`)

// pathPoints samples a path's curves, by the rules of SVG 2, section 9.3: small letters are
// relative to the current point, s takes the last curve's second handle, turned about the point.
func pathPoints(t require.TestingT, d string) (out [][]pt) {
	tokens := pathPart.FindAllString(d, -1)
	require.Equal(t, strings.ReplaceAll(d, " ", ""), strings.Join(tokens, ""), "nothing unread")
	letter, at := "", 0
	var last, handle pt
	read := func(from pt) pt {
		x, err := strconv.ParseFloat(tokens[at], 64)
		require.NoError(t, err)
		y, err := strconv.ParseFloat(tokens[at+1], 64)
		require.NoError(t, err)
		at += 2
		return from.plus(pt{x, y})
	}
	for at < len(tokens) {
		switch tokens[at] {
		case "M":
			at++
			last, letter = read(pt{}), "l"
			handle = last
			out = append(out, []pt{last})
			continue
		case "c", "l", "s":
			letter = tokens[at]
			at++
		case "z":
			at++
			continue
		}
		c := curve{start: last}
		switch letter {
		case "c":
			c.cubics = [][3]pt{{read(last), read(last), read(last)}}
		case "s":
			c.cubics = [][3]pt{{last.times(2).minus(handle), read(last), read(last)}}
		default:
			c.cubics = [][3]pt{straight(last, read(last))}
		}
		for i := 1; i <= 16; i++ {
			out[len(out)-1] = append(out[len(out)-1], c.at(float64(i)/16))
		}
		last, handle = c.end(), c.cubics[0][1]
	}
	return out
}

// filled gathers the points of all shapes with a fill, and the widest of their x.
func filled(t require.TestingT, root node, fill string) (shapes [][]pt, left, right float64) {
	left, right = math.Inf(1), math.Inf(-1)
	root.walk(func(n node) {
		if n.XMLName.Local != "path" || n.attr("fill") != fill {
			return
		}
		for _, s := range pathPoints(t, n.attr("d")) {
			shapes = append(shapes, s)
			for _, p := range s {
				left, right = math.Min(left, p.x), math.Max(right, p.x)
			}
		}
	})
	return shapes, left, right
}

func span2(points []pt) (most float64) {
	for _, a := range points {
		for _, b := range points {
			most = math.Max(most, a.minus(b).length())
		}
	}
	return most
}

// The scale bar, the picture's size in millimetres and the insect agree: a body
// of so many millimetres measures as many bars.
func TestFiguresAreToScale(t *testing.T) {
	for _, n := range sampleInsects() {
		for _, v := range []View{Enlarged, LifeSize} {
			t.Run(fmt.Sprint(n.name, v), func(t *testing.T) {
				in := n.in
				in.Body, in.Wing, in.ForeWing = "010203", "040506", ForeWingClouded
				d := mustDraw(t, in, v)
				root := parseSVG(t, string(d.SVG))
				box := strings.Fields(root.attr("viewBox"))
				wide, err := strconv.ParseFloat(strings.TrimSuffix(root.attr("width"), "mm"), 64)
				require.NoError(t, err)
				units, err := strconv.ParseFloat(box[2], 64)
				require.NoError(t, err)
				assert.InDelta(t, unitsPerMM, units/wide, 1e-9, "units in a millimetre of the page")
				assert.Equal(t, wide, d.WidthMM)
				if v == LifeSize {
					assert.Equal(t, 1.0, d.Magnification)
				} else {
					assert.LessOrEqual(t, d.WidthMM, 70.0)
				}

				barLong, label := 0.0, ""
				root.walk(func(n node) {
					if n.attr("class") == "insect-bar" {
						m := regexp.MustCompile(`V([\d.]+)H([\d.]+)`).FindStringSubmatch(n.attr("d"))
						left := regexp.MustCompile(`^M([\d.]+) `).FindStringSubmatch(n.attr("d"))
						a, _ := strconv.ParseFloat(left[1], 64)
						b, _ := strconv.ParseFloat(m[2], 64)
						barLong = b - a
					}
					if n.XMLName.Local == "text" {
						label = n.Text
					}
				})
				mm, err := strconv.ParseFloat(strings.SplitN(label, "\u00a0", 2)[0], 64)
				require.NoError(t, err)
				perMM := barLong / mm // units for a millimetre of the insect, by the bar
				assert.InDelta(t, d.Magnification*unitsPerMM, perMM, 0.01)
				if d.Magnification != 1 {
					assert.Contains(t, label, "drawn ×"+number(d.Magnification))
				} else {
					assert.Contains(t, label, "life size")
				}

				_, left, right := filled(t, root, "#010203")
				wings, _, wingTip := filled(t, root, "#040506")
				switch {
				case in.roofed() && in.OverallMM > 0:
					assert.InEpsilon(t, in.OverallMM, (wingTip-left)/perMM, 0.015, "head to wing tip")
				case in.BodyMM > 0 && !in.roofed() && in.Order != Beetle && !(in.Order == Alder && in.Stage == Larva):
					assert.InEpsilon(t, in.BodyMM, (right-left)/perMM, 0.015, "head to tip of abdomen")
				}
				if in.WingMM > 0 && in.Order != Stonefly {
					best := math.Inf(1)
					for _, s := range wings {
						best = math.Min(best, math.Abs(span2(s)/perMM/in.WingMM-1))
					}
					assert.Less(t, best, 0.03, "fore wing, root to tip")
				}
			})
		}
	}
}

func TestTailsAreAsLongAsTheyAre(t *testing.T) {
	for _, tails := range []int{2, 3} {
		for _, ratio := range []float64{0.3, 1, 2.6} {
			in := sampleInsects()[0].in
			in.Tails, in.TailRatio, in.Tail = tails, ratio, "0a0b0c"
			d := mustDraw(t, in, Enlarged)
			shapes, _, _ := filled(t, parseSVG(t, string(d.SVG)), "#0a0b0c")
			require.Len(t, shapes, tails)
			for _, s := range shapes {
				assert.InEpsilon(t, ratio*in.BodyMM, span2(s)/unitsPerMM/d.Magnification, 0.02)
			}
		}
	}
}

// Each character changes the drawing; two that differ in it never look alike.
func TestEveryCharacterShows(t *testing.T) {
	base := sampleInsects()[0].in
	for name, change := range map[string]func(*Insect){
		"body length": func(i *Insect) { i.BodyMM = 9 },
		"wing length": func(i *Insect) { i.WingMM = 8 },
		"tails 3":     func(i *Insect) { i.Tails = 3 }, "tails 0": func(i *Insect) { i.Tails = 0 }, "tails unknown": func(i *Insect) { i.Tails = TailsUnknown },
		"tail ratio": func(i *Insect) { i.TailRatio = 1.4 }, "tail ratio unknown": func(i *Insect) { i.TailRatio = 0 },
		"hind wing none": func(i *Insect) { i.HindWing = HindWingNone }, "hind wing large": func(i *Insect) { i.HindWing = HindWingLarge },
		"fore wing clear": func(i *Insect) { i.ForeWing = ForeWingClear }, "fore wing unknown": func(i *Insect) { i.ForeWing = ForeWingUnknown },
		"turban eyes": func(i *Insect) { i.Eyes = EyesTurban }, "eyes unknown": func(i *Insect) { i.Eyes = EyesUnknown },
		"bands": func(i *Insect) { i.Bands = true },
		"body":  func(i *Insect) { i.Body = "112233" }, "wing": func(i *Insect) { i.Wing = "112233" },
		"legs": func(i *Insect) { i.Legs = "112233" }, "tail": func(i *Insect) { i.Tail = "112233" },
	} {
		t.Run(name, func(t *testing.T) {
			in := base
			change(&in)
			assert.NotEqual(t, mustDraw(t, base, Enlarged).SVG, mustDraw(t, in, Enlarged).SVG)
			if name != "legs" { // at life size the legs of so small a fly are lines in ink
				assert.NotEqual(t, mustDraw(t, base, LifeSize).SVG, mustDraw(t, in, LifeSize).SVG, "at life size")
			}
		})
	}
	seen := map[string]string{}
	for _, n := range sampleInsects() {
		svg := string(mustDraw(t, n.in, Enlarged).SVG)
		assert.Empty(t, seen[svg], n.name)
		seen[svg] = n.name
	}
}

// Nothing is guessed: what is missing is named, and drawn dashed or not at all.
func TestWhatIsUnknownIsSaid(t *testing.T) {
	all := Insect{Order: Upwinged, Stage: Dun, BodyMM: 9, Tails: TailsUnknown}
	d := mustDraw(t, all, Enlarged)
	assert.Equal(t, []Part{PartEyes, PartBody, PartLegs, PartWingLength, PartForeWing, PartWing, PartHindWing, PartTailCount}, d.Unknown)
	assert.NotRegexp(t, ` fill="#`, string(d.SVG), "no colour was given")
	assert.Contains(t, string(d.SVG), "stroke-dasharray")

	all.Tails = 3
	assert.Contains(t, mustDraw(t, all, Enlarged).Unknown, PartTailLength)

	known := sampleInsects()[0].in
	d = mustDraw(t, known, Enlarged)
	assert.Empty(t, d.Unknown)
	assert.NotContains(t, string(d.SVG), "stroke-dasharray")

	known.Body, known.Tail = "olive", "#12345" // no hex values
	assert.Equal(t, []Part{PartBody, PartTail}, mustDraw(t, known, Enlarged).Unknown)
	for _, p := range d.Unknown {
		assert.Contains(t, partOrder, p)
	}
}

func TestWhatCannotBeDrawnIsRefused(t *testing.T) {
	for name, in := range map[string]Insect{
		"no length":               {Order: Upwinged, Stage: Dun, WingMM: 9},
		"a sedge has no dun":      {Order: Sedge, Stage: Dun, BodyMM: 9},
		"a gnat has no pupa here": {Order: Gnat, Stage: Pupa, BodyMM: 9},
		"no order":                {Stage: Adult, BodyMM: 9},
		"a metre long":            {Order: Upwinged, Stage: Dun, BodyMM: 1000},
		"next to nothing":         {Order: Upwinged, Stage: Dun, BodyMM: 1e-9},
		"not a number":            {Order: Upwinged, Stage: Dun, BodyMM: math.NaN()},
	} {
		_, ok := in.Draw("x", "t", "d", Enlarged, nil)
		assert.False(t, ok, name)
	}
}

func TestFiguresAreWellFormedAndNamed(t *testing.T) {
	for _, n := range sampleInsects() {
		for _, v := range []View{Enlarged, LifeSize} {
			d, ok := n.in.Draw(hostile, hostile, hostile, v, &InsectWords{MM: hostile, LifeSize: hostile, Times: hostile})
			require.True(t, ok)
			root := parseSVG(t, string(d.SVG))
			assert.Equal(t, "img", root.attr("role"))
			ids := map[string]bool{}
			root.walk(func(n node) {
				if id := n.attr("id"); id != "" {
					ids[id] = true
				}
				assert.Contains(t, []string{"svg", "title", "desc", "path", "g", "text"}, n.XMLName.Local)
				assert.Empty(t, n.attr("style"))
			})
			assert.True(t, ids[root.attr("aria-labelledby")] && ids[root.attr("aria-describedby")])
			assert.NotRegexp(t, `NaN|Inf|%!`, string(d.SVG))
			assert.Less(t, len(d.SVG), 24000, n.name)
		}
	}
}

// Found by the property below: tails next to nothing long divided by their length.
func TestTailsNextToNothingAreUnknown(t *testing.T) {
	in := sampleInsects()[0].in
	in.TailRatio = 1e-18
	assert.Contains(t, mustDraw(t, in, Enlarged).Unknown, PartTailLength)
}

func TestAnyInsectCanBeDrawn(t *testing.T) {
	size := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0.2, 120))
	colour := rapid.SampledFrom([]string{"", "000000", "ffffff", "#7a8b9c", "olive"})
	rapid.Check(t, func(t *rapid.T) {
		in := Insect{Order: Order(rapid.IntRange(0, 9).Draw(t, "order")), Stage: Stage(rapid.IntRange(0, 7).Draw(t, "stage")),
			BodyMM: size.Draw(t, "body"), OverallMM: size.Draw(t, "overall"), WingMM: size.Draw(t, "wing"),
			Tails: rapid.SampledFrom([]int{TailsUnknown, 0, 1, 2, 3}).Draw(t, "tails"), TailRatio: rapid.Float64Range(0, 4).Draw(t, "ratio"),
			HindWing: HindWing(rapid.IntRange(0, 3).Draw(t, "hind")), ForeWing: ForeWing(rapid.IntRange(0, 2).Draw(t, "fore")),
			Eyes: Eyes(rapid.IntRange(0, 2).Draw(t, "eyes")), Bands: rapid.Bool().Draw(t, "bands"),
			Body: colour.Draw(t, "c"), Wing: colour.Draw(t, "c"), Legs: colour.Draw(t, "c"), Tail: colour.Draw(t, "c")}
		for _, v := range []View{Enlarged, LifeSize} {
			d, ok := in.Draw("x", "t", "d", v, nil)
			if !ok {
				continue
			}
			require.False(t, strings.Contains(string(d.SVG), "NaN"), "a number that is none")
			box := strings.Fields(parseSVG(t, string(d.SVG)).attr("viewBox"))
			w, _ := strconv.ParseFloat(box[2], 64)
			h, _ := strconv.ParseFloat(box[3], 64)
			parseSVG(t, string(d.SVG)).walk(func(n node) {
				if n.XMLName.Local != "path" || n.attr("class") == "insect-bar" {
					return
				}
				for _, s := range pathPoints(t, n.attr("d")) {
					for _, p := range s {
						require.True(t, p.x >= 0 && p.x <= w && p.y >= 0 && p.y <= h, "outside the picture: %v of %v × %v", p, w, h)
					}
				}
			})
		}
	})
}

func TestFiguresAreTheSameEachTime(t *testing.T) {
	for _, n := range sampleInsects() {
		first := mustDraw(t, n.in, Enlarged)
		var wg sync.WaitGroup
		for range 4 {
			wg.Go(func() { assert.Equal(t, first, mustDraw(t, n.in, Enlarged)) })
		}
		wg.Wait()
	}
}

func BenchmarkInsect(b *testing.B) {
	in := sampleInsects()[0].in
	for b.Loop() {
		in.Draw("x", "t", "d", Enlarged, nil)
	}
}

// Figures that stand side by side share a scale: at most the one that is asked for.
func TestFiguresShareAScale(t *testing.T) {
	in := sampleInsects()[0].in
	alone := in.Magnification()
	require.Greater(t, alone, 2.0)
	assert.Equal(t, alone, mustDraw(t, in, Enlarged).Magnification)
	in.Most = 2
	assert.Equal(t, 2.0, mustDraw(t, in, Enlarged).Magnification)
	in.Most = 100
	assert.Equal(t, alone, in.Magnification(), "never larger than fits")
	assert.Zero(t, Insect{Order: Sedge, Stage: Dun}.Magnification(), "a sedge has no dun")
}
