package content

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The orders of dictionaries: Svenska Akademiens ordlista (å ä ö after z), Duden (ä as a, ß as ss; DIN 5007-1), Petit
// Robert (accents count last), Dansk Sprognævn (æ ø å after z); from memory.
func TestAlphabetsSortAsDictionaries(t *testing.T) {
	for lang, want := range map[string][]string{
		"en":  {"Alder", "alder fly", "Iron blue", "Large dark olive", "March brown"},
		"sv":  {"Ask", "Zebra", "Ål", "Älv", "Öring"},
		"de":  {"Älchen", "Alm", "Öl", "Olive", "Straße", "Strasser", "Zuck"},
		"fr":  {"Coté", "Côte", "Eau", "Éphémère", "Épi", "Zone"},
		"da":  {"Ask", "Zebra", "Ælv", "Ørred", "Ål"},
		"qaa": {"Alm", "Öl", "Zuck"},
	} {
		got := slices.Clone(want)
		slices.Reverse(got)
		slices.SortFunc(got, AlphabetOf(lang).Compare)
		assert.Equal(t, want, got, lang)
	}
	var none *Alphabet
	assert.Negative(t, none.Compare("Öl", "Zuck"))
	assert.NotZero(t, none.Compare("olive", "Olive"), "no two names are equal")
	assert.Zero(t, none.Compare("Olive", "Olive"))
}

func TestInitials(t *testing.T) {
	for lang, c := range map[string]map[string]string{
		"en": {"Ōrua": "O", "ærøsund": "A", "12 mile beck": "0–9", "“Quoted”": "Q", "…": "…", "ßtrange": "S", "Жук": "Ж", "春蜉": "春"},
		"sv": {"Öring": "Ö", "Ål": "Å", "Éva": "E", "Ask": "A"},
		"de": {"Öl": "O", "Ätzend": "A"},
		"da": {"Ørred": "Ø", "Ælv": "Æ"},
	} {
		a := AlphabetOf(lang)
		for name, want := range c {
			assert.Equal(t, want, a.Initial(name), "%s: %s", lang, name)
		}
	}
}
