package hook

import "guidegen/content/measure"

// Against says in millimetres how much longer a shank is than a body; 0 where it is as long, within 0.35 mm
// (our judgement).
func Against(shank, body float64) float64 {
	if off := measure.Round9(shank - body); off > asLong || off < -asLong {
		return off
	}
	return 0
}

const asLong = 0.35

// Steps is the distance of the range's nearest size from another, 0 inside it.
func (r Range) Steps(size Size) Steps {
	switch {
	case size > r.Large:
		return r.Large.From(size)
	case size < r.Small:
		return r.Small.From(size)
	}
	return 0
}
