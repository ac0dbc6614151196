package paper

// What the pages made for paper share: the pocket card and the booklet. Nothing on them is said
// relative to a day, and nothing asks for a screen.

import (
	"cmp"
	"html/template"
	"slices"
	"strconv"
	"strings"

	qrcode "github.com/skip2/go-qrcode"

	"guidegen/build/chart"
	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
	"guidegen/species/hook"
)

// PaperSeason is the fishing season for one fish, in absolute dates.
type PaperSeason struct {
	Text    string
	Note    string
	Checked lang.Date
	Stale   bool
}

// paperSeasons words the seasons so that they hold whenever the sheet is read.
func (p printer) paperSeasons(w *figures.Water) []PaperSeason {
	var out []PaperSeason
	for _, s := range p.Seasons(w) {
		v := PaperSeason{Note: s.Note, Checked: s.Checked, Stale: s.Stale}
		switch {
		case s.AllYear:
			v.Text = p.words.Plain("season.open_all_year", "fish", s.Fish)
		case s.OpenDay != "":
			v.Text = p.words.Plain("paper.season", "fish", s.Fish, "open", s.Open, "close", s.Close, "shut", s.Shut, "shut_to", s.ShutTo)
		default:
			v.Text = p.words.Plain("season.unknown", "fish", s.Fish)
		}
		out = append(out, v)
	}
	return out
}

// AddressView is where a page is found on the web, for those who hold the paper.
type AddressView struct {
	Text  string   // spelled out; "" where the guide names no base address
	Parts []string // the same, in parts between which a line may break
	QR    template.HTML
}

func (p printer) webAddress(page string) AddressView {
	base := p.Settings().Address
	if base == "" {
		return AddressView{}
	}
	v := AddressView{Text: strings.TrimSuffix(base, "/") + "/" + strings.TrimSuffix(page, view.FrontPage)}
	v.Parts = strings.SplitAfter(v.Text, "/")
	v.QR = qr(v.Text, p.words.Plain("paper.qr", "address", v.Text))
	return v
}

// qr draws a QR code as one path. Where the text is too long for one, there is none: the address
// stands beside it in words.
func qr(text, title string) template.HTML {
	code, err := qrcode.New(text, qrcode.Medium)
	if err != nil {
		return ""
	}
	code.DisableBorder = true
	return chart.Squares(code.Bitmap(), 4, title) // a quiet zone of 4 modules: ISO/IEC 18004
}

// PaperRow is one stage of one fly: when in the day, how long, on which hook, and what to tie on.
type PaperRow struct {
	Fly      lang.Link // in the fly's first row
	LandBred bool
	Lines    string // how many rows the fly has, in its first row
	Last     bool   // the fly's last row
	Stage    string // "dun", "female spinner, autumn"
	Level    string
	Hours    []string // as the account states them, a line for each sex where they differ
	Lengths  []CardLength
	Hooks    [][]string // for each model of the table, a line for each of Lengths, or one for all
	Ties     []PaperTie
	Untied   string // why there is none

	stage       species.Stage
	sex         species.Sex
	flight      string
	suns        []calendar.Sun      // what the hours hang on
	suggestions [][]figures.HookFor // for each of Lengths, or one for all
}

// CardLength is a length, with the sex where the two share a line.
type CardLength struct {
	Sex    string
	Length content.Figure
}

// PaperTie is a dressing with the hook it is tied on.
type PaperTie struct{ Name, Hook string }

