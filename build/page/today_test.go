package page

// The script that looks the reader's date up, in a browser and from disk: it must show what the
// book says of each day. Skipped where there is no Chromium, unless CI asks for it.

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/browser"
	"guidegen/build/figures"
	"guidegen/content/calendar"
	"guidegen/templates"
)

// onDisk writes a book's pages and assets into a folder of the test's own.
func onDisk(t *testing.T, book *figures.Book) string {
	dir := t.TempDir()
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
	return dir
}

func TestTheScriptShowsWhatTheBookSays(t *testing.T) {
	ctx := browser.Open(t)
	book := demoBook()
	dir := onDisk(t, book)
	words, err := LoadWords("en")
	require.NoError(t, err)
	for _, w := range book.Waters {
		require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("file://"+filepath.Join(dir, waterPage(w)))))
		for _, date := range []calendar.Date{{Year: 2026, Month: 1, Day: 1}, {Year: 2028, Month: 2, Day: 29}, {Year: 2026, Month: 4, Day: 1}, {Year: 2026, Month: 5, Day: 16},
			{Year: 2026, Month: 6, Day: 30}, {Year: 2026, Month: 7, Day: 26}, {Year: 2026, Month: 9, Day: 12}, {Year: 2026, Month: 12, Day: 31}} {
			got, err := chromedp.Run(ctx, chromedp.Evaluate[string](fmt.Sprintf(`(function(){
				var pick=document.querySelector('.pick');pick.value='%s';pick.dispatchEvent(new Event('change'));
				return JSON.stringify([].filter.call(document.querySelectorAll('.card'),function(c){return !c.hidden}).map(function(c){
					return [+c.dataset.fly,c.querySelector('.state').textContent,c.querySelector('.chance').textContent]}))})()`, date)))
			require.NoError(t, err)
			var shown [][3]any
			require.NoError(t, json.Unmarshal([]byte(got), &shown))
			want := map[int][2]string{}
			for i, r := range w.Rows {
				for _, run := range r.Runs {
					d := date.OfYear()
					if s := stateOf(run); s >= 0 && run.From <= d && d <= run.To {
						chance := words.amount(percent(r.Chance[d-1], r.Fly.Basis))
						if run.State == figures.BetweenFlights {
							chance = ""
						}
						want[i] = [2]string{words.Plain("on_state." + onStates[s].key), chance}
					}
				}
			}
			have := map[int][2]string{}
			order := 2.0
			for _, s := range shown {
				i := int(s[0].(float64))
				have[i] = [2]string{s[1].(string), s[2].(string)}
				if stateOn(w.Rows[i], date.OfYear()) == figures.On {
					c := w.Rows[i].Chance[date.OfYear()-1]
					assert.LessOrEqual(t, c, order+0.0005, "%s on %s: the likeliest first", w.Name.S, date)
					order = c
				}
			}
			assert.Equal(t, want, have, "%s on %s", w.Name.S, date)
		}
	}
}

// Without scripts the table of half-months stands open, and nothing that needs a script shows.
func TestWithoutScripts(t *testing.T) {
	ctx := browser.Open(t)
	book := demoBook()
	dir := onDisk(t, book)
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("about:blank")))
	_, err := chromedp.Call(ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	require.NoError(t, err)
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("file://"+filepath.Join(dir, waterPage(book.Waters[0])))))
	got, err := chromedp.Run(ctx, chromedp.Evaluate[string](`JSON.stringify([document.querySelector('table.cells').checkVisibility(),
		document.querySelector('.cards').checkVisibility(), document.querySelector('.when').checkVisibility(), document.querySelector('.shut').checkVisibility()])`))
	require.NoError(t, err)
	assert.Equal(t, "[true,false,false,false]", got)
}

// Every pair of state and tendency that the kernel can give has words: a pair without them lost a fly from its page.
func TestEveryStateOfADayHasWords(t *testing.T) {
	words, err := LoadWords("en")
	require.NoError(t, err)
	seen := map[int]bool{}
	for _, state := range []figures.OnState{figures.On, figures.Starting, figures.JustOver, figures.BetweenFlights} {
		for _, tendency := range []figures.Tendency{figures.NoTendency, figures.Rising, figures.Steady, figures.Fading, figures.BetweenTwo} {
			if state != figures.On && tendency != figures.NoTendency {
				continue
			}
			i := stateOf(figures.Run{State: state, Tendency: tendency})
			require.False(t, seen[i], "%s, %s", state, tendency)
			seen[i] = true
			require.NotEmpty(t, words.Plain("on_state."+onStates[i].key))
		}
	}
	require.Equal(t, -1, stateOf(figures.Run{}))
	require.Panics(t, func() { stateOf(figures.Run{State: figures.On, Tendency: "soon"}) })
}
