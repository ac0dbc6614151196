package build

// Cards and booklets, printed by a real Chromium: the demo's, and those of guides made to be hard
// on a sheet of paper.

import (
	"bytes"
	"compress/zlib"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/browser"
	"guidegen/build/press"
	"guidegen/content/calendar"
)

var printDay = calendar.Date{Year: 2026, Month: 11, Day: 24}

// made publishes a guide held in memory and returns the site's folder.
func made(t *testing.T, files fstest.MapFS, print bool) (string, *Report) {
	t.Helper()
	out := filepath.Join(t.TempDir(), "site")
	r, err := Publish(Options{Source: &Source{Files: files}, Date: printDay, Out: out, Print: print})
	require.NoError(t, err)
	for _, p := range r.Problems {
		if !r.Sound() {
			t.Log(p.At.File, p.ID, p.Message)
		}
	}
	require.True(t, r.Sound())
	return out, r
}

type hard struct {
	flies, dressings int
	name             string // of each fly, with its number
	south, place     bool
	address          string
	hazards          int
	rules, seasons   int // sentences, and fish beside trout with a note
	water            string
}

// guide writes a guide of so many flies, each in two flights and with as many stages as there are.
func (h hard) guide() fstest.MapFS {
	fs := fstest.MapFS{}
	put := func(name, text string) { fs[name] = &fstest.MapFile{Data: []byte(text)} }
	settings := "format: 1\nname: Flies of the tried waters\npublisher: The triers\nbasis: memory\n"
	if h.address != "" {
		settings += "address: " + h.address + "\n"
	}
	if h.south {
		settings += "reference: {latitude: 45 S, altitude: 200 m}\n"
	}
	put("guide.yaml", settings)
	water := "name: " + h.water + "\nkind: rain-fed\n"
	if h.place {
		lat := "45.2 N"
		if h.south {
			lat = "45.2 S"
		}
		water += "place: " + lat + ", 12.3 E\ntime_zone: UTC\naltitude: 120 m\n"
	}
	water += "flies:\n"
	for i := range h.flies {
		name := fmt.Sprintf(h.name, letters(i))
		group, stages := "upwinged", "dun: {first: sunset-3h to sunset, second: 11:00 to 15:00}, spinner: sunset-1h to sunset+1h"
		length := fmt.Sprintf("  male: %d to %d\n  female: %d to %d\n", 5+i%8, 6+i%8, 7+i%8, 9+i%8)
		if i%3 == 1 {
			group, stages = "sedge", "adult: sunset to sunset+2h"
			length = fmt.Sprintf("  adult: %d to %d\n", 8+i%14, 9+i%14)
		}
		if i%5 == 4 {
			group, stages = "land-bred", "adult: 10:00 to 17:00"
		}
		put(fmt.Sprintf("species/f%02d.md", i), "---\nname: "+name+"\nscientific: Probarus "+letters(i)+"us\ngroup: "+group+"\nflights:\n"+
			"  first: {from: 10 Apr, peak: 5 May, to: 20 Jul, abundance: abundant}\n  second: {from: 1 Sep, peak: 20 Sep, to: 15 Oct, abundance: frequent}\n"+
			"hours: {"+stages+"}\nlevel: surface\nlength:\n  unit: mm\n"+length+"---\n\nA fly that was made up to be printed.\n")
		water += "  " + name + ": abundant\n"
	}
	if h.hazards > 0 {
		water += "hazards:\n"
		for i := range h.hazards {
			water += fmt.Sprintf("  - hazard number %d, told at some length, since whoever wrote it had met with it in person and wished nobody else to\n", i+1)
		}
	}
	if h.rules > 0 {
		water += "rules: >-\n"
		for i := range h.rules {
			water += fmt.Sprintf("  Rule %d of the water, which says in more words than are needed what nobody may do above the bridge.\n", i+1)
		}
	}
	water += "seasons:\n"
	for i := range h.seasons {
		water += fmt.Sprintf("  - {fish: fish %s, open: 1 Apr, close: 10 Oct, note: only with the keeper's leave and never from the dam or the boathouse}\n", letters(i))
	}
	water += "  - {fish: trout, open: 1 Mar, close: 30 Sep, checked: 2025-01-10}\nemergency: {code: T-1, meet: the lower bridge}\n"
	put("rivers/tried.yaml", water)
	put("hooks.csv", "model,size,shank mm,gape mm,shape,measured by,measured on\nLongish and plainly named,10,11,6,straight,A,2026-01-01\nLongish and plainly named,14,8.5,5,straight,A,2026-01-01\nLongish and plainly named,18,6,4,straight,A,2026-01-01\n"+
		"Short,10,9,6,straight,A,2026-01-01\nShort,12,8,5.5,straight,A,2026-01-01\nShort,14,7,5,straight,A,2026-01-01\n")
	box := "box:\n"
	for i := range h.dressings {
		box += fmt.Sprintf("  - name: A rather long-winded dressing %s\n    fishes: surface\n    stands_for: {groups: [upwinged, sedge, land-bred], stages: [dun, spinner, adult]}\n    sizes: 10-18\n    parts: {hook: Short, thread: black, body: {of: fur, colour: olive brown}}\n", letters(i))
	}
	if h.dressings > 0 {
		put("dressings/box.yaml", box)
	}
	return fs
}

