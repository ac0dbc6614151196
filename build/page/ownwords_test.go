package page

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
)

// A guide's own words stand on its pages, in its language and direction; what they lack is English.
func TestAGuidesOwnWords(t *testing.T) {
	files := oneFly()
	files["guide.yaml"] = file("format: 1\nname: One fly\nlanguages: [ar]\n")
	files["words/ar.yaml"] = file("nav: {waters: مياه}\n")
	var ps content.Problems
	g, err := guide.Read(files, built, &ps)
	require.NoError(t, err)
	require.Zero(t, ps.Count(content.Error))
	require.NoError(t, lang.CheckWords(g, &ps))
	missing := 0
	for _, p := range ps.All() {
		if p.ID == "words-missing" {
			missing++
			assert.Equal(t, content.Note, p.Grade)
		}
	}
	assert.Equal(t, 1, missing)
	page := drawAll(t, figures.Reckon(guide.Cut(g, false), built))[view.FrontPage]
	assert.Contains(t, page, `<html lang="ar" dir="rtl"`)
	assert.Contains(t, page, ">مياه</a>")
	assert.Contains(t, page, ">Flies</a>")
}
