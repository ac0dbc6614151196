package draw_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// With DRAW_SHEET naming a folder, all drawings of the demo are written there to be looked at.
func TestSheet(t *testing.T) {
	dir := os.Getenv("DRAW_SHEET")
	if dir == "" {
		t.Skip("set DRAW_SHEET to a folder to look at the drawings")
	}
	_, album := demoAlbum(t)
	for _, f := range album.Files() {
		at := filepath.Join(dir, filepath.FromSlash(f.Address))
		require.NoError(t, os.MkdirAll(filepath.Dir(at), 0o755))
		require.NoError(t, os.WriteFile(at, f.Bytes, 0o644))
	}
}
