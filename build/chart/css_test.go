package chart

// The style sheet of the charts: each theme sets every colour, the colours the
// closer view asks for are there, and what must be seen can be seen.

import (
	"encoding/csv"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	themeBlock = regexp.MustCompile(`(?s):root[^{]*\{([^}]*)\}`)
	property   = regexp.MustCompile(`--chart-([a-z]+):\s*([^;]+);`)
)

func themes(t *testing.T) (out []map[string]string, css string) {
	text, err := os.ReadFile("../../templates/css/chart.css")
	require.NoError(t, err)
	css = string(text)
	for _, block := range themeBlock.FindAllStringSubmatch(css, -1) {
		theme := map[string]string{}
		for _, p := range property.FindAllStringSubmatch(block[1], -1) {
			theme[p[1]] = p[2]
		}
		out = append(out, theme)
	}
	return out, css
}

func TestEveryThemeSetsEveryColour(t *testing.T) {
	all, css := themes(t)
	require.Len(t, all, 5, "light, dark by device, dark by choice, print, forced colours")
	for _, m := range regexp.MustCompile(`var\(--chart-([a-z]+), `).FindAllStringSubmatch(css, -1) {
		assert.Contains(t, all[0], m[1])
	}
	for _, theme := range all[1:] {
		for name := range all[0] {
			assert.Contains(t, theme, name)
		}
		assert.Len(t, theme, len(all[0]))
	}
	assert.Equal(t, all[1], all[2], "dark is dark, whoever asked for it")
	assert.NotContains(t, css, "@import")
	assert.NotContains(t, css, "url(")
	for kind, s := range styles {
		name := map[string]string{idUnlooked: "paper", idStrip: "ink", idFinds: "mark", idToday: "mark",
			idGroup + "other-water-bred": "other", idGroup + "land-bred": "land"}[kind]
		if name == "" {
			name = strings.TrimPrefix(kind, idGroup)
		}
		assert.Equal(t, all[0][name], s.Color, "%s: the option's colour is the light theme's", kind)
	}
}

// luminance and contrast follow WCAG 2.2, "relative luminance" and "contrast ratio".
func luminance(t *testing.T, hex string) float64 {
	v, err := strconv.ParseUint(strings.TrimPrefix(hex, "#"), 16, 32)
	require.NoError(t, err, hex)
	part := func(c uint64) float64 {
		s := float64(c&255) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*part(v>>16) + 0.7152*part(v>>8) + 0.0722*part(v)
}

func contrast(t *testing.T, a, b string) float64 {
	x, y := luminance(t, a), luminance(t, b)
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}

func TestColoursCanBeToldFromThePaper(t *testing.T) {
	all, _ := themes(t)
	for i, theme := range all[:4] {
		assert.GreaterOrEqual(t, contrast(t, theme["ink"], theme["paper"]), 7.0, i)
		// WCAG 2.2, 1.4.11: 3 for parts of a graphic; the other bars have an outline in ink
		for _, name := range []string{"own", "mark", "upwinged"} {
			assert.GreaterOrEqual(t, contrast(t, theme[name], theme["paper"]), 3.0, "%d %s", i, name)
		}
		// a whisker must show on the bar it crosses
		assert.GreaterOrEqual(t, contrast(t, theme["ink"], theme["own"]), 3.0, i)
		assert.GreaterOrEqual(t, contrast(t, theme["ink"], theme["thin"]), 3.0, i)
	}
}

func TestContrastAgreesWithTheReference(t *testing.T) {
	file, err := os.Open("../../testdata/checks/contrast.csv") // its README names the source
	require.NoError(t, err)
	defer file.Close()
	r := csv.NewReader(file)
	rows, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 3)
	for _, row := range rows[1:] {
		want, err := strconv.ParseFloat(row[4], 64)
		require.NoError(t, err)
		assert.InDelta(t, want, contrast(t, row[0], row[1]), 1e-6, row)
	}
}
