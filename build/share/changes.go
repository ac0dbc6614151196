package share

// What changed since the site was last published: printed values of the old
// data files against the new ones, in the digits that pages print.

import (
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"time"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers/daylight"
)

// Change is what differs on one page.
type Change struct {
	Page  string   // its address
	Title string   // the guide's or the water's name
	Lines []string // "Large dark olive, March, chance: 45 % → 52 %"
}

// Changes compares one data file with an older one of the same address: a
// river's or guide.json. It is empty where no printed value differs, where old
// is nil, or where the two are of different editions or formats.
func Changes(old, new []byte) ([]Change, error) {
	var h struct {
		Flies json.RawMessage
	}
	if err := json.Unmarshal(new, &h); err != nil {
		return nil, err
	}
	if strings.HasPrefix(string(h.Flies), "[") {
		var n whole
		if err := json.Unmarshal(new, &n); err != nil {
			return nil, err
		}
		return (&site{was: earlier[whole](old, n.Edition)}).guide(&n), nil
	}
	var n river
	if err := json.Unmarshal(new, &n); err != nil {
		return nil, err
	}
	return riverChanges(earlier[river](old, n.Edition), &n), nil
}

// site is the site as it was published before.
type site struct {
	files fs.FS
	was   *whole // nil where there is nothing to compare with
	feed  []entry
}

// readSite never fails: an old site that can't be read, or was another
// edition's, is none.
func readSite(old fs.FS, edition string) *site {
	s := &site{files: old}
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

func (s *site) river(n *river) []Change {
	if s.was == nil {
		return nil
	}
	b, err := fs.ReadFile(s.files, riverData(n.Address))
	if err != nil {
		return nil // a new water: the guide's own change says so
	}
	return riverChanges(earlier[river](b, n.Edition), n)
}

func riverChanges(o, n *river) []Change {
	if o == nil {
		return nil
	}
	if l := differences(printedRiver(o), printedRiver(n)); len(l) > 0 {
		return []Change{{"rivers/" + n.Address + ".html", n.Name, l}}
	}
	return nil
}

func (s *site) guide(n *whole) []Change {
	if s.was == nil {
		return nil
	}
	if l := differences(printedGuide(s.was), printedGuide(n)); len(l) > 0 {
		return []Change{{"index.html", n.Guide, l}}
	}
	return nil
}

// printed is one value as pages print it; key finds it again, label names it.
type printed struct{ key, label, value string }

func differences(old, new []printed) []string {
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
			out = append(out, p.label+": new, "+p.value)
		case o.value != p.value:
			out = append(out, p.label+": "+o.value+" → "+p.value)
		}
	}
	for _, p := range old {
		if !is[p.key] {
			out = append(out, p.label+": was "+p.value+", now gone")
		}
	}
	return out
}

type printer struct{ l []printed }

func (p *printer) add(value, label string, key ...string) {
	p.l = append(p.l, printed{strings.Join(key, "\x00"), label, value})
}

func printedGuide(g *whole) []printed {
	p := &printer{}
	for _, w := range g.Waters {
		p.add(w.Name+", "+w.Kind, "water "+w.Name, "water", w.Address)
	}
	for _, f := range g.Flies {
		p.add(or(f.Scientific, "no scientific name"), "fly "+f.Name, "fly", f.Address)
		for _, x := range f.Flights {
			p.add(fmt.Sprintf("%s to %s, most %s, %s", dayWords(x.From), dayWords(x.To), dayWords(x.Peak), or(x.Class, "no class")),
				"fly "+f.Name+", flight "+x.Name, "flight", f.Address, x.Name)
		}
	}
	for _, d := range g.Dressings {
		p.add("sizes "+strings.Join(d.Sizes, ", "), "dressing "+d.Name, "dressing", d.Address)
	}
	for _, c := range g.Constants {
		p.add(content.Decimal(float64(c.Value), 4)+" "+c.Unit, "constant "+c.What, "constant", c.Group, c.Key)
	}
	for _, h := range g.Hooks {
		p.add(mm(h.Shank, 2), "hook "+h.Model+" "+h.Size+", shank", "hook", h.Model, h.Size)
	}
	return p.l
}

func printedRiver(r *river) []printed {
	p := &printer{}
	for _, s := range r.Seasons {
		p.add(fmt.Sprintf("%s to %s", dayWords(&s.Open), dayWords(&s.Close)), "season for "+s.Fish, "season", s.Fish)
	}
	p.add(fmt.Sprintf("%d in %s", r.Coverage.Visits, content.Several(len(r.Coverage.Years), "year")), "visits", "visits")
	for _, a := range slices.Sorted(maps.Keys(r.Flies)) {
		p.fly(a, r.Flies[a])
	}
	return p.l
}

