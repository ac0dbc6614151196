package chart

// The charts: option and SVG say the same, states have their patterns, text is
// escaped, bytes are the same each time.

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
	"pgregory.net/rapid"
)

const hostile = "</script><script>alert(1)</script>&\"'<img src=x onerror=alert(1)>\u2028\u2029\x00]]>"

type charter interface{ Chart() (Chart, error) }

func samples() map[string]charter {
	return map[string]charter{"monthly": sampleMonthly(), "stacked": sampleStacked(), "compare": sampleCompare()}
}

func mustChart(t require.TestingT, c charter) Chart {
	drawn, err := c.Chart()
	require.NoError(t, err)
	return drawn
}

// node is an SVG element read with a strict XML reader.
type node struct {
	XMLName  xml.Name
	Attrs    []xml.Attr `xml:",any,attr"`
	Children []node     `xml:",any"`
	Text     string     `xml:",chardata"`
}

func (n node) attr(name string) string {
	for _, a := range n.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func (n node) num(t require.TestingT, name string) float64 {
	v, err := strconv.ParseFloat(n.attr(name), 64)
	require.NoError(t, err, "%s=%q", name, n.attr(name))
	return v
}

func (n node) walk(f func(node)) {
	f(n)
	for _, c := range n.Children {
		c.walk(f)
	}
}

func (n node) child(name string) string {
	for _, c := range n.Children {
		if c.XMLName.Local == name {
			return c.Text
		}
	}
	return ""
}

func parseSVG(t require.TestingT, svg string) node {
	dec := xml.NewDecoder(strings.NewReader(svg))
	dec.Strict = true
	var root node
	require.NoError(t, dec.Decode(&root), svg)
	_, err := dec.Token()
	require.ErrorIs(t, err, io.EOF, "one root element")
	return root
}

// jsonOption is the option as the chart library would read it, through its JSON alone.
type jsonOption struct {
	XAxis, YAxis []struct {
		Max         float64
		MaxInterval float64
		GridIndex   int
		Data        []string
	}
	Series []struct {
		ID, Name, Type, Stack  string
		XAxisIndex, YAxisIndex int
		Data                   []struct {
			Name  string
			Value json.RawMessage
		}
		MarkLine struct {
			Data [][]struct{ Coord []float64 }
		}
	}
	Tooltip struct{ RenderMode string }
}

func parseOption(t require.TestingT, text []byte) jsonOption {
	var o jsonOption
	require.NoError(t, json.Unmarshal(text, &o))
	return o
}

type drawnBar struct {
	panel, month int
	kind, title  string
	base, value  float64
}

func (b drawnBar) String() string {
	return fmt.Sprintf("%d/%02d/%s %.1f+%.1f %s", b.panel, b.month, b.kind, b.base, b.value, strings.Split(b.title, "\n")[0])
}

func optionBars(t require.TestingT, o jsonOption) (bars []drawnBar) {
	bases := map[string]*[12]float64{}
	for _, s := range o.Series {
		if s.Type != "bar" {
			continue
		}
		key := s.Stack // the library stacks across panels what bears one name
		if bases[key] == nil {
			bases[key] = new([12]float64)
		}
		for m, d := range s.Data {
			if len(d.Value) == 0 || string(d.Value) == "null" {
				continue
			}
			v, err := strconv.ParseFloat(string(d.Value), 64)
			require.NoError(t, err)
			bars = append(bars, drawnBar{s.YAxisIndex, m, kindOf(s.ID), d.Name, bases[key][m], v})
			bases[key][m] += v
		}
	}
	return bars
}

// svgBars turns rectangles back into months and values by the axis labels alone.
func svgBars(t require.TestingT, root node) (bars []drawnBar) {
	type axis struct{ zero, top, perUnit float64 }
	var axes []axis
	var zeros, tops []node
	root.walk(func(n node) {
		if n.XMLName.Local != "text" || n.attr("text-anchor") != "end" {
			return
		}
		if strings.HasPrefix(n.Text, "0") && len(strings.Trim(n.Text, "0 %\u00a0")) == 0 && !strings.HasPrefix(n.Text, "00") {
			zeros = append(zeros, n)
			tops = append(tops, n)
			return
		}
		tops[len(tops)-1] = n
	})
	for i := range zeros {
		top, err := strconv.ParseFloat(strings.Trim(tops[i].Text, " %\u00a0"), 64)
		require.NoError(t, err)
		zero := zeros[i].num(t, "y") - 3.5
		axes = append(axes, axis{zero, top, (zero - tops[i].num(t, "y") + 3.5) / top})
	}
	root.walk(func(g node) {
		kind, ok := strings.CutPrefix(g.attr("class"), "chart-")
		if g.XMLName.Local != "g" || !ok || strings.Contains(kind, " ") || kind == idStrip || kind == idToday {
			return
		}
		for _, r := range g.Children {
			bottom := r.num(t, "y") + r.num(t, "height")
			panel := 0
			for bottom > axes[panel].zero+1 {
				panel++
			}
			a := axes[panel]
			middle := r.num(t, "x") + r.num(t, "width")/2
			bars = append(bars, drawnBar{panel, int((middle - plotLeft) / monthWidth), kind, r.child("title"),
				(a.zero - bottom) / a.perUnit, r.num(t, "height") / a.perUnit})
		}
	})
	return bars
}

func sameBars(t require.TestingT, c Chart) {
	o := parseOption(t, c.Option)
	want, got := optionBars(t, o), svgBars(t, parseSVG(t, string(c.SVG)))
	require.Len(t, got, len(want))
	// empty panels have no axis in the SVG, so count only those with bars
	seen := map[int]int{}
	for _, b := range want {
		if _, ok := seen[b.panel]; !ok {
			seen[b.panel] = len(seen)
		}
	}
	for i, w := range want {
		g := got[i]
		top := o.YAxis[w.panel].Max
		ok := g.month == w.month && g.kind == w.kind && g.title == w.title && seen[w.panel] == g.panel &&
			math.Abs(g.value-w.value) < top*2e-3 && math.Abs(g.base-w.base) < top*2e-3
		require.True(t, ok, "bar %d: option %v, drawn %v", i, w, g)
	}
}

// The option holds what it was given: read from its JSON, month by month.
func TestOptionHoldsTheInput(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		months := anyMonths(rt)
		bars := optionBars(rt, parseOption(rt, mustChart(rt, MonthlyBars{ID: "x", Title: "t", Months: months}).Option))
		require.Len(rt, bars, 12)
		for _, b := range bars {
			require.InDelta(rt, months[b.month].Chance*100, b.value, 1e-4)
			require.Equal(rt, map[State]string{Own: idOwn, Thin: idThin, Unlooked: idUnlooked}[months[b.month].State], b.kind)
		}
	})
	c := sampleStacked()
	bars := optionBars(t, parseOption(t, mustChart(t, c).Option))
	require.Len(t, bars, 12*len(c.Groups))
	for i, b := range bars {
		assert.InDelta(t, c.Groups[i/12].Flies[i%12], b.value, 1e-6)
	}
}

