package species

import (
	"slices"

	"guidegen/content"
	"guidegen/species/hook"
)

// Dressing is one artificial fly.
type Dressing struct {
	Address     string
	File        string
	At          content.Place
	Was         []content.Text
	Name        content.Text
	Also        []content.Text
	From        content.Text // originator, or "traditional"
	Fishes      []Level
	FishesBasis content.Basis
	For         []StandsFor
	Sizes       []hook.Size // expanded to single sizes, largest first
	SizesText   content.Text
	Parts       []DressingPart // in the order in which they are tied in, as written
	Notes       content.Text
	Basis       content.Basis
	Members     bool
}

// StandsFor is what a dressing imitates: named flies, whole groups, and the stages.
type StandsFor struct {
	Flies    []content.Text // names as written; the guide resolves them
	Accounts []string       // addresses of the flies named, filled in by the guide
	Groups   []Group
	Stages   []Stage
	Sex      Sex
	At       content.Place
}

// Without is the dressing as it is known where some accounts are withheld: it
// stands for none of them, and for nothing at all where it stood for them alone.
func (d *Dressing) Without(accounts []string) *Dressing {
	cut := *d
	cut.For = nil
	for _, f := range d.For {
		kept := f
		kept.Flies, kept.Accounts = nil, nil
		for i, a := range f.Accounts {
			if !slices.Contains(accounts, a) {
				kept.Flies, kept.Accounts = append(kept.Flies, f.Flies[i]), append(kept.Accounts, a)
			}
		}
		if len(kept.Accounts) > 0 || len(f.Groups) > 0 {
			cut.For = append(cut.For, kept)
		}
	}
	return &cut
}

// DressingPart is one line of the recipe.
type DressingPart struct {
	Part  string // hook, thread, tail, body, …
	Of    content.Text
	Shade Shade // zero where no colour is given
	At    content.Place
}
