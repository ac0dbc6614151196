package demo

// The demo guide must at least be sound as files: YAML that yaml.v3 reads,
// rows of equal length, links that lead somewhere, no name used twice.

import (
	"encoding/csv"
	"io/fs"
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
)

func each(t *testing.T, ext string, f func(name, text string)) {
	n := 0
	require.NoError(t, fs.WalkDir(FS, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(name) != ext {
			return err
		}
		b, err := fs.ReadFile(FS, name)
		n++
		f(name, string(b))
		return err
	}))
	require.NotZero(t, n)
}

// head is a Markdown file's YAML head.
func head(t *testing.T, name, text string) (h, body string) {
	parts := strings.SplitN(text, "---\n", 3)
	require.Len(t, parts, 3, name)
	require.Empty(t, parts[0], name)
	return parts[1], parts[2]
}

// noHoles fails on a key without a value: a comma inside braces cuts an
// unquoted text in two, and its tail becomes such a key.
func noHoles(t *testing.T, name string, n *yaml.Node) {
	if n.Kind == yaml.MappingNode {
		seen := map[string]bool{}
		for i := 0; i < len(n.Content); i += 2 {
			k, v := n.Content[i], n.Content[i+1]
			assert.False(t, seen[k.Value], "%s:%d: %s twice", name, k.Line, k.Value)
			seen[k.Value] = true
			assert.False(t, v.Tag == "!!null" && v.Value == "", "%s:%d: %s has no value", name, k.Line, k.Value)
		}
	}
	for _, c := range n.Content {
		noHoles(t, name, c)
	}
}

func TestYAMLReadsWithoutHoles(t *testing.T) {
	check := func(name, text string) {
		var n yaml.Node
		require.NoError(t, yaml.Unmarshal([]byte(text), &n), name)
		noHoles(t, name, &n)
	}
	each(t, ".yaml", check)
	each(t, ".md", func(name, text string) {
		h, _ := head(t, name, text)
		check(name, h)
	})
}

func TestRowsAreEquallyLong(t *testing.T) {
	each(t, ".csv", func(name, text string) {
		rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		require.NoError(t, err, name)
		assert.Greater(t, len(rows), 1, name)
	})
}

func TestLinksLeadSomewhere(t *testing.T) {
	link := regexp.MustCompile(`\]\(([^)#]+)`)
	each(t, ".md", func(name, text string) {
		for _, m := range link.FindAllStringSubmatch(text, -1) {
			_, err := fs.Stat(FS, path.Join(path.Dir(name), m[1]))
			assert.NoError(t, err, "%s links to %s", name, m[1])
		}
	})
}

func TestListedFliesHaveOneAccount(t *testing.T) {
	names := map[string]string{}
	each(t, ".md", func(name, text string) {
		if path.Dir(name) != "species" {
			return
		}
		h, _ := head(t, name, text)
		var a struct {
			Name, Scientific string
			Also, Synonyms   []string
		}
		require.NoError(t, yaml.Unmarshal([]byte(h), &a), name)
		for _, n := range append(append(a.Also, a.Synonyms...), a.Name, a.Scientific) {
			n = strings.ToLower(n)
			assert.Empty(t, names[n], "%q names both %s and %s", n, names[n], name)
			names[n] = name
		}
	})
	each(t, ".yaml", func(name, text string) {
		if path.Dir(name) != "rivers" {
			return
		}
		var r struct{ Flies map[string]any }
		require.NoError(t, yaml.Unmarshal([]byte(text), &r), name)
		assert.GreaterOrEqual(t, len(r.Flies), 8, name)
		for f := range r.Flies {
			assert.Contains(t, names, strings.ToLower(f), name)
		}
	})
}

// A source stands in the list only because something rests on it: a statement cites its key, or prose its
// first words.
func TestSourcesAreCited(t *testing.T) {
	text, err := fs.ReadFile(FS, "sources.yaml")
	require.NoError(t, err)
	var sources map[string]struct{ Cite string }
	require.NoError(t, yaml.Unmarshal(text, &sources))
	var all strings.Builder
	for _, ext := range []string{".md", ".yaml"} {
		each(t, ext, func(name, text string) {
			if path.Base(name) != "sources.yaml" {
				all.WriteString(text)
			}
		})
	}
	prose := map[string]string{"waterbook": "water book", "anderson": "Anderson and others, 2015", "shannon": "Shannon and others, 2018", "jccbi": "Invertebrate Link, 2002"}
	for key := range sources {
		cited := regexp.MustCompile(`\(` + key + `\)|basis: ` + key + `\b`).MatchString(all.String())
		assert.True(t, cited || prose[key] != "" && strings.Contains(all.String(), prose[key]), key)
	}
}

// An account is long enough to tell a fly by and short enough to be read on the bank: 120 to 400 words of prose (our
// judgement).
func TestAccountsAreOfALength(t *testing.T) {
	link := regexp.MustCompile(`\]\([^)]*\)`)
	each(t, ".md", func(name, text string) {
		if path.Dir(name) != "species" {
			return
		}
		_, body := head(t, name, text)
		n := len(strings.Fields(link.ReplaceAllString(body, "")))
		assert.GreaterOrEqual(t, n, 120, name)
		assert.LessOrEqual(t, n, 400, name)
	})
}

// What the society's evening, its charts and its nets ask of a reader has a note each.
func TestNotesAreThere(t *testing.T) {
	for _, name := range []string{"how-to-sample", "telling-orders-apart", "reading-the-charts", "safety-on-the-water", "clean-between-waters", "collecting", "club-evening"} {
		text, err := fs.ReadFile(FS, "notes/"+name+".md")
		require.NoError(t, err)
		_, body := head(t, name, string(text))
		n := len(strings.Fields(body))
		assert.GreaterOrEqual(t, n, 100, name)
		assert.LessOrEqual(t, n, 400, name)
	}
}
