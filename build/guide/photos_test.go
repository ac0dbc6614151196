package guide

import (
	"bytes"
	"image"
	"image/jpeg"
	"image/png"
	"os"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/problems"
	"guidegen/species"
)

func picture(t *testing.T, w, h int) []byte {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, w, h))))
	return b.Bytes()
}

// withPhotos is a small guide with a photos.yaml and some pictures.
func withPhotos(t *testing.T, text string, pictures ...string) fstest.MapFS {
	m := small("")
	if text != "" {
		m["photos/photos.yaml"] = &fstest.MapFile{Data: []byte(text)}
	}
	for _, p := range pictures {
		m["photos/"+p] = &fstest.MapFile{Data: picture(t, 30, 20)}
	}
	return m
}

// found lists the problems about photos as "grade id place".
func found(ps *content.Problems) []string {
	var l []string
	for _, p := range ps.All() {
		l = append(l, p.Grade.String()+" "+p.ID+" "+ps.Where(p.At))
	}
	return l
}

const whole = `- file: olive.jpg
  alt: a slate-grey dun on a wet stone
  credit: A. Lens
  permission: {scope: site and print, from: 2026-01-01, until: 2029-12-31, by: by letter}
  shows: {fly: Baetis rhodani, stage: subimago, sex: female, water: brook, date: 2026-05, reared: no}
  caption: Blown off the water.
  licence: CC BY 4.0
`

func TestPhoto(t *testing.T) {
	g, ps := read(t, withPhotos(t, whole, "olive.jpg")) // a PNG by content, which is what counts
	require.Empty(t, found(ps))
	require.Len(t, g.Photos, 1)
	p := g.Photos[0]
	assert.Equal(t, "photos/olive.jpg", p.File)
	assert.True(t, p.Published)
	assert.True(t, p.InPrint())
	assert.False(t, p.Members)
	assert.Equal(t, []string{"A. Lens", "a slate-grey dun on a wet stone", "Blown off the water.", "CC BY 4.0"}, []string{p.Credit, p.Alt, p.Caption, p.Licence})
	assert.Equal(t, Permission{"site and print", calendar.Date{Year: 2026, Month: 1, Day: 1}, calendar.Date{Year: 2029, Month: 12, Day: 31}, "by letter"}, p.Permission)
	s := p.Shows
	assert.Equal(t, "olive", s.Fly.Address)
	assert.Equal(t, "brook", s.Water.Address)
	assert.Equal(t, species.Dun, s.Stage)
	assert.Equal(t, species.Female, s.Sex)
	assert.True(t, s.Wild)
	assert.False(t, s.Reared)
	assert.Equal(t, 31, s.Date.To.Day)
	assert.Equal(t, "png", p.Picture.Format)
	assert.Equal(t, 30, p.Picture.Width)
}

// A list, a block keyed by file, and one photo alone say the same.
func TestPhotoShapes(t *testing.T) {
	const body = "alt: a dun, credit: A. Lens, permission: {scope: site}, shows: {fly: Alder}"
	for name, text := range map[string]string{
		"list":  "- {file: a.png, " + body + "}\n- {file: photos/b.png, " + body + "}\n",
		"keyed": "a.png: {" + body + "}\nb.png: {" + body + "}\n",
	} {
		g, ps := read(t, withPhotos(t, text, "a.png", "b.png"))
		require.Empty(t, found(ps), name)
		require.Len(t, g.Photos, 2, name)
		assert.Equal(t, "photos/b.png", g.Photos[1].File, name)
		assert.False(t, g.Photos[1].InPrint())
	}
	g, ps := read(t, withPhotos(t, "file: sub/a.png\n"+strings.ReplaceAll(body, ", ", "\n")+"\n", "sub/a.png"))
	require.Empty(t, found(ps))
	require.Len(t, g.Photos, 1)
	g, ps = read(t, withPhotos(t, "# nothing yet\n"))
	assert.Empty(t, found(ps))
	assert.Empty(t, g.Photos)
	_, ps = read(t, withPhotos(t, "olive.jpg\n"))
	assert.Equal(t, []string{"error wrong-shape photos/photos.yaml:1:1"}, found(ps))
}

