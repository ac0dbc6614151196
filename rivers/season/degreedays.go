package season

// Degree-days of one day: section 10 of the rules on figures. The unit is the
// caller's: °C give degree-days in °C, °F in °F.

import "math"

// DegreeDaysMean is the daily mean method: the mean's excess over base, or 0.
// McMaster & Wilhelm 1997, Agric. For. Meteorol. 87:291–300, method 1.
func DegreeDaysMean(mean, base float64) float64 { return max(0, mean-base) }

// DegreeDaysSine is the single-sine method: the day's temperature is a sine
// between its lowest and highest, and what exceeds base is summed. It returns
// NaN where lowest > highest. Zalom et al. 1983, UC Leaflet 21373.
func DegreeDaysSine(lowest, highest, base float64) float64 {
	if !(lowest <= highest) {
		return math.NaN()
	}
	mean := (lowest + highest) / 2
	switch {
	case lowest >= base:
		return mean - base
	case highest <= base:
		return 0
	}
	half := (highest - lowest) / 2
	theta := math.Asin(max(-1, min(1, (base-mean)/half))) // where the sine crosses base
	return (float64((mean-base)*(math.Pi/2-theta)) + float64(half*math.Cos(theta))) / math.Pi
}
