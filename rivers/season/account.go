package season

// The account's curve: section 3 of the rules on figures.

import (
	"math"

	"guidegen/content/calendar"
)

// allYear is the length, in days, from which a flight is not moved.
const allYear = 330

// Dates are the limits and the peak of a flight. A missing peak is 0. From and
// To may lie on either side of New Year; From = To is a flight of one day.
type Dates struct {
	From, Peak, To calendar.Day
}

// Given reports whether both limits are there; without them nothing is.
func (f Dates) Given() bool { return f.From != 0 && f.To != 0 }

// Length is the number of days of the flight, both limits counted.
func (f Dates) Length() int { return calendar.Fwd(f.From, f.To) + 1 }

// Peaked returns the dates with a missing peak put halfway, rounded towards From.
func (f Dates) Peaked() Dates {
	if f.Peak == 0 {
		f.Peak = f.From.Add(calendar.Fwd(f.From, f.To) / 2)
	}
	return f
}

// Fault says why dates can't be a flight, or "".
type Fault string

// The faults of a flight's dates.
const (
	PeakOutside Fault = "peak-outside" // the peak lies outside from–to
	NeedsPeak   Fault = "needs-peak"   // too long a flight for a peak to be assumed
)

// Fault checks dates whose limits are given.
func (f Dates) Fault(c Constants) Fault {
	switch {
	case f.Peak != 0 && !calendar.Within(f.Peak, f.From, f.To):
		return PeakOutside
	case f.Peak == 0 && f.Length() > int(c.LongestUnpeaked):
		return NeedsPeak
	}
	return ""
}

// moved shifts all three dates alike.
func (f Dates) moved(days int) Dates {
	return Dates{f.From.Add(days), f.Peak.Add(days), f.To.Add(days)}
}

// swell is g, the rise and fall of one flight, 1 at its peak. The two sides
// have spreads of half their length, at least 2 days, and aren't cut at the limits:
//
//	g(d) = max( exp(-½ (fwd(peak,d)/s₂)²), exp(-½ (fwd(d,peak)/s₁)²) )
func (f Dates) swell() Curve {
	f = f.Peaked()
	s1 := max(2, float64(calendar.Fwd(f.From, f.Peak))/2)
	s2 := max(2, float64(calendar.Fwd(f.Peak, f.To))/2)
	var g Curve
	for i := range g {
		d := calendar.Day(i + 1)
		after := float64(calendar.Fwd(f.Peak, d)) / s2
		before := float64(calendar.Fwd(d, f.Peak)) / s1
		g[i] = max(math.Exp(-after*after/2), math.Exp(-before*before/2))
	}
	return g
}

// curve is p = 1 - Π (1 - A g), the share of standard visits that would find
// the fly in any of its flights.
func curve(flights []Moved, c Constants) Curve {
	var miss Curve
	for i := range miss {
		miss[i] = 1
	}
	for _, f := range flights {
		a, g := c.Share(f.Class), f.swell()
		for i := range miss {
			miss[i] *= 1 - float64(a*g[i])
		}
	}
	for i := range miss {
		miss[i] = 1 - miss[i]
	}
	return miss
}
