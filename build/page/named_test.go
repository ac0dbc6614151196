package page

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
)

// A figure is named by what its parts are about and by its fields; unknown ones are passed over.
func TestFiguresAreNamedByTheirModel(t *testing.T) {
	own := content.On(content.Part{Ground: content.OwnStatement})
	three := content.NewFigure(3, "", 0, own)
	type row struct {
		Month  string
		Chance content.Figure
		Range  lang.Range
	}
	type part struct {
		view.Frame
		Fly  lang.Link
		Rows []row
		hidden,
		Unknown content.Figure
	}
	var what []string
	for _, f := range Figures(&part{Frame: view.Frame{Title: "not this"}, Fly: lang.Link{Text: "Olive"}, hidden: three,
		Rows: []row{{"May", three, lang.Range{Low: three, High: three}}, {"June", content.Figure{}, lang.Range{}}}}) {
		what = append(what, f.What)
		assert.Equal(t, 3.0, f.Figure.Value())
	}
	assert.Equal(t, []string{"Olive, rows, May, chance", "Olive, rows, May, range", "Olive, rows, May, range, high"}, what)
	assert.Empty(t, Figures(nil))
}

// Every page can be asked, also one of a water with three years of visits and more, of which more is printed.
func TestEveryPageNamesItsFigures(t *testing.T) {
	for name, book := range guidesToDraw(t) {
		sheets, err := All(book, view.Deps{Site: fakeSite{Book: book}})
		assert.NoError(t, err)
		figures := 0
		for _, s := range sheets {
			for _, f := range Figures(s.Model()) {
				figures++
				assert.NotEmpty(t, f.What, s.Address)
				assert.False(t, f.Figure.Basis().IsZero(), "%s: %s", s.Address, f.What)
			}
		}
		assert.Positive(t, figures, name)
	}
}
