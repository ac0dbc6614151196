package share

// The records as a Darwin Core archive: visits as the core, finds and
// measurements as its extensions (Darwin Core text guide, TDWG 2023; the scope
// is a term of the Humboldt Extension, TDWG 2024). Visits of waters that this
// edition doesn't show, and rejected finds, are left out; what was looked for
// and not found stands as absent, inside the scope of its visit alone.

import (
	"archive/zip"
	"bufio"
	"bytes"
	"cmp"
	"encoding/xml"
	"fmt"
	"iter"
	"slices"
	"strconv"
	"strings"
	"time"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/rivers"
	"guidegen/species"
)

// table is one file of the archive; the first column is the visit's id. Its rows go
// straight into the archive, visit by visit: what was looked for and not found makes
// a row for each fly and visit, more than there is room for.
type table struct {
	file, class string
	terms       []string
	rows        func(v *guide.Visit, w *figures.Water, add func(cells ...string))
}

// writeRow writes cells without a tab or a line break in them. A bufio.Writer keeps its first error.
func writeRow(to *bufio.Writer, cells []string) {
	for i, c := range cells {
		if i > 0 {
			to.WriteByte('\t')
		}
		j := 0
		for word := range strings.FieldsSeq(c) {
			if j++; j > 1 {
				to.WriteByte(' ')
			}
			to.WriteString(word)
		}
	}
	to.WriteByte('\n')
}

const (
	dwc     = "http://rs.tdwg.org/dwc/terms/"
	dcterms = "http://purl.org/dc/terms/"
	eco     = "http://rs.tdwg.org/eco/terms/"
)

func archive(book *figures.Book, words Words) ([]byte, error) {
	events := table{file: "event.txt", class: dwc + "Event", terms: []string{dwc + "eventID", dwc + "eventDate", dwc + "eventTime", dwc + "waterBody", dwc + "locality",
		dwc + "decimalLatitude", dwc + "decimalLongitude", dwc + "geodeticDatum", dwc + "coordinateUncertaintyInMeters", dwc + "verbatimCoordinates",
		dwc + "georeferenceRemarks", dwc + "samplingProtocol",
		dwc + "sampleSizeValue", dwc + "sampleSizeUnit", dwc + "samplingEffort", eco + "targetTaxonomicScope", dwc + "dataGeneralizations",
		dwc + "informationWithheld", dwc + "eventRemarks", dwc + "datasetName", dcterms + "license"},
		rows: func(v *guide.Visit, _ *figures.Water, add func(...string)) { add(eventRow(book, words, v)...) }}
	finds := table{file: "occurrence.txt", class: dwc + "Occurrence", terms: []string{dwc + "eventID", dwc + "occurrenceID", dwc + "basisOfRecord", dwc + "occurrenceStatus",
		dwc + "individualCount", dwc + "scientificName", dwc + "taxonRank", dwc + "identificationQualifier", dwc + "verbatimIdentification", dwc + "vernacularName",
		dwc + "kingdom", dwc + "class", dwc + "order", dwc + "family", dwc + "lifeStage", dwc + "sex", dwc + "minimumDepthInMeters", dwc + "maximumDepthInMeters", dwc + "recordedBy", dwc + "identifiedBy",
		dwc + "dateIdentified", dwc + "identificationVerificationStatus", dwc + "occurrenceRemarks"},
		rows: func(v *guide.Visit, w *figures.Water, add func(...string)) {
			by := recorders(book, v)
			for id, f := range findsOf(v) {
				add(findRow(words, v, f, id, by)...)
			}
			for _, a := range notFound(v, w) {
				add(absentRow(words, v, a, by)...)
			}
		}}
	measured := table{file: "measurementorfact.txt", class: dwc + "MeasurementOrFact", terms: []string{dwc + "eventID", dwc + "occurrenceID", dwc + "measurementType",
		dwc + "measurementValue", dwc + "measurementUnit", dwc + "measurementMethod", dwc + "measurementRemarks"},
		rows: func(v *guide.Visit, _ *figures.Water, add func(...string)) {
			for _, r := range v.Readings {
				add(v.ID, "", r.What, plain(r.Celsius), "°C", r.Method, "")
			}
			for id, f := range findsOf(v) {
				for _, x := range f.Lengths {
					add(lengthRow(words, v, f, id, x)...)
				}
			}
		}}
	return pack(book, words, []table{events, finds, measured})
}

// findsOf gives the finds that are handed on, each with its id.
func findsOf(v *guide.Visit) iter.Seq2[string, guide.Found] {
	return func(yield func(string, guide.Found) bool) {
		for _, f := range v.Finds {
			if f.Checked == rivers.Rejected || f.Absent || f.Withheld {
				continue
			}
			if !yield(cmp.Or(f.ID, v.ID+":"+strconv.Itoa(f.Nth)), f) {
				return
			}
		}
	}
}

func lengthRow(words Words, v *guide.Visit, f guide.Found, id string, x rivers.Length) []string {
	what, set := x.Part, ""
	if what == "" {
		what = rivers.Body
		if f.Group == species.Sedge || f.Group == species.Stonefly || f.Group == species.Alder {
			what = rivers.Overall
		}
	}
	if x.WithTails {
		set = words.Plain("archive.with_tails")
	}
	return []string{v.ID, id, what, content.Decimal(x.Millimetres, x.Digits), "mm", x.Method, set}
}

