package share

// The archive against the Darwin Core text guide (TDWG, http://rs.tdwg.org/dwc/text/) and the published terms: a reader
// that knows meta.xml and encoding/csv alone. The rules are named where they are checked, and are from memory of the guide.

import (
	"encoding/csv"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"encoding/xml"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
)

type guideField struct {
	Index   *int   `xml:"index,attr"`
	Term    string `xml:"term,attr"`
	Default string `xml:"default,attr"`
}

type guideTable struct {
	RowType  string       `xml:"rowType,attr"`
	Encoding string       `xml:"encoding,attr"`
	Fields   string       `xml:"fieldsTerminatedBy,attr"`
	Enclosed string       `xml:"fieldsEnclosedBy,attr"`
	Header   int          `xml:"ignoreHeaderLines,attr"`
	Files    []string     `xml:"files>location"`
	ID       []guideField `xml:"id"`
	CoreID   []guideField `xml:"coreid"`
	Field    []guideField `xml:"field"`
}

// termsOf are the published terms by the short name of their class.
func termsOf(t *testing.T) map[string][]string {
	t.Helper()
	f, err := os.Open("../../testdata/checks/darwin_core_terms.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	terms := map[string][]string{}
	for _, r := range rows[1:] {
		terms[r[0]] = append(terms[r[0]], r[1])
	}
	terms["Event"] = append(terms["Event"], terms["HumboldtExtension"]...)
	return terms
}

// readByGuide reads an archive by the text guide's rules.
func readByGuide(t *testing.T, files map[string]string) map[string][]record {
	t.Helper()
	var m struct {
		XMLName    xml.Name
		Core       []guideTable `xml:"core"`
		Extensions []guideTable `xml:"extension"`
	}
	require.NoError(t, xml.Unmarshal([]byte(files["meta.xml"]), &m))
	require.Len(t, m.Core, 1, "an archive has one core")
	terms, out, ids := termsOf(t), map[string][]record{}, map[string]bool{}
	for i, table := range append(m.Core, m.Extensions...) {
		class := table.RowType[strings.LastIndexByte(table.RowType, '/')+1:]
		require.Equal(t, "UTF-8", table.Encoding)
		require.Equal(t, []string{`\t`, ""}, []string{table.Fields, table.Enclosed})
		require.Len(t, table.Files, 1)
		require.NotContains(t, table.Files[0], "/", "the files lie beside meta.xml")
		key := table.CoreID
		if i == 0 {
			key = table.ID
		}
		require.Len(t, key, 1, "id in the core, coreid in an extension")
		r := csv.NewReader(strings.NewReader(files[table.Files[0]]))
		r.Comma, r.LazyQuotes = '\t', true // also refuses a row of another width than the first
		rows, err := r.ReadAll()
		require.NoError(t, err, class)
		seen := map[int]bool{}
		for _, f := range table.Field {
			require.NotNil(t, f.Index)
			require.Empty(t, f.Default)
			require.False(t, seen[*f.Index], "an index stands once")
			seen[*f.Index] = true
			require.Less(t, *f.Index, len(rows[0]))
			assert.Contains(t, terms[class], f.Term, class)
			assert.True(t, strings.HasSuffix(f.Term, "/"+rows[0][*f.Index]), "the heading is the term's name: %s", f.Term)
		}
		for _, cells := range rows[table.Header:] {
			rec := record{"core": cells[*key[0].Index]}
			for _, f := range table.Field {
				rec[rows[0][*f.Index]] = cells[*f.Index]
			}
			if i == 0 {
				require.False(t, ids[rec["core"]], "the core's ids are its own: %s", rec["core"])
				ids[rec["core"]] = true
			}
			require.True(t, ids[rec["core"]], "every row belongs to a row of the core")
			out[class] = append(out[class], rec)
		}
	}
	return out
}

// ISO 8601-1, as Darwin Core's eventDate and eventTime ask for: a day, or an interval of two.
var (
	isoDate = regexp.MustCompile(`^\d{4}-\d\d-\d\d(/\d{4}-\d\d-\d\d)?$`)
	isoTime = regexp.MustCompile(`^(\d\d:\d\d(/\d\d:\d\d)?)?$`)
)

func TestArchiveKeepsToTheTextGuide(t *testing.T) {
	for _, members := range []bool{false, true} {
		tables := readByGuide(t, unzipped(t, fileNamed(t, filesOf(t, demoBook(t, members), nil), Archive)))
		require.Greater(t, len(tables["Event"]), 50)
		require.Greater(t, len(tables["Occurrence"]), 500)
		placed := map[string]int{}
		for _, e := range tables["Event"] {
			assert.Regexp(t, isoDate, e["eventDate"])
			assert.Regexp(t, isoTime, e["eventTime"])
			lat, err := strconv.ParseFloat(e["decimalLatitude"], 64)
			require.NoError(t, err, "the demo's waters all have a place: %v", e)
			lon, err := strconv.ParseFloat(e["decimalLongitude"], 64)
			require.NoError(t, err)
			assert.True(t, lat >= -90 && lat <= 90 && lon >= -180 && lon <= 180)
			assert.Equal(t, "EPSG:4326", e["geodeticDatum"])
			if off := e["coordinateUncertaintyInMeters"]; off != "" { // "zero is not valid for this term"
				n, err := strconv.ParseFloat(off, 64)
				assert.True(t, err == nil && n > 0, off)
			}
			assert.True(t, e["samplingEffort"] != "" || e["sampleSizeValue"] == "", "an effort is said as a text too")
			assert.Equal(t, e["dataGeneralizations"] != "", e["dataGeneralizations"] != "" && e["locality"] == "")
			placed[e["georeferenceRemarks"]]++
		}
		assert.Greater(t, placed["the point given for the beat; how far a beat reaches is the guide’s judgement"], 0, "%v", placed)
		ranks := []string{"species", "genus", "family", "order", "class"}
		for _, f := range tables["Occurrence"] {
			assert.Contains(t, []string{"present", "absent"}, f["occurrenceStatus"])
			assert.Equal(t, "HumanObservation", f["basisOfRecord"])
			assert.True(t, slices.Contains(ranks, f["taxonRank"]), f["taxonRank"])
			assert.NotEmpty(t, f["scientificName"])
			assert.Equal(t, "Animalia", f["kingdom"])
			if f["occurrenceStatus"] == "present" {
				assert.Contains(t, []string{"verified", "unreviewed"}, f["identificationVerificationStatus"])
			}
		}
	}
}

// placeOn is where the archive puts a visit: latitude, longitude, metres, remark.
func placeOn(t *testing.T, book *figures.Book, visit string) []string {
	t.Helper()
	events, _, _ := archived(t, book)
	for _, e := range events {
		if e["core"] == visit {
			return []string{e["decimalLatitude"], e["decimalLongitude"], e["coordinateUncertaintyInMeters"], e["georeferenceRemarks"]}
		}
	}
	return nil
}

func TestAnEditionPlacesNoVisitAtAHiddenBeat(t *testing.T) {
	const beat, water = "the point given for the beat; how far a beat reaches is the guide’s judgement", "the point given for the water; the visit was within its reach"
	for name, c := range map[string]struct {
		old, new, visit string
		want            []string
	}{
		"a beat with a place":           {"Ford: {}", "Ford: {place: \"45.20 S, 168.8 E\"}", "K-3", []string{"-45.20", "168.8", "500", beat}},
		"a beat for members":            {"{show: members}", "{show: members, place: \"45.2 S, 168.8 E\"}", "K-2", []string{"-45.1", "168.7", "25000", water}},
		"a beat near a sensitive place": {"beats: {", "sensitive: [{place: \"45.201 S, 168.8 E\", radius: 200 m}]\nbeats: {Ford: {place: \"45.2 S, 168.8 E\"}, ", "K-3", []string{"-45.1", "168.7", "25000", water}},
	} {
		t.Run(name, func(t *testing.T) {
			alter := altered(t, "rivers/orua.yaml", c.old, c.new)
			book := smallBook(t, func(f fstest.MapFS) {
				alter(f)
				if strings.Contains(c.new, "Ford: {place") && strings.Contains(c.new, "sensitive") {
					altered(t, "rivers/orua.yaml", ", Ford: {}", "")(f)
				}
			})
			assert.Equal(t, c.want, placeOn(t, book, c.visit))
		})
	}
}

// A find without a mark of its own keeps its id in every edition, whatever the edition leaves out before it.
func TestFindsKeepTheirIds(t *testing.T) {
	ids := map[string]string{}
	for _, members := range []bool{true, false} {
		f := small()
		altered(t, "samples/a.csv", "K-4,", "K-5,2026-02-03,Orua,Ford,sweep net,50 sweeps,upwinged,Unspoken fly,dun,,1,,Tess Ambrook,,,\nK-5,,,,,,,Little fly,dun,,1,,,,,\nK-4,")(f)
		_, finds, _ := archived(t, bookOf(t, f, members))
		for _, x := range finds {
			if x["core"] == "K-5" && x["occurrenceStatus"] == "present" && x["vernacularName"] == "Little fly" {
				ids[strconv.FormatBool(members)] = x["occurrenceID"]
			}
		}
	}
	assert.Equal(t, map[string]string{"true": "K-5:2", "false": "K-5:2"}, ids)
}

// Text of the archive is in the language of the site, and says which.
func TestArchiveIsDescribedInTheGuidesLanguage(t *testing.T) {
	book := demoBook(t, false)
	for _, lang := range []string{"en", "de", "fr"} {
		words := wordsIn(t, lang)
		var e struct {
			Lang     string `xml:"http://www.w3.org/XML/1998/namespace lang,attr"`
			Title    string `xml:"dataset>title"`
			Language string `xml:"dataset>language"`
			Abstract string `xml:"dataset>abstract>para"`
		}
		require.NoError(t, xml.Unmarshal([]byte(eml(book, words)), &e))
		assert.Equal(t, []string{lang, lang}, []string{e.Lang, e.Language})
		assert.Equal(t, words.Plain("archive.title", "guide", book.Edition.Settings.Name), e.Title)
		assert.Contains(t, e.Abstract, words.Plain("archive.abstract"))
	}
}
