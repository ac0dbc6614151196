package figures

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/species"
	"guidegen/species/key"
)

// Every lesson of the demo can be solved: a rival is parted from the drawing by what the naked eye sees in every form of
// it, a fly that could as well be meant is named as such, and each has two rivals where so many can be told from it.
func TestLessonsCanBeSolved(t *testing.T) {
	b := demoBook(t, true)
	lessons := 0
	for _, w := range b.Waters {
		for m := 1; m <= 12; m++ {
			l := b.Lesson(w, m)
			if l == nil {
				continue
			}
			lessons++
			assert.LessOrEqual(t, len(l.Flies), mostLessonFlies)
			for _, x := range l.Flies {
				where := fmt.Sprint(w.Name.S, " ", m, " ", x.Fly.Name.S)
				form := key.Form{Stage: string(x.Stage), Sex: string(x.Sex)}
				require.Contains(t, x.Fly.Described.Forms, form, where)
				assert.Len(t, x.Rivals, min(mostRivals, len(l.Flies)-1-len(x.Like)), where)
				for _, r := range x.Rivals {
					assert.NotContains(t, x.Like, r.Rival, where)
					if r.Character == key.LengthCharacter {
						continue
					}
					assert.Equal(t, x.Fly.Described.States[form][r.Character], r.Mine, where)
					for _, g := range r.Rival.Described.Forms {
						for _, s := range r.Rival.Described.States[g][r.Character] {
							assert.NotContains(t, r.Mine, s, where)
						}
					}
				}
				for _, f := range x.Like {
					assert.Empty(t, b.parting(x.Fly, form, f), "%s and %s", where, f.Name.S)
				}
			}
			again := b.Lesson(w, m)
			assert.True(t, slices.EqualFunc(l.Flies, again.Flies, func(x, y LessonFly) bool { return x.Fly == y.Fly && x.Stage == y.Stage }), "the same order each time")
		}
	}
	assert.Greater(t, lessons, 12)
}

// Upwinged flies are drawn by turns as dun, male and female spinner; what a fly has no form of is passed over.
func TestLessonForms(t *testing.T) {
	forms := []key.Form{{Stage: "dun", Sex: "male"}, {Stage: "dun", Sex: "female"}, {Stage: "spinner", Sex: "male"}, {Stage: "spinner", Sex: "female"}}
	for i, want := range map[int]key.Form{0: forms[1], 1: forms[2], 2: forms[3], 3: forms[1]} {
		assert.Equal(t, want, lessonForm(flyOf("upwinged", forms...), i), i)
	}
	assert.Equal(t, forms[1], lessonForm(flyOf("upwinged", forms[0], forms[1]), 1), "no male spinner")
	adults := []key.Form{{Stage: "adult", Sex: "male"}, {Stage: "adult", Sex: "female"}}
	assert.Equal(t, adults[1], lessonForm(flyOf("sedge", adults...), 4))
	assert.Equal(t, adults[0], lessonForm(flyOf("sedge", adults[0]), 4))
	assert.Equal(t, key.Form{Stage: "adult"}, lessonForm(flyOf("gnat", key.Form{Stage: "adult"}), 0))
}

func flyOf(group string, forms ...key.Form) *Fly {
	return &Fly{Account: &species.Account{Group: species.Group(group)}, Described: &key.Fly{Group: group, Forms: forms}}
}
