package guide

// The cut to one edition. What is for members only is absent from the public
// edition; records always count, and only their place, people and remarks
// are withheld.

import (
	"slices"
	"strings"

	"guidegen/content"
	"guidegen/content/measure"
	"guidegen/rivers"
	"guidegen/species"
)

// Edition is a guide cut to what one audience may see. Its guide holds no
// withheld text; Lending waters are known to the reckoning alone.
type Edition struct {
	*Guide
	Members  bool
	Lending  []*rivers.Water                    // withheld waters without name, beats or texts: their visits are lent
	Unshown  map[*rivers.Water][]rivers.Listing // flies withheld on a water that is shown: they lend and have no row
	Withheld []string                           // texts that must stand in no file of this edition
	Named    []Mention                          // texts that would be among them, did the guide's own words not name them
	Secrets  *Secrets                           // names and places to be looked for in what people wrote
	People   map[*Visit][]Person
}

// Person is one recorder as they wish to be named; Key tells two people with
// the same initials apart and is no name.
type Person struct {
	Key   int
	Shown string // "" where the person wants no name
}

// Name is public or members.
func (e *Edition) Name() string {
	if e.Members {
		return "members"
	}
	return "public"
}

// Cut makes one edition of a guide.
func Cut(g *Guide, members bool) *Edition {
	e := &Edition{Guide: &Guide{}, Members: members, People: map[*Visit][]Person{}, Unshown: map[*rivers.Water][]rivers.Listing{}}
	*e.Guide = *g
	c := &cutter{e: e, people: map[string]int{}, known: knownPeople(g)}
	e.Settings.Roles = slices.Clone(g.Settings.Roles)
	for i := range e.Settings.Roles {
		e.Settings.Roles[i].Who = c.shown(g.Settings.Roles[i].Who)
	}
	e.Accounts = keep(g.Accounts, func(a *species.Account) bool { return members || !a.Members })
	e.Dressings = keep(g.Dressings, func(d *species.Dressing) bool { return members || !d.Members })
	e.Notes = keep(g.Notes, func(n Note) bool { return members || !n.Members })
	e.Accounts = mapped(e.Accounts, c.account)
	var without []string
	if !members {
		without = c.withheldFlies(g)
	}
	e.Dressings = mapped(e.Dressings, func(d *species.Dressing) *species.Dressing {
		cut := d.Without(without)
		cut.From.S = c.credited(d.From.S)
		return cut
	})
	c.waters(g, members)
	c.visits(g, members)
	c.corrections(g, members)
	c.photos(g, members)
	if !members {
		c.withhold(g)
	}
	e.Secrets, e.Withheld, e.Named = c.leakable()
	return e
}

type cutter struct {
	e       *Edition
	people  map[string]int // folded name → key
	known   []string       // who the records name
	names   []string       // names not to be shown in full
	said    []string       // other withheld texts
	places  []hiddenPlace
	waterOf map[*rivers.Water]*rivers.Water
}

func keep[T any](l []T, ok func(T) bool) []T {
	var out []T
	for _, x := range l {
		if ok(x) {
			out = append(out, x)
		}
	}
	return out
}

func mapped[T, U any](l []T, f func(T) U) []U {
	out := make([]U, len(l))
	for i, x := range l {
		out[i] = f(x)
	}
	return out
}

func (c *cutter) account(a *species.Account) *species.Account {
	b := *a
	b.ReviewedBy = c.shown(a.ReviewedBy)
	return &b
}

// withheldFlies are the addresses of accounts for members only.
func (c *cutter) withheldFlies(g *Guide) []string {
	var l []string
	for _, a := range g.Accounts {
		if a.Members {
			l = append(l, a.Address)
		}
	}
	return l
}

