package season

// The kernels held against tables from outside the project. Each file's source
// stands beside its test.

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content/calendar"
)

// table reads a check file into rows by column name.
func table(t *testing.T, name string) []row {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "checks", name))
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord = -1
	lines, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 1)
	var out []row
	for _, l := range lines[1:] {
		m := row{}
		for i, h := range lines[0] {
			if i < len(l) {
				m[h] = l[i]
			}
		}
		out = append(out, m)
	}
	return out
}

type row map[string]string

func (r row) num(t *testing.T, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(r[column], 64)
	require.NoError(t, err, column)
	return v
}

func TestBetaQuantiles(t *testing.T) {
	// R 4.2.2 qbeta; scipy 1.10.1 agrees.
	for _, r := range table(t, "beta_quantiles.csv") {
		a, b := r.num(t, "a"), r.num(t, "b")
		for column, p := range map[string]float64{"q02.5": 0.025, "q10": 0.1, "q50": 0.5, "q90": 0.9, "q97.5": 0.975} {
			assert.InDelta(t, r.num(t, column), BetaQuantile(p, a, b), 1e-9, "%v of Beta(%v, %v)", p, a, b)
		}
	}
}

func TestBetaQuantileAtItsEdges(t *testing.T) {
	assert.Equal(t, 0.0, BetaQuantile(0, 2, 3))
	assert.Equal(t, 1.0, BetaQuantile(1, 2, 3))
	for _, bad := range [][3]float64{{0.1, 0, 1}, {0.1, 1, 0}, {0.1, -1, 1}, {-0.1, 1, 1}, {1.1, 1, 1}, {math.NaN(), 1, 1}, {0.1, math.Inf(1), 1}} {
		assert.True(t, math.IsNaN(BetaQuantile(bad[0], bad[1], bad[2])), "%v", bad)
	}
	// A fly hardly expected: the range is nothing to hardly anything.
	for _, c := range []float64{1e-300, 1e-60, 1e-20, 1e-9, 1e-6} {
		low, high := spread(c, 3, 0)
		assert.True(t, low >= 0 && low <= c && high >= c && high < 1e-5, "%v: %v to %v", c, low, high)
	}
	low, high := spread(1-1e-12, 3, 0)
	assert.True(t, low <= 1-1e-12 && high <= 1 && low > 0.999)
}

func TestHarmonicFit(t *testing.T) {
	// R 4.2.2 lm on twelve monthly means; numpy agrees.
	inputs := map[string][]Reading{}
	for _, r := range table(t, "harmonic_inputs.csv") {
		m := int(r.num(t, "month"))
		require.Equal(t, r.num(t, "d"), calendar.MidMonth(monthOf(m)))
		inputs[r["series"]] = append(inputs[r["series"]], Reading{r.num(t, "d"), r.num(t, "T")})
	}
	for _, r := range table(t, "harmonic.csv") {
		f, ok := FitWave(inputs[r["series"]])
		require.True(t, ok)
		assert.InDelta(t, r.num(t, "m"), f.M, 1e-9)
		assert.InDelta(t, r.num(t, "a"), f.A, 1e-9)
		assert.InDelta(t, r.num(t, "b"), f.B, 1e-9)
		assert.InDelta(t, r.num(t, "rss"), f.RSS, 1e-9)
		assert.InDelta(t, r.num(t, "sigma"), f.Residual, 1e-9)
		assert.InDelta(t, r.num(t, "amplitude"), f.Amplitude(), 1e-9)
		assert.InDelta(t, r.num(t, "day_of_max"), f.Warmest(), 1e-7)
	}
}

func TestDegreeDaysOfFittedCurves(t *testing.T) {
	// R 4.2.2, sums of the curves above; the day's range lies evenly about its mean.
	waves, ranges := map[string]Wave{}, map[string]float64{}
	for _, r := range table(t, "harmonic.csv") {
		waves[r["series"]] = Wave{r.num(t, "m"), r.num(t, "a"), r.num(t, "b")}
		ranges[r["series"]] = r.num(t, "diurnal_range")
	}
	for _, r := range table(t, "degree_days.csv") {
		w, half, base := waves[r["series"]], ranges[r["series"]]/2, r.num(t, "base")
		sums := map[int]float64{}
		var sum float64
		for d := 1; d <= 365; d++ {
			mean := w.At(float64(d))
			if r["method"] == "daily_mean" {
				sum += DegreeDaysMean(mean, base)
			} else {
				sum += DegreeDaysSine(mean-half, mean+half, base)
			}
			sums[d] = sum
		}
		for column, day := range map[string]int{"year_total": 365, "jan_jun": 181, "at_doy100": 100, "at_doy152": 152} {
			assert.InDelta(t, r.num(t, column), sums[day], 1e-6, "%v %s", r, column)
		}
	}
}

