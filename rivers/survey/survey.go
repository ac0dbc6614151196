// Package survey says how well a water is known: how many species are likely
// to be there beside those found. It works on plain counts.
package survey

import "math"

// Richness is species found against species expected.
type Richness struct {
	Visits   int     // visits that looked
	Found    int     // species found
	Once     int     // species found on exactly one visit, Q1
	Twice    int     // species found on exactly two visits, Q2
	Expected float64 // Chao2, at least Found
	StdErr   float64
	Known    bool // at least two visits and one species
}

// Chao2 estimates how many species a water holds from the number of visits on
// which each was found (only those found at least once) and the number of
// visits. The bias-corrected incidence form:
//
//	S = S_obs + ((m-1)/m) Q1 (Q1-1) / (2 (Q2+1))
//
// Chao 1987, Biometrics 43:783–791. The variance is that of the same form, as
// given by Colwell in the user's guide to EstimateS, appendix B; from memory.
func Chao2(found []int, visits int) Richness {
	r := Richness{Visits: visits}
	total := 0
	for _, n := range found {
		if n <= 0 {
			continue
		}
		r.Found++
		total += n
		switch n {
		case 1:
			r.Once++
		case 2:
			r.Twice++
		}
	}
	if visits < 2 || r.Found == 0 {
		r.Expected = float64(r.Found)
		return r
	}
	r.Known = true
	a := float64(visits-1) / float64(visits)
	q1, q2, s := float64(r.Once), float64(r.Twice), float64(r.Found)
	r.Expected = s + a*q1*(q1-1)/(2*(q2+1))
	var v float64
	switch {
	case r.Once == 0:
		e := math.Exp(-float64(total) / s)
		v = s * e * (1 - e)
	case r.Twice == 0:
		v = a*q1*(q1-1)/2 + float64(a*a*q1*(2*q1-1)*(2*q1-1)/4) - float64(a*a*q1*q1*q1*q1/(4*r.Expected))
	default:
		d := q2 + 1
		v = a*q1*(q1-1)/(2*d) + float64(a*a*q1*(2*q1-1)*(2*q1-1)/(4*d*d)) + float64(a*a*q1*q1*q2*(q1-1)*(q1-1)/(4*d*d*d*d))
	}
	r.StdErr = math.Sqrt(max(0, v))
	return r
}
