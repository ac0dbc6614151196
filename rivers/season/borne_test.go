package season

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guidegen/content/calendar"
)

// Flights of days 100–150 and 340–20 (across New Year); common practice, no source.
func TestBorne(t *testing.T) {
	flights := []Moved{still(100, 120, 150, Abundant), still(340, 360, 20, Abundant)}
	for _, c := range []struct {
		name    string
		run     Stretch
		flights []Moved
		finds   []calendar.Day
		borne   bool
		coming  []Stretch
	}{
		{"in a flight", Stretch{110, 130}, flights, nil, true, []Stretch{{100, 150}}},
		{"from before its start", Stretch{90, 100}, flights, nil, true, []Stretch{{100, 150}}},
		{"past its end", Stretch{150, 170}, flights, nil, true, []Stretch{{100, 150}}},
		{"ends the day before", Stretch{90, 99}, flights, nil, false, nil},
		{"a bump after the flight", Stretch{160, 170}, flights, nil, false, nil},
		{"one find outside every flight", Stretch{200, 210}, flights, []calendar.Day{205}, false, nil},
		{"two visits found it", Stretch{200, 210}, flights, []calendar.Day{205, 205}, true, []Stretch{{200, 210}}},
		{"the second a week beside", Stretch{200, 210}, flights, []calendar.Day{205, 217}, true, []Stretch{{200, 210}}},
		{"the second eight days beside", Stretch{200, 210}, flights, []calendar.Day{205, 218}, false, nil},
		{"across New Year", Stretch{10, 30}, flights, nil, true, []Stretch{{340, 20}}},
		{"not listed, one find", Stretch{200, 210}, nil, []calendar.Day{205}, false, nil},
		{"not listed, two", Stretch{200, 210}, nil, []calendar.Day{204, 206}, true, []Stretch{{200, 210}}},
		{"not listed, two across New Year", Stretch{360, 5}, nil, []calendar.Day{364, 2}, true, []Stretch{{360, 5}}},
	} {
		var on [calendar.Year]bool
		for d := c.run.From; ; d = d.Add(1) {
			on[d-1] = true
			if d == c.run.To {
				break
			}
		}
		borne, coming := Borne(on, c.flights, c.finds, Defaults())
		assert.Equal(t, c.borne, borne == on, c.name)
		assert.Equal(t, !c.borne, borne == [calendar.Year]bool{}, c.name)
		assert.Equal(t, c.coming, coming, c.name)
	}
	year := block(1, 1, 1, 1)
	all := OnDays(&year, Defaults())
	borne, coming := Borne(all, []Moved{still(1, 150, 365, Abundant)}, nil, Defaults())
	assert.Equal(t, all, borne, "all the year")
	assert.Equal(t, []Stretch{{1, 365}}, coming)
}

// The middle on day 200, and one of records on day 210.
func TestAgreed(t *testing.T) {
	for _, c := range []struct {
		word    Word
		day     calendar.Day
		middles []calendar.Day
		want    Word
	}{
		{Rising, 190, []calendar.Day{200}, Rising}, {Rising, 201, []calendar.Day{200}, NoWord}, {Rising, 200, []calendar.Day{200}, Rising},
		{Fading, 210, []calendar.Day{200}, Fading}, {Fading, 199, []calendar.Day{200}, NoWord}, {Steady, 190, []calendar.Day{200}, Steady},
		{Fading, 205, []calendar.Day{200, 210}, NoWord}, {Rising, 205, []calendar.Day{200, 210}, NoWord}, {Fading, 211, []calendar.Day{200, 210}, Fading},
		{Fading, 205, []calendar.Day{200, 0}, Fading}, {Between, 205, []calendar.Day{200}, Between},
		{Rising, 5, []calendar.Day{360}, NoWord}, {Rising, 355, []calendar.Day{2}, Rising}, {Fading, 5, []calendar.Day{360}, Fading},
	} {
		assert.Equal(t, c.want, Agreed(c.word, c.day, c.middles...), c)
	}
}
