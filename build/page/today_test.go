package page

// The script that looks the reader's date up, in a browser and from disk: it must show what the
// book says of each day. Skipped where there is no Chromium, unless CI asks for it.

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/browser"
	"guidegen/build/figures"
	"guidegen/build/view"
	"guidegen/content/calendar"
	"guidegen/templates"
)

// onDisk writes a book's pages and assets into a folder of the test's own.
func onDisk(t *testing.T, book *figures.Book) string {
	dir := t.TempDir()
	for address, html := range drawAll(t, book) {
		write(t, filepath.Join(dir, address), []byte(html))
	}
	assets, err := view.AssetFiles()
	require.NoError(t, err)
	for _, a := range assets {
		b, err := templates.Files.ReadFile(a.File)
		require.NoError(t, err)
		write(t, filepath.Join(dir, a.Address), b)
	}
	p, err := NewPrinter(book, view.Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	for _, f := range p.Album.Files() {
		write(t, filepath.Join(dir, f.Address), f.Bytes)
	}
	return dir
}

// days are asked of every water: about both changes of the clocks, New Year, a leap day, each season.
var days = []calendar.Date{{Year: 2026, Month: 1, Day: 1}, {Year: 2028, Month: 2, Day: 29}, {Year: 2026, Month: 3, Day: 28},
	{Year: 2026, Month: 3, Day: 31}, {Year: 2026, Month: 5, Day: 16}, {Year: 2026, Month: 6, Day: 30}, {Year: 2026, Month: 7, Day: 26},
	{Year: 2026, Month: 9, Day: 12}, {Year: 2026, Month: 10, Day: 26}, {Year: 2026, Month: 12, Day: 31}}

// shownRow is a fly as the script shows it.
type shownRow struct {
	Name, State, Chance string
	Hours               []string
}

func TestTheScriptShowsWhatTheBookSays(t *testing.T) {
	ctx := browser.Open(t)
	book := demoBook()
	dir := onDisk(t, book)
	p, err := NewPrinter(book, view.Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	for _, w := range book.Waters {
		require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("file://"+filepath.Join(dir, view.WaterPage(w)))))
		for _, date := range days {
			got, err := chromedp.Run(ctx, chromedp.Evaluate[string](fmt.Sprintf(`(function(){
				var d=document.getElementById('d');d.value='%s';d.dispatchEvent(new Event('change'));
				return JSON.stringify([].map.call(document.querySelectorAll('.flies > li'),function(c){
					return {Name:c.querySelector('h3').textContent,State:c.querySelector('p').textContent.split(' · ')[0].trim(),
						Chance:c.querySelector('.pc').textContent,Hours:[].map.call(c.querySelectorAll('.st li span:nth-of-type(1)'),
						function(s){return s.textContent})}}))})()`, date)))
			require.NoError(t, err)
			var shown []shownRow
			require.NoError(t, json.Unmarshal([]byte(got), &shown))
			have, order := map[string]shownRow{}, 2.0
			for _, s := range shown {
				have[s.Name] = s
			}
			for _, r := range w.Rows {
				s, ok := have[r.Fly.Name.S]
				state, chance := told(p, r, date.OfYear())
				require.Equal(t, state != "", ok, "%s on %s, %s", r.Fly.Name.S, w.Name.S, date)
				assert.Equal(t, [2]string{state, chance}, [2]string{s.State, s.Chance}, "%s on %s, %s", r.Fly.Name.S, w.Name.S, date)
				if on, _ := r.On(date.OfYear()); on == figures.On {
					for _, h := range hoursTold(p, r, date) {
						assert.Contains(t, s.Hours, h, "%s on %s, %s", r.Fly.Name.S, w.Name.S, date)
					}
				}
			}
			for _, s := range shown {
				r := w.Rows[slices.IndexFunc(w.Rows, func(r *figures.Row) bool { return r.Fly.Name.S == s.Name })]
				if on, _ := r.On(date.OfYear()); on == figures.On {
					c := r.Chance[date.OfYear()-1]
					assert.LessOrEqual(t, c, order+0.0005, "%s on %s: the likeliest first", w.Name.S, date)
					order = c
				}
			}
		}
	}
}

// told is a fly's state and chance on a day, as the book has them.
func told(p *Printer, r *figures.Row, d calendar.Day) (state, chance string) {
	for _, run := range r.Runs {
		if s := view.StateOf(run); s >= 0 && run.From <= d && d <= run.To {
			state, chance = p.words.Plain("on_state."+view.OnStates[s].Key), p.words.Amount(view.Percent(r.Chance[d-1], r.Fly.Basis))
			if run.State == figures.BetweenFlights {
				chance = ""
			}
		}
	}
	return state, chance
}

