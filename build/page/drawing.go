package page

// Diagrams of a fly, made from the characters that its account gives. A character is drawn where
// the vocabulary ties it to a part of the drawing; what isn't known is left out and said in words.

import (
	"html/template"
	"math"
	"strconv"
	"strings"

	"guidegen/build/chart"
	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/species"
)

// DrawingView is one diagram to scale.
type DrawingView struct {
	SVG     template.HTML
	Caption string
	Length  content.Figure
	Unknown string // what the account doesn't give

	wide float64 // mm
}

var orders = map[species.Group]chart.Order{species.Upwinged: chart.Upwinged, species.Sedge: chart.Sedge, species.Stonefly: chart.Stonefly,
	species.Alder: chart.Alder, species.Midge: chart.Midge, species.Gnat: chart.Gnat, species.LandBred: chart.Gnat}

var chartStages = map[species.Stage]chart.Stage{species.Nymph: chart.Nymph, species.Larva: chart.Larva, species.Pupa: chart.Pupa,
	species.Dun: chart.Dun, species.Spinner: chart.Spinner, species.Adult: chart.Adult}

// drawings are the stages that fly, by sex where the account tells them apart by a drawn character,
// all at the scale of the largest: what stands side by side is compared.
func (p *Printer) drawings(f *figures.Fly) []DrawingView {
	order, ok := orders[f.Group]
	if !ok {
		return nil
	}
	if f.Group == species.LandBred {
		order = landOrder(f.Family.S)
	}
	type form struct {
		in    chart.Insect
		stage species.Stage
		sex   species.Sex
	}
	var forms []form
	for _, stage := range f.Group.Stages() {
		if !stage.OnTheWing() {
			continue
		}
		male, female := p.insect(f, order, stage, species.Male), p.insect(f, order, stage, species.Female)
		if male == female {
			forms = append(forms, form{male, stage, ""})
			continue
		}
		forms = append(forms, form{male, stage, species.Male}, form{female, stage, species.Female})
	}
	most, wide := math.Inf(1), 0.0
	for _, x := range forms {
		if k := x.in.Magnification(); k > 0 {
			most = min(most, k)
		}
	}
	draw := func() (out []DrawingView) {
		for _, x := range forms {
			x.in.Most, x.in.Wide = most, wide
			out = p.drawn(out, f, x.in, x.stage, x.sex)
		}
		return out
	}
	for _, v := range draw() {
		wide = max(wide, v.wide)
	}
	return draw()
}

// landOrder picks a form for a land-bred fly by its family's ending and commonest names; most of
// those on the water are true flies.
func landOrder(family string) chart.Order {
	switch strings.ToLower(family) {
	case "formicidae":
		return chart.Ant
	case "scarabaeidae", "cantharidae", "chrysomelidae", "curculionidae":
		return chart.Beetle
	}
	return chart.Gnat
}

func (p *Printer) drawn(out []DrawingView, f *figures.Fly, in chart.Insect, stage species.Stage, sex species.Sex) []DrawingView {
	who := p.caseOf(stage, sex, "")
	caption := p.words.Plain("drawing.caption", "fly", f.Name.S, "stage", who)
	words := chart.InsectWords{MM: p.words.Plain("drawing.mm"), LifeSize: p.words.Plain("drawing.life_size"), Times: p.words.Plain("drawing.times")}
	d, ok := in.Draw("d-"+string(stage)+"-"+string(sex), p.words.Plain("drawing.title", "fly", f.Name.S, "stage", who),
		p.words.Plain("drawing.desc"), chart.Enlarged, &words)
	if !ok {
		return out
	}
	v := DrawingView{SVG: d.SVG, Caption: caption, wide: d.WidthMM}
	var unknown []string
	for _, part := range d.Unknown {
		unknown = append(unknown, p.words.Or("drawing_part", string(part)))
	}
	v.Unknown = p.words.list(unknown)
	b := ground(f.Basis)
	if c, ok := f.Account.Length.First(species.Words{Stage: stage, Sex: sex}); ok {
		b = ground(c.Basis)
	}
	v.Length = p.length(d.LengthMM, 1, b)
	return append(out, v)
}

// insect gathers the characters of one stage and sex; a length is the middle of what the account gives
// for it, else for its first flight that gives one.
func (p *Printer) insect(f *figures.Fly, order chart.Order, stage species.Stage, sex species.Sex) chart.Insect {
	in := chart.Insect{Order: order, Stage: chartStages[stage], Tails: chart.TailsUnknown}
	at := func(flight string) species.Words { return species.Words{Stage: stage, Sex: sex, Flight: flight} }
	flights := []string{""}
	for _, fl := range f.Account.Flights {
		flights = append(flights, fl.Name)
	}
	length := func(prop species.Property[species.Length]) float64 {
		for _, fl := range flights {
			if c, ok := prop.First(at(fl)); ok {
				return content.Round9(float64(c.Value.Low+c.Value.High) / 2)
			}
		}
		return 0
	}
	switch f.Group {
	case species.Sedge, species.Stonefly, species.Alder:
		in.OverallMM = length(f.Account.Length)
	default:
		in.BodyMM = length(f.Account.Length)
	}
	in.WingMM = length(f.Account.Wing)
	colour := func(part string) string {
		for _, c := range f.Colours {
			if c.Part != part {
				continue
			}
			for _, fl := range flights {
				if s, ok := c.Cases.First(at(fl)); ok && s.Value.Colour.HasValue {
					return s.Value.Colour.Value.Hex()
				}
			}
		}
		return ""
	}
	in.Body, in.Wing, in.Legs, in.Tail = colour("body"), colour("wing"), colour("legs"), colour("tail")
	if p.book.Edition != nil {
		for i := range p.book.Edition.Characters {
			c := &p.book.Edition.Characters[i]
			if c.Draw == "" || !c.Sees(at("")) {
				continue
			}
			if claim, ok := f.Feature(c.Name, at("")); ok && len(claim.Value) == 1 {
				for _, s := range c.States {
					if s.Name == claim.Value[0] {
						p.character(&in, c.Draw, s.Draw)
					}
				}
			}
		}
	}
	return in
}

// character puts one state into the drawing.
func (p *Printer) character(in *chart.Insect, part, value string) {
	switch part {
	case "tail count":
		if n, err := strconv.Atoi(value); err == nil {
			in.Tails = n
		}
	case "tail length":
		in.TailRatio = tailRatio(value, in.BodyMM)
	case "hind wing":
		in.HindWing = map[string]chart.HindWing{"none": chart.HindWingNone, "tiny": chart.HindWingTiny,
			"medium": chart.HindWingLarge, "large": chart.HindWingLarge}[value]
	case "fore wing":
		in.ForeWing = map[string]chart.ForeWing{"clear": chart.ForeWingClear, "clouded": chart.ForeWingClouded, "spotted": chart.ForeWingClouded}[value]
	case "eyes":
		in.Eyes = map[string]chart.Eyes{"plain": chart.EyesPlain, "turban": chart.EyesTurban}[value]
	case "bands":
		in.Bands = value == "banded"
	}
}

// tailRatio reads "0.8 body", "12 mm", "short" and "long" as a share of the body.
func tailRatio(value string, body float64) float64 {
	n, unit, _ := strings.Cut(strings.TrimSpace(value), " ")
	v, err := strconv.ParseFloat(n, 64)
	switch {
	case n == "short":
		return 0.8
	case n == "long":
		return 2
	case err != nil || v <= 0:
		return 0
	case unit == "body":
		return v
	case unit == "mm" && body > 0:
		return content.Round9(v / body)
	}
	return 0
}
