// Package daylight reckons when the sun rises, stands highest and sets at a
// place, and turns hours given against the sun into clock times.
//
// The sun's position follows the equations that NOAA's solar calculator uses,
// after Meeus, Astronomical Algorithms (2nd ed. 1998, Willmann-Bell), chapters
// 25 and 28: good to 0.01° for 1900 to 2100, which is seconds of time below 60°
// of latitude.
package daylight

import (
	"math"
	"time"
)

// The zenith angles that define the events: the sun's upper limb on a level
// horizon with 34′ of refraction, and the end of civil twilight (NOAA; the
// same values as in almanacs).
const (
	horizon  = 90.833
	twilight = 96.
)

// sunAt gives the sun's apparent ecliptic longitude and the obliquity of the
// ecliptic, its declination, all in degrees, and the equation of time in
// minutes, at an instant in Unix seconds.
func sunAt(unix float64) (longitude, obliquity, declination, equation float64) {
	t := (unix - 946728000) / (86400 * 36525) // Julian centuries from 2000-01-01 12:00
	l0 := poly(t, 280.46646, 36000.76983, 0.0003032)
	m := poly(t, 357.52911, 35999.05029, -0.0001537)
	e := poly(t, 0.016708634, -0.000042037, -0.0000001267)
	centre := float64(poly(t, 1.914602, -0.004817, -0.000014)*sin(m)) +
		float64(poly(t, 0.019993, -0.000101)*sin(2*m)) + float64(0.000289*sin(3*m))
	node := poly(t, 125.04, -1934.136)
	longitude = l0 + centre - 0.00569 - float64(0.00478*sin(node))
	obliquity = poly(t, 23+26./60+21.448/3600, -46.815/3600, -0.00059/3600, 0.001813/3600) + float64(0.00256*cos(node))
	declination = degrees(math.Asin(sin(obliquity) * sin(longitude)))

	y := math.Tan(radians(obliquity / 2))
	y *= y
	equation = 4 * degrees(float64(y*sin(2*l0))-float64(2*e*sin(m))+float64(4*e*y*sin(m)*cos(2*l0))-
		float64(y*y*sin(4*l0)/2)-float64(1.25*e*e*sin(2*m)))
	return longitude, obliquity, declination, equation
}

// hourAngle is how far the sun has turned past the meridian, in degrees from
// -180 to 180, and its declination.
func hourAngle(unix, longitude float64) (angle, declination float64) {
	_, _, declination, equation := sunAt(unix)
	minutes := math.Mod(unix, 86400)/60 + equation + float64(4*longitude)
	return math.Remainder(minutes/4-180, 360), declination
}

// above is positive while the sun stands less than a zenith angle from the
// zenith: cos z - cos zenith.
func above(unix, latitude, longitude, zenith float64) float64 {
	h, d := hourAngle(unix, longitude)
	return float64(sin(latitude)*sin(d)) + float64(cos(latitude)*cos(d)*cos(h)) - cos(zenith)
}

// noonNear is the solar noon nearest to an instant, in Unix seconds.
func noonNear(unix, longitude float64) float64 {
	for range 3 { // the equation of time moves by at most 30 s a day
		h, _ := hourAngle(unix, longitude)
		unix -= h * 240
	}
	return unix
}

// crossing finds when the sun passes a zenith angle between solar midnight and
// solar noon, either way round, by halving. The sun's declination is taken at
// the event itself: taken once a day it would be minutes off.
func crossing(low, high, latitude, longitude, zenith float64) float64 {
	for range 24 { // 12 hours to 3 ms
		middle := (low + high) / 2
		if above(middle, latitude, longitude, zenith) > 0 {
			high = middle
		} else {
			low = middle
		}
	}
	return (low + high) / 2
}

func poly(t float64, c ...float64) float64 {
	sum := 0.
	for i := len(c) - 1; i >= 0; i-- {
		sum = float64(sum*t) + c[i]
	}
	return sum
}

func unixSeconds(t time.Time) float64 { return float64(t.UnixMilli()) / 1000 }

func radians(d float64) float64 { return d * math.Pi / 180 }
func degrees(r float64) float64 { return r * 180 / math.Pi }
func sin(d float64) float64     { return math.Sin(radians(d)) }
func cos(d float64) float64     { return math.Cos(radians(d)) }
