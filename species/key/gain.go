// Information gain, and the best couplet for a set of flies: what the key and
// the sieve share.

package key

import (
	"math"
	"slices"
)

// Gain is the information gain of a split, in bits:
//
//	H(all) - Σ_b (W_b / W) H(b),   H = -Σ_c p_c log₂ p_c
//
// with one row per branch and one column per class, each cell the weight that
// falls there. A class whose weight is divided between branches counts in each
// with its share of the weight.
//
// Quinlan 1986, Machine Learning 1:81–106.
func Gain(branches [][]float64) float64 {
	var all []float64
	for _, b := range branches {
		for c, w := range b {
			if c == len(all) {
				all = append(all, 0)
			}
			all[c] += w
		}
	}
	before, total := entropy(all)
	if total == 0 {
		return 0
	}
	var after float64
	for _, b := range branches {
		h, w := entropy(b)
		after += float64(w / total * h)
	}
	return before - after
}

// entropy returns the entropy of weights in bits, and their sum.
func entropy(weights []float64) (bits, total float64) {
	for _, w := range weights {
		total += w
	}
	for _, w := range weights {
		if w > 0 {
			p := w / total
			bits -= float64(p * math.Log2(p))
		}
	}
	return bits, total
}

// coupletGain is Gain for a couplet in which every fly is its own class: yes
// is the share of the weight on the first side, both the share of the flies
// that go down both sides with half their weight each. A fly wholly on one
// side says which side once it is named; one on both leaves one bit open:
//
//	gain = H(yes, 1 - yes) - both
func coupletGain(yes, both float64) float64 {
	h, _ := entropy([]float64{yes, 1 - yes})
	return h - both
}

// table holds the flies' states as places in the vocabulary: row = fly,
// column = character; empty = not known. Words that the vocabulary lacks are
// passed over.
type table struct {
	vocabulary Vocabulary
	states     [][][]int
}

func tabulate(v Vocabulary, taxa []Taxon) table {
	t := table{v, make([][][]int, len(taxa))}
	for i, x := range taxa {
		t.states[i] = make([][]int, len(v))
		for c, ch := range v {
			if ch.Kind != Words {
				continue
			}
			words := x.Values[ch.Name].States
			for s, w := range ch.States {
				if slices.Contains(words, w) {
					t.states[i][c] = append(t.states[i][c], s)
				}
			}
		}
	}
	return t
}

// member is a fly in a branch with the weight that has reached it.
type member struct {
	fly    int
	weight float64
}

// open says, by character and state, which answers are still possible in a
// branch; nil means all of a character's.
type open [][]bool

func (o open) allows(c, s int) bool { return o[c] == nil || o[c][s] }

// split is a couplet's question: one state of a character against the rest.
type split struct{ character, state int }

// side says which way a fly goes: yes, no, or both.
type side int

const (
	bothSides side = iota
	yesSide
	noSide
)

// goes finds a fly's side by those of its states that are still open in the
// branch: one that has been answered already is no longer among the rest.
func (t table) goes(o open, q split, fly int) side {
	var here, rest bool
	for _, s := range t.states[fly][q.character] {
		switch {
		case s == q.state:
			here = true
		case o.allows(q.character, s):
			rest = true
		}
	}
	switch {
	case here && !rest:
		return yesSide
	case rest && !here:
		return noSide
	}
	return bothSides
}

// best finds the split with the largest gain times ease among those that make
// both branches smaller; ties go to the earlier character, then the earlier
// state. ok is false where none does.
//
// No limit is put on the gain itself: with a fly wholly on either side it is
// above nought, and rounding must not end a key that could go on.
func (t table) best(set Settings, flies []member, o open, skip func(character int) bool) (q split, ok bool) {
	var total, top float64
	for _, m := range flies {
		total += m.weight
	}
	if total == 0 { // no base and no chances: every split gains alike
		total = 1
	}
	for c, ch := range t.vocabulary {
		if ch.Kind != Words || skip != nil && skip(c) {
			continue
		}
		// By state: the flies with only that state, and those with others too.
		type tally struct {
			only, mixed   float64
			nOnly, nMixed int
		}
		sums := make([]tally, len(ch.States))
		var unknown float64
		var nUnknown int
		for _, m := range flies {
			states, n := t.states[m.fly][c], 0
			for _, s := range states {
				if o.allows(c, s) {
					n++
				}
			}
			if n == 0 {
				unknown += m.weight
				nUnknown++
			}
			for _, s := range states {
				switch {
				case !o.allows(c, s):
				case n == 1:
					sums[s].only += m.weight
					sums[s].nOnly++
				default:
					sums[s].mixed += m.weight
					sums[s].nMixed++
				}
			}
		}
		for s, a := range sums {
			if !o.allows(c, s) || a.nOnly == 0 || a.nOnly+a.nMixed+nUnknown == len(flies) {
				continue
			}
			shared := (a.mixed + unknown) / total
			score := settle(set.ease(ch.Needs) * coupletGain(a.only/total+shared/2, shared))
			if !ok || score > top {
				q, top, ok = split{c, s}, score, true
			}
		}
	}
	return q, ok
}
