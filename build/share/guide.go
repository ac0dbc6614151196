package share

// data/guide.json: what holds for the whole guide, and the way to every water.

import (
	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/species"
	"guidegen/species/hook"
	"guidegen/species/key"
)

type whole struct {
	head
	Publisher  *string        `json:"publisher,omitempty" doc:"who publishes it"`
	Region     *string        `json:"region,omitempty" doc:"the region it is for"`
	Address    *string        `json:"address,omitempty" doc:"base address of the site"`
	Languages  []string       `json:"languages,omitempty" doc:"language tags, the guide's own first"`
	Units      units          `json:"units" doc:"what pages show; these files are in mm, °C and m"`
	Reference  reference      `json:"reference" doc:"the water that the accounts describe"`
	Constants  []constant     `json:"constants,omitempty" doc:"constants in force, in the order of the rules on figures"`
	Trust      number         `json:"trust" doc:"visits that the accounts are worth, as measured over this guide's records" range:"0"`
	Waters     []waterName    `json:"waters,omitempty" doc:"the waters, in page order"`
	Flies      []account      `json:"flies,omitempty" doc:"the accounts, in page order"`
	Characters []character    `json:"characters,omitempty" doc:"features that tell flies apart, in the vocabulary's order"`
	Hooks      []measuredHook `json:"hooks,omitempty" doc:"hooks that the club has measured"`
	Dressings  []dressing     `json:"dressings,omitempty" doc:"dressings, by name"`
	Pairs      []pair         `json:"lookalikes" doc:"flies that could be taken for each other, each two once; a water's file says which meet there"`
	Key        couplets       `json:"key" doc:"the key to all flies"`
	Sources    []source       `json:"sources,omitempty" doc:"books, papers and measurements cited"`
}

type units struct {
	Length      string `json:"length" doc:"of flies"`
	Temperature string `json:"temperature" doc:"of water"`
	Altitude    string `json:"altitude" doc:"heights above the sea"`
}

type reference struct {
	Altitude *altitude `json:"altitude,omitempty" doc:"height above the sea; the middle is reckoned with"`
	Latitude *number   `json:"latitude,omitempty" doc:"degrees, north positive" range:"-90 90"`
	South    bool      `json:"south,omitempty" doc:"the guide lies south of the equator"`
	Months   []*number `json:"monthly_temperature" doc:"mean water temperature, °C, January first; null where a month isn't known" items:"12"`
}

type constant struct {
	Group   string `json:"group" doc:"its block under figures: in guide.yaml"`
	Key     string `json:"key" doc:"its key there"`
	Section int    `json:"section" doc:"of the rules on figures" range:"1"`
	Value   number `json:"value" doc:"in force"`
	Default number `json:"default" doc:"in a guide that changes none"`
	Unit    string `json:"unit" doc:"what it is counted in"`
	What    string `json:"what" doc:"what it is"`
	Basis   string `json:"basis" doc:"a source, or our judgement"`
}

type waterName struct {
	Address string `json:"address" doc:"lasting address"`
	Name    string `json:"name" doc:"the water's name"`
	Kind    string `json:"kind" doc:"kind of water"`
	Data    string `json:"data" doc:"its file of figures, from this file"`
}

type account struct {
	Address    string          `json:"address" doc:"lasting address"`
	Name       string          `json:"name" doc:"the fly's name"`
	Scientific *string         `json:"scientific,omitempty" doc:"scientific name"`
	Authority  *string         `json:"authority,omitempty" doc:"who described it, and when"`
	Group      string          `json:"group" doc:"the angler's division"`
	Family     *string         `json:"family,omitempty" doc:"family"`
	Reviewed   *date           `json:"reviewed,omitempty" doc:"when the account was last gone through"`
	Flights    []accountFlight `json:"flights,omitempty" doc:"generations on the wing, at the reference"`
	Sizes      []size          `json:"sizes,omitempty" doc:"lengths by stage, sex and flight; measured ones over all waters together"`
	Waters     []string        `json:"waters,omitempty" doc:"addresses of the waters that have a row for it"`
}

