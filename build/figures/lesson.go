package figures

// A club evening: the flies of one water in one month, to be named from their drawings. What tells each from the others
// comes from the same features as the key.

import (
	"cmp"
	"hash/crc32"
	"slices"
	"strconv"

	"guidegen/content"
	"guidegen/species"
	"guidegen/species/key"
)

// Lesson is the flies of a water's month, in no order that tells.
type Lesson struct {
	Water *Water
	Month int
	Flies []LessonFly
}

// LessonFly is one fly in the form in which it is drawn.
type LessonFly struct {
	Fly    *Fly
	Stage  species.Stage
	Sex    species.Sex
	Signs  []LessonSign // what to look at, as it is looked at: with the naked eye
	Rivals []LessonSign // two other flies, each with what parts it from this one with the naked eye
	Like   []*Fly       // flies of the lesson that the naked eye doesn't part from this one as it is drawn
	Unseen bool         // the female goes under water to lay: no fish meets a spinner of hers on top
}

// LessonSign is a feature with its states here and, of a rival, there.
type LessonSign struct {
	Rival                 *Fly
	Character             string
	Mine, Theirs          []string
	MyLength, TheirLength [2]float64 // mm, from and to, where lengths tell
}

const (
	fewLessonFlies  = 3  // below which there is nothing to tell apart
	mostLessonFlies = 10 // on a table, and on two sheets
	mostRivals      = 2
	mostSigns       = 3
)

// HasLesson reports whether a month has flies enough to tell apart.
func (b *Book) HasLesson(w *Water, month int) bool {
	return len(lessonFlies(w, month)) >= fewLessonFlies
}

// lessonFlies are the likeliest flies of a water's month that have wings to tell by.
func lessonFlies(w *Water, month int) []*Fly {
	chance := map[*Fly]float64{}
	for _, r := range w.Rows {
		chance[r.Fly] = r.Months[month-1].Chance
	}
	flies := slices.DeleteFunc(slices.Clone(w.keyed[month-1]), func(f *Fly) bool { return len(f.Described.Forms) == 0 })
	slices.SortStableFunc(flies, func(a, b *Fly) int { return cmp.Compare(chance[b], chance[a]) })
	return flies[:min(len(flies), mostLessonFlies)]
}

// Lesson is nil where a month has too few flies.
func (b *Book) Lesson(w *Water, month int) *Lesson {
	flies := lessonFlies(w, month)
	if len(flies) < fewLessonFlies {
		return nil
	}
	mixed := func(f *Fly) uint32 { return crc32.ChecksumIEEE([]byte(strconv.Itoa(month) + w.Address + f.Address)) }
	slices.SortFunc(flies, func(x, y *Fly) int { return cmp.Or(cmp.Compare(mixed(x), mixed(y)), cmp.Compare(x.Address, y.Address)) })
	l := &Lesson{Water: w, Month: month}
	for i, f := range flies {
		form := lessonForm(f, i)
		x := LessonFly{Fly: f, Stage: species.Stage(form.Stage), Sex: species.Sex(form.Sex)}
		if lays, ok := f.Lays.First(); ok {
			x.Unseen = f.Group == species.Upwinged && lays.Value == species.LaysUnderWater
		}
		var rivals []LessonSign
		parts := map[string]int{} // how many others a character parts from this one
		for _, o := range flies {
			if o == f {
				continue
			}
			first := true
			for _, s := range b.parting(f, form, o) {
				parts[s.Character]++
				if first {
					rivals, first = append(rivals, s), false
				}
			}
			if first {
				x.Like = append(x.Like, o)
			}
		}
		slices.SortStableFunc(rivals, func(p, q LessonSign) int { // those most like it first: of its own group
			return cmp.Or(cmp.Compare(other(p.Rival, f), other(q.Rival, f)), cmp.Compare(mixed(p.Rival)^mixed(f), mixed(q.Rival)^mixed(f)))
		})
		x.Rivals = rivals[:min(len(rivals), mostRivals)]
		for _, c := range b.inOrderOfLooking() {
			if states := f.Described.States[form][c.Name]; len(states) > 0 && parts[c.Name] > 0 && len(x.Signs) < mostSigns {
				x.Signs = append(x.Signs, LessonSign{Character: c.Name, Mine: states})
			}
		}
		l.Flies = append(l.Flies, x)
	}
	return l
}

