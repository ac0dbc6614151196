package page

// A language made up here, in which every letter of the site's words is a wide one: a text of ours that is left in
// English on a page, in a file or on paper stands out by its plain letters. The guide's own texts are plain too, and
// known from its files.

import (
	"encoding"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
	"gopkg.in/yaml.v3"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/lang"
	"guidegen/build/share"
	"guidegen/content"
	"guidegen/content/demo"
	"guidegen/templates"
)

// holeIn is what a pattern leaves to be filled in.
var holeIn = regexp.MustCompile(`\{\w+\}`)

// marked is a text with wide letters for plain ones, its {names} as they are.
func marked(pattern string) string {
	out, last := "", 0
	wide := func(s string) string {
		return strings.Map(func(r rune) rune {
			if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
				return r - 'A' + 'Ａ'
			}
			return r
		}, s)
	}
	for _, m := range holeIn.FindAllStringIndex(pattern, -1) {
		out += wide(pattern[last:m[0]]) + pattern[m[0]:m[1]]
		last = m[1]
	}
	return out + wide(pattern[last:])
}

// markedGuide is a guide with its words in the language qaa, which is nobody's.
func markedGuide(t testing.TB, guideFiles fs.FS) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(guideFiles, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := fs.ReadFile(guideFiles, p)
		files[p] = &fstest.MapFile{Data: b}
		return err
	}))
	english, err := lang.LoadWords("en")
	require.NoError(t, err)
	tree, top := map[string]any{}, map[string]any{"constant": nil, "constant_basis": nil, "prompt": nil} // these are in the code
	text, err := templates.Files.ReadFile("words/en.yaml")
	require.NoError(t, err)
	require.NoError(t, yaml.Unmarshal(text, &top))
	for key, forms := range english.Forms(slices.Collect(maps.Keys(top))...) {
		at, parts := tree, strings.Split(key, ".")
		for _, part := range parts[:len(parts)-1] {
			if at[part] == nil {
				at[part] = map[string]any{}
			}
			at = at[part].(map[string]any)
		}
		if f := reflect.ValueOf(forms); f.Kind() == reflect.Map {
			forms = f.MapIndex(reflect.ValueOf("other")).Interface()
		}
		text, err := forms.(encoding.TextMarshaler).MarshalText()
		require.NoError(t, err)
		at[parts[len(parts)-1]] = marked(string(text))
	}
	b, err := yaml.Marshal(tree)
	require.NoError(t, err)
	files["words/qaa.yaml"] = &fstest.MapFile{Data: b}
	languages := regexp.MustCompile(`(?m)^languages:.*\n`)
	g := languages.ReplaceAll(files["guide.yaml"].Data, nil)
	files["guide.yaml"] = &fstest.MapFile{Data: append(slices.Clip(g), "languages: [qaa]\n"...)}
	return files
}

func markedBook(t testing.TB, files fstest.MapFS, members bool) *figures.Book {
	t.Helper()
	var ps content.Problems
	g, err := guide.Read(files, built, &ps)
	require.NoError(t, err)
	require.NoError(t, lang.CheckWords(g, &ps))
	for _, p := range ps.All() {
		if p.Grade == content.Error || p.ID == "words-missing" {
			var b strings.Builder
			ps.Print(&b, p)
			t.Fatal(b.String())
		}
	}
	return figures.Reckon(guide.Cut(g, members), built)
}

// pageTexts are the texts of a page, and the attributes that a reader sees or hears or a script shows: of data
// attributes those that hold more than one word.
func pageTexts(t testing.TB, page string, do func(where, text string)) {
	doc, err := html.ParseWithOptions(strings.NewReader(page), html.ParseOptionEnableScripting(false))
	require.NoError(t, err)
	heard := []string{"title", "alt", "aria-label", "aria-description", "placeholder", "label"}
	data := []string{"data-basis", "data-unnamed"} // kept in files, in the format's words
	is := func(n *html.Node, key, value string) bool { v, ok := attr(n, key); return ok && v == value }
	for n := range doc.Descendants() {
		if n.Type == html.TextNode && !slices.Contains([]string{"script", "style", "code"}, n.Parent.Data) {
			do(n.Parent.Data, n.Data)
		}
		for _, a := range n.Attr {
			name := a.Key
			if name == "data-json" {
				jsonTexts(t, a.Val, func(text string) { do(n.Data, text) })
				continue
			}
			if slices.Contains(heard, name) || name == "content" && is(n, "name", "description") ||
				strings.HasPrefix(name, "data-") && strings.Contains(a.Val, " ") && !slices.Contains(data, name) {
				do(n.Data+" "+name, holeIn.ReplaceAllString(a.Val, ""))
			}
		}
	}
}

// inFiles are a picture and its size, a fly's address and stage, and the words for methods and groups that a sheet's file holds.
var inFiles = regexp.MustCompile(`^(fig/[a-z/-]+\.svg( \d+)+|[a-z-]+ (nymph|larva|pupa|dun|spinner|adult)|[a-z]+ trap|drift net|other water-bred)$`)

// jsonTexts are the texts in data for scripts: values of several words, markup taken out.
func jsonTexts(t testing.TB, data string, do func(text string)) {
	var v any
	require.NoError(t, json.Unmarshal([]byte(data), &v))
	var walk func(v any)
	walk = func(v any) {
		switch v := v.(type) {
		case string:
			if strings.Contains(v, " ") && !inFiles.MatchString(v) {
				do(regexp.MustCompile(`<[^>]*>|\{\w+\}|&\w+;`).ReplaceAllString(v, " | "))
			}
		case []any:
			for _, x := range v {
				walk(x)
			}
		case map[string]any:
			for _, x := range v {
				walk(x)
			}
		}
	}
	walk(v)
}

