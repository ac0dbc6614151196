package lang

import (
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/templates"
)

func english(t *testing.T) *Words {
	w, err := LoadWords("en")
	require.NoError(t, err)
	return w
}

func TestWordsFillIn(t *testing.T) {
	files := fstest.MapFS{
		"words/en.yaml": {Data: []byte("decimal: .\na: {b: 'x {name}', only: English}\nvisits: {one: '{n} visit', other: '{n} visits'}\n")},
		"words/pl.yaml": {Data: []byte("a: {b: 'po polsku {name}'}\nvisits: {one: '{n} wizyta', few: '{n} wizyty', many: '{n} wizyt', other: '{n} wizyty'}\n")},
	}
	w, err := loadWords(files, "pl-PL")
	require.NoError(t, err)
	assert.Equal(t, "pl", w.Lang)
	assert.Equal(t, "po polsku <i>", w.Plain("a.b", "name", "<i>"), "plain text is escaped where it is printed, once")
	assert.Equal(t, "English", w.Plain("a.only"), "a word that Polish lacks is English")
	// Plural forms after Unicode CLDR, language plural rules, Polish: 1 one, 2–4 few, 5 and 12 many, 1.5 other.
	for n, want := range map[string]string{"1": "1 wizyta", "3": "3 wizyty", "5": "5 wizyt", "12": "12 wizyt", "22": "22 wizyty", "1.5": "1.5 wizyty"} {
		assert.Equal(t, want, w.Plain("visits", "n", n))
	}
	en, err := loadWords(files, "xx")
	require.NoError(t, err)
	assert.Equal(t, "en", en.Lang, "a language without words has English ones and says so")
	assert.Panics(t, func() { w.Plain("nothing.here") })
	assert.Panics(t, func() { w.Plain("a.b") }, "an argument is wanted")
}

func TestWordsRefuseTwice(t *testing.T) {
	_, err := loadWords(fstest.MapFS{"words/en.yaml": {Data: []byte("a: 1\nb: [1]\n")}}, "en")
	assert.ErrorContains(t, err, "not a text")
}

func TestDates(t *testing.T) {
	w := english(t)
	assert.Equal(t, Date{"21 March", "03-21"}, w.DayOf(calendar.DayOf(3, 21)))
	assert.Equal(t, Date{}, w.DayOf(0))
	assert.Equal(t, Date{"3 May 2026", "2026-05-03"}, w.DateOf(calendar.Date{Year: 2026, Month: 5, Day: 3}))
	assert.Equal(t, "16–31 May", w.Cell(9))
	assert.Equal(t, "16–29 February", w.Cell(3), "the 29th counts with the 28th")
	assert.Equal(t, "1–15 December", w.Cell(22))
	day := calendar.Date{Year: 2026, Month: 2, Day: 1}
	assert.Equal(t, "February 2026", w.When(calendar.When{From: day, To: calendar.Date{Year: 2026, Month: 2, Day: 28}}))
	assert.Equal(t, "2026", w.When(calendar.When{From: calendar.Date{Year: 2026, Month: 1, Day: 1}, To: calendar.Date{Year: 2026, Month: 12, Day: 31}}))
	assert.Equal(t, "2019, 2021–2023, 2025, 2026", w.Years([]int{2019, 2021, 2022, 2023, 2025, 2026}))
	assert.Equal(t, "a, b and c", w.List([]string{"a", "b", "c"}))
}

// Turns of phrase that nobody speaks, and that must not come back (the guide's own rules of voice).
func TestVoice(t *testing.T) {
	stilted := regexp.MustCompile(`\b(rests? on|stands|hangs? on|serves|is reckoned|by the account|is parted by|is no (a|[b-df-hj-np-tv-z])\w+)\b`)
	w, err := LoadWords("en")
	require.NoError(t, err)
	for key, forms := range w.patterns {
		for _, p := range forms {
			text := p.Text
			spoken := strings.NewReplacer("there is no", "", "There is no", "").Replace(text)
			assert.Empty(t, stilted.FindAllString(spoken, -1), "%s: %s", key, text)
		}
	}
	assert.True(t, stilted.MatchString("it stands there") && stilted.MatchString("is no date"))
}