func TestOptionAndSVGAgreeOnEveryBar(t *testing.T) {
	for name, c := range samples() {
		t.Run(name, func(t *testing.T) {
			drawn := mustChart(t, c)
			assert.NotEmpty(t, optionBars(t, parseOption(t, drawn.Option)))
			sameBars(t, drawn)
		})
	}
	rapid.Check(t, func(rt *rapid.T) {
		sameBars(rt, mustChart(rt, MonthlyBars{ID: "x", Title: "t", Heading: "h", Months: anyMonths(rt)}))
	})
}

func anyMonths(rt *rapid.T) (months [12]Month) {
	for m := range months {
		low := rapid.Float64Range(0, 1).Draw(rt, "low")
		c := rapid.Float64Range(low, 1).Draw(rt, "chance")
		months[m] = Month{Chance: c, Low: low, High: rapid.Float64Range(c, 1).Draw(rt, "high"),
			State: State(rapid.IntRange(int(Unlooked), int(Own)).Draw(rt, "state")), Text: strconv.Itoa(m)}
	}
	return months
}

func TestRangesAgree(t *testing.T) {
	drawn := mustChart(t, sampleMonthly())
	o := parseOption(t, drawn.Option)
	var want [][2]float64
	for _, s := range o.Series {
		for _, line := range s.MarkLine.Data {
			require.Len(t, line, 2)
			want = append(want, [2]float64{line[0].Coord[1], line[1].Coord[1]})
		}
	}
	upright := regexp.MustCompile(`M[\d.]+ ([\d.]+)V([\d.]+)`)
	var got [][2]float64
	parseSVG(t, string(drawn.SVG)).walk(func(n node) {
		if n.attr("class") != "chart-range" {
			return
		}
		for _, m := range upright.FindAllStringSubmatch(n.attr("d"), -1) {
			high, _ := strconv.ParseFloat(m[1], 64)
			low, _ := strconv.ParseFloat(m[2], 64)
			zero, perUnit := 30.0+112, 112.0/100
			got = append(got, [2]float64{(zero - low) / perUnit, (zero - high) / perUnit})
		}
	})
	require.Len(t, got, 9)
	require.Len(t, want, 9)
	for _, state := range []State{Own, Thin, Unlooked} { // the order of the series
		for _, m := range sampleMonths() {
			if m.State == state {
				assert.InDelta(t, m.Low*100, want[0][0], 1e-4)
				assert.InDelta(t, m.High*100, want[0][1], 1e-4)
				want, got = append(want[1:], want[0]), append(got[1:], got[0])
			}
		}
	}
	for i := range want {
		assert.InDelta(t, want[i][0], got[i][0], 0.01)
		assert.InDelta(t, want[i][1], got[i][1], 0.01)
	}
}