// beatReach is how far along its water a beat is taken to reach from its place, in metres: our judgement.
const beatReach = 500

func eventRow(book *figures.Book, words Words, v *guide.Visit) []string {
	s := book.Edition.Settings
	amount, unit, effort, general, kept := "", "", v.EffortText, "", ""
	if v.Effort.Amount > 0 {
		amount, unit = plain(v.Effort.Amount), string(v.Effort.Unit)
		effort = cmp.Or(effort, amount+" "+unit)
	}
	if v.Withheld {
		general, kept = words.Plain("archive.generalised"), words.Plain("archive.withheld")
	}
	if v.Untold {
		kept = strings.TrimPrefix(kept+"; "+words.Plain("archive.untold"), "; ")
	}
	day := v.When.From.String()
	if !v.When.Exact() {
		day += "/" + v.When.To.String()
	}
	hours := v.Start.String()
	if v.Start != calendar.NoClock && v.End != calendar.NoClock {
		hours += "/" + v.End.String()
	}
	var scope []string
	for _, g := range species.Groups {
		if v.LookedFor(g) {
			scope = append(scope, string(g))
		}
	}
	row := append([]string{v.ID, day, hours, v.Water.Name.S, v.Beat.S}, placeCells(words, v)...)
	return append(row, string(v.Protocol), amount, unit, effort, strings.Join(scope, " | "), general, kept, v.Remarks, s.Name, s.Licence)
}

// placeCells say where a visit was: at the place that it gives; else that of its beat, give or take
// beatReach; else anywhere within reach of its water's place.
func placeCells(words Words, v *guide.Visit) []string {
	at, has, off, says := v.Place, v.HasPlace, v.Uncertainty, ""
	if beat := v.BeatOf(); !has && beat != nil && beat.HasPlace {
		at, has, off, says = beat.Place, true, max(beat.Place.Off, beatReach), words.Plain("archive.at_beat")
	}
	if !has && v.Water.HasPlace {
		at, has, off, says = v.Water.Place, true, 1000*cmp.Or(v.Water.Reach, guide.DefaultReach), words.Plain("archive.at_water")
	}
	if !has {
		return make([]string, 6)
	}
	degrees := func(a measure.Angle) string { return strconv.FormatFloat(a.Degrees, 'f', a.Digits, 64) }
	metres := ""
	if off > 0 {
		metres = plain(off)
	}
	return []string{degrees(at.Latitude), degrees(at.Longitude), "EPSG:4326", metres, at.Grid, says}
}

// recorders are named as they wish; who wants no name isn't.
func recorders(book *figures.Book, v *guide.Visit) string {
	var l []string
	for _, p := range book.Edition.People[v] {
		if p.Shown != "" {
			l = append(l, p.Shown)
		}
	}
	return strings.Join(l, " | ")
}

func findRow(words Words, v *guide.Visit, f guide.Found, id, by string) []string {
	row := []string{v.ID, id, "HumanObservation", "present", ""}
	if f.Counted {
		row[4] = strconv.Itoa(f.Count)
	}
	if f.Fly != nil {
		row = append(row, spaced(f.Fly.Scientific.Name.S, f.Fly.Scientific.Authority), "species", f.Qualifier, f.Find.Fly.S)
	} else {
		name, rank := f.Common()
		row = append(row, name, rank, f.Qualifier, f.Find.Fly.S)
	}
	remarks := f.Remarks
	if f.Reared {
		remarks = strings.TrimPrefix(remarks+"; "+words.Plain("archive.reared"), "; ")
	}
	if f.Quantity != "" {
		remarks = strings.TrimPrefix(remarks+"; "+words.Plain("archive.quantity", "quantity", f.Quantity), "; ")
	}
	identified := ""
	if !f.Identified.IsZero() {
		identified = f.Identified.From.String()
		if !f.Identified.Exact() {
			identified += "/" + f.Identified.To.String()
		}
	}
	row = append(row, above(f)...)
	low, high, ranged := strings.Cut(f.Depth, "–")
	if !ranged {
		high = low
	}
	return append(row, darwinStage(f.Stage), string(f.Sex), low, high, by, f.By, identified, string(f.Checked), remarks)
}

func absentRow(words Words, v *guide.Visit, a *species.Account, by string) []string {
	stage := "adult"
	if a.Group == species.Upwinged {
		stage = "subimago | imago"
	}
	row := []string{v.ID, v.ID + ":absent:" + a.Address, "HumanObservation", "absent", "0",
		spaced(a.Scientific.Name.S, a.Scientific.Authority), "species", "", ""}
	row = append(row, above(guide.Found{Fly: a, Group: a.Group})...)
	return append(row, stage, "", "", "", by, "", "", "", words.Plain("archive.absent"))
}

