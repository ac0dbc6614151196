package chart

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestCellSignsDifferInShape(t *testing.T) {
	defs := parseSVG(t, string(CellSigns))
	shapes := map[string]string{}
	defs.walk(func(n node) {
		if n.XMLName.Local == "symbol" {
			child := n.Children[0]
			shapes[n.attr("id")] = child.XMLName.Local + child.attr("d") + child.attr("r") + child.attr("fill")
		}
	})
	assert.Len(t, shapes, 3)
	seen := map[string]bool{}
	for _, shape := range shapes {
		assert.False(t, seen[shape])
		seen[shape] = true
	}
	for c := range 5 {
		use := parseSVG(t, string(CellSign(Cell(c)))).Children[0].attr("href")
		assert.Contains(t, shapes, strings.TrimPrefix(use, "#"))
	}
	assert.Equal(t, CellSign(CellUnlooked), CellSign(9), "the unknown claims nothing")
	assert.NotContains(t, string(CellSigns), "style=")
}
