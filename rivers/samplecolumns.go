package rivers

// The columns of a sample file: Darwin Core terms (Darwin Core, TDWG standard
// 2009, dwc.tdwg.org/terms), or plain headings that mean exactly the same.

import (
	"slices"

	"guidegen/content"
)

type sampleKey int

const (
	visitID sampleKey = iota // from here to visitBy: columns of the visit, repeated where empty
	visitDate
	visitTime
	visitStart
	visitEnd
	visitWater
	visitBeat
	visitLatitude
	visitLongitude
	visitGrid
	visitUncertainty
	visitProtocol
	visitAmount
	visitAmountUnit
	visitEffort
	visitEffortText
	visitScope
	visitBy
	findID // from here to findReared: columns of one find
	findStatus
	findFly
	findCalled
	findRank
	findQualifier
	findStage
	findSex
	findCount
	findQuantity
	findQuantityType
	findDepth // plain: one or a range
	findDepthLow
	findDepthHigh
	findBy
	findIdentified
	findChecked
	findReared
	lengthsMany // plain: several numbers
	lengthsPart // plain: body or overall
	measuredType
	measuredValue
	measuredUnit
	measuredMethod
	remarks
	sampleKeys
)

// SampleColumn is one column: its Darwin Core term, its plain heading, or both.
type SampleColumn struct {
	key         sampleKey
	Term, Plain string
	Units       []string // of the plain heading
	Required    bool
	Rare        bool // left out of empty forms
	Doc         string
	Example     string
}

