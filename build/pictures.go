package build

// The drawings of a site: an album holds all that could be shown; only those that a file of the site
// shows are written, since a guide of many flies has hundreds.

import (
	"fmt"
	"path"
	"regexp"
	"sync"

	"guidegen/build/draw"
)

// pictures notes which drawings are shown, and writes each once. note may be called from several
// goroutines.
type pictures struct {
	album   *draw.Album
	mu      sync.Mutex
	shown   map[string]bool // by address; false once written
	written int
}

var pictured = regexp.MustCompile(`fig/[^\s"'<>()?#,\\&]+\.svg`)

// note looks for addresses of drawings in what a reader's browser reads.
func (p *pictures) note(address string, data []byte) {
	switch path.Ext(address) {
	case ".html", ".js", ".json", ".css":
	default:
		return
	}
	found := pictured.FindAll(data, -1)
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, f := range found {
		if _, already := p.shown[string(f)]; !already {
			p.shown[string(f)] = true
		}
	}
}

// write writes the drawings noted since the last time.
func (p *pictures) write(to write) error {
	for _, f := range p.album.Files() {
		if !p.shown[f.Address] {
			continue
		}
		p.shown[f.Address] = false
		p.written++
		if err := to(f.Address, f.Bytes); err != nil {
			return fmt.Errorf("%s: %w", f.Address, err)
		}
	}
	return nil
}