// notFound lists the flies of the water, and those a recorder named as absent,
// that the visit looked for and didn't find.
func notFound(v *guide.Visit, w *figures.Water) []*species.Account {
	var l []*species.Account
	add := func(a *species.Account) {
		if says, _, _ := v.Of(a); says == guide.Empty && !slices.Contains(l, a) {
			l = append(l, a)
		}
	}
	for _, r := range w.Rows {
		add(r.Fly.Account)
	}
	for _, f := range v.Finds {
		if f.Absent && f.Fly != nil {
			add(f.Fly)
		}
	}
	return l
}

// above is the common name and the higher taxa of a find.
func above(f guide.Found) []string {
	if f.Fly != nil {
		return []string{f.Fly.Name.S, "Animalia", "Insecta", f.Group.Order(), f.Fly.Family.S}
	}
	family := ""
	if len(f.Taxon) > 0 && f.Alike(func(a *species.Account) string { return a.Family.S }) {
		family = f.Taxon[0].Family.S
	}
	return []string{"", "Animalia", "Insecta", f.Order(), family}
}

func darwinStage(s species.Stage) string {
	switch s {
	case species.Dun:
		return "subimago"
	case species.Spinner:
		return "imago"
	}
	return string(s)
}

func plain(v float64) string { return strconv.FormatFloat(content.Round9(v), 'f', -1, 64) }

// pack writes the archive with fixed times, so that the same records make the
// same bytes.
func pack(book *figures.Book, words Words, tables []table) ([]byte, error) {
	shown := map[*rivers.Water]*figures.Water{}
	for _, w := range book.Waters {
		shown[w.Water] = w
	}
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	write := func(name string, fill func(to *bufio.Writer)) error {
		w, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)})
		if err != nil {
			return err
		}
		to := bufio.NewWriterSize(w, 1<<16)
		fill(to)
		return to.Flush()
	}
	if err := write("meta.xml", func(to *bufio.Writer) { to.WriteString(meta(tables)) }); err != nil {
		return nil, err
	}
	if err := write("eml.xml", func(to *bufio.Writer) { to.WriteString(eml(book, words)) }); err != nil {
		return nil, err
	}
	for _, t := range tables {
		err := write(t.file, func(to *bufio.Writer) {
			add := func(cells ...string) { writeRow(to, cells) }
			add(each(t.terms, func(u string) string { return u[strings.LastIndexByte(u, '/')+1:] })...)
			for _, v := range book.Edition.Visits {
				if w := shown[v.Water]; w != nil {
					t.rows(v, w, add)
				}
			}
		})
		if err != nil {
			return nil, err
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

func meta(tables []table) string {
	var b strings.Builder
	b.WriteString(xml.Header + `<archive xmlns="http://rs.tdwg.org/dwc/text/" metadata="eml.xml">` + "\n")
	for i, t := range tables {
		kind, id := "extension", "coreid"
		if i == 0 {
			kind, id = "core", "id"
		}
		fmt.Fprintf(&b, `<%s encoding="UTF-8" fieldsTerminatedBy="\t" linesTerminatedBy="\n" fieldsEnclosedBy="" ignoreHeaderLines="1" rowType="%s">`+"\n", kind, t.class)
		fmt.Fprintf(&b, "<files><location>%s</location></files>\n<%s index=\"0\"/>\n", t.file, id)
		for j, u := range t.terms {
			if j > 0 || i == 0 {
				fmt.Fprintf(&b, "<field index=\"%d\" term=\"%s\"/>\n", j, u)
			}
		}
		fmt.Fprintf(&b, "</%s>\n", kind)
	}
	return b.String() + "</archive>\n"
}

// eml is the dataset's description in the Ecological Metadata Language 2.2.0, in the language of the site.
func eml(book *figures.Book, words Words) string {
	s := book.Edition.Settings
	esc := func(t string) string {
		var b strings.Builder
		_ = xml.EscapeText(&b, []byte(t)) // a strings.Builder takes every write
		return b.String()
	}
	party := func(tag string) string {
		return "<" + tag + "><organizationName>" + esc(cmp.Or(s.Publisher, s.Name)) + "</organizationName></" + tag + ">\n"
	}
	abstract := words.Plain("archive.abstract")
	if !book.Edition.Members {
		abstract += " " + words.Plain("archive.left_out")
	}
	rights := ""
	if s.Licence != "" {
		rights = "<intellectualRights><para>" + esc(s.Licence) + "</para></intellectualRights>\n"
	}
	lang := esc(words.Language())
	return xml.Header + `<eml:eml xmlns:eml="https://eml.ecoinformatics.org/eml-2.2.0" packageId="` + uuid(book, "archive", book.Edition.Name()) + `" system="guidegen" xml:lang="` + lang + `">` + "\n<dataset>\n" +
		`<title xml:lang="` + lang + `">` + esc(words.Plain("archive.title", "guide", s.Name)) + "</title>\n" + party("creator") + "<pubDate>" + book.Built.String() + "</pubDate>\n<language>" + lang + "</language>\n" +
		"<abstract><para>" + esc(abstract) + "</para></abstract>\n" + rights + party("contact") + "</dataset>\n</eml:eml>\n"
}

func spaced(l ...string) string { return strings.Join(strings.Fields(strings.Join(l, " ")), " ") }
