package browser

// What a page costs a reader with a weak signal, as it comes over the wire from a host that compresses.

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const kilobyte = 1000

// A water's page with all that it asks for as it loads, pictures apart.
func TestWeightOfAWater(t *testing.T) {
	server := serve(t, site(t))
	for _, p := range pages(t) {
		if !strings.HasPrefix(p, "rivers/") {
			continue
		}
		b := newTab(t, server.URL+below) // nothing kept from before
		b.withoutWorker()
		b.size(360, 640, 2)
		b.visit(server.URL + below + p)
		b.settle()
		_, weight := b.taken()
		sum := 0.0
		for address, n := range weight {
			switch strings.ToLower(filepath.Ext(address)) {
			case ".jpg", ".jpeg", ".png", ".webp":
				continue
			}
			assert.NotContains(t, address, "echarts", "%s: the chart library comes unasked", p)
			sum += n
		}
		assert.GreaterOrEqual(t, len(weight), 4, p)
		assert.LessOrEqual(t, sum, 60.0*kilobyte, "%s: %v", p, weight)
		t.Logf("%s: %.0f bytes in %d files", p, sum, len(weight))
	}
}

// No single page, style or script is heavy; the chart library may be, since readers ask for it.
func TestWeightOfFiles(t *testing.T) {
	require.NoError(t, filepath.WalkDir(site(t), func(p string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(p)
		require.NoError(t, err)
		most := 30 * kilobyte
		switch name, _ := filepath.Rel(site(t), p); {
		case filepath.Base(p) == "echarts.js":
			most = 200 * kilobyte
		case strings.HasPrefix(filepath.ToSlash(name), "rivers/"):
			return nil // weighed with all it asks for
		case name == "booklet.html":
			most = 73 * kilobyte // made for paper: 58 flies and what comes before fishing; the waters have their own
		case strings.HasPrefix(filepath.ToSlash(name), "booklet/"):
			most = 32 * kilobyte // all of one water
		case strings.HasPrefix(filepath.ToSlash(name), "card/"):
			most = 9 * kilobyte
		case !strings.Contains(" .html .css .js ", " "+filepath.Ext(p)+" "):
			return nil // a picture, or a file to take away
		}
		assert.LessOrEqual(t, len(zipped(text)), most, p)
		return nil
	}))
}

// What a kind of page may take at most, measured on a phone 360 by 740 pixels wide: bytes of HTML, elements, screens as it
// opens and with every part open. Asked in season and out of it.
var budgets = []struct {
	page               string
	bytes, elements    int
	asItOpens, allOpen float64
	still              bool // it looks alike on every day
}{
	{"index.html", 32 * kilobyte, 420, 3.35, 3.35, false}, // of seven waters
	{"rivers/pellowbourne.html", 116 * kilobyte, 2470, 7.45, 14.6, false},
	{"species/large-dark-olive.html", 69 * kilobyte, 1380, 10.4, 16.9, false}, // on five waters, in two flights
	{"records.html", 43 * kilobyte, 700, 7, 14, true},                         // of seven waters
	{"species.html", 22 * kilobyte, 705, 9, 9, true},                          // 58 flies
	{"dressings/dark-olive-floater.html", 15 * kilobyte, 400, 4, 4, true},
	{"sheet.html", 40 * kilobyte, 580, 4, 5, true},
	{"sieve.html", 61 * kilobyte, 1200, 4, 9, true}, // of 58 flies on seven waters
}

func TestBudgets(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	days := []string{"2027-05-20", "2027-08-10", "2027-12-20"}
	for _, day := range days {
		b.on(day)
		b.size(360, 740, 1)
		for _, p := range budgets {
			if p.still && day != days[0] {
				continue
			}
			text, err := os.ReadFile(filepath.Join(site(t), filepath.FromSlash(p.page)))
			require.NoError(t, err)
			b.visit(server.URL + below + p.page)
			b.settle()
			screens := func() float64 { return eval[float64](b, `document.documentElement.scrollHeight / 740`) }
			opens := screens()
			eval[bool](b, `(document.querySelectorAll('details.part').forEach(function (d) { d.open = true; }), true)`)
			b.settle()
			elements, open := eval[int](b, `document.querySelectorAll('*').length`), screens()
			t.Logf("%s on %s: %d bytes, %d elements, %.1f screens, all open %.1f", p.page, day, len(text), elements, opens, open)
			assert.LessOrEqual(t, len(text), p.bytes, p.page)
			assert.LessOrEqual(t, elements, p.elements, p.page)
			assert.LessOrEqual(t, opens, p.asItOpens, p.page)
			assert.LessOrEqual(t, open, p.allOpen, p.page)
		}
	}
}
