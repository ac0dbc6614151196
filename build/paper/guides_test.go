package paper

import (
	"testing"

	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/build/trial"
	"guidegen/build/view"
)

var demoBook = trial.Demo

func newPrinter(t testing.TB, book *figures.Book) printer {
	t.Helper()
	p, err := view.NewPrinter(book, view.Deps{Site: trial.Site{Book: book}})
	require.NoError(t, err)
	return on(p, book)
}
