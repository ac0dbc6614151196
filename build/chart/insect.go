package chart

// The diagram of a fly: a plain line figure made from the characters that its
// account gives, to scale. What is not known is left out or drawn dashed, and
// said in words. Legs, antennae and the small proportions follow the order's
// common form; they are not measured and no fly is told by them.

import (
	"html/template"
	"regexp"
	"strconv"
	"strings"
)

// Order is the shape a figure follows.
type Order uint8

const (
	NoOrder  Order = iota
	Upwinged       // wings upright
	Sedge          // wings like a roof, long antennae
	Stonefly       // wings flat on the back, seen from above
	Alder          // roof of bare, heavy-veined wings
	Midge          // two wings, slender, water-bred
	Gnat           // two wings, stout, land-bred
	Beetle         // land-bred, seen from above
	Ant            // land-bred
)

// Stage is the stage of life drawn.
type Stage uint8

const (
	NoStage Stage = iota
	Nymph         // upwinged flies and stoneflies, seen from above
	Larva         // sedges, alders, midges
	Pupa          // sedges, midges
	Dun           // upwinged flies only
	Spinner       // upwinged flies only
	Adult         // all others
)

// HindWing, ForeWing and Eyes are characters; the zero value is "not known".
type HindWing uint8

const (
	HindWingUnknown HindWing = iota
	HindWingNone
	HindWingTiny
	HindWingLarge
)

type ForeWing uint8

const (
	ForeWingUnknown ForeWing = iota
	ForeWingClear
	ForeWingClouded
)

type Eyes uint8

const (
	EyesUnknown Eyes = iota
	EyesPlain
	EyesTurban
)

// TailsUnknown stands in Insect.Tails where nobody counted them.
const TailsUnknown = -1

// Insect holds the characters of one fly in one stage. Lengths are millimetres,
// 0 where not known.
type Insect struct {
	Order Order
	Stage Stage

	BodyMM    float64 // front of head to tip of abdomen, without tails or antennae
	OverallMM float64 // head to wing tip at rest: sedges, stoneflies, alders
	WingMM    float64 // fore wing, base to tip

	Tails     int     // 0, 2 or 3; TailsUnknown
	TailRatio float64 // length of the tails / length of the body; 0 not known

	HindWing HindWing
	ForeWing ForeWing
	Eyes     Eyes
	Bands    bool // rings of a darker shade round the abdomen

	Body, Wing, Legs, Tail string // colours, six hex digits with or without #; "" not known

	// Figures that stand side by side share a scale, and shrink alike on a narrow screen.
	Most float64 // the magnification at most; 0 as fits
	Wide float64 // the picture's width at least, mm
}

// Part is something the figure leaves out or draws dashed since the account
// doesn't give it. Its value is its English name.
type Part string

const (
	PartTailCount  Part = "number of tails (left out)"
	PartTailLength Part = "length of the tails (dashed)"
	PartWingLength Part = "length of the wings (dashed)"
	PartWings      Part = "wings (left out)"
	PartForeWing   Part = "fore wings clear or clouded (left blank)"
	PartHindWing   Part = "hind wings (left out)"
	PartEyes       Part = "form of the eyes (dashed)"
	PartBody       Part = "colour of the body (left blank)"
	PartWing       Part = "colour of the wings (left blank)"
	PartLegs       Part = "colour of the legs (left blank)"
	PartTail       Part = "colour of the tails (left blank)"
)

// View is how large a figure is drawn.
type View uint8

const (
	Enlarged View = iota // for the screen, about 68 mm wide at most, with the magnification in words
	LifeSize             // for print: a millimetre is a millimetre
	Outline              // life size without a bar of its own, where one bar serves many figures
)

// Drawing is a figure, ready to print.
type Drawing struct {
	SVG           template.HTML // <svg class="insect …" role="img" width="…mm" height="…mm">
	Unknown       []Part        // in the order of the body, head to tail; nil if all is known
	Magnification float64       // 1 for life size
	WidthMM       float64       // of the whole picture as drawn, scale bar and all
	HeightMM      float64
	LengthMM      float64 // the length the figure is drawn to: body, or head to wing tip where roofed
}

// InsectWords are the words in a drawing.
type InsectWords struct {
	MM       string // "mm"
	LifeSize string // "life size"
	Times    string // "drawn ×"; the magnification follows
}

