package species

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"guidegen/content"
)

func recipeOf(parts string) *Dressing {
	d := &Dressing{}
	for _, p := range strings.Fields(parts) {
		d.Parts = append(d.Parts, DressingPart{Part: p, Of: content.Text{S: "something"}})
	}
	return d
}

// What lies beneath is tied in first; where dressers differ, either order is right (common practice, no source).
func TestOrderOfTying(t *testing.T) {
	for _, c := range []struct{ parts, late, over string }{
		{"hook thread tail rib body hackle", "", ""},
		{"hook thread body rib", "rib", "body"},
		{"hook thread body tail", "tail", "body"},
		{"hook thread body butt", "butt", "body"},
		{"hook thread body underbody", "underbody", "body"},
		{"hook thread body back", "back", "body"},
		{"hook thread rib back body", "", ""},
		{"hook thread rib body shell thorax", "", ""},
		{"hook thread body thorax shell", "shell", "thorax"},
		{"hook thread thorax body", "body", "thorax"},
		{"hook thread thorax rib body", "rib", "thorax"},
		{"hook thread body hackle wing head", "", ""},
		{"hook thread wing body hackle", "", ""},
		{"hook thread legs body", "", ""},
		{"hook thread body legs", "", ""},
		{"hook thread body head wing", "wing", "head"},
		{"thread hook", "hook", "thread"},
		{"hook bead thread body", "", ""},
		{"hook thread bead body", "bead", "thread"},
		{"bead hook thread", "hook", "bead"},
		{"hook tail thread body", "thread", "tail"},
		{"hook thread body gills", "", ""},
		{"", "", ""},
	} {
		late, over, ok := recipeOf(c.parts).OutOfOrder()
		assert.Equal(t, c.late, late.Part, c.parts)
		assert.Equal(t, c.over, over.Part, c.parts)
		assert.Equal(t, c.late != "", ok, c.parts)
	}
}
