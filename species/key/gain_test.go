package key

import (
	"encoding/csv"
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rows reads a check table as one map a row.
func rows(t testing.TB, path string) (head []string, out []map[string]string) {
	t.Helper()
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	for _, r := range all[1:] {
		row := map[string]string{}
		for i, cell := range r {
			row[all[0][i]] = cell
		}
		out = append(out, row)
	}
	return all[0], out
}

// Quinlan 1986, Machine Learning 1:81–106, the table of Saturday mornings and
// its gains (0.247, 0.152, 0.048, 0.029), here to 12 digits.
func TestGainOfQuinlansExample(t *testing.T) {
	_, days := rows(t, "../../testdata/checks/keys/playtennis.csv")
	_, want := rows(t, "../../testdata/checks/keys/gains.csv")
	nodes := map[string]func(day map[string]string) bool{
		"root":          func(map[string]string) bool { return true },
		"outlook=sunny": func(d map[string]string) bool { return d["outlook"] == "sunny" },
		"outlook=rain":  func(d map[string]string) bool { return d["outlook"] == "rain" },
	}
	require.Len(t, want, 10)
	for _, w := range want {
		var names []string
		var branches [][]float64
		for _, d := range days {
			if !nodes[w["node"]](d) {
				continue
			}
			b := slices.Index(names, d[w["character"]])
			if b < 0 {
				b = len(names)
				names, branches = append(names, d[w["character"]]), append(branches, make([]float64, 2))
			}
			branches[b][map[string]int{"no": 0, "yes": 1}[d["play"]]]++
		}
		gain, err := strconv.ParseFloat(w["info_gain_bits"], 64)
		require.NoError(t, err)
		assert.InDelta(t, gain, gainOf(branches), 1e-9, "%s %s", w["node"], w["character"])
	}
}

func TestGainAtTheEdges(t *testing.T) {
	assert.Zero(t, gainOf(nil))
	assert.Zero(t, gainOf([][]float64{{0, 0}, {0}}))
	assert.InDelta(t, 1, gainOf([][]float64{{1, 0}, {0, 1}}), 1e-12)
	assert.InDelta(t, 0, gainOf([][]float64{{1, 1}, {2, 2}}), 1e-12)
	// Rows may be of different lengths: what is missing is 0.
	assert.InDelta(t, 1, gainOf([][]float64{{1}, {0, 1}}), 1e-12)
}

// gainOf is what a couplet gains, by the entropy that it is reckoned with: one row a branch, one column a class.
func gainOf(branches [][]float64) float64 {
	var all []float64
	for _, b := range branches {
		for c, w := range b {
			if c == len(all) {
				all = append(all, 0)
			}
			all[c] += w
		}
	}
	before, total := entropy(all)
	if total == 0 {
		return 0
	}
	var after float64
	for _, b := range branches {
		h, w := entropy(b)
		after += w / total * h
	}
	return before - after
}
