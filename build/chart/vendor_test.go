package chart

// The scripts by others are the ones that vendor.json names, and no bigger.

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestVendoredScriptsAreTheOnesListed(t *testing.T) {
	for _, dir := range []string{"../../templates/vendor", "../../testdata/vendor"} {
		text, err := os.ReadFile(filepath.Join(dir, "vendor.json"))
		require.NoError(t, err)
		var list struct {
			Scripts []struct {
				File, Name, Version, Licence, Source, Made, SHA256 string
				LicenceFile                                        string `json:"licence_file"`
				Bytes                                              int
				GzipBytes                                          int `json:"gzip_bytes"`
				MaxGzipBytes                                       int `json:"max_gzip_bytes"`
				Bundles                                            []struct{ Name, Version, Licence string }
			}
		}
		dec := json.NewDecoder(bytes.NewReader(text))
		dec.DisallowUnknownFields()
		require.NoError(t, dec.Decode(&list))

		listed := map[string]bool{}
		for _, s := range list.Scripts {
			listed[s.File] = true
			script, err := os.ReadFile(filepath.Join(dir, s.File))
			require.NoError(t, err)
			sum := sha256.Sum256(script)
			assert.Equal(t, s.SHA256, hex.EncodeToString(sum[:]), s.File)
			assert.Equal(t, s.Bytes, len(script), s.File)

			// Go's gzip and the one on the bench differ by a few parts in a thousand.
			var zipped bytes.Buffer
			w, _ := gzip.NewWriterLevel(&zipped, gzip.BestCompression)
			_, err = w.Write(script)
			require.NoError(t, err)
			require.NoError(t, w.Close())
			assert.InEpsilon(t, s.GzipBytes, zipped.Len(), 0.02, s.File)
			assert.LessOrEqual(t, zipped.Len(), s.MaxGzipBytes, s.File)

			licence, err := os.ReadFile(filepath.Join(dir, s.LicenceFile))
			require.NoError(t, err)
			assert.Greater(t, len(licence), 500, s.LicenceFile)
			for _, field := range []string{s.Name, s.Version, s.Licence, s.Source, s.Made} {
				assert.NotEmpty(t, field, s.File)
			}
		}
		scripts, err := filepath.Glob(filepath.Join(dir, "*.js"))
		require.NoError(t, err)
		for _, path := range scripts {
			assert.True(t, listed[filepath.Base(path)], "%s is not in vendor.json", path)
		}
	}
}

var wayOut = regexp.MustCompile(`new Function|[^.\w]eval\(|importScripts|XMLHttpRequest|[^.\w}]fetch\(|[^.\w]import\(|sourceMappingURL`)

// A site's content security policy is default-src 'self': what needs eval or
// another host has no place here.
func TestVendoredScriptsNeedNoEvalAndNoOtherHost(t *testing.T) {
	for _, file := range []string{"echarts.js", "minisearch.js"} {
		script, err := os.ReadFile(filepath.Join("../../templates/vendor", file))
		require.NoError(t, err)
		found := wayOut.FindString(string(script))
		assert.Empty(t, found, file)
	}
}
