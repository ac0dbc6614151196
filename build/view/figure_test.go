package view

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/species/tying"
)

// A difference keeps a tenth of a millimetre in every unit (an inch is 25.4 mm: ISO 31, exact), and no hook that
// doesn't fit is said to be off by nothing.
func TestSmallDifferences(t *testing.T) {
	for unit, want := range map[string][3]string{"mm": {"0.1 mm", "0.4 mm", "2.5 mm"}, "cm": {"0.01 cm", "0.04 cm", "0.25 cm"}, "in": {"0.004 in", "0.016 in", "0.100 in"}} {
		for i, mm := range []float64{0.1, 0.4, 2.54} {
			f := Difference(guide.Units{Length: unit}, mm, content.Basis{})
			assert.Equal(t, want[i], f.Number()+" "+f.Unit())
		}
	}
	book := demoBook()
	edition, whole := *book.Edition, *book.Edition.Guide
	b := *book
	edition.Guide, b.Edition = &whole, &edition
	for _, unit := range []string{"mm", "in", "cm"} {
		whole.Settings.Units = guide.Units{Length: unit}
		p, err := NewPrinter(&b, Deps{Site: fakeSite{Book: &b}})
		require.NoError(t, err)
		for _, c := range []struct {
			shank float64
			want  map[string]string
		}{
			{8, map[string]string{"mm": "14 in Dry fits", "cm": "14 in Dry fits", "in": "14 in Dry fits"}},
			{8.35, map[string]string{"mm": "14 in Dry fits", "cm": "14 in Dry fits", "in": "14 in Dry fits"}},
			{8.36, map[string]string{"mm": "14 in Dry is 0.4 mm too long", "cm": "14 in Dry is 0.04 cm too long", "in": "14 in Dry is 0.014 in too long"}},
			{7.6, map[string]string{"mm": "14 in Dry is 0.4 mm too short", "cm": "14 in Dry is 0.04 cm too short", "in": "14 in Dry is 0.016 in too short"}},
		} {
			got := p.sizeWords(&tying.SizePart{Hook: tying.Hook{Model: "Dry", Size: "14", Shank: c.shank}, Length: 8, Longer: c.shank - 8})
			assert.Equal(t, c.want[unit], strings.ReplaceAll(got, "\u00a0", " "))
		}
	}
}
