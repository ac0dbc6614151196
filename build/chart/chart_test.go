package chart

// The charts: SVG and option hold what they were given, each state has its look,
// text is escaped, bytes are the same each time.

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"io"
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

const hostile = "</script><script>alert(1)</script>&\"'<img src=x onerror=alert(1)>\u2028\u2029\x00]]>"

// sampleMonths is one fly's year with every state in it, invented.
func sampleMonths() [12]Month {
	return [12]Month{
		{State: Unexpected},
		{Chance: 0.08, Low: 0.01, High: 0.24, State: Unlooked},
		{Chance: 0.56, Low: 0.38, High: 0.72, State: Own, Text: "found on 5 of 8 visits in 3 years"},
		{Chance: 0.71, Low: 0.58, High: 0.83, State: Own, Text: "found on 9 of 12 visits in 3 years"},
		{Chance: 0.34, Low: 0.16, High: 0.55, State: Thin, Text: "found on 1 of 2 visits in 1 year"},
		{Chance: 0.06, Low: 0.01, High: 0.15, State: Own, Text: "found on 0 of 6 visits in 3 years"},
		{Chance: 0.01, Low: 0, High: 0.04, State: Own, Text: "found on 0 of 7 visits in 2 years"},
		{State: Unexpected},
		{Chance: 0.22, Low: 0.05, High: 0.46, State: Unlooked},
		{Chance: 0.48, Low: 0.3, High: 0.66, State: Thin, Text: "found on 2 of 2 visits in 1 year"},
		{Chance: 0.19, Low: 0.04, High: 0.41, State: Unlooked},
		{State: Unexpected},
	}
}

func sampleYear() Year {
	y := Year{Name: "The Vell", Months: sampleMonths(),
		Finds: []Find{{3, 12, "found 12 March 2026"}, {3, 29, "found 29 March 2026"}, {4, 18, "found 18 April 2026"}}}
	for c := 4; c < 14; c++ {
		y.Cells[c] = CellLooked
	}
	y.Cells[5], y.Cells[6] = CellFound, CellFound
	return y
}

func sampleYears() Years {
	return Years{Years: []Year{sampleYear(), {Name: "Lake of the Three Sisters"}}, Words: &English}
}

func sampleStacked() StackedMonths {
	c := StackedMonths{Heading: "Flies to expect on a visit", Unlooked: [12]bool{0: true, 1: true, 11: true}, Words: &English}
	for i, key := range []string{"upwinged", "sedge", "stonefly", "alder", "midge", "gnat", "other water-bred", "land-bred"} {
		g := GroupMonths{Key: key, Name: key}
		for m := range 12 {
			g.Flies[m] = 2.4 / (1 + float64((m-3-i%4)*(m-3-i%4))/8) / float64(1+i%3)
		}
		c.Groups = append(c.Groups, g)
	}
	return c
}

// paths reads an SVG strictly and gives the path data of each class.
func paths(t require.TestingT, svg string) map[string]string {
	dec := xml.NewDecoder(strings.NewReader(svg))
	out := map[string]string{}
	for {
		token, err := dec.Token()
		if err == io.EOF {
			return out
		}
		require.NoError(t, err, svg)
		if e, ok := token.(xml.StartElement); ok && e.Name.Local == "path" {
			at := map[string]string{}
			for _, a := range e.Attr {
				at[a.Name.Local] = a.Value
				require.NotEqual(t, "style", a.Name.Local)
			}
			out[at["class"]] += at["d"]
		}
	}
}

var (
	barPath   = regexp.MustCompile(`M([\d.]+) 34V([\d.]+)h14V34`)
	rangePath = regexp.MustCompile(`M([\d.]+) ([\d.]+)V([\d.]+)h-2v-1h5v1h-2V[\d.]+z`)
)

func num(s string) float64 { v, _ := strconv.ParseFloat(s, 64); return v }