type accountFlight struct {
	Name  string    `json:"name" doc:"the flight's name"`
	From  *day      `json:"from,omitempty" doc:"first day"`
	Peak  *day      `json:"peak,omitempty" doc:"day of most flies; left out where the account gives none"`
	To    *day      `json:"to,omitempty" doc:"last day"`
	Class *string   `json:"class,omitempty" doc:"abundance class" enum:"dominant|abundant|frequent|occasional|rare"`
	Moves *string   `json:"moves,omitempty" doc:"rule that moves it between waters; left out: by default" enum:"warmth|altitude|nothing"`
	Days  *number   `json:"days_per_degree,omitempty" doc:"days earlier per °C warmer; left out: the constant"`
	Basis []support `json:"basis,omitempty" doc:"what it rests on"`
}

type character struct {
	Name   string   `json:"name" doc:"the feature"`
	States []string `json:"states,omitempty" doc:"its states"`
	Needs  string   `json:"needs" doc:"what it takes to see it" enum:"naked eye|hand lens|microscope"`
	Seen   []form   `json:"seen_in,omitempty" doc:"where it can be seen; left out: everywhere"`
}

type form struct {
	Stage *string `json:"stage,omitempty" doc:"stage of life; left out: every stage"`
	Sex   *string `json:"sex,omitempty" doc:"left out: both" enum:"male|female"`
}

type measuredHook struct {
	Model  string  `json:"model" doc:"the hook's model"`
	Size   string  `json:"size" doc:"its size"`
	Shank  *number `json:"shank,omitempty" doc:"millimetres; left out for a curved hook, which has none" range:"0"`
	Gape   *number `json:"gape,omitempty" doc:"millimetres" range:"0"`
	Curved bool    `json:"curved,omitempty" doc:"curved, not straight"`
}

type dressing struct {
	Address string      `json:"address" doc:"lasting address"`
	Name    string      `json:"name" doc:"its name"`
	Fishes  []string    `json:"fishes,omitempty" doc:"levels it fishes at" enum:"bottom|midwater|film|surface"`
	For     []standsFor `json:"stands_for,omitempty" doc:"what it copies"`
	Sizes   []string    `json:"sizes,omitempty" doc:"hook sizes it is tied in, largest first"`
	Parts   []recipe    `json:"parts,omitempty" doc:"the recipe, in the order in which it is tied"`
}

type standsFor struct {
	Flies  []string `json:"flies,omitempty" doc:"addresses of flies"`
	Groups []string `json:"groups,omitempty" doc:"whole groups"`
	Stages []string `json:"stages,omitempty" doc:"stages; left out: any"`
	Sex    *string  `json:"sex,omitempty" doc:"left out: both" enum:"male|female"`
}

type recipe struct {
	Part   string  `json:"part" doc:"part of the dressing"`
	Of     *string `json:"of,omitempty" doc:"what it is made of"`
	Colour *string `json:"colour,omitempty" doc:"the colour in words"`
	Hex    *string `json:"srgb,omitempty" doc:"its sRGB value, six hex digits" pattern:"^[0-9a-f]{6}$"`
}

type source struct {
	Key  string  `json:"key" doc:"its key"`
	Cite string  `json:"cite" doc:"how it is cited"`
	DOI  *string `json:"doi,omitempty" doc:"its DOI"`
	URL  *string `json:"url,omitempty" doc:"its address"`
}

