package share

// What a figure rests on, and the length and hook that go with a case of a fly.

import (
	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/species"
	"guidegen/species/hook"
)

type support struct {
	Ground string  `json:"ground" doc:"kind of support" enum:"own records|lent records|published|own|common practice|memory|assumed"`
	Source *string `json:"source,omitempty" doc:"key of the source in guide.json, for published"`
	Water  *string `json:"water,omitempty" doc:"name of the water whose records they are; left out for a water that this edition doesn't name"`
	Visits *int    `json:"visits,omitempty" doc:"visits, for records; left out where a logger kept them"`
	Years  *int    `json:"years,omitempty" doc:"calendar years, for records"`
}

func basisOf(b content.Basis) []support {
	return each(b.Parts(), func(p content.Part) support {
		s := support{Ground: p.Ground.String()}
		switch p.Ground {
		case content.Published:
			s.Source = text(p.Source)
		case content.OwnRecords, content.LentRecords:
			s.Water, s.Years = text(p.Water), new(p.Years)
			if p.Visits > 0 {
				s.Visits = new(p.Visits)
			}
		}
		return s
	})
}

type size struct {
	Stage    string      `json:"stage" doc:"stage of life"`
	Sex      *string     `json:"sex,omitempty" doc:"left out: either, or not said" enum:"male|female"`
	Flight   *string     `json:"flight,omitempty" doc:"left out: outside every flight, or the day isn't known"`
	What     string      `json:"measured" doc:"what the lengths measure"`
	N        int         `json:"n" doc:"flies measured"`
	Median   *number     `json:"median,omitempty" doc:"millimetres; left out where none was measured" range:"0"`
	Low      *number     `json:"low,omitempty" doc:"shortest, millimetres" range:"0"`
	High     *number     `json:"high,omitempty" doc:"longest, millimetres" range:"0"`
	Digits   *int        `json:"digits,omitempty" doc:"decimals of a millimetre as measured"`
	Torn     bool        `json:"torn,omitempty" doc:"the flight's finds lie in two runs: nothing is pooled"`
	SetAside int         `json:"set_aside,omitempty" doc:"lengths not counted: taken with tails, or of another part; left out for none"`
	Account  []lengthSay `json:"account,omitempty" doc:"what the account says: the first is reckoned with, the rest is what others say"`
	Book     []bookSay   `json:"book_sizes,omitempty" doc:"hook sizes in books, the first is compared with"`
	Hook     *hookGround `json:"hook,omitempty" doc:"the length a hook rests on and the suggestion; left out where no length is known"`
	Basis    []support   `json:"basis,omitempty" doc:"what the measured figures rest on"`
}

type lengthSay struct {
	Low   number    `json:"low" doc:"millimetres" range:"0"`
	High  number    `json:"high" doc:"millimetres" range:"0"`
	Basis []support `json:"basis,omitempty" doc:"what it rests on"`
}

type bookSay struct {
	Large string    `json:"largest" doc:"larger hook size of the run"`
	Small string    `json:"smallest" doc:"smaller hook size of the run"`
	Basis []support `json:"basis,omitempty" doc:"what it rests on"`
}

// bodyLength is the body that a hook is held against.
type bodyLength struct {
	From    string  `json:"from" doc:"whose length it is" enum:"this water|all waters together|the account"`
	Length  number  `json:"length" doc:"the body, millimetres" range:"0"`
	Overall *number `json:"overall,omitempty" doc:"the length overall that the body is a share of; left out where the body was measured" range:"0"`
	Share   *number `json:"share,omitempty" doc:"the body's share of it" range:"0 1"`
	N       *int    `json:"n,omitempty" doc:"flies measured; left out for the account's length"`
}

type hookGround struct {
	bodyLength
	Waters []*string `json:"waters,omitempty" doc:"the waters taken together; null for one that this edition doesn't name"`
	Models []hookFor `json:"models,omitempty" doc:"suggestion in every straight model that serves, in the order of the hook table"`
	Basis  []support `json:"basis,omitempty" doc:"what the length rests on"`
}

type hookFor struct {
	Model  string  `json:"model" doc:"the hook's model"`
	Size   *string `json:"size,omitempty" doc:"size with the nearest shank; left out beyond the table"`
	Shank  *number `json:"shank,omitempty" doc:"shank of that size, millimetres" range:"0"`
	Beyond string  `json:"table" doc:"whether the length lies within the sizes measured" enum:"within|smaller than the table|larger than the table"`
	Off    *number `json:"longer,omitempty" doc:"millimetres by which the shank is longer than the body; 0: as long, within 0.35 mm"`
	Book   *number `json:"book_steps,omitempty" doc:"catalogue steps from the suggestion to the book's size, positive where the book's hook is larger; left out without a book size"`
}

func sizeOf(s figures.Size) size {
	out := size{Stage: string(s.Stage), Sex: text(string(s.Sex)), Flight: text(s.Flight), What: s.What, Torn: s.Torn, N: s.N, SetAside: s.SetAside,
		Median: known(s.Median, s.N > 0), Low: known(s.Low, s.N > 0), High: known(s.High, s.N > 0),
		Hook: hookOf(s.Hook), Basis: basisOf(s.Basis)}
	if s.N > 0 {
		out.Digits = &s.Digits
	}
	out.Account = each(s.Account, func(c species.Claim[species.Length]) lengthSay {
		return lengthSay{number(c.Value.Low), number(c.Value.High), basisOf(c.Basis)}
	})
	out.Book = each(s.Book, func(c species.Claim[hook.Range]) bookSay {
		return bookSay{c.Value.Large.String(), c.Value.Small.String(), basisOf(c.Basis)}
	})
	return out
}

func bodyOf(g figures.HookGround) *bodyLength {
	if g.From == "" {
		return nil
	}
	out := &bodyLength{From: g.From, Length: number(g.Length), Overall: known(g.Overall, g.Share > 0), Share: known(g.Share, g.Share > 0)}
	if g.From != figures.FromAccount {
		out.N = &g.N
	}
	return out
}

func hookOf(g figures.HookGround) *hookGround {
	body := bodyOf(g)
	if body == nil {
		return nil
	}
	out := &hookGround{bodyLength: *body, Waters: each(g.Waters, text[string]), Basis: basisOf(g.Basis)}
	out.Models = each(g.Hooks, func(h figures.HookFor) hookFor {
		within := h.Beyond == hook.Within
		f := hookFor{Model: h.Model, Shank: known(float64(h.Shank), within), Off: known(h.Off, within), Book: known(h.Steps.Count(), h.HasBook),
			Beyond: map[hook.Beyond]string{hook.Within: "within", hook.SmallerThanTable: "smaller than the table", hook.LargerThanTable: "larger than the table"}[h.Beyond]}
		if within {
			f.Size = text(h.Size.String())
		}
		return f
	})
	return out
}
