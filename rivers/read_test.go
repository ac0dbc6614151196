package rivers

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
	"guidegen/species"
)

func found(ps *content.Problems) []string {
	var l []string
	for _, p := range ps.All() {
		l = append(l, strings.SplitN(ps.Where(p.At), ":", 2)[1]+" "+p.ID)
	}
	return l
}

func readWater(lines string) (*Water, *content.Problems) {
	ps := &content.Problems{}
	return ReadWater(content.NewFile("rivers/x.yaml", []byte("name: X\nkind: peaty\n"+lines+"\n")), content.Grounds{Sources: []string{"handbook"}}, ps), ps
}

func TestSlipsInARiverRecord(t *testing.T) {
	for text, want := range map[string][]string{
		"kind: peaty":                  {"3:1 duplicate-key"},
		"place: 55°12'N, 4°52'W":       {"3:8 bad-place"},
		"place: {north: 55}":           {"3:8 wrong-shape"},
		"altitude: 35-110":             {"3:11 missing-unit"},
		"altitude: 110-35 m":           {"3:11 bad-altitude"},
		"time_zone: Local":             {"3:12 bad-time-zone"},
		"time_zone: Europe/Londn":      {"3:12 bad-time-zone"},
		"time_zone: UTC":               nil,
		"reach: 8":                     {"3:8 missing-unit"},
		"reach: 8 furlongs":            {"3:8 bad-distance"},
		"reach: -8 km":                 {"3:8 bad-distance"},
		"reach: 1e3 km":                {"3:8 bad-distance"},
		"regulated: maybe":             {"3:12 unknown-choice"},
		"regulated: 'Yes, by the dam'": nil,
		"temperature: {months: [1,2,3,4,5,6,7,8,9,10,11,12]}":                                                {"3:14 missing-key"},
		"temperature: {unit: K, months: [1,2,3,4,5,6,7,8,9,10,11,12]}":                                       {"3:21 bad-unit"},
		"temperature: {unit: °C, months: [1,2,3]}":                                                           {"3:33 twelve-months"},
		"temperature: {unit: °C, months: [7,2, 7,3, 8,0, 9,2, 10,4, 11,6, 12,2, 12,0, 11,1, 9,9, 8,5, 7,6]}": {"3:33 twelve-months"},
		"temperature: {unit: °C, months: [1,2,3,4,5,.nan,7,8,9,10,11,12]}":                                   {"3:44 bad-temperature"},
		"temperature: {unit: °C, months: [~,2,3,4,5,6,7,'',9,10,11,99]}":                                     {"3:59 odd-temperature"},
		"beats: {a: {plce: x}}":                                                 {"3:13 unknown-key"},
		"flies: {Pale dun: abundent}":                                           {"3:19 unknown-class"},
		"flies: {Pale dun: rare (handbok)}":                                     {"3:25 unknown-basis"},
		"flies: [Pale dun, pale  DUN]":                                          {"3:19 listed-twice"},
		"flies: {Pale dun: {from: May}}":                                        {"3:19 missing-key"},
		"flies: {Pale dun: {from: May, peak: Sep, to: Jun}}":                    {"3:37 peak-outside"},
		"seasons: [{fish: trout, open: 1 Apr}]":                                 {"3:11 missing-key"},
		"seasons: [{fish: trout, open: 1/4, close: 31 Sep}]":                    {"3:31 bad-day", "3:43 bad-day"},
		"seasons: [{fish: trout, open: 1 Apr, close: 30 Sep, checked: 10 Jan}]": {"3:62 bad-date"},
		"sensitive: [{radius: 8 m}]":                                            {"3:13 missing-key"},
		"show: publc":                                                           {"3:7 unknown-choice"},
	} {
		w, ps := readWater(text)
		require.NotNil(t, w)
		assert.Equal(t, want, found(ps), text)
	}
}

