package season

// A month's bar, its range, its basis and its plain counts, and the three states
// of a half-month: sections 0 and 5 of the rules on figures.

import (
	"time"

	"guidegen/content/calendar"
)

// Month is one bar of a fly's year on a water.
type Month struct {
	Chance    float64 // c, the mean of the days' chances
	Low, High float64 // the 80 % range, widened where needed to hold c
	Weight    float64 // n, the harmonic mean of α + β over the days, in visits
	Looked    int     // own visits that looked for the fly
	Found     int     // of these, visits that found it
	Years     int     // calendar years of the visits that looked

	Own, Lent, Account float64 // shares of the mean of α + β; they sum to 1

	Thin         bool // fewer than 3 own visits, or all in one year
	NobodyLooked bool // no own visit in the month itself
	NotExpected  bool // nobody looked and the bar is too low to print
}

func (c *Chances) months(own []Visit, k Constants) {
	for i := range c.Months {
		m := &c.Months[i]
		first, last := calendar.FirstOf(time.Month(i+1)), calendar.LastOf(time.Month(i+1))
		var sum, inverse, ownSum, lentSum float64
		for d := first; d <= last; d++ {
			sum += c.Chance.At(d)
			inverse += 1 / c.Weight(d)
			ownSum += c.Own.At(d)
			lentSum += c.Lent.At(d)
		}
		days := float64(last - first + 1)
		m.Chance, m.Weight = sum/days, days/inverse
		m.Low, m.High = spread(m.Chance, m.Weight, k.Lift)
		total := float64(c.Account*days) + ownSum + lentSum
		m.Own, m.Lent, m.Account = ownSum/total, lentSum/total, c.Account*days/total
	}
	c.count(own)
	for i := range c.Months {
		m := &c.Months[i]
		m.NobodyLooked = m.Looked == 0
		m.NotExpected = m.NobodyLooked && round9(m.Chance) < k.NotExpected
		m.Thin = m.Looked < int(k.ThinVisits) || m.Years == 1
	}
}

func (c *Chances) count(own []Visit) {
	var years [12]map[int]bool
	for _, v := range own {
		if v.Date.IsZero() {
			continue
		}
		i := int(v.Date.Month) - 1
		if years[i] == nil {
			years[i] = map[int]bool{}
		}
		years[i][v.Date.Year] = true
		c.Months[i].Looked++
		if v.Found {
			c.Months[i].Found++
		}
	}
	for i := range years {
		c.Months[i].Years = len(years[i])
	}
}

// spread goes from the 10th percentile of Beta(n c, n (1-c)) to the 90th of Beta(n c + lift, n (1-c)),
// widened where needed to hold c. A first parameter of 0 gives the end 0, a second of 0 the end 1.
func spread(c, n, lift float64) (low, high float64) {
	a, b := n*c, n*(1-c)
	return min(c, edge(0.1, a, b)), max(c, edge(0.9, a+lift, b))
}

func edge(p, a, b float64) float64 {
	switch {
	case a <= 0:
		return 0
	case b <= 0:
		return 1
	}
	return BetaQuantile(p, a, b)
}

// State is what is known of a fly in a half-month on a water.
type State string

// The three states, never two.
const (
	FoundHere State = "found"    // a visit found it
	NotFound  State = "looked"   // looked for, and not found
	Unlooked  State = "unlooked" // nobody looked
)

// Cell is a half-month of a fly on a water.
type Cell struct {
	State  State
	Looked int // visits that looked for it
	Found  int // of these, visits that found it
	Years  int // calendar years of the visits that looked
}

// Cells counts visits by half-month. strays are dates of finds outside a
// visit's scope: they mark the cell found, but are no visit.
func Cells(visits []Visit, strays []calendar.Date) [calendar.Cells]Cell {
	var cells [calendar.Cells]Cell
	var years [calendar.Cells]map[int]bool
	for i := range cells {
		cells[i].State, years[i] = Unlooked, map[int]bool{}
	}
	for _, v := range visits {
		if v.Date.IsZero() {
			continue
		}
		i := v.day().Cell()
		cells[i].Looked++
		years[i][v.Date.Year] = true
		if v.Found {
			cells[i].Found++
		}
	}
	for i := range cells {
		c := &cells[i]
		c.Years = len(years[i])
		switch {
		case c.Found > 0:
			c.State = FoundHere
		case c.Looked > 0:
			c.State = NotFound
		}
	}
	for _, d := range strays {
		if !d.IsZero() {
			cells[d.OfYear().Cell()].State = FoundHere
		}
	}
	return cells
}
