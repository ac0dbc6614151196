package species

import "guidegen/content"

// Claim is one statement: its value, its words, what it rests on and where it stands.
type Claim[T any] struct {
	Value T
	Text  string // as written, without the basis
	Basis content.Basis
	At    content.Place
}

// Claims is a statement and what others say. The first is reckoned with.
type Claims[T any] []Claim[T]

// First returns the claim that is reckoned with.
func (c Claims[T]) First() (Claim[T], bool) {
	if len(c) == 0 {
		return Claim[T]{}, false
	}
	return c[0], true
}

// Words name the case a statement holds for; an empty word means any.
type Words struct {
	Stage  Stage
	Sex    Sex
	Flight string
}

// Holds reports whether a statement for w holds in the case c.
func (w Words) Holds(c Words) bool {
	return (w.Stage == "" || w.Stage == c.Stage) && (w.Sex == "" || w.Sex == c.Sex) && (w.Flight == "" || w.Flight == c.Flight)
}

// Weight is how specific the words are.
func (w Words) Weight() int {
	n := 0
	for _, s := range []bool{w.Stage != "", w.Sex != "", w.Flight != ""} {
		if s {
			n++
		}
	}
	return n
}

// Case is the claims for one set of words.
type Case[T any] struct {
	Words  Words
	Claims Claims[T]
}

// Property is one property of a fly, by case, in the order written.
type Property[T any] []Case[T]

// For returns the claims of the most specific case that holds. The reader has
// refused properties in which two equally specific cases hold at once.
func (p Property[T]) For(c Words) Claims[T] {
	best, weight := Claims[T](nil), -1
	for _, k := range p {
		if w := k.Words.Weight(); k.Words.Holds(c) && w > weight {
			best, weight = k.Claims, w
		}
	}
	return best
}

// First returns the claim reckoned with in a case.
func (p Property[T]) First(c Words) (Claim[T], bool) { return p.For(c).First() }
