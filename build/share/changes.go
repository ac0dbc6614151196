package share

// What changed since the site was last published, as a reader would say it: the old data files against the new ones.
// A date that passes, another wording and a digit that moves are no change.

import (
	"cmp"
	"encoding/json"
	"encoding/xml"
	"io/fs"
	"maps"
	"math"
	"path"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
)

// What a reader calls a change; our judgement, but for the chance (section 17 of the rules on figures).
const (
	chanceMoved = 0.1  // of a month
	lengthMoved = 0.05 // share of the middle length: half of what separates two hooks
	daysMoved   = 3    // by which a flight moves on a water
)

// Change is what is new on one page.
type Change struct {
	Page  string   // its address
	Title string   // the guide's or the water's name
	Lines []string // "14 new visits, 6 finds new to their half-month", "Large dark olive, chance: March 45% → 62%"
}

// site is the site as it was published before, and what of it must not be told any longer.
type site struct {
	words   Words
	files   fs.FS
	was     *whole // nil where there is nothing to compare with
	feed    []entry
	hidden  func(string) bool
	unshown []unshown
	moved   map[string]string // older address of an account, a water or a dressing → its address
	edited  map[string]bool   // flies whose account gives other flights than before
}

// unshown is a fly that isn't shown on a water, though both are elsewhere; names are folded.
type unshown struct{ page, water, fly string }

