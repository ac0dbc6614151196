package season

// Sections 3 to 7 written a second time, straight from the text and with no
// thought of speed, sharing nothing with the kernels but the input structs. The
// property at the end holds the two together on guides drawn at random.

import (
	"fmt"
	"math"
	"sort"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mathext"
	"pgregory.net/rapid"

	"guidegen/content/calendar"
)

func nMod(a, n int) int {
	for a < 0 {
		a += n
	}
	return a % n
}
func nFwd(a, b int) int { return nMod(b-a, 365) }
func nGap(a, b int) int { return nMod(b-a+182, 365) - 182 }
func nWrap(d int) int   { return nMod(d-1, 365) + 1 }

// nFlight is a flight on a water: three days, its A, class and days moved.
type nFlight struct {
	from, peak, to int
	class          Class
	days           int
}

func (f nFlight) holds(d int) bool {
	for x := f.from; ; x = nWrap(x + 1) {
		if x == d {
			return true
		}
		if x == f.to {
			return false
		}
	}
}

// beyond counts the days to the nearer limit by walking.
func (f nFlight) beyond(d int) int {
	for n := 0; ; n++ {
		if f.holds(nWrap(d+n)) || f.holds(nWrap(d-n)) {
			return n
		}
	}
}

func nPeak(from, peak, to int) int {
	if peak == 0 {
		return nWrap(from + int(math.Floor(float64(nFwd(from, to))/2)))
	}
	return peak
}

var nShare = map[Class]float64{Dominant: 0.95, Abundant: 0.80, Frequent: 0.50, Occasional: 0.20, Rare: 0.05}

func nCurve(fs []nFlight) [366]float64 {
	var p [366]float64
	for d := 1; d <= 365; d++ {
		prod := 1.0
		for _, f := range fs {
			s1 := math.Max(2, float64(nFwd(f.from, f.peak))/2)
			s2 := math.Max(2, float64(nFwd(f.peak, f.to))/2)
			g := math.Max(
				math.Exp(-0.5*math.Pow(float64(nFwd(f.peak, d))/s2, 2)),
				math.Exp(-0.5*math.Pow(float64(nFwd(d, f.peak))/s1, 2)))
			prod *= 1 - nShare[f.class]*g
		}
		p[d] = 1 - prod
	}
	return p
}

func nSoft(p [366]float64) [366]float64 {
	var out [366]float64
	for d := 1; d <= 365; d++ {
		var up, down float64
		for j := -40; j <= 40; j++ {
			w := math.Exp(-0.5 * math.Pow(float64(j)/10, 2))
			up += w * p[nWrap(d+j)]
			down += w
		}
		out[d] = up / down
	}
	return out
}

func nTemp(w *Wave, d int) float64 {
	return w.M + w.A*math.Cos(2*math.Pi*float64(d)/365) + w.B*math.Sin(2*math.Pi*float64(d)/365)
}

// nTurn looks F up in the table of its corners.
func nTurn(peak int, south bool) float64 {
	if south {
		peak = nWrap(peak + 183)
	}
	corners := [][2]float64{{355 - 365, 1}, {171, 1}, {263, -1}, {324, -1}, {355, 1}, {171 + 365, 1}}
	for i := 1; i < len(corners); i++ {
		a, b := corners[i-1], corners[i]
		if x := float64(peak); x >= a[0] && x <= b[0] {
			return a[1] + (b[1]-a[1])*(x-a[0])/(b[0]-a[0])
		}
	}
	panic("no such day")
}