// letters is a word for a number, since names differ by more than digits.
func letters(i int) string { return string(rune('a'+i/26)) + string(rune('a'+i%26)) }

var hardGuides = map[string]hard{
	"one fly":       {flies: 1, name: "Lone fly %s", water: "Brook", place: true},
	"forty flies":   {flies: 40, dressings: 4, name: "Tried fly %s", water: "Broadwater", place: true, address: "https://flies.example/"},
	"long names":    {flies: 18, dressings: 3, name: "Great long-horned evening fly of the upper meadows %s", water: "The Water of the Long and Winding Northern Valleys", place: true, hazards: 9, address: "https://a-rather-long-name-for-a-host.example.org/our/club/guide/"},
	"no place":      {flies: 6, dressings: 1, name: "Placeless fly %s", water: "Nowhere"},
	"southern":      {flies: 12, dressings: 2, name: "Southern fly %s", water: "Down Water", south: true, place: true, address: "https://south.example/"},
	"many rules":    {flies: 3, name: "Ruled fly %s", water: "Ruled Water", place: true, rules: 4, hazards: 2},
	"all rules":     {flies: 3, name: "Ruled fly %s", water: "Ruled Water", place: true, rules: 30, hazards: 12, seasons: 9, address: "https://flies.example/"},
	"other letters": {flies: 1, name: "Другая муха %s", water: "Вода", place: true, address: "https://кириллица.example/"},
}

// tooWide lists what on the card runs over: a panel's matter beyond its side, or a panel higher than a sheet. (A
// cover of very many rules may be: it goes on in the next column.)
const tooWide = `(() => {
	const out = [], mm = 96 / 25.4;
	for (const p of document.querySelectorAll(".panel")) {
		const box = p.getBoundingClientRect(), name = p.className;
		if (box.height > 198 * mm && !p.matches(".cover")) out.push(name + " is " + Math.round(box.height / mm) + " mm high");
		for (const e of p.querySelectorAll("*")) {
			if (e.closest("svg") && e.tagName !== "svg" || e.closest(".vh") || e.closest("caption, .scale-bar")) continue;
			const r = e.getBoundingClientRect(), s = getComputedStyle(e);
			if (r.width && (r.right > box.right + 1 || r.left < box.left - 1 || r.bottom > box.bottom + 1 || s.overflow !== "visible" && !e.matches("svg, image, use"))) {
				out.push(name + ": " + e.tagName + "." + (e.getAttribute("class") ?? "") + " " + e.textContent.trim().slice(0, 40) + " ends " + Math.round(r.right - box.right) + " px right");
				break;
			}
			if (e.childNodes.length && parseFloat(s.fontSize) < 8 * 96 / 72 - 0.01) { out.push(name + ": " + e.tagName + " in " + s.fontSize); break; }
		}
	}
	return out;
})()`

// printView opens a page as it prints, on a sheet of the given width in CSS pixels.
func printView(t *testing.T, file string, wide int64) context.Context {
	t.Helper()
	ctx := browser.Open(t)
	require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(wide, 1600)))
	ctx, late := context.WithTimeout(ctx, 2*time.Minute)
	t.Cleanup(late)
	_, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	require.NoError(t, err)
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate((&url.URL{Scheme: "file", Path: filepath.ToSlash(file)}).String())))
	return ctx
}

