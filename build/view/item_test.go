package view

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A rank is said only where the name says it.
func TestRankOfATaxon(t *testing.T) {
	for name, want := range map[string]string{"Baetis rhodani": "species", "Baetis": "", "Caenis sp.": "", "Chironomidae": "", "Baetis rhodani agg.": "", "Simulium spp.": "", "": ""} {
		book := bookOf(t, oneFly())
		f := *book.Flies[0]
		f.Scientific.Name.S = name
		got := ""
		for _, p := range flyItem(&f).Props {
			if p.Name == "taxonRank" {
				got = p.Text
			}
		}
		assert.Equal(t, want, got, name)
	}
}
