package browser

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Words of other languages are longer than English ones: the demo in them runs out of no page at 320 px, the narrowest
// that WCAG 2.1 asks for (criterion 1.4.10), with everything opened.
func TestOtherLanguagesFit(t *testing.T) {
	for _, lang := range []string{"de", "fr"} {
		t.Run(lang, func(t *testing.T) { fits(t, lang) })
	}
}

func fits(t *testing.T, lang string) {
	guide, out := filepath.Join(t.TempDir(), "guide"), filepath.Join(t.TempDir(), "site")
	require.NoError(t, os.CopyFS(guide, os.DirFS("../../content/demo/guide")))
	file := filepath.Join(guide, "guide.yaml")
	settings, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Contains(t, string(settings), "languages: [en]")
	require.NoError(t, os.WriteFile(file, bytes.Replace(settings, []byte("languages: [en]"), []byte("languages: ["+lang+"]"), 1), 0o644))
	require.NoError(t, publish(guide, out, built))
	server := serve(t, out)
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.on("2027-05-15")
	b.size(320, 900, 1)
	for _, p := range oneOfEachKind(t) {
		b.visit(server.URL + below + p)
		b.settle()
		assert.Empty(t, eval[[]string](b, overflowing), p)
		eval[bool](b, openAll)
		b.settle()
		assert.Empty(t, eval[[]string](b, overflowing), "%s, all opened", p)
		assert.Equal(t, lang, eval[string](b, "document.documentElement.lang"), p)
	}
	b.sound("in " + lang)
}