func (c *cutter) waters(g *Guide, members bool) {
	e := c.e
	e.Waters, c.waterOf = nil, map[*rivers.Water]*rivers.Water{}
	for _, w := range g.Waters {
		if w.Members && !members {
			// Kind, flies and temperature let its visits be moved and lent.
			bare := &rivers.Water{Kind: w.Kind, Place: w.Place, HasPlace: w.HasPlace, Altitude: w.Altitude, Zone: w.Zone,
				Temperature: w.Temperature, Regulated: w.Regulated, Flies: w.Flies, Members: true}
			e.Lending = append(e.Lending, bare)
			c.waterOf[w] = bare
			continue
		}
		cut := *w
		cut.Beats = keep(w.Beats, func(b rivers.Beat) bool { return members || !b.Members })
		cut.Flies = keep(w.Flies, func(l rivers.Listing) bool { return members || !l.Members })
		e.Unshown[&cut] = keep(w.Flies, func(l rivers.Listing) bool { return !members && l.Members })
		cut.Sensitive = keep(w.Sensitive, func(s rivers.SensitivePlace) bool { return members || !s.Members })
		e.Waters = append(e.Waters, &cut)
		c.waterOf[w] = &cut
	}
}

func (c *cutter) visits(g *Guide, members bool) {
	e := c.e
	fly := map[*species.Account]*species.Account{}
	for _, a := range e.Accounts {
		for _, b := range g.Accounts {
			if a.Address == b.Address {
				fly[b] = a
			}
		}
	}
	e.Visits = nil
	for _, v := range g.Visits {
		ev := *v.Event
		w := v.Water
		hidden := !members && (w.Members || hiddenBeat(v) || ev.HasPlace && nearSensitive(w, ev.Place))
		var people []Person
		for _, name := range ev.By {
			people = append(people, Person{c.key(name), c.shown(name)})
		}
		ev.By, ev.Finds = nil, nil // the visit holds its finds with their flies
		if hidden {
			ev.Beat, ev.Place, ev.HasPlace, ev.Remarks = content.Text{}, measure.Coordinates{}, false, ""
			people = mapped(people, func(p Person) Person { return Person{Key: p.Key} })
		}
		if !members {
			ev.Scope = c.scope(ev.Scope, g)
		}
		cut := &Visit{Event: &ev, Water: c.waterOf[w], Withheld: hidden}
		for _, f := range v.Finds {
			find := *f.Find
			find.By = c.shown(find.By)
			if hidden {
				find.By, find.Remarks = "", ""
			}
			if !members && f.Fly != nil && fly[f.Fly] == nil {
				cut.Untold = true
				continue // an account for members only: its finds are not for this edition
			}
			out := Found{Find: &find, Fly: fly[f.Fly], Group: f.Group, Nth: f.Nth}
			for _, a := range f.Taxon {
				if fly[a] != nil {
					out.Taxon = append(out.Taxon, fly[a])
				}
			}
			if len(f.Taxon) > 0 && len(out.Taxon) == 0 {
				cut.Untold = true
				continue // a doubtful record of a withheld fly: its written name would tell
			}
			out.Withheld = out.Fly != nil && slices.ContainsFunc(e.Unshown[cut.Water], func(l rivers.Listing) bool { return l.Account == out.Fly.Address })
			cut.Untold = cut.Untold || out.Withheld
			cut.Finds = append(cut.Finds, out)
		}
		e.Visits = append(e.Visits, cut)
		e.People[cut] = people
	}
}

// scope is a scope without the groups whose every account is withheld: to name one
// would tell of the fly. Where it holds all water-bred groups no one of them is named.
func (c *cutter) scope(s rivers.Scope, g *Guide) rivers.Scope {
	whole := !slices.ContainsFunc(species.Groups, func(x species.Group) bool { return x.WaterBred() && !s.Has(x) })
	if whole {
		return s
	}
	in := func(l []*species.Account, x species.Group) bool {
		return slices.ContainsFunc(l, func(a *species.Account) bool { return a.Group == x })
	}
	s.Groups = keep(s.Groups, func(x species.Group) bool { return in(c.e.Accounts, x) || !in(g.Accounts, x) })
	return s
}

