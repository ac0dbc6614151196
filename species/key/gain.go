// Information gain.

package key

import "math"

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
