package share

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"io"
	"math"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"guidegen/build/figures"
	"guidegen/content/calendar"
	"guidegen/content/demo"
)

func TestNumbers(t *testing.T) {
	for want, v := range map[string]float64{"0": math.Copysign(0, -1), "0.1": 0.1, "0.333333333": 1.0 / 3, "0.000000123": 1.23e-7,
		"-12.5": -12.5, "123456789012": 123456789012, "0.000000001": 0.6e-9} {
		b, err := json.Marshal(number(v))
		require.NoError(t, err)
		assert.Equal(t, want, string(b))
	}
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := json.Marshal(number(v))
		assert.Error(t, err)
		_, err = json.Marshal(curve{3: v})
		assert.Error(t, err)
	}
}

// RFC 8259 allows exponents, the guide's data files don't: read back, a number
// is within 1e-9 of what was written.
func TestNumbersReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e6, 1e6).Draw(t, "v")
		b, err := json.Marshal(number(v))
		require.NoError(t, err)
		require.Regexp(t, `^-?[0-9]+(\.[0-9]{1,9})?$`, string(b))
		var back float64
		require.NoError(t, json.Unmarshal(b, &back))
		require.InDelta(t, v, back, 1e-9)

		b, err = json.Marshal(curve{7: v})
		require.NoError(t, err)
		var days [calendar.Year]float64
		require.NoError(t, json.Unmarshal(b, &days))
		require.InDelta(t, v, days[7], 5.02e-7)
		require.Regexp(t, `^[[](0,){7}-?[0-9]+(\.[0-9]{1,6})?,`, string(b), "a day to 1e-6")
	})
}

func decoded(t *testing.T, b []byte) map[string]any {
	t.Helper()
	var out map[string]any
	require.NoError(t, json.Unmarshal(b, &out))
	return out
}

// at walks decoded JSON by keys and indexes. A key that is left out is nil, and as a list empty.
func at(t *testing.T, v any, path ...any) any {
	t.Helper()
	for _, p := range path {
		switch k := p.(type) {
		case string:
			if v == nil {
				return nil
			}
			m, ok := v.(map[string]any)
			require.True(t, ok, "%v: no object", p)
			v = m[k]
		case int:
			v = v.([]any)[k]
		}
	}
	return v
}

// listed is a list that may have been left out.
func listed(v any) []any {
	l, _ := v.([]any)
	return l
}

