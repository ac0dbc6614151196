package build

// What is looked for in a site lest it leak: the withheld texts, without those
// that every site holds anyway.

import (
	"io/fs"
	"slices"

	"guidegen/build/guide"
	"guidegen/build/site"
	"guidegen/content"
	"guidegen/templates"
)

// searchable leaves out texts that stand among the site's own words, scripts and
// styles. A recorder called June can't be told from the month, and looking for
// the name would keep the guide from being published.
func searchable(withheld []string) []string {
	if len(withheld) == 0 {
		return nil
	}
	own := map[string]bool{}
	search := site.NewWithheld(withheld)
	// The templates are embedded: walking and reading them can't fail.
	_ = fs.WalkDir(templates.Files, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := fs.ReadFile(templates.Files, p)
		for _, text := range search.Find(p, b) {
			own[text] = true
		}
		return err
	})
	return slices.DeleteFunc(slices.Clone(withheld), func(s string) bool { return own[s] })
}

// mentions warns of prose that names what is withheld: the name is known then, and
// the finished site can't be searched for it.
func mentions(e *guide.Edition, own map[string]bool, ps *content.Problems) {
	for _, m := range e.Named {
		if own[m.Text] {
			continue // June is a month, whoever else is called so
		}
		at := m.At
		if f := ps.File(at.File); f != nil {
			for _, x := range e.Secrets.In(string(f.Bytes[at.Offset:])) {
				if x.Text == m.Text {
					at = f.At(at.Offset+x.From, at.Offset+x.To)
					break
				}
			}
		}
		if m.Alone {
			ps.Warnf("may-name-withheld", at, mayBe, "this text holds %q, the last word of a name that is not shown in full", m.Text)
			continue
		}
		ps.Warnf("prose-names-withheld", at, "write it otherwise, or acknowledge the warning where the name may be known",
			"%q is withheld, but this text names it to everyone; so no page is searched for the name any longer", m.Text)
	}
}

const mayBe = "write it otherwise, or acknowledge the warning if nobody is meant"

// betrayals reports records for everyone whose own words name what is withheld, whatever the guide's prose says of
// it. The search of the finished site would find some of them too, but not say where they stand.
func betrayals(e *guide.Edition, ps *content.Problems) {
	own := map[string]bool{}
	texts := e.Secrets.Texts()
	for _, s := range texts {
		own[s] = true
	}
	for _, s := range searchable(texts) {
		delete(own, s)
	}
	mentions(e, own, ps)
	look := func(at content.Place, what string, texts ...string) {
		for _, t := range texts {
			for _, x := range e.Secrets.In(t) {
				switch {
				case own[x.Text]:
				case x.Unsure:
					ps.Warnf("may-name-withheld", at, mayBe, "%s holds %q, the last word of a name that is not shown in full", what, x.Text)
				default:
					ps.Errorf("names-withheld", at, "write it otherwise, or withhold the record too", "%s names %q, which the %s edition withholds", what, x.Text, e.Name())
				}
			}
		}
	}
	for _, v := range e.Visits {
		if v.Withheld {
			continue
		}
		look(v.At, "this visit", v.ID, v.Beat.S, v.EffortText, v.Remarks)
		for _, f := range v.Finds {
			if !f.Withheld {
				look(f.At, "this find", f.ID, f.Rank, f.Qualifier, f.Quantity, f.Remarks)
			}
		}
	}
	for _, c := range e.Corrections {
		look(c.At, "this correction", c.File, c.What, c.Before, c.After, c.Why)
	}
	for _, d := range e.Dressings {
		look(d.Notes.At, "this note", d.Notes.S)
		look(d.From.At, "this line", d.From.S)
		for _, p := range d.Parts {
			look(p.At, "this part", p.Part, p.Of.S, p.Shade.Colour.Words, p.Shade.Light)
		}
	}
	for _, p := range e.Photos {
		look(p.At, "this photo", p.Alt, p.Caption)
	}
}