func (p *printer) fly(a string, f fly) {
	here := or(f.Class, "no class")
	if !f.Listed {
		here = "found but not in the water's list"
	}
	p.add(here, f.Name, a)
	for _, m := range f.Months {
		name := time.Month(m.Month).String()
		chance := "not expected, nobody looked"
		if m.State != "not expected" {
			chance = fmt.Sprintf("%s (%s to %s)", percent(m.Chance), percent(m.Low), percent(m.High))
		}
		p.add(chance, f.Name+", "+name+", chance", a, "chance", name)
		p.add(fmt.Sprintf("%d of %s in %s", m.Found, content.Several(m.Looked, "visit"), content.Several(len(m.Years), "year")), f.Name+", "+name+", found on", a, "found", name)
	}
	for _, c := range f.Cells {
		state := map[string]string{"found": "found", "looked": "looked for and not found", "unlooked": "nobody looked"}[c.State]
		p.add(state, f.Name+", half-month "+c.Cell, a, "cell", c.Cell)
	}
	for _, x := range f.Flights {
		label := f.Name + ", flight " + x.Name
		p.add(fmt.Sprintf("%s to %s, most %s", dayWords(&x.From), dayWords(&x.To), dayWords(&x.Peak)), label, a, "flight", x.Name)
		p.add(fmt.Sprintf("tenth %s, half %s, nine tenths %s, on %s in %s", dayWords(x.Records.P10), dayWords(x.Records.P50),
			dayWords(x.Records.P90), content.Several(x.Records.Visits, "visit"), content.Several(len(x.Records.Seasons), "season")), label+", dates from records", a, "dates", x.Name)
		for _, s := range x.Sizes {
			p.size(a, f.Name, s)
		}
	}
	for _, s := range f.Unassigned {
		p.size(a, f.Name, s)
	}
	for _, h := range f.Hours {
		p.add(h.printed(), fmt.Sprintf("%s, %s, %s, hours of the %s", f.Name, spaced(h.Flight, or(h.Sex, "")), time.Month(h.Month), h.Stage),
			a, "hours", h.Stage, or(h.Sex, ""), h.Flight, fmt.Sprint(h.Month))
	}
	for _, d := range f.Dressings {
		var l []string
		for _, o := range d.Offered {
			l = append(l, fmt.Sprintf("%s %s", o.Name, content.Decimal(float64(o.Score), 0)))
		}
		if len(l) == 0 {
			l = []string{"none"}
		}
		p.add(strings.Join(l, ", "), f.Name+", "+spaced(or(d.Flight, ""), or(d.Sex, ""), d.Stage)+", dressings", a, "dressings", d.Stage, or(d.Sex, ""), or(d.Flight, ""))
	}
	var l []string
	for _, x := range f.Alike {
		l = append(l, x.Name)
	}
	if len(l) > 0 {
		p.add(strings.Join(l, ", "), f.Name+", look-alikes", a, "alike")
	}
}

func (p *printer) size(a, name string, s size) {
	words := spaced(or(s.Flight, ""), or(s.Sex, ""), s.Stage)
	key := []string{a, s.Stage, or(s.Sex, ""), or(s.Flight, "")}
	if s.N > 0 {
		p.add(fmt.Sprintf("%s, %s to %s, n %d", mm(s.Median, *s.Digits), mm(s.Low, *s.Digits), mm(s.High, *s.Digits), s.N),
			name+", "+words+", length", append([]string{"length"}, key...)...)
	}
	if s.Hook != nil {
		for _, h := range s.Hook.Models {
			p.add(or(h.Size, h.Beyond), name+", "+words+", hook "+h.Model, append([]string{"hook", h.Model}, key...)...)
		}
	}
}

// printed is a stretch of hours as pages print it, where the file has it to the minute.
func (h hours) printed() string {
	if h.From == nil || h.To == nil {
		return or(h.From, "–") + " to " + or(h.To, "–")
	}
	from, to := string(*h.From), string(*h.To)
	span, err := calendar.ParseSpan(h.Written)
	a, errA := calendar.ParseClock(from)
	b, errB := calendar.ParseClock(to)
	if err == nil && errA == nil && errB == nil {
		a, b = daylight.About(span, a, b)
		from, to = a.String(), b.String()
	}
	return from + " to " + to
}

func or[T ~string](s *T, none string) string {
	if s == nil {
		return none
	}
	return string(*s)
}

func spaced(l ...string) string { return strings.Join(strings.Fields(strings.Join(l, " ")), " ") }

// percent keeps a decimal below one per cent, as pages do.
func percent(n number) string {
	v, digits := content.Round9(content.Round9(float64(n))*100), 0 // as the old file holds it
	if v > 0 && v < 1 {
		digits = 1
	}
	return content.Decimal(v, digits) + " %"
}

func mm(n *number, digits int) string {
	if n == nil {
		return "not known"
	}
	return content.Decimal(float64(*n), digits) + " mm"
}

func dayWords(d *day) string {
	if d == nil {
		return "not known"
	}
	t, err := time.Parse("01-02", d.Date)
	if err != nil {
		return d.Date
	}
	return t.Format("2 January")
}
