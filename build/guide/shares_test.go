package guide

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The body's share of the length overall lies within what published bodies and fore wings give, each
// named in the last column. Overall is the fore wing with head and prothorax, 0.18 to 0.2 of the body
// (from memory). For sedges there is common practice only, no source.
func TestSharesOfTheLengthOverall(t *testing.T) {
	file, err := os.Open("../../testdata/checks/body_share.csv")
	require.NoError(t, err)
	defer file.Close()
	in := csv.NewReader(file)
	in.Comment = '#'
	rows, err := in.ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"group", "species", "body_low", "body_high", "forewing_low", "forewing_high", "source"}, rows[0])

	least, most := map[string]float64{}, map[string]float64{}
	for _, row := range rows[1:] {
		var mm [4]float64
		for i := range mm {
			mm[i], err = strconv.ParseFloat(row[2+i], 64)
			require.NoError(t, err)
		}
		group := row[0]
		for i := range 2 { // the smallest, then the largest, with its own wing
			body, wing := mm[i], mm[2+i]
			low, high := body/(wing+0.2*body), body/(wing+0.18*body)
			if _, ok := least[group]; !ok {
				least[group], most[group] = low, high
			}
			least[group], most[group] = min(least[group], low), max(most[group], high)
		}
	}
	c := DefaultConstants()
	for group, share := range map[string]float64{"stonefly": c.StoneflyShare, "alder": c.AlderShare} {
		assert.GreaterOrEqual(t, share, least[group], group)
		assert.LessOrEqual(t, share, most[group], group)
	}
}
