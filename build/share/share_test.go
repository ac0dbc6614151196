package share

import (
	"fmt"
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/demo"
	"guidegen/species"
	"guidegen/templates"
)

var builtOn = calendar.Date{Year: 2026, Month: 11, Day: 24}

func bookOf(t *testing.T, files fs.FS, members bool) *figures.Book {
	t.Helper()
	ps := &content.Problems{}
	g, err := guide.Read(files, builtOn, ps)
	require.NoError(t, err)
	for _, p := range ps.All() {
		if p.Grade == content.Error {
			ps.Print(os.Stderr, p)
		}
	}
	require.Zero(t, ps.Count(content.Error))
	return figures.Reckon(guide.Cut(g, members), builtOn)
}

// demoBook reckons each edition once; tests only read it.
func demoBook(t *testing.T, members bool) *figures.Book {
	t.Helper()
	if demoBooks[members] == nil {
		demoBooks[members] = bookOf(t, demo.FS, members)
	}
	return demoBooks[members]
}

var demoBooks = map[bool]*figures.Book{}

// wordsOfTest are the English words, read as simply as can be: the words proper are made where pages are, after this.
type wordsOfTest map[string]any

func english(t require.TestingT) wordsOfTest { return wordsIn(t, "en") }

func wordsIn(t require.TestingT, language string) wordsOfTest {
	data, err := templates.Files.ReadFile("words/" + language + ".yaml")
	require.NoError(t, err)
	w := map[string]any{}
	require.NoError(t, yaml.Unmarshal(data, &w))
	w["of the test"] = language
	return w
}

func (w wordsOfTest) find(key string) any {
	var at any = map[string]any(w)
	for part := range strings.SplitSeq(key, ".") {
		in, _ := at.(map[string]any)
		at = in[part]
	}
	return at
}

func (w wordsOfTest) Plain(key string, pairs ...any) string {
	at := w.find(key)
	var l []string
	for i := 0; i < len(pairs); i += 2 {
		if forms, ok := at.(map[string]any); ok && pairs[i] == "n" {
			at = forms[map[bool]string{true: "one", false: "other"}[pairs[i+1] == "1"]]
		}
		l = append(l, "{"+pairs[i].(string)+"}", pairs[i+1].(string))
	}
	return strings.NewReplacer(l...).Replace(at.(string))
}

func (w wordsOfTest) Or(list, word string) string {
	if text, ok := w.find(list + "." + strings.ReplaceAll(word, " ", "_")).(string); ok {
		return text
	}
	return word
}

func (w wordsOfTest) Language() string { return w["of the test"].(string) }

func (w wordsOfTest) Amount(f content.Figure) string {
	if v := content.Round9(f.Value()); f.Unit() == "%" && v > 0 && v < 0.5 {
		return w.Plain("percent.under")
	}
	return strings.TrimSpace(f.Number() + " " + f.Unit())
}

func (w wordsOfTest) List(items []string) string { return strings.Join(items, " and ") }

func (w wordsOfTest) Day(d calendar.Day) string {
	return fmt.Sprintf("%d %s", d.DayOfMonth(), d.Month())
}

func (w wordsOfTest) Date(d calendar.Date) string {
	return w.Day(d.OfYear()) + fmt.Sprintf(" %d", d.Year)
}

func (w wordsOfTest) Cell(c calendar.Cell) string {
	return fmt.Sprintf("%d–%d %s", c.First().DayOfMonth(), c.Last().DayOfMonth(), c.Month())
}

func (w wordsOfTest) Case(stage species.Stage, sex species.Sex, flight string) string {
	return spaced(string(sex), string(stage), flight)
}

func filesOf(t *testing.T, b *figures.Book, old fs.FS) []File {
	t.Helper()
	files, _, err := Files(b, english(t), old)
	require.NoError(t, err)
	return files
}

func fileNamed(t *testing.T, files []File, name string) []byte {
	t.Helper()
	for _, f := range files {
		if f.Path == name {
			return f.Bytes
		}
	}
	require.Fail(t, "no file "+name)
	return nil
}

