package draw

// From a recipe to a figure: the hook's shape from its model, the parts from the recipe. How a wing or
// a hackle is tied and what a body is made of are read from short English words of the trade (common
// practice, no source); where they don't say, the part is a plain patch and the description says so.

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/species"
	"guidegen/species/hook"
)

// tied is a way of tying a part, and the words that tell of it; the first that fits holds.
type tied struct {
	way   string
	words []string
}

var (
	hackles = []tied{
		{"palmer", []string{"palmer"}}, {"hackle-clipped", []string{"clipped", "cut level", "cut flat", "trimmed"}},
		{"hackle-throat", []string{"throat", "beard", "below only"}},
		{"hackle-soft", []string{"soft", "hen", "partridge", "swept"}},
		{"hackle-collar", []string{"wound", "collar", "cock"}},
	}
	wings = []tied{
		{"wing-roof", []string{"roof", "deer hair"}},
		{"wing-back", []string{"laid back", "laid flat", "tied down", "short and flat", "over the back"}},
		{"wing-spent", []string{"spent", "divided flat", "tied flat", "points flat", "to both sides"}},
		{"wing-point", []string{"points", "tips"}},
		{"wing-slip", []string{"slips", "slip", "paired", "upright"}},
	}
	bodies = []tied{
		{"body-lumps", []string{"two lumps"}},
		{"body-quill", []string{"quill", "stripped"}}, {"body-herl", []string{"herl"}},
		{"body-dubbed", []string{"fur", "wool", "dubb", "hare", "mole"}},
		{"body-silk", []string{"silk", "floss", "thread", "raffia"}},
	}
)

// way finds how a part is tied, "" where its words don't say.
func way(part species.DressingPart, ways []tied) string {
	text := strings.ToLower(part.Of.S)
	for _, w := range ways {
		if slices.ContainsFunc(w.words, func(s string) bool { return strings.Contains(text, s) }) {
			return w.way
		}
	}
	return ""
}

// fly is a dressing's figure being filled.
type fly struct {
	Figure
	d     *figures.Dressing
	parts map[string]species.DressingPart
	left  []string
	shank float64 // mm; of a curved hook the length along the bend; 0 not measured
	shape string  // "straight", "curved"
}

// dressing fills the figure of a recipe, on the middle one of its hooks.
func dressing(d *figures.Dressing, hooks hook.Table) *fly {
	f := &fly{d: d, parts: map[string]species.DressingPart{}, shape: "straight", Figure: Figure{
		Group: "dressing", UnitMM: 1, Has: map[string]bool{}, Tint: map[string]string{}, Scale: map[string]pt{}, Unsure: map[string]bool{}}}
	for _, p := range d.Parts {
		f.parts[p.Part] = p
	}
	f.hook(hooks)
	for part, tint := range map[string]string{"tail": "tail", "body": "fly-body", "rib": "rib", "thorax": "thorax", "wing": "fly-wing",
		"hackle": "hackle", "legs": "fly-legs", "butt": "butt", "shell": "shell", "bead": "bead", "thread": "thread", "back": "back", "breathers": "breath",
		"antennae": "antennae"} {
		if p := f.parts[part]; p.Shade.Colour.HasValue {
			f.Tint[tint] = "#" + p.Shade.Colour.Value.Hex()
		}
	}
	for _, part := range []string{"tail", "rib", "thorax", "butt", "shell", "bead", "back"} {
		f.Has[part] = f.has(part)
	}
	f.Has["breath"], f.Has["fly-antennae"] = f.has("breathers"), f.has("antennae")
	f.Tint["thread"] = cmp.Or(f.Tint["thread"], shade(f.Tint["fly-body"], 0.3))
	f.Tint["thorax"] = cmp.Or(f.Tint["thorax"], shade(f.Tint["fly-body"], 0.2))
	f.Tint["antennae"] = cmp.Or(f.Tint["antennae"], "#6b5836")
	f.Tint["bead"] = cmp.Or(f.Tint["bead"], "#c79a3a")
	f.body()
	f.wing()
	f.hackle()
	f.tail()
	return f
}

func (f *fly) has(part string) bool { _, ok := f.parts[part]; return ok }

// hook sets the hook's shape and size. Where the model wasn't measured it is drawn as a common one, of
// no length.
func (f *fly) hook(hooks hook.Table) {
	model := strings.ToLower(strings.TrimSpace(f.parts["hook"].Of.S))
	var of []hook.Measured
	for _, h := range hooks {
		if strings.ToLower(h.Model) == model && (len(f.d.Sizes) == 0 || slices.Contains(f.d.Sizes, h.Size)) {
			of = append(of, h)
		}
	}
	slices.SortStableFunc(of, func(a, b hook.Measured) int { return hook.Compare(a.Size, b.Size) })
	long, gape := 8.5, 5.0
	if len(of) > 0 {
		h := of[len(of)/2]
		long, gape = float64(h.Shank), float64(h.Gape)
		if h.Curved {
			f.shape, f.Group = "curved", "dressing-curved"
		}
		switch {
		case gape == 0 && long > 0:
			gape = long * 0.6
		case gape > 0 && (long == 0 || h.Curved):
			long = gape * 8.2 / 4.9
		}
		f.shank = long
	}
	if long == 0 {
		long, gape, f.shank = 8.5, 5, 0
	}
	f.Scale["shank"], f.Scale["long"], f.Scale["gape"] = pt{long, gape}, pt{long, long}, pt{gape, gape}
}

