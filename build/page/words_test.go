package page

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/lang"
)

// Every word that a template or a Go file names is in the English file.
func TestEveryWordIsThere(t *testing.T) {
	w, err := lang.LoadWords("en")
	require.NoError(t, err)
	inTemplates := regexp.MustCompile(`\b(?:w|pattern) "([a-z0-9_.\-]+)"`)
	inGo := regexp.MustCompile(`Plain\("([a-z0-9_.\-]+)"[,)]`)
	used := 0
	look := func(glob string, find *regexp.Regexp) {
		files, err := filepath.Glob(glob)
		require.NoError(t, err)
		require.NotEmpty(t, files, glob)
		for _, f := range files {
			if strings.HasSuffix(f, "_test.go") {
				continue
			}
			b, err := os.ReadFile(f)
			require.NoError(t, err)
			for _, m := range find.FindAllStringSubmatch(string(b), -1) {
				used++
				assert.True(t, w.Has(m[1]), "%s: no words for %q", f, m[1])
			}
		}
	}
	look("../../templates/pages/*.html", inTemplates)
	look("../../templates/partials/*.html", inTemplates)
	for _, pkg := range []string{"lang", "view", "paper", "now", "page"} {
		look("../"+pkg+"/*.go", inGo)
	}
	assert.Greater(t, used, 300)
}
