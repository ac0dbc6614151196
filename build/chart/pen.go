package chart

// A pen writes SVG: numbers with few digits, all text escaped.

import (
	"math"
	"strconv"
	"unicode/utf8"
)

type pen struct{ out []byte }

// raw writes markup of our own.
func (p *pen) raw(parts ...string) {
	for _, s := range parts {
		p.out = append(p.out, s...)
	}
}

// num writes a coordinate to a hundredth.
func (p *pen) num(v float64) {
	n := int64(math.Round(v * 100))
	if n < 0 {
		p.out = append(p.out, '-')
		n = -n
	}
	p.out = strconv.AppendInt(p.out, n/100, 10)
	if n %= 100; n > 0 {
		p.out = append(p.out, '.', byte('0'+n/10))
		if n %= 10; n > 0 {
			p.out = append(p.out, byte('0'+n))
		}
	}
}

// attr writes an attribute with a number.
func (p *pen) attr(name string, v float64) {
	p.raw(" ", name, `="`)
	p.num(v)
	p.raw(`"`)
}

// text writes any text, safe within an element or a quoted attribute. What XML
// can't hold at all becomes a space, a broken byte U+FFFD.
func (p *pen) text(s string) {
	for _, r := range s {
		switch {
		case r == '<':
			p.raw("&lt;")
		case r == '>':
			p.raw("&gt;")
		case r == '&':
			p.raw("&amp;")
		case r == '"':
			p.raw("&#34;")
		case r == '\'':
			p.raw("&#39;")
		case r < ' ' && r != '\n', r == 0x7f, r == 0xfffe, r == 0xffff:
			p.raw(" ")
		default:
			p.out = utf8.AppendRune(p.out, r)
		}
	}
}

// textWidth guesses the width of text in a plain sans face of the given size.
// Only the wrapping of the legend hangs on it.
func textWidth(s string, size float64) float64 {
	w := 0.0
	for _, r := range s {
		switch {
		case r >= 0x1100:
			w++
		case r == 'i' || r == 'l' || r == 'j' || r == 't' || r == 'f' || r == ' ' || r == '.' || r == ',':
			w += 0.32
		case r >= 'A' && r <= 'Z' || r == 'm' || r == 'w' || r == '%':
			w += 0.72
		default:
			w += 0.56
		}
	}
	return w * size
}