// The third state is a pattern of its own, its bars and its months are told
// apart from zero, and a month without a number shows none.
func TestNobodyLookedIsAPattern(t *testing.T) {
	drawn := mustChart(t, sampleMonthly())
	root := parseSVG(t, string(drawn.SVG))
	classes := map[string]int{}
	patterns := map[string]node{}
	strip := []string{}
	root.walk(func(n node) {
		if n.XMLName.Local == "pattern" {
			patterns[n.attr("id")] = n
		}
		if n.XMLName.Local != "g" {
			return
		}
		switch c := n.attr("class"); c {
		case "chart-unlooked", "chart-strip":
			assert.Equal(t, "url(#lilac-upright-vell-unlooked)", n.attr("fill"))
			classes[c] += len(n.Children)
			if c == "chart-strip" {
				for _, r := range n.Children {
					strip = append(strip, r.child("title"))
				}
			}
		case "chart-own":
			assert.Empty(t, n.attr("fill"))
		}
	})
	assert.Equal(t, map[string]int{"chart-unlooked": 3, "chart-strip": 6}, classes)
	require.Contains(t, patterns, "lilac-upright-vell-unlooked")
	p := patterns["lilac-upright-vell-unlooked"]
	assert.Equal(t, "rotate(45)", p.attr("patternTransform"), "the only slanting pattern")
	assert.Equal(t, "chart-ink", p.Children[1].attr("class"), "ink turns with the theme; what lies in a pattern can't inherit it")
	assert.Equal(t, "January: no figure\nnot expected by the account; nobody looked", strip[0])
	assert.NotRegexp(t, `\d`, strings.ReplaceAll(strip[0], "\n", ""), "no number where there is none")

	o := string(drawn.Option)
	assert.Contains(t, o, `"rotation":-0.7854`)
	row := drawn.Table.Rows[0]
	assert.Equal(t, []string{"January", "no figure", "", "", "not expected by the account; nobody looked"}, row)
}

func TestAWaterWithoutTheFlySaysSo(t *testing.T) {
	drawn := mustChart(t, sampleCompare())
	assert.Contains(t, string(drawn.SVG), "Lake of the Three Sisters: not in this water&#39;s list")
	assert.Equal(t, "not in this water's list", drawn.Table.Rows[4][3])
}

func TestHeadingIsTheCallers(t *testing.T) {
	c := sampleMonthly()
	c.Heading = "On the water by month"
	drawn := mustChart(t, c)
	assert.Contains(t, string(drawn.SVG), ">On the water by month</text>")
	assert.Contains(t, string(drawn.Option), `"name":"On the water by month"`)
	c.Title = "Black gnat"
	assert.NotContains(t, string(mustChart(t, c).SVG)+string(mustChart(t, c).Option), "mergence")
}

func TestChartsAreNamedAndFreeOfStyleAndScript(t *testing.T) {
	for name, c := range samples() {
		t.Run(name, func(t *testing.T) {
			drawn := mustChart(t, c)
			root := parseSVG(t, string(drawn.SVG))
			assert.Equal(t, "img", root.attr("role"))
			ids := map[string]string{}
			root.walk(func(n node) {
				if id := n.attr("id"); id != "" {
					assert.NotContains(t, ids, id)
					ids[id] = n.Text
				}
				for _, a := range n.Attrs {
					assert.NotEqual(t, "style", a.Name.Local)
					assert.False(t, strings.HasPrefix(a.Name.Local, "on"), a.Name.Local)
				}
				assert.NotContains(t, []string{"script", "style", "foreignObject"}, n.XMLName.Local)
			})
			assert.NotEmpty(t, ids[root.attr("aria-labelledby")])
			assert.NotEmpty(t, ids[root.attr("aria-describedby")])
			for _, ref := range regexp.MustCompile(`url\(#([^)]+)\)`).FindAllStringSubmatch(string(drawn.SVG), -1) {
				assert.Contains(t, ids, ref[1])
			}
			assert.Equal(t, "richText", parseOption(t, drawn.Option).Tooltip.RenderMode)
			for _, row := range drawn.Table.Rows {
				assert.Len(t, row, len(drawn.Table.Head))
			}
			assert.Len(t, drawn.Table.Rows, 12)
		})
	}
}

