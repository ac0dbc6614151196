package figures

// Flies as the key, the look-alikes and the stage comparison take them (the
// guide's rules on figures, section 11).

import (
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"guidegen/content"
	"guidegen/rivers/season"
	"guidegen/species"
	"guidegen/species/colour"
	"guidegen/species/key"
)

// The characters that every guide has beside its own vocabulary.
const (
	lengthCharacter = "length"
	colourCharacter = "colour"
)

// taxa holds the vocabulary and what each account says in its terms.
type taxa struct {
	words  key.Vocabulary // the guide's characters
	all    key.Vocabulary // with length and colours
	byFly  map[*Fly]key.Taxon
	ranges key.Ranges
}

// vocabulary builds the taxa: a fly is described by all its stages on the
// wing together, since a person who keys out a fly doesn't know its stage yet.
func (r *reckoner) vocabulary() {
	t := &taxa{byFly: map[*Fly]key.Taxon{}}
	for _, c := range r.e.Characters {
		k := key.Character{Name: c.Name, Needs: needsOf(c.Needs)}
		for _, s := range c.States {
			k.States = append(k.States, s.Name)
		}
		for _, w := range c.Seen {
			k.SeenIn = append(k.SeenIn, key.Form{Stage: string(w.Stage), Sex: string(w.Sex)})
		}
		t.words = append(t.words, k)
	}
	t.all = append(slices.Clone(t.words), key.Character{Name: lengthCharacter, Kind: key.Length},
		key.Character{Name: colourCharacter, Kind: key.Colour})
	var guide []key.Taxon
	for _, f := range r.book.Flies {
		x := r.taxon(f)
		for _, row := range f.Rows {
			x.Chance = max(x.Chance, row.stand.chances.Chance.Largest())
		}
		f.Taxon = x
		t.byFly[f] = x
		guide = append(guide, x)
	}
	t.ranges = key.RangesOf(t.all, guide)
	r.taxa = t
	r.book.Vocabulary = t.words
}

func needsOf(n species.Needs) key.Needs {
	return key.Needs(max(0, slices.Index(species.AllNeeds, n)))
}

func (r *reckoner) taxon(f *Fly) key.Taxon {
	x := key.Taxon{ID: f.Address, Name: f.Name.S, Values: map[string]key.Value{}}
	for i := range r.e.Characters {
		c := &r.e.Characters[i]
		if states := statesOf(f.Account, c, onTheWing(f.Group)); len(states) > 0 {
			x.Values[c.Name] = key.Value{States: states}
		}
	}
	var size *key.Size
	for _, st := range onTheWing(f.Group) {
		for _, w := range casesOf(f.Account, st) {
			if c, ok := lengthsOf(f.Account, w, f.Group.Habit(st)).First(); ok {
				if size == nil {
					size = &key.Size{Low: math.Inf(1)}
				}
				size.Low, size.High = min(size.Low, float64(c.Value.Low)), max(size.High, float64(c.Value.High))
			}
		}
	}
	if size != nil {
		x.Values[lengthCharacter] = key.Value{Size: size}
	}
	for _, st := range onTheWing(f.Group) {
		if _, known := x.Values[colourCharacter]; known {
			break
		}
		if s, ok := shadeOf(f.Account, "body", st); ok && s.Colour.HasValue {
			lab := s.Colour.Value.Lab()
			x.Values[colourCharacter] = key.Value{States: []string{s.Colour.String()}, Lab: &lab}
		}
	}
	return x
}

// onTheWing lists the group's stages that fly.
func onTheWing(g species.Group) []species.Stage {
	var l []species.Stage
	for _, s := range g.Stages() {
		if s.OnTheWing() {
			l = append(l, s)
		}
	}
	return l
}

// casesOf lists every case of a stage: both sexes and either, in each flight.
func casesOf(a *species.Account, st species.Stage) []species.Words {
	var l []species.Words
	for _, sex := range []species.Sex{species.NoSex, species.Male, species.Female} {
		l = append(l, species.Words{Stage: st, Sex: sex})
		for _, f := range a.Flights {
			l = append(l, species.Words{Stage: st, Sex: sex, Flight: f.Name})
		}
	}
	return l
}

