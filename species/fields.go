package species

// The tables of fields: one drives the reader, the suggestions, the JSON
// Schema and the page on the format.

import "guidegen/content"

func words[T ~string](l []T, more ...string) []string {
	w := make([]string, 0, len(l)+len(more))
	for _, x := range l {
		w = append(w, string(x))
	}
	return append(w, more...)
}

var (
	showField  = content.Field{Key: "show", Shape: content.Choice, Choices: []string{"members", "everyone"}, Doc: "who may read it; everyone if not said", Example: "members"}
	basisField = content.Field{Key: "basis", Shape: content.Line, Doc: "what every statement below rests on that names nothing else: own, common practice, memory or a key of sources.yaml", Example: "common practice"}
	nameField  = content.Field{Key: "name", Shape: content.Line, Required: true, Doc: "the name the guide uses; it may change", Example: "Large dark olive"}
	alsoField  = content.Field{Key: "also", Shape: content.Texts, Doc: "other names in use", Example: "[early olive]"}
	wasField   = content.Field{Key: "was", Shape: content.Texts, Doc: "older addresses, which still lead here", Example: "[blue-dun]"}
)

// AccountRecord lists the keys of an account's head.
var AccountRecord = &content.Record{Name: "account", Doc: "One fly: a YAML head between two lines ---, then Markdown.", Fields: []content.Field{
	nameField,
	{Key: "scientific", Shape: content.Line, Doc: "the scientific name and its authority", Example: "Baetis rhodani (Pictet, 1843)"},
	{Key: "also", Shape: content.Texts, Doc: "other names in use; with a stage and sex where a name is of that alone", Example: "[early olive, small red spinner (spinner female)]"},
	{Key: "names", Shape: content.Named, Doc: "names in other languages, by language tag", Example: "{cy: [Gwybedyn Mawrth]}"},
	{Key: "old", Shape: content.Texts, Doc: "names no longer used", Example: "[blue dun]"},
	{Key: "synonyms", Shape: content.Texts, Doc: "older scientific names", Example: "[Ephemerella ignita]"},
	wasField,
	{Key: "family", Shape: content.Line, Doc: "the family's scientific name; the order follows from the group", Example: "Baetidae"},
	{Key: "group", Shape: content.Choice, Required: true, Choices: words(Groups), Doc: "the angler's division of flies", Example: "upwinged"},
	{Key: "form", Shape: content.Choice, Choices: Forms, Doc: "its build, where the group alone can't draw it", Example: "hawthorn"},
	{Key: "water", Shape: content.Texts, Doc: "kinds of place it lives in", Example: "[river, stream]"},
	{Key: "reviewed", Shape: content.Line, Doc: "when the account was last gone through, and by whom", Example: "2026-02-14, E. Marl"},
	basisField,
	showField,
	{Key: "protected", Shape: content.Blocks, Of: ProtectionRecord, Doc: "legal protection, by country, dated", Example: "[{country: Wales, status: listed, date: 2016}]"},
	{Key: "altitude", Shape: content.Statement, Doc: "the known range of altitude", Example: "up to 600 m (handbook)"},
	{Key: "flights", Shape: content.Named, Of: FlightRecord, Doc: "the generations on the wing, each by a name of its own", Example: "{spring: {from: mid Feb, peak: late Mar, to: late Apr, abundance: abundant}}"},
	{Key: "fish_meet", Shape: content.Texts, Doc: "the stages that fish meet, where they aren't those of its group", Example: "[nymph, dun, spinner]"},
	{Key: "emerges", Shape: content.Statement, Choices: words(Emergences, "unknown"), Doc: "how it leaves the water", Example: "at the surface"},
	{Key: "lays", Shape: content.Statement, Choices: words(Layings, "unknown"), Doc: "how the female lays", Example: "under water (handbook)"},
	{Key: "level", Shape: content.Cases, Doc: "where in the water each stage is taken: bottom, midwater, film, surface", Example: "{nymph: midwater, dun: surface}"},
	{Key: "hours", Shape: content.Cases, Doc: "hours of the day, by clock or by the sun", Example: "{dun: 11:00 to 15:30, spinner: sunset-2h to sunset+30min}"},
	{Key: "length", Shape: content.Cases, Doc: "length of the body without tails, or overall at rest for winged sedges, stoneflies and alders; or say which", Example: "{dun: 7.5 to 9.5 mm body}"},
	{Key: "wing", Shape: content.Cases, Doc: "length of the fore wing", Example: "{dun: 8 to 10 mm}"},
	{Key: "book_size", Shape: content.Cases, Doc: "hook size in a book, with its source", Example: "{dun: 14 (handbook)}"},
	{Key: "colours", Shape: content.Cases, Doc: "colours of the parts: words, or six hex digits without #; then wet or dry, and the light", Example: "{dun: {body: Dark Olive, wing: Dark Bluish Gray}}"},
	{Key: "features", Shape: content.Named, Doc: "states of the features of characters.yaml", Example: "{tails: {nymph: three, dun: two}}"},
}}

