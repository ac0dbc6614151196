package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A bent hook has no shank to hold against a body, yet what is tied on it stands beside its natural, colours and all;
// and a dressing isn't said to be ruled out for the other stages of the fly that it imitates.
func TestADressingOnABentHook(t *testing.T) {
	files := oneFly()
	files["species/lone.md"] = file("---\nname: Lone midge\nscientific: Chironomus plumosus (Linnaeus, 1758)\ngroup: midge\nbasis: memory\n" +
		"flights:\n  spring: {from: mid Mar, to: late Apr, abundance: frequent}\nlength: {pupa: 10 to 12 mm}\ncolours: {pupa: {body: Dark Olive}}\n---\n\nA fly.\n")
	files["rivers/beck.yaml"] = file("name: Beck\nkind: upland lake\ntime_zone: Europe/London\nflies:\n  Lone midge: frequent\n")
	files["hooks.csv"] = file("model,size,shank mm,gape mm,shape\nbent,12,,5.5,curved\n")
	files["dressings/pupa.yaml"] = file("name: Hanging one\nbasis: own\nfishes: film\nstands_for: {flies: [Lone midge], stage: pupa}\nsizes: 12\n" +
		"parts: {hook: bent, thread: black, body: {of: thread, colour: Dark Olive}}\n")
	html := drawAll(t, bookOf(t, files))["dressings/pupa.html"]
	assert.Equal(t, 2, strings.Count(html, "<figcaption>"))
	assert.Contains(t, html, `Lone midge, pupa, <data value="11"`)
	assert.Contains(t, html, "<p>On a curved hook, 9.2 mm along the bend.</p>")
	assert.Contains(t, html, "<small>the fly: ")
	assert.NotContains(t, html, "Not for")
}

// The list says which stage each dressing imitates.
func TestTheListNamesStages(t *testing.T) {
	html := drawAll(t, demoBook())["dressings.html"]
	assert.Contains(t, html, `Blue-winged olive, Upwinged flies <small>(female spinner)</small>`)
	assert.Contains(t, html, `Broadwing <small>(dun and spinner)</small>`)
}

// On a page of a fly what is tied for it comes first and in full, then the rest on one line.
func TestOffersOnAFlysPage(t *testing.T) {
	files := oneFly()
	files["species/lone.md"] = file("---\nname: Lone dun\nscientific: Baetis rhodani (Pictet, 1843)\ngroup: upwinged\nbasis: memory\n" +
		"flights:\n  spring: {from: mid Mar, to: late Apr, abundance: frequent}\nlength: {dun: 8 to 9 mm}\ncolours: {dun: {body: Dark Olive}}\n---\n\nA fly.\n")
	files["hooks.csv"] = file("model,size,shank mm,gape mm,shape\ndry,14,8.5,5,straight\n")
	one := func(name, who, colour string) string {
		return "- {name: " + name + ", fishes: surface, stands_for: {" + who + ", stage: dun}, sizes: 14, parts: {hook: dry, thread: grey, body: {of: fur, colour: " + colour + "}}}\n"
	}
	box := one("Group near", "groups: [upwinged]", "Dark Olive") + one("Group far", "groups: [upwinged]", "Moderate Olive")
	page := func(box string) string {
		files["dressings/box.yaml"] = file("basis: own\nbox:\n" + box)
		html := drawAll(t, bookOf(t, files))["species/lone.html"]
		at := strings.Index(html, `<section class="tie-on"><h3>dun`)
		if !assert.Positive(t, at) {
			return ""
		}
		return html[at : at+strings.Index(html[at:], "</section>")]
	}
	html := page(box)
	assert.Equal(t, 1, strings.Count(html, "<li>"), "the best of the others")
	assert.Less(t, strings.Index(html, "Group near"), strings.Index(html, "Near it too"))
	assert.Less(t, strings.Index(html, "Near it too"), strings.Index(html, "Group far"))
	html = page(box + one("Own far", "flies: [Lone dun]", "Light Olive") + one("Own near", "flies: [Lone dun]", "Dark Olive"))
	assert.Equal(t, 2, strings.Count(html, "<li>"), "all that are tied for it")
	order := []int{strings.Index(html, "Own near"), strings.Index(html, "Own far"), strings.Index(html, "Near it too"), strings.Index(html, "Group near"), strings.Index(html, "Group far")}
	assert.IsIncreasing(t, order)
}
