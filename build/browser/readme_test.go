package browser

// README's picture is of the demo's own site, and shows what its description says.
// Renew it with: GUIDEGEN_RENEW=1 go test -run TestPictureOfReadme ./build/browser

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	pictureWide, pictureHigh = 1080, 760
	pictureSays              = "A water's page around 20 May: what to put on, and the flies on the wing drawn to one scale"
)

func TestPictureOfReadme(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.on("2027-05-20")
	b.size(pictureWide, pictureHigh, 1)
	b.visit(server.URL + below + "rivers/pellowbourne.html")
	b.settle()
	for _, part := range []string{".answer h2", "#now h2", ".flies img", ".law"} {
		assert.Less(t, eval[float64](b, `document.querySelector('`+part+`').getBoundingClientRect().top`), float64(pictureHigh), part)
	}
	assert.Contains(t, eval[string](b, `document.querySelector('.answer h2').innerText`), "20 May")
	path := filepath.Join("..", "..", "testdata", "readme", "river.png")
	if os.Getenv("GUIDEGEN_RENEW") != "" {
		picture, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(path, picture, 0o644))
	}
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	picture, err := png.DecodeConfig(bytes.NewReader(text))
	require.NoError(t, err)
	assert.Equal(t, [2]int{pictureWide, pictureHigh}, [2]int{picture.Width, picture.Height})
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	assert.Contains(t, string(readme), "!["+pictureSays+"](testdata/readme/river.png)")
}