func nMove(f Flight, l Local, here, ref Place) nFlight {
	from, to := int(f.From), int(f.To)
	peak := nPeak(from, int(f.Peak), to)
	class := f.Class
	if l.Class != 0 {
		class = l.Class
	}
	if l.Dates.From != 0 && l.Dates.To != 0 {
		own := nPeak(int(l.Dates.From), int(l.Dates.Peak), int(l.Dates.To))
		return nFlight{int(l.Dates.From), own, int(l.Dates.To), class, nGap(peak, own)}
	}
	stay := nFlight{from, peak, to, class, 0}
	if nFwd(from, to)+1 >= 330 || f.Moves == ByNothing || here.Dam && here.Temperature == nil {
		return stay
	}
	both := here.Temperature != nil && ref.Temperature != nil
	south := ref.Latitude.OK && ref.Latitude.Value < 0
	days := 0.0
	if f.Moves == ByWarmth || f.Moves == Unsaid && both {
		if !both {
			return stay
		}
		var diff float64
		for d := peak - 59; d <= peak; d++ {
			diff += (nTemp(here.Temperature, d) - nTemp(ref.Temperature, d)) / 60
		}
		s := 5.0
		if f.DaysPerDegree.OK {
			s = f.DaysPerDegree.Value
		}
		days = -s * diff
		if f.Moves == Unsaid {
			days *= nTurn(peak, south)
		}
	} else {
		any := false
		if here.Latitude.OK && ref.Latitude.OK {
			days += 4 * (math.Abs(here.Latitude.Value) - math.Abs(ref.Latitude.Value))
			any = true
		}
		if here.Altitude.OK && ref.Altitude.OK {
			days += 4 * (here.Altitude.Value - ref.Altitude.Value) / 121.92
			any = true
		}
		if !any {
			return stay
		}
		days *= nTurn(peak, south)
	}
	days = math.Round(days*1e9) / 1e9
	n := int(math.Floor(math.Abs(days) + 0.5))
	if n > 30 {
		n = 30
	}
	if days < 0 {
		n = -n
	}
	return nFlight{nWrap(from + n), nWrap(peak + n), nWrap(to + n), class, n}
}

func nDay(d calendar.Date) int {
	if d.Month == 2 && d.Day == 29 {
		d.Day = 28
	}
	return time.Date(2023, d.Month, d.Day, 0, 0, 0, 0, time.UTC).YearDay()
}

// nVisit is a visit as the sums see it.
type nVisit struct {
	day, year int
	y, e      float64
}

func nVisits(vs []Visit) []nVisit {
	var out []nVisit
	for _, v := range vs {
		n := nVisit{day: nDay(v.Date), year: v.Season, e: 1}
		if v.Found {
			n.y = 1
		} else if v.Effort.OK {
			n.e = math.Min(1, v.Effort.Value)
		}
		out = append(out, n)
	}
	return out
}

func nLend(here, there []nFlight, vs []nVisit) []nVisit {
	var out []nVisit
	for _, v := range vs {
		best := 0
		for k := range there {
			if math.Abs(float64(nGap(there[k].peak, v.day))) < math.Abs(float64(nGap(there[best].peak, v.day))) {
				best = k
			}
		}
		steps := int(here[best].class) - int(there[best].class)
		if steps < -1 || steps > 1 || there[best].beyond(v.day) > 30 {
			continue
		}
		v.day = nWrap(v.day + here[best].days - there[best].days)
		out = append(out, v)
	}
	return out
}

func nW(delta int) float64 {
	kappa := math.Pow(365/(2*math.Pi*7), 2)
	return math.Exp(kappa * (math.Cos(2*math.Pi*float64(delta)/365) - 1))
}

// nChance returns α and β of every day, and the own and lent parts.
func nChance(p [366]float64, m float64, own, lent []nVisit) (alpha, beta, ownPart, lentPart [366]float64) {
	years := map[int]bool{}
	for _, v := range own {
		years[v.year] = true
	}
	for d := 1; d <= 365; d++ {
		a, b := m*p[d], m*(1-p[d])
		for year := range years {
			var s, top float64
			for _, v := range own {
				if v.year == year {
					s += nW(v.day-d) * (v.y + v.e*(1-v.y))
					top = math.Max(top, nW(v.day-d))
				}
			}
			factor := 1.0
			if s > 0 {
				factor = math.Min(1, 4*top/s)
			}
			for _, v := range own {
				if v.year == year {
					a += factor * nW(v.day-d) * v.y
					b += factor * nW(v.day-d) * v.e * (1 - v.y)
				}
			}
		}
		ownPart[d] = a + b - m
		var l float64
		for _, v := range lent {
			l += nW(v.day-d) * (v.y + v.e*(1-v.y))
		}
		q := 0.25
		if l > 0 {
			q = math.Min(0.25, m/l)
		}
		for _, v := range lent {
			a += q * nW(v.day-d) * v.y
			b += q * nW(v.day-d) * v.e * (1 - v.y)
		}
		lentPart[d] = a + b - m - ownPart[d]
		alpha[d], beta[d] = a, b
	}
	return
}