// Whether a photo is published, and what the editor is told, on the day 2026-11-24.
func TestPermission(t *testing.T) {
	const shows = "shows: {fly: Alder}"
	for entry, want := range map[string]string{
		"credit: A. Lens, permission: {scope: site}, " + shows:                                        "",
		"credit: A. Lens, permission: {scope: members}, " + shows:                                     "",
		"permission: {scope: site}, " + shows:                                                         "warning photo-no-credit",
		"credit: nora none, permission: {scope: site}, " + shows:                                      "warning photo-no-credit",
		"credit: A. Lens, " + shows:                                                                   "warning photo-no-permission",
		"credit: A. Lens, permission: {by: word of mouth}, " + shows:                                  "warning photo-no-permission",
		"credit: A. Lens, permission: {scope: print}, " + shows:                                       "note photo-print-only",
		"credit: A. Lens, permission: {scope: site, until: 2026-11-23}, " + shows:                     "warning permission-expired",
		"credit: A. Lens, permission: {scope: site, until: 2026-11-24}, " + shows:                     "+note permission-ends-soon",
		"credit: A. Lens, permission: {scope: site, until: 2027-01-23}, " + shows:                     "+note permission-ends-soon", // 60 days
		"credit: A. Lens, permission: {scope: site, until: 2027-01-24}, " + shows:                     "",
		"credit: A. Lens, permission: {scope: site, from: 2026-11-25}, " + shows:                      "note permission-ahead",
		"credit: A. Lens, permission: {scope: site, from: 2026-11-24}, " + shows:                      "",
		"credit: A. Lens, permission: {scope: site}":                                                  "+note photo-shows-nothing",
		"credit: A. Lens, permission: {scope: site}, shows: {water: Brook}":                           "",
		"credit: A. Lens, permission: {scope: site}, shows: {fly: Aldr}":                              "!error unknown-fly",
		"credit: A. Lens, permission: {scope: site}, shows: {water: Brok}":                            "!error unknown-water",
		"credit: A. Lens, permission: {scope: site}, shows: {fly: Alder, stage: dun}":                 "!error stage-not-in-group",
		"credit: A. Lens, permission: {scope: site}, shows: {fly: Alder, stage: dum}":                 "!error unknown-stage",
		"credit: A. Lens, permission: {scope: site}, shows: {fly: Alder, sex: femal}":                 "!error unknown-choice",
		"credit: A. Lens, permission: {scope: site}, shows: {fly: Alder, date: 3/5/24}":               "!error bad-date",
		"credit: A. Lens, permission: {scope: site, from: 2027-01-01, until: 2026-12-01}, " + shows:   "error bad-date",
		"credit: A. Lens, permission: {scope: site, until: soon}, " + shows:                           "!error bad-date",
		"credit: A. Lens, permission: {scope: sight}, " + shows:                                       "error unknown-choice",
		"credit: A. Lens, permission: {scope: site}, shows: {fly: Alder}, photographer: A. Lens":      "!error unknown-key",
		"credit: A. Lens, permission: {scope: site}, shows: {fly: Alder}, alt: ~, file: a.png":        "error duplicate-key",
		"credit: \"\", permission: {scope: site, until: 2024-12-31}, shows: {fly: Alder, stage: dun}": "error stage-not-in-group",
	} {
		g, ps := read(t, withPhotos(t, "- {file: a.png, alt: a fly, "+entry+"}\n", "a.png"))
		l := found(ps)
		grade := strings.TrimLeft(want, "+!")
		if want == "" {
			assert.Empty(t, l, entry)
		} else {
			require.NotEmpty(t, l, entry)
			assert.Contains(t, strings.Join(l, "\n"), grade+" photos/photos.yaml:1:", entry)
		}
		published := len(g.Photos) == 1 && g.Photos[0].Published
		switch want[:min(1, len(want))] {
		case "", "+":
			assert.True(t, published, entry)
		case "n", "w":
			assert.False(t, published, entry)
			assert.Len(t, l, 1, entry)
		}
	}
	// Who builds for no day asks no day.
	ps := &content.Problems{}
	g, err := Read(withPhotos(t, "a.png: {alt: x, credit: A, permission: {scope: site, until: 1999-01-01}, shows: {fly: Alder}}", "a.png"), calendar.Date{}, ps)
	require.NoError(t, err)
	assert.True(t, g.Photos[0].Published)
}