// statesOf joins the states an account gives a character over some stages,
// in the vocabulary's order. A stage in which the character can't be seen
// says nothing.
func statesOf(a *species.Account, c *species.Character, stages []species.Stage) []string {
	has := map[string]bool{}
	for _, st := range stages {
		for _, w := range casesOf(a, st) {
			if !c.Sees(w) {
				continue
			}
			if claim, ok := a.Feature(c.Name, w); ok {
				for _, s := range claim.Value {
					has[s] = true
				}
			}
		}
	}
	var l []string
	for _, s := range c.States {
		if has[s.Name] {
			l = append(l, s.Name)
		}
	}
	return l
}

// shadeOf finds the colour of a part in a stage, either sex.
func shadeOf(a *species.Account, part string, st species.Stage) (species.Shade, bool) {
	for _, p := range a.Colours {
		if p.Part != part {
			continue
		}
		for _, w := range casesOf(a, st) {
			if c, ok := p.Cases.First(w); ok {
				return c.Value, true
			}
		}
	}
	return species.Shade{}, false
}

// labsOf gives the colours of a fly's parts in one case, for comparison with
// dressings.
func labsOf(a *species.Account, w species.Words) map[string]colour.Lab {
	out := map[string]colour.Lab{}
	for _, p := range a.Colours {
		if c, ok := p.Cases.First(w); ok && c.Value.Colour.HasValue {
			out[p.Part] = c.Value.Colour.Value.Lab()
		}
	}
	return out
}

// alike finds a row's look-alikes among the flies of its water.
func (r *reckoner) alike(row *Row, rows []*Row) ([]Alike, int) {
	return r.alikeIn(row.Fly, &row.stand.p, func(add func(*Fly, *season.Curve)) {
		for _, o := range rows {
			add(o.Fly, &o.stand.p)
		}
	})
}

// alikeAnywhere finds a fly's look-alikes over the whole guide, by the
// accounts' own curves at the reference.
func (r *reckoner) alikeAnywhere(f *Fly) ([]Alike, int) {
	return r.alikeIn(f, f.curve, func(add func(*Fly, *season.Curve)) {
		for _, o := range r.book.Flies {
			add(o, o.curve)
		}
	})
}

func (r *reckoner) alikeIn(f *Fly, curve *season.Curve, each func(add func(*Fly, *season.Curve))) (list []Alike, more int) {
	var others []key.Season
	each(func(o *Fly, c *season.Curve) {
		others = append(others, key.Season{Taxon: r.taxa.byFly[o], Curve: c[:]})
	})
	fly := key.Season{Taxon: r.taxa.byFly[f], Curve: curve[:]}
	found, more := key.LookAlikes(r.taxa.all, r.taxa.ranges, fly, others, r.c.Overlap, int(r.c.MostAlike), f.named)
	for _, l := range found {
		list = append(list, Alike{l, r.flies[l.ID]})
	}
	return list, more
}

// namedBy finds the flies that an account's text names or links to.
func (r *reckoner) namedBy(f *Fly) map[string]bool {
	out, text := map[string]bool{}, content.Fold(f.Body.Markdown)
	for _, o := range r.book.Flies {
		words := []string{o.Address + ".md", o.Name.S}
		for _, n := range o.Also {
			words = append(words, n.S)
		}
		if o != f && slices.ContainsFunc(words, func(w string) bool { return holdsWord(text, content.Fold(w)) }) {
			out[o.Address] = true
		}
	}
	return out
}

// holdsWord reports whether a text holds a name as whole words.
func holdsWord(text, name string) bool {
	letter := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	for from := 0; name != ""; {
		i := strings.Index(text[from:], name)
		if i < 0 {
			break
		}
		before, _ := utf8.DecodeLastRuneInString(text[:from+i])
		from += i + len(name)
		if after, _ := utf8.DecodeRuneInString(text[from:]); !letter(before) && !letter(after) {
			return true
		}
	}
	return false
}

// keyFor makes the key of a set of flies weighted by their chance in it.
func (r *reckoner) keyFor(w *Water, month int, flies []*Fly, chance func(*Fly) float64) *Key {
	var set []key.Taxon
	for _, f := range flies {
		x := r.taxa.byFly[f]
		x.Chance = chance(f)
		set = append(set, x)
	}
	return &Key{key.Build(r.taxa.words, set, r.c.Key), w, month, flies}
}
