package page

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/species/colour"
	"guidegen/templates"
)

// Text on its grounds: at least 4.5 to 1, in the light and in the dark (WCAG 2.2, 1.4.3), and marks
// of meaning at least 3 to 1 (1.4.11).
func TestContrast(t *testing.T) {
	css, err := templates.Files.ReadFile("css/site.css")
	require.NoError(t, err)
	light, rest, ok := strings.Cut(string(css), "@media (prefers-color-scheme: dark)")
	require.True(t, ok)
	dark, _, _ := strings.Cut(rest, "color-scheme: dark")
	for name, block := range map[string]string{"light": light, "dark": dark} {
		c := map[string]colour.RGB{}
		for _, m := range regexp.MustCompile(`--([a-z-]+): #([0-9a-f]{6});`).FindAllStringSubmatch(block, -1) {
			n, err := strconv.ParseUint(m[2], 16, 32)
			require.NoError(t, err)
			c[m[1]] = colour.RGB{R: uint8(n >> 16), G: uint8(n >> 8), B: uint8(n)}
		}
		require.Len(t, c, 11, name)
		check := func(text, ground string, least float64) {
			assert.GreaterOrEqual(t, colour.Contrast(c[text], c[ground]), least, "%s: %s on %s", name, text, ground)
		}
		for _, ground := range []string{"paper", "sheet", "prim"} {
			for _, text := range []string{"ink", "soft", "link", "moss", "silk", "bar"} {
				check(text, ground, 4.5)
			}
			check("rule", ground, 3) // hatching, the line of looked for
		}
	}
}

// A style sheet asks nothing of another host, and motion stops for those who ask for none.
func TestStyleSheet(t *testing.T) {
	css, err := templates.Files.ReadFile("css/site.css")
	require.NoError(t, err)
	assert.NotContains(t, string(css), "url(")
	assert.NotContains(t, string(css), "@import")
	for _, want := range []string{"prefers-reduced-motion", "forced-colors", "@media print", ":focus-visible", "@top-left { content: var(--head"} {
		assert.Contains(t, string(css), want)
	}
}
