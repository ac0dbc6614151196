package colour

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// check reads a table of reference values without its heading.
func check(t *testing.T, name string) [][]string {
	f, err := os.Open(filepath.Join("..", "..", "testdata", "checks", name))
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 1)
	return rows[1:]
}

func number(t *testing.T, s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}

// All 34 pairs of Sharma, Wu & Dalal 2005, Color Res. Appl. 30:21–30, Table 1.
// The hues of pair 14 differ by exactly 180°.
func TestDifferencePublishedPairs(t *testing.T) {
	rows := check(t, "ciede2000.csv")
	require.Len(t, rows, 34)
	for _, r := range rows {
		p := Lab{number(t, r[1]), number(t, r[2]), number(t, r[3])}
		q := Lab{number(t, r[4]), number(t, r[5]), number(t, r[6])}
		assert.InDelta(t, number(t, r[7]), Difference(p, q), 1e-4, "pair %s", r[0])
		assert.InDelta(t, number(t, r[7]), Difference(q, p), 1e-4, "pair %s the other way", r[0])
	}
}

// Contrast ratios computed from the W3C's definition (WCAG 2.2, "contrast ratio").
func TestContrast(t *testing.T) {
	for _, r := range check(t, "contrast.csv") {
		fg, err := Parse(r[0][1:])
		require.NoError(t, err)
		bg, err := Parse(r[1][1:])
		require.NoError(t, err)
		assert.InDelta(t, number(t, r[2]), fg.Value.Luminance(), 1e-9, r[0])
		assert.InDelta(t, number(t, r[4]), Contrast(fg.Value, bg.Value), 1e-9, "%s on %s", r[0], r[1])
		assert.Equal(t, r[7] == "1", Contrast(bg.Value, fg.Value) >= 4.5, "%s on %s", r[0], r[1])
	}
}

// Values computed apart from this code, by the sRGB standard under D65 and the
// 2° observer, to two decimals.
var labs = []struct {
	name    string
	l, a, b float64
}{
	{"Dark Olive", 25.37, -3.59, 17.69},
	{"Moderate Olive", 39.15, -4.64, 36.09},
	{"Light Olive", 52.13, -6.74, 39.48},
	{"Grayish Olive", 37.11, -2.83, 13.23},
	{"Light Grayish Olive", 55.97, -3.56, 17.93},
	{"Dark Grayish Olive", 21.86, -2.41, 9.02},
	{"Olive Gray", 36.07, -0.99, 5.54},
	{"Light Olive Gray", 56.13, -1.98, 9.55},
	{"Olive Black", 14.08, -1.10, 4.86},
	{"Light Olive Brown", 49.93, 6.32, 50.86},
	{"Moderate Olive Brown", 37.16, 3.64, 34.20},
	{"Dark Olive Brown", 20.97, 1.72, 11.90},
	{"Moderate Olive Green", 36.75, -17.39, 30.32},
	{"Grayish Olive Green", 35.95, -6.23, 10.27},
	{"Moderate Yellow", 71.88, -0.39, 44.73},
	{"Dark Yellow", 61.07, 0.36, 43.69},
	{"Grayish Yellow", 72.81, -1.75, 27.68},
	{"Dark Grayish Yellow", 59.95, -0.18, 27.47},
	{"Pale Yellow", 90.80, -3.83, 30.07},
	{"Light Yellow", 88.78, -3.15, 50.02},
	{"Grayish Greenish Yellow", 72.79, -7.29, 29.11},
	{"Moderate Greenish Yellow", 72.01, -10.60, 46.49},
	{"Pale Greenish Yellow", 90.81, -9.23, 33.53},
	{"Moderate Yellow Green", 61.02, -16.28, 31.17},
	{"Moderate Yellowish Brown", 45.17, 6.53, 23.46},
	{"Dark Yellowish Brown", 24.46, 6.41, 16.81},
	{"Light Yellowish Brown", 66.15, 8.37, 30.15},
	{"Grayish Yellowish Brown", 47.12, 3.54, 13.09},
	{"Moderate Brown", 36.19, 10.87, 19.10},
	{"Dark Brown", 18.13, 12.17, 14.42},
	{"Light Brown", 55.10, 12.59, 24.01},
	{"Strong Brown", 36.08, 21.31, 35.41},
	{"Grayish Brown", 35.97, 5.77, 8.69},
	{"Dark Grayish Brown", 21.90, 4.28, 5.84},
	{"Brownish Black", 13.03, 3.03, 4.15},
	{"Moderate Reddish Brown", 35.04, 21.77, 15.36},
	{"Dark Reddish Brown", 15.47, 16.16, 6.60},
	{"Strong Reddish Brown", 32.20, 37.71, 34.09},
	{"Grayish Reddish Brown", 35.02, 10.62, 7.42},
	{"Brownish Orange", 51.14, 23.18, 38.57},
	{"Medium Gray", 55.09, -0.39, 1.08},
	{"Dark Gray", 36.15, -0.00, 0.00},
	{"Dark Bluish Gray", 37.00, -1.36, -4.40},
	{"Bluish Gray", 55.95, -1.38, -2.91},
	{"Light Gray", 74.78, -0.20, 1.64},
	{"Pinkish White", 90.72, 2.02, 1.82},
	{"Black", 13.23, -0.00, 0.00},
}

