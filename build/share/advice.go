package share

// What to tie on for one stage, sex and flight, with every part of a score.

import (
	"guidegen/build/figures"
	"guidegen/species/tying"
)

type advice struct {
	Stage   string      `json:"stage" doc:"stage of life"`
	Sex     *string     `json:"sex,omitempty" doc:"left out: either" enum:"male|female"`
	Flight  *string     `json:"flight,omitempty" doc:"name of the flight"`
	Months  []int       `json:"months,omitempty" doc:"months in which the flight is on here" range:"1 12"`
	Length  *bodyLength `json:"length,omitempty" doc:"the body that shanks are held against; left out where not known"`
	Offered []offer     `json:"offered,omitempty" doc:"by class (fly, group, kin), then score, then name"`
	Named   []named     `json:"named_not_scored,omitempty" doc:"dressings that name the fly or its group, of which neither size nor colour is known"`
	Out     []ruledOut  `json:"ruled_out,omitempty" doc:"dressings that name the fly or its group and don't serve, with every reason"`
	Unknown []string    `json:"unknown_habits,omitempty" doc:"habits that aren't known, and so rule nothing out" enum:"lays-under-water|crawls-out"`
}

type dressingName struct {
	Dressing string `json:"dressing" doc:"address of the dressing"`
	Name     string `json:"name" doc:"its name"`
}

type offer struct {
	dressingName
	Score number `json:"score" doc:"0 to 100, the sum of the parts' points" range:"0 100"`
	Parts parts  `json:"parts" doc:"left out is a part without data, whose weight goes to the others"`
}

type parts struct {
	Size   *sizePart   `json:"size,omitempty" doc:"hook against length"`
	Colour *colourPart `json:"colour,omitempty" doc:"colours of the parts both have"`
	Place  *placePart  `json:"place,omitempty" doc:"level in the water"`
	Named  namedPart   `json:"named" doc:"whether it names the fly"`
}

type part struct {
	Value  number `json:"value" doc:"0 to 1" range:"0 1"`
	Weight number `json:"weight" doc:"after parts without data have dropped out" range:"0 1"`
	Points number `json:"points" doc:"what it brings to the score" range:"0 100"`
}

type sizePart struct {
	part
	Hook   tiedOn `json:"hook" doc:"the best of the dressing's sizes"`
	Length number `json:"length" doc:"the natural's, millimetres" range:"0"`
	Longer number `json:"longer" doc:"shank less length, millimetres"`
}

type tiedOn struct {
	Model *string `json:"model,omitempty" doc:"the hook's model; left out where none was measured"`
	Size  string  `json:"size" doc:"its size"`
	Shank *number `json:"shank,omitempty" doc:"millimetres; left out where not measured" range:"0"`
}

type colourPart struct {
	part
	Parts []tint `json:"parts,omitempty" doc:"the parts of the body compared"`
}

type tint struct {
	Part   string    `json:"part" doc:"part of the body"`
	Weight number    `json:"weight" doc:"its weight among them" range:"0"`
	DeltaE millionth `json:"delta_e" doc:"CIEDE2000 colour difference" range:"0"`
}

type placePart struct {
	part
	Natural  string `json:"natural" doc:"the natural's level nearest" enum:"bottom|midwater|film|surface"`
	Dressing string `json:"dressing" doc:"the dressing's level nearest" enum:"bottom|midwater|film|surface"`
}

type namedPart struct {
	part
	By *string `json:"by,omitempty" doc:"it is tied for the fly, for its group or for another fly of it" enum:"fly|group|kin"`
}

type named struct {
	dressingName
	By string `json:"by" doc:"it names the fly or its group" enum:"fly|group"`
}

type ruledOut struct {
	dressingName
	By      *string  `json:"by,omitempty" doc:"it names the fly or its group" enum:"fly|group"`
	Reasons []reason `json:"reasons,omitempty" doc:"every reason against it"`
}

type reason struct {
	Code    string   `json:"code" doc:"stage: it imitates another; sex: it imitates the other; lays-under-water: on the surface, for a female that goes under to lay; crawls-out: a surface dun, for a fly that crawls out; not-allowed: the water's rules don't allow this kind of fly; size: its best hook is far from the body" enum:"stage|sex|lays-under-water|crawls-out|not-allowed|size"`
	Stages  []string `json:"stages,omitempty" doc:"for stage, the dressing's own"`
	Nearest *tiedOn  `json:"nearest,omitempty" doc:"for size, the dressing's nearest size"`
	Sex     *string  `json:"sex,omitempty" doc:"for sex, the dressing's own" enum:"male|female"`
	Body    *number  `json:"body,omitempty" doc:"for size, the fly's body, millimetres" range:"0"`
}

func adviceOf(book *figures.Book, s figures.StageDressings) advice {
	name := func(n string) dressingName {
		d := dressingName{Name: n}
		if x := book.Dressing(n); x != nil {
			d.Dressing = x.Address
		}
		return d
	}
	out := advice{Stage: string(s.Stage), Sex: text(string(s.Sex)), Flight: text(s.Flight), Length: bodyOf(s.Length)}
	for i, on := range s.Months {
		if on {
			out.Months = append(out.Months, i+1)
		}
	}
	out.Offered = each(s.Advice.Offered, func(o tying.Offer) offer {
		return offer{name(o.Name), number(o.Score), partsOf(o)}
	})
	out.Named = each(s.Advice.NotScored, func(n tying.NamedOnly) named { return named{name(n.Name), string(n.By)} })
	out.Out = each(s.Advice.RuledOut, func(r tying.RuledOut) ruledOut {
		return ruledOut{name(r.Name), text(string(r.Named)), each(r.Reasons, reasonOf)}
	})
	out.Unknown = each(s.Advice.Unknown, func(c tying.Code) string { return string(c) })
	return out
}

func partOf(p tying.Part) part {
	return part{number(p.Value), number(p.Weight), number(p.Points)}
}

func partsOf(o tying.Offer) parts {
	p := parts{Named: namedPart{partOf(o.Named.Part), text(string(o.Named.By))}}
	if s := o.Size; s != nil {
		p.Size = &sizePart{partOf(s.Part), tied(s.Hook), number(s.Length), number(s.Longer)}
	}
	if c := o.Colour; c != nil {
		p.Colour = &colourPart{partOf(c.Part), each(c.Parts, func(t tying.PartColour) tint {
			return tint{t.Name, number(t.Weight), millionths(t.DeltaE)}
		})}
	}
	if l := o.Place; l != nil {
		p.Place = &placePart{partOf(l.Part), l.Natural.String(), l.Dressing.String()}
	}
	return p
}

func tied(h tying.Hook) tiedOn { return tiedOn{text(h.Model), h.Size, known(h.Shank, h.Shank > 0)} }

func reasonOf(r tying.Reason) reason {
	out := reason{Code: string(r.Code), Stages: list(r.Stages), Sex: text(r.Sex)}
	if r.Code == tying.OtherSize {
		out.Nearest, out.Body = new(tied(r.Hook)), known(r.Body, true)
	}
	return out
}