func (f *fly) body() {
	if !f.has("body") {
		return
	}
	if w := way(f.parts["body"], bodies); w != "" {
		f.Has[w] = true
	} else {
		f.left = append(f.left, "body")
	}
}

// wing draws the wing; flies with spent wings are seen from above, as the spent natural is.
func (f *fly) wing() {
	if !f.has("wing") {
		return
	}
	f.Has["fly-wing"] = true
	w := way(f.parts["wing"], wings)
	switch {
	case f.shape == "curved":
	case w == "wing-spent" && f.copies(species.Spinner):
		f.Group = "dressing-spent"
	case w == "wing-spent":
		f.Has["wing-back"] = true
	case w == "":
		f.Has["wing-plain"] = true
		f.left = append(f.left, "wing")
	default:
		f.Has[w] = true
	}
}

// copies reports whether the dressing stands for a stage.
func (f *fly) copies(stage species.Stage) bool {
	return slices.ContainsFunc(f.d.Dressing.For, func(s species.StandsFor) bool {
		return slices.Contains(s.Stages, stage)
	})
}

// wet reports a dressing that is fished under the surface alone.
func (f *fly) wet() bool {
	return len(f.d.Fishes) > 0 && !slices.Contains(f.d.Fishes, species.Surface) && !slices.Contains(f.d.Fishes, species.Film)
}

func (f *fly) hackle() {
	f.Has["legs-trailing"] = f.has("legs") && strings.Contains(strings.ToLower(f.parts["legs"].Of.S), "knot")
	if f.has("legs") && !f.Has["legs-trailing"] { // fibres below, for legs
		f.Has["hackle-throat"] = true
		f.Tint["hackle"] = f.Tint["fly-legs"]
	}
	if !f.has("hackle") {
		return
	}
	f.Has["fly-hackle"] = true
	w := way(f.parts["hackle"], hackles)
	switch {
	case w == "palmer":
		f.Has["palmer"], f.Has["hackle-collar"] = true, true
	case f.wet() && (w == "" || w == "hackle-collar"):
		f.Has["hackle-soft"] = true
	case w == "":
		f.Has["hackle-collar"] = true
		f.left = append(f.left, "hackle")
	default:
		f.Has[w] = true
	}
}

func (f *fly) tail() {
	if !f.has("tail") {
		return
	}
	text := strings.ToLower(f.parts["tail"].Of.S)
	switch {
	case strings.Contains(text, "skin") || strings.Contains(text, "shuck"):
		f.Has["tail-skin"] = true // of a fly half out of it
	case f.copies(species.Nymph) || f.copies(species.Larva):
		f.Has["tail-nymph"] = true
	case f.wet():
		f.Has["tail-wet"] = true
	case strings.Contains(text, "spread") || strings.Contains(text, "split") || strings.Contains(text, "three"):
		f.Has["tail-split"] = true
	default:
		f.Has["tail-dry"] = true
	}
}

// describeDressing says on what hook it is drawn and with which parts, in the recipe's order.
func (a *Album) describeDressing(f *fly) string {
	comma := a.words.Plain("list.comma")
	var parts, left []string
	for _, p := range f.d.Parts {
		if p.Part != "hook" && p.Part != "thread" {
			part := a.words.Or("dress_part", p.Part)
			parts = append(parts, a.words.Plain("drawing.shows", "character", part, "state", p.Of.S))
		}
	}
	key, length := "drawing.dressing."+f.shape, strconv.FormatFloat(f.shank, 'f', 1, 64)
	if f.shank == 0 {
		key = "drawing.dressing.unmeasured"
	}
	out := []string{a.words.Plain(key, "length", length)}
	if f.Group == "dressing-spent" {
		out = []string{a.words.Plain("drawing.view.above"), out[0]}
	}
	if parts != nil {
		out = append(out, a.words.Plain("drawing.dressing.parts", "parts", strings.Join(parts, comma)))
	}
	for _, p := range f.left {
		left = append(left, a.words.Or("dress_part", p))
	}
	if left != nil {
		out = append(out, a.words.Plain("drawing.dressing.form_not_given", "parts", strings.Join(left, comma)))
	}
	return strings.Join(out, " ")
}

// dressing writes the file of one dressing.
func (a *Album) dressing(d *figures.Dressing, hooks hook.Table) error {
	f := dressing(d, hooks)
	body, err := f.draw()
	if err != nil {
		return err
	}
	p := a.picture("d/"+d.Address, body)
	p.LengthMM, p.Unknown, p.Desc = f.shank, f.left, a.describeDressing(f)
	p.Above = f.Group == "dressing-spent"
	p.Alt = a.words.Plain("drawing.dressing.title", "dressing", d.Name.S)
	a.dressings[d.Address] = p
	return a.write(p, body)
}
