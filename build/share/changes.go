package share

// What changed since the site was last published: printed values of the old
// data files against the new ones, in the digits that pages print.

import (
	"cmp"
	"encoding/json"
	"encoding/xml"
	"io/fs"
	"maps"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers/daylight"
	"guidegen/species"
)

// Change is what differs on one page.
type Change struct {
	Page  string   // its address
	Title string   // the guide's or the water's name
	Lines []string // "Large dark olive, March, chance: 45% → 52%"
}

// site is the site as it was published before.
type site struct {
	words Words
	files fs.FS
	was   *whole // nil where there is nothing to compare with
	feed  []entry
}

// readSite never fails: an old site that can't be read, or was another
// edition's, is none.
func readSite(old fs.FS, edition string, words Words) *site {
	s := &site{words: words, files: old}
	if old == nil {
		return s
	}
	b, err := fs.ReadFile(old, GuideData)
	if err != nil {
		return s
	}
	if s.was = earlier[whole](b, edition); s.was == nil {
		return s
	}
	var f feed
	if b, err := fs.ReadFile(old, ChangesFeed); err == nil && xml.Unmarshal(b, &f) == nil {
		s.feed = f.Entries
	}
	return s
}

func earlier[T any](b []byte, edition string) *T {
	var h head
	if b == nil || json.Unmarshal(b, &h) != nil || h.Format != Format || h.Edition != edition {
		return nil
	}
	out := new(T)
	if json.Unmarshal(b, out) != nil {
		return nil
	}
	return out
}

// river compares a water's new file with the old one, both as they are read back: what was rounded as it was
// written differs from itself otherwise.
func (s *site) river(path string, data []byte) []Change {
	if s.was == nil {
		return nil
	}
	b, err := fs.ReadFile(s.files, path)
	if err != nil {
		return nil // a new water: the guide's own change says so
	}
	o, n := earlier[river](b, s.was.Edition), earlier[river](data, s.was.Edition)
	if o == nil || n == nil {
		return nil
	}
	if l := s.differences(s.printedRiver(o), s.printedRiver(n)); len(l) > 0 {
		return []Change{{"rivers/" + n.Address + ".html", n.Name, l}}
	}
	return nil
}

// guide compares the guide's new file with the old one.
func (s *site) guide(data []byte) []Change {
	if s.was == nil {
		return nil
	}
	n := earlier[whole](data, s.was.Edition)
	if n == nil {
		return nil
	}
	if l := s.differences(s.printedGuide(s.was), s.printedGuide(n)); len(l) > 0 {
		return []Change{{"index.html", n.Guide, l}}
	}
	return nil
}

// printed is one value as pages print it; key finds it again, label names it.
type printed struct{ key, label, value string }

func (s *site) differences(old, new []printed) []string {
	was, is := map[string]printed{}, map[string]bool{}
	for _, p := range old {
		was[p.key] = p
	}
	var out []string
	for _, p := range new {
		is[p.key] = true
		o, ok := was[p.key]
		switch {
		case !ok:
			out = append(out, s.words.Plain("feed.new", "what", p.label, "now", p.value))
		case o.value != p.value:
			out = append(out, s.words.Plain("feed.other", "what", p.label, "before", o.value, "now", p.value))
		}
	}
	for _, p := range old {
		if !is[p.key] {
			out = append(out, s.words.Plain("feed.gone", "what", p.label, "before", p.value))
		}
	}
	return out
}

type printer struct {
	words Words
	l     []printed
}

func (p *printer) add(value, label string, key ...string) {
	p.l = append(p.l, printed{strings.Join(key, "\x00"), label, value})
}

// of joins what a value is of, from large to small.
func (p *printer) of(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), p.words.Plain("list.comma"))
}

func (p *printer) class(c *string) string {
	if c == nil {
		return p.words.Plain("feed.no_class")
	}
	return p.words.Or("class", *c)
}

// days are the first and the last day of a stretch, and that of most flies.
func (p *printer) days(from, to, peak *day) string {
	s := p.words.Plain("date.range", "from", p.day(from), "to", p.day(to))
	if peak != nil {
		s += p.words.Plain("flight.peak", "peak", p.day(peak))
	}
	return s
}

