package build

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/draw"
	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/lang"
	"guidegen/species"
)

// Of all drawings only those are written that a file of the site shows, each once.
func TestOnlyDrawingsThatAreShownAreWritten(t *testing.T) {
	words, err := lang.LoadWords("en")
	require.NoError(t, err)
	states := []species.State{{Name: "two"}, {Name: "three"}, {Name: "none"}}
	album, err := draw.New(&figures.Book{Edition: &guide.Edition{Guide: &guide.Guide{
		Characters: []species.Character{{Name: "tails", States: states}}}}}, words)
	require.NoError(t, err)
	first, second := album.Files()[0].Address, album.Files()[1].Address
	p := &pictures{album: album, shown: map[string]bool{}}
	var got []string
	to := func(address string, _ []byte) error { got = append(got, address); return nil }
	p.note("species/x.html", []byte(`<img src="../`+first+`" alt=""><image href="../`+first+`"/>`))
	p.note("data/x.csv", []byte(second))
	require.NoError(t, p.write(to))
	assert.Equal(t, []string{first}, got)
	p.note("assets/x.js", []byte(`{"a":"`+second+`"}`))
	p.note("rivers/x.html", []byte(`<img src="../`+first+`">`))
	require.NoError(t, p.write(to))
	assert.Equal(t, []string{first, second}, got)
	assert.Equal(t, 2, p.written)
}
