// Stage comparison: what differs between two stages of one fly, such as a dun
// and its spinner, row by row.

package key

import "guidegen/species/colour"

// SameToATyer is the colour difference, ΔE₀₀, below which no tyer could
// control the difference.
const SameToATyer = 2

// Row is one line of a stage comparison. A and B are both sides as given; the
// zero Value is not known, and a row known on one side only does not differ.
//
// Ratio is B's size over A's, medians where measured, else the middle of the
// range; 0 if either is not known. DeltaE is ΔE₀₀ where HasDeltaE.
type Row struct {
	Character string
	Kind      Kind
	Needs     Needs
	A, B      Value
	Differs   bool
	Ratio     float64
	DeltaE    float64
	HasDeltaE bool
}

// Compare lists the characters known for either side, those that differ
// first, each part in the vocabulary's order. Two sides differ where their
// sets of states, or their ranges of length, don't meet. Colours differ by
// their words, or, where either side has no word, by ΔE₀₀ of at least 2.
func Compare(v Vocabulary, a, b Taxon) []Row {
	var differ, rest []Row
	for _, c := range v {
		r := Row{Character: c.Name, Kind: c.Kind, Needs: c.Needs, A: a.Values[c.Name], B: b.Values[c.Name]}
		if !r.A.Known() && !r.B.Known() {
			continue
		}
		if r.A.Size != nil && r.B.Size != nil && r.A.Size.Centre() > 0 {
			r.Ratio = r.B.Size.Centre() / r.A.Size.Centre()
		}
		if r.A.Lab != nil && r.B.Lab != nil {
			r.DeltaE, r.HasDeltaE = colour.Difference(*r.A.Lab, *r.B.Lab), true
		}
		r.Differs = apart(r)
		if r.Differs {
			differ = append(differ, r)
		} else {
			rest = append(rest, r)
		}
	}
	return append(differ, rest...)
}

func apart(r Row) bool {
	switch {
	case r.Kind == Length:
		return r.A.Size != nil && r.B.Size != nil && sizesApart(*r.A.Size, *r.B.Size)
	case len(r.A.States) > 0 && len(r.B.States) > 0:
		return !meet(r.A.States, r.B.States)
	default:
		return r.HasDeltaE && settle(r.DeltaE) >= SameToATyer
	}
}

func sizesApart(a, b Size) bool {
	return settle(a.High) < settle(b.Low) || settle(b.High) < settle(a.Low)
}