// asInEnglish are the words of a language that are spelled as in English, by key; signs and bare holes need no leave.
var asInEnglish = map[string][]string{
	"fr": {"unit.minutes", "unit.points", "moment.minutes", "class.dominant", "class.rare", "needs.microscope",
		"body_part.thorax", "dress_part.thorax", "sex_short.male", "sex_short.female", "case_short.male",
		"case_short.female", "fact.altitude", "foot.sources", "sources.title", "months.chance", "gloss.chance.term",
		"sieve.date", "sheet.date", "sheet.unit.minutes", "search.kind.page"},
	"de": {"next.visits", "month.m4", "month.m8", "month.m9", "month.m11", "month.s1", "month.s2", "month.s4", "month.s6", "month.s7", "month.s8", "month.s9", "month.s11",
		"moment.short_hours", "moment.short_minutes",
		"sex_short.male", "case_short.male", "dress_part.thorax", "months.chance", "credits.software", "gloss.spent.term", "gloss.fall.term",
		"gloss.chance.term", "keep.megabytes", "sheet.paper.clock"},
}

// A language of the site's own lacks nothing that English says: each key, each plural form of the language, each
// {hole}, and nothing left in English.
func TestLanguagesAreWhole(t *testing.T) {
	english := english(t)
	names, err := fs.Glob(templates.Files, "words/*.yaml")
	require.NoError(t, err)
	require.Greater(t, len(names), 1)
	for _, name := range names {
		lang := strings.TrimSuffix(path.Base(name), ".yaml")
		if lang == "en" {
			continue
		}
		text, err := templates.Files.ReadFile(name)
		require.NoError(t, err)
		f, ps := content.NewFile(name, text), &content.Problems{}
		own := readOwn(f, language.Make(lang), english, ps)
		for _, p := range ps.All() {
			line, column := f.LineColumn(p.At.Offset)
			t.Errorf("%s:%d:%d: %s", name, line, column, p.Message)
		}
		forms := formsOf(own.Tag)
		for key, want := range english.patterns {
			given := own.patterns[key]
			if assert.NotNil(t, given, "%s lacks %s: %s", name, key, want["other"].Text) && len(want) > 1 {
				assert.Len(t, given, len(forms), "%s: %s has the forms %v", name, key, forms)
			}
			same := false
			for form, p := range given {
				same = same || p.Text == want[form].Text && strings.ContainsFunc(holes.ReplaceAllString(p.Text, ""), unicode.IsLetter)
			}
			assert.Equal(t, slices.Contains(asInEnglish[lang], key), same, "%s: whether %s is English: %s", name, key, given["other"].Text)
		}
	}
}

// German writes a comma before decimals (DIN 5008, from memory), French too (Imprimerie nationale, from memory), in
// figures, ranges and numbers filled into a text; what is more than a number stays as it is. French has the singular up
// to 2 (CLDR).
func TestDecimals(t *testing.T) {
	b := content.On(content.Part{Ground: content.Memory})
	mm := func(v float64) content.Figure { return content.NewFigure(v, "mm", 1, b) }
	for lang, want := range map[string][]string{
		"de": {"7,5\u00a0mm", "7,5–8,0\u00a0mm", "1,5 Tage", "−0,5", "M. 1.5 a", "5.6.0", "12.", "7,5"},
		"fr": {"7,5\u00a0mm", "7,5–8,0\u00a0mm", "1,5 jour", "−0,5", "M. 1.5 a", "5.6.0", "12.", "7,5"},
		"en": {"7.5\u00a0mm", "7.5–8.0\u00a0mm", "1.5 days", "−0.5", "M. 1.5 a", "5.6.0", "12.", "7.5"},
	} {
		w, err := LoadWords(lang)
		require.NoError(t, err)
		assert.Equal(t, want, []string{w.Amount(mm(7.5)), w.Range(Range{mm(7.5), mm(8)}), w.Amount(content.NewFigure(1.5, "days", 1, b)),
			w.Number("−0.5"), w.Number("M. 1.5 a"), w.Number("5.6.0"), w.Number("12."), w.Plain("unit.factor", "n", "7.5")}, lang)
	}
}

