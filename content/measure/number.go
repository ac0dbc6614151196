package measure

// Plain numbers as an editor writes them, and the text around them made plain.

import (
	"regexp"
	"strconv"
	"strings"

	"golang.org/x/text/unicode/norm"
)

const numeral = `[+-]?[\d.,]*\d`

var (
	pointed   = regexp.MustCompile(`^[+-]?\d*(?:\.(\d+))?$`)
	commaed   = regexp.MustCompile(`^([+-]?\d+),(\d+)$`)
	grouped   = regexp.MustCompile(`\d[\s']\d{3}\b|[.,]\d+[.,]`)
	fraction  = regexp.MustCompile(`\d\s*/\s*\d|[¼½¾⅛⅜⅝⅞]`)
	noughts   = regexp.MustCompile(`^([+-]?)0+(\d.*)$`)
	notFinite = regexp.MustCompile(`(?i)^[+-]?\.?(?:nan|inf|infinity)\b|∞`)
)

var plainer = strings.NewReplacer("−", "-", "\u2010", "-", "\u2011", "-", "º", "°", "˚", "°",
	"℃", "°C", "℉", "°F", "″", `"`, "′", "'", "”", `"`, "’", "'")

// plain makes one text of the many ways to type a minus, a hyphen, a degree
// sign, an inch or a space.
func plain(s string) string {
	return strings.Join(strings.Fields(plainer.Replace(norm.NFC.String(s))), " ")
}

// ParseNumber reads a plain number and counts its decimals: "7.5", "-4", "7,5".
// A decimal comma is taken as meant unless it could part thousands (1,250). An
// exponent, a fraction, a thousands separator, a nought in front (012 may be 12 or
// a slip for 0.12), NaN and Inf are refused.
func ParseNumber(s string) (value float64, digits int, err error) {
	t := plain(s)
	refuse := func(reason, want string) (float64, int, error) {
		return 0, 0, &Error{Found: s, Reason: reason, Want: want}
	}
	if m := commaed.FindStringSubmatch(t); m != nil {
		if len(m[2]) == 3 && strings.Trim(m[1], "+-0") != "" {
			return refuse("is ambiguous: the comma may part decimals or thousands",
				"write "+m[1]+"."+m[2]+" or "+m[1]+m[2])
		}
		t = m[1] + "." + m[2]
	}
	if n := noughts.FindStringSubmatch(t); n != nil && pointed.MatchString(t) {
		return refuse("starts with a nought", "write "+n[1]+n[2])
	}
	m := pointed.FindStringSubmatch(t)
	if m == nil || !strings.ContainsAny(t, "0123456789") {
		return refuse(whyNoNumber(t))
	}
	v, perr := strconv.ParseFloat(t, 64)
	if perr != nil {
		return refuse("is too large", "")
	}
	return v, min(len(m[1]), 9), nil
}

func whyNoNumber(t string) (reason, want string) {
	switch {
	case notFinite.MatchString(t):
		return "isn't a number that can be measured", "leave it out where nothing was measured"
	case grouped.MatchString(t):
		return "parts thousands, or has two decimal signs", "write digits and one decimal point: 1200 or 7.5"
	case fraction.MatchString(t):
		return "is a fraction", "write it as a decimal: 0.25"
	}
	return "isn't a number", "write digits and one decimal point: 1200 or 7.5"
}