// A bar's height is its chance on the one scale of 0 to 100 %, its place its month, its look what it is based on;
// its whisker runs over its range.
func TestBarsAreDrawnToTheFigures(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		months := anyMonths(rt)
		drawn := paths(rt, string(Year{Months: months}.SVG()))
		var whiskers [][2]float64
		for _, m := range rangePath.FindAllStringSubmatch(drawn["wh"], -1) {
			whiskers = append(whiskers, [2]float64{(34 - num(m[2])) / 32, (34 - num(m[3])) / 32})
		}
		bars := map[int]float64{}
		for state, class := range map[State]string{Own: "own", Thin: "thin", Unlooked: "none"} {
			for _, m := range barPath.FindAllStringSubmatch(drawn[class], -1) {
				month := int((num(m[1]) + 7) / 26)
				require.Equal(rt, state, months[month].State, "month %d drawn as %s", month+1, class)
				bars[month] = (34 - num(m[2])) / 32
			}
		}
		for i, m := range months {
			if m.Chance*32 >= 0.05 {
				require.InDelta(rt, m.Chance, bars[i], 1e-3)
			} else {
				require.NotContains(rt, bars, i)
			}
			if (m.High-m.Low)*32 >= 0.3 {
				require.InDelta(rt, m.Low, whiskers[0][0], 1e-3)
				require.InDelta(rt, m.High, whiskers[0][1], 1e-3)
				whiskers = whiskers[1:]
			}
		}
		require.Empty(rt, whiskers)
	})
}

// The band holds each half-month once, in the look of its state: read back by the middle of each.
func TestBandSaysEveryHalfMonth(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var cells [24]Cell
		for i := range cells {
			cells[i] = Cell(rapid.IntRange(0, 2).Draw(rt, "cell"))
		}
		drawn := paths(rt, string(Year{Cells: cells}.SVG()))
		block := regexp.MustCompile(`M([\d.]+) 38h([\d.]+)v8h-[\d.]+z`)
		line := regexp.MustCompile(`M([\d.]+) 42H([\d.]+)`)
		for i, cell := range cells {
			middle, in := 13*(float64(i)+0.5), []Cell{}
			for class, state := range map[string]Cell{"f": CellFound, "u": CellUnlooked} {
				for _, m := range block.FindAllStringSubmatch(drawn[class], -1) {
					if num(m[1]) < middle && middle < num(m[1])+num(m[2]) {
						in = append(in, state)
					}
				}
			}
			for _, m := range line.FindAllStringSubmatch(drawn["l"], -1) {
				if num(m[1]) < middle && middle < num(m[2]) {
					in = append(in, CellLooked)
					require.Contains(rt, drawn["l"], "M"+number(middle)+" 40v4", "a tick for each half-month")
				}
			}
			require.Equal(rt, []Cell{cell}, in, "half-month %d", i)
		}
	})
}

// An empty year claims nothing; finds that no year has are left out.
func TestYearsAtTheEdge(t *testing.T) {
	empty := paths(t, string(Year{}.SVG()))
	for _, class := range []string{"own", "thin", "none", "wh", "find", "f", "l"} {
		assert.NotContains(t, empty, class)
	}
	assert.Equal(t, "M0 38h312v8h-312z", empty["u"])
	finds := paths(t, string(Year{Finds: []Find{{13, 1, ""}, {2, 30, ""}, {1, 16, ""}}}.SVG()))
	assert.Equal(t, "M11 34h4l-2-3.5z", finds["find"], "16 January stands in the middle of its month")
}

// jsonOption is the option as the chart library would read it, through its JSON alone.
type jsonOption struct {
	Legend struct{ Data []string }
	Series []struct {
		ID   string
		Data []struct{ Value json.RawMessage }
	}
	Tooltip struct{ RenderMode string }
}

func parseOption(t require.TestingT, c interface{ Option() (Option, error) }) jsonOption {
	made, err := c.Option()
	require.NoError(t, err)
	var o jsonOption
	require.NoError(t, json.Unmarshal(made.JSON, &o))
	require.Equal(t, "richText", o.Tooltip.RenderMode, "as HTML it would need inline styles")
	return o
}