// The files are read with no knowledge of how they are written and held
// against the figures, and against what must hold among them.
func TestRiverDataAgreesWithTheFigures(t *testing.T) {
	book := demoBook(t, false)
	files := filesOf(t, book, nil)
	for _, w := range book.Waters {
		r := decoded(t, fileNamed(t, files, RiverData(w)))
		assert.Equal(t, w.Name.S, r["name"])
		assert.InDelta(t, w.Warmth.M, at(t, r, "temperature", "M"), 1e-6)
		assert.InDelta(t, w.Warmth.A, at(t, r, "temperature", "a"), 1e-6)
		assert.InDelta(t, w.Warmth.B, at(t, r, "temperature", "b"), 1e-6)
		assert.Len(t, r["flies"], len(w.Rows))
		visits := 0
		for _, c := range r["coverage"].(map[string]any)["cells"].([]any) {
			for _, y := range listed(at(t, c, "years")) {
				visits += int(at(t, y, "visits").(float64))
			}
		}
		assert.EqualValues(t, w.Visits, visits, "every visit of the demo has a day")
		for _, row := range w.Rows {
			f := at(t, r, "flies", row.Fly.Address)
			days, account := listed(at(t, f, "days")), listed(at(t, f, "account"))
			require.Len(t, days, calendar.Year)
			for d := range calendar.Year {
				assert.LessOrEqual(t, math.Abs(row.Chance[d]-days[d].(float64)), 1e-6)
				assert.LessOrEqual(t, math.Abs(row.Account[d]-account[d].(float64)), 1e-4)
			}
			looked, found := 0.0, 0.0
			for i := range 12 {
				m := at(t, f, "months", i)
				var sum float64
				first, last := calendar.FirstOf(monthNumber(i)), calendar.LastOf(monthNumber(i))
				for d := first; d <= last; d++ {
					sum += at(t, f, "days", int(d)-1).(float64)
				}
				assert.InDelta(t, sum/float64(last-first+1), at(t, m, "chance"), 1e-6, "a month is the mean of its days")
				assert.InDelta(t, 1, at(t, m, "basis", "own").(float64)+at(t, m, "basis", "lent").(float64)+at(t, m, "basis", "account").(float64), 2e-6)
				assert.LessOrEqual(t, at(t, m, "low"), at(t, m, "chance"))
				assert.GreaterOrEqual(t, at(t, m, "high"), at(t, m, "chance"))
				assert.Equal(t, at(t, m, "looked").(float64) == 0, at(t, m, "state") != "visited")
				looked, found = looked+at(t, m, "looked").(float64), found+at(t, m, "found").(float64)
			}
			assert.EqualValues(t, at(t, f, "looked"), looked)
			assert.EqualValues(t, at(t, f, "found"), found)
			cells := map[any]any{}
			for _, c := range listed(at(t, f, "cells")) {
				cells[at(t, c, "cell")] = c
				if at(t, c, "state") == "looked" {
					assert.Positive(t, at(t, c, "looked"))
					assert.Zero(t, at(t, c, "found"))
				}
			}
			for i, c := range row.Cells {
				said := cells[calendar.Cell(i).String()]
				if c.State == figures.CellUnlooked {
					assert.Nil(t, said, "nobody looked")
					continue
				}
				assert.EqualValues(t, c.State, at(t, said, "state"))
				assert.EqualValues(t, c.Looked, at(t, said, "looked"))
				assert.EqualValues(t, c.Found, at(t, said, "found"))
			}
			next := 1.0
			for _, x := range listed(at(t, f, "runs")) {
				assert.Equal(t, next, at(t, x, "from"))
				next = at(t, x, "to").(float64) + 1
			}
			assert.Equal(t, 366.0, next, "the runs fill the year")
			checkFlights(t, row, listed(at(t, f, "flights")))
			checkDressings(t, listed(at(t, f, "dressings")))
		}
	}
}

func checkFlights(t *testing.T, row *figures.Row, l []any) {
	t.Helper()
	require.Len(t, l, len(row.Flights))
	for i, x := range l {
		f := row.Flights[i]
		assert.EqualValues(t, f.Peak, at(t, x, "peak", "day"))
		// the rules on figures, section 4: from, peak and to move alike
		if f.Rule != "own dates" {
			assert.EqualValues(t, f.Shift, calendar.Gap(f.Account[1], calendar.Day(at(t, x, "peak", "day").(float64))))
		}
		p10, p50, p90 := at(t, x, "records", "p10"), at(t, x, "records", "p50"), at(t, x, "records", "p90")
		assert.Equal(t, f.Dates.P50 == 0, p50 == nil)
		assert.Equal(t, p10 == nil, p90 == nil)
		assert.Equal(t, f.Dates.First.IsZero(), at(t, x, "records", "first_seen") == nil)
		for _, s := range listed(at(t, x, "sizes")) {
			assert.Equal(t, at(t, s, "n").(float64) == 0, at(t, s, "median") == nil, "no median without a fly measured")
			assert.Equal(t, f.Name, at(t, s, "flight"))
		}
	}
}

func checkDressings(t *testing.T, l []any) {
	t.Helper()
	for _, d := range l {
		for _, o := range listed(at(t, d, "offered")) {
			assert.NotEmpty(t, at(t, o, "dressing"))
			points, weights := 0.0, 0.0
			for _, p := range at(t, o, "parts").(map[string]any) {
				if p == nil {
					continue
				}
				assert.InDelta(t, 100*at(t, p, "value").(float64)*at(t, p, "weight").(float64), at(t, p, "points"), 1e-6)
				points, weights = points+at(t, p, "points").(float64), weights+at(t, p, "weight").(float64)
			}
			assert.InDelta(t, at(t, o, "score"), points, 1e-6, "the parts' points sum to the score")
			assert.InDelta(t, 1, weights, 1e-6)
		}
		for _, r := range listed(at(t, d, "ruled_out")) {
			assert.NotEmpty(t, at(t, r, "reasons"))
		}
	}
}