// nAssign is section 6's belonging; -1 is outside.
func nAssign(d int, fs []nFlight) int {
	best, bestKey := -1, [2]float64{math.Inf(1), math.Inf(1)}
	for k, f := range fs {
		key := [2]float64{1, float64(f.beyond(d))}
		if f.holds(d) {
			key = [2]float64{0, math.Abs(float64(nGap(f.peak, d)))}
		} else if f.beyond(d) > 30 {
			continue
		}
		if key[0] < bestKey[0] || key[0] == bestKey[0] && key[1] < bestKey[1] {
			best, bestKey = k, key
		}
	}
	return best
}

// nDates is section 6: finds as a list of days with weights, and the piecewise straight line through C_i.
func nDates(vs []Visit, fs []nFlight, k int) (protocol string, visits, p10, p50, p90, giveOrTake int) {
	finds := map[string][]Visit{}
	for _, v := range vs {
		if v.Found && v.Effort.OK && v.Effort.Value > 0 && nAssign(nDay(v.Date), fs) == k {
			finds[v.Protocol] = append(finds[v.Protocol], v)
		}
	}
	names := []string{}
	for n := range finds {
		names = append(names, n)
	}
	sort.Strings(names)
	for _, n := range names {
		if len(finds[n]) > len(finds[protocol]) {
			protocol = n
		}
	}
	visits = len(finds[protocol])
	seasons := map[int]float64{}
	weight := map[int]float64{} // days after from - 30 → summed weight
	var total, squares float64
	for _, f := range finds[protocol] {
		near := 0.0
		for _, v := range vs {
			if v.Protocol == protocol && v.Effort.OK && v.Effort.Value > 0 {
				near += nW(nDay(v.Date) - nDay(f.Date))
			}
		}
		w := math.Log(1+f.Count/f.Effort.Value) / math.Ln2 / near
		weight[nFwd(nWrap(fs[k].from-30), nDay(f.Date))] += w
		seasons[f.Season] += w
		total += w
		squares += w * w
	}
	if visits < 3 || len(seasons) < 2 {
		return
	}
	var xs, cs []float64
	sum := 0.0
	for n := 0; n < 365; n++ {
		if w, ok := weight[n]; ok {
			if len(xs) > 0 && float64(n)-xs[len(xs)-1] >= 42 {
				return
			}
			xs, cs = append(xs, float64(n)), append(cs, sum+w/2)
			sum += w
		}
	}
	at := func(q float64) float64 {
		if q*total <= cs[0] {
			return xs[0]
		}
		for i := 1; i < len(xs); i++ {
			if q*total <= cs[i] {
				return xs[i-1] + (q*total-cs[i-1])/(cs[i]-cs[i-1])*(xs[i]-xs[i-1])
			}
		}
		return xs[len(xs)-1]
	}
	r9 := func(x float64) float64 { return math.Round(x*1e9) / 1e9 }
	day := func(q float64) int { return nWrap(fs[k].from - 30 + int(math.Floor(r9(at(q)+0.5)))) }
	s := (at(0.75) - at(0.25)) / 1.349
	length := float64(nFwd(fs[k].from, fs[k].to)) / 4
	v := (float64(visits)*s*s + 4*length*length) / float64(visits+4) * squares / (total * total)
	same := 0.0
	for _, w := range seasons {
		same += w * w
	}
	giveOrTake = int(math.Ceil(r9(1.28 * math.Sqrt(v+49*same/(total*total)))))
	p50 = day(0.5)
	if visits > 10 {
		p10, p90 = day(0.1), day(0.9)
	}
	return
}