// stageRows gives the stages of a fly on the wing: hours, lengths, hooks. The sexes share a row,
// with a line each where they differ; flights do only where all is the same.
func (p printer) stageRows(r *figures.Row) []PaperRow {
	var list []PaperRow
	winged := slices.ContainsFunc(r.Dressings, func(d figures.StageDressings) bool { return d.Stage.OnTheWing() })
	for _, d := range r.Dressings {
		if winged && !d.Stage.OnTheWing() {
			continue // of one that fish meet as a nymph alone that is the row
		}
		row := PaperRow{stage: d.Stage, sex: d.Sex, flight: d.Flight, suggestions: [][]figures.HookFor{d.Length.Hooks}}
		row.Hours, row.suns = p.paperHours(r, species.Words{Stage: d.Stage, Sex: d.Sex, Flight: d.Flight})
		if d.Length.Length > 0 {
			row.Lengths = []CardLength{{Length: p.Length(d.Length.Length, 1, d.Length.Basis)}}
		}
		list = append(list, row)
	}
	same := func(a, b PaperRow) bool { return slices.Equal(sizesOf(a), sizesOf(b)) }
	list = joinRows(list, func(a, b PaperRow) bool {
		return a.flight == b.flight && a.sex != b.sex && len(a.Lengths) == len(b.Lengths) && (same(a, b) || len(a.Lengths) == 1)
	}, p.joinSexes)
	list = joinRows(list, func(a, b PaperRow) bool {
		return a.flight != b.flight && a.sex == b.sex && same(a, b) && sameLengths(a, b) && slices.Equal(a.Hours, b.Hours)
	}, func(a *PaperRow, _ PaperRow) { a.flight = "" })
	return p.headed(r, list)
}

