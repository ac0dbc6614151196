package daylight

// One day of the sun at a place.

import (
	"math"
	"time"

	"guidegen/content/calendar"
)

// Event is an event of the sun, or why there is none that day.
type Event struct {
	At      time.Time // in the place's zone, to the second; zero where Missing
	Missing string    // "" where the event happens
}

// Why an event is missing.
const (
	NoSunset  = "the sun does not set"
	NoSunrise = "the sun does not rise"
	NoDark    = "it does not get dark"
	NoLight   = "it does not get light"
)

// Clock is the event's local clock time to the nearest minute, NoClock where
// it is missing.
func (e Event) Clock() calendar.Clock {
	if e.Missing != "" {
		return calendar.NoClock
	}
	return clockOf(e.At)
}

func clockOf(t time.Time) calendar.Clock {
	t = t.Round(time.Minute)
	return calendar.Clock(60*t.Hour() + t.Minute())
}

// Day is the sun's day at a place: the events before and after one solar noon.
// At high latitudes sunset may fall after the local midnight.
type Day struct {
	Dawn, Rise Event // start of civil twilight, sunrise
	Noon       Event // never missing
	Set, Dusk  Event // sunset, end of civil twilight
}

// Polar says in words that the sun does not set, or does not rise, on this
// day; "" where it does both.
func (d Day) Polar() string {
	if d.Rise.Missing == d.Set.Missing {
		return d.Set.Missing
	}
	return ""
}

// Of returns one event.
func (d Day) Of(s calendar.Sun) Event {
	switch s {
	case calendar.Dawn:
		return d.Dawn
	case calendar.Sunrise:
		return d.Rise
	case calendar.Noon:
		return d.Noon
	case calendar.Sunset:
		return d.Set
	case calendar.Dusk:
		return d.Dusk
	}
	return Event{Missing: "no event of the sun"}
}

// On reckons the sun's day around the solar noon that is nearest to 12:00 of a
// date in a zone (nil: UTC). Latitude and longitude are in degrees, north and
// east positive. It is meant for a level horizon: hills and trees shorten the day.
func On(date calendar.Date, latitude, longitude float64, zone *time.Location) Day {
	if zone == nil {
		zone = time.UTC
	}
	midday := time.Date(date.Year, date.Month, date.Day, 12, 0, 0, 0, zone)
	noon := noonNear(unixSeconds(midday), longitude)
	event := func(midnight, zenith float64, stays, never string) Event {
		switch {
		case above(noon, latitude, longitude, zenith) <= 0:
			return Event{Missing: never}
		case above(midnight, latitude, longitude, zenith) > 0:
			return Event{Missing: stays}
		}
		return Event{At: instant(crossing(midnight, noon, latitude, longitude, zenith), zone)}
	}
	before, after := noon-43200, noon+43200
	return Day{
		Dawn: event(before, twilight, NoDark, NoLight),
		Rise: event(before, horizon, NoSunset, NoSunrise),
		Noon: Event{At: instant(noon, zone)},
		Set:  event(after, horizon, NoSunset, NoSunrise),
		Dusk: event(after, twilight, NoDark, NoLight),
	}
}

func instant(unix float64, zone *time.Location) time.Time {
	return time.Unix(int64(math.Round(unix)), 0).In(zone)
}
