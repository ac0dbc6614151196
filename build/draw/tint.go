package draw

// Colours: what the account gives stays as it is in the light and in the dark; what is drawn on it
// is mixed from it.

import (
	"fmt"
	"strconv"
	"strings"
)

type rgb [3]float64

func rgbOf(c string) (v rgb) {
	n, _ := strconv.ParseUint(c[1:], 16, 32)
	return rgb{float64(n >> 16 & 255), float64(n >> 8 & 255), float64(n & 255)}
}

// light is how light a colour looks, from 0 to 255 (the weights of Rec. 601).
func light(c string) float64 { v := rgbOf(c); return 0.299*v[0] + 0.587*v[1] + 0.114*v[2] }

// blend mixes two colours; "" stays "".
func blend(c, with string, share float64) string {
	if c == "" {
		return ""
	}
	a, b := rgbOf(c), rgbOf(with)
	for i := range a {
		a[i] += (b[i] - a[i]) * share
	}
	return fmt.Sprintf("#%02x%02x%02x", int(a[0]+0.5), int(a[1]+0.5), int(a[2]+0.5))
}

// shade is a colour that shows on the given one: darker on light, lighter on dark.
func shade(c string, share float64) string {
	if c != "" && light(c) < 95 {
		return blend(c, "#ffffff", share*0.8)
	}
	return blend(c, "#000000", share)
}

// tint reads a colour of a partial: "#1c2624", a part ("wing"), or a part mixed with something, in
// per cent: "wing shade 45", "legs grey 35", "wing white 25". "" is a part whose colour isn't known.
func tint(of map[string]string, text string) string {
	if strings.HasPrefix(text, "#") {
		return text
	}
	words := strings.Fields(text)
	c := of[words[0]]
	if len(words) < 3 {
		return c
	}
	n, _ := strconv.ParseFloat(words[2], 64)
	dark := words[1] == "black" || words[1] == "mark"
	switch {
	case c == "" && dark:
		return "#3a3330"
	case c == "":
		return ""
	}
	switch words[1] {
	case "black":
		return blend(c, "#000000", n/100)
	case "white":
		return blend(c, "#ffffff", n/100)
	case "grey":
		return blend(c, "#808080", n/100)
	case "ring": // rings that show on a dark thread too
		if light(c) < 95 {
			return "#e8e4d8"
		}
	}
	return shade(c, n/100)
}

// short writes #rrggbb as #rgb where that is the same.
func short(c string) string {
	if len(c) == 7 && c[1] == c[2] && c[3] == c[4] && c[5] == c[6] {
		return "#" + string([]byte{c[1], c[3], c[5]})
	}
	return c
}
