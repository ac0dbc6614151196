package page

// Guides for the tests: the demo, and small ones of kinds that the demo is not.

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/demo"
	"guidegen/templates"
)

var built = calendar.Date{Year: 2026, Month: 11, Day: 20}

func bookOf(t testing.TB, files fstest.MapFS) *figures.Book {
	t.Helper()
	var ps content.Problems
	g, err := guide.Read(files, built, &ps)
	require.NoError(t, err)
	for _, p := range ps.All() {
		if p.Grade == content.Error {
			var b strings.Builder
			ps.Print(&b, p)
			t.Fatal(b.String())
		}
	}
	return figures.Reckon(guide.Cut(g, false), built)
}

var demoBook = sync.OnceValue(func() *figures.Book {
	var ps content.Problems
	g, err := guide.Read(demo.FS, built, &ps)
	if err != nil || ps.Count(content.Error) > 0 {
		return nil
	}
	return figures.Reckon(guide.Cut(g, false), built)
})

func file(s string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(s)} }

// oneFly is the least guide there can be: no records, no dressings, no hooks, no altitude.
func oneFly() fstest.MapFS {
	return fstest.MapFS{
		"guide.yaml":       file("format: 1\nname: One fly\n"),
		"species/lone.md":  file("---\nname: Lone dun\nscientific: Baetis rhodani (Pictet, 1843)\ngroup: upwinged\nbasis: memory\nflights:\n  spring: {from: mid Mar, to: late Apr, abundance: frequent}\n---\n\nA fly.\n"),
		"rivers/beck.yaml": file("name: Beck\nkind: rain-fed\ntime_zone: Europe/London\nflies:\n  Lone dun: frequent\n"),
	}
}

// south lies beyond the equator; its fly's flight and its close season cross New Year, and its names are not Latin.
func south() fstest.MapFS {
	long := strings.Repeat("very long ", 12) + "name"
	return fstest.MapFS{
		"guide.yaml":         file("format: 1\nname: Южный справочник\npublisher: Клуб\nunits: {length: in, temperature: °F, altitude: ft}\nreference: {altitude: 300 m, latitude: 41.5 S}\n"),
		"species/nagusia.md": file("---\nname: トビケラ\nalso: [" + long + "]\nscientific: Hydrobiosis parumbripennis McFarlane, 1951\ngroup: sedge\nbasis: memory\nflights:\n  summer: {from: mid Nov, peak: early Jan, to: late Feb, abundance: abundant}\nhours: {adult: sunset-1h to sunset+1h}\nlength: {adult: 9 to 12 mm}\n---\n"),
		"species/script.md":  file("---\nname: \"</script><script>alert(1)</script>\"\nscientific: Ephemera danica Müller, 1764\ngroup: upwinged\nbasis: memory\nflights:\n  only: {from: 1 Dec, to: 10 Jan, abundance: rare}\nemerges: at the surface\nlays: on the surface\n---\n\n# \"><img src=x onerror=alert(1)>\n\n[link](javascript:alert(1)) <b onclick=alert(1)>raw</b>\n"),
		"rivers/awa.yaml":    file("name: Āwa " + long + "\nkind: spring-fed\nplace: 41.5 S, 172.8 E\naltitude: 120-300 m\ntime_zone: Pacific/Auckland\nflies:\n  トビケラ: abundant\n  \"</script><script>alert(1)</script>\": rare\nseasons:\n  - {fish: trout, open: 1 Oct, close: 30 Apr, checked: 2024-01-10}\n"),
		"samples/awa.csv":    file("visit,date,water,method,effort,looked for,fly,stage,count,by\nv1,2025-12-28,Āwa " + long + ",sweep net,50 sweeps,,トビケラ,adult,3,A. B.\nv2,2026-01-04,Āwa " + long + ",sweep net,50 sweeps,,nothing,,,A. B.\n"),
	}
}

// many has more flies than anybody would want on one water.
func many(n int) fstest.MapFS {
	files := fstest.MapFS{"guide.yaml": file("format: 1\nname: Many flies\n")}
	var list strings.Builder
	for i := range n {
		name := fmt.Sprintf("Fly number %03d", i)
		m := []string{"Mar", "Apr", "May", "Jun", "Jul", "Aug"}[i%6]
		files[fmt.Sprintf("species/fly-%03d.md", i)] = file(fmt.Sprintf("---\nname: %s\nscientific: Genus species%s%s\ngroup: sedge\nbasis: memory\nflights:\n  only: {from: early %s, to: late %s, abundance: frequent}\n---\n",
			name, string(rune('a'+i/26%26)), string(rune('a'+i%26)), m, m))
		fmt.Fprintf(&list, "  %s: frequent\n", name)
	}
	files["rivers/all.yaml"] = file("name: All\nkind: limestone\ntime_zone: Europe/London\nflies:\n" + list.String())
	return files
}

// drawAll draws every page of a book, the demo's but once: they are not to be changed.
func drawAll(t testing.TB, book *figures.Book) map[string]string {
	t.Helper()
	if book != demoBook() {
		return drawAnew(t, book)
	}
	demoOnce.Do(func() { demoPages = drawAnew(t, book) })
	return demoPages
}

var (
	demoOnce  sync.Once
	demoPages map[string]string
)

// drawAnew draws every page of a book, in order.
func drawAnew(t testing.TB, book *figures.Book) map[string]string {
	t.Helper()
	sheets, err := All(book, Deps{Site: fakeSite{book}})
	require.NoError(t, err)
	out := map[string]string{}
	for _, s := range sheets {
		d, err := s.Draw()
		require.NoError(t, err, s.Address)
		require.NotContains(t, out, s.Address, "two pages at one address")
		out[s.Address] = string(d.HTML)
	}
	return out
}

// TestWriteDemo writes the demo's pages into a folder to be looked at: PAGES_TO=folder go test -run WriteDemo.
func TestWriteDemo(t *testing.T) {
	dir := os.Getenv("PAGES_TO")
	if dir == "" {
		t.Skip("PAGES_TO names no folder")
	}
	book := demoBook()
	switch os.Getenv("PAGES_OF") {
	case "one":
		book = bookOf(t, oneFly())
	case "south":
		book = bookOf(t, south())
	case "many":
		book = bookOf(t, many(300))
	}
	for address, html := range drawAll(t, book) {
		write(t, filepath.Join(dir, address), []byte(html))
	}
	assets, err := AssetFiles()
	require.NoError(t, err)
	for _, a := range assets {
		b, err := templates.Files.ReadFile(a.File)
		require.NoError(t, err)
		write(t, filepath.Join(dir, a.Address), b)
	}
}

func write(t testing.TB, name string, data []byte) {
	require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
	require.NoError(t, os.WriteFile(name, data, 0o644))
}