// What fills the panels holds the same model that is drawn: read from its JSON, month by month. In the browser
// TestLookCloser sees it filled.
func TestOptionHoldsTheModel(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		years := Years{Years: []Year{{Name: "a", Months: anyMonths(rt)}, {Name: "b", Months: anyMonths(rt)}}, Words: &English}
		o := parseYears(rt, years)
		for i, y := range years.Years {
			require.Equal(rt, y.Name, o.Years[i].Name)
			for m, month := range y.Months {
				got := o.Years[i].Months[m]
				require.EqualValues(rt, month.State, got[0])
				require.Equal(rt, month.Text, o.Texts[int(got[1].(float64))])
				require.Equal(rt, month.State.Numbered(), len(got) > 2)
				if !month.State.Numbered() {
					continue
				}
				require.InDelta(rt, month.Chance*100, got[2], 0.0051)
				require.Equal(rt, English.Percent(month.Chance), got[3])
				require.LessOrEqual(rt, got[2].(float64), o.Top)
				if month.High > 0 {
					require.InDelta(rt, month.Low*100, got[4], 0.0051)
					require.InDelta(rt, month.High*100, got[5], 0.0051)
					require.Equal(rt, English.Span(month.Low, month.High), got[6])
					require.LessOrEqual(rt, got[5].(float64), o.Top)
				}
			}
		}
	})
	o := parseYears(t, sampleYears())
	for i, find := range []float64{2.371, 2.919, 3.583} { // 12 and 29 March, 18 April, at the middle of each day
		assert.InDelta(t, find, o.Years[0].Finds[i][0], 1e-9)
		assert.Equal(t, sampleYear().Finds[i].Text, o.Texts[int(o.Years[0].Finds[i][1])])
	}
	stacked := parseOption(t, sampleStacked())
	for i, g := range sampleStacked().Groups {
		for m := range 12 {
			assert.InDelta(t, g.Flies[m], num(string(stacked.Series[i].Data[m].Value)), 1e-6)
		}
	}
}

// The panel has a series for each state, and room in it for what is marked.
func TestPanelHasEverySeries(t *testing.T) {
	made, err := Panel(&English)
	require.NoError(t, err)
	var o jsonOption
	require.NoError(t, json.Unmarshal(made.JSON, &o))
	var ids []string
	for _, s := range o.Series {
		ids = append(ids, s.ID)
	}
	assert.Equal(t, []string{idOwn, idThin, idUnlooked, idStrip, idFinds, idToday}, ids)
	assert.Equal(t, []string{English.Own, English.Thin, English.Unlooked, English.Found}, o.Legend.Data)
}

// jsonYears is what fills the panels, through its JSON alone.
type jsonYears struct {
	Top   float64
	Texts []string
	Years []struct {
		Name   string
		Months [12][]any
		Finds  [][2]float64
	}
}

func parseYears(t require.TestingT, c Years) (o jsonYears) {
	made, err := c.Option()
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(made.JSON, &o))
	return o
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

func TestAWaterWithoutTheFlySaysSo(t *testing.T) {
	assert.Equal(t, "Lake of the Three Sisters: not in this water's list", parseYears(t, sampleYears()).Years[1].Name)
}

func TestHostileTextDoesNothing(t *testing.T) {
	y := sampleYear()
	y.Name = hostile
	for i := range y.Months {
		y.Months[i].Text = hostile
	}
	words := English
	words.Own, words.Unlooked, words.Months[2], words.Short[2], words.Unit = hostile, hostile, hostile, hostile, hostile
	for name, c := range map[string]interface{ Option() (Option, error) }{
		"years": Years{Years: []Year{y, {Name: hostile}}, Words: &words},
		"stacked": StackedMonths{Heading: hostile, Unlooked: [12]bool{true}, Words: &words,
			Groups: []GroupMonths{{hostile, hostile, [12]float64{1, 2, math.NaN(), math.Inf(1), -3}}}},
	} {
		made, err := c.Option()
		require.NoError(t, err, name)
		assert.False(t, bytes.ContainsAny(made.JSON, "<>&\u2028\u2029"), "%s: bare in the JSON", name)
		assert.True(t, json.Valid(made.JSON))
	}
	assert.NotContains(t, string(y.SVG()), "alert", "a drawing holds no text")
}

