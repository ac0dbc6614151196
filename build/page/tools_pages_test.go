package page

// The pages of the tools as a reader uses them: from disk, under the site's own policy, by
// keyboard, and without a message in the console.

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/browser"
	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/demo"
	"guidegen/rivers"
	"guidegen/species"
	"guidegen/species/key"
)

// toolSite writes the demo's site to disk and returns where it begins.
func toolSite(t *testing.T) (*figures.Book, string) {
	book := demoBook()
	return book, toolSiteOf(t, book)
}

func toolSiteOf(t *testing.T, book *figures.Book) string {
	dir := onDisk(t, book)
	files, err := Generated(book, view.Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	for _, f := range files {
		write(t, filepath.Join(dir, f.Address), f.Bytes)
	}
	return "file://" + dir + "/"
}

// watch gathers what the browser has to say about the pages.
func watch(t *testing.T, ctx context.Context) func() []string {
	var mu sync.Mutex
	var said []string
	add := func(s string) {
		mu.Lock()
		defer mu.Unlock()
		said = append(said, s)
	}
	require.NoError(t, chromedp.Listen(ctx, func(ev any) {
		switch e := ev.(type) {
		case *runtime.EventConsoleAPICalled:
			for _, a := range e.Args {
				add("console: " + string(a.Value))
			}
		case *runtime.EventExceptionThrown:
			add("exception: " + e.ExceptionDetails.Text)
		case *log.EventEntryAdded:
			add("log: " + e.Entry.Text + " " + e.Entry.URL)
		}
	}))
	return func() []string {
		mu.Lock()
		defer mu.Unlock()
		return append([]string(nil), said...)
	}
}

func press(t *testing.T, ctx context.Context, keys ...string) {
	for _, k := range keys {
		require.NoError(t, chromedp.Do(ctx, chromedp.KeyEvent(k)))
	}
}

func TestSievePage(t *testing.T) {
	ctx := browser.Open(t)
	said := watch(t, ctx)
	book, site := toolSite(t)
	visit(t, ctx, site+view.SievePage)

	type state struct {
		Next           string
		Flies, Groups  []string
		Top            string // the first of what agrees, in the answer
		Count, Drawn   string
		Tiles, Signed  int
		Ticked, Length string
	}
	const look = `(function () {
		var all = function (q) { return Array.prototype.slice.call(document.querySelectorAll(q)); };
		var text = function (q) { var e = document.querySelector(q); return e ? e.textContent : ''; };
		return { Next: text('#sieve-next-h'), Flies: all('#sieve-flies a').map(function (a) { return a.textContent; }),
			Groups: all('#sieve-flies h3').map(function (h) { return h.textContent; }), Top: text('#sieve-top a'), Count: text('#sieve-count'),
			Drawn: (document.querySelector('#sieve-top img') || {}).src || '',
			Tiles: all('#sieve-tiles button').length, Signed: all('#sieve-tiles img').length, Ticked: text('#sieve-ticked'), Length: text('#sieve-said') };
	})()`
	at := func() state { return eval[state](t, ctx, look) }
	choose := func(id, value string) {
		eval[bool](t, ctx, fmt.Sprintf(`(function (e) { e.value = %q; e.dispatchEvent(new Event('change', {bubbles: true})); return true; })(document.getElementById(%q))`, value, id))
	}
	focus := func(what string) { eval[bool](t, ctx, fmt.Sprintf(`(document.querySelector(%q).focus(), true)`, what)) }
	choose("sieve-date", "2026-05-20")
	begin := at()
	assert.Len(t, begin.Flies, len(book.Flies))
	assert.Len(t, begin.Groups, 1)
	assert.NotEmpty(t, begin.Next)
	assert.Equal(t, begin.Tiles-1, begin.Signed, "each state has its pictogram; the last tile says that it can't be seen")
	first := func() string { return eval[string](t, ctx, `document.querySelector('#sieve-flies li').textContent`) }
	assert.Regexp(t, `chance \d+.% on \pL+`, first(), "of any water, the one that gives the chance is named")
	assert.Contains(t, eval[string](t, ctx, `document.getElementById('sieve-when').textContent`), "20 May")

	// The flies of a water come first, by their chance on the very day, and none is hidden.
	w := book.Waters[0]
	choose("sieve-water", w.Name.S)
	for _, day := range []calendar.Day{calendar.DayOf(time.May, 20), calendar.DayOf(time.May, 29), calendar.DayOf(time.September, 3)} {
		choose("sieve-date", fmt.Sprintf("2026-%02d-%02d", day.Month(), day.DayOfMonth()))
		best, likeliest := -1, ""
		for _, r := range w.Rows {
			if c := figures.PerMille(r.Chance[day-1]); c > best {
				best, likeliest = c, r.Fly.Name.S
			}
		}
		assert.Equal(t, likeliest, at().Flies[0])
		assert.Contains(t, first(), fmt.Sprintf("chance %d%%", int(math.Round(float64(best)/10))))
	}
	choose("sieve-date", "2026-05-20")
	there := at()
	assert.NotContains(t, first(), " on "+w.Name.S)
	assert.Len(t, there.Flies, len(book.Flies))

	// By keyboard alone: a tile answers and brings the next question, and its chip takes the answer back.
	focus("#sieve-tiles button")
	press(t, ctx, kb.Enter)
	ticked := at()
	assert.Equal(t, "sieve-next-h", eval[string](t, ctx, `document.activeElement.id`), "the focus goes on to the next question")
	assert.Len(t, ticked.Flies, len(book.Flies))
	assert.Greater(t, len(ticked.Groups), 1)
	assert.NotEqual(t, there.Next, ticked.Next)
	assert.NotEqual(t, there.Count, ticked.Count)
	assert.NotEmpty(t, ticked.Ticked)
	focus("#sieve-ticked button")
	press(t, ctx, " ")
	assert.Equal(t, there, at(), "a tick taken back leaves no trace")

	// What can't be seen is asked no more until that is taken back too.
	focus("#sieve-tiles button:last-child")
	press(t, ctx, kb.Enter)
	assert.NotEqual(t, there.Next, at().Next)
	assert.Equal(t, there.Flies, at().Flies)
	focus("#sieve-ticked button")
	press(t, ctx, kb.Enter)
	assert.Equal(t, there, at())

	// The ruler by keyboard: half a millimetre a key, and back to not measured.
	focus("#sieve-length")
	for range 16 {
		press(t, ctx, kb.ArrowRight)
	}
	measured := at()
	assert.Equal(t, "8\u00a0mm", measured.Length)
	assert.Greater(t, len(measured.Groups), 1)
	assert.Contains(t, measured.Ticked, "8\u00a0mm")
	focus("#sieve-ticked button")
	press(t, ctx, kb.Enter)
	assert.Equal(t, there, at())

	// All features are there when they are opened; a wrong tick loses nothing.
	eval[bool](t, ctx, `(document.querySelector('#sieve-all summary').click(), true)`)
	require.Eventually(t, func() bool { return eval[int](t, ctx, `document.querySelectorAll('#sieve-all fieldset').length`) > 0 }, 5*time.Second, 20*time.Millisecond)
	assert.Positive(t, eval[int](t, ctx, `document.querySelectorAll('#sieve-all .tile img').length`))
	eval[bool](t, ctx, `(function (all) { all.forEach(function (i) { i.click(); }); return true; })(document.querySelectorAll('#sieve-all fieldset:last-child input'))`)
	assert.Len(t, at().Flies, len(book.Flies))
	assert.Empty(t, said())
}

// What the sieve shows stays in sight on a phone: what agrees, however far one has scrolled.
func TestSieveStaysInSight(t *testing.T) {
	ctx := browser.Open(t)
	_, site := toolSite(t)
	require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(360, 740)))
	visit(t, ctx, site+view.SievePage)
	eval[bool](t, ctx, `(document.querySelector('#sieve-all').scrollIntoView({ block: 'center' }), true)`)
	assert.InDelta(t, 0, eval[float64](t, ctx, `document.querySelector('.got').getBoundingClientRect().top`), 1)
	at := `document.querySelector('#sieve-measure').getBoundingClientRect().top`
	before := eval[float64](t, ctx, at)
	eval[bool](t, ctx, `(document.querySelector('[data-step="0.5"]').click(), true)`)
	assert.Contains(t, eval[string](t, ctx, `document.querySelector('#sieve-said').textContent`), "mm")
	assert.Less(t, math.Abs(eval[float64](t, ctx, at)-before), 60.0, "nothing but the row of ticks moves it")
}