func TestLabOfNames(t *testing.T) {
	assert.Len(t, labs, len(named))
	for _, w := range labs {
		rgb, ok := Named(w.name)
		require.True(t, ok, w.name)
		got := rgb.Lab()
		assert.InDelta(t, w.l, got.L, 0.006, w.name)
		assert.InDelta(t, w.a, got.A, 0.006, w.name)
		assert.InDelta(t, w.b, got.B, 0.006, w.name)
	}
	white, black := RGB{255, 255, 255}.Lab(), RGB{}.Lab()
	for i, pair := range [][2]float64{{100, white.L}, {0, white.A}, {0, white.B}, {0, black.L}, {0, black.A}, {0, black.B}} {
		assert.InDelta(t, pair[0], pair[1], 1e-5, "%d", i)
	}
}

// Differences computed apart from this code from the same values, to two decimals.
func TestDifferenceOfNames(t *testing.T) {
	for pair, want := range map[[2]string]float64{
		{"Dark Olive", "Moderate Olive"}:                   13.78,
		{"Moderate Olive", "Light Olive"}:                  12.53,
		{"Moderate Olive", "Moderate Olive Brown"}:         6.61,
		{"Grayish Olive", "Olive Gray"}:                    5.73,
		{"Moderate Reddish Brown", "Strong Reddish Brown"}: 9.64,
		{"Dark Bluish Gray", "Dark Gray"}:                  4.44,
		{"Pale Yellow", "Pale Greenish Yellow"}:            3.94,
		{"Dark Grayish Brown", "Brownish Black"}:           6.27,
	} {
		p, _ := Named(pair[0])
		q, _ := Named(pair[1])
		assert.InDelta(t, want, Difference(p.Lab(), q.Lab()), 0.006, "%v", pair)
	}
}

func TestParse(t *testing.T) {
	olive := RGB{0x40, 0x3d, 0x21}
	for text, want := range map[string]Colour{
		"Dark Olive":       {"Dark Olive", olive, true},
		" dark  OLIVE ":    {"dark OLIVE", olive, true},
		"dark-olive":       {"dark-olive", olive, true},
		"Dark Bluish Grey": {"Dark Bluish Grey", RGB{0x51, 0x58, 0x5e}, true},
		"greyish brown":    {"greyish brown", RGB{0x63, 0x51, 0x47}, true},
		"403d21":           {"", olive, true},
		"403D21":           {"", olive, true},
		"123456":           {"", RGB{0x12, 0x34, 0x56}, true},
		"blue dun":         {"blue dun", RGB{}, false},
		"grey":             {"grey", RGB{}, false},
		"fade":             {"fade", RGB{}, false},
		"olive 2":          {"olive 2", RGB{}, false},
	} {
		c, err := Parse(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, c, text)
	}
	for text, want := range map[string]string{
		"#403d21": "write 403d21", "#40": "403d21", "": "Dark Olive", "403d2": "six hex digits", "403d211": "six hex digits", "40a": "six hex digits", "0x403d21": "six hex digits", "12": "six hex digits",
	} {
		_, err := Parse(text)
		var e *Error
		require.ErrorAs(t, err, &e, text)
		assert.Equal(t, text, e.Found)
		assert.Contains(t, e.Want, want, text)
	}
	c, _ := Parse("403D21")
	assert.Equal(t, "403d21", c.String())
	assert.False(t, c.IsZero())
	assert.True(t, Colour{}.IsZero())
}

// Words of the writer's own stay: none of them is a slip for a name of the table.
func TestMisspelt(t *testing.T) {
	for words, want := range map[string]string{"Drak Olive": "Dark Olive", "dark oliev": "Dark Olive", "Moderate Olve": "Moderate Olive", "Greyish Olivee": "Grayish Olive",
		"light-olive browm": "Light Olive Brown", "Dark Olive": "", "dark grey": "", "pale brown": "", "pale olive": "", "dusk olive": "", "blue dun": "", "rust": "", "tan": "",
		"bright olive": "", "ginger": "", "medium olive": "", "olive": "", "wine": "", "": ""} {
		assert.Equal(t, want, Misspelt(Colour{Words: words, HasValue: words == "Dark Olive"}), words)
	}
	for _, x := range named {
		n := x.name
		for i := range len(n) - 4 {
			c, err := Parse(n[:i] + n[i+1:])
			require.NoError(t, err)
			if near := Misspelt(c); near != "" {
				_, ok := Named(near)
				assert.True(t, ok, near)
			}
		}
	}
}

func TestDifferenceProperties(t *testing.T) {
	byteOf := rapid.Uint8()
	rapid.Check(t, func(t *rapid.T) {
		p := RGB{byteOf.Draw(t, "r"), byteOf.Draw(t, "g"), byteOf.Draw(t, "b")}
		q := RGB{byteOf.Draw(t, "r"), byteOf.Draw(t, "g"), byteOf.Draw(t, "b")}
		there, back := Difference(p.Lab(), q.Lab()), Difference(q.Lab(), p.Lab())
		switch {
		case math.IsNaN(there) || there < 0 || math.Abs(there-back) > 1e-9:
			t.Fatalf("%v %v: %v, %v", p, q, there, back)
		case p == q && there != 0, p != q && there < 1e-3:
			t.Fatalf("%v %v: %v", p, q, there)
		}
		if c, err := Parse(p.Hex()); err != nil || c.Value != p {
			t.Fatalf("%s: %v, %v", p.Hex(), c, err)
		}
		if r := Contrast(p, q); r < 1 || r > 21+1e-9 || r != Contrast(q, p) {
			t.Fatalf("contrast of %v and %v: %v", p, q, r)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"Dark Olive", "403d21", "#403d21", "0x1", "grey", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		c, err := Parse(s)
		var e *Error
		switch {
		case err != nil:
			if !errors.As(err, &e) || e.Found != s || e.Want == "" {
				t.Fatalf("%q: an incomplete refusal: %v", s, err)
			}
		case c.IsZero() || c.String() == "":
			t.Fatalf("%q gave nothing", s)
		}
	})
}
