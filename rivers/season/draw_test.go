package season

// Guides drawn at random for the properties: flights across New Year, one-day
// and year-long ones, waters with everything and nothing known, visits of every
// kind, 29 February among them.

import (
	"fmt"

	"pgregory.net/rapid"

	"guidegen/content/calendar"
)

func drawDates(t *rapid.T, name string) Dates {
	from := calendar.Day(rapid.IntRange(1, 365).Draw(t, name+" from"))
	length := rapid.OneOf(rapid.Just(0), rapid.IntRange(0, 60), rapid.IntRange(0, 364)).Draw(t, name+" length")
	f := Dates{From: from, To: from.Add(length)}
	if rapid.Bool().Draw(t, name+" peaked") {
		f.Peak = from.Add(rapid.IntRange(0, length).Draw(t, name+" peak"))
	}
	return f
}

func drawFlights(t *rapid.T) []Flight {
	var out []Flight
	for i := range rapid.IntRange(1, 3).Draw(t, "flights") {
		f := Flight{
			Dates: drawDates(t, fmt.Sprint("flight ", i)),
			Class: Class(rapid.IntRange(1, 5).Draw(t, "class")),
			Moves: rapid.SampledFrom([]Rule{Unsaid, Unsaid, ByWarmth, ByAltitude, ByNothing}).Draw(t, "moves"),
		}
		if rapid.Bool().Draw(t, "its own days per degree") {
			f.DaysPerDegree = Is(rapid.Float64Range(0, 12).Draw(t, "days per degree"))
		}
		out = append(out, f)
	}
	return out
}

func drawKnown(t *rapid.T, low, high float64, name string) Known {
	if rapid.Bool().Draw(t, name+" known") {
		return Is(rapid.Float64Range(low, high).Draw(t, name))
	}
	return Known{}
}

func drawWave(t *rapid.T, name string) *Wave {
	return &Wave{
		M: rapid.Float64Range(2, 18).Draw(t, name+" M"),
		A: rapid.Float64Range(-9, 9).Draw(t, name+" a"),
		B: rapid.Float64Range(-9, 9).Draw(t, name+" b"),
	}
}

func drawPlace(t *rapid.T, name string) Place {
	p := Place{
		Latitude: drawKnown(t, -60, 65, name+" latitude"),
		Altitude: drawKnown(t, 0, 1500, name+" altitude"),
		Dam:      rapid.IntRange(0, 4).Draw(t, name+" dam") == 0,
	}
	if rapid.Bool().Draw(t, name+" temperature known") {
		p.Temperature = drawWave(t, name)
	}
	return p
}

func drawLocal(t *rapid.T, name string) Local {
	var l Local
	if rapid.Bool().Draw(t, name+" own class") {
		l.Class = Class(rapid.IntRange(1, 5).Draw(t, name+" class"))
	}
	if rapid.IntRange(0, 3).Draw(t, name+" own dates") == 0 {
		l.Dates = drawDates(t, name)
	}
	return l
}

func drawVisits(t *rapid.T, name string) []Visit {
	var out []Visit
	centre := rapid.IntRange(1, 365).Draw(t, name+" centre")
	spread := rapid.IntRange(1, 364).Draw(t, name+" spread") // small: clumped visits
	for range rapid.IntRange(0, 40).Draw(t, name+" visits") {
		d := calendar.Day(centre).Add(rapid.IntRange(0, spread).Draw(t, "day"))
		v := Visit{
			Date:     calendar.Date{Year: rapid.IntRange(2022, 2025).Draw(t, "year"), Month: d.Month(), Day: d.DayOfMonth()},
			Found:    rapid.Bool().Draw(t, "found"),
			Protocol: rapid.SampledFrom([]string{"sweep net", "timed search"}).Draw(t, "protocol"),
		}
		if v.Date.Year == 2024 && v.Date.Month == 2 && v.Date.Day == 28 {
			v.Date.Day = 29
		}
		if rapid.Bool().Draw(t, "effort known") {
			v.Effort = Is(rapid.SampledFrom([]float64{0.1, 0.4, 1, 1, 2.5}).Draw(t, "effort"))
		}
		if v.Found {
			v.Count = float64(rapid.IntRange(1, 40).Draw(t, "count"))
		}
		out = append(out, v)
	}
	return out
}
