package figures

// Keys and look-alikes of the demo, as section 11 of the rules on figures wants them.

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/species/key"
)

// keysOf are all keys of a book: the guide's, each water's, each water's by month.
func keysOf(b *Book) []*Key {
	l := []*Key{b.Key()}
	for _, w := range b.Waters {
		l = append(l, w.Key())
		for _, key := range w.MonthKeys {
			l = append(l, key())
		}
	}
	return l
}

// Every specimen is walked through with true answers: of a feature any state that the account gives its form, of a
// length the ends and the middle of its range, of a shade its own. None meets a couplet without a true answer, every
// couplet of a feature can be shown by all in play, and 92 in a hundred arrive at their fly alone.
func TestKeysLeadToTheFly(t *testing.T) {
	b := demoBook(t, false)
	characters := map[string]key.Character{}
	for _, c := range b.Vocabulary {
		characters[c.Name] = c
	}
	var walks, alone float64 // specimens, each in parts down its true ways: of a length, by how much of its range lies there
	for _, k := range keysOf(b) {
		for _, f := range k.Flies {
			for _, form := range f.Described.Forms {
				if slices.Contains(k.LeftOut, f.Address) && form.Stage == "spinner" && form.Sex == "male" {
					continue
				}
				var walk func(lead key.Lead, share float64)
				walk = func(lead key.Lead, share float64) {
					if lead.Next == 0 {
						walks += share
						assert.Contains(t, lead.Flies, f.Address)
						if len(lead.Flies) == 1 {
							alone += share
						}
						return
					}
					c := k.Couplets[lead.Next-1]
					if ch, ok := characters[c.Character]; ok {
						assert.True(t, ch.Applies(form, f.Described.Group), "%s asked of %s %v", c.Character, f.Name.S, form)
					}
					length := f.lengthIn(form, k.Month, k.rowOf(f))
					sides := trueSides(c, f, form, length)
					if len(sides) == 0 {
						assert.False(t, f.knows(c, form, length), "%s asked of %s %v: neither side is true", c.Character, f.Name.S, form)
						sides = []int{0, 1} // not known: either may be true
					}
					for _, i := range sides {
						part := 1 / float64(len(sides))
						if c.Character == key.LengthCharacter && len(sides) == 2 && length.High > length.Low {
							part = []float64{c.Limit - length.Low, length.High - c.Limit}[i] / (length.High - length.Low)
						}
						walk(c.Leads[i], share*part)
					}
				}
				walk(k.Start, 1)
			}
		}
	}
	assert.Greater(t, walks, 500.0)
	assert.GreaterOrEqual(t, alone/walks, 0.92, "%v of %v", alone, walks)
}

// walk gives the flies at the ends that a specimen can come to from a lead by true answers; what isn't known goes both
// ways. At couplet at the answer is not known, or the wrong one.
func (k *Key) walk(lead key.Lead, f *Fly, form key.Form, at int, wrong bool) (ends [][]string) {
	if lead.Next == 0 {
		return [][]string{lead.Flies}
	}
	c := k.Couplets[lead.Next-1]
	sides := trueSides(c, f, form, f.lengthIn(form, k.Month, k.rowOf(f)))
	if len(sides) == 0 || lead.Next == at && !wrong {
		sides = []int{0, 1}
	} else if lead.Next == at {
		sides = slices.DeleteFunc([]int{0, 1}, func(i int) bool { return slices.Contains(sides, i) })
	}
	for _, i := range sides {
		ends = append(ends, k.walk(c.Leads[i], f, form, at, wrong)...)
	}
	return ends
}

// One answer that isn't known, wherever it is asked, costs nothing but steps: the fly is at the end of one of the ways.
// One wrong answer ends, of 7,601 in the demo's keys, at another fly alone in .53, at several ends or flies without the
// right one in .37, and still at the right one, since a later couplet takes it both ways, in .10. The key can't notice, and
// its page says so.
func TestOneAnswerUnknownOrWrong(t *testing.T) {
	var n, other, several float64
	for _, k := range keysOf(demoBook(t, false)) {
		for _, f := range k.Flies {
			for _, form := range f.Described.Forms {
				if slices.Contains(k.LeftOut, f.Address) && form.Stage == "spinner" && form.Sex == "male" {
					continue
				}
				holds := func(flies []string) bool { return slices.Contains(flies, f.Address) }
				for at := range k.Couplets {
					require.True(t, slices.ContainsFunc(k.walk(k.Start, f, form, at+1, false), holds), "%s without couplet %d", f.Name.S, at+1)
				}
				for lead := k.Start; lead.Next != 0; {
					c := k.Couplets[lead.Next-1]
					sides := trueSides(c, f, form, f.lengthIn(form, k.Month, k.rowOf(f)))
					if len(sides) == 1 {
						ends := k.walk(k.Start, f, form, lead.Next, true)
						n++
						switch {
						case slices.ContainsFunc(ends, holds):
						case len(ends) == 1 && len(ends[0]) == 1:
							other++
						default:
							several++
						}
					}
					lead = c.Leads[append(sides, 0)[0]]
				}
			}
		}
	}
	require.Greater(t, n, 500.0)
	assert.Greater(t, other/n, 1.0/3, "what the page says of a wrong answer")
	t.Logf("%.0f wrong answers: another fly alone %.3f, several %.3f, the fly %.3f", n, other/n, several/n, 1-(other+several)/n)
}