// SampleColumns lists the columns in the order of an empty form.
var SampleColumns = []SampleColumn{
	{key: visitID, Term: "eventID", Plain: "visit", Required: true, Doc: "the visit's own mark; rows of one visit share it", Example: "TH26-01"},
	{key: visitDate, Term: "eventDate", Plain: "date", Required: true, Doc: "the day (a month, a year or a range stays vague)", Example: "2026-03-21"},
	{key: visitTime, Term: "eventTime", Doc: "start, or start/end, in local time", Example: "11:40/12:20"},
	{key: visitStart, Plain: "start", Doc: "start, in local time", Example: "11:40"},
	{key: visitEnd, Plain: "end", Doc: "end, in local time", Example: "12:20"},
	{key: visitWater, Term: "waterBody", Plain: "water", Required: true, Doc: "the water", Example: "Thessel"},
	{key: visitBeat, Term: "locality", Plain: "beat", Doc: "the beat or site", Example: "church meadow"},
	{key: visitLatitude, Term: "decimalLatitude", Doc: "north positive", Example: "55.2131"},
	{key: visitLongitude, Term: "decimalLongitude", Doc: "east positive", Example: "-4.8713"},
	{key: visitGrid, Term: "verbatimCoordinates", Plain: "grid reference", Doc: "the place as a square of a grid, in place of degrees", Example: "NY 123 456"},
	{key: visitUncertainty, Term: "coordinateUncertaintyInMeters", Doc: "how far off the place may be", Example: "50"},
	{key: visitProtocol, Term: "samplingProtocol", Plain: "method", Doc: "how it was sampled", Example: "sweep net"},
	{key: visitAmount, Term: "sampleSizeValue", Doc: "the effort's amount", Example: "50"},
	{key: visitAmountUnit, Term: "sampleSizeUnit", Doc: "the effort's unit", Example: "sweeps"},
	{key: visitEffort, Plain: "effort", Doc: "amount and unit", Example: "50 sweeps"},
	{key: visitEffortText, Term: "samplingEffort", Doc: "anything else on the effort, kept as text", Example: "two people"},
	{key: visitScope, Term: "scope", Plain: "looked for", Doc: "groups looked for: group names parted by ; or water-bred, land-bred, all, none", Example: "water-bred"},
	{key: findID, Term: "occurrenceID", Doc: "the find's own mark; its rows count once and their measurements add", Example: "TH26-01-1"},
	{key: findStatus, Term: "occurrenceStatus", Doc: "present or absent", Example: "present"},
	{key: findFly, Term: "scientificName", Plain: "fly", Doc: "the fly by any of its names, a genus, family or group; unnamed; or nothing", Example: "Baetis rhodani"},
	{key: findCalled, Term: "vernacularName", Doc: "the fly's common name", Example: "Large dark olive"},
	{key: findRank, Term: "taxonRank", Doc: "rank of the name", Example: "species"},
	{key: findQualifier, Term: "identificationQualifier", Doc: "a doubt about the name", Example: "cf."},
	{key: findStage, Term: "lifeStage", Plain: "stage", Doc: "stage of life", Example: "dun"},
	{key: findSex, Term: "sex", Plain: "sex", Doc: "male or female; empty if not known", Example: "female"},
	{key: findCount, Term: "individualCount", Plain: "count", Doc: "how many; empty for present", Example: "7"},
	{key: findQuantity, Term: "organismQuantity", Doc: "a quantity that isn't a count", Example: "frequent"},
	{key: findQuantityType, Term: "organismQuantityType", Doc: "what the quantity is", Example: "abundance class"},
	{key: findDepth, Plain: "depth m", Rare: true, Doc: "depth of water in metres, of larvae and shed skins; one or a range", Example: "1-2"},
	{key: findDepthLow, Term: "minimumDepthInMeters", Doc: "least depth of water", Example: "1"},
	{key: findDepthHigh, Term: "maximumDepthInMeters", Doc: "greatest depth of water", Example: "2"},
	{key: lengthsMany, Plain: "lengths", Units: []string{"mm", "in"}, Doc: "lengths measured, parted by spaces", Example: "7.9 8.3"},
	{key: lengthsPart, Plain: "measured", Doc: "what the lengths measure: body or overall; empty: what is usual for the stage", Example: "body"},
	{key: measuredType, Term: "measurementType", Doc: "what was measured", Example: "body length"},
	{key: measuredValue, Term: "measurementValue", Doc: "the value", Example: "7.9"},
	{key: measuredUnit, Term: "measurementUnit", Doc: "its unit", Example: "mm"},
	{key: measuredMethod, Term: "measurementMethod", Doc: "how it was measured", Example: "without tails"},
	{key: visitBy, Term: "recordedBy", Plain: "by", Doc: "who sampled; several parted by |", Example: "E. Marl"},
	{key: findBy, Term: "identifiedBy", Plain: "named by", Doc: "who named the fly", Example: "T. Osk"},
	{key: findIdentified, Term: "dateIdentified", Doc: "when it was named", Example: "2026-04-02"},
	{key: findChecked, Term: "identificationVerificationStatus", Plain: "checked", Doc: "verified, unreviewed or rejected; unreviewed if empty", Example: "verified"},
	{key: findReared, Term: "reared", Plain: "reared", Doc: "yes where the specimen was reared", Example: "no"},
	{key: remarks, Term: "occurrenceRemarks", Plain: "remarks", Doc: "anything else", Example: "nothing in the net"},
}

