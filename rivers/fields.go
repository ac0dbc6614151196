package rivers

// The tables of fields of a river record: one drives the reader, the
// suggestions, the JSON Schema and the page on the format.

import (
	"guidegen/content"
	"guidegen/species"
	"guidegen/species/tying"
)

func list[T ~string](l []T) []string {
	var w []string
	for _, x := range l {
		w = append(w, string(x))
	}
	return w
}

var (
	showField  = content.Field{Key: "show", Shape: content.Choice, Choices: []string{"members", "everyone"}, Doc: "who may read it; everyone if not said", Example: "members"}
	basisField = content.Field{Key: "basis", Shape: content.Line, Doc: "what the statements below rest on that name nothing else; own if not said", Example: "own"}
)

// WaterRecord lists the keys of a river record.
var WaterRecord = &content.Record{Name: "river record", Doc: "One water: a river, stream, lake or reservoir.", Fields: []content.Field{
	{Key: "name", Shape: content.Line, Required: true, Doc: "the water's name; it may change", Example: "Thessel"},
	{Key: "also", Shape: content.Texts, Doc: "other names in use", Example: "[Thessel Brook]"},
	{Key: "was", Shape: content.Texts, Doc: "older addresses, which still lead here", Example: "[upper-thessel]"},
	{Key: "kind", Shape: content.Choice, Required: true, Choices: list(Kinds), Doc: "what feeds it, or what kind of still water it is", Example: "spring-fed"},
	{Key: "place", Shape: content.Line, Doc: "a point on it, in decimal degrees or as a grid reference, NY 123 456", Example: "55.213 N, 4.871 W"},
	{Key: "altitude", Shape: content.Line, Doc: "height above the sea, one value or a range", Example: "35-110 m"},
	{Key: "time_zone", Shape: content.Line, Doc: "its time zone, by the IANA name", Example: "Europe/London"},
	{Key: "bed", Shape: content.Line, Doc: "what it runs over", Example: "gravel over chalk"},
	{Key: "about", Shape: content.Line, Doc: "a few words on it", Example: "a short stream with steady flow"},
	basisField, showField,
	{Key: "reach", Shape: content.Line, Doc: "how far its places lie from `place`; 25 km if not said", Example: "8 km"},
	{Key: "temperature", Shape: content.Block, Of: MonthsRecord, Doc: "monthly mean water temperature", Example: "{unit: °C, months: [5, 5, 6, 8, 11, 14, 15, 15, 13, 10, 7, 6]}"},
	{Key: "regulated", Shape: content.Line, Doc: "yes where a dam or other works rule its temperature; a text may follow", Example: "yes, by the dam above the mill"},
	{Key: "beats", Shape: content.Named, Of: BeatRecord, Doc: "its beats or sites", Example: "{church meadow: {place: \"55.2131 N, 4.8713 W\"}}"},
	{Key: "flies", Shape: content.Anything, Of: ListingRecord, Doc: "its flies, each with an abundance class, `listed`, or dates of its own", Example: "{Large dark olive: abundant}"},
	{Key: "seasons", Shape: content.Blocks, Of: SeasonRecord, Doc: "the fishing season of each fish", Example: "[{fish: trout, open: 1 Apr, close: 30 Sep, checked: 2026-01-10}]"},
	{Key: "rules", Shape: content.Line, Doc: "rules of fishing", Example: "Barbless hooks."},
	{Key: "methods", Shape: content.Texts, Choices: list(tying.Methods), Doc: "the kinds of fly that its rules allow; all if not said. Others are offered nowhere on its pages", Example: "[dry, nymph]"},
	{Key: "access", Shape: content.Line, Doc: "how to reach it", Example: "Gate by the church."},
	{Key: "hazards", Shape: content.Texts, Doc: "what to beware of", Example: "[deep silt below the osier bed]"},
	{Key: "emergency", Shape: content.Block, Of: EmergencyRecord, Doc: "how to tell rescuers where one is", Example: "{code: TV-07, meet: church gate, place: \"55.2131 N, 4.8713 W\"}"},
	{Key: "sensitive", Shape: content.Blocks, Of: SensitiveRecord, Doc: "places that the guide must not betray", Example: "[{place: \"55.21 N, 4.87 W\", radius: 200 m}]"},
}}