// a4Across is 297 mm without its margins of 6 mm, in CSS pixels.
const a4Across = 1077

// Whatever the font and however many the flies: each fly stands in the year and among the hours, in both editions, no
// panel is cut or runs over, and paper is used as far as it goes.
func TestNothingIsLostOnACard(t *testing.T) {
	browser.Path(t)
	guides := map[string]hard{}
	for name, h := range hardGuides {
		guides[name] = h
	}
	for _, n := range []int{8, 16, 30, 60} {
		guides[fmt.Sprint(n, " flies")] = hard{flies: n, dressings: 3, name: "Tried fly %s", water: "Broadwater", place: true, hazards: 2, rules: 2, address: "https://flies.example/"}
	}
	for name, h := range guides {
		t.Run(name, func(t *testing.T) {
			for _, e := range []Edition{Public, Members} {
				out := filepath.Join(t.TempDir(), "site")
				r, err := Publish(Options{Source: &Source{Files: h.guide()}, Date: printDay, Out: out, Edition: e})
				require.NoError(t, err)
				require.True(t, r.Sound())
				ctx := printView(t, filepath.Join(out, "card", "tried.html"), a4Across)
				for _, font := range []string{"serif", "sans-serif", "monospace"} {
					over, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](`(f => { for (const e of document.querySelectorAll(".panel, .panel *")) e.style.fontFamily = f; return `+tooWide+`; })("`+font+`")`))
					require.NoError(t, err)
					assert.Empty(t, over, font)
				}
				for what, selector := range map[string]string{"year": ".strips tbody th", "hours": ".stages-table tbody th"} {
					flies, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](`[...document.querySelectorAll("`+selector+`")].map(e => e.firstChild.textContent.trim())`))
					require.NoError(t, err)
					seen := map[string]bool{}
					for _, f := range flies {
						seen[f] = true
					}
					for i := range h.flies {
						assert.True(t, seen[fmt.Sprintf(h.name, letters(i))], "%s: no fly %d", what, i)
					}
				}
			}
		})
	}
}

func TestCardsAndBookletsPrint(t *testing.T) {
	browser.Path(t)
	for _, name := range []string{"one fly", "southern"} {
		t.Run(name, func(t *testing.T) {
			dir, r := made(t, hardGuides[name].guide(), true)
			require.Empty(t, r.NotPrinted)
			assert.Equal(t, 3, r.PDFs)
			card, err := os.ReadFile(filepath.Join(dir, "print", "card-tried.pdf"))
			require.NoError(t, err)
			assert.Equal(t, map[string]int{"one fly": 2, "southern": 3}[name], press.Pages(card), "sides of A4")
			wide, high := press.Size(card)
			assert.InDelta(t, 297, wide, 0.3) // ISO 216: A4, 210 × 297 mm
			assert.InDelta(t, 210, high, 0.3)
			for _, page := range pagesOf(t, card) {
				assert.InDelta(t, 0.75, scaleOf(t, page), 0.001, "the card is shrunk")
			}
			for _, b := range []string{"booklet.pdf", "booklet-tried.pdf"} {
				pdf, err := os.ReadFile(filepath.Join(dir, "print", b))
				require.NoError(t, err)
				n := press.Pages(pdf)
				assert.Positive(t, n)
				assert.Zero(t, n%4, "%s has %d pages", b, n)
				wide, high := press.Size(pdf)
				assert.InDelta(t, 148, wide, 0.4) // ISO 216: A5, 148 × 210 mm
				assert.InDelta(t, 210, high, 0.3)
				assert.NotContains(t, string(pdf), "file:", "%s names the folder it was printed from", b)
				for _, page := range pagesOf(t, pdf) {
					assert.InDelta(t, 0.75, scaleOf(t, page), 0.001, "%s is shrunk", b)
				}
			}
			river, err := os.ReadFile(filepath.Join(dir, "rivers", "tried.html"))
			require.NoError(t, err)
			assert.Contains(t, string(river), "../print/card-tried.pdf")
			if name != "one fly" {
				return
			}
			again, r := made(t, hardGuides[name].guide(), true)
			require.Empty(t, r.NotPrinted)
			for _, b := range []string{"booklet.pdf", "booklet-tried.pdf", "card-tried.pdf"} {
				one, err := os.ReadFile(filepath.Join(dir, "print", b))
				require.NoError(t, err)
				two, err := os.ReadFile(filepath.Join(again, "print", b))
				require.NoError(t, err)
				assert.True(t, string(one) == string(two), "%s differs from one printing to the next", b)
			}
		})
	}
}

