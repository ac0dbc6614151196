package chart

// A pen writes SVG: numbers with few digits, all text escaped.

import (
	"html"
	"math"
	"strconv"
	"strings"
)

type pen struct{ out []byte }

// raw writes markup of our own.
func (p *pen) raw(parts ...string) *pen {
	for _, s := range parts {
		p.out = append(p.out, s...)
	}
	return p
}

// path writes a path of a class with what draw adds to it, and none where that is nothing.
func (p *pen) path(class string, draw func()) {
	start := len(p.out)
	p.raw(`<path class="`, class, `" d="`)
	empty := len(p.out)
	if draw(); len(p.out) == empty {
		p.out = p.out[:start]
		return
	}
	p.raw(`"/>`)
}

// num writes a coordinate to a hundredth.
func (p *pen) num(v float64) *pen {
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
	return p
}

// text writes any text, safe within an element or a quoted attribute. What XML
// can't hold at all becomes a space, a broken byte U+FFFD.
func (p *pen) text(s string) {
	p.raw(html.EscapeString(strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' || r == 0x7f || r == 0xfffe || r == 0xffff {
			return ' '
		}
		return r
	}, s)))
}