func (k *Key) rowOf(f *Fly) *Row {
	for _, r := range f.Rows {
		if r.Water == k.Water {
			return r
		}
	}
	return nil
}

// knows reports whether the account says of a form what a couplet asks.
func (f *Fly) knows(c key.Couplet, form key.Form, length key.Measure) bool {
	switch c.Character {
	case key.LengthCharacter:
		return length.High > 0
	case key.ShadeCharacter:
		_, ok := f.Described.Colours[form][key.Body]
		return ok
	}
	return len(f.Described.States[form][c.Character]) > 0
}

func trueSides(c key.Couplet, f *Fly, form key.Form, length key.Measure) (sides []int) {
	switch c.Character {
	case key.LengthCharacter:
		for i, in := range []bool{length.Low <= c.Limit, length.High > c.Limit} {
			if in && length.High > 0 {
				sides = append(sides, i)
			}
		}
		return sides
	case key.ShadeCharacter:
		tint, ok := f.Described.Colours[form][key.Body]
		if !ok {
			return nil
		}
		shade := key.Mid
		if tint.Lab.L >= 60 {
			shade = key.Pale
		} else if tint.Lab.L < 30 {
			shade = key.Dark
		}
		for i, l := range c.Leads {
			if slices.Contains(l.States, shade) {
				sides = append(sides, i)
			}
		}
		return sides
	}
	for i, l := range c.Leads {
		if slices.ContainsFunc(f.Described.States[form][c.Character], func(s string) bool { return slices.Contains(l.States, s) }) {
			sides = append(sides, i)
		}
	}
	return sides
}

// Months take the lengths of the flights about them; where none is, of the nearest.
func TestFlightsThatSpeakForAMonth(t *testing.T) {
	for _, f := range demoBook(t, false).Flies {
		if f.Address == "large-dark-olive" { // to 25 April, and from 5 September
			for month, want := range map[int][]int{0: {0, 1}, 3: {0}, 5: {0}, 6: {0}, 7: {1}, 8: {1}, 10: {1}} {
				assert.Equal(t, want, f.flightsIn(month, nil), "%v", month)
			}
		}
	}
}

// The pairs that the trade fears lead. The small spurwing's is third: the large spurwing, which has its hind wing, comes
// first.
func TestFearedPairsLead(t *testing.T) {
	b := demoBook(t, false)
	for fly, want := range map[string]string{
		"yellow-sally": "small-yellow-sally", "small-yellow-sally": "yellow-sally", "sepia-dun": "claret-dun", "claret-dun": "sepia-dun",
		"pale-watery": "small-spurwing", "small-spurwing": "pale-watery", "large-dark-olive": "medium-olive",
	} {
		for _, f := range b.Flies {
			if f.Address == fly && assert.NotEmpty(t, f.Alike, fly) {
				var l []string
				for _, a := range f.Alike {
					l = append(l, a.ID)
				}
				first := 2
				if fly == "small-spurwing" {
					first = 3
				}
				assert.Contains(t, l[:min(first, len(l))], want, fmt.Sprint(fly, ": ", l))
			}
		}
	}
}

// No pair of another build stands among the look-alikes unless an account warns of it.
func TestNoOtherBuildUnlessWarnedOf(t *testing.T) {
	b := demoBook(t, false)
	posture := slices.IndexFunc(b.Vocabulary, func(c key.Character) bool { return c.Role == key.Posture })
	n := 0
	for _, w := range b.Waters {
		for _, r := range w.Rows {
			for _, a := range r.Alike {
				if a.Named {
					continue
				}
				n++
				for _, form := range r.Fly.Described.Forms {
					x, y := r.Fly.Described.States[form][b.Vocabulary[posture].Name], a.Fly.Described.States[form][b.Vocabulary[posture].Name]
					assert.True(t, len(x) == 0 || len(y) == 0 || slices.ContainsFunc(x, func(s string) bool { return slices.Contains(y, s) }), "%s and %s", r.Fly.Name.S, a.Name)
				}
			}
		}
	}
	assert.Positive(t, n)
}
