package build_test

import (
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// line is the straight line of packages. Each imports only those of earlier
// rows; those of one row stand beside each other and don't know each other.
var line = [][]string{
	{"templates"},
	{"content/calendar"},
	{"content/measure"}, // words its refusals as the calendar does
	{"content"},
	{"content/demo", "content/problems", "species/hook", "species/colour"},
	{"species"},
	{"species/key", "species/tying"},
	{"rivers"},
	{"rivers/daylight", "rivers/season", "rivers/survey"},
	{"build/photo"},
	{"build/guide"},
	{"build/figures"},
	{"build/draw", "build/trial", "build/lang"},
	{"build/chart", "build/share", "build/press"},
	{"build/view"},
	{"build/paper", "build/now"},
	{"build/page", "build/browser"},
	{"build/site"},
	{"build"},
	{"build/desk"},
	{"cmd/guidegen"},
}

// direct are the modules that our own files import, and why.
var direct = map[string]string{
	"github.com/wroge/wgs84":                   "grid references",
	"github.com/yuin/goldmark":                 "Markdown",
	"github.com/go-echarts/go-echarts/v2":      "chart options",
	"gopkg.in/yaml.v3":                         "YAML",
	"github.com/gosimple/slug":                 "addresses",
	"github.com/stretchr/testify":              "tests",
	"github.com/spf13/cobra":                   "the command line",
	"github.com/spf13/pflag":                   "the command line's flags",
	"github.com/fsnotify/fsnotify":             "the live view",
	"github.com/rogpeppe/go-internal":          "scripts in tests, and the files of explanations",
	"github.com/santhosh-tekuri/jsonschema/v6": "tests: JSON Schema",
	"github.com/skip2/go-qrcode":               "the address on paper",
	"github.com/chromedp/chromedp":             "tests in a browser; printing",
	"github.com/chromedp/cdproto":              "tests in a browser; printing",
	"pgregory.net/rapid":                       "tests: properties",
	"github.com/xuri/excelize/v2":              "workbooks of visits",
	"golang.org/x/image":                       "photos",
	"golang.org/x/net":                         "HTML read back",
	"golang.org/x/sys":                         "swapping folders",
	"golang.org/x/text":                        "languages, Unicode",
	"gonum.org/v1/gonum":                       "quantiles of the beta distribution",
}

const module = "guidegen"

// imports lists what each package's files import, tests apart.
func imports(t *testing.T) (code, tests map[string][]string) {
	t.Helper()
	code, tests = map[string][]string{}, map[string][]string{}
	fset := token.NewFileSet()
	require.NoError(t, filepath.WalkDir("..", func(p string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() && strings.HasPrefix(d.Name(), ".") && p != ".." {
			return cmpErr(err, filepath.SkipDir)
		}
		if filepath.Ext(p) != ".go" {
			return nil
		}
		f, err := parser.ParseFile(fset, p, nil, parser.ImportsOnly)
		require.NoError(t, err)
		pkg := strings.TrimPrefix(filepath.ToSlash(filepath.Dir(p)), "../")
		into := code
		if strings.HasSuffix(p, "_test.go") {
			into = tests
		}
		into[pkg] = append(into[pkg], "")
		for _, i := range f.Imports {
			name, err := strconv.Unquote(i.Path.Value)
			require.NoError(t, err)
			into[pkg] = append(into[pkg], name)
		}
		return nil
	}))
	return code, tests
}

func cmpErr(err, otherwise error) error {
	if err != nil {
		return err
	}
	return otherwise
}

func TestImportsRunOneWay(t *testing.T) {
	row := map[string]int{}
	for i, l := range line {
		for _, p := range l {
			row[p] = i
		}
	}
	code, _ := imports(t)
	for pkg, list := range code {
		at, ok := row[pkg]
		if !assert.True(t, ok, "%s has no place in the line", pkg) {
			continue
		}
		for _, i := range list {
			to, ours := strings.CutPrefix(i, module+"/")
			if !ours {
				continue
			}
			assert.Less(t, row[to], at, "%s imports %s, which stands beside it or after it", pkg, to)
		}
	}
	for p := range row {
		assert.Contains(t, code, p, "a package in the line is no more")
	}
}

func TestDirectDependencies(t *testing.T) {
	code, tests := imports(t)
	used := map[string]bool{}
	for _, m := range []map[string][]string{code, tests} {
		for pkg, list := range m {
			for _, i := range list {
				if first, _, _ := strings.Cut(i, "/"); !strings.Contains(first, ".") {
					continue // of the standard library, or our own
				}
				known := false
				for d := range direct {
					if i == d || strings.HasPrefix(i, d+"/") {
						used[d], known = true, true
					}
				}
				assert.True(t, known, "%s imports %s, which is not in the list", pkg, i)
			}
		}
	}
	mod, err := os.ReadFile("../go.mod")
	require.NoError(t, err)
	var required []string
	for _, m := range regexp.MustCompile(`(?m)^\s+(\S+) v\S+`).FindAllSubmatch(mod, -1) {
		required = append(required, string(m[1]))
	}
	for d := range used {
		assert.True(t, slices.Contains(required, d), "%s is imported but not required in go.mod", d)
	}
}

// The program itself needs none of what only tests do; build/trial is tests' own.
func TestTestsOnly(t *testing.T) {
	code, _ := imports(t)
	delete(code, "build/trial")
	for pkg, list := range code {
		for _, i := range list {
			for _, d := range []string{module + "/build/trial", module + "/build/browser", "testing", "github.com/stretchr/testify", "pgregory.net/rapid", "github.com/rogpeppe/go-internal/testscript"} {
				assert.False(t, i == d || strings.HasPrefix(i, d+"/"), "%s imports %s", pkg, i)
			}
		}
	}
}