// FlightRecord lists the keys of one flight of an account.
var FlightRecord = &content.Record{Name: "flight", Doc: "One generation on the wing.", Fields: append(flightDates(true),
	content.Field{Key: "abundance", Shape: content.Choice, Required: true, Choices: words(Classes), Doc: "the share of visits that find it at its peak, as a class", Example: "abundant"},
	content.Field{Key: "moves", Shape: content.Choice, Choices: words(Rules), Doc: "what moves the flight between waters; by warmth where it is known, else altitude, if not said", Example: "warmth"},
	content.Field{Key: "days_per_degree", Shape: content.Statement, Doc: "days that a degree Celsius of warmer water brings it forward", Example: "4 (handbook)"},
	basisField)}

func flightDates(required bool) []content.Field {
	return []content.Field{
		{Key: "from", Shape: content.Line, Required: required, Doc: "first day", Example: "mid Feb"},
		{Key: "peak", Shape: content.Line, Doc: "day of most flies", Example: "late Mar"},
		{Key: "to", Shape: content.Line, Required: required, Doc: "last day", Example: "late Apr"},
	}
}

// DatesRecord lists the keys of a water's own dates for one flight.
var DatesRecord = &content.Record{Name: "water's own flight", Doc: "A flight's dates on one water; they are not moved.", Fields: append(flightDates(true), basisField)}

// ProtectionRecord lists the keys of one entry of `protected`.
var ProtectionRecord = &content.Record{Name: "protection", Doc: "A legal status.", Fields: []content.Field{
	{Key: "country", Shape: content.Line, Required: true, Doc: "where it holds", Example: "Wales"},
	{Key: "status", Shape: content.Line, Required: true, Doc: "what the law says", Example: "may not be taken"},
	{Key: "date", Shape: content.Line, Required: true, Doc: "when that was last so", Example: "2025"},
}}

// DressingRecord lists the keys of a dressing.
var DressingRecord = &content.Record{Name: "dressing", Doc: "One artificial fly.", Fields: []content.Field{
	nameField, alsoField, wasField, basisField,
	{Key: "from", Shape: content.Line, Doc: "who first tied it, or traditional", Example: "traditional"},
	{Key: "fishes", Shape: content.Statement, Choices: words(Levels), Doc: "where it fishes: one level or a list", Example: "surface"},
	{Key: "stands_for", Shape: content.Blocks, Of: StandsForRecord, Doc: "the flies or groups and the stages it copies", Example: "{flies: [Large dark olive], stage: dun}"},
	{Key: "sizes", Shape: content.Line, Doc: "hook sizes it is tied in", Example: "14-18"},
	{Key: "parts", Shape: content.Named, Of: PartRecord, Doc: "the recipe, part by part as tied in: a rib before the body that it is wound over", Example: "{hook: Plain dry, thread: grey, body: {of: olive fur, colour: Dark Olive}}"},
	{Key: "notes", Shape: content.Line, Doc: "anything else", Example: "fish it without movement"},
	showField,
}}

// BoxRecord lists the keys of a file that holds several dressings.
var BoxRecord = &content.Record{Name: "box", Doc: "Several dressings in one file.", Fields: []content.Field{
	basisField, showField,
	{Key: "box", Shape: content.Blocks, Of: DressingRecord, Required: true, Doc: "the dressings", Example: "[{name: Dark Upright}]"},
}}

// StandsForRecord lists the keys of `stands_for`.
var StandsForRecord = &content.Record{Name: "stands_for", Doc: "What a dressing copies.", Fields: []content.Field{
	{Key: "flies", Shape: content.Texts, Doc: "flies by name", Example: "[Large dark olive]"},
	{Key: "groups", Shape: content.Texts, Choices: words(Groups), Doc: "whole groups", Example: "[upwinged]"},
	{Key: "stage", Shape: content.Texts, Choices: words(AllStages), Doc: "the stage it copies", Example: "dun"},
	{Key: "stages", Shape: content.Texts, Choices: words(AllStages), Doc: "the stages it copies, where there are several", Example: "[dun, spinner]"},
	{Key: "sex", Shape: content.Choice, Choices: []string{"male", "female"}, Doc: "the sex, where only one is copied", Example: "female"},
}}