// pagesOf reads what stands on each page of a PDF as Chromium writes it.
func pagesOf(t *testing.T, pdf []byte) (pages []string) {
	t.Helper()
	stream := func(number string) []byte {
		_, o, found := bytes.Cut(pdf, []byte("\n"+number+" 0 obj"))
		require.True(t, found)
		_, o, _ = bytes.Cut(o, []byte("stream\n"))
		r, err := zlib.NewReader(bytes.NewReader(o))
		require.NoError(t, err)
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		return text
	}
	for _, m := range regexp.MustCompile(`(?s)/Type /Page\b.*?/Contents (\d+) 0 R`).FindAllSubmatch(pdf, -1) {
		pages = append(pages, string(stream(string(m[1]))))
	}
	require.Len(t, pages, press.Pages(pdf))
	return pages
}

// scaleOf is how long a CSS pixel is on a page, in points: ¾ where nothing has shrunk it (CSS Values and
// Units 4, section 6.2: 96 px to the inch; ISO 32000-1, 8.3.2.3: 72 points). Chromium shrinks all pages
// of a print when something on one is too wide, and a figure of life size with them.
func scaleOf(t *testing.T, page string) float64 {
	t.Helper()
	m := regexp.MustCompile(`^([\d.]+) 0 0 -[\d.]+ 0 [\d.]+ cm\s+q\s+([\d.]+) 0 0 `).FindStringSubmatch(page)
	require.NotNil(t, m, "%.80s", page)
	a, errA := strconv.ParseFloat(m[1], 64)
	b, errB := strconv.ParseFloat(m[2], 64)
	require.NoError(t, errors.Join(errA, errB))
	return a * b
}

// No page of a booklet but the title, the contents and the last is nearly empty: what is short goes on
// below what stands before it. Nor is any shrunk.
func TestPagesOfABookletAreWellFilled(t *testing.T) {
	chromium := browser.Path(t)
	source, err := Find("", t.TempDir())
	require.NoError(t, err)
	out := filepath.Join(t.TempDir(), "site")
	_, err = Publish(Options{Source: source, Date: printDay, Out: out})
	require.NoError(t, err)
	p, err := press.Open(chromium, out, printDay)
	require.NoError(t, err)
	defer p.Close()
	shown := regexp.MustCompile(`T[jJ]\b`)
	pages, err := fs.Glob(os.DirFS(out), "booklet/*.html")
	require.NoError(t, err)
	for _, file := range append(pages, "booklet.html") {
		pdf, err := p.Print(press.Job{Page: file})
		require.NoError(t, err)
		var runs []int
		for i, page := range pagesOf(t, pdf) {
			runs = append(runs, len(shown.FindAllString(page, -1)))
			assert.InDelta(t, 0.75, scaleOf(t, page), 0.001, "%s, page %d is shrunk", file, i+1)
		}
		full := slices.Sorted(slices.Values(runs))[len(runs)/2]
		matter := runs[2 : len(runs)-2] // the last of it may end anywhere, and notes may have a page
		for i, n := range matter {
			assert.Greater(t, n, full/4, "%s, page %d of %d: %v", file, i+3, len(runs), runs)
		}
	}
}

