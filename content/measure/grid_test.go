package measure

import (
	"encoding/csv"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// metresApart is the distance of two places near each other.
func metresApart(c Coordinates, lat, lon float64) float64 {
	const degree = 111195 // metres of a degree of latitude on the mean sphere
	return math.Hypot((c.Latitude.Degrees-lat)*degree, (c.Longitude.Degrees-lon)*degree*math.Cos(lat*math.Pi/180))
}

// Check points, all as remembered, not looked up: Caister water tower (Ordnance Survey, OSTN15 test data: ETRS89
// 52°39′28.8282″ N 1°42′57.8663″ E is E 651409.804, N 313177.450, square TG); the Spire of Dublin, O 15904 34671 at
// 53°20′59″ N 6°15′37″ W (a public encyclopaedia's example of the Irish grid); of the military grid 0° N 0° E in
// 31NAA 66021 00000, and two of the points that its open-source libraries test with: 48.24949 N 16.41450 E in
// 33UXP 05004 44998 and 83.62738 N 32.66879 W in 24XWT 783 908.
func TestGridReferencesOfKnownPoints(t *testing.T) {
	dms := func(d, m, s float64) float64 { return d + m/60 + s/3600 }
	for ref, want := range map[string]struct{ lat, lon, within float64 }{
		"TG 51409 13177":     {dms(52, 39, 28.8282), dms(1, 42, 57.8663), 5},
		"tg5140913177":       {dms(52, 39, 28.8282), dms(1, 42, 57.8663), 5},
		"O 15904 34671":      {dms(53, 20, 59), -dms(6, 15, 37), 25},
		"31NAA 66021 00000":  {0, 0, 2},
		"33U XP 05004 44998": {48.24949, 16.41450, 2},
		"24XWT 783 908":      {83.62738, -32.66879, 75},
	} {
		c, err := ParseCoordinates(ref)
		require.NoError(t, err, ref)
		if ref == "tg5140913177" {
			assert.Equal(t, "TG 51409 13177", c.Grid)
		} else if ref == "24XWT 783 908" {
			assert.Equal(t, "24X WT 783 908", c.Grid)
		}
		assert.Less(t, metresApart(c, want.lat, want.lon), want.within, "%s is %v", ref, c)
	}
}

// A reference is a square: its middle, and how far that may be off; five metres more for the shift of a national datum.
func TestAGridReferenceIsASquare(t *testing.T) {
	for ref, want := range map[string]struct {
		off    float64
		digits int
	}{
		"TG":               {math.Ceil(50000*math.Sqrt2 + 5), 1},
		"TG 51":            {math.Ceil(5000*math.Sqrt2 + 5), 2},
		"TG 5113":          {math.Ceil(500*math.Sqrt2 + 5), 3},
		"TG 514 131":       {76, 4},
		"TG 5140 1317":     {13, 5},
		"O 15 34":          {math.Ceil(500*math.Sqrt2 + 5), 3},
		"33UXP 050 449":    {71, 4},
		"33UXP 0500444998": {1, 6},
	} {
		c, err := ParseCoordinates(ref)
		require.NoError(t, err, ref)
		assert.Equal(t, want.off, c.Off, ref)
		assert.Equal(t, want.digits, c.Latitude.Digits, ref)
		assert.Equal(t, want.digits, c.Longitude.Digits, ref)
	}
	// The middle of a square is that of the four within it.
	whole, err := ParseCoordinates("SK 12 34")
	require.NoError(t, err)
	within, err := ParseCoordinates("SK 125 345")
	require.NoError(t, err)
	assert.InDelta(t, 50*math.Sqrt2, metresApart(whole, within.Latitude.Degrees, within.Longitude.Degrees), 0.5)
	plain, err := ParseCoordinates("55.2 N, 4.8 W")
	require.NoError(t, err)
	assert.Zero(t, plain.Off)
}

func TestGridReferencesRefused(t *testing.T) {
	for ref, reason := range map[string]string{
		"TG 514 13":                       "has not as many figures for north as for east",
		"O 159 3467":                      "has not as many figures for north as for east",
		"TG 514 13177":                    "has not as many figures for north as for east",
		"O 15 3467":                       "has not as many figures for north as for east",
		"TG 514 131 (52.75 N, 1.71 E)":    "gives two places, 10271 m apart",
		"TG 514 131 (TG 514 131)":         "isn't a place on the map",
		"52.65 N, 1.71 E (52.6 N, 1.7 E)": "isn't a place on the map",
		"TG 514 131 (52.75 S, 1.71)":      "isn't a place on the map: give both letters, or none",
		"TG 514099 131773":                "is finer than a metre",
		"HA 12 34":                        "lies outside the grid",
		"61U XP 050 449":                  "names a zone that the military grid doesn't have",
		"0U XP 050 449":                   "names a zone that the military grid doesn't have",
		"33U AP 050 449":                  "lies outside the grid",
		"TG 514 13A":                      "isn't a place on the map",
		"IG 514 131":                      "isn't a place on the map",
	} {
		_, err := ParseCoordinates(ref)
		var e *Error
		require.ErrorAs(t, err, &e, ref)
		assert.Equal(t, reason, e.Reason, ref)
		assert.NotEmpty(t, e.Want, ref)
	}
}

func TestCoordinatesBesideASquareLieInIt(t *testing.T) {
	for _, s := range []string{"TG 514 131 (52.658 N, 1.716 E)", "TG 514 131 (52.6573, 1.7163)", "TG 51 13(52.66 N, 1.71 E)"} {
		c, err := ParseCoordinates(s)
		require.NoError(t, err, s)
		assert.NotEmpty(t, c.Grid)
		assert.Positive(t, c.Off)
	}
}

// Squares of a metre all over the grids, against a general library: testdata/checks/grid_references.csv.
func TestGridReferencesAgreeWithAnotherLibrary(t *testing.T) {
	f, err := os.Open("../../testdata/checks/grid_references.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 10)
	for _, r := range rows[1:] {
		c, err := ParseCoordinates(r[0])
		require.NoError(t, err, r[0])
		lat, _, err := ParseNumber(r[1])
		require.NoError(t, err)
		lon, _, err := ParseNumber(r[2])
		require.NoError(t, err)
		assert.Less(t, metresApart(c, lat, lon), 0.75, "%s is %v", r[0], c) // a square of the military grid is its middle here, maybe its corner there
	}
}