// MonthsRecord lists the keys of a block of monthly temperatures.
var MonthsRecord = &content.Record{Name: "monthly temperature", Doc: "Twelve mean water temperatures.", Fields: []content.Field{
	{Key: "unit", Shape: content.Line, Required: true, Doc: "°C or °F", Example: "°C"},
	basisField,
	{Key: "months", Shape: content.Texts, Required: true, Doc: "January to December; ~ where it is not known", Example: "[5, 5, 6, 8, 11, 14, 15, 15, 13, 10, 7, 6]"},
}}

// BeatRecord lists the keys of one beat; a place alone may stand for the block.
var BeatRecord = &content.Record{Name: "beat", Doc: "A named stretch or site.", Fields: []content.Field{
	{Key: "place", Shape: content.Line, Doc: "a point on it, in decimal degrees or as a grid reference, NY 123 456", Example: "55.2131 N, 4.8713 W"},
	{Key: "altitude", Shape: content.Line, Doc: "height above the sea", Example: "60 m"},
	showField,
}}

// ListingRecord lists the keys of one fly in a water's list; a class alone may stand for the block.
var ListingRecord = &content.Record{Name: "listed fly", Doc: "One fly of the water.", Fields: []content.Field{
	{Key: "abundance", Shape: content.Choice, Choices: append(list(species.Classes), "listed"), Doc: "its class here; the account's own holds where it is only listed", Example: "frequent"},
	{Key: "from", Shape: content.Line, Doc: "first day here, for a fly with one flight", Example: "early May"},
	{Key: "peak", Shape: content.Line, Doc: "day of most flies here", Example: "mid May"},
	{Key: "to", Shape: content.Line, Doc: "last day here", Example: "mid Jun"},
	{Key: "flights", Shape: content.Named, Of: species.DatesRecord, Doc: "dates here by the account's flights", Example: "{spring: {from: early Mar, peak: mid Apr, to: mid May}}"},
	basisField, showField,
}}

// SeasonRecord lists the keys of one fishing season.
var SeasonRecord = &content.Record{Name: "season", Doc: "When one fish may be fished for.", Fields: []content.Field{
	{Key: "fish", Shape: content.Line, Required: true, Doc: "which fish", Example: "trout"},
	{Key: "open", Shape: content.Line, Required: true, Doc: "first day of fishing", Example: "1 Apr"},
	{Key: "close", Shape: content.Line, Required: true, Doc: "last day of fishing", Example: "30 Sep"},
	{Key: "checked", Shape: content.Line, Doc: "when the dates were last checked", Example: "2026-01-10"},
	{Key: "note", Shape: content.Line, Doc: "anything else", Example: "fly only until June"},
}}

// EmergencyRecord lists the keys of `emergency`.
var EmergencyRecord = &content.Record{Name: "emergency", Doc: "How to tell rescuers where one is.", Fields: []content.Field{
	{Key: "code", Shape: content.Line, Doc: "the location's code", Example: "TV-07"},
	{Key: "meet", Shape: content.Line, Doc: "where to meet them", Example: "church gate"},
	{Key: "place", Shape: content.Line, Doc: "the meeting place, in decimal degrees or as a grid reference: a rescue service knows no club's code", Example: "55.2131 N, 4.8713 W"},
}}

// SensitiveRecord lists the keys of one sensitive place.
var SensitiveRecord = &content.Record{Name: "sensitive place", Doc: "A place that the guide must not betray.", Fields: []content.Field{
	{Key: "place", Shape: content.Line, Required: true, Doc: "its middle, in decimal degrees or as a grid reference", Example: "55.21 N, 4.87 W"},
	{Key: "radius", Shape: content.Line, Doc: "how far it reaches", Example: "200 m"},
	{Key: "about", Shape: content.Line, Doc: "what is there", Example: "a nest"},
	{Key: "show", Shape: content.Choice, Choices: []string{"members", "everyone"}, Doc: "who may read it; members if not said", Example: "members"},
}}
