package share

// The archive read back by the Darwin Core text guide's rules: meta.xml says
// where each term stands, and nothing else is known of the files.

import (
	"encoding/xml"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/measure"
	"guidegen/rivers"
)

type metaTable struct {
	RowType string `xml:"rowType,attr"`
	Header  int    `xml:"ignoreHeaderLines,attr"`
	Fields  string `xml:"fieldsTerminatedBy,attr"`
	Lines   string `xml:"linesTerminatedBy,attr"`
	File    string `xml:"files>location"`
	ID      *struct {
		Index int `xml:"index,attr"`
	} `xml:"id"`
	CoreID *struct {
		Index int `xml:"index,attr"`
	} `xml:"coreid"`
	Field []struct {
		Index int    `xml:"index,attr"`
		Term  string `xml:"term,attr"`
	} `xml:"field"`
}

type metaFile struct {
	XMLName    xml.Name
	Metadata   string      `xml:"metadata,attr"`
	Core       metaTable   `xml:"core"`
	Extensions []metaTable `xml:"extension"`
}

// record is a row by short term; "core" is the core's id.
type record map[string]string

func rowsOf(t *testing.T, files map[string]string, m metaTable) []record {
	t.Helper()
	require.Equal(t, `\t`, m.Fields)
	require.Equal(t, `\n`, m.Lines)
	lines := strings.Split(strings.TrimSuffix(files[m.File], "\n"), "\n")
	var out []record
	for _, l := range lines[m.Header:] {
		cells := strings.Split(l, "\t")
		r := record{}
		for _, f := range m.Field {
			r[f.Term[strings.LastIndexByte(f.Term, '/')+1:]] = cells[f.Index]
		}
		if m.ID != nil {
			r["core"] = cells[m.ID.Index]
		} else {
			r["core"] = cells[m.CoreID.Index]
		}
		out = append(out, r)
	}
	return out
}

func archived(t *testing.T, book *figures.Book) (events, finds, measured []record) {
	t.Helper()
	files := unzipped(t, fileNamed(t, filesOf(t, book, nil), Archive))
	var m metaFile
	require.NoError(t, xml.Unmarshal([]byte(files["meta.xml"]), &m))
	require.Equal(t, xml.Name{Space: "http://rs.tdwg.org/dwc/text/", Local: "archive"}, m.XMLName)
	require.Contains(t, files, m.Metadata)
	require.Equal(t, "http://rs.tdwg.org/dwc/terms/Event", m.Core.RowType)
	require.NotNil(t, m.Core.ID)
	require.Len(t, m.Extensions, 2)
	require.Equal(t, "http://rs.tdwg.org/dwc/terms/Occurrence", m.Extensions[0].RowType)
	require.Equal(t, "http://rs.tdwg.org/dwc/terms/MeasurementOrFact", m.Extensions[1].RowType)
	// EML 2.2.0: title, creator and contact are what a dataset can't do without
	var eml struct {
		XMLName xml.Name
		Package string `xml:"packageId,attr"`
		Title   string `xml:"dataset>title"`
		Creator string `xml:"dataset>creator>organizationName"`
		Contact string `xml:"dataset>contact>organizationName"`
	}
	require.NoError(t, xml.Unmarshal([]byte(files[m.Metadata]), &eml))
	require.Equal(t, xml.Name{Space: "https://eml.ecoinformatics.org/eml-2.2.0", Local: "eml"}, eml.XMLName)
	require.NotEmpty(t, eml.Package)
	require.NotEmpty(t, eml.Title)
	require.NotEmpty(t, eml.Creator)
	require.NotEmpty(t, eml.Contact)
	return rowsOf(t, files, m.Core), rowsOf(t, files, m.Extensions[0]), rowsOf(t, files, m.Extensions[1])
}

