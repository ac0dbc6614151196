package page

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
)

// One year says little of the days between two waters, and is marked; two years are as many as a
// middle date needs.
func TestOneYearBetweenTwoWatersIsThin(t *testing.T) {
	const head = "visit,date,water,method,effort,looked for,fly,stage,count,by\n"
	year := func(y string) string {
		out := ""
		for _, v := range [][2]string{{"Beck", "04-01"}, {"Beck", "04-02"}, {"Beck", "04-07"}, {"Tarn", "04-09"}, {"Tarn", "04-12"}, {"Tarn", "04-17"}} {
			out += v[0] + y + v[1] + "," + y + "-" + v[1] + "," + v[0] + ",sweep net,50 sweeps,,Lone dun,dun,4,A. B.\n"
		}
		return out
	}
	guide := func(rows string) fstest.MapFS {
		files := oneFly()
		files["rivers/tarn.yaml"] = file("name: Tarn\nkind: upland lake\ntime_zone: Europe/London\nflies:\n  Lone dun: frequent\n")
		files["samples/all.csv"] = file(head + rows)
		return files
	}
	const later, thin = `Tarn 10 days later`, ` <span class="tag">thin evidence</span>`
	one := drawAll(t, bookOf(t, guide(year("2025"))))["species/lone.html"]
	assert.Equal(t, []int{2, 1}, []int{strings.Count(one, later), strings.Count(one, later+", give or take 9 days"+thin)}, "the median and its year")
	two := drawAll(t, bookOf(t, guide(year("2024")+year("2025"))))["species/lone.html"]
	assert.Equal(t, []int{3, 0}, []int{strings.Count(two, later), strings.Count(two, thin)})
}