// PartRecord lists the keys of one part of a dressing; a text alone is what it is made of.
var PartRecord = &content.Record{Name: "part", Doc: "One line of a recipe.", Fields: []content.Field{
	{Key: "of", Shape: content.Line, Doc: "what it is made of", Example: "olive fur"},
	{Key: "colour", Shape: content.Line, Doc: "the colour the tyer sees", Example: "Dark Olive"},
	{Key: "wet", Shape: content.Choice, Choices: []string{"yes", "no"}, Doc: "whether the colour is that of the wet material", Example: "yes"},
	{Key: "light", Shape: content.Line, Doc: "the light it was seen in", Example: "against the light"},
}}

// CharacterRecord lists the keys of one feature of characters.yaml.
var CharacterRecord = &content.Record{Name: "feature", Doc: "One feature that tells flies apart.", Fields: []content.Field{
	{Key: "states", Shape: content.Anything, Required: true, Doc: "its states, in the order a key offers them", Example: "[two, three]"},
	{Key: "seen", Shape: content.Texts, Doc: "stages, or a stage and a sex, in which it can be seen", Example: "[dun, spinner male]"},
	{Key: "groups", Shape: content.Texts, Choices: words(Groups), Doc: "groups of flies that it applies to; those of which some fly has a state, if not said", Example: "[upwinged]"},
	{Key: "needs", Shape: content.Choice, Choices: words(AllNeeds), Doc: "what it takes to see it; the naked eye if not said", Example: "hand lens"},
	{Key: "draw", Shape: content.Choice, Choices: sortedKeys(Drawable), Doc: "the part of the drawing it belongs to", Example: "tail count"},
	{Key: "about", Shape: content.Line, Doc: "how to look", Example: "Count at the root; tips break off."},
}}

// StateRecord lists the keys of one state of a feature.
var StateRecord = &content.Record{Name: "state", Doc: "One state of a feature.", Fields: []content.Field{
	{Key: "draw", Shape: content.Line, Doc: "how the drawing shows it", Example: "3"},
	{Key: "about", Shape: content.Line, Doc: "what it looks like", Example: "rounded, a seventh of the fore wing"},
}}

// SourceRecord lists the keys of one entry of sources.yaml.
var SourceRecord = &content.Record{Name: "source", Doc: "A book, paper, page, person or measurement.", Fields: []content.Field{
	{Key: "cite", Shape: content.Line, Required: true, Doc: "how it is cited", Example: "Somebody 1998, A handbook, 2nd edition"},
	{Key: "kind", Shape: content.Choice, Required: true, Choices: SourceKinds, Doc: "what it is", Example: "book"},
	{Key: "doi", Shape: content.Line, Doc: "its DOI", Example: "10.1000/182"},
	{Key: "isbn", Shape: content.Line, Doc: "its ISBN", Example: "978-0-306-40615-7"},
	{Key: "url", Shape: content.Line, Doc: "its address on the web", Example: "https://example.org/page"},
	{Key: "read", Shape: content.Choice, Choices: []string{"yes", "no", "part"}, Doc: "whether somebody has read the source itself", Example: "yes"},
	{Key: "licence", Shape: content.Line, Doc: "the licence of what is taken from it", Example: "CC BY 4.0"},
}}

// HookColumns lists the columns of hooks.csv.
var HookColumns = []content.Column{
	{Name: "model", Required: true, Doc: "the hook's model", Example: "Plain dry"},
	{Name: "size", Required: true, Doc: "its size", Example: "14"},
	{Name: "shank", Units: []string{"mm", "in"}, Required: true, Doc: "length of the shank; empty for a curved hook", Example: "8.4"},
	{Name: "gape", Units: []string{"mm", "in"}, Doc: "width of the gape", Example: "4.9"},
	{Name: "shape", Required: true, Doc: "straight or curved", Example: "straight"},
	{Name: "for", Doc: "stages or groups that the model serves, with ; between them; empty: all", Example: "nymph; pupa"},
	{Name: "from", Units: []string{"mm", "in"}, Doc: "the least body worth tying on it", Example: "9"},
	{Name: "measured by", Doc: "who measured it", Example: "E. Marl"},
	{Name: "measured on", Doc: "when", Example: "2026-01-11"},
}