// nTrust is m of section 5 over one guide of several rows.
func nTrust(ps [][366]float64, own [][]nVisit) float64 {
	over, within := 50.0/4, 50.0
	for r := range ps {
		for m := time.January; m <= time.December; m++ {
			var u, k, s, v float64
			for _, x := range own[r] {
				if time.Date(2023, 1, x.day, 0, 0, 0, 0, time.UTC).Month() == m {
					w := x.y + x.e*(1-x.y)
					u, k, s, v = u+w, k+x.y, s+w*ps[r][x.day], v+w*ps[r][x.day]*(1-ps[r][x.day])
				}
			}
			if math.Round(u*1e9)/1e9 >= 2 {
				over += (k-s)*(k-s) - v
				within += (u - 1) * v
			}
		}
	}
	if over <= 0 {
		return 3
	}
	return math.Min(3, math.Max(1, within/over-1))
}

// nToday is section 7, in the words of the page.
func nToday(c [366]float64, d int, fs []nFlight) (on, word string) {
	r := func(x float64) float64 { return math.Round(x*1e9) / 1e9 }
	top := 0.0
	for _, v := range c[1:] {
		top = math.Max(top, v)
	}
	isOn := func(d int) bool {
		v := r(c[nWrap(d)])
		return v >= 0.10 || v >= 0.03 && v >= r(top/2)
	}
	on = "off"
	var after, before float64
	for n := 7; n >= 1; n-- {
		after += c[nWrap(d+n)] / 7
		before += c[nWrap(d-n)] / 7
		if isOn(d-n) && on == "off" {
			on = "just-over"
		}
		if isOn(d + n) {
			on = "starting"
		}
	}
	if isOn(d) {
		on = "on"
		word = "steady"
		if ratio := r(after / before); ratio > 1.1 {
			word = "rising"
		} else if ratio < 0.9 {
			word = "fading"
		}
	}
	for _, f := range fs {
		if f.holds(d) {
			return
		}
	}
	// Walk back to a flight's end and on to another's start.
	back, fore := 0, 0
	enders, starters := map[int]bool{}, map[int]bool{}
	for len(enders) == 0 {
		back++
		for k, f := range fs {
			if f.to == nWrap(d-back) {
				enders[k] = true
			}
		}
	}
	for len(starters) == 0 {
		fore++
		for k, f := range fs {
			if f.from == nWrap(d+fore) {
				starters[k] = true
			}
		}
	}
	if back+fore < 42 && (len(fs) > 1) {
		for a := range enders {
			for b := range starters {
				if a != b {
					word = "between-flights"
				}
			}
		}
	}
	return
}

// assertQuantile holds a quantile between its neighbours 1e-8 to either side: the
// distribution function is too steep near 0 and 1 to be compared itself.
func assertQuantile(t assert.TestingT, p, a, b, x float64) {
	below := mathext.RegIncBeta(a, b, max(0, x-1e-8))
	above := mathext.RegIncBeta(a, b, min(1, x+1e-8))
	assert.True(t, below <= p+1e-12 && p-1e-12 <= above || x < 1e-8 && above >= p, "%v of Beta(%v, %v) is not %v", p, a, b, x)
}