// hiddenBeat reports whether the beat of a visit is for members, or would place the visit near what the guide must not betray.
func hiddenBeat(v *Visit) bool {
	b := v.BeatOf()
	return b != nil && (b.Members || b.HasPlace && nearSensitive(v.Water, b.Place))
}

func (c *cutter) corrections(g *Guide, members bool) {
	c.e.Corrections = nil
	for _, k := range g.Corrections {
		if !members && hiddenFile(g, k.File) {
			continue
		}
		k.By = c.shown(k.By)
		c.e.Corrections = append(c.e.Corrections, k)
	}
}

// photos are those that may be published in this edition; one that shows a
// withheld fly or water is withheld with it. They name the edition's own
// records, and credit people as they wish to be named.
func (c *cutter) photos(g *Guide, members bool) {
	c.e.Photos = nil
	for _, p := range g.Photos {
		if !p.Published || !members && p.withheld() {
			continue
		}
		cut := *p
		cut.Permission.By = ""
		cut.Credit = c.credited(p.Credit)
		if p.Credit != "" && cut.Credit == "" {
			continue // whoever took it wants no name: a picture is published with a credit or not at all
		}
		if p.Shows.Water != nil {
			cut.Shows.Water = c.waterOf[p.Shows.Water]
		}
		for _, a := range c.e.Accounts {
			if p.Shows.Fly != nil && a.Address == p.Shows.Fly.Address {
				cut.Shows.Fly = a
			}
		}
		c.e.Photos = append(c.e.Photos, &cut)
	}
}

func (p *Photo) withheld() bool {
	return p.Members || p.Shows.Fly != nil && p.Shows.Fly.Members || p.Shows.Water != nil && p.Shows.Water.Members
}

func hiddenFile(g *Guide, file string) bool {
	return slices.ContainsFunc(g.Accounts, func(a *species.Account) bool { return a.Members && a.File == file }) ||
		slices.ContainsFunc(g.Waters, func(w *rivers.Water) bool { return w.Members && w.File == file }) ||
		slices.ContainsFunc(g.Dressings, func(d *species.Dressing) bool { return d.Members && d.File == file }) ||
		slices.ContainsFunc(g.Notes, func(n Note) bool { return n.Members && n.Body.File == file })
}

// withhold gathers the texts of records and blocks that are for members.
func (c *cutter) withhold(g *Guide) {
	add := func(s ...string) { c.said = append(c.said, s...) }
	put := func(at measure.Coordinates, km float64) {
		add(at.String())
		if at.Grid != "" {
			add(at.Grid, strings.ReplaceAll(at.Grid, " ", ""))
		}
		c.places = append(c.places, hiddenPlace{at.String(), at, max(km, 1)})
	}
	for _, a := range g.Accounts {
		if a.Members {
			add(a.Name.S, a.Scientific.Name.S)
		}
	}
	for _, d := range g.Dressings {
		if d.Members {
			add(d.Name.S)
		}
	}
	for _, n := range g.Notes {
		if n.Members {
			add(n.Title)
		}
	}
	for _, p := range g.Photos {
		if p.withheld() {
			add(sentences(p.Alt, p.Caption)...)
		}
	}
	for _, w := range g.Waters {
		if w.Members {
			add(w.Name.S, w.Code.S, w.Meet.S)
			if w.HasPlace {
				put(w.Place, 0)
			}
		}
		for _, b := range w.Beats {
			if b.Members || w.Members {
				add(b.Name.S)
				if b.HasPlace {
					put(b.Place, 0)
				}
			}
		}
		for _, s := range w.Sensitive {
			if s.Members || w.Members {
				add(s.About.S)
				put(s.Place, s.Radius/1000)
			}
		}
	}
}

// sentences leaves out what is so short that any page may say it by itself.
func sentences(texts ...string) []string {
	return keep(texts, func(s string) bool { return len(strings.Fields(s)) > 4 })
}
