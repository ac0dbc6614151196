package paper

// The net sheet: a form on the reader's device for a visit with the net, an empty visit first. The
// script keeps the visits on the device and hands them out as a file in the plain headings of
// samples (rivers.SampleColumns), which an editor adds to the guide as it is. Printed, the page is
// a blank sheet to be filled in by pencil, with or without scripts.

import (
	"cmp"
	"html/template"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/rivers"
	"guidegen/species"
)

// SheetModel is the page.
type SheetModel struct {
	view.Frame
	Waters  []string
	Methods []Choice
	Units   []Choice
	Groups  []Choice
	Kinds   []NetKind
	Flies   []string
	Records lang.Link
	Words   template.HTML
	Data    template.HTML

	// For the sheet on paper.
	Degrees  string // unit of the water's temperature
	Lengths  string // heading of the lengths, with their unit
	Headings string // the file's, a comma between them
	Readings string // those of a file of temperatures, as far as a visit has them
	Web      string // the page's address on the web; "" if none is on record
	Rows     []struct{}
}

// netRows is how many finds have a row on a sheet of A4.
const netRows = 13

// NetKind is what a fly without a name is counted as: a group, and where it has several stages on the wing the stage.
type NetKind struct {
	Group, Stage string // as the file says them
	Text, Looks  string // in words, and how to know it
	view.Picture        // of the fly that was found most
}

// netWide is the most that a drawing of the net sheet takes, in CSS pixels; netScale what a millimetre takes at most.
const (
	netWide  = 96.0
	netScale = 2.4
)

// kinds are the groups with their drawings, at one scale.
func (p netPrinter) kinds() (out []NetKind) {
	var drawn []*figures.Fly
	most := map[species.Group]*figures.Fly{}
	found := func(f *figures.Fly) (n int) {
		for _, r := range f.Rows {
			n += r.FoundOn
		}
		return n
	}
	for _, f := range p.book.Flies {
		if was := most[f.Group]; was == nil || found(f) > found(was) {
			most[f.Group] = f
		}
	}
	for _, g := range species.Groups {
		if f := most[g]; f != nil {
			drawn = append(drawn, f)
		}
	}
	scale := p.ScaleOf(drawn, netWide, netScale)
	for _, g := range species.Groups {
		var flying []species.Stage
		for _, st := range g.Stages() {
			if st.OnTheWing() {
				flying = append(flying, st)
			}
		}
		kind := NetKind{Group: string(g), Text: p.words.Or("groups_of", string(g)), Looks: p.words.Or("group_looks", string(g))}
		for _, st := range flying {
			k := kind
			k.Stage = string(st)
			if len(flying) > 1 {
				k.Text += p.words.Plain("list.colon") + p.words.Or("stage", string(st))
				k.Looks = p.words.Or("group_looks", string(g)+" "+string(st))
			}
			if f := most[g]; f != nil {
				if pic := p.Album.Fly(f, st, species.NoSex); pic.Known() {
					wide, high := pic.Pixels(scale)
					k.Picture = view.Picture{Src: p.Deps.Site.Link(view.SheetPage, cmp.Or(pic.Small, pic.Address)), Width: wide, Height: high}
				}
			}
			out = append(out, k)
		}
		if len(flying) == 0 {
			out = append(out, kind)
		}
	}
	return out
}

// Choice is one entry of a closed list: what the file says, in words, and whether it is chosen at first.
type Choice struct {
	Value, Text string
	First       bool
}

// sheetData is what the script needs to know: beats by water, groups that count as water-bred, the
// stages of each group, each fly's group by any of its names, those of the words wider than a species
// that a find may be left at ("" where they are of several groups), and the methods whose gear stands overnight.
type sheetData struct {
	Guide     string              `json:"guide"`
	Beats     map[string][]string `json:"beats"`
	Bred      []string            `json:"bred"`
	Stages    map[string][]string `json:"stages"`
	Words     map[string]string   `json:"words"`
	Flies     map[string]string   `json:"flies"`
	Wide      map[string]string   `json:"wide"`
	Overnight []string            `json:"overnight"`
}

// sheetUnits are the units of effort that a person counts at the water.
var sheetUnits = []string{"sweeps", "minutes", "hours", "trap nights"}

// netPrinter prints the net sheet.
type netPrinter struct{ printer }

func (p netPrinter) page() SheetModel {
	w := p.words
	m := SheetModel{Frame: p.Frame("sheet", view.SheetPage, w.Plain("sheet.title"), view.ToolStyle, "kit.js", "sheet.js", "print.js"),
		Records: p.Link(view.SheetPage, view.RecordsPage, w.Plain("foot.records")), Words: p.WordBlock("sheet")}
	m.Description = w.Plain("sheet.about")
	m.Way = []lang.Link{m.Records}
	m.Degrees, m.Rows, m.Web, m.Print = cmp.Or(p.Settings().Units.Temperature, "°C"), make([]struct{}, netRows), m.Print, ""
	var headings []string
	for _, c := range rivers.SampleColumns {
		if c.Plain == "" || c.Rare {
			continue
		}
		h := c.Plain
		if len(c.Units) > 0 {
			h += " " + c.Units[0]
			m.Lengths = h
		}
		headings = append(headings, h)
	}
	m.Headings = strings.Join(headings, ", ")
	m.Readings = strings.Join([]string{"water", "date", "time", "kind", "temperature " + m.Degrees, "place", "by"}, ", ")
	d := sheetData{Guide: p.Settings().Name, Beats: map[string][]string{}, Bred: []string{}, Stages: map[string][]string{},
		Words: map[string]string{}, Flies: map[string]string{}, Wide: map[string]string{}, Overnight: []string{}}
	for _, x := range p.book.Waters {
		m.Waters = append(m.Waters, x.Name.S)
		beats := []string{}
		for _, b := range x.Beats {
			beats = append(beats, b.Name.S)
		}
		d.Beats[x.Name.S] = beats
	}
	for _, q := range rivers.Protocols {
		m.Methods = append(m.Methods, Choice{string(q), w.Or("protocol", string(q)), q == rivers.Protocols[0]})
		if q.LeftOvernight() {
			d.Overnight = append(d.Overnight, string(q))
		}
	}
	for i, u := range sheetUnits {
		m.Units = append(m.Units, Choice{u, w.Or("sheet.unit", u), i == 0})
	}
	for _, g := range species.Groups {
		m.Groups = append(m.Groups, Choice{string(g), w.Or("groups_of", string(g)), g.WaterBred()})
		if g.WaterBred() {
			d.Bred = append(d.Bred, string(g))
		}
		for _, st := range g.Stages() {
			d.Stages[string(g)] = append(d.Stages[string(g)], string(st))
			d.Words[string(st)] = w.Or("stage", string(st))
		}
	}
	m.Kinds = p.kinds()
	for _, f := range p.book.Flies {
		m.Flies = append(m.Flies, f.Name.S)
	}
	m.Flies = append(m.Flies, guide.Unnamed)
	for _, g := range species.Groups {
		m.Flies = append(m.Flies, string(g))
	}
	names := p.book.Edition.Names()
	for _, word := range names.WideWords() {
		group, _, _ := names.Wide(word)
		d.Wide[word] = string(group)
	}
	for _, n := range p.book.Alphabet {
		d.Flies[n.Name] = string(n.Fly.Group)
	}
	m.Data = view.JsonBlock("sheet-data", d)
	return m
}