// torn names the flies without length and hook because their finds lie too far apart; "" where there is none.
func (p printer) torn(w *figures.Water) string {
	var names []string
	for _, r := range w.Rows {
		if slices.ContainsFunc(r.Dressings, func(d figures.StageDressings) bool { return d.Stage.OnTheWing() && d.Length.Torn }) {
			names = append(names, r.Fly.Name.S)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return p.words.Plain("paper.torn", "flies", p.words.List(names))
}

// tieRows gives the stages of a fly, with none in the box for some; no row where there is nothing for any.
func (p printer) tieRows(r *figures.Row) []PaperRow {
	var list []PaperRow
	for _, d := range r.Dressings {
		row := PaperRow{stage: d.Stage, sex: d.Sex, flight: d.Flight, Untied: p.Untied(r.Water, d)}
		row.Level = p.LevelOf(r, species.Words{Stage: d.Stage, Sex: d.Sex, Flight: d.Flight})
		for _, x := range p.Ties(d) {
			t := PaperTie{Name: p.DressingNamed("", x.Name).Text, Hook: p.TieHook(x.Name, x.Size())}
			if x.Size() != nil {
				t.Hook = x.Size().Hook.Size
			}
			row.Ties = append(row.Ties, t)
		}
		list = append(list, row)
	}
	if !slices.ContainsFunc(list, func(r PaperRow) bool { return len(r.Ties) > 0 }) {
		return nil
	}
	same := func(a, b PaperRow) bool {
		return a.Level == b.Level && a.Untied == b.Untied && slices.Equal(a.Ties, b.Ties)
	}
	list = joinRows(list, func(a, b PaperRow) bool { return a.flight == b.flight && a.sex != b.sex && same(a, b) },
		func(a *PaperRow, _ PaperRow) { a.sex = species.NoSex })
	list = joinRows(list, func(a, b PaperRow) bool { return a.flight != b.flight && a.sex == b.sex && same(a, b) },
		func(a *PaperRow, _ PaperRow) { a.flight = "" })
	return p.headed(r, list)
}

// headed names the stages, puts them in the order of life, and the fly before the first.
func (p printer) headed(r *figures.Row, rows []PaperRow) []PaperRow {
	slices.SortStableFunc(rows, func(a, b PaperRow) int {
		return cmp.Compare(slices.Index(species.AllStages, a.stage), slices.Index(species.AllStages, b.stage))
	})
	for i := range rows {
		flight := rows[i].flight
		if len(r.Fly.Account.Flights) < 2 {
			flight = ""
		}
		rows[i].Stage = p.CaseOf(rows[i].stage, rows[i].sex, flight)
	}
	if n := len(rows); n > 0 {
		rows[0].Fly, rows[0].LandBred = lang.Link{Text: r.Fly.Name.S}, !r.Fly.Group.WaterBred()
		rows[0].Lines = strconv.Itoa(n)
		rows[n-1].Last = true
	}
	return rows
}

// joinRows joins rows of one stage where they may share one.
func joinRows(list []PaperRow, may func(a, b PaperRow) bool, join func(a *PaperRow, b PaperRow)) []PaperRow {
	for i := 0; i < len(list); i++ {
		for j := i + 1; j < len(list); {
			if list[i].stage == list[j].stage && may(list[i], list[j]) {
				join(&list[i], list[j])
				list = slices.Delete(list, j, j+1)
				continue
			}
			j++
		}
	}
	return list
}

func sizesOf(r PaperRow) []string {
	var out []string
	for _, line := range r.suggestions {
		for _, h := range line {
			out = append(out, h.Model+" "+hookSize(h))
		}
	}
	return out
}

func sameLengths(a, b PaperRow) bool {
	return slices.EqualFunc(a.Lengths, b.Lengths, func(x, y CardLength) bool { return x.Sex == y.Sex && x.Length.Number() == y.Length.Number() })
}

// joinSexes puts two sexes on one row: their hours side by side, their lengths and hooks a line each
// where they differ.
func (p printer) joinSexes(a *PaperRow, b PaperRow) {
	one, two := p.words.Or("sex", string(a.sex)), p.words.Or("sex", string(b.sex))
	if !slices.Equal(a.Hours, b.Hours) {
		for i, h := range a.Hours {
			a.Hours[i] = p.words.Plain("hours_of", "sex", one, "hours", h)
		}
		for _, h := range b.Hours {
			a.Hours = append(a.Hours, p.words.Plain("hours_of", "sex", two, "hours", h))
		}
		a.suns = append(a.suns, b.suns...)
	}
	if !slices.Equal(sizesOf(*a), sizesOf(b)) {
		a.suggestions = append(a.suggestions, b.suggestions...)
	}
	if !sameLengths(*a, b) {
		for i := range a.Lengths {
			a.Lengths[i].Sex = one
		}
		for _, l := range b.Lengths {
			a.Lengths = append(a.Lengths, CardLength{two, l.Length})
		}
	}
	a.sex = species.NoSex
}

// paperHours are a stage's hours as its account states them, and the events of the sun that they hang on: these move
// through the year, and a table of them stands below.
func (p printer) paperHours(r *figures.Row, w species.Words) (hours []string, suns []calendar.Sun) {
	of := func(sex species.Sex) string {
		c, ok := r.Fly.Hours.First(species.Words{Stage: w.Stage, Sex: sex, Flight: w.Flight})
		if !ok {
			return ""
		}
		for _, m := range []calendar.Moment{c.Value.From, c.Value.To} {
			if m.Sun != calendar.NoSun {
				suns = append(suns, m.Sun)
			}
		}
		return p.words.ShortSpan(c.Value)
	}
	if w.Sex != species.NoSex {
		if h := of(w.Sex); h != "" {
			hours = []string{h}
		}
		return hours, suns
	}
	male, female := of(species.Male), of(species.Female)
	if male == female && male != "" {
		return []string{male}, suns
	}
	for sex, h := range map[species.Sex]string{species.Male: male, species.Female: female} {
		if h != "" {
			hours = append(hours, p.words.Plain("hours_of", "sex", p.words.Or("sex", string(sex)), "hours", h))
		}
	}
	slices.Sort(hours)
	return hours, suns
}

// sunsOf are the events of the sun that hours of a table hang on.
func sunsOf(rows []PaperRow) map[calendar.Sun]bool {
	suns := map[calendar.Sun]bool{}
	for _, r := range rows {
		for _, s := range r.suns {
			suns[s] = true
		}
	}
	return suns
}

// hookSize is a suggestion's size, or the sign that it lies outside what was measured.
func hookSize(h figures.HookFor) string {
	switch h.Beyond {
	case hook.SmallerThanTable:
		return "<"
	case hook.LargerThanTable:
		return ">"
	}
	return h.Size.String()
}

// mostModels is how many hook models have a column on paper.
const mostModels = 3

// models are the hook models that serve most of the rows, by name.
func models(rows []PaperRow) []string {
	n := map[string]int{}
	for _, r := range rows {
		for _, line := range r.suggestions {
			for _, h := range line {
				n[h.Model] += view.BoolInt(h.Beyond == hook.Within)
			}
		}
	}
	out := view.SortedKeys(n)
	slices.SortStableFunc(out, func(a, b string) int { return cmp.Compare(n[b], n[a]) })
	out = out[:min(len(out), mostModels)]
	slices.Sort(out)
	return out
}

// inModels fills in each row's hooks, a column for each model.
func inModels(rows []PaperRow, models []string) {
	for i := range rows {
		rows[i].Hooks = make([][]string, len(models))
		for k, m := range models {
			for _, line := range rows[i].suggestions {
				size := ""
				if j := slices.IndexFunc(line, func(h figures.HookFor) bool { return h.Model == m }); j >= 0 {
					size = hookSize(line[j])
				}
				rows[i].Hooks[k] = append(rows[i].Hooks[k], size)
			}
			if one := slices.Compact(slices.Clone(rows[i].Hooks[k])); len(one) == 1 {
				rows[i].Hooks[k] = one
			}
		}
	}
}

// OutlineView is a drawing of life size.
type OutlineView struct {
	Fly        string
	Case       string
	Length     content.Figure
	Tip        string // "to the wing tip", where it isn't the body's
	From       string
	Src, Alt   string
	Wide, High string // as CSS has them, "12.27mm"

	wide, high float64 // mm
}

// outline shows a fly at the length that its hook goes by, drawn simply: it has to come through any
// copier.
func (p printer) outline(at string, f *figures.Fly, s figures.Size) (OutlineView, bool) {
	if s.Hook.Length <= 0 {
		return OutlineView{}, false
	}
	long := p.Album.Drawn(f, s.Stage, s.Hook)
	d := p.Album.Fly(f, s.Stage, s.Sex).To(long)
	if !d.Known() || d.LengthMM == 0 {
		return OutlineView{}, false
	}
	who := p.CaseOf(s.Stage, s.Sex, "")
	if len(f.Account.Flights) > 1 {
		who = p.CaseOf(s.Stage, s.Sex, s.Flight) // no flight: all alike
	}
	css := func(mm float64) string { return strconv.FormatFloat(mm, 'f', 2, 64) + "mm" }
	tip := ""
	if f.Group.Habit(s.Stage) == species.Overall {
		tip = p.words.Plain("paper.wing_tip")
	}
	return OutlineView{Fly: f.Name.S, Case: who, Length: p.Length(long, 1, s.Hook.Basis), Tip: tip, From: p.Measured(s.Hook),
		Src: p.Deps.Site.Link(at, d.Small), Alt: p.words.Plain("paper.outline", "fly", f.Name.S, "stage", who),
		Wide: css(d.WidthMM), High: css(d.HeightMM), wide: d.WidthMM, high: d.HeightMM}, true
}

// toOutline picks what of a fly is drawn: for each flight the dun of an upwinged fly, the adult of
// any other; of two sexes the one measured nearer by, of two alike the larger.
func toOutline(f *figures.Fly, sizes []figures.Size) []figures.Size {
	first, _, ok := f.Group.Compared()
	if !ok || !first.OnTheWing() {
		first = species.Adult
	}
	var out []figures.Size
	for _, s := range sizes {
		if s.Stage != first || s.Hook.Length <= 0 || s.Flight == "" && len(f.Account.Flights) > 0 {
			continue
		}
		i := slices.IndexFunc(out, func(o figures.Size) bool { return o.Flight == s.Flight })
		switch {
		case i < 0:
			out = append(out, s)
		case figures.Nearer(s.Hook.From, out[i].Hook.From) ||
			s.Hook.From == out[i].Hook.From && content.Round9(s.Hook.Length) > content.Round9(out[i].Hook.Length):
			out[i] = s
		}
	}
	for i := 0; i < len(out); i++ { // flights of one length need but one drawing
		for j := i + 1; j < len(out); {
			if content.Round9(out[i].Hook.Length-out[j].Hook.Length) != 0 || out[i].Hook.From != out[j].Hook.From || out[i].Sex != out[j].Sex {
				j++
				continue
			}
			out, out[i].Flight = slices.Delete(out, j, j+1), ""
		}
	}
	return out
}

// paperFrame is the frame of a page made for paper: styles of its own, and the script of its button.
func (p printer) paperFrame(kind, at, title string) view.Frame {
	f := p.Frame(kind, at, title, "print.js")
	own := []string{"paper.css", kind + ".css"}
	if kind == "booklet" { // it has a key
		own = append([]string{view.ListStyle}, own...)
	}
	for _, css := range own {
		f.Styles = append(f.Styles, p.Deps.Site.Link(at, view.Assets+css))
	}
	f.Print = ""
	return f
}