func TestHostileTextDoesNothing(t *testing.T) {
	months := sampleMonths()
	for i := range months {
		months[i].Text = hostile
	}
	words := English
	words.Own, words.Unlooked, words.Months[2], words.Short[2], words.Unit = hostile, hostile, hostile, hostile, hostile
	for name, c := range map[string]charter{
		"monthly": MonthlyBars{ID: hostile, Title: hostile, Heading: hostile, Desc: hostile, Months: months, Words: &words,
			Finds: []Find{{3, 1, hostile}, {13, 1, "no such month"}, {2, 30, "no such day"}}},
		"compare": CompareWaters{ID: hostile, Title: hostile, Waters: []WaterMonths{{hostile, months}, {hostile, [12]Month{}}}, Words: &words},
		"stacked": StackedMonths{ID: hostile, Title: hostile, Heading: hostile, Unlooked: [12]bool{true}, Words: &words,
			Groups: []GroupMonths{{hostile, hostile, [12]float64{1, 2, math.NaN(), math.Inf(1), -3}}}},
	} {
		t.Run(name, func(t *testing.T) {
			drawn := mustChart(t, c)
			parseSVG(t, string(drawn.SVG))
			assert.False(t, bytes.ContainsAny(drawn.Option, "<>&\u2028\u2029"), "bare in the JSON block")
			doc, err := html.Parse(strings.NewReader("<!doctype html><title>t</title><figure>" + string(drawn.SVG) + "</figure><p>end"))
			require.NoError(t, err)
			images, texts := 0, []string{}
			for n := range doc.Descendants() {
				switch n.Data {
				case "script":
					assert.Fail(t, "a script")
				case "img":
					images++
				}
				if n.Type == html.TextNode {
					texts = append(texts, n.Data)
				}
			}
			assert.Zero(t, images)
			assert.Contains(t, strings.Join(texts, ""), "<img src=x onerror=alert(1)>", "the text is there, as text")
			assert.NotContains(t, string(drawn.SVG), "no such")
			var back map[string]any
			require.NoError(t, json.Unmarshal(drawn.Option, &back))
		})
	}
}

func TestBytesAreTheSameEachTime(t *testing.T) {
	for name, c := range samples() {
		first := mustChart(t, c)
		var wg sync.WaitGroup
		for range 8 {
			wg.Go(func() {
				for range 20 {
					again, err := c.Chart()
					if assert.NoError(t, err, name) {
						assert.Equal(t, first, again, name)
					}
				}
			})
		}
		wg.Wait()
	}
}

func TestDayPlace(t *testing.T) {
	for _, c := range []struct {
		month, day int
		want       float64
		ok         bool
	}{{1, 1, 0.016, true}, {1, 31, 0.984, true}, {2, 29, 1.983, true}, {12, 31, 11.984, true}, {6, 31, 0, false}, {0, 1, 0, false}, {13, 1, 0, false}} {
		at, ok := dayPlace(c.month, c.day)
		assert.Equal(t, c.ok, ok, c)
		assert.InDelta(t, c.want, at, 1e-9, c)
	}
}

// 0.5 and 99.5 are where plain rounding would turn a chance into none or certainty.
func TestPercentWords(t *testing.T) {
	for share, want := range map[float64]string{0: "0 %", 0.001: "under 1 %", 0.005: "1 %", 0.285: "29 %", 0.145: "15 %",
		0.994: "99 %", 0.995: "over 99 %", 1: "100 %"} {
		assert.Equal(t, want, strings.ReplaceAll(English.Percent(share), "\u00a0", " "), share)
	}
	assert.Equal(t, "0–4\u00a0%", English.Span(0, 0.04))
}

func TestWhatIsNoShareIsRefused(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), -0.1, 1.1} {
		c := sampleMonthly()
		c.Months[3].High = v
		_, err := c.Chart()
		assert.ErrorContains(t, err, "month 4")
		_, err = CompareWaters{ID: "c", Waters: []WaterMonths{{"w", c.Months}}}.Chart()
		assert.Error(t, err)
		c.Months[3].State = Unlisted // then nobody reads it
		_, err = c.Chart()
		assert.NoError(t, err)
	}
}

func BenchmarkMonthly(b *testing.B) {
	c := sampleMonthly()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.Chart(); err != nil {
			b.Fatal(err)
		}
	}
}