func TestAgainstANaiveRewriting(t *testing.T) {
	c := Defaults()
	rapid.Check(t, func(t *rapid.T) {
		flights := drawFlights(t)
		ref, here, there := drawPlace(t, "reference"), drawPlace(t, "here"), drawPlace(t, "there")
		var a, b []Moved
		var na, nb []nFlight
		for i, f := range flights {
			la, lb := drawLocal(t, fmt.Sprint("here ", i)), drawLocal(t, fmt.Sprint("there ", i))
			a, b = append(a, Move(f, la, here, ref, c)), append(b, Move(f, lb, there, ref, c))
			na, nb = append(na, nMove(f, la, here, ref)), append(nb, nMove(f, lb, there, ref))
			for _, pair := range []struct {
				m Moved
				n nFlight
			}{{a[i], na[i]}, {b[i], nb[i]}} {
				m, n := pair.m, pair.n
				require.Equal(t, n, nFlight{int(m.From), int(m.Peak), int(m.To), m.Class, m.Shift.Days})
			}
		}
		own, other := drawVisits(t, "own"), drawVisits(t, "other")
		for _, list := range [][]Visit{own, other} {
			x := calendar.Day(rapid.IntRange(1, 365).Draw(t, "first day of the fly's year"))
			for i := range list {
				list[i].Season = SeasonOf(list[i].Date, x)
			}
		}
		lent := Lend(nil, a, b, other, c)
		nLent := nLend(na, nb, nVisits(other))
		require.Len(t, lent, len(nLent))

		p, p2 := Expected(a, c), Expected(b, c)
		np, np2 := nSoft(nCurve(na)), nSoft(nCurve(nb))
		var spread Spread
		spread.Add(&p, own)
		spread.Add(&p2, other)
		m := spread.Trust(c)
		require.InDelta(t, nTrust([][366]float64{np, np2}, [][]nVisit{nVisits(own), nVisits(other)}), m, 1e-9)
		k := c
		k.Trust = m
		got := Reckon(&p, own, lent, k)
		alpha, beta, ownPart, lentPart := nChance(np, m, nVisits(own), nLent)
		var chance [366]float64
		for d := 1; d <= 365; d++ {
			chance[d] = alpha[d] / (alpha[d] + beta[d])
			day := calendar.Day(d)
			require.InDelta(t, np[d], p.At(day), 1e-9)
			require.InDelta(t, chance[d], got.Chance.At(day), 1e-9)
			require.InDelta(t, alpha[d]+beta[d], got.Weight(day), 1e-9)
		}
		d := 1
		for m := time.January; m <= time.December; m++ {
			first := d
			var bar, inverse, o, l, all float64
			for ; d-first < monthDays(m); d++ {
				bar += chance[d]
				inverse += 1 / (alpha[d] + beta[d])
				o, l, all = o+ownPart[d], l+lentPart[d], all+alpha[d]+beta[d]
			}
			days := float64(monthDays(m))
			bar, n := bar/days, days/inverse
			out := got.Months[m-1]
			assert.InDelta(t, bar, out.Chance, 1e-9)
			assert.InDelta(t, n, out.Weight, 1e-8)
			assert.InDelta(t, o/all, out.Own, 1e-9)
			assert.InDelta(t, l/all, out.Lent, 1e-9)
			assert.InDelta(t, 1, out.Own+out.Lent+out.Account, 1e-9)
			if bar > 1e-12 {
				low, high := out.Low, out.High
				if low < bar-1e-9 {
					assertQuantile(t, 0.1, n*bar, n*(1-bar), low)
				}
				if high > bar+1e-9 {
					assertQuantile(t, 0.9, n*bar+0.05, n*(1-bar), high)
				}
				assert.True(t, low <= bar+1e-9 && high >= bar-1e-9)
			}
			looked, found, years := 0, 0, map[int]bool{}
			for _, v := range own {
				if v.Date.Month == m {
					looked++
					years[v.Date.Year] = true
					if v.Found {
						found++
					}
				}
			}
			assert.Equal(t, []int{looked, found, len(years)}, []int{out.Looked, out.Found, out.Years})
			assert.Equal(t, looked < 3 || len(years) == 1, out.Thin)
		}

		for k := range a {
			fd := FromRecords(own, a, k, c)
			protocol, n, p10, p50, p90, give := nDates(own, na, k)
			require.Equal(t, protocol, fd.Protocol)
			require.Equal(t, []int{n, p10, p50, p90, give}, []int{fd.Visits, int(fd.P10), int(fd.P50), int(fd.P90), fd.GiveOrTake})
		}
		days := Days(OnDays(&got.Chance, c), &got.Chance, a)
		for d := 1; d <= 365; d++ {
			on, word := nToday(chance, d, na)
			require.Equal(t, on+" "+word, string(days[d-1].On)+" "+string(days[d-1].Word), "day %d", d)
		}
	})
}

// monthDays counts a month's days, February always 28.
func monthDays(m time.Month) int {
	return int(calendar.LastOf(m) - calendar.FirstOf(m) + 1)
}
