package lang

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/language"

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
		assert.Equal(t, want, (&Words{Tag: language.Make(tag)}).Dir(), tag)
	}
}

// The numbers beside a form are the first that take it (CLDR, language plural rules).
func TestNumbersOf(t *testing.T) {
	n := numbersOf(language.Polish)
	assert.Equal(t, "1 / 2 3 4 22 / 0 5 6 7 / 0.0 0.1 0.2 0.3", strings.Join([]string{strings.Join(n["one"], " "), strings.Join(n["few"], " "), strings.Join(n["many"], " "), strings.Join(n["other"], " ")}, " / "))
}

// A blank file of words has every key of the English, the language's plural forms, and is a guide's file as it is:
// all of its words are still missing.
func TestBlankWords(t *testing.T) {
	text, err := BlankWords(language.Make("pl"))
	require.NoError(t, err)
	english := english(t)
	g := &guide.Guide{Settings: guide.Settings{Languages: []string{"pl"}}, Words: map[string]*content.File{"pl": content.NewFile("words/pl.yaml", text)}}
	ps := &content.Problems{}
	require.NoError(t, CheckWords(g, ps))
	require.Len(t, ps.All(), 1)
	n := len(english.patterns)
	assert.Equal(t, fmt.Sprintf("%d words of %d are missing", n-3, n), ps.All()[0].Message, "the signs of numbers are known")
	assert.Contains(t, string(text), "  # {n} visit | {n} visits\n  visits:\n    one: # 1, …\n    few: # 2, 3, 4, 22, …\n    many: # 0, 5, 6, 7, …\n    other: # 0.0, 0.1, 0.2, 0.3, …\n")
	for _, m := range regexp.MustCompile(`(?m)^(.*)\n([a-z_]+):\n  (#|[a-z_]+:$)`).FindAllStringSubmatch(string(text), -1) {
		assert.True(t, strings.HasPrefix(m[1], "# "), "the block %s has no remark", m[2])
	}
	assert.True(t, strings.HasPrefix(string(text), "# The words of the site in Polish, pl."), string(text[:200]))
}

// What is wrong with a guide's own words, and what is kept of them.
func TestOwnWordsAreChecked(t *testing.T) {
	for _, c := range []struct{ text, said, key, want string }{
		{"skip: Zur Seite", "", "skip", "Zur Seite"},
		{"foot: {built: 'Stand {date}'}", "", "foot.built", "Stand {date}"},
		{"foot: {built: '{Date}: so weit'}", "", "foot.built", "{Date}: so weit"},
		{"list: {comma: ' · '}", "", "list.comma", " · "},
		{"skip:\nfoot:\n  built: ''\n", "", "skip", ""},
		{"count: {visits: {one: ein Besuch, other: '{n} Besuche'}}", "", "count.visits", "{n} Besuche"},
		{"count: {visits: '{n} Besuch'}", "", "count.visits", "{n} Besuch"},
		{"count: {visits: {one: , other: }}", "", "count.visits", ""},
		{"skip: [a, b]", "wrong-shape: skip is a text, and this is a list", "skip", ""},
		{"foot: Fuß", "wrong-shape: foot is a block of words, and this is a text", "foot", ""},
		{"- a", "wrong-shape: the file is a block of words, and this is a list", "a", ""},
		{"foot: {build: x}", "unknown-word-key: the site has no words \"foot.build\"; did you mean \"built\"?", "foot.build", ""},
		{"foot: {built: '{day}, {date}'}", "unknown-hole: nothing is filled in for {day}", "foot.built", ""},
		{"foot: {built: Stand}", "missing-hole: foot.built leaves out {date}", "foot.built", ""},
		{"foot: {built: {date}}", "wrong-shape: foot.built is a text, and this is a block", "foot.built", ""},
		{"skip: {one: a, other: b}", "wrong-shape: skip is a text, and this is a block", "skip", ""},
		{"count: {visits: Besuche}", "missing-hole: count.visits leaves out {n}", "count.visits", ""},
		{"count: {visits: {one: ein Besuch, few: x, other: '{n} Besuche'}}", "plural-form: count.visits has no form \"few\" in this language", "count.visits", "{n} Besuche"},
		{"count: {visits: {other: '{n} Besuche'}}", "plural-form: count.visits lacks the form one", "count.visits", ""},
		{"skip: 'a", "yaml-syntax: ", "skip", ""},
	} {
		ps := &content.Problems{}
		own := readOwn(content.NewFile("words/de.yaml", []byte(c.text)), language.German, english(t), ps)
		said := ""
		for _, p := range ps.All() {
			said += p.ID + ": " + p.Message
			assert.NotEmpty(t, p.Want, c.text)
		}
		if c.said == "" {
			assert.Empty(t, said, c.text)
		} else {
			assert.Contains(t, said, c.said, c.text)
		}
		assert.Equal(t, c.want, own.patterns[c.key]["other"].Text, c.text)
	}
}
