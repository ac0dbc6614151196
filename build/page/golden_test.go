package page

// Four pages of a small guide as they were last looked at: a change of look shows in review.
// Renew them with: GUIDEGEN_RENEW=1 go test -run TestGoldenPages ./build/page

import (
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/view"
)

// golden is one fly of two flights on one water, with a visit that found it, one that didn't, and a dressing.
func golden() fstest.MapFS {
	files := twoFlights()
	files["hooks.csv"] = file("model,size,shank mm,shape,for,measured by,measured on\ndry,14,8.5,straight,dun; spinner,A. B.,2026-01-17\ndry,18,6.1,straight,dun; spinner,A. B.,2026-01-17\n")
	files["dressings/box.yaml"] = file("- name: Plain Twice\n  from: our own\n  fishes: surface\n  stands_for: {flies: [Twice olive], stages: [dun]}\n" +
		"  sizes: 14-18\n  parts: {hook: dry, thread: grey, body: {of: fur, colour: Dark Olive}}\n")
	files["samples/beck.csv"] = file("visit,date,water,method,effort,looked for,fly,stage,count,by\n" +
		"B1,2026-04-10,Beck,sweep net,50 sweeps,all,Twice olive,dun,3,A. B.\nB2,2026-07-04,Beck,sweep net,50 sweeps,all,nothing,,,A. B.\n")
	return files
}

func TestGoldenPages(t *testing.T) {
	book := bookOf(t, golden())
	pages := drawAll(t, book)
	w, f := book.Waters[0], book.Flies[0]
	for name, address := range map[string]string{"river": view.WaterPage(w), "fly": view.FlyPage(f), "key": view.WaterKeyPage(w), "card": "card/" + w.Address + ".html"} {
		path := filepath.Join("..", "..", "testdata", "golden", name+".html")
		got, ok := pages[address]
		require.True(t, ok, address)
		if os.Getenv("GUIDEGEN_RENEW") != "" {
			require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
			require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
			continue
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		if string(want) != got {
			assert.Fail(t, name+" is not as it was last looked at", "look at it, then renew: GUIDEGEN_RENEW=1 go test -run TestGoldenPages ./build/page")
		}
	}
}
