// Information gain.

package key

import "math"

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