// What the archive counts is what the site prints.
func TestArchiveReconcilesWithTheSite(t *testing.T) {
	for _, members := range []bool{false, true} {
		book := demoBook(t, members)
		events, finds, measured := archived(t, book)
		at := map[string]record{}
		for _, e := range events {
			require.NotContains(t, at, e["core"], "an event stands once")
			require.NotEmpty(t, e["eventDate"])
			assert.Equal(t, e["sampleSizeValue"] == "", e["sampleSizeUnit"] == "", "value and unit go in pairs")
			assert.Equal(t, e["decimalLatitude"] == "", e["geodeticDatum"] == "")
			at[e["core"]] = e
		}
		ids := map[string]bool{}
		type onWater struct{ water, fly string }
		looked, found := map[onWater]map[string]bool{}, map[onWater]map[string]bool{}
		for _, f := range finds {
			e, ok := at[f["core"]]
			require.True(t, ok, "every find belongs to an event")
			require.False(t, ids[f["occurrenceID"]], f["occurrenceID"])
			ids[f["occurrenceID"]] = true
			assert.Equal(t, "HumanObservation", f["basisOfRecord"])
			assert.NotEmpty(t, f["scientificName"])
			assert.NotEqual(t, "rejected", f["identificationVerificationStatus"]) // the demo holds one
			k := onWater{e["waterBody"], f["vernacularName"]}
			if looked[k] == nil {
				looked[k], found[k] = map[string]bool{}, map[string]bool{}
			}
			switch f["occurrenceStatus"] {
			case "absent":
				assert.Equal(t, "0", f["individualCount"], "a zero count needs the status absent, and the other way about")
				assert.NotEmpty(t, e["targetTaxonomicScope"], "no zero outside a scope")
				looked[k][f["core"]] = true
			case "present":
				assert.NotEqual(t, "0", f["individualCount"])
				wing := f["lifeStage"] == "subimago" || f["lifeStage"] == "imago" || f["lifeStage"] == "adult"
				row := rowNamed(book, k.water, k.fly)
				if f["taxonRank"] == "species" && wing && !strings.Contains(f["occurrenceRemarks"], "reared") && row != nil &&
					strings.Contains(" | "+e["targetTaxonomicScope"]+" | ", " | "+string(row.Fly.Group)+" | ") {
					looked[k][f["core"]], found[k][f["core"]] = true, true
				}
			default:
				assert.Fail(t, "status "+f["occurrenceStatus"])
			}
		}
		rows := 0
		for _, w := range book.Waters {
			n := 0
			for _, e := range events {
				if e["waterBody"] == w.Name.S && e["targetTaxonomicScope"] != "" {
					n++
				}
			}
			assert.Equal(t, w.Visits, n, w.Name.S)
			for _, r := range w.Rows {
				k := onWater{w.Name.S, r.Fly.Name.S}
				vague := 0
				for id := range looked[k] {
					if strings.Contains(at[id]["eventDate"], "/") {
						vague++
					}
				}
				assert.Equal(t, r.Looked, len(looked[k])-vague, "%v", k)
				assert.Equal(t, r.FoundOn, len(found[k]), "%v", k)
				rows++
			}
		}
		assert.Greater(t, rows, 40)
		lengths := 0
		for _, m := range measured {
			require.Contains(t, at, m["core"])
			assert.Equal(t, m["measurementValue"] == "", m["measurementUnit"] == "")
			_, err := strconv.ParseFloat(m["measurementValue"], 64)
			assert.NoError(t, err)
			if m["occurrenceID"] != "" {
				assert.True(t, ids[m["occurrenceID"]])
				lengths++
			}
		}
		want := 0
		for _, v := range book.Edition.Visits {
			for _, f := range v.Finds {
				if f.Checked != rivers.Rejected && !f.Absent {
					want += len(f.Lengths)
				}
			}
		}
		assert.Equal(t, want, lengths)
	}
}

func rowNamed(book *figures.Book, water, fly string) *figures.Row {
	for _, w := range book.Waters {
		for _, r := range w.Rows {
			if w.Name.S == water && r.Fly.Name.S == fly {
				return r
			}
		}
	}
	return nil
}

