package season

// The year of a water's temperature as one wave: section 10 of the rules on
// figures. It says nothing of extremes and does not fit a regulated river.

import (
	"math"

	"guidegen/content/calendar"
)

// Wave is T(d) = M + a cos(2πd/365) + b sin(2πd/365), in °C for d the day of
// the year, which need not be whole.
type Wave struct {
	M, A, B float64
}

// At returns the temperature on a day.
func (w Wave) At(d float64) float64 {
	x := 2 * math.Pi * d / calendar.Year
	return w.M + float64(w.A*math.Cos(x)) + float64(w.B*math.Sin(x))
}

// Before returns the mean over the n days that end with d, n at least 1.
func (w Wave) Before(d calendar.Day, n int) float64 {
	var sum float64
	for i := range n {
		sum += w.At(float64(int(d) - i))
	}
	return sum / float64(n)
}

// Amplitude is half the distance from the coldest to the warmest day.
func (w Wave) Amplitude() float64 { return math.Hypot(w.A, w.B) }

// Warmest is the day number of the top of the wave, in [0,365).
func (w Wave) Warmest() float64 {
	d := math.Atan2(w.B, w.A) * calendar.Year / (2 * math.Pi)
	if d < 0 {
		d += calendar.Year
	}
	return d
}

// Reading is a temperature at a day number: a monthly mean at
// calendar.MidMonth, or a logger's daily mean on its day.
type Reading struct {
	Day   float64
	Value float64
}

// Fit is a wave laid through readings by least squares.
type Fit struct {
	Wave
	N int
	// RSS is the sum of squared residuals. Residual is their standard error,
	// √(RSS / (n-3)), in °C; 0 for three readings, which any wave meets.
	RSS, Residual float64
}

// FitWave returns false if the readings don't settle a wave: fewer than three
// separate days.
func FitWave(readings []Reading) (Fit, bool) {
	// Normal equations for 1, cos, sin: three unknowns of like size, well
	// conditioned unless all readings crowd into a few weeks.
	var m [3][4]float64
	for _, r := range readings {
		row := regressors(r.Day)
		for i := range 3 {
			for j := range 3 {
				m[i][j] += float64(row[i] * row[j])
			}
			m[i][3] += float64(row[i] * r.Value)
		}
	}
	x, ok := solve(m)
	if !ok {
		return Fit{}, false
	}
	f := Fit{Wave: Wave{x[0], x[1], x[2]}, N: len(readings)}
	for _, r := range readings {
		e := r.Value - f.At(r.Day)
		f.RSS += float64(e * e)
	}
	if f.N > 3 {
		f.Residual = math.Sqrt(f.RSS / float64(f.N-3))
	}
	return f, true
}

func regressors(d float64) [3]float64 {
	x := 2 * math.Pi * d / calendar.Year
	return [3]float64{1, math.Cos(x), math.Sin(x)}
}

// solve is Gaussian elimination with pivoting.
func solve(m [3][4]float64) (x [3]float64, ok bool) {
	size := m[0][0] // the number of readings
	for c := range 3 {
		p := c
		for r := c + 1; r < 3; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[p][c]) {
				p = r
			}
		}
		m[c], m[p] = m[p], m[c]
		if math.Abs(m[c][c]) <= 1e-10*size {
			return x, false
		}
		for r := c + 1; r < 3; r++ {
			f := m[r][c] / m[c][c]
			for k := c; k < 4; k++ {
				m[r][k] -= float64(f * m[c][k])
			}
		}
	}
	for c := 2; c >= 0; c-- {
		s := m[c][3]
		for k := c + 1; k < 3; k++ {
			s -= float64(m[c][k] * x[k])
		}
		x[c] = s / m[c][c]
	}
	return x, true
}