// A length is compared with those measured alike alone, and one within half a millimetre agrees: as figures has it.
func TestSieveJudgesLengthsMeasuredAlike(t *testing.T) {
	ctx := browser.Open(t)
	visit(t, ctx, blank(t, "kit.js", "sieve.js"))
	for _, c := range []struct {
		lengths  string // of the body, overall
		mm       float64
		part     int
		disagree int
		agree    int
	}{
		{"[[[6,10]],[]]", 0, 0, 0, 0},    // not measured
		{"[[[6,10]],[]]", 8, 0, 0, 1},    // within
		{"[[[6,10]],[]]", 10.5, 0, 0, 1}, // half a millimetre beyond
		{"[[[6,10]],[]]", 5.5, 0, 0, 1},
		{"[[[6,10]],[]]", 11, 0, 1, 0}, // beyond
		{"[[[6,10]],[]]", 5, 0, 1, 0},
		{"[[[6,10]],[]]", 20, 1, 0, 0}, // overall against a body: nothing is said
		{"[[[6,10]],[[14,18]]]", 20, 1, 1, 0},
		{"[[[6,10]],[[14,18]]]", 15, 1, 0, 1},
		{"[[[5,6],[8,9]],[]]", 7, 0, 1, 0}, // between two flights
		{"[[[5,6],[8,9]],[]]", 8.5, 0, 0, 1},
		{"[[],[]]", 8, 0, 0, 0}, // not known
	} {
		got := eval[[]int](t, ctx, fmt.Sprintf(`(function () {
			var s = guideSieve([], [{ href: 'a', name: 'A', chance: 0.5, f: [{ n: 0, s: {}, a: [], m: [], l: %s }] }], {}, { mm: %v, part: %d }, { easy: 0.25, near: 0.75, memory: 0.2, base: 0.01 });
			return [s.order[0].disagrees, s.order[0].agrees]; })()`, c.lengths, c.mm, c.part))
		assert.Equal(t, []int{c.disagree, c.agree}, got, "%+v", c)
	}
}