func TestArchiveSaysWhatIsWithheld(t *testing.T) {
	events, finds, _ := archived(t, smallBook(t, nil))
	require.Len(t, events, 3, "the visit to the withheld water is not among them")
	for _, e := range events {
		if e["core"] == "K-2" {
			assert.Empty(t, e["locality"])
			assert.Equal(t, "placed no closer than the water as a whole", e["dataGeneralizations"])
			assert.Equal(t, "beat, coordinates, recorder and remarks", e["informationWithheld"])
		} else {
			assert.Equal(t, "Ford", e["locality"])
			assert.Empty(t, e["dataGeneralizations"])
		}
		assert.Equal(t, map[string]string{"K-2": "upwinged", "K-3": "upwinged", "K-4": "sedge"}[e["core"]], e["targetTaxonomicScope"])
	}
	got := map[string]string{}
	for _, f := range finds {
		got[f["core"]] += f["occurrenceStatus"] + " " + f["vernacularName"] + " by " + f["recordedBy"] + ", named by " + f["identifiedBy"] + ", " + f["identificationVerificationStatus"] + ";"
	}
	assert.Equal(t, map[string]string{
		"K-2": "present Little fly by , named by , verified;",
		"K-3": "absent Little fly by T. A., named by , ;",
		"K-4": "present Little fly by T. A., named by , unreviewed;", // outside its scope: present, and nothing else is absent
	}, got)
}

// A visit is placed by its own coordinates, else by its beat's, else by its water's, each as far off as it may be.
func TestWhereAVisitIsPlaced(t *testing.T) {
	at := func(s string) measure.Coordinates {
		c, err := measure.ParseCoordinates(s)
		require.NoError(t, err)
		return c
	}
	ford := rivers.Beat{Name: content.Text{S: "Ford"}, Place: at("NY 10 20"), HasPlace: true}
	pool := rivers.Beat{Name: content.Text{S: "Pool"}}
	water := rivers.Water{Beats: []rivers.Beat{ford, pool}, Place: at("54.5 N, 3.3 W"), HasPlace: true, Reach: 8}
	const atBeat, atWater = "the point given for the beat; how far a beat reaches is the guide’s judgement", "the point given for the water; the visit was within its reach"
	for name, c := range map[string]struct {
		own, beat string
		off, of   string
		without   bool // the water has no place either
	}{
		"its own":          {own: "54.61 N, 3.39 W", beat: "Ford", off: "30"},
		"its beat's":       {beat: " ford", off: "713", of: atBeat}, // half the diagonal of a kilometre, and five
		"a beat's without": {beat: "Pool", off: "8000", of: atWater},
		"no beat":          {off: "8000", of: atWater},
		"none":             {without: true, of: ""},
	} {
		v := &guide.Visit{Event: &rivers.Event{Beat: content.Text{S: c.beat}}}
		if c.own != "" {
			v.Place, v.HasPlace, v.Uncertainty = at(c.own), true, 30
		}
		w := water
		w.HasPlace = !c.without
		v.Water = &w
		cells := placeCells(english(t), v)
		assert.Equal(t, c.without, cells[0] == "", name)
		assert.Equal(t, []string{c.off, c.of}, []string{cells[3], cells[5]}, name)
	}
	water.Reach = 0
	assert.Equal(t, "25000", placeCells(english(t), &guide.Visit{Event: &rivers.Event{}, Water: &water})[3])
}

func TestWhoWantsNoNameLeavesNoGap(t *testing.T) {
	_, finds, _ := archived(t, smallBook(t, altered(t, "samples/a.csv", "male,1,,Tess Ambrook,", "male,1,,Wilhelmina Quartz | Tess Ambrook | Otto Reede,")))
	for _, f := range finds {
		if f["core"] == "K-4" {
			assert.Equal(t, "T. A. | O. R.", f["recordedBy"])
		}
	}
}

func TestTextsKeepToTheirCells(t *testing.T) {
	_, finds, _ := archived(t, smallBook(t, altered(t, "samples/a.csv", "rowed out at dawn", "rowed out")))
	before := len(finds)
	events, finds, _ := archived(t, smallBook(t, altered(t, "samples/a.csv", "Tess Ambrook,,,\nK-4", "Tess Ambrook,,,\"a\tb\n c\"\nK-4")))
	assert.Len(t, finds, before)
	found := false
	for _, e := range events {
		found = found || e["eventRemarks"] == "a b c"
	}
	assert.True(t, found)
}