// Numbers and shares are written as CLDR has them (golang.org/x/text/number), but that French has U+202F for its
// U+00A0: CLDR changed it after the version that the library carries. Below five digits thousands stay together.
func TestNumbersAreThoseOfCLDR(t *testing.T) {
	b := content.On(content.Part{Ground: content.Memory})
	for _, lang := range []string{"en", "de", "fr"} {
		w, err := LoadWords(lang)
		require.NoError(t, err)
		cldr := message.NewPrinter(language.Make(lang))
		for _, v := range []float64{12345, 123456, 1234567, 12345.6} {
			digits := 0
			if v != float64(int(v)) {
				digits = 1
			}
			want := strings.ReplaceAll(cldr.Sprint(number.Decimal(v)), "\u00a0", "\u202f")
			assert.Equal(t, want, w.Amount(content.NewFigure(v, "", digits, b)), lang)
		}
		share := w.Amount(content.NewFigure(65, "%", 0, b))
		if lang == "fr" {
			assert.Contains(t, share, "\u202f")
			share = strings.ReplaceAll(share, "\u202f", "\u00a0")
		}
		assert.Equal(t, cldr.Sprint(number.Percent(0.65)), share, lang)
		assert.Equal(t, "1234", w.Number("1234"), "%s: four digits stay together", lang)
		assert.Contains(t, w.Plain("date.month", "month", "May", "year", "20260"), "20260", "%s: only what is counted is parted", lang)
		assert.NotContains(t, w.Plain("count.visits", "n", "20260"), "20260", lang)
	}
	// A guide's own language takes its signs from there, until its words say otherwise.
	english, err := readWords(templates.Files, "en")
	require.NoError(t, err)
	for lang, want := range map[string][]string{
		"nl": {"12.345", "0,5", "65%"}, "tr": {"12.345", "0,5", "%65"}, "sv": {"12\u00a0345", "0,5", "65\u00a0%"}, "qaa": {"12,345", "0.5", "65%"},
		"hi": {"12,345", "0.5", "65%"}, "de-CH": {"12.345", "0,5", "65\u00a0%"}, // the site's German
	} {
		own := readOwn(content.NewFile("words/"+lang+".yaml", []byte("skip: x\n")), language.Make(lang), english, &content.Problems{})
		site, err := LoadWords(lang)
		require.NoError(t, err)
		own.over(site)
		assert.Equal(t, want, []string{own.Number("12345"), own.Number("0.5"), own.Amount(content.NewFigure(65, "%", 0, b))}, lang)
	}
	said := readOwn(content.NewFile("words/nl.yaml", []byte("decimal: '.'\n")), language.Make("nl"), english, &content.Problems{})
	said.over(english)
	assert.Equal(t, "0.5", said.Number("0.5"))
}

// French parts a colon, a semicolon, a mark and guillemets from their word by a space that doesn't break (Lexique des
// règles typographiques en usage à l'Imprimerie nationale, from memory); an apostrophe is curly.
func TestFrenchSpaces(t *testing.T) {
	wrong := regexp.MustCompile(`[^\x{00A0}\x{202F}][;!?»]|« |«[^\x{202F}]| [:%]|[^\d\x{00A0}]:( |$)|'`)
	w, err := LoadWords("fr")
	require.NoError(t, err)
	for key, forms := range w.patterns {
		for _, p := range forms {
			assert.NotRegexp(t, wrong, p.Text, key)
		}
	}
	for _, s := range []string{"Quoi?", "Quoi ?", "« mot\u202f»", "«\u202fmot »", "80 %", "Bande:", "Bande : ici", "l'eau"} {
		assert.Regexp(t, wrong, s)
	}
}

// The first of a month is an ordinal in French (Imprimerie nationale, from memory), in days, dates and half-months.
func TestFirstOfMonth(t *testing.T) {
	may := calendar.DayOf(time.May, 1)
	for lang, want := range map[string][]string{
		"en": {"1 May", "1 May 2026", "1–15 May", "2 May"},
		"de": {"1. Mai", "1. Mai 2026", "1.–15. Mai", "2. Mai"},
		"fr": {"1er mai", "1er mai 2026", "1er–15 mai", "2 mai"},
	} {
		w, err := LoadWords(lang)
		require.NoError(t, err)
		assert.Equal(t, want, []string{w.DayOf(may).Text, w.DateOf(calendar.Date{Year: 2026, Month: time.May, Day: 1}).Text, w.Cell(may.Cell()),
			w.DayOf(calendar.DayOf(time.May, 2)).Text}, lang)
	}
}

// What the site's languages call a month or an event of the sun is understood where an editor writes it.
func TestWordsOfTimeAreRead(t *testing.T) {
	for _, lang := range []string{"en", "de", "fr"} {
		w, err := LoadWords(lang)
		require.NoError(t, err)
		for m := time.January; m <= time.December; m++ {
			for _, name := range []string{w.Month(int(m)), w.ShortMonth(int(m))} {
				got, ok := calendar.MonthNamed(name)
				assert.True(t, ok, "%s: %s", lang, name)
				assert.Equal(t, m, got, "%s: %s", lang, name)
			}
		}
		for e := calendar.Dawn; e <= calendar.Dusk; e++ {
			name := strings.ReplaceAll(w.Or("sun_event", e.String()), "\u00ad", "")
			got, err := calendar.ParseMoment(name)
			assert.NoError(t, err, "%s: %s", lang, name)
			assert.Equal(t, e, got.Sun, "%s: %s", lang, name)
		}
	}
}
