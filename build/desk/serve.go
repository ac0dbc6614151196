package desk

// The pages as the browser gets them: drawn when it asks, with a script that waits for news; and a page of problems.
// Only this machine is answered.

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"mime"
	"net"
	"net/http"
	"path"
	"regexp"
	"strings"
	"time"
)

//go:embed desk.js desk.css problems.html
var own embed.FS

var problemsPage = template.Must(template.ParseFS(own, "problems.html"))

// under is where the desk's own addresses stand; no page of a guide begins so.
const under = "/-/"

// Handler answers for the site and the desk.
func (d *Desk) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET "+under+"problems", func(w http.ResponseWriter, _ *http.Request) { d.problems(w) })
	mux.HandleFunc("GET "+under+"news", d.news)
	for _, name := range []string{"desk.js", "desk.css"} {
		mux.HandleFunc("GET "+under+name, func(w http.ResponseWriter, _ *http.Request) {
			b, _ := own.ReadFile(name) // embedded
			send(w, http.StatusOK, name, b)
		})
	}
	mux.HandleFunc("GET /", d.file)
	return here(mux)
}

// here refuses requests that name another host: a page elsewhere must not be
// able to read a guide through a name that leads to this machine.
func here(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		host, _, err := net.SplitHostPort(r.Host)
		if err != nil {
			host = r.Host
		}
		if ip := net.ParseIP(strings.Trim(host, "[]")); host != "localhost" && (ip == nil || !ip.IsLoopback()) {
			http.Error(w, "only this machine is answered", http.StatusForbidden)
			return
		}
		next.ServeHTTP(w, r)
	})
}

func send(w http.ResponseWriter, status int, name string, b []byte) {
	kind := mime.TypeByExtension(path.Ext(name))
	switch path.Ext(name) { // a machine's own table may say otherwise
	case ".html":
		kind = "text/html; charset=utf-8"
	case ".js":
		kind = "text/javascript; charset=utf-8"
	case ".css":
		kind = "text/css; charset=utf-8"
	}
	if kind == "" {
		kind = "application/octet-stream"
	}
	h := w.Header()
	h.Set("Content-Type", kind)
	h.Set("Cache-Control", "no-store")
	h.Set("X-Content-Type-Options", "nosniff")
	w.WriteHeader(status)
	_, _ = w.Write(b) // a browser that has gone away is no fault
}

// file draws one file of the site and sends it.
func (d *Desk) file(w http.ResponseWriter, r *http.Request) {
	s, live, _ := d.now()
	if !s.Site {
		d.problems(w)
		return
	}
	name := strings.TrimPrefix(path.Clean("/"+r.URL.Path), "/")
	if name == "" || strings.HasSuffix(r.URL.Path, "/") {
		name = path.Join(name, "index.html")
	}
	status := http.StatusOK
	b, ok, err := live.File(name)
	if !ok && err == nil {
		status, name = http.StatusNotFound, "404.html"
		b, _, err = live.File(name)
		b = atTheRoot(b)
	}
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	if path.Ext(name) == ".html" {
		b = s.dress(b)
	}
	send(w, status, name, b)
}

var rootMark = regexp.MustCompile(`data-root="([^"]+)"`)

// atTheRoot lets the links of a page that begin where the site will stand lead to where it stands here.
func atTheRoot(page []byte) []byte {
	m := rootMark.FindSubmatch(page)
	if m == nil {
		return page
	}
	return bytes.ReplaceAll(page, append([]byte(`="`), m[1]...), []byte(`="/`))
}

// dress adds the desk's script to a page, and a strip where the page is not
// that of the guide as it stands.
func (s State) dress(page []byte) []byte {
	head := fmt.Appendf(nil, `<script src="%sdesk.js" data-version="%d" defer></script><link rel="stylesheet" href="%sdesk.css"></head>`, under, s.drawn, under)
	page = bytes.Replace(page, []byte("</head>"), head, 1)
	if s.Sound {
		return page
	}
	i := bytes.Index(page, []byte("<body"))
	if i < 0 {
		return page
	}
	j := bytes.IndexByte(page[i:], '>')
	if j < 0 {
		return page
	}
	at := i + j + 1
	strip := fmt.Appendf(nil, `<p class="desk-strip" role="status">This is the last good site. <a href="%sproblems">%s</a></p>`, under, template.HTMLEscapeString(s.Summary))
	return append(append(append([]byte{}, page[:at]...), strip...), page[at:]...)
}

func (d *Desk) problems(w http.ResponseWriter) {
	s, _, _ := d.now()
	var b bytes.Buffer
	if err := problemsPage.Execute(&b, struct {
		State
		Found int
		Under string
	}{s, s.found, under}); err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	send(w, http.StatusOK, "problems.html", b.Bytes())
}

// beat keeps a connection known to be alive.
const beat = 20 * time.Second

// news tells how often what is shown changed, and what is known of it, now and whenever either does.
func (d *Desk) news(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Content-Type", "text/event-stream")
	h.Set("Cache-Control", "no-store")
	flush := http.NewResponseController(w)
	for {
		s, _, changed := d.now()
		if _, err := fmt.Fprintf(w, "data: %d %d\n\n", s.drawn, s.found); err != nil {
			return
		}
		if flush.Flush() != nil {
			return
		}
		select {
		case <-changed:
		case <-time.After(beat):
		case <-r.Context().Done():
			return
		}
	}
}
