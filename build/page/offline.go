package page

// The guide kept on the reader's device: the list of a build's files with their checksums, the
// worker that takes and serves them, and the manifest by which a phone puts the guide among its
// own programs. The list is made last, once every file it names is known.

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"html/template"
	"io/fs"
	"path"
	"slices"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/view"
	"guidegen/templates"
)

// Named is a file of the site as it was written.
type Named struct {
	Address string
	Size    int
	SHA256  [sha256.Size]byte
}

// NameFile notes a file.
func NameFile(address string, data []byte) Named {
	return Named{address, len(data), sha256.Sum256(data)}
}

// File is a file that is not a page.
type File struct {
	Address string
	Bytes   []byte
}

// OfflineModel is the page "On this device".
type OfflineModel struct {
	view.Frame
	Words template.HTML
}

func (p *Printer) offline() OfflineModel {
	m := OfflineModel{Frame: p.Frame("offline", view.OfflinePage, p.words.Plain("keep.title"), view.ToolStyle, "kit.js", "keep.js"), Words: p.WordBlock("keep", "decimal")}
	m.Description = p.words.Plain("keep.about")
	return m
}

// keptFile is [address, bytes, checksum].
type keptFile Named

func (f keptFile) MarshalJSON() ([]byte, error) {
	return json.Marshal([]any{f.Address, f.Size, hex.EncodeToString(f.SHA256[:])[:view.KeptChecksum]})
}

type keptWater struct {
	Name  string `json:"name"`
	Files []int  `json:"files"`
}

type keptList struct {
	Built  string      `json:"built"`
	Files  []keptFile  `json:"files"`
	Core   []int       `json:"core,omitempty"`   // of a large guide: what every choice needs
	Waters []keptWater `json:"waters,omitempty"` // of a large guide
}

// Offline makes the list of a build's files and its worker. files may be in any order. Data files,
// feeds and photos are not kept: pages are whole without them.
func Offline(book *figures.Book, files []Named) ([]File, error) {
	l := keptList{Built: book.Built.String(), Files: []keptFile{}}
	size := 0
	for _, f := range files {
		if keeps(f.Address) {
			l.Files = append(l.Files, keptFile(f))
			size += f.Size
		}
	}
	slices.SortFunc(l.Files, func(a, b keptFile) int { return strings.Compare(a.Address, b.Address) })
	if size > view.MostKept {
		l.byWater(book)
	}
	list, err := json.Marshal(l)
	if err != nil {
		return nil, err
	}
	worker, err := fs.ReadFile(templates.Files, "worker/"+view.Worker)
	if err != nil {
		return nil, err
	}
	sum := sha256.Sum256(list)
	text := strings.Replace(string(worker), "{{list}}", hex.EncodeToString(sum[:]), 1)
	return []File{{view.OfflineList, list}, {view.Worker, []byte(text)}}, nil
}

func keeps(address string) bool {
	if strings.HasPrefix(address, "booklet") {
		return false // all that stands elsewhere once more, for a printer
	}
	switch path.Ext(address) {
	case ".html", ".webmanifest":
		return true
	}
	return strings.HasPrefix(address, "fig/") || strings.HasPrefix(address, view.Assets) && path.Ext(address) != ".txt"
}

// byWater sorts a large guide's files: a water's own pages with its flies and dressings, and what
// every reader needs.
func (l *keptList) byWater(book *figures.Book) {
	at := map[string]int{}
	for i, f := range l.Files {
		at[f.Address] = i
	}
	shared := map[int]bool{}
	for _, w := range book.Waters {
		k := keptWater{Name: w.Name.S}
		add := func(address string) {
			if i, ok := at[address]; ok && !slices.Contains(k.Files, i) {
				k.Files = append(k.Files, i)
				shared[i] = true
			}
		}
		for i, f := range l.Files { // rivers/x.html, trip/x.html, key/x.html, key/x-05.html and the like
			base := strings.TrimSuffix(path.Base(f.Address), ".html")
			if month := strings.TrimPrefix(base, w.Address+"-"); base == w.Address || month != base && len(month) == 2 && strings.Trim(month, "0123456789") == "" {
				if dir := path.Dir(f.Address); dir != "species" && dir != "dressings" && dir != "notes" && dir != "." {
					add(l.Files[i].Address)
				}
			}
		}
		add(view.ChartsFile(view.WaterPage(w)))
		for _, r := range w.Rows {
			add(view.FlyPage(r.Fly))
			add(view.ChartsFile(view.FlyPage(r.Fly)))
			for _, d := range r.Dressings {
				for _, o := range d.Advice.Offered {
					if x := book.Dressing(o.Name); x != nil {
						add(view.DressingPage(x))
					}
				}
			}
		}
		slices.Sort(k.Files)
		l.Waters = append(l.Waters, k)
	}
	for i, f := range l.Files {
		if dir := path.Dir(f.Address); !shared[i] && dir != "species" && dir != "dressings" {
			l.Core = append(l.Core, i)
		}
	}
}

// Generated lists the files that the guide's own content makes beside its pages.
func Generated(book *figures.Book, deps view.Deps) ([]File, error) {
	p, err := NewPrinter(book, deps)
	if err != nil {
		return nil, err
	}
	manifest, err := p.appManifest()
	if err != nil {
		return nil, err
	}
	charts, err := p.chartFiles()
	return append(charts, File{view.SearchIndex, p.searchIndex()}, File{view.AppManifest, manifest}), err
}

// appManifest is the web app manifest (W3C, Web Application Manifest). Its addresses are relative
// to itself, at the site's root.
func (p *Printer) appManifest() ([]byte, error) {
	name := p.Settings().Name
	if name == "" {
		name = p.words.Plain("front.title")
	}
	type icon struct {
		Src   string `json:"src"`
		Sizes string `json:"sizes"`
		Type  string `json:"type"`
	}
	return json.MarshalIndent(struct {
		Name       string `json:"name"`
		ShortName  string `json:"short_name"`
		Lang       string `json:"lang"`
		Start      string `json:"start_url"`
		Scope      string `json:"scope"`
		Display    string `json:"display"`
		Background string `json:"background_color"`
		Theme      string `json:"theme_color"`
		Icons      []icon `json:"icons"`
	}{name, p.words.Plain("keep.short_name"), p.words.Lang, view.FrontPage, "./", "minimal-ui", "#f7f5ef", "#17606b", []icon{
		{view.Assets + "icon.svg", "any", "image/svg+xml"}, {view.Assets + "icon-192.png", "192x192", "image/png"}, {view.Assets + "icon-512.png", "512x512", "image/png"},
	}}, "", " ")
}
