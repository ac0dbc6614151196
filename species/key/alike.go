// Look-alikes: which flies on the wing together resemble each other, and what
// separates each pair.

package key

import (
	"cmp"
	"math"
	"slices"

	"guidegen/species/colour"
)

// LeastOverlap is the share of the shorter season that two flies must have in
// common to be look-alikes, unless a guide says otherwise: our judgement.
const LeastOverlap = 0.2

// MostLookAlikes is how many look-alikes a fly is given, the most similar ones,
// unless a guide says otherwise: our judgement. In a large guide nearly every fly
// on the wing would else stand beside every other.
const MostLookAlikes = 6

// Overlap is the share of the smaller of two curves that lies under the other:
//
//	Σ min(p₁,p₂) / min(Σp₁,Σp₂)
//
// Both hold one value a day (or a cell) of the same year, in the same order.
// A curve that is nought throughout overlaps nothing.
func Overlap(p1, p2 []float64) float64 {
	var both, s1, s2 float64
	for i := range min(len(p1), len(p2)) {
		both += min(p1[i], p2[i])
	}
	for _, p := range p1 {
		s1 += p
	}
	for _, p := range p2 {
		s2 += p
	}
	if least := min(s1, s2); least > 0 {
		return both / least
	}
	return 0
}

// Ranges holds, by character, the range of each length (mm, between middles of
// ranges) and of each colour (largest ΔE₀₀ between two flies) over the guide.
type Ranges map[string]float64

// RangesOf reckons the ranges over all flies of a guide, not only those being
// compared.
func RangesOf(v Vocabulary, guide []Taxon) Ranges {
	out := Ranges{}
	for _, c := range v {
		switch c.Kind {
		case Length:
			low, high := math.Inf(1), math.Inf(-1)
			for _, t := range guide {
				if s := t.Values[c.Name].Size; s != nil {
					low, high = min(low, s.Mid()), max(high, s.Mid())
				}
			}
			if high > low {
				out[c.Name] = high - low
			}
		case Colour:
			var labs []colour.Lab
			for _, t := range guide {
				if lab := t.Values[c.Name].Lab; lab != nil && !slices.Contains(labs, *lab) {
					labs = append(labs, *lab)
				}
			}
			for i, a := range labs {
				for _, b := range labs[:i] {
					out[c.Name] = max(out[c.Name], colour.Difference(a, b))
				}
			}
		}
	}
	return out
}

// Similarity is Gower's general coefficient over the characters known for
// both, each weighing the same, and the number of those characters:
//
//	S = Σ s_k / n,   s_k = 1 where the sets of states meet, else 0;
//	                 s_k = 1 - |difference| / range for lengths and colours
//
// Lengths are compared by the middles of their ranges, colours by ΔE₀₀ (or by
// their words where a value is missing). With no character known for both it
// returns 0, 0: not similar and not different, but not known.
//
// Gower 1971, Biometrics 27:857–871.
func Similarity(v Vocabulary, ranges Ranges, a, b Taxon) (similarity float64, compared int) {
	var sum float64
	for _, c := range v {
		if s, ok := alike(c, ranges[c.Name], a.Values[c.Name], b.Values[c.Name]); ok {
			sum += s
			compared++
		}
	}
	if compared == 0 {
		return 0, 0
	}
	return sum / float64(compared), compared
}

func alike(c Character, span float64, a, b Value) (s float64, ok bool) {
	switch {
	case c.Kind == Length:
		if a.Size == nil || b.Size == nil {
			return 0, false
		}
		return near(math.Abs(a.Size.Mid()-b.Size.Mid()), span), true
	case c.Kind == Colour && a.Lab != nil && b.Lab != nil:
		return near(colour.Difference(*a.Lab, *b.Lab), span), true
	case len(a.States) == 0 || len(b.States) == 0:
		return 0, false
	case meet(a.States, b.States):
		return 1, true
	default:
		return 0, true
	}
}

// near is 1 - d/span, held to 0…1 for a fly from outside the range.
func near(d, span float64) float64 {
	if d == 0 {
		return 1
	}
	if span <= d {
		return 0
	}
	return 1 - d/span
}

// Verdict says how a pair can be told apart.
type Verdict int