// hoursTold are a fly's hours on a date in the flight that speaks for it, in each stage that fish meet.
func hoursTold(p *Printer, r *figures.Row, date calendar.Date) (out []string) {
	if date.Year != p.book.Built.Year || len(r.Flights) == 0 {
		return nil // the sun's times are those of the year that the guide is built in
	}
	for _, d := range r.Dressings {
		if d.Flight != r.FlightAt(date.OfYear()) {
			continue
		}
		hours := r.HoursOn(date, d.Stage, d.Sex, d.Flight)
		if len(hours) == 1 {
			out = append(out, p.WithOthers(hours[0], p.Clock))
		}
	}
	return out
}

// lawTerms open or close about the end of February, where what a law says differs by the year.
var lawTerms = [][2]string{{"29 Feb", "30 Sep"}, {"1 Mar", "30 Sep"}, {"1 Oct", "28 Feb"}, {"1 Oct", "Feb"}, {"16 Jun", "14 Mar"}, {"1 Mar", "28 Feb"}}

// Page, trip and terminal say the same of a season, and until when, on the days about the leap day.
func TestSeasonsAroundTheLeapDay(t *testing.T) {
	ctx := browser.Open(t)
	g := oneFly()
	seasons := "seasons:\n"
	for _, s := range lawTerms {
		seasons += fmt.Sprintf("  - {fish: \"%s, %s\", open: %s, close: %s}\n", s[0], s[1], s[0], s[1])
	}
	g["rivers/beck.yaml"] = file(string(g["rivers/beck.yaml"].Data) + seasons)
	book := bookOf(t, g)
	w, dir := book.Waters[0], onDisk(t, book)
	p, err := NewPrinter(book, view.Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	spoken := func(d calendar.Date) (out []string) {
		for _, s := range w.Seasons {
			if s.AllYear() {
				continue
			}
			open, until, word := s.Holds(d), d, "season.shut_to"
			for s.Holds(until.AddDays(1)) == open {
				until = until.AddDays(1)
			}
			if open {
				word = "season.open_to"
			}
			out = append(out, p.words.Plain(word, "fish", s.Fish.S, "date", p.words.DateOf(until)))
		}
		return out
	}
	days := []calendar.Date{{Year: 2027, Month: 2, Day: 28}, {Year: 2027, Month: 3, Day: 1}, {Year: 2028, Month: 2, Day: 28}, {Year: 2028, Month: 2, Day: 29},
		{Year: 2028, Month: 3, Day: 1}, {Year: 2027, Month: 12, Day: 31}, {Year: 2028, Month: 9, Day: 30}, {Year: 2028, Month: 10, Day: 1}}
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("file://"+filepath.Join(dir, view.WaterPage(w)))))
	for _, d := range days {
		got := eval[[]string](t, ctx, fmt.Sprintf(`(function(){
			var d=document.getElementById('d');d.value='%s';d.dispatchEvent(new Event('change'));
			return [].map.call(document.querySelectorAll('.season .plain'),function(c){return c.textContent})})()`, d))
		assert.Equal(t, spoken(d), got, d)
	}
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("file://"+filepath.Join(dir, view.TripPage(w)))))
	for _, from := range days {
		for _, n := range []int{0, 1, 2} {
			to := from.AddDays(n)
			got := eval[[]bool](t, ctx, fmt.Sprintf(`(function(){
				['from','to'].forEach(function(id,i){var d=document.getElementById('trip-'+id);d.value=['%s','%s'][i]});
				document.getElementById('trip-to').dispatchEvent(new Event('change',{bubbles:true}));
				return [].map.call(document.querySelectorAll('.season .shut'),function(c){return !c.hidden})})()`, from, to))
			shut := w.Closed(from, to)
			var want []bool
			for _, s := range w.Seasons {
				if !s.AllYear() {
					want = append(want, slices.Contains(shut, s.Fish.S))
				}
			}
			assert.Equal(t, want, got, "%s to %s", from, to)
		}
	}
}

// Without scripts the list of half-months stands, and nothing that needs a script shows.
func TestWithoutScripts(t *testing.T) {
	ctx := browser.Open(t)
	book := demoBook()
	dir := onDisk(t, book)
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("about:blank")))
	_, err := chromedp.Call(ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	require.NoError(t, err)
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("file://"+filepath.Join(dir, view.WaterPage(book.Waters[0])))))
	got, err := chromedp.Run(ctx, chromedp.Evaluate[string](`JSON.stringify(['table.cells','table.year','.season .plain','#now','.answer','.when','.after'].map(
		function(s){return document.querySelector(s).checkVisibility()}))`))
	require.NoError(t, err)
	assert.Equal(t, "[true,true,true,false,false,false,false]", got)
}