// readSite never fails: an old site that can't be read, or was another
// edition's, is none.
func readSite(book *figures.Book, old fs.FS, words Words) *site {
	s := &site{words: words, files: old, hidden: withheld(book), moved: map[string]string{}, edited: map[string]bool{}}
	if old == nil {
		return s
	}
	b, err := fs.ReadFile(old, GuideData)
	if err != nil {
		return s
	}
	if s.was = earlier[whole](b, book.Edition.Name()); s.was == nil {
		return s
	}
	var f feed
	if b, err := fs.ReadFile(old, ChangesFeed); err == nil && xml.Unmarshal(b, &f) == nil {
		s.feed = f.Entries
	}
	move := func(to string, was []content.Text) {
		for _, t := range was {
			s.moved[strings.TrimSuffix(path.Base(t.S), path.Ext(t.S))] = to
		}
	}
	name := map[string]string{}
	for _, a := range book.Edition.Accounts {
		move(a.Address, a.Was)
		name[a.Address] = a.Name.S
	}
	for _, w := range book.Edition.Waters {
		move(w.Address, w.Was)
		for _, l := range book.Edition.Unshown[w] {
			s.unshown = append(s.unshown, unshown{waterPage(w.Address), content.Fold(w.Name.S), content.Fold(cmp.Or(name[l.Account], l.Account))})
		}
	}
	for _, d := range book.Edition.Dressings {
		move(d.Address, d.Was)
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

func waterPage(address string) string { return "rivers/" + address + ".html" }

// here is the address that an old one has now.
func (s *site) here(old string) string { return cmp.Or(s.moved[old], old) }

// hides reports whether a text names what this edition doesn't show on a page of the site.
func (s *site) hides(page, text string) bool {
	if s.hidden(text) {
		return true
	}
	text = content.Fold(text)
	return slices.ContainsFunc(s.unshown, func(u unshown) bool {
		return strings.Contains(text, u.fly) && (page == u.page || strings.Contains(text, u.water))
	})
}

// changes are those of the guide, then of its waters in page order. What is the same on several waters is said once.
// now are the new data files, as they are read back: what was rounded as it was written differs from itself otherwise.
func (s *site) changes(data []byte, waters []File) []Change {
	if s.was == nil {
		return nil
	}
	g := earlier[whole](data, s.was.Edition)
	if g == nil {
		return nil
	}
	out := []Change{{"index.html", g.Guide, s.guide(s.was, g)}}
	on := map[string][]string{} // a line → its waters
	for _, f := range waters {
		n := earlier[river](f.Bytes, s.was.Edition)
		if n == nil {
			continue
		}
		var o *river
		for _, w := range s.was.Waters {
			if s.here(w.Address) != n.Address {
				continue
			}
			if b, err := fs.ReadFile(s.files, riverData(w.Address)); err == nil {
				o = earlier[river](b, s.was.Edition)
			}
		}
		if o == nil {
			continue // a new water: the guide's own change says so
		}
		c := Change{waterPage(n.Address), n.Name, s.river(o, n, s.was, g)}
		for _, l := range c.Lines {
			on[l] = append(on[l], c.Title)
		}
		out = append(out, c)
	}
	own := out[0].Lines
	for i := range out[1:] {
		c := &out[i+1]
		c.Lines = slices.DeleteFunc(c.Lines, func(l string) bool {
			if len(on[l]) < 2 || !strings.Contains(l, s.words.Plain("list.colon")) {
				return false
			}
			if on[l][0] == c.Title {
				own = append(own, s.words.Plain("feed.on_waters", "what", l, "waters", s.words.List(on[l])))
			}
			return true
		})
	}
	out[0].Lines = own
	return slices.DeleteFunc(out, func(c Change) bool { return len(c.Lines) == 0 })
}

// teller gathers the lines of one page.
type teller struct {
	words Words
	hides func(string) bool
	lines []string
}

func (s *site) teller(page string) *teller {
	return &teller{words: s.words, hides: func(text string) bool { return s.hides(page, text) }}
}

func (t *teller) say(key string, pairs ...any) {
	if l := t.words.Plain("feed."+key, pairs...); !t.hides(l) {
		t.lines = append(t.lines, l)
	}
}

// names says a list of names, but for those that are withheld.
func (t *teller) names(key string, names []string, pairs ...any) {
	if names = slices.DeleteFunc(names, t.hides); len(names) > 0 {
		t.say(key, append(pairs, "names", t.words.List(names))...)
	}
}

// differ says a value that is new, gone or another; "" is none.
func (t *teller) differ(what, before, now string) {
	switch {
	case before == now:
	case before == "":
		t.say("new", "what", what, "now", now)
	case now == "":
		t.say("gone", "what", what, "before", before)
	default:
		t.say("other", "what", what, "before", before, "now", now)
	}
}

// thing is what the guide names: an account, a water, a dressing.
type thing struct{ address, name string }

// things says which are new, gone, or bear another name.
func (s *site) things(t *teller, what string, old, now []thing) {
	was, is := map[string]string{}, map[string]bool{}
	for _, x := range old {
		was[s.here(x.address)] = x.name
	}
	var fresh, gone []string
	for _, x := range now {
		is[x.address] = true
		before, ok := was[x.address]
		switch {
		case !ok:
			fresh = append(fresh, x.name)
		case before != x.name:
			t.say("renamed", "before", before, "now", x.name)
		}
	}
	for _, x := range old {
		if !is[s.here(x.address)] {
			gone = append(gone, x.name)
		}
	}
	t.names("new_"+what, fresh)
	t.names("gone_"+what, gone)
}

func (s *site) guide(o, n *whole) []string {
	t := s.teller("index.html")
	w := s.words
	water := func(x waterName) thing { return thing{x.Address, x.Name} }
	fly := func(x account) thing { return thing{x.Address, x.Name} }
	tied := func(x dressing) thing { return thing{x.Address, x.Name} }
	s.things(t, "waters", each(o.Waters, water), each(n.Waters, water))
	s.things(t, "flies", each(o.Flies, fly), each(n.Flies, fly))
	s.things(t, "dressings", each(o.Dressings, tied), each(n.Dressings, tied))
	accounts, dressings := map[string]account{}, map[string]dressing{}
	for _, f := range o.Flies {
		accounts[s.here(f.Address)] = f
	}
	for _, d := range o.Dressings {
		dressings[s.here(d.Address)] = d
	}
	for _, f := range n.Flies {
		if was, ok := accounts[f.Address]; ok {
			s.account(t, was, f)
		}
	}
	for _, d := range n.Dressings {
		was, ok := dressings[d.Address]
		if !ok {
			continue
		}
		t.differ(t.of(d.Name, w.Plain("feed.sizes")), t.of(slices.Clone(was.Sizes)...), t.of(slices.Clone(d.Sizes)...))
		if !reflect.DeepEqual(was.Parts, d.Parts) {
			t.say("recipe", "what", d.Name)
		}
	}
	was := map[string]number{}
	for _, c := range o.Constants {
		was[c.Group+"_"+c.Key] = c.Value
	}
	for _, c := range n.Constants {
		name := c.Group + "_" + c.Key
		if v, ok := was[name]; ok {
			t.differ(w.Plain("feed.constant", "what", w.Or("constant", name)), t.constant(v, c.Unit), t.constant(c.Value, c.Unit))
		}
	}
	return t.lines
}

// account says what an account gives anew, and notes whose flights are other.
func (s *site) account(t *teller, o, n account) {
	t.differ(t.of(n.Name, t.words.Plain("feed.scientific")), or(o.Scientific, ""), or(n.Scientific, ""))
	lengths := sizesBy(o.Sizes)
	for _, x := range n.Sizes {
		t.differ(t.of(n.Name, t.which(x.Stage, x.Sex, x.Flight), t.words.Plain("compare.size")), t.accountLength(lengths[sizeKey(x)]), t.accountLength(x))
	}
	said := func(a account) map[string]string {
		m := map[string]string{}
		for _, x := range a.Flights {
			m[x.Name] = t.of(t.days(x.From, x.To, x.Peak), t.class(x.Class))
		}
		return m
	}
	was, is := said(o), said(n)
	for _, name := range slices.Sorted(maps.Keys(joined(was, is))) {
		s.edited[n.Address] = s.edited[n.Address] || was[name] != is[name]
		t.differ(t.of(n.Name, t.words.Plain("flight.named", "flight", name)), was[name], is[name])
	}
}

func joined[T any](a, b map[string]T) map[string]T {
	m := maps.Clone(a)
	maps.Copy(m, b)
	return m
}

func (s *site) river(o, n *river, og, ng *whole) []string {
	t := s.teller(waterPage(n.Address))
	was := map[string]fly{}
	for a, f := range o.Flies {
		was[s.here(a)] = f
	}
	byName := slices.SortedFunc(maps.Keys(joined(was, n.Flies)), func(a, b string) int {
		return cmp.Or(cmp.Compare(cmp.Or(n.Flies[a].Name, was[a].Name), cmp.Or(n.Flies[b].Name, was[b].Name)), cmp.Compare(a, b))
	})
	var fresh, gone, first, both []string
	finds := 0
	for _, a := range byName {
		x, before := was[a]
		y, now := n.Flies[a]
		finds += newFinds(x, y)
		switch {
		case !before:
			fresh = append(fresh, y.Name)
		case !now:
			gone = append(gone, x.Name)
		default:
			both = append(both, a)
			if x.Found == 0 && y.Found > 0 {
				first = append(first, y.Name)
			}
		}
	}
	t.visits(n.Coverage.Visits-o.Coverage.Visits, finds)
	t.names("new_here", fresh)
	t.names("gone_here", gone)
	t.names("first_find", first)
	seasons := map[string]string{}
	for _, x := range o.Seasons {
		seasons[x.Fish] = t.days(&x.Open, &x.Close, nil)
	}
	for _, x := range n.Seasons {
		t.differ(s.words.Plain("feed.season", "fish", x.Fish), seasons[x.Fish], t.days(&x.Open, &x.Close, nil))
		delete(seasons, x.Fish)
	}
	for _, fish := range slices.Sorted(maps.Keys(seasons)) {
		t.differ(s.words.Plain("feed.season", "fish", fish), seasons[fish], "")
	}
	t.months(both, was, n.Flies)
	for _, a := range both {
		s.fly(t, a, was[a], n.Flies[a], og, ng)
	}
	return t.lines
}

// newFinds counts the half-months in which a fly was found that it had not been found in before.
func newFinds(o, n fly) (k int) {
	found := func(f fly, name string) bool {
		return slices.ContainsFunc(f.Cells, func(c cell) bool { return c.Cell == name && c.State == string(figures.CellFound) })
	}
	for _, c := range n.Cells {
		if found(n, c.Cell) && !found(o, c.Cell) {
			k++
		}
	}
	return k
}

func (t *teller) visits(more, finds int) {
	count := func(key string, n int) string { return t.words.Plain("feed."+key, "n", strconv.Itoa(n)) }
	switch {
	case more > 0 && finds > 0:
		t.say("visits_finds", "visits", count("more_visits", more), "finds", count("new_finds", finds))
	case more > 0:
		t.say("more_visits", "n", strconv.Itoa(more))
	case finds > 0:
		t.say("new_finds", "n", strconv.Itoa(finds))
	}
	if more < 0 {
		t.say("fewer_visits", "n", strconv.Itoa(-more))
	}
}

// months says month by month which flies are now found, looked for in vain, or no longer looked for.
func (t *teller) months(flies []string, was, is map[string]fly) {
	for m := range 12 {
		now := map[figures.CellState][]string{}
		for _, a := range flies {
			x, y := was[a], is[a]
			if len(x.Months) == 12 && len(y.Months) == 12 && stateOf(x.Months[m]) != stateOf(y.Months[m]) {
				now[stateOf(y.Months[m])] = append(now[stateOf(y.Months[m])], y.Name)
			}
		}
		for _, s := range []figures.CellState{figures.CellFound, figures.CellLooked, figures.CellUnlooked} {
			t.names("now_"+string(s), now[s], "month", t.words.Or("month", "m"+strconv.Itoa(m+1)))
		}
	}
}

func stateOf(m month) figures.CellState {
	switch {
	case m.Found > 0:
		return figures.CellFound
	case m.Looked > 0:
		return figures.CellLooked
	}
	return figures.CellUnlooked
}

// fly says what is other about one fly on a water.
func (s *site) fly(t *teller, a string, x, y fly, og, ng *whole) {
	w := s.words
	here := func(f fly) string {
		if !f.Listed {
			return w.Plain("tag.unlisted")
		}
		return t.class(f.Class)
	}
	if !s.edited[a] {
		t.differ(y.Name, here(x), here(y))
	}
	var moved []string
	for i := range min(len(x.Months), len(y.Months)) {
		o, n := x.Months[i], y.Months[i]
		if content.Round9(math.Abs(float64(n.Chance-o.Chance))) >= chanceMoved {
			moved = append(moved, w.Plain("feed.month", "month", w.Or("month", "m"+strconv.Itoa(i+1)), "before", percent(w, o.Chance), "now", percent(w, n.Chance)))
		}
	}
	if len(moved) > 0 {
		t.say("chance", "fly", y.Name, "months", t.of(moved...))
	}
	for _, f := range y.Flights {
		i := slices.IndexFunc(x.Flights, func(o flight) bool { return o.Name == f.Name })
		if i < 0 || s.edited[a] {
			continue
		}
		if o := x.Flights[i]; far(o.From, f.From) || far(o.Peak, f.Peak) || far(o.To, f.To) {
			t.differ(t.of(y.Name, w.Plain("flight.named", "flight", f.Name)), t.days(&o.From, &o.To, &o.Peak), t.days(&f.From, &f.To, &f.Peak))
		}
	}
	s.sizes(t, a, x, y, og, ng)
	t.hours(x, y)
	t.offers(x, y)
}

func far(a, b day) bool {
	gap := calendar.Gap(calendar.Day(a.Day), calendar.Day(b.Day))
	return max(gap, -gap) >= daysMoved
}

func sizeKey(s size) [3]string { return [3]string{s.Stage, or(s.Sex, ""), or(s.Flight, "")} }

func sizesBy(l []size) map[[3]string]size {
	m := map[[3]string]size{}
	for _, s := range l {
		m[sizeKey(s)] = s
	}
	return m
}

// sizesHere are those that hold on a water: its own, else the fly's over all waters.
func sizesHere(g *whole, address string, f fly) (own, all map[[3]string]size, keys [][3]string) {
	own, all = map[[3]string]size{}, map[[3]string]size{}
	for _, a := range g.Flies {
		if a.Address == address {
			all = sizesBy(a.Sizes)
		}
	}
	for _, x := range f.Flights {
		maps.Copy(own, sizesBy(x.Sizes))
	}
	maps.Copy(all, own)
	keys = slices.SortedFunc(maps.Keys(all), func(a, b [3]string) int { return slices.Compare(a[:], b[:]) })
	return own, all, keys
}

func (s *site) sizes(t *teller, a string, x, y fly, og, ng *whole) {
	old := a
	for was, is := range s.moved {
		if is == a && slices.ContainsFunc(og.Flies, func(f account) bool { return f.Address == was }) {
			old = was
		}
	}
	ownWas, allWas, _ := sizesHere(og, old, x)
	own, all, keys := sizesHere(ng, a, y)
	for _, k := range keys {
		what := t.of(y.Name, t.words.Case(species.Stage(k[0]), species.Sex(k[1]), k[2]))
		if o, n := ownWas[k], own[k]; o.Median == nil || n.Median == nil || math.Abs(float64(*n.Median-*o.Median)) >= lengthMoved*float64(*o.Median) {
			t.differ(t.of(what, t.words.Plain("compare.size")), t.median(o), t.median(n))
		}
		o, ok := allWas[k]
		if !ok || o.Hook == nil || all[k].Hook == nil {
			continue
		}
		var hooks []string
		for _, h := range all[k].Hook.Models {
			i := slices.IndexFunc(o.Hook.Models, func(x hookFor) bool { return x.Model == h.Model })
			if i >= 0 && t.hook(o.Hook.Models[i]) != t.hook(h) {
				hooks = append(hooks, t.words.Plain("feed.hook", "model", h.Model, "before", t.hook(o.Hook.Models[i]), "now", t.hook(h)))
			}
		}
		if len(hooks) > 0 {
			t.say("hooks", "what", what, "hooks", t.of(hooks...))
		}
	}
}

// hours says that an account gives other hours; that the sun or the clocks moved them is no change.
func (t *teller) hours(x, y fly) {
	said := func(f fly) map[string]string {
		m := map[string]string{}
		for _, h := range f.Hours {
			m[t.which(h.Stage, h.Sex, &h.Flight)] = h.Written
		}
		return m
	}
	was, is := said(x), said(y)
	for _, which := range slices.Sorted(maps.Keys(is)) {
		if was[which] != "" && was[which] != is[which] {
			t.say("hours", "what", t.of(y.Name, which))
		}
	}
}

// offers says which dressings are offered that were not, and the other way round: a score is no change.
func (t *teller) offers(x, y fly) {
	for _, d := range y.Dressings {
		i := slices.IndexFunc(x.Dressings, func(o advice) bool {
			return o.Stage == d.Stage && or(o.Sex, "") == or(d.Sex, "") && or(o.Flight, "") == or(d.Flight, "")
		})
		if i < 0 {
			continue
		}
		what := t.of(y.Name, t.which(d.Stage, d.Sex, d.Flight))
		t.names("offered", beyond(d.Offered, x.Dressings[i].Offered), "what", what)
		t.names("withdrawn", beyond(x.Dressings[i].Offered, d.Offered), "what", what)
	}
}

// beyond are the names of offers in a that b lacks.
func beyond(a, b []offer) (out []string) {
	for _, o := range a {
		if !slices.ContainsFunc(b, func(x offer) bool { return x.Dressing == o.Dressing || x.Name == o.Name }) {
			out = append(out, o.Name)
		}
	}
	return out
}

// of joins what a value is of, from large to small.
func (t *teller) of(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), t.words.Plain("list.comma"))
}