func (s *site) printedGuide(g *whole) []printed {
	p := &printer{words: s.words}
	w := s.words
	for _, x := range g.Waters {
		p.add(p.of(x.Name, w.Or("kind", x.Kind)), w.Plain("feed.water", "water", x.Name), "water", x.Address)
	}
	for _, f := range g.Flies {
		p.add(or(f.Scientific, w.Plain("feed.no_scientific")), w.Plain("feed.fly", "fly", f.Name), "fly", f.Address)
		for _, x := range f.Flights {
			p.add(p.of(p.days(x.From, x.To, x.Peak), p.class(x.Class)),
				p.of(w.Plain("feed.fly", "fly", f.Name), w.Plain("flight.named", "flight", x.Name)), "flight", f.Address, x.Name)
		}
		for _, x := range f.Sizes {
			p.size(f.Address, w.Plain("feed.fly", "fly", f.Name), x)
		}
	}
	for _, d := range g.Dressings {
		p.add(w.Plain("feed.sizes", "sizes", strings.Join(d.Sizes, w.Plain("list.comma"))), w.Plain("feed.dressing", "dressing", d.Name), "dressing", d.Address)
	}
	for _, c := range g.Constants {
		name := c.Group + "_" + c.Key
		what := w.Or("constant", name)
		if what == name { // one that this program no longer has
			what = c.What
		}
		v := content.Round9(float64(c.Value))
		_, frac, _ := strings.Cut(strconv.FormatFloat(v, 'f', -1, 64), ".")
		p.add(w.Amount(content.NewFigure(v, c.Unit, len(frac), reckoned)), w.Plain("feed.constant", "what", what), "constant", c.Group, c.Key)
	}
	for _, h := range g.Hooks {
		p.add(p.mm(h.Shank, 2), w.Plain("feed.shank", "hook", strings.TrimSpace(h.Model+" "+h.Size)), "hook", h.Model, h.Size)
	}
	return p.l
}

func (s *site) printedRiver(r *river) []printed {
	p := &printer{words: s.words}
	for _, x := range r.Seasons {
		p.add(p.days(&x.Open, &x.Close, nil), s.words.Plain("feed.season", "fish", x.Fish), "season", x.Fish)
	}
	p.add(s.words.Plain("river.visits", "n", strconv.Itoa(r.Coverage.Visits), "years", p.counted("years", len(r.Coverage.Years))), s.words.Plain("feed.visits"), "visits")
	for _, a := range slices.Sorted(maps.Keys(r.Flies)) {
		p.fly(a, r.Flies[a])
	}
	return p.l
}

func (p *printer) counted(what string, n int) string {
	return p.words.Plain("count."+what, "n", strconv.Itoa(n))
}

func (p *printer) fly(a string, f fly) {
	w := p.words
	here := p.class(f.Class)
	if !f.Listed {
		here = w.Plain("tag.unlisted")
	}
	p.add(here, f.Name, a)
	for _, m := range f.Months {
		name, key := w.Or("month", "m"+strconv.Itoa(m.Month)), strconv.Itoa(m.Month)
		chance := w.Or("month_state", "not-expected")
		if m.State != "not expected" {
			chance = w.Plain("feed.chance", "chance", percent(w, m.Chance), "low", percent(w, m.Low), "high", percent(w, m.High))
		}
		p.add(chance, p.of(f.Name, name, w.Plain("feed.chance_of")), a, "chance", key)
		found := w.Plain("state.unlooked")
		if m.Looked > 0 {
			found = w.Plain("found_on.years", "found", strconv.Itoa(m.Found), "visits", p.counted("visits", m.Looked), "years", p.counted("years", len(m.Years)))
		}
		p.add(found, p.of(f.Name, name), a, "found", key)
	}
	states := map[string]string{}
	for _, c := range f.Cells {
		states[c.Cell] = c.State
	}
	for c := range calendar.Cell(calendar.Cells) { // in those left out nobody looked
		state := cmp.Or(states[c.String()], string(figures.CellUnlooked))
		p.add(w.Or("state", state), p.of(f.Name, w.Cell(c)), a, "cell", c.String())
	}
	for _, x := range f.Flights {
		label := p.of(f.Name, w.Plain("flight.named", "flight", x.Name))
		p.add(p.days(&x.From, &x.To, &x.Peak), label, a, "flight", x.Name)
		p.add(w.Plain("feed.tenths", "p10", p.day(x.Records.P10), "p50", p.day(x.Records.P50), "p90", p.day(x.Records.P90),
			"visits", p.counted("visits", x.Records.Visits), "seasons", p.counted("seasons", len(x.Records.Seasons))),
			p.of(label, w.Plain("feed.from_records")), a, "dates", x.Name)
		for _, s := range x.Sizes {
			p.size(a, f.Name, s)
		}
	}
	for _, s := range f.Unassigned {
		p.size(a, f.Name, s)
	}
	for _, h := range f.Hours {
		for _, m := range h.Months {
			p.add(p.hours(h), p.of(f.Name, p.which(h.Stage, h.Sex, &h.Flight), w.Or("month", "m"+strconv.Itoa(m)), w.Plain("compare.hours")),
				a, "hours", h.Stage, or(h.Sex, ""), h.Flight, strconv.Itoa(m))
		}
	}
	for _, d := range f.Dressings {
		var l []string
		for _, o := range d.Offered {
			l = append(l, w.Plain("feed.scored", "dressing", o.Name, "n", content.Decimal(float64(o.Score), 0)))
		}
		if len(l) == 0 {
			l = []string{w.Plain("card.nothing_in_the_box")}
		}
		p.add(p.of(l...), p.of(f.Name, p.which(d.Stage, d.Sex, d.Flight), w.Plain("feed.dressings")), a, "dressings", d.Stage, or(d.Sex, ""), or(d.Flight, ""))
	}
	var l []string
	for _, x := range f.Alike {
		l = append(l, x.Name)
	}
	if len(l) > 0 {
		p.add(p.of(l...), p.of(f.Name, w.Plain("feed.alike")), a, "alike")
	}
}

