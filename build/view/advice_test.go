package view

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/lang"
)

// Published names in small letters and British spelling; a club's own word as it was written.
func TestColourNames(t *testing.T) {
	words, err := lang.LoadWords("en")
	require.NoError(t, err)
	for in, want := range map[string]string{"Dark Bluish Gray": "dark bluish grey", "Grayish Olive": "greyish olive", "dark olive": "dark olive",
		"Old Gold of the Weir": "Old Gold of the Weir", "": "", "Gray mist": "Gray mist"} {
		assert.Equal(t, want, (&Printer{words: words}).colourName(in))
	}
}