// EnglishInsects are the words of the default site.
var EnglishInsects = InsectWords{MM: "mm", LifeSize: "life size", Times: "drawn ×"}

// Draw makes the figure. The id must be the page's own; title and desc name it
// for those who don't see it: say that it is a diagram, of which stage, and what
// is not known. words nil is English. ok is false where there is no length to
// draw to, or no figure for such a stage (a sedge has no dun).
func (in Insect) Draw(id, title, desc string, view View, words *InsectWords) (d Drawing, ok bool) {
	in = in.checked()
	draw := in.figure()
	if draw == nil || in.length() == 0 {
		return Drawing{}, false
	}
	if words == nil {
		words = &EnglishInsects
	}
	f := &figure{scale: 1, detail: in.length() >= 14}
	if view == Enlarged {
		f = &figure{scale: in.Magnification(), detail: true}
	}
	draw(in, f)
	return f.finish(cleanID(id), title, desc, view, in, words), true
}

// Magnification is what the enlarged figure is drawn at: the largest tidy one that fits, 0 where there
// is no figure. Line widths and what detail a figure bears hang on its size.
func (in Insect) Magnification() float64 {
	in = in.checked()
	draw := in.figure()
	if draw == nil || in.length() == 0 {
		return 0
	}
	f := &figure{scale: 1, detail: true}
	draw(in, f)
	if k := f.magnification(); in.Most == 0 || k < in.Most {
		return k
	}
	return in.Most
}

// checked leaves out what can't be drawn, as if it were not given.
func (in Insect) checked() Insect {
	for _, v := range []*float64{&in.BodyMM, &in.OverallMM, &in.WingMM, &in.TailRatio} {
		if !(*v >= 0.01 && *v <= 500) { // no such fly
			*v = 0
		}
	}
	in.Body, in.Wing, in.Legs, in.Tail = colourOf(in.Body), colourOf(in.Wing), colourOf(in.Legs), colourOf(in.Tail)
	return in
}

// length is what the figure is scaled to.
func (in Insect) length() float64 {
	if in.roofed() {
		return max(in.OverallMM, in.WingMM, in.BodyMM)
	}
	return in.BodyMM
}

// roofed reports whether the length at rest goes to the wing tip.
func (in Insect) roofed() bool {
	return in.Stage == Adult && (in.Order == Sedge || in.Order == Stonefly || in.Order == Alder)
}

func (in Insect) figure() func(Insect, *figure) {
	switch in.Stage {
	case Dun, Spinner:
		if in.Order == Upwinged {
			return upwinged
		}
	case Nymph:
		if in.Order == Upwinged || in.Order == Stonefly {
			return nymph
		}
	case Larva:
		switch in.Order {
		case Sedge, Alder, Midge:
			return larva
		}
	case Pupa:
		switch in.Order {
		case Sedge:
			return sedgePupa
		case Midge:
			return midgePupa
		}
	case Adult:
		return map[Order]func(Insect, *figure){
			Sedge: roofWinged, Alder: roofWinged, Stonefly: stonefly, Midge: midge, Gnat: gnat, Beetle: beetle, Ant: ant,
		}[in.Order]
	}
	return nil
}

var hexColour = regexp.MustCompile(`^#?[0-9A-Fa-f]{6}$`)

// colourOf gives a colour as #rrggbb, or "" where it is none.
func colourOf(s string) string {
	if !hexColour.MatchString(s) {
		return ""
	}
	return "#" + strings.ToLower(strings.TrimPrefix(s, "#"))
}

// shade is a line that shows on a ground of the given colour: lighter on dark,
// darker on light.
func shade(colour string) string {
	if colour == "" {
		return ""
	}
	v, _ := strconv.ParseUint(colour[1:], 16, 32)
	r, g, b := float64(v>>16&255), float64(v>>8&255), float64(v&255)
	to, share := 0.0, 0.42
	if 0.299*r+0.587*g+0.114*b < 95 {
		to, share = 255, 0.38
	}
	mix := func(c float64) uint64 { return uint64(c + float64((to-c)*share)) }
	return "#" + strconv.FormatUint(1<<24|mix(r)<<16|mix(g)<<8|mix(b), 16)[1:]
}
