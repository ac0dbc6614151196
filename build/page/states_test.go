package page

// Found, looked for and not found, and nobody looked are three states on every page, on paper too: a guide in which
// nobody ever looked says nowhere that something was not found, and one in which somebody always looked says nowhere that
// nobody did.

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// statesGuide has two flies on two waters, and a visit with nothing in the net in every half-month of three years, or none.
func statesGuide(looked bool) fstest.MapFS {
	files := oneFly()
	files["guide.yaml"] = file("format: 1\nname: States\nbasis: memory\n")
	files["species/late.md"] = file("---\nname: Late sedge\ngroup: sedge\nflights:\n  only: {from: mid Aug, peak: 1 Sep, to: late Sep, abundance: rare}\nhours: {adult: dusk}\n---\n\nA fly.\n")
	files["rivers/beck.yaml"] = file("name: Beck\nkind: rain-fed\nplace: 55 N, 3 W\ntime_zone: Europe/London\nflies:\n  Lone dun: frequent\n  Late sedge: rare\n")
	files["rivers/other.yaml"] = file("name: Other\nkind: spring-fed\nflies:\n  Lone dun: frequent\n")
	if looked {
		var rows strings.Builder
		rows.WriteString("visit,date,water,method,effort,looked for,fly,by\n")
		for year := 2023; year <= 2025; year++ {
			for month := 1; month <= 12; month++ {
				for _, day := range []int{8, 23} {
					for _, water := range []string{"Beck", "Other"} {
						fmt.Fprintf(&rows, "%s%d-%02d-%02d,%d-%02d-%02d,%s,sweep net,50 sweeps,all,nothing,A. B.\n", water, year, month, day, year, month, day, water)
					}
				}
			}
		}
		files["samples/all.csv"] = file(rows.String())
	}
	return files
}

// legends say what the states are, and stand on every page that shows them.
var legends = map[string]bool{"figures.html": true, "glossary.html": true, "sheet.html": true}

func TestThreeStatesEverywhere(t *testing.T) {
	notFound := regexp.MustCompile(`(?i)not found|\b0 (of|on) \d|found on \d|0 of \d+ visits`)
	nobody := regexp.MustCompile(`(?i)nobody (looked|went)`)
	for _, c := range []struct {
		looked bool
		never  *regexp.Regexp
	}{{false, notFound}, {true, nobody}} {
		pages := drawAll(t, bookOf(t, statesGuide(c.looked)))
		said := 0
		for address, page := range pages {
			if legends[address] {
				continue
			}
			doc, err := html.ParseWithOptions(strings.NewReader(page), html.ParseOptionEnableScripting(false))
			require.NoError(t, err)
			text := textWithoutLegends(doc)
			if m := c.never.FindStringIndex(text); m != nil {
				assert.Fail(t, address, "looked %v: … %s …", c.looked, text[max(0, m[0]-80):min(len(text), m[1]+60)])
			}
			if map[bool]*regexp.Regexp{false: nobody, true: notFound}[c.looked].MatchString(text) {
				said++
			}
		}
		assert.Greater(t, said, 4, "the other state is said where it holds")
	}
}

// textWithoutLegends is the text of a page but for what explains its signs and what its scripts may say.
func textWithoutLegends(n *html.Node) string {
	if n.Type == html.TextNode {
		return n.Data + " "
	}
	if n.Type == html.ElementNode {
		class, _ := attr(n, "class")
		for _, c := range strings.Fields(class) {
			if c == "signs" || c == "legend" || c == "leg" || c == "signs-read" {
				return ""
			}
		}
		if n.DataAtom == atom.Caption || n.DataAtom == atom.Script || n.DataAtom == atom.Template || n.DataAtom == atom.Style {
			return ""
		}
	}
	var b strings.Builder
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		b.WriteString(textWithoutLegends(c))
	}
	return b.String()
}
