package page

// A guide too large to be kept whole: the reader chooses waters, with the size said beforehand.

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"image/png"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/browser"
	"guidegen/build/view"
	"guidegen/templates"
)

// keptOnDisk writes the demo's site with its worker; every file is said to weigh as much as asked.
func keptOnDisk(t *testing.T, weight int) (dir string, list keptListRead) {
	book := demoBook()
	dir = onDisk(t, book)
	generated, err := Generated(book, view.Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	for _, f := range generated {
		write(t, filepath.Join(dir, f.Address), f.Bytes)
	}
	var files []Named
	require.NoError(t, filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(name)
		address, _ := filepath.Rel(dir, name)
		n := NameFile(filepath.ToSlash(address), data)
		n.Size = weight
		files = append(files, n)
		return err
	}))
	kept, err := Offline(book, files)
	require.NoError(t, err)
	for _, f := range kept {
		write(t, filepath.Join(dir, f.Address), f.Bytes)
	}
	sum := sha256.Sum256(kept[0].Bytes)
	assert.Contains(t, string(kept[1].Bytes), "var LIST = '"+hex.EncodeToString(sum[:])+"';")
	require.NoError(t, json.Unmarshal(kept[0].Bytes, &list))

	slices.Reverse(files)
	again, err := Offline(book, files)
	require.NoError(t, err)
	assert.Equal(t, kept, again, "the order of the files is of no matter")
	return dir, list
}

type keptListRead struct {
	Files  [][]any
	Core   []int
	Waters []keptWater
}

func (l keptListRead) addresses(places []int) (out []string) {
	for _, i := range places {
		out = append(out, l.Files[i][0].(string))
	}
	return out
}

func TestASmallGuideIsKeptWhole(t *testing.T) {
	_, list := keptOnDisk(t, 1)
	assert.Empty(t, list.Waters)
	all := list.addresses(upTo(len(list.Files)))
	assert.Subset(t, all, []string{view.FrontPage, view.SievePage, view.SearchPage, view.SearchIndex, view.Assets + "site.css", view.Assets + "echarts.js", view.AppManifest, view.NotFoundPage, view.OfflinePage})
	for _, a := range all {
		assert.NotContains(t, []string{view.Worker, view.OfflineList}, a)
	}
}

func upTo(n int) (out []int) {
	for i := range n {
		out = append(out, i)
	}
	return out
}

func TestALargeGuideIsKeptByWater(t *testing.T) {
	book := demoBook()
	dir, list := keptOnDisk(t, view.MostKept/10)
	require.Len(t, list.Waters, len(book.Waters))
	core := list.addresses(list.Core)
	assert.Subset(t, core, []string{view.FrontPage, view.SearchPage, view.SearchIndex, view.Assets + "site.css", view.OfflinePage, view.CautionsPage, view.MonthPage(5)})
	for i, w := range book.Waters {
		of := list.addresses(list.Waters[i].Files)
		assert.Subset(t, of, []string{view.WaterPage(w), view.TripPage(w), view.WaterKeyPage(w), view.WaterMonthKeyPage(w, 12), view.FlyPage(w.Rows[0].Fly)})
		assert.NotContains(t, core, view.WaterPage(w))
		for j, other := range book.Waters {
			assert.Equal(t, i == j, slices.Contains(of, view.WaterPage(other)))
		}
	}

	var down atomic.Bool
	files := http.FileServer(http.Dir(dir))
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if down.Load() {
			panic(http.ErrAbortHandler)
		}
		files.ServeHTTP(w, r)
	}))
	defer server.Close()
	ctx := browser.Open(t)
	visit(t, ctx, server.URL+"/"+view.OfflinePage)
	says := `document.getElementById('keep-says').textContent`
	require.Eventually(t, func() bool { return strings.Contains(eval[string](t, ctx, says), "not kept") }, 10*time.Second, 100*time.Millisecond)
	size := eval[string](t, ctx, `document.getElementById('keep-size').textContent`)
	assert.Regexp(t, `^It takes [\d.,]+ MB without photos\.$`, size)
	eval[bool](t, ctx, `(document.querySelector('#keep-waters input').click(), true)`)
	assert.NotEqual(t, size, eval[string](t, ctx, `document.getElementById('keep-size').textContent`))
	eval[bool](t, ctx, `(document.getElementById('keep-go').click(), true)`)
	require.Eventually(t, func() bool { return strings.Contains(eval[string](t, ctx, says), "is kept") }, 60*time.Second, 200*time.Millisecond)

	open := func(address string) string {
		visit(t, ctx, server.URL+"/"+address)
		return eval[string](t, ctx, `location.pathname.slice(1) + location.hash`)
	}
	down.Store(true)
	mine, other := view.WaterPage(book.Waters[0]), view.WaterPage(book.Waters[1])
	for _, address := range []string{mine, view.FrontPage, view.FlyPage(book.Waters[0].Rows[0].Fly)} {
		assert.Equal(t, address, open(address))
	}
	assert.Equal(t, view.OfflinePage+"#missing", open(other))

	// Another water is taken beside the first.
	down.Store(false)
	open(view.OfflinePage)
	require.Eventually(t, func() bool { return eval[int](t, ctx, `document.querySelectorAll('#keep-waters input').length`) > 1 }, 10*time.Second, 100*time.Millisecond)
	eval[bool](t, ctx, `(document.querySelectorAll('#keep-waters input')[1].click(), document.getElementById('keep-go').click(), true)`)
	require.Eventually(t, func() bool { return !eval[bool](t, ctx, `document.getElementById('keep-go').disabled`) }, 60*time.Second, 200*time.Millisecond)
	down.Store(true)
	assert.Equal(t, mine, open(mine))
	assert.Equal(t, other, open(other))
}

// The manifest is read by the rules of the W3C's Web Application Manifest (from memory): addresses
// relative to the manifest, icons of the sizes they are said to have.
func TestAppManifest(t *testing.T) {
	book := demoBook()
	p, err := NewPrinter(book, view.Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	text, err := p.appManifest()
	require.NoError(t, err)
	var m struct {
		Name      string
		Start     string `json:"start_url"`
		Scope     string
		ShortName string `json:"short_name"`
		Icons     []struct{ Src, Sizes, Type string }
	}
	require.NoError(t, json.Unmarshal(text, &m))
	assert.Equal(t, book.Edition.Settings.Name, m.Name)
	assert.Equal(t, []string{view.FrontPage, "./"}, []string{m.Start, m.Scope})
	assert.LessOrEqual(t, len(m.ShortName), 12)
	require.Len(t, m.Icons, 3)
	for _, icon := range m.Icons {
		data, err := templates.Files.ReadFile("icons/" + strings.TrimPrefix(icon.Src, view.Assets))
		require.NoError(t, err)
		if icon.Type == "image/png" {
			c, err := png.DecodeConfig(bytes.NewReader(data))
			require.NoError(t, err)
			assert.Equal(t, icon.Sizes, fmt.Sprintf("%dx%d", c.Width, c.Height))
		}
	}
}
