package page

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/paper"
	"guidegen/build/view"
	"guidegen/content"
)

// pageModels is one of each model, by the kind of page it is drawn with.
func pageModels() map[string]any {
	return map[string]any{
		"front": FrontPageModel{}, "river": RiverPage{}, "fly": FlyPage{}, "flies": FliesModel{}, "year": YearModel{}, "month": MonthModel{},
		"dressings": DressingsModel{}, "dressing": DressingModel{}, "key": view.KeyModel{}, "sieve": SieveModel{}, "explained": ExplainedModel{},
		"records": RecordsModel{}, "note": NoteModel{}, "glossary": GlossaryModel{}, "sources": view.SourcesModel{}, "credits": CreditsModel{},
		"corrections": CorrectionsModel{}, "changes": ChangesModel{}, "recorders": RecordersModel{}, "cautions": view.CautionsModel{}, "notfound": NotFoundModel{}, "lesson": paper.LessonModel{}, "plan": PlanModel{}, "seasons": SeasonsModel{}, "due": DueModel{}, "handover": HandoverModel{},
		"trip": TripModel{}, "search": SearchModel{}, "sheet": paper.SheetModel{}, "offline": OfflineModel{},
		"card": paper.PocketPage{}, "booklet": paper.BookletPage{},
	}
}

// A model holds figures, which carry what they rest on, and never a bare number.
func TestModelsHoldNoBareNumbers(t *testing.T) {
	for kind, m := range pageModels() {
		for _, at := range bare(reflect.TypeOf(m), kind, map[reflect.Type]bool{}) {
			assert.Fail(t, "a bare number", at)
		}
	}
	type wrong struct{ Rows []struct{ N int } }
	assert.Len(t, bare(reflect.TypeOf(wrong{}), "wrong", map[reflect.Type]bool{}), 1, "the walk finds one")
}

func bare(typ reflect.Type, at string, seen map[reflect.Type]bool) []string {
	if typ == reflect.TypeOf(content.Figure{}) || seen[typ] {
		return nil
	}
	seen[typ] = true
	switch typ.Kind() {
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64, reflect.Uint, reflect.Uint8, reflect.Uint16,
		reflect.Uint32, reflect.Uint64, reflect.Float32, reflect.Float64, reflect.Complex64, reflect.Complex128, reflect.Interface, reflect.Func, reflect.Chan:
		seen[typ] = false
		return []string{at + " " + typ.String()}
	case reflect.Pointer, reflect.Slice, reflect.Array:
		return bare(typ.Elem(), at+"[]", seen)
	case reflect.Map:
		return append(bare(typ.Key(), at+" key", seen), bare(typ.Elem(), at+"[]", seen)...)
	case reflect.Struct:
		var out []string
		for i := range typ.NumField() {
			if !typ.Field(i).IsExported() { // no template can print it
				continue
			}
			out = append(out, bare(typ.Field(i).Type, at+"."+typ.Field(i).Name, seen)...)
		}
		return out
	}
	return nil
}

// Each template is drawn with an empty model and with one in which every field, list and branch is
// filled: a field that a template names and its model lacks fails in one of the two.
func TestTemplatesFitTheirModels(t *testing.T) {
	p, err := NewPrinter(demoBook(), view.Deps{Site: fakeSite{Book: demoBook()}})
	require.NoError(t, err)
	for kind, m := range pageModels() {
		_, err := p.Draw(kind, m)
		assert.NoError(t, err, kind+", empty")
		full := reflect.New(reflect.TypeOf(m)).Elem()
		fill(full, 0)
		html, err := p.Draw(kind, full.Interface())
		assert.NoError(t, err, kind+", filled")
		assert.NotContains(t, string(html), "<no value>", kind)
	}
}

func fill(v reflect.Value, depth int) {
	if depth > 12 || !v.CanSet() {
		return
	}
	switch v.Interface().(type) {
	case content.Figure:
		v.Set(reflect.ValueOf(content.NewFigure(1.5, "mm", 1, content.On(content.Part{Ground: content.Memory}))))
		return
	}
	switch v.Kind() {
	case reflect.String:
		v.SetString("x")
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i), depth+1)
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fill(v.Index(0), depth+1)
		fill(v.Index(1), depth+1)
	case reflect.Array:
		for i := range v.Len() {
			fill(v.Index(i), depth+1)
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem(), depth+1)
	}
}

func TestAddressesAreKnownBeforeDrawing(t *testing.T) {
	sheets, err := All(demoBook(), view.Deps{Site: fakeSite{Book: demoBook()}})
	require.NoError(t, err)
	have := map[string]bool{}
	for _, s := range sheets {
		assert.False(t, have[s.Address], s.Address)
		have[s.Address] = true
		assert.True(t, strings.HasSuffix(s.Address, ".html"), "links name files: %s", s.Address)
	}
	for _, a := range view.FixedPages() {
		assert.Equal(t, a != view.DuePage && a != view.HandoverPage, have[a], "%s: what is due is for members", a)
	}
}
