package rivers_test

// Every explained problem is shown by its own small guide: all readers are
// applied to it, and exactly the problems it announces must come out, by a
// comment `# want "…"` on the line in YAML, or by place in a section `want`.

import (
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
	"guidegen/content/problems"
	"guidegen/rivers"
	"guidegen/species"
)

var (
	wantComment = regexp.MustCompile(`# want((?: "[^"]*")+)`)
	quoted      = regexp.MustCompile(`"([^"]*)"`)
	leading     = regexp.MustCompile(`^(?:unknown [a-z]+ )?"([^"]*)" (?:is|has|names|starts|ends)`)
	wantLine    = regexp.MustCompile(`^(.*?:\d+:\d+|[^:]*): (.*)$`)
)

// file is one file of an example.
type file struct{ Name, Data string }

var fileLine = regexp.MustCompile(`(?m)^-- (.+) --\n`)

// parts cuts an example (the txtar format) into its files.
func parts(example string) []file {
	var l []file
	marks := fileLine.FindAllStringSubmatchIndex(example, -1)
	for i, m := range marks {
		end := len(example)
		if i+1 < len(marks) {
			end = marks[i+1][0]
		}
		l = append(l, file{example[m[2]:m[3]], example[m[1]:end]})
	}
	return l
}

// readAll applies each reader to its files.
func readAll(t *testing.T, files []file, ps *content.Problems) {
	t.Helper()
	guide := fstest.MapFS{}
	for _, f := range files {
		guide[f.Name] = &fstest.MapFile{Data: []byte(f.Data)}
	}
	folder := content.Folder{FS: guide}
	list, err := folder.List(ps)
	require.NoError(t, err)
	each := func(k content.FileKind, read func(*content.File)) {
		for _, p := range list[k] {
			f, err := folder.Read(p, ps)
			require.NoError(t, err)
			read(f)
		}
	}
	var in species.Context
	each(content.SourcesFile, func(f *content.File) { in.Sources = species.SourceKeys(species.ReadSources(f, ps)) })
	each(content.CharactersFile, func(f *content.File) { in.Characters = species.ReadCharacters(f, ps) })
	each(content.HooksFile, func(f *content.File) { species.ReadHooks(f, ps) })
	each(content.SpeciesFile, func(f *content.File) { species.ReadAccount(f, in, ps) })
	each(content.DressingFile, func(f *content.File) { species.ReadDressings(f, in, ps) })
	each(content.RiverFile, func(f *content.File) { rivers.ReadWater(f, in.Grounds, ps) })
	each(content.SampleFile, func(f *content.File) { rivers.ReadSamples(f, ps) })
	each(content.TemperatureFile, func(f *content.File) { rivers.ReadTemperature(f, ps) })
}

func TestExplainedProblems(t *testing.T) {
	ours := ids(t, "*.go", "../content/*.go", "../species/*.go")
	for _, id := range problems.IDs() {
		if !ours[id] {
			continue // of the guide as a whole; shown by its own test
		}
		t.Run(id, func(t *testing.T) {
			text, example, _ := problems.Explain(id)
			assert.Greater(t, len(text), 60, "an explanation of a line or more")
			if example == "" {
				return // can't be shown by a small file; has a test of its own
			}
			var want []string
			var files []file
			for _, f := range parts(example) {
				if f.Name == "want" {
					want = append(want, strings.Split(strings.TrimSpace(f.Data), "\n")...)
					continue
				}
				files = append(files, f)
				for i, line := range strings.Split(f.Data, "\n") {
					if m := wantComment.FindStringSubmatch(line); m != nil {
						for _, q := range quoted.FindAllStringSubmatch(m[1], -1) {
							want = append(want, f.Name+":"+strconv.Itoa(i+1)+":*: "+q[1])
						}
					}
				}
			}
			ps := &content.Problems{}
			readAll(t, files, ps)
			shown := false
			for _, p := range ps.All() {
				if p.ID == "no-guide" && id != "no-guide" {
					continue
				}
				shown = shown || p.ID == id
				if m := leading.FindStringSubmatch(p.Message); m != nil && !strings.Contains(m[1], "\\") {
					f := ps.File(p.At.File)
					assert.Equal(t, m[1], string(f.Bytes[p.At.Offset:p.At.Offset+p.At.Len]), "the place is that of the token")
				}
				i := 0
				for ; i < len(want); i++ {
					if announced(want[i], ps.Where(p.At), p.Message) {
						break
					}
				}
				if assert.Less(t, i, len(want), "not announced: %s: %s [%s]", ps.Where(p.At), p.Message, p.ID) {
					want = append(want[:i:i], want[i+1:]...)
				}
			}
			assert.Empty(t, want, "announced but not found")
			assert.True(t, shown, "the example does not show its problem")
		})
	}
}

func announced(want, where, message string) bool {
	m := wantLine.FindStringSubmatch(strings.Replace(want, ":*: ", ":0: ", 1))
	if m == nil || !strings.Contains(message, m[2]) {
		return false
	}
	if strings.Contains(want, ":*: ") {
		return where[:strings.LastIndexByte(where, ':')] == m[1][:strings.LastIndexByte(m[1], ':')]
	}
	return where == m[1]
}

// ids finds the ids of problems in source files: a literal in kebab-case that
// is handed to one of the reporting functions.
func ids(t *testing.T, globs ...string) map[string]bool {
	t.Helper()
	call := regexp.MustCompile(`(?:Errorf|Warnf|Notef|Clash|Refuse|refuse|refuseCell|unknown|claims\(r,|said\(r,|ID:|id =)\(? ?(?:ps, )?"([a-z0-9-]+)"`)
	found := map[string]bool{}
	for _, g := range globs {
		paths, err := filepath.Glob(g)
		require.NoError(t, err)
		for _, p := range paths {
			if strings.HasSuffix(p, "_test.go") {
				continue
			}
			b, err := os.ReadFile(p)
			require.NoError(t, err)
			for _, m := range call.FindAllSubmatch(b, -1) {
				found[string(m[1])] = true
			}
		}
	}
	return found
}

func TestEveryProblemIsExplained(t *testing.T) {
	found := ids(t, "*.go", "../content/*.go", "../species/*.go")
	require.Greater(t, len(found), 70)
	for id := range found {
		_, _, ok := problems.Explain(id)
		assert.True(t, ok, "no explanation of %s: add content/problems/%s.txtar", id, id)
	}
	_, _, ok := problems.Explain("no-such-id")
	assert.False(t, ok)
}
