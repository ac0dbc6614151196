package build

// The pictures of a site: made of the guide's own as the site is drawn, since
// only then is every pixel looked at.

import (
	"fmt"
	"io/fs"
	"sync"

	"guidegen/build/guide"
	"guidegen/build/page"
	"guidegen/build/photo"
	"guidegen/content"
)

// photos lists the files of an edition's photos. Two entries may show one
// picture; its files stand once.
func photos(e *guide.Edition, from fs.FS) []file {
	var out []file
	seen := map[string]bool{}
	for _, p := range e.Photos {
		m := &making{photo: p, from: from}
		for i, s := range p.Picture.Sizes() {
			address := page.PhotoAddress(p, s)
			if seen[address] {
				continue
			}
			seen[address] = true
			out = append(out, file{address, false, func() (page.Drawn, error) { return m.drawn(i) }})
		}
	}
	return out
}

// making is one picture being made: decoded once for all its sizes.
type making struct {
	photo *guide.Photo
	from  fs.FS
	once  sync.Once
	made  []photo.Made
	err   error
}

func (m *making) drawn(i int) (page.Drawn, error) {
	m.once.Do(func() {
		b, err := fs.ReadFile(m.from, m.photo.File)
		if err == nil && !m.photo.Picture.Same(b) {
			err = fmt.Errorf("%s changed while the site was made of it; try again", m.photo.File)
		}
		if err == nil {
			m.made, err = photo.Derive(b)
		}
		m.err = err
	})
	if m.err != nil {
		var ps content.Problems
		if guide.RefusePhoto(m.photo, m.err, &ps) {
			return page.Drawn{Problems: ps.All()}, nil
		}
		return page.Drawn{}, m.err
	}
	b := m.made[i].JPEG
	m.made[i].JPEG = nil // written now
	return page.Drawn{HTML: b}, nil
}
