package chart

// The samples that the tests draw, and a contact sheet of them for the eye:
// CHART_SHEET=folder go test -run Sheet ./build/chart writes sheet.html there.

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

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

func sampleMonthly() MonthlyBars {
	return MonthlyBars{ID: "lilac-upright-vell", Title: "Lilac upright on the Vell: emergence by month",
		Heading: "Emergence by month", Months: sampleMonths(),
		Finds: []Find{{3, 12, "found 12 March 2026"}, {3, 29, "found 29 March 2026"}, {4, 18, "found 18 April 2026"}}}
}

func sampleCompare() CompareWaters {
	low := sampleMonths()
	for i := range low {
		low[i].Chance *= 0.6
		low[i].Low *= 0.5
		low[i].High *= 0.7
		if i%3 == 0 {
			low[i].State = Unlooked
		}
	}
	return CompareWaters{ID: "cmp", Title: "Lilac upright: the waters compared", Waters: []WaterMonths{
		{"The Vell", sampleMonths()}, {"Upper Orrin Water", low}, {"Lake of the Three Sisters", [12]Month{}}}}
}

func sampleStacked() StackedMonths {
	c := StackedMonths{ID: "stack", Title: "Flies to expect on the Vell, by group and month", Heading: "Flies to expect on a visit",
		Unlooked: [12]bool{0: true, 1: true, 11: true}}
	names := []string{"Upwinged flies", "Sedges", "Stoneflies", "Alders", "Midges", "Gnats", "Other water-bred", "Land-bred"}
	for i, key := range []string{"upwinged", "sedge", "stonefly", "alder", "midge", "gnat", "other water-bred", "land-bred"} {
		g := GroupMonths{Key: key, Name: names[i]}
		for m := range 12 {
			d := float64((m-3-i%4)*(m-3-i%4)) / 8
			g.Flies[m] = 2.4 / (1 + d) / float64(1+i%3)
		}
		c.Groups = append(c.Groups, g)
	}
	return c
}

func TestSheet(t *testing.T) {
	dir := os.Getenv("CHART_SHEET")
	if dir == "" {
		t.Skip("CHART_SHEET names no folder")
	}
	css, err := os.ReadFile("../../templates/css/chart.css")
	require.NoError(t, err)
	var page strings.Builder
	fmt.Fprintf(&page, `<!doctype html><html lang="en"><meta charset="utf-8"><title>Sheet</title><meta name="viewport" content="width=device-width"><style>%s
body{font:16px sans-serif;margin:8px;background:var(--chart-paper);color:var(--chart-ink)}figure{margin:0 0 16px}</style>`, css)
	for _, c := range []interface{ Chart() (Chart, error) }{sampleMonthly(), sampleStacked(), sampleCompare()} {
		drawn, err := c.Chart()
		require.NoError(t, err)
		fmt.Fprintf(&page, "<figure>%s</figure>", strings.Replace(string(drawn.SVG), ` display="none"`, ` transform="translate(150)"`, 1))
		t.Logf("%s: svg %d, option %d", drawn.ID, len(drawn.SVG), len(drawn.Option))
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "charts.html"), []byte(page.String()), 0o644))
}

// On paper as on the site hatching says that nobody looked, and nothing else does.
func TestStripsHatchWhereNobodyLooked(t *testing.T) {
	hatch := `stroke-width=".35" d="M0 6.8m1 2l2-2`
	for _, g := range []Grade{GradeNone, GradeSome, GradeMany, GradeMost} {
		assert.NotContains(t, string(GradeSign(g)), hatch)
		assert.Contains(t, string(YearStrip([24]HalfMonth{{g, CellUnlooked}})), hatch)
		seen := [24]HalfMonth{}
		for i := range seen {
			seen[i] = HalfMonth{g, CellLooked}
		}
		assert.NotContains(t, string(YearStrip(seen)), hatch)
	}
	assert.Contains(t, string(SeenSign(CellUnlooked)), hatch)
	drawn := map[string]bool{}
	for _, g := range []Grade{GradeNone, GradeSome, GradeMany, GradeMost} {
		drawn[string(GradeSign(g))] = true
	}
	assert.Len(t, drawn, 4, "every grade has a sign of its own")
}
