package page

// A chart's option is where its button looks for it.

import (
	"encoding/json"
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"guidegen/build/view"
)

var optionLine = regexp.MustCompile(`(?m)^guide(?:Option|Years)\("([^"]+)",(\d+),(\{.*\})\);$`)

func TestEveryChartHasItsOption(t *testing.T) {
	book := demoBook()
	files, err := Generated(book, view.Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	options := map[string]map[string]bool{}
	for _, f := range files {
		if !strings.HasPrefix(f.Address, view.Assets+"charts/") {
			continue
		}
		options[f.Address] = map[string]bool{}
		for _, m := range optionLine.FindAllStringSubmatch(string(f.Bytes), -1) {
			assert.True(t, json.Valid([]byte(m[3])), m[1])
			assert.False(t, options[f.Address][m[1]], "twice: %s", m[1])
			options[f.Address][m[1]] = true
		}
	}
	buttons := 0
	for address, text := range drawAll(t, book) {
		doc, err := html.Parse(strings.NewReader(text))
		require.NoError(t, err)
		walk(doc, func(n *html.Node) {
			file, ok := attr(n, "data-options")
			if !ok {
				return
			}
			buttons++
			names, _ := attr(n, "data-names")
			titles, _ := attr(n, "data-titles")
			assert.Len(t, strings.Split(titles, "|"), len(strings.Split(names, "|")))
			panel, own, _ := strings.Cut(file, "|")
			at := func(file, name string) {
				assert.True(t, options[path.Join(path.Dir(address), file)][name], "%s: no %q in %s", address, name, file)
			}
			at(panel, panelOption)
			for _, name := range strings.Split(names, "|") {
				at(own, name)
			}
		})
	}
	assert.Greater(t, buttons, len(book.Flies), "on waters' pages and on flies'")
}
