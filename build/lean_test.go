package build

import (
	"io/fs"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/templates"
)

func TestLean(t *testing.T) {
	for _, c := range []struct{ file, text, want string }{
		{"js/a.js", "// what it is for\n\n  'use strict'; // stays\n  // goes\n\tx = 'http://';\n", "'use strict'; // stays\nx = 'http://';\n"},
		{"css/a.css", "/* one\n   two */\n\na {\n  color: red; /* stays */\n}\n/* goes */\n/* stays */ b { top: 0; }\n", "a{\ncolor:red;/* stays */\n}\n/* stays */ b{top:0}\n"},
		{"css/b.css", "a:is(b, c) > d :is(e)::before { content: \"; } , \"; margin: 0 calc(1px + 2px); }\n", "a:is(b,c)>d :is(e)::before{content:\"; } , \";margin:0 calc(1px + 2px)}\n"},
		{"vendor/a.js", "// theirs\n  x\n", "// theirs\n  x\n"},
		{"icons/a.svg", "  <svg/>\n", "  <svg/>\n"},
	} {
		assert.Equal(t, c.want, string(lean(c.file, []byte(c.text))), c.file)
	}
}

// Lines can only be taken away and moved to the left where none is part of a text that runs over lines.
func TestNoTextRunsOverLines(t *testing.T) {
	block := regexp.MustCompile(`(?m)^\s*/\*|\\$`)
	require.NoError(t, fs.WalkDir(templates.Files, "js", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(templates.Files, p)
		require.NoError(t, err)
		assert.NotContains(t, string(text), "`", p)
		assert.Empty(t, block.FindAllString(string(text), -1), p)
		assert.Less(t, len(lean(p, text)), len(text), p)
		assert.True(t, strings.Contains(string(lean(p, text)), "use strict"), p)
		return nil
	}))
}

// A page's style sheet is no heavier than this, as it goes over the wire unpacked.
func TestStyleIsLight(t *testing.T) {
	for name, most := range map[string]int{"site.css": 20_950, "chart.css": 2_000, "lists.css": 2_600} {
		text, err := fs.ReadFile(templates.Files, "css/"+name)
		require.NoError(t, err)
		assert.LessOrEqual(t, len(lean("css/"+name, text)), most, name)
	}
}