// Pictures that are missing, unlisted, listed twice, or none.
func TestPictures(t *testing.T) {
	const rest = ": {alt: x, credit: A, permission: {scope: site}, shows: {fly: Alder}}\n"
	m := withPhotos(t, "", "alder.png", "spare.png", "notes.txt")
	m["photos/photos.yml"] = &fstest.MapFile{}
	_, ps := read(t, m)
	assert.Equal(t, []string{"note photo-not-listed photos/alder.png", "note photo-not-listed photos/notes.txt",
		"warning wrong-extension photos/photos.yml", "note photo-not-listed photos/spare.png"}, found(ps))

	_, ps = read(t, withPhotos(t, "Alder.PNG"+rest, "alder.png"))
	assert.Equal(t, "error photo-missing photos/photos.yaml:1:1", found(ps)[1])
	assert.Contains(t, ps.All()[1].Message, `did you mean "alder.png"?`)

	for _, outside := range []string{"../guide.yaml", "../../etc/passwd", "/etc/passwd", "photos.yaml"} {
		_, ps = read(t, withPhotos(t, outside+rest))
		assert.Equal(t, []string{"error photo-missing photos/photos.yaml:1:1"}, found(ps), outside)
	}

	_, ps = read(t, withPhotos(t, "a.png"+rest+"photos/a.png"+rest, "a.png"))
	assert.Equal(t, []string{"error photo-twice photos/photos.yaml:2:1"}, found(ps))

	// A folder of photos made where accented letters are stored as two characters.
	g, ps := read(t, withPhotos(t, "frühling.png"+rest, "fru\u0308hling.png"))
	require.Empty(t, found(ps))
	assert.Equal(t, "photos/fru\u0308hling.png", g.Photos[0].File)

	var j bytes.Buffer
	require.NoError(t, jpeg.Encode(&j, image.NewGray(image.Rect(0, 0, 9, 9)), nil))
	for text, want := range map[string]string{
		"GIF89a": "photo-format", "<svg/>": "photo-format", "": "photo-broken", "\xff\xd8\xff\xe0": "photo-broken",
		string(picture(t, 12001, 1)): "photo-too-large", string(j.Bytes()[:30]): "photo-broken",
		j.String(): "", string(picture(t, 1, 1)): "",
	} {
		m := withPhotos(t, "a.jpg"+rest)
		m["photos/a.jpg"] = &fstest.MapFile{Data: []byte(text)}
		g, ps := read(t, m)
		if want == "" {
			assert.Empty(t, found(ps))
			continue
		}
		assert.Equal(t, []string{"error " + want + " photos/photos.yaml:1:1"}, found(ps))
		assert.False(t, g.Photos[0].Published)
	}

	// What may not be published is not looked at: its picture may be gone already.
	_, ps = read(t, withPhotos(t, "gone.png: {alt: x, credit: A, permission: {scope: site, until: 2020-01-01}, shows: {fly: Alder}}\n"))
	assert.Equal(t, []string{"warning permission-expired photos/photos.yaml:1:1"}, found(ps))
}

