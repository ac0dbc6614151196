package draw

// Pictograms of states: templates/figures/states.svg holds one a state, 48 units square, by the
// name of feature and state and by the part of the drawing that they are tied to. A state that it
// doesn't hold gets a plain tile with its name.

import (
	"fmt"
	"io/fs"
	"regexp"
	"strings"
	"sync"

	"github.com/gosimple/slug"

	"guidegen/species"
	"guidegen/templates"
)

// tile is the inside of one pictogram.
type tile struct {
	body    string
	classes map[string]bool
}

var (
	tilePattern  = regexp.MustCompile(`(?s)<svg id="([^"]+)"(?: data-draw="([^"]+)")?[^>]*>(.*?)</svg>`)
	classPattern = regexp.MustCompile(`class="(\w+)"`)
	gapPattern   = regexp.MustCompile(`>\s+<`)
)

// tiles are the pictograms by id and by what they draw ("tail count: 2").
var tiles = sync.OnceValues(func() (map[string]tile, error) {
	b, err := fs.ReadFile(templates.Files, "figures/"+statesFile)
	if err != nil {
		return nil, err
	}
	out := map[string]tile{}
	for _, m := range tilePattern.FindAllStringSubmatch(string(b), -1) {
		t := tile{gapPattern.ReplaceAllString(strings.TrimSpace(m[3]), "><"), map[string]bool{}}
		for _, c := range classPattern.FindAllStringSubmatch(t.body, -1) {
			t.classes[c[1]] = true
		}
		out[m[1]] = t
		if m[2] != "" {
			out[m[2]] = t
		}
	}
	return out, nil
})

// pictograms writes one file a state of the vocabulary.
func (a *Album) pictograms() error {
	known, err := tiles()
	if err != nil {
		return err
	}
	styles, err := sheets()
	if err != nil {
		return err
	}
	taken := map[string]bool{}
	for i := range a.characters {
		c := &a.characters[i]
		for _, s := range c.States {
			name := slug.Make(c.Name + " " + s.Name)
			address := "fig/p/" + name + ".svg"
			for n := 2; taken[address]; n++ {
				address = fmt.Sprintf("fig/p/%s-%d.svg", name, n)
			}
			taken[address] = true
			a.states[[2]string{c.Name, s.Name}] = address
			t := choose(known, c, s.Name)
			a.files = append(a.files, File{address, fmt.Appendf(nil,
				`<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="t" viewBox="0 0 48 48" `+
					`width="48" height="48">`+
					`<title id="t">%s</title><style>%s</style>%s</svg>`+"\n",
				escape(a.words.Plain("drawing.shows", "character", c.Name, "state", s.Name)),
				needed(styles["states"], t.classes), t.body)})
		}
	}
	return nil
}

// choose finds a state's pictogram: by its names, else by what the guide ties it to, else a tile.
func choose(known map[string]tile, c *species.Character, state string) tile {
	if t, ok := known[slug.Make(c.Name+" "+state)]; ok {
		return t
	}
	if part, value := c.Drawn(state); part != "" {
		if t, ok := known[part+": "+value]; ok {
			return t
		}
	}
	return named(state)
}

// named is a tile that holds a state's name, in at most three lines of about eight letters.
func named(state string) tile {
	var lines []string
	for w := range strings.FieldsSeq(state) {
		if n := len(lines); n > 0 && len([]rune(lines[n-1]))+len([]rune(w)) < 9 {
			lines[n-1] += " " + w
			continue
		}
		lines = append(lines, w)
	}
	cut := len(lines) > 3
	lines = lines[:min(len(lines), 3)]
	var b strings.Builder
	b.WriteString(`<path class="x" d="M4 2h40q2 0 2 2v40q0 2-2 2H4q-2 0-2-2V4q0-2 2-2z"/>`)
	for i, l := range lines {
		if r := []rune(l); len(r) > 10 || cut && i == 2 {
			l = string(r[:min(len(r), 9)]) + "…"
		}
		fmt.Fprintf(&b, `<text class="t" x="24" y="%d">%s</text>`, 28-6*(len(lines)-1)+12*i-i, escape(l))
	}
	return tile{b.String(), map[string]bool{"x": true, "t": true}}
}
