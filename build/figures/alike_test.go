package figures

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// alikeGuide is flies on the wing together; the first account's text is given, and each later fly is a
// step longer, and so less like it.
func alikeGuide(most, text string, names ...string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "-- guide.yaml --\nformat: 1\nname: Alike\nbasis: memory\n%s\n-- rivers/aller.yaml --\nname: Aller\nkind: rain-fed\nflies:\n", most)
	for _, n := range names {
		fmt.Fprintf(&b, "  %s: frequent\n", n)
	}
	for i, n := range names {
		fmt.Fprintf(&b, "-- species/%s.md --\n---\nname: %s\nscientific: Baetis %s\ngroup: upwinged\nflights:\n  spring: {from: early Apr, peak: 18 Apr, to: 5 May, abundance: frequent}\nlength: {dun: %d to %d mm}\n---\n%s\n",
			strings.ToLower(strings.ReplaceAll(n, " ", "-")), n, strings.Repeat("x", i+1), 5+i, 6+i, text)
		text = ""
	}
	return b.String()
}

func TestLookAlikesAreLimitedButNeverThoseNamed(t *testing.T) {
	names := []string{"Olive", "Blue dun", "Dun", "Grey one", "Rusty", "Pale one"}
	for _, c := range []struct {
		most, text string
		list       []string
		more       int
	}{
		{"", "", []string{"Blue dun", "Dun", "Grey one", "Rusty", "Pale one"}, 0},
		{"figures: {alike: {most: 2}}", "", []string{"Blue dun", "Dun"}, 3},
		{"figures: {alike: {most: 2}}", "Take care: the PALE\nONE is paler.", []string{"Blue dun", "Dun", "Pale one"}, 2},
		{"figures: {alike: {most: 1}}", "- [that one](rusty.md): redder.", []string{"Blue dun", "Rusty"}, 3},
		{"figures: {alike: {most: 1}}", "Trustyless; a rustyish body, and crusty.md.", []string{"Blue dun"}, 4},
		{"figures: {alike: {most: 1}}", "Not crusty, but the rusty.", []string{"Blue dun", "Rusty"}, 3},
	} {
		book := bookOf(t, alikeGuide(c.most, c.text, names...))
		fly := book.Flies[0]
		for i, f := range book.Flies {
			if f.Name.S == "Olive" {
				fly = book.Flies[i]
			}
		}
		require.Equal(t, "Olive", fly.Name.S)
		for where, got := range map[string][]Alike{"the guide": fly.Alike, "the water": fly.Rows[0].Alike} {
			var listed []string
			for _, a := range got {
				listed = append(listed, a.Name)
				assert.Equal(t, strings.Contains(c.text, a.Fly.Address+".md") || strings.Contains(strings.ToLower(strings.ReplaceAll(c.text, "\n", " ")), " "+strings.ToLower(a.Name)), a.Named, a.Name)
			}
			assert.Equal(t, c.list, listed, "%s, %s, %s", where, c.most, c.text)
		}
		assert.Equal(t, c.more, fly.MoreAlike)
		assert.Equal(t, c.more, fly.Rows[0].MoreAlike)
	}
}
