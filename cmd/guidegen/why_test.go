package main

import (
	"flag"
	"go/ast"
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

	"guidegen/content/problems"
)

var update = flag.Bool("update", false, "write down where the examples of why/ show their problems")

// Every explanation's example, laid over the starter guide, shows its problem,
// and where the example speaks of the guide as a whole, at the place it says.
func TestExplanationsShowTheirProblem(t *testing.T) {
	for _, id := range problems.IDs() {
		t.Run(id, func(t *testing.T) {
			t.Parallel()
			e, ok := explain(id)
			require.True(t, ok)
			assert.Greater(t, len(e.words), 40, "a sentence at least")
			if len(e.files) == 0 {
				assert.Contains(t, withoutExample, id)
				return
			}
			r, at, err := e.shown()
			require.NoError(t, err)
			if !assert.GreaterOrEqual(t, at, 0, "the example does not show it") {
				for _, p := range r.Problems {
					r.Collector().Print(os.Stderr, p)
				}
				return
			}
			where := r.Collector().Where(r.Problems[at].At)
			name := filepath.Join("../../content/problems", id+".txtar")
			if *update && e.want == "?" {
				b, err := os.ReadFile(name)
				require.NoError(t, err)
				want := where + ": " + r.Problems[at].Message
				require.NoError(t, os.WriteFile(name, []byte(strings.Replace(string(b), "\n?\n", "\n"+want+"\n", 1)), 0o644))
				return
			}
			if e.want == "" {
				return
			}
			said := ""
			for line := range strings.SplitSeq(e.want, "\n") {
				if part, ok := strings.CutPrefix(line, where+": "); ok {
					said = part
				}
			}
			require.NotEmpty(t, said, where)
			assert.Contains(t, r.Problems[at].Message, said, "the example promises another message")
		})
	}
}

// withoutExample are ids that no file of the guide can show: a missing file, a
// file too large, bytes that are no text, a link on disk, a text that grows.
var withoutExample = []string{"bad-link", "file-too-large", "no-accounts", "no-guide", "no-waters", "not-utf8", "bad-archive", "bad-workbook", "sheet-not-read", "no-sheet-of-visits", "formula-without-value", "photo-colours", "photo-too-large", "text-too-long", "unreadable-text"}

// Every id that the program can print is explained, and no other is.
func TestEveryIDIsExplained(t *testing.T) {
	ids := idsInSource(t, "../../content", "../../species", "../../rivers", "../../build")
	assert.Greater(t, len(ids), 100, "the ids are found in the source")
	for id, where := range ids {
		assert.True(t, slices.Contains(problems.IDs(), id), "%s, used at %s, is not explained", id, where)
	}
}

var kebab = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)+$`)

// reporters are the calls whose first argument is an id.
var reporters = []string{"Errorf", "Warnf", "Notef", "Clash", "Refuse", "refuse", "unknown", "warn", "say", "newPrompt"}

func idsInSource(t *testing.T, dirs ...string) map[string]string {
	ids := map[string]string{}
	fset := token.NewFileSet()
	note := func(x ast.Expr) {
		if l, ok := x.(*ast.BasicLit); ok && l.Kind == token.STRING {
			if s, err := strconv.Unquote(l.Value); err == nil && kebab.MatchString(s) {
				ids[s] = fset.Position(l.Pos()).String()
			}
		}
	}
	for _, dir := range dirs {
		require.NoError(t, filepath.WalkDir(dir, func(p string, d os.DirEntry, err error) error {
			if err != nil || filepath.Ext(p) != ".go" || strings.HasSuffix(p, "_test.go") {
				return err
			}
			f, err := parser.ParseFile(fset, p, nil, 0)
			require.NoError(t, err)
			ast.Inspect(f, func(n ast.Node) bool {
				switch x := n.(type) {
				case *ast.CallExpr:
					name := ""
					switch f := x.Fun.(type) {
					case *ast.Ident:
						name = f.Name
					case *ast.SelectorExpr:
						name = f.Sel.Name
					}
					if slices.Contains(reporters, name) && len(x.Args) > 1 {
						note(x.Args[0])
					}
				case *ast.KeyValueExpr:
					if k, ok := x.Key.(*ast.Ident); ok && k.Name == "ID" {
						note(x.Value)
					}
				case *ast.AssignStmt:
					for i, l := range x.Lhs {
						if s, ok := l.(*ast.SelectorExpr); ok && s.Sel.Name == "ID" && len(x.Rhs) == len(x.Lhs) {
							note(x.Rhs[i])
						}
					}
				}
				return true
			})
			return nil
		}))
	}
	return ids
}

// The example of an explanation is printed with the problem as it prints.
func TestWhy(t *testing.T) {
	out, errs, status := call(t, "", "proof", "--why")
	assert.Equal(t, fine, status, errs)
	assert.Contains(t, out, "\nrivers/\n")
	assert.Regexp(t, `(?m)^  same-address  +\S`, out)
	for _, id := range problems.IDs() {
		assert.Contains(t, out, "\n  "+id+" ", "each is listed")
	}
	out, errs, status = call(t, "", "proof", "--why", "unknown-fly")
	assert.Equal(t, fine, status, errs)
	assert.Contains(t, out, "rivers/askerdale.yaml:5:3\n  reads   Large dark olvie: abundant\n  wrong   no account is named \"Large dark olvie\"  (unknown-fly)\n  right   \"Large dark olive\"? An account")
	_, errs, status = call(t, "", "proof", "--why", "unknown-fli")
	assert.Equal(t, misuse, status)
	assert.Contains(t, errs, `did you mean "unknown-fly"`)
}

// call runs one command line with some text on its input.
func call(t *testing.T, in string, args ...string) (out, errs string, status int) {
	t.Helper()
	var o, e strings.Builder
	status = run(args, strings.NewReader(in), &o, &e)
	return o.String(), e.String(), status
}
