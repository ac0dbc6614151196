package build

// A guide's site without a folder: each file is drawn when it is asked for, and the whole is checked beside that.

import (
	"context"
	"strings"
	"sync"

	"guidegen/build/draw"
	"guidegen/build/guide"
	"guidegen/build/site"
	"guidegen/content"
)

// Live is one edition of a guide, read and reckoned, whose files are drawn when they are asked for. Its methods may be
// called from several goroutines.
type Live struct {
	report  *Report
	guide   *guide.Guide
	plan    *plan
	files   map[string]file
	figures func() map[string]draw.File
	keep    func(address string, data []byte)

	mu   sync.Mutex
	late map[string][]byte // drawn last, by Check: they name all the others
}

// Photos keeps the files made of photos from one Live to the next, since they take long to make. Get gives nil for what
// it doesn't hold.
type Photos interface {
	Get(address string) []byte
	Put(address string, data []byte)
}

// Open reads a guide and lays out its site; photos may be nil. The Live is nil where the guide has errors: the report
// has them. The error is ours.
func Open(o Options, photos Photos) (*Live, *Report, error) {
	r, g, err := o.begin()
	if g == nil {
		return nil, r, err
	}
	keep := func(string, []byte) {}
	if r.made = standing(nil); photos != nil {
		r.made, keep = photos.Get, photos.Put
	}
	p, err := r.lay(guide.Cut(g, o.Edition == Members), nil, nil, nil)
	if r.settle(g, false); err != nil || p == nil {
		return nil, r, err
	}
	l := &Live{report: r, guide: g, plan: p, files: map[string]file{}, keep: keep, late: map[string][]byte{}}
	for _, f := range p.files {
		l.files[f.address] = f
	}
	l.figures = sync.OnceValue(func() map[string]draw.File {
		m := map[string]draw.File{}
		for _, f := range p.album.Files() {
			m[f.Address] = f
		}
		return m
	})
	return l, r, nil
}

// File draws one file of the site; ok is whether it has one at that address. What keeps the site on a device is there
// from the end of Check.
func (l *Live) File(address string) (data []byte, ok bool, err error) {
	if f, ok := l.files[address]; ok {
		err := drawOne(f, func(_ string, b []byte) error { data = b; return nil }, &content.Problems{})
		l.drawn(address, data)
		return data, err == nil, err
	}
	if f, ok := l.figures()[address]; ok {
		return f.Bytes, true, nil
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	data, ok = l.late[address]
	return data, ok, nil
}

// drawn keeps what is dear to draw.
func (l *Live) drawn(address string, data []byte) {
	if strings.HasPrefix(address, "photos/") && data != nil {
		l.keep(address, data)
	}
}

// Check draws the whole site, as Publish would, and verifies it; nothing of it is kept. The report is that of Open, with
// what was found meanwhile; a Live is checked once. The error is ours: site.Failures where a page is wrong, that of stop
// where it ended first.
func (l *Live) Check(stop context.Context) (*Report, error) {
	r := *l.report
	err := r.check(l.plan, stop, func(address string, data []byte) {
		l.drawn(address, data)
		if _, ok := l.files[address]; !ok && !strings.HasPrefix(address, "fig/") {
			l.mu.Lock()
			defer l.mu.Unlock()
			l.late[address] = data
		}
	})
	r.settle(l.guide, false)
	return &r, err
}

// check draws the whole of a plan and verifies it. Each file is seen once, by several goroutines, and not kept.
func (r *Report) check(p *plan, stop context.Context, see func(address string, data []byte)) error {
	notes := site.NewNotebook(searchable(p.book.Edition.Withheld))
	err := r.draw(p, func(address string, data []byte) error {
		if err := stopped(stop); err != nil {
			return err
		}
		notes.Note(address, data)
		see(address, data)
		return nil
	}, nil)
	if err != nil || r.ps.Count(content.Error) > 0 {
		return err
	}
	if failures := notes.Verify(); len(failures) > 0 {
		return failures
	}
	return nil
}
