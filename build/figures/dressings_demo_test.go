package figures_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/demo"
	"guidegen/species/tying"
)

// The demo's box is one to tie and fish from: seventy dressings that everybody may read, each offered for a fly in a
// stage that fish meet, on a hook that the club has measured, and nothing met without a dressing of its own.
func TestTheDemosBox(t *testing.T) {
	var ps content.Problems
	built := calendar.Date{Year: 2026, Month: 11, Day: 20}
	g, err := guide.Read(demo.FS, built, &ps)
	require.NoError(t, err)
	book := figures.Reckon(guide.Cut(g, false), built)
	assert.GreaterOrEqual(t, len(book.Dressings), 70)
	kept := map[string]bool{} // what only the rules of a water keep from its flies
	for _, w := range book.Waters {
		for _, row := range w.Rows {
			for _, s := range row.Dressings {
				for _, o := range s.Advice.RuledOut {
					if o.Named == tying.ByFly && len(o.Reasons) == 1 && o.Reasons[0].Code == tying.NotAllowed {
						kept[o.Name], kept[fmt.Sprintf("%s, %s %s %s", row.Fly.Name.S, s.Stage, s.Sex, s.Flight)] = true, true
					}
				}
			}
		}
	}
	for _, d := range book.Dressings {
		own := kept[d.Name.S]
		for _, u := range d.For {
			own = own || u.Offer.Named.Value == 1
		}
		assert.True(t, own, "%s is offered for none of the flies it names", d.Name.S)
		assert.NotEmpty(t, d.Dressing.Sizes, d.Name.S)
		var hook, thread string
		for _, p := range d.Parts {
			switch p.Part {
			case "hook":
				hook = p.Of.S
			case "thread":
				thread = p.Of.S
			}
		}
		for _, size := range d.Dressing.Sizes {
			measured := false
			for _, h := range g.Hooks {
				measured = measured || h.Model == hook && h.Size == size
			}
			assert.True(t, measured, "%s: hook %q has no size %s", d.Name.S, hook, size)
		}
		assert.Regexp(t, `^[a-z ]+, \d+ denier$`, thread, d.Name.S)
		_, _, wrong := d.OutOfOrder()
		assert.False(t, wrong, d.Name.S)
	}
	tied := kept
	for _, w := range book.Waters {
		for _, row := range w.Rows {
			for _, s := range row.Dressings {
				key := fmt.Sprintf("%s, %s %s %s", row.Fly.Name.S, s.Stage, s.Sex, s.Flight)
				for _, o := range s.Advice.Offered {
					tied[key] = tied[key] || o.Named.Value == 1
				}
				for _, n := range s.Advice.NotScored {
					tied[key] = tied[key] || n.By == "fly"
				}
			}
		}
	}
	for _, f := range book.Flies {
		for _, m := range f.Meets() {
			for _, flight := range f.Account.Flights {
				key := fmt.Sprintf("%s, %s %s %s", f.Name.S, m.Stage, m.Sex, flight.Name)
				assert.True(t, tied[key], "nothing is tied for: %s", key)
			}
		}
	}
}