func TestDegreeDaysOfSingleDays(t *testing.T) {
	// R 4.2.2, checked by numerical integration.
	for _, r := range table(t, "degree_day_single_days.csv") {
		low, high, base := r.num(t, "tmin"), r.num(t, "tmax"), r.num(t, "base")
		assert.InDelta(t, r.num(t, "single_sine"), DegreeDaysSine(low, high, base), 1e-9)
		assert.InDelta(t, r.num(t, "average"), DegreeDaysMean((low+high)/2, base), 1e-9)
	}
}

func TestDegreeDaysMcMaster(t *testing.T) {
	// McMaster & Wilhelm 1997, Agric. For. Meteorol. 87:291–300, Table 1. Their
	// method 1 is ours; method 2 lifts the day's extremes to the base first.
	for _, r := range table(t, "mcmaster1997_table1.csv") {
		low, high := r.num(t, "tmin_C"), r.num(t, "tmax_C")
		assert.Equal(t, r.num(t, "method1"), DegreeDaysMean((low+high)/2, 0), "%v", r)
		assert.Equal(t, r.num(t, "method2"), DegreeDaysMean((max(low, 0)+max(high, 0))/2, 0), "%v", r)
	}
}

func TestDegreeDaysZalom(t *testing.T) {
	// Zalom et al. 1983, UC Leaflet 21373, Table 7: °F, thresholds 55 and 90,
	// horizontal cut-off. A double method takes half a day down to the next
	// morning's lowest. Every column is integrated anew here, so that a misprint
	// is known for one: the double triangle of 60, 100, 75 is printed as 24.88
	// and must be 27.125.
	misprints := 0
	for _, r := range table(t, "zalom1983_table7.csv") {
		low, high, next := r.num(t, "tmin_F"), r.num(t, "tmax_F"), r.num(t, "next_tmin_F")
		assert.InDelta(t, r.num(t, "single_sine"), sineBetween(low, high, 55, 90), 0.0101, "%v", r)
		assert.InDelta(t, r.num(t, "double_sine"),
			(sineBetween(low, high, 55, 90)+sineBetween(next, high, 55, 90))/2, 0.0101, "%v", r)
		single := triangle(low, high)
		double := (single + triangle(next, high)) / 2
		assert.InDelta(t, r.num(t, "single_triangle"), single, 0.0101, "%v", r)
		if math.Abs(r.num(t, "double_triangle")-double) > 0.0101 {
			misprints++
			assert.Equal(t, []float64{60, 100, 75}, []float64{low, high, next})
			assert.InDelta(t, 24.88, r.num(t, "double_triangle"), 1e-9)
			assert.InDelta(t, 27.125, double, 1e-3)
		}
	}
	assert.Equal(t, 1, misprints)
}

// triangle integrates a day that rises and falls in straight lines.
func triangle(low, high float64) float64 {
	const n = 200000
	var sum float64
	for i := range n {
		x := low + (high-low)*(float64(i)+0.5)/n
		sum += max(0, min(x, 90)-55) / n
	}
	return sum
}

func TestDegreeDaysByIntegration(t *testing.T) {
	for _, day := range [][4]float64{{2, 12, 5, 9}, {-3, 30, 5, 25}, {4, 6, 5, 5.5}, {10, 20, 5, 30}, {0, 4, 5, 30}, {31, 40, 5, 30}, {7, 7, 5, 30}} {
		const n = 200000
		var want float64
		for i := range n {
			x := (day[0]+day[1])/2 + (day[1]-day[0])/2*math.Sin(2*math.Pi*(float64(i)+0.5)/n)
			want += max(0, min(x, day[3])-day[2]) / n
		}
		assert.InDelta(t, want, sineBetween(day[0], day[1], day[2], day[3]), 1e-6, "%v", day)
	}
	assert.True(t, math.IsNaN(DegreeDaysSine(5, 4, 0)), "the lowest above the highest isn't a day")
}

// sineBetween is the single-sine method with an upper threshold and a
// horizontal cut-off: what lies above it counts as if it lay on it.
func sineBetween(lowest, highest, base, upper float64) float64 {
	return DegreeDaysSine(lowest, highest, base) - DegreeDaysSine(lowest, highest, upper)
}