func guideOf(book *figures.Book) *whole {
	e := book.Edition
	s := e.Settings
	out := &whole{head: headOf(book, "guide.schema.json", book.RecordsTo), Publisher: text(s.Publisher), Region: text(s.Region), Address: text(s.Address),
		Languages: list(s.Languages), Units: units{s.Units.Length, s.Units.Temperature, s.Units.Altitude}, Reference: referenceOf(s.Reference), Trust: number(book.Trust), Pairs: pairsOf(book), Key: keyOf(book.Key())}
	out.Constants = each(e.Constants.List(), func(c guide.Constant) constant {
		return constant{c.Group, c.Key, c.Section, number(c.Value), number(c.Default), c.Unit, c.What, c.Basis}
	})
	out.Waters = each(book.Waters, func(w *figures.Water) waterName {
		return waterName{w.Address, w.Name.S, string(w.Kind), "rivers/" + w.Address + ".json"}
	})
	out.Flies = each(book.Flies, accountOf)
	out.Characters = each(book.Vocabulary, func(c key.Character) character {
		return character{c.Name, list(c.States), c.Needs.String(), each(c.SeenIn, formOf)}
	})
	out.Hooks = each(e.Hooks, func(h hook.Measured) measuredHook {
		return measuredHook{h.Model, h.Size.String(), known(float64(h.Shank), h.Shank > 0), known(float64(h.Gape), h.Gape > 0), h.Curved}
	})
	out.Dressings = each(book.Dressings, func(d *figures.Dressing) dressing { return dressingOf(book, d) })
	out.Sources = each(e.Sources, func(x species.Source) source { return source{x.Key, x.Cite.S, text(x.DOI), text(x.URL)} })
	return out
}

func referenceOf(r guide.Reference) reference {
	out := reference{Latitude: known(r.Latitude.Degrees, r.HasLatitude), South: r.South, Months: monthsOf(r.Temperature)}
	if r.HasAltitude {
		out.Altitude = &altitude{number(r.Altitude.Low), number(r.Altitude.High)}
	}
	return out
}

func accountOf(f *figures.Fly) account {
	out := account{Address: f.Address, Name: f.Name.S, Scientific: text(f.Scientific.Name.S), Authority: text(f.Scientific.Authority), Group: string(f.Group),
		Family: text(f.Family.S), Reviewed: maybeDate(f.Reviewed), Sizes: each(f.Sizes, sizeOf),
		Waters: each(f.Rows, func(r *figures.Row) string { return r.Water.Address })}
	out.Flights = each(f.Flights, func(x species.Flight) accountFlight {
		y := accountFlight{x.Name, maybeDay(x.From), maybeDay(x.Peak), maybeDay(x.To), text(string(x.Class)), text(string(x.Moves)), nil, basisOf(x.Basis)}
		if c, ok := x.DaysPerDegree.First(); ok {
			y.Days = known(float64(c.Value), true)
		}
		return y
	})
	return out
}

func formOf(f key.Form) form { return form{text(f.Stage), text(f.Sex)} }

// dressingOf leaves out flies that this edition doesn't have.
func dressingOf(book *figures.Book, d *figures.Dressing) dressing {
	shown := map[string]bool{}
	for _, f := range book.Flies {
		shown[f.Address] = true
	}
	words := func(l []species.Stage) []string { return each(l, func(s species.Stage) string { return string(s) }) }
	out := dressing{Address: d.Address, Name: d.Name.S, Fishes: each(d.Fishes, func(l species.Level) string { return string(l) }),
		Sizes: each(d.Sizes, hook.Size.String)}
	out.For = each(d.Dressing.For, func(s species.StandsFor) standsFor {
		x := standsFor{Flies: []string{}, Groups: each(s.Groups, func(g species.Group) string { return string(g) }), Stages: words(s.Stages), Sex: text(string(s.Sex))}
		for _, a := range s.Accounts {
			if shown[a] {
				x.Flies = append(x.Flies, a)
			}
		}
		return x
	})
	out.Parts = each(d.Parts, func(p species.DressingPart) recipe {
		r := recipe{Part: p.Part, Of: text(p.Of.S), Colour: text(p.Shade.Colour.Words)}
		if p.Shade.Colour.HasValue {
			r.Hex = text(p.Shade.Colour.Value.Hex())
		}
		return r
	})
	return out
}