func TestWaterReadsWhatItsEditorMeant(t *testing.T) {
	w, ps := readWater("regulated: yes, by the dam\ntemperature: {unit: °F, months: [~,41,41,41,41,41,41,'',41,41,41,41]}\n" +
		"flies: {A: , B: listed, C: rare (handbook), D: {abundance: listed, from: May, to: Jun, basis: memory}}\n" +
		"seasons: {fish: pike, open: 1 Oct, close: 14 Mar}")
	require.Empty(t, found(ps))
	assert.True(t, w.Regulated)
	assert.Equal(t, 10, w.Temperature.Count())
	assert.False(t, w.Temperature.Known[0], "not known is absent, never 0")
	assert.InDelta(t, 5, w.Temperature.Months[1], 1e-9, "41 °F")
	assert.Equal(t, []species.Class{"", "", species.Rare, ""}, []species.Class{w.Flies[0].Class, w.Flies[1].Class, w.Flies[2].Class, w.Flies[3].Class})
	assert.Equal(t, "published:handbook", w.Flies[2].Basis.Key())
	assert.Equal(t, "memory", w.Flies[3].Flights[0].Basis.Key())
	assert.Equal(t, "", w.Flies[3].Flights[0].Name)
	assert.Positive(t, w.Seasons[0].Open.Compare(w.Seasons[0].Close), "a season may cross New Year")
}

const (
	plainHead = "visit,date,start,end,water,beat,method,effort,looked for,fly,stage,sex,count,lengths mm,by,named by,checked,remarks\n"
	coreHead  = "eventID,eventDate,eventTime,waterBody,locality,samplingProtocol,sampleSizeValue,sampleSizeUnit,scope,occurrenceID,scientificName,lifeStage,sex,individualCount,measurementType,measurementValue,measurementUnit,recordedBy,identifiedBy,identificationVerificationStatus,occurrenceStatus,occurrenceRemarks\n"
)

func readSamples(text string) ([]*Event, *content.Problems) {
	ps := &content.Problems{}
	return ReadSamples(content.NewFile("samples/x.csv", []byte(text)), ps), ps
}

// The same visits in both vocabularies are the same events.
func TestBothVocabulariesMeanTheSame(t *testing.T) {
	plain, ps := readSamples(plainHead +
		"A,2026-03-21,11:40,12:20,X,mill,sweep net,50 sweeps,water-bred,Pale dun,dun,female,7,7.9 8.3,E,T,verified,\n" +
		"A,,,,,,,,,Pale dun,dun,male,5,,,T,verified,\n" +
		"B,2026-06-06,18:00,,X,,hand net,1 hour,upwinged;sedge,nothing,,,0,,E,,,\n" +
		"C,2026-06-07,,,X,,bank search,,,Sepia dun,,,0,,E,,,\n")
	require.Empty(t, found(ps))
	core, ps := readSamples(coreHead +
		"A,2026-03-21,11:40/12:20,X,mill,sweep net,50,sweeps,water-bred,1,Pale dun,subimago,female,7,body length,7.9,mm,E,T,verified,,\n" +
		"A,,,,,,,,,1,,,,,body length,8.3,mm,,,,,\n" +
		"A,,,,,,,,,2,Pale dun,dun,male,5,,,,,T,verified,,\n" +
		"B,2026-06-06,18:00,X,,hand net,60,minutes,upwinged|sedge,,,,,,,,,E,,,,\n" +
		"C,2026-06-07,,X,,bank search,,,,3,Sepia dun,,,0,,,,E,,,absent,\n")
	require.Empty(t, found(ps))
	require.Len(t, plain, 3)
	require.Len(t, core, 3)
	for i := range plain {
		p, c := plain[i], core[i]
		say := func(e *Event) string {
			s := fmt.Sprint(e.ID, e.When, e.Start, e.End, e.Water.S, e.Beat.S, e.Protocol, e.Effort, e.Scope.Given, e.Scope.Groups, e.By, e.LookedFor())
			for _, f := range e.Finds {
				s += fmt.Sprint("|", f.Fly.S, f.Stage, f.Sex, f.Count, f.Counted, f.Absent, f.By, f.Checked)
				for _, l := range f.Lengths {
					s += fmt.Sprint(" ", l.Millimetres, l.Digits, l.WithTails)
				}
			}
			return s
		}
		assert.Equal(t, say(p), say(c))
	}
	assert.Len(t, plain[0].Finds, 2)
	assert.Len(t, plain[0].Finds[0].Lengths, 2)
	assert.True(t, plain[2].Finds[0].Absent)
	assert.Empty(t, plain[2].LookedFor(), "no scope and no effort looks for nothing")
}