// The days that the page packs are read as they were, whatever the steps from day to day.
func TestDaysArePackedAndRead(t *testing.T) {
	ctx := browser.Open(t)
	visit(t, ctx, blank(t, "kit.js", "sieve.js"))
	var steep, all, ends [calendar.Year]float64
	for i := range steep {
		steep[i] = float64(i*617%1000) / 1000 // up and down by any step
		all[i] = 1
		if i < 3 || i > 360 {
			ends[i] = 0.4
		}
	}
	ends[100] = 0.004 // hardly any is none
	for _, chance := range [][calendar.Year]float64{{}, steep, all, ends} {
		packed, err := json.Marshal(packedDays(&chance))
		require.NoError(t, err)
		got := eval[[]int](t, ctx, `(function () { var d = { flies: [{ c: [`+string(packed)+`], f: [] }] }; guideSieveUnpack(d); return d.flies[0].c[0]; })()`)
		require.Len(t, got, calendar.Year)
		for i, c := range chance {
			want := figures.PerMille(c)
			if want < hardlyAny {
				want = 0
			}
			require.Equal(t, want, got[i], "day %d", i+1)
		}
	}
}

// The script asks what the key asks in Go of the same forms, whatever is ticked, and ranks each fly in its best form.
func TestSieveScriptAgreesWithTheKey(t *testing.T) {
	ctx := browser.Open(t)
	book := demoBook()
	_, site := toolSite(t)
	visit(t, ctx, site+view.SievePage)
	p, err := NewPrinter(book, view.Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	var data sieveData
	require.NoError(t, json.Unmarshal([]byte(eval[string](t, ctx, `JSON.stringify(guideKit.data('sieve-data'))`)), &data))
	require.Len(t, data.Flies, len(book.Flies))
	require.NotNil(t, p)
	asked := map[string]bool{}
	for n := range 60 { // answers taken in turn, so that every run tries the same
		ticks := map[int][]int{}
		for i, c := range data.Characters {
			if k := (n*7 + i*5) % 11; k < n%6 {
				ticks[i] = []int{(n + i) % len(c.States)}
			}
		}
		text, err := json.Marshal(ticks)
		require.NoError(t, err)
		got := eval[[]string](t, ctx, `(function () { var d = guideKit.data('sieve-data');
			guideSieveUnpack(d);
			d.flies.forEach(function (f, i) { f.chance = (i * 37 % 100) / 100; });
			var s = guideSieve(d.characters, d.flies, `+string(text)+`, { mm: 0, part: 0 }, d);
			return [s.next].concat(s.order.map(function (o) { return o.fly.href + ' ' + o.disagrees + ' ' + o.agrees; })); })()`)
		want := sieved(book, data, ticks)
		assert.Equal(t, want, got, "%v", ticks)
		asked[want[0]] = true
	}
	assert.Greater(t, len(asked), 4)
}

// sieved is the sieve written a second time on the key's own kernel: the question is the first couplet of a key of
// the forms that agree best, without lengths and colours, over the characters not ticked.
func sieved(book *figures.Book, data sieveData, ticks map[int][]int) []string {
	var v key.Vocabulary
	var flies []*key.Fly
	for _, f := range book.Flies {
		flies = append(flies, f.Described)
	}
	for i, c := range data.Characters {
		if len(ticks[i]) == 0 {
			v = append(v, book.Vocabulary[slices.IndexFunc(book.Vocabulary, func(x key.Character) bool { return x.Name == c.Name })])
		}
	}
	type line struct {
		fly               *figures.Fly
		chance            float64
		disagrees, agrees int
	}
	var lines []line
	var left []key.Specimen
	fewest := 1000
	for i, f := range book.Flies {
		best := line{f, float64(i*37%100) / 100, 1000, 0}
		for _, form := range f.Described.Forms {
			x := line{f, best.chance, 0, 0}
			for c, on := range ticks {
				known := f.Described.States[form][data.Characters[c].Name]
				switch {
				case len(known) == 0:
				case slices.ContainsFunc(on, func(s int) bool { return slices.Contains(known, data.Characters[c].States[s].Name) }):
					x.agrees++
				default:
					x.disagrees++
				}
			}
			if x.disagrees < best.disagrees || x.disagrees == best.disagrees && x.agrees > best.agrees {
				best = x
			}
			bare := *f.Described
			bare.Colours = nil
			left = append(left, key.Specimen{Fly: &bare, Form: form, Chance: best.chance, Length: key.Measure{Low: float64(x.disagrees)}})
		}
		fewest = min(fewest, best.disagrees)
		lines = append(lines, best)
	}
	bares := map[string]*key.Fly{}
	var agreeing []key.Specimen
	for _, s := range left {
		if int(s.Length.Low) == fewest {
			if bares[s.Fly.ID] == nil {
				bares[s.Fly.ID] = s.Fly
			}
			s.Fly, s.Length = bares[s.Fly.ID], key.Measure{}
			agreeing = append(agreeing, s)
		}
	}
	set := book.Edition.Constants.Key
	set.MostCouplets = 1
	k := key.NewGuide(v, flies).Build(agreeing, set)
	if len(k.Couplets) == 0 { // no character applies to every form: one that some can show
		for i := range v {
			v[i].SeenIn, v[i].Groups = nil, nil
			for _, f := range flies {
				v[i].Groups = append(v[i].Groups, f.Group)
			}
		}
		k = key.NewGuide(v, flies).Build(agreeing, set)
	}
	next := ""
	if len(k.Couplets) > 0 {
		next = k.Couplets[0].Character
	}
	slices.SortStableFunc(lines, func(a, b line) int {
		return cmp.Or(a.disagrees-b.disagrees, b.agrees-a.agrees, cmp.Compare(b.chance, a.chance), strings.Compare(a.fly.Name.S, b.fly.Name.S), strings.Compare(view.FlyPage(a.fly), view.FlyPage(b.fly)))
	})
	out := []string{next}
	for _, l := range lines {
		out = append(out, fmt.Sprint(view.FlyPage(l.fly), " ", l.disagrees, " ", l.agrees))
	}
	return out
}

// The script's list for chosen dates is that of the figures.
func TestTripScriptAgreesWithTheFigures(t *testing.T) {
	ctx := browser.Open(t)
	book := demoBook()
	visit(t, ctx, blank(t, "kit.js", "trip.js"))
	p, err := NewPrinter(book, view.Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	type pick struct {
		Name  string
		For   []string
		Hooks []string
		Share float64
	}
	type list struct {
		Picks    []pick
		Nothing  []string
		Expected bool
	}
	trips := 0
	for _, w := range book.Waters {
		text, err := json.Marshal(p.tripData(view.TripPage(w), w))
		require.NoError(t, err)
		eval[bool](t, ctx, `(window.data = `+string(text)+`, true)`)
		for from := calendar.Day(1); from <= calendar.Year; from += 23 {
			for _, days := range []int{0, 6, 20} {
				to := from.Add(days)
				want := book.Trip(w, from, to)
				got := eval[list](t, ctx, fmt.Sprintf(`(function () {
					var l = guideTrip.plan(data, %d, %d);
					return {Picks: l.picks.map(function (p) { return {Name: p.name, For: p.for, Hooks: p.hooks.map(function (h) { return h.t; }), Share: p.share}; }), Nothing: l.nothing, Expected: l.expected};
				})()`, from, to))
				what := fmt.Sprint(w.Name.S, " ", from, "–", to)
				if !assert.Len(t, got.Picks, len(want.Picks), what) {
					continue
				}
				ids := func(l []figures.FlyStage) []string {
					out := []string{}
					for _, s := range l {
						out = append(out, s.ID())
					}
					return out
				}
				covered := func(l []figures.TripFor) []string {
					out := []string{}
					for _, s := range l {
						out = append(out, s.ID())
					}
					return out
				}
				for i, k := range want.Picks {
					if i < len(got.Picks) && math.Abs(k.Share-got.Picks[i].Share) < 0.006 && k.Dressing.Name.S != got.Picks[i].Name {
						break // of two that add alike within a thousandth either may come first
					}
					hooks := []string{}
					for _, h := range k.Hooks {
						hooks = append(hooks, p.HookText(h))
					}
					assert.Equal(t, k.Dressing.Name.S, got.Picks[i].Name, what)
					assert.Equal(t, covered(k.For), got.Picks[i].For, what)
					assert.Equal(t, hooks, got.Picks[i].Hooks, what)
					assert.InDelta(t, k.Share, got.Picks[i].Share, 0.006, what) // chances reach the page in thousandths
					trips++
				}
				assert.ElementsMatch(t, ids(want.Nothing), got.Nothing, what)
				assert.Equal(t, want.Expected, got.Expected, what)
			}
		}
	}
	assert.Greater(t, trips, 100)
}

func TestTripPage(t *testing.T) {
	ctx := browser.Open(t)
	said := watch(t, ctx)
	book := demoWithout(t, "dressings/duns.yaml", "dressings/nymphs.yaml")
	site := toolSiteOf(t, book)
	visit(t, ctx, site+view.TripPage(book.Waters[0]))
	rows := `(function (from, to) {
		document.getElementById('trip-from').value = from; document.getElementById('trip-to').value = to;
		document.getElementById('trip-to').dispatchEvent(new Event('change'));
		return [document.querySelectorAll('#trip-list tbody tr').length, document.getElementById('trip-says').textContent].join('|');
	})`
	may := eval[string](t, ctx, rows+`('2026-05-18', '2026-05-24')`)
	assert.NotEqual(t, "0", strings.Split(may, "|")[0])
	assert.Contains(t, may, "of what is likely")
	trip := book.Trip(book.Waters[0], calendar.DayOf(time.June, 1), calendar.DayOf(time.June, 30))
	require.True(t, trip.Short)
	eval[string](t, ctx, rows+`('2026-06-01', '2026-06-30')`)
	assert.Contains(t, eval[string](t, ctx, `document.getElementById('trip-list').textContent`),
		": nothing in the box adds more.")
	assert.Equal(t, "0|The second date lies before the first.", eval[string](t, ctx, rows+`('2026-05-18', '2026-05-17')`))
	assert.Equal(t, "0|Choose two dates.", eval[string](t, ctx, rows+`('', '2026-05-17')`))
	assert.False(t, eval[bool](t, ctx, `document.getElementById('by-month').open`))
	assert.Empty(t, said())
}

func TestSearchPage(t *testing.T) {
	ctx := browser.Open(t)
	said := watch(t, ctx)
	_, site := toolSite(t)
	visit(t, ctx, site+view.FrontPage)
	eval[bool](t, ctx, `(document.querySelector('[data-search] input').focus(), true)`)
	press(t, ctx, "g", "r", "a", "n", "o", "m", kb.Enter) // one n short
	require.Eventually(t, func() bool {
		return strings.HasSuffix(eval[string](t, ctx, `location.href + (document.querySelector('#search-found a') ? '' : ' …')`), view.SearchPage+"#q=granom")
	}, 20*time.Second, 50*time.Millisecond)
	assert.Equal(t, "Grannom", eval[string](t, ctx, `document.querySelector('#search-found a').textContent`))

	ask := func(query string) []string {
		eval[bool](t, ctx, fmt.Sprintf(`(function (i) { i.value = %q; i.form.dispatchEvent(new Event('submit', {cancelable: true})); return true; })(document.getElementById('search-for'))`, query))
		return eval[[]string](t, ctx, `Array.prototype.map.call(document.querySelectorAll('#search-found a'), function (a) { return a.textContent; })`)
	}
	for query, want := range map[string]string{
		"baetis rodani": "Large dark olive", "may fly": "Mayfly", "irn blu": "Iron blue", "bluewinged olive": "Blue-winged olive", "pellowborne": "Pellowbourne",
		"ephemerella ignita": "Blue-winged olive", "subimago": "Dun", "barn door": "Barn Door Sedge",
	} {
		found := ask(query)
		if assert.NotEmpty(t, found, query) {
			assert.Equal(t, want, found[0], query)
		}
	}
	assert.Empty(t, ask("zzzzqqqq"))
	assert.Equal(t, "Nothing of that name, nor of one like it.", eval[string](t, ctx, `document.getElementById('search-says').textContent`))
	assert.Empty(t, said())
}

// Names of other scripts, with and without diacritics, and a name that several flies bear.
func TestSearchKnowsOtherScripts(t *testing.T) {
	ctx := browser.Open(t)
	_, site := toolSite(t)
	visit(t, ctx, site+view.SearchPage)
	eval[bool](t, ctx, `(window.find = guideSearch([
		[0, 'Lwyd y wern', 'a', [['Große Eintagsfliege', 'in German'], ['Подёнка', 'in Russian'], ['カゲロウ', 'in Japanese']], ['Mar']],
		[0, 'Olive dun', 'b', [['July dun', 'old'], ['Ørretflue', 'in Danish']], ['Jul']],
		[0, 'Pale dun', 'c', [['July dun', 'also']], ['Aug']], [0, 'Gwybedyn y dŵr', 'd', [], []]]), true)`)
	for query, want := range map[string]string{
		"grosse eintagsfliege": "a", "подёнка": "a", "поденка": "a", "подзнка": "a", "カゲロウ": "a", "ゲロ": "a", "orretflue": "b", "ÖRRETFLUE": "b",
		"dwr": "d", "dŵr": "d",
	} {
		assert.Equal(t, want, eval[string](t, ctx, fmt.Sprintf(`(find(%q).hits[0] || {}).href || ''`, query)), query)
	}
	assert.Equal(t, "Olive dun, Pale dun", eval[string](t, ctx, `find('july  DUN').shared.join(', ')`))
	assert.Equal(t, "July dun", eval[string](t, ctx, `find('july dun').hits[0].as[0][0]`))
	assert.Empty(t, eval[[]string](t, ctx, `find('olive dun').shared`))
}

// What the net sheet hands out is a file of samples that a guide takes as it is.
func TestNetSheetHandsOutSamples(t *testing.T) {
	ctx := browser.Open(t)
	said := watch(t, ctx)
	book, site := toolSite(t)
	visit(t, ctx, site+view.SheetPage)
	water, fly := book.Waters[0].Name.S, book.Waters[0].Rows[0].Fly
	stage := fly.Group.Stages()[len(fly.Group.Stages())-1]
	set := func(name, value string) {
		eval[bool](t, ctx, fmt.Sprintf(`(function (e) { e.value = %q; e.dispatchEvent(new Event('change', {bubbles: true})); e.dispatchEvent(new Event('input', {bubbles: true})); return true; })(document.querySelector('#sheet [name="%s"]'))`, value, name))
	}
	keep := func() { eval[bool](t, ctx, `(document.getElementById('sheet-keep').click(), true)`) }

	keep() // no water yet
	assert.True(t, eval[bool](t, ctx, `document.getElementById('sheet-kept').hidden`))
	set("water", water)
	set("date", "2026-05-21")
	set("start", "11:40")
	set("end", "12:20")
	set("amount", "50")
	set("by", "E. Marl")
	set("remarks", "wind, \"upstream\"; rain = cold")
	keep() // neither a fly nor a word that there was none
	assert.True(t, eval[bool](t, ctx, `document.getElementById('sheet-kept').hidden`))
	tick := func() { eval[bool](t, ctx, `(document.getElementById('sheet-nothing').click(), true)`) }
	tick()
	assert.False(t, eval[bool](t, ctx, `document.getElementById('sheet-full').checkVisibility()`), "an empty net needs no more")
	keep() // nothing in the net
	assert.True(t, eval[bool](t, ctx, `document.getElementById('sheet-full').checkVisibility()`), "the next sheet is a new one")
	set("date", "2026-05-22")
	set("amount", "12,5")
	eval[bool](t, ctx, `(document.getElementById('sheet-add').click(), true)`)
	set("fly", fly.Name.S)
	set("stage", string(stage))
	set("sex", "female")
	set("count", "7")
	set("lengths", "7,9 8.3; 8 mm?")
	keep() // no such lengths
	assert.Equal(t, 1, eval[int](t, ctx, `document.querySelectorAll('#sheet-list > li').length`))
	set("lengths", "7,9 8.3; 8")
	set("remarks", "a remark on the visit")
	keep()
	set("date", "2026-05-22")
	set("start", "19:05")
	step := func(by int) string { // a fly that nobody could name
		return eval[string](t, ctx, fmt.Sprintf(`(document.querySelector('[data-unnamed=sedge] [data-by="%d"]').click(), document.querySelector('[data-unnamed=sedge] output').value)`, by))
	}
	assert.Equal(t, []string{"1", "2", "1", "0", "0", "1"}, []string{step(1), step(1), step(-1), step(-1), step(-1), step(1)})
	assert.True(t, eval[bool](t, ctx, `document.getElementById('sheet-nothing').disabled`), "what was found can't be nothing")
	set("count", "4")
	assert.Equal(t, "5", step(1), "what is written in its row counts")
	for range 4 {
		step(-1)
	}
	keep() // a second visit of that day

	text := eval[string](t, ctx, `document.getElementById('sheet-csv').value`)
	assert.Equal(t, "blob:", eval[string](t, ctx, `new URL(document.getElementById('sheet-file').href).protocol`))
	var ps content.Problems
	events := rivers.ReadSamples(content.NewFile("samples/visits.csv", []byte(text)), &ps)
	assert.Empty(t, ps.All(), text)
	require.Len(t, events, 3, text)
	assert.Contains(t, text, ",water-bred,nothing,")
	assert.Equal(t, water, events[0].Water.S)
	assert.Empty(t, events[0].Finds)
	assert.Equal(t, "2026-05-21", events[0].When.From.String())
	assert.Equal(t, 50.0, events[0].Effort.Amount)
	assert.Equal(t, "wind, \"upstream\"; rain = cold", events[0].Remarks)
	assert.Len(t, events[0].LookedFor(), 8)
	require.Len(t, events[2].Finds, 1)
	assert.Equal(t, []any{"sedge", species.Adult, 1}, []any{events[2].Finds[0].Fly.S, events[2].Finds[0].Stage, events[2].Finds[0].Count})
	require.Len(t, events[1].Finds, 1)
	f := events[1].Finds[0]
	assert.Equal(t, []any{fly.Name.S, stage, "female", 7, 12.5}, []any{f.Fly.S, f.Stage, string(f.Sex), f.Count, events[1].Effort.Amount})
	require.Len(t, f.Lengths, 3)
	assert.Equal(t, 7.9, f.Lengths[0].Millimetres)
	assert.Equal(t, "a remark on the visit", events[1].Remarks)

	// The guide with this file has no problem that it hadn't.
	before, after := problems(t, nil), problems(t, []byte(text))
	assert.Equal(t, before, after)

	// The visits are still there the next time, and so is an unfinished sheet.
	set("beat", "church meadow")
	visit(t, ctx, site+view.SheetPage)
	assert.Equal(t, 3, eval[int](t, ctx, `document.querySelectorAll('#sheet-list > li').length`))
	assert.Equal(t, "church meadow", eval[string](t, ctx, `document.querySelector('#sheet [name=beat]').value`))
	assert.Empty(t, said())
}

// What no guide takes is refused on the sheet, and what it would warn of is asked about.
func TestNetSheetDoubts(t *testing.T) {
	ctx := browser.Open(t)
	said := watch(t, ctx)
	book, site := toolSite(t)
	visit(t, ctx, site+view.SheetPage)
	set := func(name, value string) {
		eval[bool](t, ctx, fmt.Sprintf(`(function (e) { e.value = %q; e.dispatchEvent(new Event('input', {bubbles: true})); e.dispatchEvent(new Event('change', {bubbles: true})); return true; })(document.querySelector('#sheet [name="%s"]'))`, value, name))
	}
	// keep tells what stands in the way, what was asked, and how many visits are kept then.
	keep := func(answer bool) []string {
		return eval[[]string](t, ctx, fmt.Sprintf(`(function () {
			var asked = '';
			window.confirm = function (text) { asked = text; return %t; };
			var wrong = [].filter.call(document.querySelectorAll('#sheet :invalid'), function (e) { return e.name; }).map(function (e) { return e.name; }).join(' ');
			document.getElementById('sheet-keep').click();
			return [wrong, asked, String(document.querySelectorAll('#sheet-list > li').length)];
		})()`, answer))
	}
	ticks := func(on bool) {
		eval[bool](t, ctx, fmt.Sprintf(`(document.querySelectorAll('#sheet [name=scope]').forEach(function (e) { if (e.checked !== %t) e.click(); }), true)`, on))
	}
	w, fly := book.Waters[0], book.Waters[0].Rows[0].Fly
	nothing := func() { eval[bool](t, ctx, `(document.getElementById('sheet-nothing').click(), true)`) }
	set("water", w.Name.S)
	set("date", "2126-01-01")
	assert.Equal(t, []string{"date nothing", "", "0"}, keep(true), "neither a fly nor a word that there was none")
	nothing()
	assert.Equal(t, []string{"date", "", "0"}, keep(true), "a visit yet to be made")
	set("date", "2026-05-21")
	set("amount", "0,0")
	assert.Equal(t, []string{"amount", "", "0"}, keep(true))
	set("amount", "")
	ticks(false)
	assert.Equal(t, []string{"scope", "", "0"}, keep(true), "an empty net that looked for nothing")
	ticks(true)
	set("start", "22:40")
	set("end", "00:20")
	set("beat", "No such meadow")
	got := keep(false)
	assert.Equal(t, "0", got[2])
	assert.Contains(t, got[1], "ends before it starts")
	assert.Contains(t, got[1], "No such meadow isn't a beat of "+w.Name.S+". Its beats: "+w.Beats[0].Name.S)
	set("method", "light trap")
	set("beat", strings.ToUpper(w.Beats[0].Name.S))
	assert.Equal(t, []string{"", "", "1"}, keep(true), "a trap stands overnight, and letter case isn't an other beat")

	// The same visit again is said at once and asked about; at another hour, on another day or water it is another.
	twice := func() string { return eval[string](t, ctx, `document.getElementById('sheet-twice').innerText`) }
	nothing()
	set("date", "2026-05-21")
	set("start", "22:40")
	assert.Contains(t, twice(), "a visit to "+w.Name.S+" of that day and hour already")
	got = keep(false)
	assert.Equal(t, "1", got[2])
	assert.Contains(t, got[1], "counts twice")
	for name, other := range map[string][2]string{"start": {"21:00", "22:40"}, "date": {"2026-05-20", "2026-05-21"}, "water": {book.Waters[1].Name.S, w.Name.S}} {
		set(name, other[0])
		assert.Empty(t, twice(), name)
		set(name, other[1])
		assert.NotEmpty(t, twice(), name)
	}
	set("start", "")
	nothing()

	set("date", "2026-05-22")
	eval[bool](t, ctx, `(document.getElementById('sheet-add').click(), true)`)
	set("fly", "Large drak olive")
	set("count", "1")
	set("lengths", "8 9")
	got = keep(false)
	assert.Contains(t, got[1], "No account is named Large drak olive.")
	assert.Contains(t, got[1], "more lengths than flies")
	set("count", "2")
	for _, name := range []string{fly.Name.S, strings.ToUpper(fly.Scientific.Name.S), strings.Fields(fly.Scientific.Name.S)[0], strings.Fields(fly.Scientific.Name.S)[0] + " sp.", fly.Family.S} {
		set("fly", name)
		got = keep(false)
		assert.Contains(t, got[1], "has no stage", name)
		assert.NotContains(t, got[1], "No account", name)
	}
	stages := fly.Group.Stages()
	set("stage", string(stages[len(stages)-1]))
	assert.Equal(t, []string{"", "", "2"}, keep(true))
	text := eval[string](t, ctx, `document.getElementById('sheet-csv').value`)
	assert.Equal(t, problems(t, nil), problems(t, []byte(text)), text)
	assert.Empty(t, said())
}

// problems reads the demo with a file of samples more.
func problems(t *testing.T, samples []byte) []string {
	files := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(demo.FS, ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			var data []byte
			data, err = fs.ReadFile(demo.FS, name)
			files[name] = &fstest.MapFile{Data: data}
		}
		return err
	}))
	if samples != nil {
		files["samples/visits.csv"] = &fstest.MapFile{Data: samples}
	}
	var ps content.Problems
	_, err := guide.Read(files, calendar.Date{Year: 2026, Month: 11, Day: 20}, &ps)
	require.NoError(t, err)
	out := []string{}
	for _, p := range ps.All() {
		out = append(out, p.At.File+": "+p.Message)
	}
	return out
}