// siteOf is the files as they would lie on disk.
func siteOf(files []File) fs.FS {
	out := fstest.MapFS{}
	for _, f := range files {
		out[f.Path] = &fstest.MapFile{Data: f.Bytes}
	}
	return out
}

// small is a southern guide with hardly anything in it: two waters, one for
// members alone, a season and a flight across New Year, nothing measured.
func small() fstest.MapFS {
	f := func(s string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(s)} }
	return fstest.MapFS{
		"guide.yaml": f("format: 1\nname: Flies of the <Ōrua> & round about\naddress: https://guide.example/flies\n" +
			"publisher: Example club\nreference: {latitude: 45 S}\nbasis: common practice\npeople: {Wilhelmina Quartz: none}\n"),
		"species/little-fly.md": f("---\nname: Little fly\nscientific: Deleatidium lillii Eaton, 1899\ngroup: upwinged\n" +
			"flights:\n  summer: {from: 20 Nov, peak: 20 Dec, to: 10 Feb, abundance: frequent}\n---\nText.\n"),
		"species/hidden-fly.md": f("---\nname: Unspoken fly\nscientific: Zephlebia versicolor Eaton, 1899\ngroup: upwinged\nshow: members\n" +
			"flights:\n  all: {from: 20 Nov, to: 10 Feb, abundance: rare}\n---\nText.\n"),
		"rivers/orua.yaml": f("name: Ōrua\nkind: rain-fed\nplace: 45.1 S, 168.7 E\ntime_zone: Pacific/Auckland\n" +
			"flies: {Little fly: frequent, Unspoken fly: rare}\nbeats: {Quiet bend: {show: members}, Ford: {}}\n" +
			"seasons: [{fish: \"trout, brown; sea\", open: 1 Oct, close: 30 Apr, checked: 2026-01-10, note: \"C:\\\\fish\"}]\n"),
		"rivers/secret-water.yaml": f("name: Nobody's Tarn\nkind: peaty\nshow: members\nflies: {Little fly: frequent}\n" +
			"seasons: [{fish: char, open: 1 Oct, close: 30 Apr}]\n"),
		"samples/a.csv": f("visit,date,water,beat,method,effort,looked for,fly,stage,sex,count,lengths mm,by,named by,checked,remarks\n" +
			"K-1,2026-12-20,Nobody's Tarn,,sweep net,50 sweeps,upwinged,Little fly,dun,,3,8.1,Wilhelmina Quartz,Wilhelmina Quartz,verified,rowed out at dawn\n" +
			"K-2,2025-12-21,Orua,Quiet bend,sweep net,50 sweeps,upwinged,Little fly,dun,female,2,8.4 8.6,Wilhelmina Quartz,Tess Ambrook,verified,behind the shed\n" +
			"K-3,2026-01-09,Orua,Ford,sweep net,100 sweeps,upwinged,nothing,,,,,Tess Ambrook,,,\n" +
			"K-4,2026-02-01,Orua,Ford,sweep net,50 sweeps,sedge,Little fly,spinner,male,1,,Tess Ambrook,,,\n"),
		"dressings/box.yaml": f("box:\n- {name: Dun thing, fishes: surface, stands_for: [{flies: [Little fly, Unspoken fly], stage: dun}], sizes: 14-16}\n" +
			"- {name: Whispered thing, show: members, fishes: surface, stands_for: [{flies: [Little fly], stage: dun}], sizes: 14}\n"),
		"corrections.yaml": f("- {date: 2026-03-02, by: Tess Ambrook, file: species/little-fly.md, what: \"its peak < December\", was: 1 Jan, now: 20 Dec, why: misread}\n" +
			"- {date: 2026-03-03, by: Tess Ambrook, file: rivers/secret-water.yaml, what: the tarn's depth, why: sounded}\n"),
	}
}

func smallBook(t *testing.T, alter func(fstest.MapFS)) *figures.Book {
	t.Helper()
	f := small()
	if alter != nil {
		alter(f)
	}
	return bookOf(t, f, false)
}