// The cut: what is for members, by itself or by what it shows, is in the
// members' edition alone, and who gave a permission is in none.
func TestPhotosOfAnEdition(t *testing.T) {
	entry := func(file, permission, more, shows string) string {
		return file + ": {alt: a picture of " + file + " and nothing else, credit: Ada Full, permission: {scope: " + permission + ", by: a letter}, " + more + "shows: {" + shows + "}}\n"
	}
	m := withPhotos(t, entry("1.png", "site", "", "fly: Alder, water: Brook")+entry("2.png", "site", "show: members, ", "fly: Alder")+
		entry("3.png", "members", "", "fly: Alder")+entry("4.png", "site", "", "fly: Secret sedge")+entry("5.png", "site", "", "water: Hidden brook")+
		entry("6.png", "print", "", "fly: Alder")+"7.png: {alt: a seventh and last picture of it, credit: Ida Letters, permission: {scope: site}, shows: {fly: Alder}}\n",
		"1.png", "2.png", "3.png", "4.png", "5.png", "6.png", "7.png")
	m["guide.yaml"] = &fstest.MapFile{Data: []byte(strings.Replace(settingsFile, "Ada Full: full", "Ada Full: full, Ida Letters: initials", 1))}
	m["species/secret.md"] = &fstest.MapFile{Data: []byte("---\nname: Secret sedge\nscientific: Silo pallipes\ngroup: sedge\nshow: members\n---\n")}
	m["rivers/hidden.yaml"] = &fstest.MapFile{Data: []byte("name: Hidden brook\nkind: peaty\nshow: members\n")}
	g := clean(t, m)
	require.Len(t, g.Photos, 7)
	files := func(e *Edition) (l []string) {
		for _, p := range e.Photos {
			l = append(l, strings.TrimPrefix(p.File, "photos/"))
			assert.Empty(t, p.Permission.By)
			if p.Shows.Water != nil {
				assert.Contains(t, e.Waters, p.Shows.Water)
			}
			if p.Shows.Fly != nil {
				assert.Contains(t, e.Accounts, p.Shows.Fly)
			}
		}
		return l
	}
	public, members := Cut(g, false), Cut(g, true)
	assert.Equal(t, []string{"1.png", "7.png"}, files(public))
	assert.Equal(t, []string{"1.png", "2.png", "3.png", "4.png", "5.png", "7.png"}, files(members))
	assert.Equal(t, "I. L.", public.Photos[1].Credit)
	assert.Equal(t, "Ada Full", public.Photos[0].Credit)
	assert.Equal(t, "a letter", g.Photos[0].Permission.By, "the guide itself keeps it")
	assert.Contains(t, public.Withheld, "a picture of 2.png and nothing else")
	assert.Contains(t, public.Withheld, "a picture of 5.png and nothing else")
	assert.NotContains(t, public.Withheld, "a picture of 1.png and nothing else")
	assert.NotContains(t, members.Withheld, "a picture of 2.png and nothing else")
}

// Every problem of photos is shown by its explanation: laid over the small
// guide, with one sound picture, the example gives what it announces and
// nothing else.
func TestExplainedPhotoProblems(t *testing.T) {
	call := regexp.MustCompile(`(?:Errorf|Warnf|Notef|Clash)\("([a-z-]+)"`)
	comment := regexp.MustCompile(` *# want "([^"]*)"`)
	ids := map[string]bool{}
	for _, name := range []string{"photos.go", "permission.go"} {
		b, err := os.ReadFile(name)
		require.NoError(t, err)
		for _, m := range call.FindAllSubmatch(b, -1) {
			if id := string(m[1]); strings.HasPrefix(id, "photo-") || strings.HasPrefix(id, "permission-") {
				ids[id] = true
			}
		}
	}
	require.Len(t, ids, 14)
	for id := range ids {
		text, example, ok := problems.Explain(id)
		require.True(t, ok, id)
		assert.Greater(t, len(text), 60, id)
		if example == "" {
			assert.Contains(t, []string{"photo-colours", "photo-too-large"}, id, "needs bytes that no text holds")
			continue
		}
		m := small("")
		m["photos/olive-dun.jpg"] = &fstest.MapFile{Data: picture(t, 30, 20)}
		var want []string
		for _, f := range txtar.Parse([]byte(example)).Files {
			if f.Name == "want" {
				want = append(want, strings.Split(strings.TrimSpace(string(f.Data)), "\n")...)
				continue
			}
			for i, line := range strings.Split(string(f.Data), "\n") {
				if w := comment.FindStringSubmatch(line); w != nil {
					want = append(want, f.Name+":"+string(rune('1'+i))+":9: "+w[1])
				}
			}
			m[f.Name] = &fstest.MapFile{Data: f.Data}
		}
		if !strings.Contains(example, "file: olive-dun.jpg") {
			delete(m, "photos/olive-dun.jpg")
		}
		_, ps := read(t, m)
		require.Len(t, ps.All(), len(want), "%s: %v", id, found(ps))
		for i, p := range ps.All() {
			assert.Equal(t, id, p.ID)
			where, message, _ := strings.Cut(want[i], ": ")
			assert.Equal(t, where, ps.Where(p.At), id)
			assert.Contains(t, p.Message, message, id)
		}
	}
}
