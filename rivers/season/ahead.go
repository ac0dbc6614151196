package season

// Ahead or behind: a year's warmth so far against the normal year, section 10
// of the rules on figures. It would rather say that it cannot tell.

import (
	"maps"
	"slices"

	"guidegen/content/calendar"
)

// DayMean is a logger's day, °C: its mean, and with Range its lowest and highest too.
type DayMean struct {
	Date      calendar.Date
	Mean      float64
	Low, High float64
	Range     bool
}

// degreeDays are the day's above a base: by the single sine where its lowest and highest are known, else by its mean.
func (d DayMean) degreeDays(base float64) float64 {
	if d.Range {
		return DegreeDaysSine(d.Low, d.High, base)
	}
	return DegreeDaysMean(d.Mean, base)
}

// Unsure says why nothing can be told, or "".
type Unsure string

// The reasons.
const (
	NoReadings  Unsure = "no-readings"   // none in this thermal year
	DaysMissing Unsure = "days-missing"  // more than a fifth of the days so far
	NoNormal    Unsure = "no-normal"     // no smooth curve of a normal year
	FewYears    Unsure = "too-few-years" // fewer than 3 earlier logger years
	SumZero     Unsure = "sum-zero"      // one of the sums is still 0
	PastNormal  Unsure = "past-normal"   // a normal year never reaches this sum
)

// Progress is the answer on one date.
type Progress struct {
	Days    float64 // ahead is positive, in days of the normal year; 0 if Why is set
	Why     Unsure
	Sum     float64 // °C days above the threshold, of the days that have a reading
	Normal  float64 // of the same days in a normal year
	Missing int     // days so far without a reading
	Of      int     // days so far
	Years   int     // earlier logger years in the normal; 0 for the smooth curve
}

// EnoughNormal is how many earlier logger years make a normal year without a curve.
const EnoughNormal = 3

const (
	mostMissing = 0.20 // share of days
)

// Ahead compares the sum above base since the start of the thermal year (the
// day start) with a normal year on the date on. readings are logger daily means
// of any years, in any order. At a base of 0 °C or less the normal is smooth,
// nil where unknown; above it, where the smooth curve runs late in spring, the
// mean of the sums of earlier logger years. Days without a reading are left out
// of both sums, so that a gap looks neither cold nor warm. 29 February counts
// with 28 February, as the mean of the two.
func Ahead(on calendar.Date, start calendar.Day, base float64, readings []DayMean, smooth *Wave) Progress {
	years := thermalYears(readings, start, base, on)
	p := Progress{Of: calendar.Fwd(start, on.OfYear()) + 1}
	this := years[ThermalYear(on, start)]
	if this == nil {
		p.Missing, p.Why = p.Of, NoReadings
		return p
	}
	p.Missing = p.Of - this.readings(p.Of)
	if round9(float64(p.Missing)/float64(p.Of)) > mostMissing {
		p.Why = DaysMissing
		return p
	}
	normal, why := normalYear(years, ThermalYear(on, start), start, base, smooth, &p)
	if why != "" {
		p.Why = why
		return p
	}
	var reached float64 // the normal sum of all days so far
	for i := range p.Of {
		reached += normal[i]
		if this.n[i] > 0 {
			p.Sum += this.mean(i)
			p.Normal += normal[i]
		}
	}
	if round9(p.Sum) == 0 || round9(p.Normal) == 0 {
		p.Why = SumZero
		return p
	}
	excess := round9(p.Sum - p.Normal)
	if excess == 0 {
		return p
	}
	day, ok := dayOfSum(normal, reached+excess)
	if !ok {
		p.Why = PastNormal
		return p
	}
	p.Days = day - float64(p.Of)
	return p
}

// yearSums holds one thermal year by its days, the start day first.
type yearSums struct {
	sum [calendar.Year]float64
	n   [calendar.Year]int
}

func (y *yearSums) mean(i int) float64 { return y.sum[i] / float64(y.n[i]) }

// readings counts the days with a reading among the first so many.
func (y *yearSums) readings(days int) int {
	k := 0
	for i := range days {
		if y.n[i] > 0 {
			k++
		}
	}
	return k
}

// ThermalYear is the calendar year in which a date's thermal year began.
func ThermalYear(d calendar.Date, start calendar.Day) int {
	if d.OfYear() < start {
		return d.Year - 1
	}
	return d.Year
}

func thermalYears(readings []DayMean, start calendar.Day, base float64, on calendar.Date) map[int]*yearSums {
	years := map[int]*yearSums{}
	for _, r := range readings {
		if r.Date.IsZero() || on.Before(r.Date) {
			continue
		}
		y := ThermalYear(r.Date, start)
		if years[y] == nil {
			years[y] = &yearSums{}
		}
		i := calendar.Fwd(start, r.Date.OfYear())
		years[y].sum[i] += r.degreeDays(base)
		years[y].n[i]++
	}
	return years
}

// normalYear returns the degree-days of each day of a normal year, the start
// day first.
func normalYear(years map[int]*yearSums, this int, start calendar.Day, base float64, smooth *Wave, p *Progress) (normal Curve, why Unsure) {
	if base <= 0 {
		if smooth == nil {
			return normal, NoNormal
		}
		for i := range normal {
			normal[i] = DegreeDaysMean(smooth.At(float64(start.Add(i))), base)
		}
		return normal, ""
	}
	var sum Curve
	var n [calendar.Year]int
	for _, y := range slices.Sorted(maps.Keys(years)) {
		old := years[y]
		if y >= this || round9(float64(calendar.Year-old.readings(calendar.Year))/calendar.Year) > mostMissing {
			continue
		}
		p.Years++
		for i := range sum {
			if old.n[i] > 0 {
				sum[i] += old.mean(i)
				n[i]++
			}
		}
	}
	if p.Years < EnoughNormal {
		return normal, FewYears
	}
	for i := range normal {
		if n[i] == 0 {
			return normal, FewYears
		}
		normal[i] = sum[i] / float64(n[i])
	}
	return normal, ""
}

// dayOfSum is the number of days, from the start of the year and in parts of a
// day, after which the running sum reaches target.
func dayOfSum(daily Curve, target float64) (float64, bool) {
	var sum float64
	for i, v := range daily {
		if v > 0 && sum+v >= target {
			return float64(i) + max(0, target-sum)/v, true
		}
		sum += v
	}
	return 0, false
}