// The first two are separable in the hand (the second for one sex only); the
// next two are "not separable in the hand", with what it would take; the last
// is "cannot tell": no character is known for both.
const (
	InTheHand Verdict = iota
	OneSexInTheHand
	OnlyMicroscope
	NotSeparable
	NothingKnown
)

// Separable reports whether a pair can be told apart in the hand, in one sex at least.
func (v Verdict) Separable() bool { return v == InTheHand || v == OneSexInTheHand }

// Separator is a character by which the two of a pair never agree. OnlyIn is
// the sex it is confined to, or "".
type Separator struct {
	Character string
	Needs     Needs
	OnlyIn    string
	A, B      Value
}

// Separators lists what separates a pair, easiest to see first, then in the
// vocabulary's order, and the verdict; sex is the one that can be told apart
// where the verdict is OneSexInTheHand.
//
// States and lengths separate where their sets or ranges don't meet. A colour
// never separates: it changes within minutes of hatching and after death.
func Separators(v Vocabulary, a, b Taxon) (list []Separator, verdict Verdict, sex string) {
	verdict = NothingKnown
	for _, c := range v {
		x, y := a.Values[c.Name], b.Values[c.Name]
		if !x.Known() || !y.Known() {
			continue
		}
		if _, ok := alike(c, 0, x, y); !ok {
			continue
		}
		if verdict == NothingKnown {
			verdict = NotSeparable
		}
		if c.Kind != Colour && apart(Row{Kind: c.Kind, A: x, B: y}) {
			list = append(list, Separator{c.Name, c.Needs, c.OnlyIn(), x, y})
		}
	}
	slices.SortStableFunc(list, func(a, b Separator) int { return cmp.Compare(a.Needs, b.Needs) })
	if len(list) == 0 {
		return nil, verdict, ""
	}
	verdict = OnlyMicroscope
	for _, s := range list {
		if s.Needs >= Microscope {
			break
		}
		if s.OnlyIn == "" || verdict == OneSexInTheHand && s.OnlyIn != sex {
			return list, InTheHand, ""
		}
		verdict, sex = OneSexInTheHand, s.OnlyIn
	}
	return list, verdict, sex
}

// Season is a fly with its curve over the year on one water.
type Season struct {
	Taxon
	Curve []float64
}

// LookAlike is one fly that could be taken for another. Similarity counts over
// Compared characters; with Compared 0 it is not known. Named are those that
// the fly's own account warns of.
type LookAlike struct {
	ID, Name   string
	Named      bool
	Overlap    float64
	Similarity float64
	Compared   int
	Separators []Separator // A is the fly asked about, B the look-alike
	Verdict    Verdict
	Sex        string
}

// LookAlikes ranks the flies whose season overlaps that of one fly by at least
// the share least: most similar first, ties by name; flies with nothing known
// in common stand last. The fly itself is left out by its ID. The first most of
// them are listed, and of the others those that the fly's account names, by
// their IDs; more is how many are not.
func LookAlikes(v Vocabulary, ranges Ranges, fly Season, others []Season, least float64, most int, named map[string]bool) (list []LookAlike, more int) {
	type candidate struct {
		LookAlike
		taxon Taxon
	}
	var all []candidate
	for _, o := range others {
		if o.ID == fly.ID {
			continue
		}
		overlap := Overlap(fly.Curve, o.Curve)
		if settle(overlap) < settle(least) {
			continue
		}
		l := LookAlike{ID: o.ID, Name: o.Name, Named: named[o.ID], Overlap: overlap}
		l.Similarity, l.Compared = Similarity(v, ranges, fly.Taxon, o.Taxon)
		all = append(all, candidate{l, o.Taxon})
	}
	slices.SortStableFunc(all, func(a, b candidate) int {
		if (a.Compared == 0) != (b.Compared == 0) {
			if a.Compared == 0 {
				return 1
			}
			return -1
		}
		return cmp.Or(
			cmp.Compare(settle(b.Similarity), settle(a.Similarity)),
			cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID))
	})
	for i, c := range all {
		if i >= most && !c.Named {
			more++
			continue
		}
		c.Separators, c.Verdict, c.Sex = Separators(v, fly.Taxon, c.taxon)
		list = append(list, c.LookAlike)
	}
	return list, more
}