func TestGuideData(t *testing.T) {
	book := demoBook(t, false)
	files := filesOf(t, book, nil)
	g := decoded(t, fileNamed(t, files, GuideData))
	assert.Equal(t, "2026-11-24", g["built"])
	assert.Equal(t, "public", g["edition"])
	assert.Len(t, g["constants"], len(book.Edition.Constants.List()))
	thin := 0
	for _, c := range g["constants"].([]any) {
		if at(t, c, "key") == "thin_visits" { // the demo's guide.yaml sets 4
			thin++
			assert.Equal(t, 4.0, at(t, c, "value"))
			assert.Equal(t, 3.0, at(t, c, "default"))
		}
	}
	assert.Equal(t, 1, thin)
	for _, w := range g["waters"].([]any) {
		fileNamed(t, files, "data/"+at(t, w, "data").(string))
	}
	arrived := map[string]bool{}
	next := func(l any) {
		for _, f := range listed(at(t, l, "flies")) {
			arrived[f.(string)] = true
		}
	}
	next(at(t, g, "key", "start"))
	for _, c := range listed(at(t, g, "key", "couplets")) {
		next(at(t, c, "leads", 0))
		next(at(t, c, "leads", 1))
	}
	assert.Len(t, arrived, len(book.Flies), "the key leads to every fly")
}

// What doesn't differ by water stands once, in guide.json: two look-alikes' comparison, and the lengths and hooks of
// stages that nobody measured on the water.
func TestWhatWatersShareStandsOnce(t *testing.T) {
	book := demoBook(t, false)
	files := filesOf(t, book, nil)
	g := decoded(t, fileNamed(t, files, GuideData))
	pairs := map[[2]any]bool{}
	for _, p := range listed(g["lookalikes"]) {
		two := [2]any{at(t, p, "fly"), at(t, p, "other")}
		assert.False(t, pairs[two], two)
		pairs[two], pairs[[2]any{two[1], two[0]}] = true, true
		assert.NotEmpty(t, at(t, p, "verdict"))
	}
	hooks := map[[4]any]any{}
	for _, f := range listed(g["flies"]) {
		for _, s := range listed(at(t, f, "sizes")) {
			hooks[[4]any{at(t, f, "address"), at(t, s, "stage"), at(t, s, "sex"), at(t, s, "flight")}] = at(t, s, "hook", "length")
		}
	}
	alike, sizes := 0, 0
	for _, w := range book.Waters {
		r := decoded(t, fileNamed(t, files, RiverData(w)))
		for _, row := range w.Rows {
			f := at(t, r, "flies", row.Fly.Address)
			for _, a := range listed(at(t, f, "lookalikes")) {
				assert.True(t, pairs[[2]any{row.Fly.Address, at(t, a, "fly")}], "%s and %v", row.Fly.Address, a)
				alike++
			}
			own := listed(at(t, f, "sizes_outside_flights"))
			for _, x := range listed(at(t, f, "flights")) {
				own = append(own, listed(at(t, x, "sizes"))...)
			}
			for _, s := range row.Sizes {
				key := [4]any{row.Fly.Address, string(s.Stage), nil, nil}
				if s.Sex != "" {
					key[2] = string(s.Sex)
				}
				if s.Flight != "" {
					key[3] = s.Flight
				}
				i := slices.IndexFunc(own, func(o any) bool { return [4]any{key[0], at(t, o, "stage"), at(t, o, "sex"), at(t, o, "flight")} == key })
				hook := hooks[key]
				if i >= 0 {
					assert.EqualValues(t, s.N, at(t, own[i], "n"))
					hook = at(t, own[i], "hook", "length")
				} else {
					assert.Zero(t, s.N)
					sizes++
				}
				if s.Hook.Length > 0 {
					assert.InDelta(t, s.Hook.Length, hook, 1e-6, key)
				}
			}
		}
	}
	assert.Positive(t, alike)
	assert.Positive(t, sizes)
}

