package page

import (
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
)

// Each is named as they wish. Who went to a withheld beat is told to members alone, and gives nobody else the first find.
func TestRecordersAreNamedAsTheyWish(t *testing.T) {
	files := fstest.MapFS{
		"guide.yaml":      file("format: 1\nname: Who\npeople: {Ada Fullname: full, Nora Nameless: none, Ines Shortly: initials}\n"),
		"species/lone.md": oneFly()["species/lone.md"],
		"rivers/beck.yaml": file("name: Beck\nkind: rain-fed\ntime_zone: Europe/London\nbeats: {Quiet bend: {show: members}}\n" +
			"flies:\n  Lone dun: frequent\n"),
		"samples/a.csv": file("visit,date,water,beat,method,effort,looked for,fly,stage,count,by\n" +
			"A-1,2025-04-01,Beck,,sweep net,50 sweeps,all,nothing,,,Ada Fullname | Nora Nameless\n" +
			"A-2,2025-04-02,Beck,Quiet bend,sweep net,50 sweeps,all,Lone dun,dun,2,Hetty Hidden\n" +
			"A-3,2025-04-05,Beck,,sweep net,50 sweeps,all,Lone dun,dun,1,Ines Shortly\n" +
			"A-4,2026-04-05,Beck,,kick sample,3 minutes,all,Lone dun,nymph,7,I. Shortly\n" +
			"A-5,2025-04-09,Beck,,sweep net,50 sweeps,all,nothing,,,N. Nameless | Nora Nameless\n"),
	}
	said := func(members bool) string {
		html := drawAnew(t, markedBook(t, files, members))["recorders.html"]
		html = html[strings.Index(html, "<main"):strings.Index(html, "</main")]
		return strings.Join(strings.Fields(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(html, " ")), " ")
	}
	public, members := said(false), said(true)
	for what, text := range map[string]string{"public": public, "members": members} {
		assert.Contains(t, text, "Ada Fullname 1 visit, 1 without a fly (2025).", what)
		assert.Contains(t, text, "I. S. 1 visit, 0 without a fly (2025–2026). 1 species found. 1 visit of another kind, such as a kick sample.", what)
		assert.Contains(t, text, "2 visits by people who wish no name.", what)
		assert.NotRegexp(t, "Nora|N. N|Nameless|Ines|Shortly|Hetty|Hidden", text, what)
	}
	assert.Contains(t, public, "1 visit whose recorder isn’t told here.")
	assert.NotRegexp(t, "H. H|The first to find", public, "the first found it on a withheld beat")
	assert.Contains(t, members, "H. H. 1 visit, 0 without a fly (2025). 1 species found. The first to find, by water Beck : Lone dun")
	assert.NotContains(t, members, "isn’t told here")
}
