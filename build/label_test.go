package build

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A figure is named as a reader finds it: by headings, entry, row, column and words.
func TestLabels(t *testing.T) {
	page := `<html><body><h1>Brook</h1><p><data data-basis="own">3</data></p><p><data data-basis="own">5</data> flies in all.</p>
<h2>Sizes</h2><table><caption>Lengths; by stage</caption><thead><tr><th rowspan="2">Stage</th><th colspan="2">Length</th></tr></thead>
<tbody><tr><th colspan="3" scope="rowgroup">Olive</th></tr><tr><th scope="row">dun<br>spring</th><td><data data-basis="own">7</data> to <data data-basis="own">8</data></td><td>none</td></tr></tbody></table>
<h2>Tying</h2><ul><li><b>Alder</b>: <ul><li><a href="x">Dark Upright</a> scores <data data-basis="memory">70</data></li></ul></li></ul>
<dl><dt>Altitude</dt><dd><data data-basis="own">60 m</data></dd></dl><p>No figure: <data value="1">1</data></p></body></html>`
	got, err := labels([]byte(page))
	require.NoError(t, err)
	assert.Equal(t, []string{"Brook", "flies in all", "Sizes, Lengths, Olive, dun spring, Length", "Sizes, Lengths, Olive, dun spring, Length, to",
		"Tying, Alder, Dark Upright, scores", "Tying, Altitude"}, got)

	// A row is named by what it is, not by what it rests on.
	got, err = labels([]byte(`<html><body><h1>Brook</h1><section><h2>Months</h2>
<table><tbody><tr><th scope="row"><a href="x">Olive</a><small>rests on memory</small></th><td><data data-basis="own">7</data></td></tr></tbody></table></section></body></html>`))
	require.NoError(t, err)
	assert.Equal(t, []string{"Months, Olive"}, got)
}
