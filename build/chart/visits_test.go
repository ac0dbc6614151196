package chart

// The strip of visits: what is counted and what is marked stands where its half-month is, in one scale.

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestVisits(t *testing.T) {
	letters := [12]string{"J", "F", "M", "A", "M", "J", "J", "A", "S", "O", "N", "D"}
	part := func(svg, class string) string {
		m := regexp.MustCompile(`class="` + class + `" d="([^"]*)"`).FindStringSubmatch(svg)
		if m == nil {
			return ""
		}
		return m[1]
	}
	for _, c := range []struct {
		what            string
		counts          map[int][]int
		best            int
		thin, own, plus string
		numbers         []string
	}{
		{"nobody ever went", nil, -1, "", "", "", nil},
		{"one visit this year", map[int][]int{0: {0, 1}}, -1, "", "M1.5 34h10v-3.6h-10z", "", []string{"1"}},
		{"one visit an earlier year", map[int][]int{23: {1, 0}}, -1, "M300.5 34h10v-3.6h-10z", "", "", []string{"1"}},
		{"years stacked", map[int][]int{2: {2, 1}}, 3, "M27.5 34h10v-7.6h-10z", "M27.5 26h10v-3.6h-10z", "M41.5 40h8m-4-4v8", []string{"3"}},
		{"many fit: 30 units high", map[int][]int{0: {0, 60}, 1: {0, 1}}, -1, "", "M1.5 34h10v-29.6h-10zM14.5 34h10v-0.8h-10z", "", []string{"60", "1"}},
	} {
		var counts [24][]int
		for i, years := range c.counts {
			counts[i] = years
		}
		var best [24]bool
		if c.best >= 0 {
			best[c.best] = true
		}
		svg := string(Visits(counts, best, letters, `said "so" & so`))
		assert.Equal(t, c.thin, part(svg, "thin"), c.what)
		assert.Equal(t, c.own, part(svg, "own"), c.what)
		assert.Equal(t, c.plus, part(svg, "day"), c.what)
		assert.Equal(t, 24-len(c.counts), strings.Count(part(svg, "u"), "M"), "%s: hatched where nobody went", c.what)
		var numbers []string
		for _, m := range regexp.MustCompile(`let dig"[^>]*>(\d+)<`).FindAllStringSubmatch(svg, -1) {
			numbers = append(numbers, m[1])
		}
		assert.Equal(t, c.numbers, numbers, c.what)
		assert.Contains(t, svg, `x="13 39 65 91 117 143 169 195 221 247 273 299 " y="51">JFMAMJJASOND<`, c.what)
		assert.Contains(t, svg, `aria-label="said &#34;so&#34; &amp; so"`)
	}
}
