package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/view"
	"guidegen/content"
)

// What nobody could name yet is listed for members, with what it may be; the public edition says nothing of it.
func TestFliesToBeNamed(t *testing.T) {
	files := oneFly()
	files["samples/beck.csv"] = file("visit,date,water,method,effort,looked for,fly,stage,sex,count,by,remarks\n" +
		"V1,2026-04-03,Beck,sweep net,50 sweeps,water-bred,upwinged,dun,female,3,A. B.,grey wings\n" +
		"V2,2026-04-04,Beck,sweep net,50 sweeps,water-bred,sedge,adult,,,A. B.,\n" +
		"V3,2026-04-05,Beck,sweep net,50 sweeps,water-bred,Lone dun,dun,,1,A. B.,\n")
	records := func(members bool) string {
		var ps content.Problems
		g, err := guide.Read(files, built, &ps)
		require.NoError(t, err)
		require.Zero(t, ps.Count(content.Error))
		return drawAll(t, figures.Reckon(guide.Cut(g, members), built))[view.RecordsPage]
	}
	page := strings.Join(strings.Fields(records(true)), " ")
	assert.Contains(t, page, `<li>3 April 2026: <b>upwinged</b>, dun, female, × 3, grey wings <small>(V1, samples/beck.csv)</small>. It may be: <a href="species/lone.html">Lone dun</a></li>`)
	assert.Contains(t, page, `<li>4 April 2026: <b>sedge</b>, adult <small>(V2, samples/beck.csv)</small></li>`)
	assert.NotContains(t, page, "V3,")
	assert.NotContains(t, records(false), "To be named")
	assert.Contains(t, page, `<meta name="robots" content="noindex">`, "members' pages ask search engines to stay away")
	assert.NotContains(t, records(false), `name="robots"`)
}

// Where one more visit would tell most is said with its reason: visits so far, flies on, and those not yet found then.
func TestWhereOneMoreVisitTellsMost(t *testing.T) {
	files := oneFly()
	files["samples/beck.csv"] = file("visit,date,water,method,effort,looked for,fly,stage,sex,count,by\n" +
		"V1,2025-05-03,Beck,sweep net,50 sweeps,water-bred,nothing,,,,A. B.\n" +
		"V2,2026-05-04,Beck,sweep net,50 sweeps,water-bred,Lone dun,dun,female,3,A. B.\n" +
		"V3,2026-06-05,Beck,sweep net,50 sweeps,water-bred,nothing,,,,A. B.\n")
	page := strings.Join(strings.Fields(drawAll(t, bookOf(t, files))[view.RecordsPage]), " ")
	assert.Contains(t, page, `aria-label="Beck, visits by half-month. 1–15 May: 1 in 2025, 1 in 2026; 1–15 June: 1 in 2026; nobody went in the rest"`)
	assert.Contains(t, page, `<p class="about"><b>Beck</b>, 1–15 April</p>`)
	assert.Contains(t, page, `<li><b>1–15 April</b>: 1 fly expected, nobody has looked yet</li>`)

	// Where nobody has gone at all, that is said.
	delete(files, "samples/beck.csv")
	page = strings.Join(strings.Fields(drawAll(t, bookOf(t, files))[view.RecordsPage]), " ")
	assert.Contains(t, page, `aria-label="Beck, visits by half-month. nobody has gone yet"`)
	assert.NotContains(t, page, "0</data> visits with a net")
}