func TestNothingKnownIsLeftOut(t *testing.T) {
	r := decoded(t, fileNamed(t, filesOf(t, smallBook(t, nil), nil), "data/rivers/orua.json"))
	assert.Nil(t, r["temperature"])
	assert.Nil(t, r["altitude"])
	assert.Nil(t, r["spot_readings"])
	assert.Equal(t, 168.7, r["longitude"])
	for i := range 12 {
		assert.Nil(t, at(t, r, "monthly_temperature", i))
	}
	f := at(t, r, "flies", "little-fly", "flights", 0)
	assert.Equal(t, "11-20", at(t, f, "from", "date"))
	assert.Equal(t, "02-10", at(t, f, "to", "date"))
	assert.Nil(t, at(t, f, "records", "p50"))
	assert.Equal(t, "2025-12-21", at(t, f, "records", "first_seen"))
	assert.Nil(t, at(t, r, "rightness", "brier"))
	assert.Nil(t, at(t, r, "rightness", "tell"))
	// the find of K-4 lies outside its visit's scope: it marks its cell and is no visit
	cells := at(t, r, "flies", "little-fly", "cells").([]any)
	i := slices.IndexFunc(cells, func(c any) bool { return at(t, c, "cell") == "02a" })
	assert.Equal(t, "found", at(t, cells[i], "state"))
	assert.Zero(t, at(t, cells[i], "looked"))
	// the withheld tarn lends, and has no name
	lent := at(t, r, "flies", "little-fly", "months", 11, "lenders", 0)
	assert.Nil(t, at(t, lent, "water"))
	assert.Equal(t, 1.0, at(t, lent, "visits"))
}

// secrets stand in the small guide and must stand in no file of its public edition.
var secrets = []string{"Nobody's Tarn", "secret-water", "char", "Unspoken", "hidden-fly", "versicolor", "Quiet bend", "Whispered", "Wilhelmina", "W. Q.",
	"rowed out", "behind the shed", "tarn", "sounded", "K-1", "Tess Ambrook"}

func TestPublicEditionHoldsNothingWithheld(t *testing.T) {
	words := func(members bool) map[string]string {
		out := map[string]string{}
		for _, f := range filesOf(t, bookOf(t, small(), members), nil) {
			if strings.HasSuffix(f.Path, ".schema.json") {
				continue
			}
			if f.Path == Archive {
				for name, s := range unzipped(t, f.Bytes) {
					out[f.Path+"!"+name] = s
				}
				continue
			}
			out[f.Path] = string(f.Bytes)
		}
		return out
	}
	everything := ""
	for path, s := range words(true) {
		everything += path + s
	}
	for path, s := range words(false) {
		for _, x := range secrets {
			assert.NotRegexp(t, `(?i)\b`+regexp.QuoteMeta(x)+`\b`, path+" "+s, path)
		}
	}
	for _, x := range []string{"Nobody's Tarn", "Unspoken", "Quiet bend", "Whispered", "rowed out", "K-1"} {
		assert.Contains(t, everything, x, "members may read it")
	}
	assert.NotContains(t, everything, "Wilhelmina", "who wants no name has none in either edition")
	assert.NotContains(t, everything, "Tess Ambrook")
	assert.Contains(t, everything, "T. A.")
}

func unzipped(t *testing.T, b []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	require.NoError(t, err)
	out := map[string]string{}
	for _, f := range z.File {
		r, err := f.Open()
		require.NoError(t, err)
		s, err := io.ReadAll(r)
		require.NoError(t, err)
		out[f.Name] = string(s)
	}
	return out
}

func TestSameGuideSameBytes(t *testing.T) {
	a := filesOf(t, bookOf(t, demo.FS, false), nil)
	old := runtime.GOMAXPROCS(1)
	b := filesOf(t, bookOf(t, demo.FS, false), nil)
	runtime.GOMAXPROCS(old)
	require.Equal(t, len(a), len(b))
	for i := range a {
		assert.Equal(t, a[i].Path, b[i].Path)
		assert.True(t, bytes.Equal(a[i].Bytes, b[i].Bytes), a[i].Path)
	}
}

func monthNumber(i int) time.Month { return time.Month(i + 1) }
