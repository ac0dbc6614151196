package species

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guidegen/content"
)

// A dressing for a withheld fly stands for its other flies and groups alone.
func TestADressingWithoutSomeFlies(t *testing.T) {
	d := &Dressing{Name: content.Text{S: "Upright"}, For: []StandsFor{
		{Flies: []content.Text{{S: "A"}, {S: "B"}}, Accounts: []string{"a", "b"}, Stages: []Stage{Dun}},
		{Flies: []content.Text{{S: "B"}}, Accounts: []string{"b"}},
		{Flies: []content.Text{{S: "B"}}, Accounts: []string{"b"}, Groups: []Group{Sedge}},
	}}
	cut := d.Without([]string{"b"})
	assert.Equal(t, []StandsFor{
		{Flies: []content.Text{{S: "A"}}, Accounts: []string{"a"}, Stages: []Stage{Dun}},
		{Groups: []Group{Sedge}},
	}, cut.For)
	assert.Len(t, d.For, 3, "the dressing itself stays whole")
	assert.Equal(t, d.For[0], d.Without(nil).For[0])
}
