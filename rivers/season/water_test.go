package season

// Waters whose truth is known, with visits to them: to try the ranges against that truth. Shares no arithmetic
// with the kernels it tries: a curve here is written out again, for flights that lie on parts of a day.

import (
	"math"
	"time"

	"guidegen/content/calendar"
)

// Plan says how simulated waters differ from an account, and years from each other.
type Plan struct {
	Flights []Flight // the account, peaks given
	PeakSD  float64  // days: a water's peaks against the account's, all flights of it alike
	Factor  float64  // a water's abundance against the account's: one sd multiplies or divides by it
	YearSD  float64  // days: a year's peaks against the water's
	Years   int      // years of visits
	First   int      // the first of them
}

// flight is a flight in parts of a day.
type curved struct {
	peak, before, after float64 // day number; spreads in days
	share               float64
}

// Water is one water with its truth.
type Water struct {
	plan    Plan
	flights []curved  // on this water in a middling year
	offsets []float64 // days, per year of visits
}

// Water draws a water.
func (p Plan) Water(r *Rand, c Constants) *Water {
	w := &Water{plan: p}
	late := p.PeakSD * r.Normal()
	factor := math.Exp(math.Log(p.Factor) * r.Normal())
	for _, f := range p.Flights {
		w.flights = append(w.flights, curved{
			peak:   float64(f.Peak) + late,
			before: max(2, float64(calendar.Fwd(f.From, f.Peak))/2),
			after:  max(2, float64(calendar.Fwd(f.Peak, f.To))/2),
			share:  min(1, c.Share(f.Class)*factor),
		})
	}
	for range p.Years {
		w.offsets = append(w.offsets, p.YearSD*r.Normal())
	}
	return w
}

// chance is the share of standard visits that find the fly on a day of a year
// that is so many days late.
func (w *Water) chance(d, late float64) float64 {
	miss := 1.0
	for _, f := range w.flights {
		t := math.Mod(d-f.peak-late, calendar.Year)
		if t < 0 {
			t += calendar.Year
		}
		after, before := t/f.after, (calendar.Year-t)/f.before
		miss *= 1 - float64(f.share*max(math.Exp(-after*after/2), math.Exp(-before*before/2)))
	}
	return 1 - miss
}

// Truth is the long-run mean of each month: over its days and over all years,
// not only those visited.
func (w *Water) Truth() [12]float64 {
	var out [12]float64
	for m := time.January; m <= time.December; m++ {
		var sum, weight float64
		for step := -15; step <= 15; step++ { // years from -3 to +3 sd
			z := float64(step) / 5
			g := math.Exp(-z * z / 2)
			for d := calendar.FirstOf(m); d <= calendar.LastOf(m); d++ {
				sum += float64(g * w.chance(float64(d), z*w.plan.YearSD))
				weight += g
			}
		}
		out[m-1] = sum / weight
	}
	return out
}

// Visits draws n standard visits on chance days between two days of the year,
// ends included, in chance years of the plan; the whole year is 1 to 365.
func (w *Water) Visits(r *Rand, n int, from, to calendar.Day) []Visit {
	var out []Visit
	for range n {
		y := r.Intn(w.plan.Years)
		d := from.Add(r.Intn(calendar.Fwd(from, to) + 1))
		v := Visit{
			Date:     calendar.Date{Year: w.plan.First + y, Month: d.Month(), Day: d.DayOfMonth()},
			Found:    r.Happens(w.chance(float64(d), w.offsets[y])),
			Effort:   Is(1),
			Protocol: "sweep net",
		}
		if v.Found {
			v.Count = float64(1 + r.Intn(12))
		}
		out = append(out, v)
	}
	return out
}
