// Package key tells flies apart: it finds the look-alikes of a fly and what separates them, and builds a
// dichotomous key for a set of flies.
//
// The package works on plain data. Chances reach it as numbers, and it knows
// nothing of accounts, waters or pages. A character that an account leaves
// out is not known: it is never a mismatch, and it never shuts a fly out.
package key

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guidegen/species/colour"
)

// Needs is what it takes to see a character. A greater value is harder to see.
type Needs int

// The three ways to see a character, easiest first.
const (
	NakedEye Needs = iota
	HandLens
	Microscope
)

var needsWords = [...]string{"naked eye", "hand lens", "microscope"}

// String returns the words of the vocabulary file: naked eye, hand lens, microscope.
func (n Needs) String() string {
	if n < 0 || int(n) >= len(needsWords) {
		return fmt.Sprintf("Needs(%d)", int(n))
	}
	return needsWords[n]
}

// MarshalText writes the words that String returns.
func (n Needs) MarshalText() ([]byte, error) { return []byte(n.String()), nil }

// UnmarshalText reads the words that String returns, and nothing else.
func (n *Needs) UnmarshalText(text []byte) error {
	i := slices.Index(needsWords[:], string(text))
	if i < 0 {
		return fmt.Errorf("key: %q is not one of %q", text, needsWords)
	}
	*n = Needs(i)
	return nil
}

// Form is a stage and a sex of a winged fly; in a character's SeenIn an empty Stage is every stage, an empty Sex both.
type Form struct{ Stage, Sex string }

// Parts of a fly that have a colour.
const (
	Body = "body"
	Wing = "wing"
	Legs = "legs"
)

// Role is what a character is to the rules: some are looked at before all others.
type Role int

// The roles, in the order in which one looks (common practice).
const (
	NoRole Role = iota
	Posture
	Pairs
	Tails
	Wings
)

// Character is one entry of the vocabulary.
type Character struct {
	Name   string
	Role   Role
	States []string // in the vocabulary's order
	SeenIn []Form   // where it can be seen; empty means everywhere
	Groups []string // groups of flies that it applies to; empty: those of which some fly has a state (Guide fills it in)
	Needs  Needs
}

// sees reports whether a form can show the character.
func (c Character) sees(f Form) bool {
	return len(c.SeenIn) == 0 || slices.ContainsFunc(c.SeenIn, func(s Form) bool {
		return (s.Stage == "" || s.Stage == f.Stage) && (s.Sex == "" || s.Sex == f.Sex)
	})
}

// Applies reports whether a form of a fly of a group can show the character.
func (c Character) Applies(f Form, group string) bool {
	return c.sees(f) && slices.Contains(c.Groups, group)
}

// Looked is the character's place in the order in which one looks, i its place in the vocabulary.
func (c Character) Looked(i int) int {
	switch c.Role {
	case Posture:
		return 0
	case Pairs:
		return 1
	case Tails:
		return 2
	case Wings:
		return 5
	}
	return 6 + i
}

// OnlyIn returns the sex that a character is confined to, or "" if it can be
// seen in both or its forms name different sexes.
func (c Character) OnlyIn() string {
	var sex string
	for i, f := range c.SeenIn {
		if f.Sex == "" || i > 0 && f.Sex != sex {
			return ""
		}
		sex = f.Sex
	}
	return sex
}

// Vocabulary is the guide's list of characters, in its own order, which
// settles ties.
type Vocabulary []Character

func (v Vocabulary) role(r Role) (Character, bool) {
	i := slices.IndexFunc(v, func(c Character) bool { return c.Role == r })
	if i < 0 {
		return Character{}, false
	}
	return v[i], true
}

// Tint is the colour of a part.
type Tint struct {
	Words  string
	Lab    colour.Lab
	Memory bool // from memory alone
}

// Fly is a fly as its account describes it, form by form. What is missing is not known.
type Fly struct {
	ID, Name, Group, Family string
	Mixed                   bool // its group holds animals of several kinds: land-bred, other water-bred
	Forms                   []Form
	States                  map[Form]map[string][]string
	Memory                  map[Form]map[string]bool // characters whose states rest on memory alone
	Colours                 map[Form]map[string]Tint
}

func (f *Fly) has(form Form) bool { return slices.Contains(f.Forms, form) }

func (f *Fly) memory(form Form, character string) bool { return f.Memory[form][character] }

// Guide is every fly of a guide with the vocabulary: what is common in a group is reckoned over all of it.
type Guide struct {
	Vocabulary Vocabulary
	flies      []*Fly
	shares     map[shareKey]float64
}

type shareKey struct {
	group, character, states string
	form                     Form
}

// NewGuide takes the vocabulary and all flies. Characters without groups get those of which some fly has a state.
func NewGuide(v Vocabulary, flies []*Fly) *Guide {
	g := &Guide{Vocabulary: slices.Clone(v), flies: flies, shares: map[shareKey]float64{}}
	for i := range g.Vocabulary {
		c := &g.Vocabulary[i]
		if len(c.Groups) > 0 {
			continue
		}
		for _, f := range flies {
			if !slices.Contains(c.Groups, f.Group) && slices.ContainsFunc(f.Forms, func(form Form) bool { return len(f.States[form][c.Name]) > 0 }) {
				c.Groups = append(c.Groups, f.Group)
			}
		}
	}
	// All shares that may be asked for are worked out now: later the guide is read from many sides at once.
	for _, c := range g.Vocabulary {
		for _, f := range flies {
			for _, form := range f.Forms {
				x := f.States[form][c.Name]
				for _, o := range flies {
					if shared := common(x, o.States[form][c.Name]); len(shared) > 0 {
						g.work(f.Group, c, form, shared)
						g.work(o.Group, c, form, shared)
					}
				}
			}
		}
	}
	return g
}

func key(group string, c Character, form Form, states []string) shareKey {
	return shareKey{group, c.Name, strings.Join(states, "\x00"), form}
}

func (g *Guide) work(group string, c Character, form Form, states []string) {
	k := key(group, c, form, states)
	if _, done := g.shares[k]; done {
		return
	}
	known, may := 0, 0
	for _, f := range g.flies {
		if has := f.States[form][c.Name]; f.Group == group && len(has) > 0 {
			known++
			if meet(has, states) {
				may++
			}
		}
	}
	g.shares[k] = float64(may) / float64(max(1, known))
}

// share is the share of a group's flies, known in a form, that may show one of the states.
func (g *Guide) share(group string, c Character, form Form, states []string) float64 {
	return g.shares[key(group, c, form, states)]
}

// meet reports whether two sets of words share one.
func meet(a, b []string) bool {
	for _, w := range a {
		if slices.Contains(b, w) {
			return true
		}
	}
	return false
}

// settle rounds to 1e-9, as every value is before it is compared.
func settle(x float64) float64 { return math.Round(x*1e9) / 1e9 }
