package paper

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A lesson gives no name away before it is asked for: not in a drawing's text, and of the names to choose from one alone is
// right. Its answers say stage and sex, and it works without a script.
func TestLesson(t *testing.T) {
	book := demoBook()
	p := newPrinter(t, book)
	tried := 0
	for _, w := range book.Waters {
		for i := 1; i <= 12; i++ {
			l := book.Lesson(w, i)
			if l == nil {
				continue
			}
			tried++
			m := lessonPrinter{p, "lesson/x.html"}.page(l)
			for k, f := range m.Flies {
				right := 0
				for _, c := range f.Choices {
					assert.NotContains(t, f.Alt, c.Name)
					if c.Right {
						right++
						assert.Equal(t, l.Flies[k].Fly.Name.S, c.Name)
					} else {
						assert.Contains(t, c.Says, "Look at the ")
					}
				}
				assert.Equal(t, 1, right, f.Letter)
				assert.Equal(t, string(rune('A'+k)), f.Letter)
				assert.NotEmpty(t, f.Case)
			}
			html, err := p.Draw("lesson", m)
			require.NoError(t, err)
			assert.Less(t, strings.Count(string(html), "<"), 2*700, "%s %d", w.Name.S, i) // with the key of a month of 25 flies
		}
	}
	assert.Greater(t, tried, 12)
}
