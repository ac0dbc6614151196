package view

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/trial"
)

var demoBook, oneFly = trial.Demo, trial.OneFly

type fakeSite = trial.Site

func bookOf(t testing.TB, files fstest.MapFS) *figures.Book {
	t.Helper()
	b, err := trial.Book(files)
	require.NoError(t, err)
	return b
}

func english(t testing.TB) *lang.Words {
	t.Helper()
	w, err := lang.LoadWords("en")
	require.NoError(t, err)
	return w
}