func TestSlipsInSamples(t *testing.T) {
	const v = "A,2026-05-03,,,X,,sweep net,50 sweeps,,"
	for row, want := range map[string][]string{
		v + "Pale dun,dun,,1.5,,,,,":                                   {"2:54 bad-count"},
		v + "Pale dun,dun,,-1,,,,,":                                    {"2:54 bad-count"},
		v + "Pale dun,dun,,1_2,,,,,":                                   {"2:54 bad-count"},
		v + "Pale dun,dun,,.nan,,,,,":                                  {"2:54 bad-count"},
		v + "Pale dun,dun,,99999999,,,,,":                              {"2:54 bad-count"},
		v + "Pale dun,dun,,,7.9 mm,,,,":                                {"2:59 bad-length"},
		v + "Pale dun,dun,,,7.9mm .8cm,,,,":                            nil,
		v + "Pale dun,dun,,,7.9 x,,,,":                                 {"2:59 bad-length"},
		v + "Pale dun,dun,,,-7.9,,,,":                                  {"2:55 bad-length"},
		v + "Pale dun,dun,,,7.9-8.3,,,,":                               {"2:55 bad-length"},
		v + "Pale dun,dun,,,\"7,9 8,3\",,,,":                           nil, // a decimal comma is kept as meant
		v + "Pale dun,imagoo,,,,,,,":                                   {"2:49 unknown-stage"},
		v + "Pale dun,dun,f,,,,,,":                                     {"2:53 unknown-sex"},
		v + "Pale dun,dun,,,,,,checked,":                               {"2:58 unknown-choice"},
		v + ",dun,,,,,,,":                                              {"2:41 no-fly"},
		v + "nothing,,,3,,,,,":                                         {"2:50 count-of-nothing"},
		v + "Māori dun,dun,,x,,,,,":                                    {"2:55 bad-count"},
		"A,2026-05,,,X,,sweep net,50 sweeps,,nothing,,,,,,,,":          nil,
		"A,2026-5-3,,,X,,sweep net,50 sweeps,,nothing,,,,,,,,":         {"2:3 bad-date"},
		"A,03/05/2026,,,X,,sweep net,50 sweeps,,nothing,,,,,,,,":       {"2:3 bad-date"},
		"A,2026-05-03T11:40,,,X,,sweep net,50 sweeps,,nothing,,,,,,,,": nil,
		"A,,,,X,,sweep net,50 sweeps,,nothing,,,,,,,,":                 {"2:1 missing-cell"},
		"A,2026-05-03,,,,,sweep net,50 sweeps,,nothing,,,,,,,,":        {"2:1 missing-cell"},
		"A,2026-05-03,24:00,,X,,sweep net,50 sweeps,,nothing,,,,,,,,":  {"2:14 bad-time"},
		"A,2026-05-03,,,X,,sweep net,50,,nothing,,,,,,,,":              {"2:29 missing-unit"},
		"A,2026-05-03,,,X,,sweep net,0 sweeps,,nothing,,,,,,,,":        {"2:29 bad-effort"},
		"A,2026-05-03,,,X,,sweep net,inf sweeps,,nothing,,,,,,,,":      {"2:29 bad-effort"},
		"A,2026-05-03,,,X,,Sweep Net,2 nights,,nothing,,,,,,,,":        nil,
		"A,2026-05-03,,,X,,kick,,,nothing,,,,,,,,":                     {"2:19 unknown-method"},
		"A,2026-05-03,,,X,,sweep net,,\"all, non\",nothing,,,,,,,,":    {"2:36 unknown-scope"},
	} {
		_, ps := readSamples(plainHead + row + "\n")
		assert.Equal(t, want, found(ps), row)
	}
}

