package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	shellBlock = regexp.MustCompile("(?ms)^```sh\n(.*?)^```$")
	yamlBlock  = regexp.MustCompile("(?ms)^```yaml\n(.*?)^```$")
	textBlock  = regexp.MustCompile("(?ms)^```text\n(.*?)^```$")
	word       = regexp.MustCompile(`"([^"]*)"|(\S+)`)
)

// The commands of README.md are run one after the other in an empty folder, and
// the problem it shows is the one that is printed.
func TestReadme(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	ran := 0
	for _, block := range shellBlock.FindAllStringSubmatch(string(text), -1) {
		for line := range strings.Lines(block[1]) {
			line = strings.TrimSpace(line)
			args, ours := strings.CutPrefix(line, "go run ./cmd/guidegen")
			if !ours {
				args, ours = strings.CutPrefix(line, "guidegen")
			}
			if !ours {
				assert.Contains(t, []string{"go test ./...", "go install ./cmd/guidegen", `export PATH="$PATH:$(go env GOPATH)/bin"`}, line, "an unknown command")
				continue
			}
			if strings.HasPrefix(strings.TrimSpace(args), "desk") {
				continue // it serves until it is stopped: see the tests of build/desk
			}
			var words []string
			for _, w := range word.FindAllStringSubmatch(args, -1) {
				words = append(words, w[1]+w[2])
			}
			out, errs, status := call(t, "", words...)
			assert.Equal(t, fine, status, "%s\n%s%s", line, out, errs)
			ran++
		}
	}
	assert.GreaterOrEqual(t, ran, 7)
	assert.FileExists(t, "published/index.html")
	assert.FileExists(t, "our-site/index.html")

	demo, _, _ := call(t, "", "proof", "--date", "2026-11-24")
	assert.Regexp(t, `\n5 warnings, \d+ notes; `, demo, "the demo's five that the text tells of")
	assert.Equal(t, 5, strings.Count(demo, "  warning\n"))

	river := filepath.FromSlash("our-guide/rivers/lorrow-brook.yaml")
	b, err := os.ReadFile(river)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(river, []byte(strings.Replace(string(b), "Large dark olive:", "Large dark olvie:", 1)), 0o644))
	out, _, status := call(t, "", "proof", "our-guide")
	assert.Equal(t, faulty, status)
	shown := textBlock.FindStringSubmatch(string(text))
	require.NotNil(t, shown)
	assert.Contains(t, out, shown[1])

	// The acknowledgement has the keys that it must have, and no other.
	stands := yamlBlock.FindStringSubmatch(string(text))
	require.NotNil(t, stands)
	require.NoError(t, os.WriteFile(filepath.FromSlash("our-guide/acknowledged.yaml"), []byte(stands[1]), 0o644))
	out, _, _ = call(t, "", "proof", "our-guide")
	assert.NotContains(t, out, "-key]")

	// What the text says of a water with another name.
	require.NoError(t, os.WriteFile(river, []byte(strings.Replace(string(b), "name: Lorrow Brook", "name: Ashbeck", 1)), 0o644))
	out, _, status = call(t, "", "proof", "our-guide")
	assert.Equal(t, faulty, status)
	assert.Contains(t, out, `no water is named "Lorrow Brook"`)
	require.NoError(t, os.Remove(filepath.FromSlash("our-guide/samples/lorrow-brook-2025.csv")))
	require.NoError(t, os.Remove(filepath.FromSlash("our-guide/acknowledged.yaml")))
	out, _, status = call(t, "", "proof", "our-guide")
	assert.Equal(t, fine, status, out)
}

// The files and folders that README.md and DEVELOPERS.md name are there.
func TestDocumentsNameWhatIsThere(t *testing.T) {
	path := regexp.MustCompile("`((?:build|cmd|content|rivers|species|templates|testdata|\\.ci)/[a-z/_.]*)`")
	for _, name := range []string{"README.md", "DEVELOPERS.md"} {
		text, err := os.ReadFile(filepath.Join("../..", name))
		require.NoError(t, err)
		for _, m := range path.FindAllStringSubmatch(string(text), -1) {
			if m[1] == "species/" || m[1] == "rivers/" || m[1] == ".ci/run" {
				continue // of a guide; of the machine that runs the tests
			}
			_, err := os.Stat(filepath.Join("../..", filepath.FromSlash(m[1])))
			assert.NoError(t, err, "%s names %s", name, m[1])
		}
	}
}
