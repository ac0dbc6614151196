// Package key tells flies apart: it compares two stages of one fly, finds the
// look-alikes of a fly, builds a dichotomous key for a set of flies, and ranks
// flies by what a reader has ticked (the sieve).
//
// The package works on plain data. Chances reach it as numbers, and it knows
// nothing of accounts, waters or pages. A character that an account leaves
// out is not known: it is never a mismatch, and it never shuts a fly out.
package key

import (
	"fmt"
	"math"
	"slices"

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

// Kind is the sort of value a character takes.
type Kind int

// Only characters of kind Words enter a key or the sieve; lengths and colours
// enter comparisons and similarities.
const (
	Words  Kind = iota // one or more of the character's states
	Length             // millimetres
	Colour             // colour words, with or without a value
)

// Form is a stage and a sex; an empty Stage is every stage, an empty Sex both.
type Form struct{ Stage, Sex string }

// Character is one entry of the vocabulary.
type Character struct {
	Name   string
	Kind   Kind
	States []string // in the vocabulary's order; only for Words
	SeenIn []Form   // where it can be seen; empty means everywhere
	Needs  Needs
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

// In returns the characters that can be seen in a stage, each with only the
// forms of that stage, so that OnlyIn speaks of that stage alone.
func (v Vocabulary) In(stage string) Vocabulary {
	var out Vocabulary
	for _, c := range v {
		if len(c.SeenIn) == 0 {
			out = append(out, c)
			continue
		}
		var forms []Form
		for _, f := range c.SeenIn {
			if f.Stage == stage || f.Stage == "" {
				forms = append(forms, f)
			}
		}
		if len(forms) > 0 {
			c.SeenIn = forms
			out = append(out, c)
		}
	}
	return out
}

// Size is a length in millimetres: the range, and the median where specimens
// were measured (0 if not).
type Size struct{ Low, High, Median float64 }

// Mid is the middle of the range. It stands for a length in similarities,
// whether or not a median is known, so that two flies are always compared by
// the same measure.
func (s Size) Mid() float64 { return (s.Low + s.High) / 2 }

// Centre is the median where specimens were measured, else the middle of the range.
func (s Size) Centre() float64 {
	if s.Median > 0 {
		return s.Median
	}
	return s.Mid()
}

// Value is what is known of one character of one fly. The zero Value is "not
// known". States holds the states of a Words character or the words of a
// Colour one.
type Value struct {
	States []string
	Size   *Size
	Lab    *colour.Lab
}

// Known reports whether anything is known.
func (v Value) Known() bool { return len(v.States) > 0 || v.Size != nil || v.Lab != nil }

// Taxon is a fly, or a stage of one, as its account describes it. Chance is
// its chance in the set in question, 0 to 1; anything that is not a positive
// number counts as 0. Values are by the character's name; a missing one is not
// known. ID must differ between the taxa of a set.
type Taxon struct {
	ID, Name string
	Chance   float64
	Values   map[string]Value
}

func (t Taxon) chance() float64 {
	if t.Chance > 0 && !math.IsInf(t.Chance, 1) {
		return t.Chance
	}
	return 0
}

// Settings are the constants of keys and the sieve.
type Settings struct {
	Base         float64    // added to every chance, so that no fly weighs nothing
	Ease         [3]float64 // by Needs: the gain is multiplied by it
	MostCouplets int        // a key is cut beyond this many couplets
}

// Defaults are the settings of a guide that names none: our judgement.
//
// The limit on couplets is there because a fly goes down both branches where
// a character isn't known, so that a large set of poorly known flies would
// grow a key without end; leaves that it cuts say so.
func Defaults() Settings {
	return Settings{Base: 0.01, Ease: [3]float64{1, 0.7, 0.4}, MostCouplets: 2000}
}

func (s Settings) ease(n Needs) float64 {
	if n < 0 || int(n) >= len(s.Ease) {
		return 0
	}
	return s.Ease[n]
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