// which is a stage with its sex and flight in words.
func (p *printer) which(stage string, sex, flight *string) string {
	return p.words.Case(species.Stage(stage), species.Sex(or(sex, "")), or(flight, ""))
}

func (p *printer) size(a, name string, s size) {
	w := p.words
	which := p.which(s.Stage, s.Sex, s.Flight)
	key := []string{a, s.Stage, or(s.Sex, ""), or(s.Flight, "")}
	if s.N > 0 {
		p.add(w.Plain("feed.length", "median", p.mm(s.Median, *s.Digits), "low", p.mm(s.Low, *s.Digits), "high", p.mm(s.High, *s.Digits),
			"n", w.Plain("sizes.n", "n", strconv.Itoa(s.N))), p.of(name, which, w.Plain("compare.size")), append([]string{"length"}, key...)...)
	}
	if s.Hook == nil {
		return
	}
	for _, h := range s.Hook.Models {
		size := or(h.Size, "")
		if h.Size == nil {
			size = w.Plain("outside." + map[bool]string{true: "smaller", false: "larger"}[strings.HasPrefix(h.Beyond, "smaller")])
		}
		p.add(size, p.of(name, which, w.Plain("feed.hook", "model", h.Model)), append([]string{"hook", h.Model}, key...)...)
	}
}

// hours is a stretch of hours as pages print it, where the file has it to the minute.
func (p *printer) hours(h hours) string {
	from, to := or(h.From, "–"), or(h.To, "–")
	span, err := calendar.ParseSpan(h.Written)
	a, errA := calendar.ParseClock(from)
	b, errB := calendar.ParseClock(to)
	if err == nil && errA == nil && errB == nil {
		a, b = daylight.About(span, a, b)
		from, to = a.String(), b.String()
	}
	return p.words.Plain("hours_span", "from", from, "to", to)
}

func or[T ~string](s *T, none string) string {
	if s == nil {
		return none
	}
	return string(*s)
}

// reckoned is what values of a file rest on: what each is based on is in the file.
var reckoned = content.On(content.Part{Ground: content.Assumed})

func percent(w Words, n number) string {
	return w.Amount(content.NewFigure(content.Round9(float64(n)*100), "%", 0, reckoned))
}

func (p *printer) mm(n *number, digits int) string {
	if n == nil {
		return p.words.Plain("not_known")
	}
	return p.words.Amount(content.NewFigure(float64(*n), "mm", digits, reckoned))
}

func (p *printer) day(d *day) string {
	if d == nil || !calendar.Day(d.Day).Valid() {
		return p.words.Plain("not_known")
	}
	return p.words.Day(calendar.Day(d.Day))
}
