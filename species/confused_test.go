package species

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestConfusedWith(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
	}{
		{"", nil},
		{"[olive](olive.md)\n", nil},
		{"## Easily confused with\n\n- [olive](olive.md), [dun](../species/dun.md#h)\n- [olive](olive.md) again\n", []string{"olive", "dun"}},
		{"# Easily Confused With #\ntext [a](a.md)\n## deeper\n[b](b.md)\n# next\n[c](c.md)\n", []string{"a", "b"}},
		{"## Easily confused with\n[how](../notes/how-to-sample.md) [web](https://example.org/x.md)\n", nil},
		{"## Easily confused with others\n[a](a.md)\n", nil},
		{"## Easily confused with\n[a](<a.md> \"title\")\n", []string{"a"}},
	} {
		assert.Equal(t, c.want, ConfusedWith(c.text), c.text)
	}
}