func TestBytesAreTheSameEachTime(t *testing.T) {
	first, err := sampleYears().Option()
	require.NoError(t, err)
	svg := sampleYear().SVG()
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			for range 20 {
				again, err := sampleYears().Option()
				assert.NoError(t, err)
				assert.Equal(t, first, again)
				assert.Equal(t, svg, sampleYear().SVG())
			}
		})
	}
	wg.Wait()
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
		c := sampleYears()
		c.Years[0].Months[3].High = v
		_, err := c.Option()
		assert.ErrorContains(t, err, "month 4")
		c.Years[0].Months[3].State = Unlisted // then nobody reads it
		_, err = c.Option()
		assert.NoError(t, err)
	}
}

// On paper as on the site hatching says that nobody looked, and nothing else does.
func TestStripsHatchWhereNobodyLooked(t *testing.T) {
	hatch := `class="s-nobody"`
	drawn := map[string]bool{}
	for _, g := range []Grade{GradeNone, GradeSome, GradeMany, GradeMost} {
		drawn[string(GradeSign(g))] = true
		assert.NotContains(t, string(GradeSign(g)), hatch)
		assert.Contains(t, string(YearStrip([24]HalfMonth{{g, CellUnlooked}})), hatch)
		seen := [24]HalfMonth{}
		for i := range seen {
			seen[i] = HalfMonth{g, CellLooked}
		}
		assert.NotContains(t, string(YearStrip(seen)), hatch)
	}
	assert.Len(t, drawn, 4, "every grade has a sign of its own")
	assert.Contains(t, string(SeenSign(CellUnlooked)), hatch)
}

// Each half-month bears the marks of its own grade and state and no others.
func TestStripsMarkEachHalfMonth(t *testing.T) {
	line := regexp.MustCompile(`M([\d.]+) [\d.]+h([\d.]+)`)
	rapid.Check(t, func(rt *rapid.T) {
		var year [24]HalfMonth
		for i := range year {
			year[i] = HalfMonth{Grade(rapid.IntRange(0, 3).Draw(rt, "grade")), Cell(rapid.IntRange(0, 2).Draw(rt, "seen"))}
		}
		var got [24]map[string]int
		for i := range got {
			got[i] = map[string]int{}
		}
		for class, d := range paths(rt, string(YearStrip(year))) {
			if class == "s-frame" || class == "s-months" {
				continue
			}
			for _, m := range line.FindAllStringSubmatch(d, -1) {
				from, to := num(m[1]), num(m[1])+num(m[2])
				if class == "s-nobody" { // slanted to the left by its height
					from, to = from-7.8, to-7.8
				}
				for i := range got {
					if from < float64(i)*10+9 && to > float64(i)*10+1 {
						got[i][class]++
					}
				}
			}
		}
		for i, h := range year {
			want := map[string]int{}
			switch h.Grade {
			case GradeMost:
				want["s-most"] = 1
			case GradeMany:
				want["s-one"], want["s-four"] = 1, 2
			case GradeSome:
				want["s-one"] = 1
			}
			switch h.Seen {
			case CellFound:
				want["s-found"] = 1
			case CellLooked:
				want["s-long"], want["s-side"] = 2, 1
			case CellUnlooked:
				want["s-nobody"] = 1
			}
			require.Equal(rt, want, got[i], "half-month %d", i)
		}
	})
}

func BenchmarkYear(b *testing.B) {
	y := sampleYear()
	b.ReportAllocs()
	for b.Loop() {
		y.SVG()
	}
}
