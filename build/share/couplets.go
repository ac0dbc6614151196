package share

// Keys as numbered couplets.

import (
	"guidegen/build/figures"
	"guidegen/species/key"
)

type couplets struct {
	Start    lead      `json:"start" doc:"where to begin"`
	Couplets []couplet `json:"couplets,omitempty" doc:"numbered from 1; a lead always goes to a later number"`
	Tools    []string  `json:"tools,omitempty" doc:"what the couplets need, easiest first" enum:"naked eye|hand lens|microscope"`
	Steps    number    `json:"mean_steps" doc:"couplets answered on the way to a fly, mean over flies" range:"0"`
	ByChance number    `json:"mean_steps_by_chance" doc:"the same, weighted by the flies' chances" range:"0"`
	Cut      bool      `json:"cut,omitempty" doc:"the limit on couplets was reached"`
}

type couplet struct {
	Number    int     `json:"number" doc:"its number" range:"1"`
	From      *int    `json:"from,omitempty" doc:"the couplet that leads here; left out for the first"`
	Character string  `json:"character" doc:"the feature asked about; length and shade beside the vocabulary's"`
	Limit     *number `json:"limit,omitempty" doc:"of a length, millimetres: up to it, or over" range:"0"`
	InPlay    int     `json:"flies" doc:"flies that it parts" range:"2"`
	Needs     string  `json:"needs" doc:"what it takes to see it" enum:"naked eye|hand lens|microscope"`
	Seen      []form  `json:"seen_in,omitempty" doc:"where it can be seen; left out: everywhere"`
	Leads     []lead  `json:"leads" doc:"one state, up to the limit, or pale or dark; and the rest" items:"2"`
}

type lead struct {
	States []string `json:"states,omitempty" doc:"the states that lead this way; left out at the start"`
	Next   *int     `json:"next,omitempty" doc:"the couplet to go to; left out where flies are the answer"`
	Flies  []string `json:"flies,omitempty" doc:"addresses of the flies arrived at"`
	Cut    bool     `json:"cut,omitempty" doc:"further couplets would have separated them"`
}

func keyOf(k *figures.Key) couplets {
	lead := func(l key.Lead) lead {
		return lead{list(l.States), numbered(l.Next), list(l.Flies), l.Cut}
	}
	out := couplets{Start: lead(k.Start), Tools: each(k.Tools, key.Needs.String), Steps: number(k.MeanSteps), ByChance: number(k.MeanStepsByChance), Cut: k.Cut}
	out.Couplets = each(k.Couplets, func(c key.Couplet) couplet {
		return couplet{c.Number, numbered(c.From), c.Character, known(c.Limit, c.Limit > 0), c.Flies, c.Needs.String(), each(c.SeenIn, formOf), each(c.Leads[:], lead)}
	})
	return out
}

// numbered is null for the couplet number 0, which there is none of.
func numbered(n int) *int {
	if n == 0 {
		return nil
	}
	return &n
}