// Visits that an older copy kept under the guide's former name are taken in; those of another guide stay where they are.
func TestNetSheetKeepsVisitsOfARenamedGuide(t *testing.T) {
	ctx := browser.Open(t)
	said := watch(t, ctx)
	book, site := toolSite(t)
	visit(t, ctx, site+view.SheetPage)
	eval[bool](t, ctx, fmt.Sprintf(`(localStorage.setItem('guide-sheet A former name', JSON.stringify([
		{visit: 'OLD-1', water: %q, date: '2026-05-01', finds: []}, {visit: 'OTHER-1', water: 'Elsewhere', date: '2026-05-01', finds: []}])), true)`,
		book.Waters[0].Name.S))
	for range 2 { // the second time nothing comes twice
		visit(t, ctx, site+view.SheetPage)
		assert.Equal(t, 1, eval[int](t, ctx, `document.querySelectorAll('#sheet-kept li').length`))
	}
	assert.Equal(t, "OTHER-1", eval[string](t, ctx, `JSON.parse(localStorage.getItem('guide-sheet A former name')).map(function (v) { return v.visit; }).join()`))
	assert.Empty(t, said())
}

// The date and the water of the page before travel to the sieve and the tying list.
func TestDateAndWaterTravel(t *testing.T) {
	ctx := browser.Open(t)
	book, site := toolSite(t)
	w := book.Waters[len(book.Waters)-1]
	visit(t, ctx, site+view.WaterPage(w)+"?on=2026-06-10")
	eval[bool](t, ctx, `(function (d) { d.value = '2026-07-04'; d.dispatchEvent(new Event('change')); return true; })(document.getElementById('d'))`)
	for page, field := range map[string]string{view.SievePage: "sieve-date", view.TripPage(w): "trip-from", view.FrontPage: "d"} {
		visit(t, ctx, site+page)
		assert.Equal(t, "2026-07-04", eval[string](t, ctx, fmt.Sprintf(`document.getElementById(%q).value`, field)), page)
	}
	visit(t, ctx, site+view.SievePage)
	assert.Equal(t, w.Name.S, eval[string](t, ctx, `document.getElementById('sieve-water').value`))
	visit(t, ctx, site+view.SievePage+"?on=2026-02-03") // as it was sent by a friend
	assert.Equal(t, "2026-02-03", eval[string](t, ctx, `document.getElementById('sieve-date').value`))
}
