package species

// What a recipe must say to be tied from: a thread, and the materials in the order in which they are tied in. A rib
// is caught in before the body is wound, or there is nothing left to wind it over.

import (
	"slices"

	"guidegen/content"
)

// UsualParts are the parts of a dressing in the order in which most are tied (common practice, no source).
var UsualParts = []string{"hook", "bead", "thread", "tail", "rib", "butt", "underbody", "back", "body", "shell", "thorax",
	"breathers", "legs", "wing", "hackle", "antennae", "head"}

// before lists what has to be on the hook before another part is, for the parts where no dresser has a choice (common
// practice, no source). A hackle may go on before or behind a wing, and legs before or after a body: they aren't here.
var before = map[string][]string{
	"bead":   {"hook"},
	"thread": {"hook", "bead"},
	"body":   {"tail", "rib", "butt", "underbody", "back"},
	"thorax": {"body", "rib", "shell"},
}

// OutOfOrder gives the first two parts of a recipe that can't be tied in the order written: late stands after what
// covers it. ok is false where all can.
func (d *Dressing) OutOfOrder() (late, over DressingPart, ok bool) {
	for i, over := range d.Parts {
		for _, late := range d.Parts[i+1:] {
			if late.Part == over.Part {
				continue
			}
			if late.Part == "hook" || late.Part == "thread" && over.Part != "hook" && over.Part != "bead" ||
				over.Part == "head" || slices.Contains(before[over.Part], late.Part) {
				return late, over, true
			}
		}
	}
	return DressingPart{}, DressingPart{}, false
}

// names reports whether a recipe says what a part is made of.
func (d *Dressing) names(part string) bool {
	return slices.ContainsFunc(d.Parts, func(p DressingPart) bool { return p.Part == part && p.Of.S != "" })
}

// tieable notes what a dresser would stumble over.
func (d *Dressing) tieable(ps *content.Problems) {
	if d.names("hook") && !d.names("thread") {
		ps.Notef("no-thread", d.Name.At, "its colour and thickness, after the hook", "the recipe of %s names no thread", d.Name.S)
	}
	if late, over, ok := d.OutOfOrder(); ok {
		ps.Notef("recipe-order", late.At, "list the parts as they are tied in: "+late.Part+" before "+over.Part,
			"the %s of %s is listed after the %s, and couldn't be tied in there", late.Part, d.Name.S, over.Part)
	}
}
