package season

// Quantiles of the beta distribution, for a month's range.

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// BetaQuantile returns x in [0,1] with P(X ≤ x) = p for X of Beta(a,b), good to
// 1e-10 in x. It returns NaN unless a and b are finite and above 0 and p lies in
// [0,1]. With a very small a or b nearly all the mass lies at 0 or 1, and x
// tends to 0 or 1 as it should.
func BetaQuantile(p, a, b float64) float64 {
	if !(a > 0) || !(b > 0) || !(p >= 0 && p <= 1) || math.IsInf(a, 0) || math.IsInf(b, 0) {
		return math.NaN()
	}
	return mathext.InvRegIncBeta(a, b, p)
}
