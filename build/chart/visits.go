package chart

// The visits to a water by half-month: a bar each, years stacked, hatched where nobody went, and a plus where one more
// visit would tell most.

import (
	"html/template"
	"strconv"
	"strings"
)

const (
	visitsWide = 13.0 // of a half-month
	visitsBase = 34.0
	visitsHigh = 30.0 // of the tallest bar
	visitHigh  = 4.0  // of a visit, at most
)

// Visits draws counts of visits, for each half-month by year, the earliest first: the last year filled, those before it
// ruled. said is what a screen reader hears; letters, one each, stand for the months. The page needs Defs.
func Visits(counts [24][]int, best [24]bool, letters [12]string, said string) template.HTML {
	sums, most := [24]int{}, 1
	for i, years := range counts {
		for _, n := range years {
			sums[i] += n
		}
		most = max(most, sums[i])
	}
	one := min(visitHigh, visitsHigh/float64(most))
	left := func(i int) float64 { return float64(i) * visitsWide }
	p := &pen{make([]byte, 0, 2000)}
	path := func(class string, draw func(i int)) {
		p.raw(`<path class="`, class, `" d="`)
		for i := range counts {
			draw(i)
		}
		p.raw(`"/>`)
	}
	bar := func(i, from, n int) {
		if n > 0 {
			p.raw("M").num(left(i) + 1.5).raw(" ").num(visitsBase - float64(from)*one).raw("h10v-").num(max(float64(n)*one-0.4, 0.8)).raw("h-10z")
		}
	}
	p.raw(`<svg class="visits" viewBox="0 -8 312 60" role="img" aria-label="`)
	p.text(said)
	p.raw(`"><path class="base" d="M0 34H312"/>`)
	path("u", func(i int) {
		if sums[i] == 0 {
			p.raw("M").num(left(i)).raw(" 28h13v6h-13z")
		}
	})
	path("thin", func(i int) {
		if k := len(counts[i]); k > 0 {
			bar(i, 0, sums[i]-counts[i][k-1])
		}
	})
	path("own", func(i int) {
		if k := len(counts[i]); k > 0 {
			bar(i, sums[i]-counts[i][k-1], counts[i][k-1])
		}
	})
	path("day", func(i int) {
		if best[i] {
			p.raw("M").num(left(i) + 2.5).raw(" 40h8m-4-4v8")
		}
	})
	p.raw(`<text class="let" x="`)
	for m := range letters {
		p.num(left(2*m + 1)).raw(" ")
	}
	p.raw(`" y="51">`)
	p.text(strings.Join(letters[:], ""))
	p.raw("</text>")
	for i, n := range sums {
		if n > 0 {
			p.raw(`<text class="let dig" x="`).num(left(i)+6.5).raw(`" y="`).num(visitsBase-float64(n)*one-2).raw(`">`, strconv.Itoa(n), "</text>")
		}
	}
	p.raw("</svg>")
	return template.HTML(p.out)
}
