package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/language"
	"gopkg.in/yaml.v3"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/content"
)

// The plural forms are those of CLDR: Unicode's table of language plural rules, from memory.
func TestFormsOf(t *testing.T) {
	for tag, want := range map[string]string{"en": "one other", "de": "one other", "pl": "one few many other", "cy": "zero one two few many other", "ja": "other", "ar": "zero one two few many other"} {
		assert.Equal(t, want, strings.Join(formsOf(language.Make(tag)), " "), tag)
	}
}

func TestDirections(t *testing.T) {
	for tag, want := range map[string]string{"en": "", "ar": "rtl", "he": "rtl", "fa": "rtl", "az-Arab": "rtl", "az": "", "ja": ""} {
		assert.Equal(t, want, (&Words{tag: language.Make(tag)}).Dir(), tag)
	}
}

// A blank file of words has every key of the English, the language's plural forms, and reads without a fault.
func TestBlankWords(t *testing.T) {
	text, err := BlankWords(language.Make("pl"))
	require.NoError(t, err)
	g := &guide.Guide{Words: map[string]*content.File{"pl": content.NewFile("words/pl.yaml", text)}}
	ps := &content.Problems{}
	require.NoError(t, CheckWords(g, ps))
	assert.Empty(t, ps.All())
	var tree map[string]any
	require.NoError(t, yaml.Unmarshal(text, &tree))
	visits := tree["count"].(map[string]any)["visits"].(map[string]any)
	assert.Len(t, visits, 4)
	assert.Equal(t, visits["other"], visits["few"])
	assert.True(t, strings.HasPrefix(string(text), "# The site's words in pl."), string(text[:200]))
}

// A guide's own words stand on its pages, in its language and direction; what they lack is English.
func TestAGuidesOwnWords(t *testing.T) {
	files := oneFly()
	files["guide.yaml"] = file("format: 1\nname: One fly\nlanguages: [ar]\n")
	files["words/ar.yaml"] = file("nav: {waters: مياه}\n")
	var ps content.Problems
	g, err := guide.Read(files, built, &ps)
	require.NoError(t, err)
	require.Zero(t, ps.Count(content.Error))
	require.NoError(t, CheckWords(g, &ps))
	missing := 0
	for _, p := range ps.All() {
		if p.ID == "words-missing" {
			missing++
			assert.Equal(t, content.Note, p.Grade)
		}
	}
	assert.Equal(t, 1, missing)
	page := drawAll(t, figures.Reckon(guide.Cut(g, false), built))[FrontPage]
	assert.Contains(t, page, `<html lang="ar" dir="rtl"`)
	assert.Contains(t, page, ">مياه</a>")
	assert.Contains(t, page, ">Flies</a>")
}