// A square of a grid stands for degrees; beside them it is but the words that they were read from.
func TestVisitsPlacedByGridReference(t *testing.T) {
	const head = "visit,date,water,method,effort,grid reference,fly\n"
	for row, want := range map[string]struct {
		off  float64
		grid string
		ps   []string
	}{
		"NY 123 456": {76, "NY 123 456", nil},
		"NY 123 45":  {0, "", []string{"2:36 bad-place"}},
	} {
		events, ps := readSamples(head + "A,2026-05-03,X,sweep net,50 sweeps," + row + ",Pale dun\n")
		assert.Equal(t, want.ps, found(ps), row)
		require.Len(t, events, 1)
		assert.Equal(t, want.grid != "", events[0].HasPlace, row)
		assert.Equal(t, want.grid, events[0].Place.Grid, row)
		assert.Equal(t, want.off, events[0].Uncertainty, row)
	}
	events, ps := readSamples("eventID,eventDate,waterBody,samplingProtocol,decimalLatitude,decimalLongitude,verbatimCoordinates,coordinateUncertaintyInMeters,scientificName\n" +
		"A,2026-05-03,X,sweep net,54.8,-3.4,somewhere,120,Pale dun\n")
	assert.Empty(t, found(ps))
	assert.Equal(t, 120.0, events[0].Uncertainty)
}

func TestRowsThatContradict(t *testing.T) {
	_, ps := readSamples(coreHead +
		"A,2026-05-03,,X,,sweep net,50,sweeps,,1,Pale dun,dun,,3,,,,,,,,\n" +
		"A,2026-05-04,,,,,,,,1,Pale dun,spinner,,,,,,,,,,\n" +
		"B,2026-05-03,,X,,sweep net,50,sweeps,,1,Pale dun,,,,,,,,,,,\n" +
		"A,,,,,,100,,,,,,,,,,,,,,,\n")
	assert.Equal(t, []string{"3:3 visit-contradiction", "3:32 find-contradiction", "4:39 find-contradiction", "5:8 visit-contradiction"}, found(ps))
	for _, p := range ps.All() {
		line, _ := ps.File(p.Also.File).LineColumn(p.Also.Offset)
		assert.Equal(t, 2, line, "both places are given")
	}
}

func TestVisitsWithoutTheirMark(t *testing.T) {
	events, ps := readSamples(plainHead +
		"A,2026-05-03,,,X,,sweep net,50 sweeps,,Pale dun,,,,,,,,\n" +
		",,,,,,,,,Sepia dun,,,,,,,,\n" + // under its visit
		",2026-05-03,,,X,,,,,Olive dun,,,,,,,,\n" + // the same again
		",2026-05-09,,,X,,sweep net,50 sweeps,,Alder,,,,,,,,\n")
	require.Len(t, events, 1)
	assert.Len(t, events[0].Finds, 3)
	assert.Equal(t, []string{"5:1 no-visit"}, found(ps))
}

func TestHeadingsOfSamples(t *testing.T) {
	for text, want := range map[string][]string{
		"visit,date,water,method,sex,scientificName\n":            {"1:29 mixed-headings"},
		"eventID,eventDate,waterBody,samplingProtocol,count\n":    {"1:46 mixed-headings"},
		"eventID,eventDate,waterBody,samplingProtocol,habitat\n":  {"1:46 column-not-read"},
		"eventID,eventDate,waterBody,samplingProtocol,lifeStge\n": {"1:46 unknown-heading"},
		"Visit,Date,Water,Method\n":                               nil,
		"visit,date,water,lengths\n":                              {"1:18 missing-unit"},
		"visit,date,water,lengths in\n":                           nil,
		"visit;date;water\n":                                      {"1:1 csv-separator"},
	} {
		_, ps := readSamples(text)
		assert.Equal(t, want, found(ps), text)
	}
}

func TestSlipsInTemperatures(t *testing.T) {
	const head = "water,date,time,kind,temperature °C,min °C,max °C,mean °C,place\n"
	for row, want := range map[string][]string{
		"X,2026-05-03,9:05,spot,11.4,,,,":                          nil,
		"X,2026-05-03,9:05,spot,\"11,4\",,,,":                      nil,
		"X,2026-05-03,9:05,spot,warm,,,,":                          {"2:24 bad-temperature"},
		"X,2026-05-03,9:05,spot,,,,,":                              {"2:1 missing-cell"},
		"X,2026-05-03,9.05,spot,11,,,,":                            {"2:14 bad-time"},
		"X,2026-05,9:05,spot,11,,,,":                               {"2:3 bad-date"},
		"X,2026-05-03,,logger,,4,,,":                               {"2:1 missing-cell"},
		"X,2026-05-03,,logger,,9,4,,":                              {"2:23 min-max"},
		"X,2026-05-03,,logger,,4,9,12,":                            {"2:23 min-max"},
		"X,2026-05-03,,logger,,,,,":                                {"2:1 missing-cell"},
		"X,2026-05-03,,loger,,,,5,":                                {"2:15 unknown-choice"},
		"X,2026-05-03,,logger,,,,52,":                              {"2:25 odd-temperature"},
		",2026-05-03,,logger,,,,5,":                                {"2:1 missing-cell"},
		"X,2026-05-03,,logger,,,,5,\nX,2026-05-03,,logger,,,,5,":   {"3:3 duplicate-day"},
		"X,2026-05-03,,logger,,,,5,a\nX,2026-05-03,,logger,,,,5,b": nil,
	} {
		ps := &content.Problems{}
		ReadTemperature(content.NewFile("temperature/x.csv", []byte(head+row+"\n")), ps)
		assert.Equal(t, want, found(ps), row)
	}
}

