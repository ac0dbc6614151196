// Package trial holds what tests of several packages draw pages from: the demo, small guides of kinds that the
// demo is not, and a site that links as the real one does.
package trial

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strings"
	"sync"
	"testing/fstest"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/demo"
)

// Built is the day on which the guides of tests are built.
var Built = calendar.Date{Year: 2026, Month: 11, Day: 20}

// Book reads a guide and reckons its public edition; the error says what is wrong with the guide.
func Book(files fs.FS) (*figures.Book, error) {
	var ps content.Problems
	g, err := guide.Read(files, Built, &ps)
	if err != nil {
		return nil, err
	}
	for _, p := range ps.All() {
		if p.Grade == content.Error {
			var b strings.Builder
			ps.Print(&b, p)
			return nil, errors.New(b.String())
		}
	}
	return figures.Reckon(guide.Cut(g, false), Built), nil
}

// Demo is the demo's book, reckoned once; nil where the demo has errors. Tests don't change it.
var Demo = sync.OnceValue(func() *figures.Book {
	b, _ := Book(demo.FS)
	return b
})

// File is a file of a guide.
func File(s string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(s)} }

// OneFly is the least guide there can be: no records, no dressings, no hooks, no altitude.
func OneFly() fstest.MapFS {
	return fstest.MapFS{
		"guide.yaml":       File("format: 1\nname: One fly\n"),
		"species/lone.md":  File("---\nname: Lone dun\nscientific: Baetis rhodani (Pictet, 1843)\ngroup: upwinged\nbasis: memory\nflights:\n  spring: {from: mid Mar, to: late Apr, abundance: frequent}\n---\n\nA fly.\n"),
		"rivers/beck.yaml": File("name: Beck\nkind: rain-fed\ntime_zone: Europe/London\nflies:\n  Lone dun: frequent\n"),
	}
}

// TwoFlights is a fly of spring and autumn, at different hours.
func TwoFlights() fstest.MapFS {
	return fstest.MapFS{
		"guide.yaml": File("format: 1\nname: Two flights\nbasis: memory\n"),
		"species/fly.md": File("---\nname: Twice olive\ngroup: upwinged\nflights:\n  spring: {from: mid Mar, to: late May, abundance: frequent}\n  autumn: {from: mid Sep, to: late Oct, abundance: frequent}\n" +
			"hours: {dun: {spring: 11:00 to 15:00, autumn: 12:00 to 14:00}, spinner: [sunset-1h to sunset, 5:00 to 7:00]}\n" +
			"length: {dun: 6 mm}\n---\n\nA fly.\n"),
		"rivers/beck.yaml": File("name: Beck\nkind: rain-fed\nplace: 54.0 N, 2.0 W\ntime_zone: Europe/London\nflies:\n  Twice olive: frequent\n"),
	}
}

// South lies beyond the equator; its fly's flight and its close season cross New Year, and its names are not Latin.
func South() fstest.MapFS {
	long := strings.Repeat("very long ", 12) + "name"
	return fstest.MapFS{
		"guide.yaml":         File("format: 1\nname: Южный справочник\npublisher: Клуб\nunits: {length: in, temperature: °F, altitude: ft}\nreference: {altitude: 300 m, latitude: 41.5 S}\n"),
		"species/nagusia.md": File("---\nname: トビケラ\nalso: [" + long + "]\nscientific: Hydrobiosis parumbripennis McFarlane, 1951\ngroup: sedge\nbasis: memory\nflights:\n  summer: {from: mid Nov, peak: early Jan, to: late Feb, abundance: abundant}\nhours: {adult: sunset-1h to sunset+1h}\nlength: {adult: 9 to 12 mm}\n---\n"),
		"species/script.md":  File("---\nname: \"</script><script>alert(1)</script>\"\nscientific: Ephemera danica Müller, 1764\ngroup: upwinged\nbasis: memory\nflights:\n  only: {from: 1 Dec, to: 10 Jan, abundance: rare}\nemerges: at the surface\nlays: on the surface\n---\n\n# \"><img src=x onerror=alert(1)>\n\n[link](javascript:alert(1)) <b onclick=alert(1)>raw</b>\n"),
		"rivers/awa.yaml":    File("name: Āwa " + long + "\nkind: spring-fed\nplace: 41.5 S, 172.8 E\naltitude: 120-300 m\ntime_zone: Pacific/Auckland\nflies:\n  トビケラ: abundant\n  \"</script><script>alert(1)</script>\": rare\nseasons:\n  - {fish: trout, open: 1 Oct, close: 30 Apr, checked: 2024-01-10}\n"),
		"samples/awa.csv":    File("visit,date,water,method,effort,looked for,fly,stage,count,by\nv1,2025-12-28,Āwa " + long + ",sweep net,50 sweeps,,トビケラ,adult,3,A. B.\nv2,2026-01-04,Āwa " + long + ",sweep net,50 sweeps,,nothing,,,A. B.\n"),
	}
}

// Many has more flies than anybody would want on one water.
func Many(n int) fstest.MapFS {
	files := fstest.MapFS{"guide.yaml": File("format: 1\nname: Many flies\n")}
	var list strings.Builder
	for i := range n {
		name := fmt.Sprintf("Fly number %03d", i)
		m := []string{"Mar", "Apr", "May", "Jun", "Jul", "Aug"}[i%6]
		files[fmt.Sprintf("species/fly-%03d.md", i)] = File(fmt.Sprintf("---\nname: %s\nscientific: Genus species%s%s\ngroup: sedge\nbasis: memory\nflights:\n  only: {from: early %s, to: late %s, abundance: frequent}\n---\n",
			name, string(rune('a'+i/26%26)), string(rune('a'+i%26)), m, m))
		fmt.Fprintf(&list, "  %s: frequent\n", name)
	}
	files["rivers/all.yaml"] = File("name: All\nkind: limestone\ntime_zone: Europe/London\nflies:\n" + list.String())
	return files
}

// Site links as a site does, by relative addresses.
type Site struct{ Book *figures.Book }

// Link is the relative address of a page seen from another.
func (Site) Link(from, to string) string {
	to, fragment, found := strings.Cut(to, "#")
	up := strings.Repeat("../", strings.Count(path.Clean(from), "/"))
	link := up + to
	if found {
		link += "#" + fragment
	}
	return link
}

// Page is the address of the page made of a file of the guide.
func (s Site) Page(file string) (string, bool) {
	for _, f := range s.Book.Flies {
		if f.File == file {
			return "species/" + f.Address + ".html", true
		}
	}
	for _, w := range s.Book.Waters {
		if w.File == file {
			return "rivers/" + w.Address + ".html", true
		}
	}
	if s.Book.Edition != nil {
		for _, n := range s.Book.Edition.Notes {
			if n.Body.File == file {
				return "notes/" + n.Address + ".html", true
			}
		}
	}
	return "", false
}
