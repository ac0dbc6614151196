package site

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// largePage is about as large as a river's page: 60 kB, 300 links, 200 ids.
func largePage(i int) []byte {
	var b strings.Builder
	b.WriteString(`<!DOCTYPE html><html lang="en" data-records-to="2026-05-01" data-built="2026-06-01"><body>`)
	fmt.Fprintf(&b, "<h1>Water %d</h1>", i)
	for j := range 300 {
		fmt.Fprintf(&b, `<section class="fly row" id="s%d"><p>Found on <data value="%d.5" data-basis="own">%d</data> of 12 visits &amp; in 3 years; looked for in every half-month of the spring. <a href="../rivers/r%d.html#s3">another water</a></p></section>`, j, j, j, (i+j)%2000)
	}
	b.WriteString("</body></html>")
	return []byte(b.String())
}

func BenchmarkRead(b *testing.B) {
	page := largePage(7)
	b.SetBytes(int64(len(page)))
	for b.Loop() {
		Read("rivers/r7.html", page)
	}
}

func BenchmarkFindWithheld(b *testing.B) {
	page := largePage(7)
	b.SetBytes(int64(len(page)))
	var texts []string
	for i := range 500 {
		texts = append(texts, fmt.Sprintf("Recorder %d Marl", i))
	}
	w := NewWithheld(texts)
	for b.Loop() {
		w.Find("rivers/r7.html", page)
	}
}

// Each turn publishes 2,000 pages of 70 kB over an older site; in "unchanged" all are carried over.
func BenchmarkStage2000(b *testing.B) {
	for _, changed := range []bool{true, false} {
		b.Run(map[bool]string{true: "changed", false: "unchanged"}[changed], func(b *testing.B) {
			p := plan(filepath.Join(b.TempDir(), "published"))
			for turn := 0; b.Loop(); turn++ {
				files := make(map[string]string, 2000)
				b.StopTimer()
				for i := range 2000 {
					text := string(largePage(i))
					if changed {
						text += fmt.Sprint("<!--", turn, "-->")
					}
					files[fmt.Sprintf("rivers/r%d.html", i)] = text
				}
				b.StartTimer()
				require.NoError(b, publish(p, files, passing, false))
			}
		})
	}
}