// 100,000 rows are read well within what an editor waits for.
func BenchmarkSamples(b *testing.B) {
	var t strings.Builder
	t.WriteString(coreHead)
	for i := range 100_000 {
		fmt.Fprintf(&t, "V%d,2026-03-%02d,11:40/12:20,X,mill,sweep net,50,sweeps,water-bred,O%d,Pale dun,dun,female,7,body length,7.9,mm,E,T,verified,,\n", i/4, i/4%28+1, i/2)
	}
	f := content.NewFile("samples/x.csv", []byte(t.String()))
	b.ReportAllocs()
	for b.Loop() {
		ps := &content.Problems{}
		if l := ReadSamples(f, ps); len(l) != 25_000 || len(ps.All()) > 0 {
			b.Fatal(len(l), len(ps.All()))
		}
	}
}

func places(t *testing.T, ps *content.Problems, size int) {
	for _, p := range ps.All() {
		for _, at := range []content.Place{p.At, p.Also} {
			if at.Offset < 0 || at.Len < 0 || at.Offset+at.Len > size {
				t.Fatalf("%s points outside the file: %+v of %d", p.ID, at, size)
			}
		}
		ps.Print(&strings.Builder{}, p)
	}
}

func FuzzWater(f *testing.F) {
	for _, s := range []string{"place: 5 N, 4 W\naltitude: 3-5 m", "temperature: {unit: °C, months: [1,2,3,4,5,6,7,8,9,10,11,12]}", "flies: {A: rare (own), B: {flights: {c: {from: May, to: Jun}}}}",
		"seasons: {fish: x, open: 1 Apr, close: May}", "beats: {a: 5 N, 4 W}", "sensitive: {place: 5 N, 4 W, radius: 3 m}", "regulated: yes", "time_zone: a/b", "reach: 8 km", "time_zone: '/ '", "regulated: ','"} {
		f.Add([]byte("name: é\nkind: peaty\n" + s + "\n"))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		ps := &content.Problems{}
		ReadWater(content.NewFile("rivers/x.yaml", b), content.Grounds{}, ps)
		places(t, ps, len(b))
	})
}

func FuzzSamples(f *testing.F) {
	for _, s := range []string{plainHead + "A,2026-05-03,9:00,,X,,sweep net,50 sweeps,all;none,Pale dun,dun,male,3,7.9 8,E|F,T,verified,é\n,,,,,,,,,nothing,,,,,,,,\n",
		coreHead + "A,2026-05-03,9:00/10:00,X,,sweep net,50,sweeps,,1,Pale dun,dun,,0,body length,3,mm,E,,,absent,\nA,,,,,,,,,1,,,,,water temperature,3,°C,,,,,\n",
		"\ufeffwater,date,kind,mean °C\r\nX,2026-05-03,logger,5\r\n", "model,size,shank mm,shape\na,14,\"8,4\",straight\n", "a\"b,c\n\"", "visit,date,water\n\"\n"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		ps := &content.Problems{}
		file := content.NewFile("samples/x.csv", b)
		for _, e := range ReadSamples(file, ps) {
			for _, x := range e.Finds {
				if x.Count < 0 || x.Fly.S == "" {
					t.Fatalf("a find without its fly or with a count of %d", x.Count)
				}
			}
		}
		ReadTemperature(file, ps)
		species.ReadHooks(file, ps)
		places(t, ps, len(file.Bytes)) // of UTF-16 as decoded
	})
}