func other(a, b *Fly) int {
	if a.Group == b.Group {
		return 0
	}
	return 1
}

// lessonForm is the form in which the i-th fly is drawn: upwinged flies by turns as dun, male and female spinner.
func lessonForm(f *Fly, i int) key.Form {
	wanted := []key.Form{{Stage: "adult", Sex: "female"}, {Stage: "adult", Sex: "male"}}
	if f.Group == species.Upwinged {
		turns := []key.Form{{Stage: "dun", Sex: "female"}, {Stage: "spinner", Sex: "male"}, {Stage: "spinner", Sex: "female"}}
		wanted = append(slices.Clone(turns[i%3:]), turns...)
	}
	for _, form := range wanted {
		if slices.Contains(f.Described.Forms, form) {
			return form
		}
	}
	return f.Described.Forms[0]
}

// inOrderOfLooking are the characters that the naked eye sees.
func (b *Book) inOrderOfLooking() []key.Character {
	type placed struct {
		key.Character
		at int
	}
	var l []placed
	for i, c := range b.Vocabulary {
		if c.Needs == key.NakedEye {
			l = append(l, placed{c, c.Looked(i)})
		}
	}
	slices.SortStableFunc(l, func(x, y placed) int { return cmp.Compare(x.at, y.at) })
	var out []key.Character
	for _, p := range l {
		out = append(out, p.Character)
	}
	return out
}

// parting lists the characters, length the last, by which the naked eye parts a fly in one form from another fly in any form that shows
// them: no state in common, and known of both.
func (b *Book) parting(f *Fly, form key.Form, o *Fly) []LessonSign {
	var out []LessonSign
	for _, c := range b.inOrderOfLooking() {
		mine := f.Described.States[form][c.Name]
		var theirs []string
		known := len(mine) > 0
		for _, g := range o.Described.Forms {
			if !c.Applies(g, o.Described.Group) {
				continue
			}
			s := o.Described.States[g][c.Name]
			known = known && len(s) > 0
			for _, x := range s {
				if !slices.Contains(theirs, x) {
					theirs = append(theirs, x)
				}
			}
		}
		if known && len(theirs) > 0 && !slices.ContainsFunc(mine, func(s string) bool { return slices.Contains(theirs, s) }) {
			out = append(out, LessonSign{Rival: o, Character: c.Name, Mine: mine, Theirs: theirs})
		}
	}
	mine := f.LengthsOf(form)
	for part := range mine { // body with body, overall with overall
		var theirs [][2]float64
		known := len(mine[part]) > 0
		for _, g := range o.Described.Forms {
			l := o.LengthsOf(g)[part]
			known = known && len(l) > 0 // of a form whose length isn't known nothing is said
			theirs = append(theirs, l...)
		}
		m, t := spanOf(mine[part]), spanOf(theirs)
		if known && len(theirs) > 0 && (content.Round9(m[0]) > content.Round9(t[1]) || content.Round9(m[1]) < content.Round9(t[0])) {
			return append(out, LessonSign{Rival: o, Character: key.LengthCharacter, MyLength: m, TheirLength: t})
		}
	}
	return out
}

// spanOf is the range of several in mm; zero of none.
func spanOf(l [][2]float64) (span [2]float64) {
	for i, x := range l {
		if i == 0 {
			span = x
		}
		span = [2]float64{min(span[0], x[0]), max(span[1], x[1])}
	}
	return span
}
