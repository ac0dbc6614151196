package paper

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
	"guidegen/rivers"
)

// The sheet on paper names the guide's own unit and address, and headings that a file of samples and
// one of temperatures are read by.
func TestNetSheetSaysHowToEnterIt(t *testing.T) {
	book := demoBook()
	p := newPrinter(t, book)
	was := book.Edition.Settings
	t.Cleanup(func() { book.Edition.Settings = was }) // one demo serves all tests
	book.Edition.Settings.Units.Temperature = "°F"
	book.Edition.Settings.Address = "https://flies.example/"
	m := netPrinter{p}.page()
	html, err := p.Draw("sheet", m)
	require.NoError(t, err)
	assert.True(t, strings.Contains(string(html), "Water temperature, °F"))
	assert.True(t, strings.Contains(string(html), "Enter it later at https://flies.example/sheet.html"))

	visit := map[string]string{"visit": "T-1", "date": "2026-05-02", "water": book.Waters[0].Name.S, "method": "sweep net", "effort": "20 sweeps", "looked for": "water-bred", "fly": "nothing", "by": "A. B."}
	reading := map[string]string{"water": book.Waters[0].Name.S, "date": "2026-05-02", "time": "11:40", "kind": "spot", "temperature °F": "50"}
	row := func(headings string, cells map[string]string) []byte {
		var list []string
		for _, h := range strings.Split(headings, ", ") {
			list = append(list, cells[h])
		}
		return []byte(strings.ReplaceAll(headings, ", ", ",") + "\n" + strings.Join(list, ",") + "\n")
	}
	var ps content.Problems
	visits := rivers.ReadSamples(content.NewFile("samples/t.csv", row(m.Headings, visit)), &ps)
	assert.Len(t, visits, 1)
	series := rivers.ReadTemperature(content.NewFile("temperature/t.csv", row(m.Readings, reading)), &ps)
	assert.Len(t, series.Spots, 1)
	assert.Empty(t, ps.All())
}

// Flies without a name are counted by group, upwinged ones by stage, each beside a drawing where the guide has such a fly.
func TestKindsOfFliesWithoutAName(t *testing.T) {
	book := demoBook()
	var got, drawn []string
	for _, k := range (netPrinter{newPrinter(t, book)}).kinds() {
		got = append(got, strings.TrimSpace(k.Group+" "+k.Stage))
		assert.NotEmpty(t, k.Text)
		assert.NotEmpty(t, k.Looks)
		if k.Src != "" {
			drawn = append(drawn, k.Group)
		}
	}
	assert.Equal(t, []string{"upwinged dun", "upwinged spinner", "sedge adult", "stonefly adult", "alder adult", "midge adult", "gnat adult",
		"damselfly adult", "other water-bred adult", "land-bred adult"}, got)
	assert.Equal(t, []string{"upwinged", "upwinged", "sedge", "stonefly", "alder", "midge", "gnat", "damselfly", "land-bred"}, drawn)
}
