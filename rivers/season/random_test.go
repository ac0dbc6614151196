package season

// Chance numbers of our own, so that a simulated water is the same on every
// machine and with every version of Go.

import "math"

// Rand makes a sequence of chance numbers fixed by where it starts.
type Rand struct{ state uint64 }

// NewRand starts a sequence; the same start gives the same sequence.
func NewRand(start uint64) *Rand { return &Rand{start} }

// Uint64 is SplitMix64: Steele, Lea & Flood 2014, Fast splittable pseudorandom
// number generators, OOPSLA '14, doi 10.1145/2660193.2660195.
func (r *Rand) Uint64() uint64 {
	r.state += 0x9e3779b97f4a7c15
	z := r.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// Float64 lies in [0,1).
func (r *Rand) Float64() float64 { return float64(r.Uint64()>>11) / (1 << 53) }

// Intn lies in 0 … n-1, n above 0.
func (r *Rand) Intn(n int) int { return int(r.Float64() * float64(n)) }

// Normal is normally distributed with mean 0 and standard deviation 1 (Box &
// Muller 1958, Ann. Math. Stat. 29:610).
func (r *Rand) Normal() float64 {
	u := 1 - r.Float64() // never 0
	return math.Sqrt(-2*math.Log(u)) * math.Cos(2*math.Pi*r.Float64())
}

// Happens is true with chance p.
func (r *Rand) Happens(p float64) bool { return r.Float64() < p }
