package chart

// Every colour the closer view asks for is set, in the light and in the dark, and can be told from the paper.

import (
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/species/colour"
)

// theme gathers the colours that the style sheets set in their n-th :root block.
func theme(t *testing.T, n int) map[string]colour.RGB {
	out := map[string]colour.RGB{}
	for _, name := range []string{"site", "chart"} {
		css, err := os.ReadFile("../../templates/css/" + name + ".css")
		require.NoError(t, err)
		block := regexp.MustCompile(`(?s):root \{\n[^}]*\}`).FindAllString(string(css), -1)[n]
		for _, m := range regexp.MustCompile(`--([a-z]+): #([0-9a-f]{6});`).FindAllStringSubmatch(block, -1) {
			v, err := strconv.ParseUint(m[2], 16, 32)
			require.NoError(t, err)
			out[m[1]] = colour.RGB{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v)}
		}
	}
	return out
}

// WCAG 2.2, 1.4.11: 3 to 1 for what a reader must tell from its ground.
func TestColoursCanBeToldFromThePaper(t *testing.T) {
	script, err := os.ReadFile("../../templates/js/closer.js")
	require.NoError(t, err)
	for n, name := range []string{"light", "dark"} {
		colours := theme(t, n)
		for kind := range styles {
			word := map[string]string{idOwn: "bar", idThin: "sheet", idUnlooked: "paper", idStrip: "rule", idFinds: "silk",
				idToday: "silk", idGroup + "other-water-bred": "other", idGroup + "land-bred": "land"}[kind]
			if word == "" {
				word = strings.TrimPrefix(kind, idGroup)
			} else {
				assert.Regexp(t, `'?`+kind+`'?: '`+word+`'`, string(script))
			}
			require.Contains(t, colours, word, name)
			if word != "sheet" && word != "paper" { // those have an outline in the bar's colour or in ink
				assert.GreaterOrEqual(t, colour.Contrast(colours[word], colours["paper"]), 3.0, "%s: %s", name, word)
			}
		}
	}
}
