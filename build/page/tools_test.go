package page

// The tools that reckon on the device, in a browser and from disk: the same tables of cases as
// for Go, and the pages themselves. Skipped where there is no Chromium, unless CI asks for it.

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/browser"
	"guidegen/build/lang"
)

// blank is a page that loads scripts of the site and notes what goes wrong, under the site's own policy.
func blank(t *testing.T, scripts ...string) string {
	dir := t.TempDir()
	html := `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>t</title>
<meta http-equiv="Content-Security-Policy" content="default-src 'self'">`
	for _, s := range scripts {
		text, err := os.ReadFile("../../templates/js/" + s)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(dir, s), text, 0o644))
		html += fmt.Sprintf(`<script defer src="%s"></script>`, s)
	}
	file := filepath.Join(dir, "blank.html")
	require.NoError(t, os.WriteFile(file, []byte(html+`</head><body></body></html>`), 0o644))
	return "file://" + file
}

func visit(t *testing.T, ctx context.Context, url string) {
	t.Helper()
	ctx, cancel := context.WithTimeout(ctx, 60*time.Second)
	defer cancel()
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(url)), url)
}

func eval[T any](t *testing.T, ctx context.Context, script string) T {
	t.Helper()
	ctx, cancel := context.WithTimeout(ctx, 60*time.Second)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	require.NoError(t, err, script)
	return v
}

// caseTable reads a table of cases as it is, for a script.
func caseTable(t *testing.T, file string) (list []json.RawMessage) {
	text, err := os.ReadFile("../../testdata/" + file)
	require.NoError(t, err)
	var all struct{ Cases []json.RawMessage }
	require.NoError(t, json.Unmarshal(text, &all))
	return all.Cases
}

// The cases that species/tying passes in Go.
func TestTripScriptPassesTheCases(t *testing.T) {
	ctx := browser.Open(t)
	visit(t, ctx, blank(t, "kit.js", "trip.js"))
	list := caseTable(t, "tying-cases.json")
	require.Len(t, list, 16)
	type pick struct {
		Name  string   `json:"name"`
		Adds  float64  `json:"adds"`
		For   []string `json:"for"`
		Share float64  `json:"share"`
	}
	for _, c := range list {
		var want struct {
			Name  string
			Picks []pick
			Open  []string
		}
		require.NoError(t, json.Unmarshal(c, &want))
		got := eval[struct {
			Picks []pick   `json:"picks"`
			Open  []string `json:"open"`
		}](t, ctx, `(function (c) {
			var l = guideTrip.list(c.due, c.box, c.enough);
			return {picks: l.picks.map(function (p) { return {name: p.name, adds: p.adds, for: p.for, share: p.share}; }), open: l.open};
		})(`+string(c)+`)`)
		require.Len(t, got.Picks, len(want.Picks), want.Name)
		for i, p := range got.Picks {
			assert.Equal(t, want.Picks[i].Name, p.Name, want.Name)
			assert.Equal(t, want.Picks[i].For, p.For, want.Name)
			assert.InDelta(t, want.Picks[i].Adds, p.Adds, 1e-9, want.Name)
			assert.InDelta(t, want.Picks[i].Share, p.Share, 1e-9, want.Name)
		}
		assert.ElementsMatch(t, want.Open, got.Open, want.Name)
	}
}

// Every word that a script says is in the English file and handed over by its page.
func TestScriptsSayKnownWords(t *testing.T) {
	w, err := lang.LoadWords("en")
	require.NoError(t, err)
	said := regexp.MustCompile(`say\((?:[^'()]*\? )?'([a-z_.]+)'`)
	files, err := filepath.Glob("../../templates/js/*.js")
	require.NoError(t, err)
	n := 0
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		for _, m := range said.FindAllStringSubmatch(string(text), -1) {
			n++
			assert.True(t, w.Has(strings.TrimSuffix(m[1], ".")) || len(w.Forms(strings.TrimSuffix(m[1], "."))) > 0, "%s: no words for %q", f, m[1])
		}
	}
	assert.Greater(t, n, 40)
}
