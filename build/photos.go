package build

// The pictures of a site: made of the guide's own as the site is drawn, since
// only then is every pixel looked at. A picture's address is of its source's bytes,
// so one that the old site holds is not made again.

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"sync"

	"guidegen/build/guide"
	"guidegen/build/photo"
	"guidegen/build/site"
	"guidegen/build/view"
	"guidegen/content"
)

// photos lists the files of an edition's photos. Two entries may show one picture; its files stand once. made gives the
// file at an address where it need not be made again, nil else: its name is of its source's bytes.
func photos(e *guide.Edition, from fs.FS, made func(address string) []byte) []file {
	var out []file
	seen := map[string]bool{}
	for _, p := range e.Photos {
		m := &making{photo: p, from: from, standing: made}
		for i, s := range p.Picture.Sizes() {
			address := view.PhotoAddress(p, s)
			if seen[address] {
				continue
			}
			seen[address] = true
			out = append(out, file{address, false, func() (view.Drawn, error) { return m.drawn(i) }})
		}
	}
	return out
}

// standing gives the file of the old site at an address, nil where it holds none that this program
// wrote there and nobody touched since.
func standing(old fs.FS) func(address string) []byte {
	sums := map[string]string{}
	if old != nil {
		var m site.Manifest
		if b, err := fs.ReadFile(old, site.ManifestName); err == nil && json.Unmarshal(b, &m) == nil && m.Generator == Generator+" "+Version {
			for _, f := range m.Files {
				sums[f.Address] = f.SHA256
			}
		}
	}
	return func(address string) []byte {
		want := sums[address]
		if want == "" {
			return nil
		}
		b, err := fs.ReadFile(old, address)
		if sum := sha256.Sum256(b); err != nil || hex.EncodeToString(sum[:]) != want {
			return nil
		}
		return b
	}
}

// making is one picture being made: taken over or decoded once for all its sizes, each of which is handed out once; whoever
// asks for one again has it made again.
type making struct {
	photo    *guide.Photo
	from     fs.FS
	standing func(address string) []byte
	mu       sync.Mutex
	made     [][]byte // by size
}

func (m *making) make() error {
	m.made = nil
	b, err := fs.ReadFile(m.from, m.photo.File)
	if err != nil {
		return err
	}
	if !m.photo.Picture.Same(b) {
		return fmt.Errorf("%s changed while the site was made of it; try again", m.photo.File)
	}
	for _, s := range m.photo.Picture.Sizes() {
		was := m.standing(view.PhotoAddress(m.photo, s))
		if was == nil {
			break
		}
		m.made = append(m.made, was)
	}
	if len(m.made) == len(m.photo.Picture.Sizes()) {
		return nil
	}
	made, err := photo.Derive(b)
	m.made = nil
	for _, x := range made {
		m.made = append(m.made, x.JPEG)
	}
	return err
}

func (m *making) drawn(i int) (view.Drawn, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if i >= len(m.made) || m.made[i] == nil {
		if err := m.make(); err != nil {
			var ps content.Problems
			if guide.RefusePhoto(m.photo, err, &ps) {
				return view.Drawn{Problems: ps.All()}, nil
			}
			return view.Drawn{}, err
		}
	}
	b := m.made[i]
	m.made[i] = nil // written now
	return view.Drawn{HTML: b}, nil
}