// plainRun is words of ours or the guide's that follow each other.
var plainRun = regexp.MustCompile(`[a-zA-Z\x{C0}-\x{D6}\x{D8}-\x{24F}][a-zA-Z\x{C0}-\x{D6}\x{D8}-\x{24F}'’]*(?:[ -][a-zA-Z\x{C0}-\x{D6}\x{D8}-\x{24F}][a-zA-Z\x{C0}-\x{D6}\x{D8}-\x{24F}'’]*)*`)

// leftIn are the runs of plain words in a text that the guide didn't write: in one piece, or as a feature and its
// state.
func leftIn(text, written string) (left []string) {
	for _, run := range plainRun.FindAllString(text, -1) {
		known := utf8.RuneCountInString(run) == 1 || // a unit, or initials
			run != strings.TrimSpace(text) && strings.Contains(written, running(run))
		words := strings.Fields(running(run))
		for i := range words {
			known = known || wrote(written, words[i:]) && (i == 0 || wrote(written, words[:i]))
		}
		if !known {
			left = append(left, run)
		}
	}
	return left
}

// wrote reports whether a guide wrote some words; the format's own, which its files hold too, are ours to put into
// the language.
func wrote(guide string, words []string) bool {
	format := []string{"male", "female", "nymph", "larva", "pupa", "dun", "spinner", "adult", "bottom", "midwater", "film", "surface"}
	return !(len(words) == 1 && slices.Contains(format, words[0])) && strings.Contains(guide, running(strings.Join(words, " ")))
}

// running is a text's words alone, each between spaces.
func running(s string) string {
	return " " + strings.ToLower(strings.Join(regexp.MustCompile(`[\p{L}\p{M}'’]+`).FindAllString(s, -1), " ")) + " "
}

func filesOf(t *testing.T, book *figures.Book, words *lang.Words, old fs.FS) []share.File {
	t.Helper()
	files, _, err := share.Files(book, words, old)
	require.NoError(t, err)
	return files
}

// feedTexts are the titles and lines of a feed's entries.
func feedTexts(t *testing.T, data []byte, do func(text string)) {
	var feed struct {
		Lang  string `xml:"lang,attr"`
		Title string `xml:"title"`
		Entry []struct {
			Title   string `xml:"title"`
			Content string `xml:"content"`
		} `xml:"entry"`
	}
	require.NoError(t, xml.Unmarshal(data, &feed))
	require.Equal(t, "qaa", feed.Lang)
	do(feed.Title)
	for _, e := range feed.Entry {
		do(e.Title)
		for line := range strings.SplitSeq(strings.NewReplacer("<ul>", "", "</ul>", "", "</li>", "").Replace(e.Content), "<li>") {
			do(html.UnescapeString(line))
		}
	}
}

func TestNoTextIsLeftInEnglish(t *testing.T) {
	for name, guideFiles := range map[string]fs.FS{"small": golden(), "demo": demo.FS} {
		t.Run(name, func(t *testing.T) {
			files := markedGuide(t, guideFiles)
			written := foreign
			for p, f := range files {
				if p != "words/qaa.yaml" {
					written += running(p) + running(string(f.Data))
				}
			}
			found := map[string][]string{}
			look := func(address, where, text string) {
				for _, run := range leftIn(text, written) {
					found[where+": "+run] = append(found[where+": "+run], address)
				}
			}
			book := markedBook(t, files, true)
			for address, page := range drawAll(t, book) {
				pageTexts(t, page, func(where, text string) { look(address, where, text) })
			}
			words, err := lang.WordsOf(book.Edition.Guide)
			require.NoError(t, err)
			shared := filesOf(t, book, words, nil)
			empty, full := fstest.MapFS{}, fstest.MapFS{} // sites that stood there before
			for _, f := range shared {
				full[f.Path] = &fstest.MapFile{Data: f.Bytes}
				if strings.HasPrefix(f.Path, "data/") {
					empty[f.Path] = &fstest.MapFile{Data: fmt.Appendf(nil, `{"format":%d,"edition":"members"}`, share.Format)}
				}
			}
			shared = filesOf(t, book, words, empty)
			if name == "small" { // and one that is losing half of what it had
				bare := maps.Clone(files)
				maps.DeleteFunc(bare, func(p string, _ *fstest.MapFile) bool {
					return slices.Contains([]string{"samples", "dressings"}, path.Dir(p)) || p == "hooks.csv"
				})
				shared = append(shared, filesOf(t, markedBook(t, bare, true), words, full)...)
			}
			for _, f := range shared {
				if f.Path == share.ChangesFeed {
					feedTexts(t, f.Bytes, func(text string) { look(f.Path, "feed", text) })
				}
				for line := range strings.SplitSeq(strings.ReplaceAll(string(f.Bytes), "\r\n ", ""), "\r\n") {
					if name, text, _ := strings.Cut(line, ":"); path.Ext(f.Path) == ".ics" && (name == "SUMMARY" || name == "DESCRIPTION") {
						look(f.Path, name, strings.NewReplacer(`\n`, "\n", `\`, "").Replace(text))
					}
				}
			}
			for _, left := range slices.Sorted(maps.Keys(found)) {
				slices.Sort(found[left])
				t.Errorf("%s, %d times, first in %s", left, len(found[left]), found[left][0])
			}
		})
	}
}

// foreign is what is the same in every language: names, orders of insects, the headings of a sheet's columns.
const foreign = " echarts | apache | minisearch | mit | ephemeroptera | diptera | megaloptera | plecoptera | trichoptera | odonata | c | " +
	" start | end | beat | grid reference | sex | lengths mm | named by | checked | reared | remarks | temperature | "