func (t *teller) class(c *string) string {
	if c == nil {
		return t.words.Plain("feed.no_class")
	}
	return t.words.Or("class", *c)
}

// days are the first and the last day of a stretch, and that of most flies.
func (t *teller) days(from, to, peak *day) string {
	s := t.words.Plain("date.range", "from", t.day(from), "to", t.day(to))
	if peak != nil {
		s += t.words.Plain("flight.peak", "peak", t.day(peak))
	}
	return s
}

// which is a stage with its sex and flight in words.
func (t *teller) which(stage string, sex, flight *string) string {
	return t.words.Case(species.Stage(stage), species.Sex(or(sex, "")), or(flight, ""))
}

func (t *teller) median(s size) string {
	if s.N == 0 || s.Median == nil {
		return ""
	}
	return t.words.Plain("feed.length", "median", t.mm(*s.Median, *s.Digits), "n", t.words.Plain("sizes.n", "n", strconv.Itoa(s.N)))
}

func (t *teller) accountLength(s size) string {
	if len(s.Account) == 0 {
		return ""
	}
	a := s.Account[0]
	if a.Low == a.High {
		return t.mm(a.Low, 1)
	}
	return t.words.Plain("range", "low", t.words.Amount(content.NewFigure(float64(a.Low), "", 1, reckoned)), "high", t.mm(a.High, 1))
}

func (t *teller) hook(h hookFor) string {
	if h.Size != nil {
		return *h.Size
	}
	return t.words.Plain("outside." + map[bool]string{true: "smaller", false: "larger"}[strings.HasPrefix(h.Beyond, "smaller")])
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

func (t *teller) constant(n number, unit string) string {
	v := content.Round9(float64(n))
	_, frac, _ := strings.Cut(strconv.FormatFloat(v, 'f', -1, 64), ".")
	return t.words.Amount(content.NewFigure(v, unit, len(frac), reckoned))
}

func (t *teller) mm(n number, digits int) string {
	return t.words.Amount(content.NewFigure(float64(n), "mm", digits, reckoned))
}

func (t *teller) day(d *day) string {
	if d == nil || !calendar.Day(d.Day).Valid() {
		return t.words.Plain("not_known")
	}
	return t.words.Day(calendar.Day(d.Day))
}