// notRead lists Darwin Core terms that a file exported elsewhere may hold and
// that the guide has no use for (from memory of the standard's list of terms).
var notRead = []string{"basisOfRecord", "type", "language", "license", "rightsHolder", "modified", "references",
	"institutionCode", "institutionID", "collectionCode", "collectionID", "datasetName", "datasetID", "ownerInstitutionCode", "informationWithheld",
	"dataGeneralizations", "dynamicProperties", "catalogNumber", "recordNumber", "recordedByID", "identifiedByID", "behavior", "establishmentMeans",
	"preparations", "disposition", "associatedMedia", "associatedTaxa", "otherCatalogNumbers", "parentEventID", "eventType", "fieldNumber",
	"startDayOfYear", "endDayOfYear", "year", "month", "day", "verbatimEventDate", "habitat", "fieldNotes", "eventRemarks", "locationID", "continent",
	"island", "country", "countryCode", "stateProvince", "county", "municipality", "verbatimLocality", "minimumElevationInMeters",
	"maximumElevationInMeters", "locationRemarks", "geodeticDatum", "coordinatePrecision", "verbatimCoordinates", "georeferencedBy",
	"georeferenceRemarks", "identificationID", "identificationReferences", "identificationRemarks", "taxonID", "taxonRemarks", "taxonomicStatus",
	"nomenclaturalCode", "acceptedNameUsage", "higherClassification", "kingdom", "phylum", "class", "order", "family", "genus", "subgenus",
	"specificEpithet", "infraspecificEpithet", "scientificNameAuthorship", "scientificNameID", "measurementID", "measurementDeterminedBy",
	"measurementDeterminedDate", "measurementRemarks", "measurementAccuracy",
	"georeferenceRemarks", "verbatimIdentification", "previousIdentifications"}

// sampleSheet is a sheet whose columns are known.
type sampleSheet struct {
	*content.Sheet
	index      [sampleKeys]int
	heading    [sampleKeys]string
	lengthUnit string
	darwinCore bool
}

// columns finds out which of the two vocabularies a sheet is written in; nil
// where it mixes them.
func columns(s *content.Sheet, ps *content.Problems) *sampleSheet {
	ss := &sampleSheet{Sheet: s}
	var core, plain []int
	other := map[string]string{} // a heading's counterpart in the other vocabulary
	for i, h := range s.Headings {
		for _, c := range SampleColumns {
			if c.Term == c.Plain {
				continue
			}
			var isPlain bool
			for _, n := range plainNames(c) {
				isPlain = isPlain || content.Fold(n) == content.Fold(h.S)
			}
			switch {
			case c.Term != "" && content.Fold(c.Term) == content.Fold(h.S):
				core = append(core, i)
				other[h.S] = c.Plain
			case isPlain:
				plain = append(plain, i)
				other[h.S] = c.Term
			}
		}
	}
	ss.darwinCore = len(core) > len(plain)
	if len(core) > 0 && len(plain) > 0 {
		odd, is, are := plain[0], "a plain heading", "Darwin Core terms"
		if !ss.darwinCore {
			odd, is, are = core[0], "a Darwin Core term", "plain headings"
		}
		want := "write all headings one way"
		if o := other[s.Headings[odd].S]; o != "" {
			want = "write " + o + " here"
		}
		ps.Errorf("mixed-headings", s.Headings[odd].At, want, "%q is %s, but most others are %s", s.Headings[odd].S, is, are)
		return nil
	}
	var cols []content.Column
	for _, c := range SampleColumns {
		name := c.Plain
		if ss.darwinCore {
			name = c.Term
		}
		if name == "" {
			continue
		}
		col := content.Column{Name: name, Required: c.Required, Doc: c.Doc, Example: c.Example}
		if !ss.darwinCore {
			col.Units = c.Units
		}
		cols = append(cols, col)
	}
	var ignored []string
	if ss.darwinCore {
		ignored = notRead
	}
	found := s.Match(cols, ignored, ps)
	for i := range ss.index {
		ss.index[i] = -1
	}
	for _, c := range SampleColumns {
		name := c.Plain
		if ss.darwinCore {
			name = c.Term
		}
		if f, ok := found[name]; ok && name != "" {
			ss.index[c.key], ss.heading[c.key] = f.Index, name
			if c.key == lengthsMany {
				ss.lengthUnit = f.Unit
			}
		}
	}
	if slices.Contains([]int{ss.index[visitID], ss.index[visitDate], ss.index[visitWater]}, -1) {
		return nil // said by Match
	}
	return ss
}

func plainNames(c SampleColumn) []string {
	if c.Units == nil {
		return []string{c.Plain}
	}
	l := []string{c.Plain}
	for _, u := range c.Units {
		l = append(l, c.Plain+" "+u)
	}
	return l
}