// A bar of 50 mm and an outline have to be as long on paper as they say.
func TestLengthsOnPaperAreTrue(t *testing.T) {
	browser.Path(t)
	dir, _ := made(t, hardGuides["southern"].guide(), false)
	for page, wide := range map[string]int64{"card/tried.html": a4Across, "booklet/tried.html": 560} {
		ctx := printView(t, filepath.Join(dir, filepath.FromSlash(page)), wide)
		bars, err := chromedp.Run(ctx, chromedp.Evaluate[[]float64](`[...document.querySelectorAll(".scale-line")].map(e => e.getBoundingClientRect().width)`))
		require.NoError(t, err)
		require.NotEmpty(t, bars)
		for _, px := range bars {
			assert.InDelta(t, 50, px*25.4/96, 0.6, page) // half the line's own width at either end
		}
		scales, err := chromedp.Run(ctx, chromedp.Evaluate[[]float64](`[...document.querySelectorAll(".life-size")].map(e => e.getBoundingClientRect().width / parseFloat(e.getAttribute("width")))`))
		require.NoError(t, err)
		require.NotEmpty(t, scales)
		for _, perMM := range scales {
			assert.InDelta(t, 96/25.4, perMM, 0.02, page)
		}
	}
}

// What stands on paper has to hold whenever it is read, and asks for nothing that paper can't do.
func TestPaperSaysNothingRelative(t *testing.T) {
	tags, attributes := regexp.MustCompile(`(?s)<(script|style|head)\b.*?</(script|style|head)>`), regexp.MustCompile(`<[^>]*>`)
	relative := regexp.MustCompile(`(?i)\b(click|tap|now|today|tomorrow|yesterday|this (week|month|fortnight))\b`)
	space := regexp.MustCompile(`\s+`)
	source, err := Find("", t.TempDir())
	require.NoError(t, err)
	out := filepath.Join(t.TempDir(), "site")
	_, err = Publish(Options{Source: source, Date: printDay, Out: out})
	require.NoError(t, err)
	n := 0
	for _, pattern := range []string{"card/*.html", "booklet/*.html", "booklet.html"} {
		files, err := filepath.Glob(filepath.Join(out, filepath.FromSlash(pattern)))
		require.NoError(t, err)
		for _, f := range files {
			n++
			html, err := os.ReadFile(f)
			require.NoError(t, err)
			text := attributes.ReplaceAllString(tags.ReplaceAllString(string(html), ""), " ")
			text = strings.ReplaceAll(space.ReplaceAllString(text, " "), "now and then", "at times") // an account's, of a fly
			for _, m := range relative.FindAllStringIndex(text, -1) {
				t.Errorf("%s: %s", f, text[max(0, m[0]-40):min(len(text), m[1]+40)])
			}
			assert.False(t, strings.Contains(string(html), " style="), f)
			assert.True(t, strings.Contains(text, "Records to 13 November 2026 ; built 24 November 2026"), f)
		}
	}
	waters, err := filepath.Glob(filepath.Join(out, "rivers", "*.html"))
	require.NoError(t, err)
	assert.Equal(t, 2*len(waters)+1, n, "a card and a booklet for each water, and the whole guide's")
}

// A water's rules, seasons and hazards stand on its card in full, however many they are.
func TestCardHasTheRules(t *testing.T) {
	h := hardGuides["all rules"]
	dir, _ := made(t, h.guide(), false)
	html, err := os.ReadFile(filepath.Join(dir, "card", "tried.html"))
	require.NoError(t, err)
	for i := range h.rules {
		assert.True(t, strings.Contains(string(html), fmt.Sprintf("Rule %d of the water", i+1)), i)
	}
	for i := range h.hazards {
		assert.True(t, strings.Contains(string(html), fmt.Sprintf("Hazard number %d,", i+1)), i)
	}
	assert.Equal(t, h.seasons, strings.Count(string(html), "only with the keeper"))
}

// The page's address stands on the card, as a square too, where the guide has one.
func TestCardHasItsAddress(t *testing.T) {
	dir, _ := made(t, hardGuides["forty flies"].guide(), false)
	html, err := os.ReadFile(filepath.Join(dir, "card", "tried.html"))
	require.NoError(t, err)
	assert.Equal(t, 40, strings.Count(string(html), `class="strip"`))
	assert.Contains(t, string(html), "https://flies.example/rivers/tried.html")
	assert.Contains(t, string(html), `class="squares"`)
	none, _ := made(t, hardGuides["no place"].guide(), false)
	html, err = os.ReadFile(filepath.Join(none, "card", "tried.html"))
	require.NoError(t, err)
	assert.NotContains(t, string(html), `class="squares"`)
}
