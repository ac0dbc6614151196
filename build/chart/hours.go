package chart

// The hours of a stage as a bar over the clock from 04 to 24, with the night shaded and noon marked.

import "html/template"

const (
	clockFrom = 4 * 60.0 // minutes after midnight
	clockTo   = 24 * 60.0
	clockWide = 120.0
)

// Clock draws hours from and to, minutes after midnight; hours past midnight run to the end. rise and set bound the
// day; both 0 where there is no telling.
func Clock(from, to, rise, set int) template.HTML {
	at := func(minutes float64) float64 {
		return (min(max(minutes, clockFrom), clockTo) - clockFrom) / (clockTo - clockFrom) * clockWide
	}
	if to < from {
		to = int(clockTo)
	}
	p := &pen{make([]byte, 0, 400)}
	p.raw(`<svg class="clock" viewBox="0 0 120 12" aria-hidden="true">`)
	if set > rise {
		p.raw(`<path class="nt" d="M0 1H`).num(at(float64(rise))).raw("V11H0zM").num(at(float64(set))).raw(` 1H120V11H`)
		p.num(at(float64(set))).raw(`z"/>`)
	}
	p.raw(`<path class="ax" d="M48 1v10"/><path class="own" d="M`).num(at(float64(from))).raw(" 3H").num(at(float64(to)))
	p.raw("V9H").num(at(float64(from))).raw(`z"/></svg>`)
	return template.HTML(p.out)
}
