package live

import (
	"net"
	"net/http"
	"strconv"
	"strings"
	"time"
)

// site answers requests from the board.
type site struct {
	board   *board
	waiting *file // stands in while there is no report
	hosts   hosts
	streams *counted
}

// eventsPath is where pages listen. No file of a report has that name.
const eventsPath = "/events"

// ServeHTTP answers one request. Nothing but the list of the report's files is looked into.
func (s *site) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	head := w.Header()
	for key, value := range map[string]string{
		"X-Content-Type-Options": "nosniff", "X-Frame-Options": "DENY", "Referrer-Policy": "no-referrer", "Content-Security-Policy": policyOfFiles,
		"Cross-Origin-Opener-Policy": "same-origin", "Cross-Origin-Resource-Policy": "same-origin", "Cache-Control": "no-store",
	} {
		head.Set(key, value)
	}
	local, _ := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
	switch {
	case !s.hosts.allows(r.Host, local):
		refuse(w, r, http.StatusMisdirectedRequest, "This server answers only under the address that it was started with.")
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		head.Set("Allow", "GET, HEAD")
		refuse(w, r, http.StatusMethodNotAllowed, "This page can be read and not changed.")
	case r.ContentLength != 0:
		refuse(w, r, http.StatusRequestEntityTooLarge, "This page takes nothing in.")
	case r.URL.Path == eventsPath:
		s.events(w, r)
	default:
		s.file(w, r)
	}
}

// refuse answers in one sentence and ends the connection: what else was sent is not read.
func refuse(w http.ResponseWriter, r *http.Request, status int, sentence string) {
	_ = http.NewResponseController(w).SetReadDeadline(time.Now().Add(time.Second))
	w.Header().Set("Connection", "close")
	answer(w, r, status, "text/plain; charset=utf-8", []byte(sentence+"\n"))
}

func answer(w http.ResponseWriter, r *http.Request, status int, kind string, body []byte) {
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Length", strconv.Itoa(len(body)))
	w.WriteHeader(status)
	if r.Method != http.MethodHead {
		_, _ = w.Write(body) // the reader may have gone
	}
}

// nameOf is the file that a path means.
func nameOf(path string) string {
	if path == "/" || path == "" {
		return first
	}
	return strings.TrimPrefix(path, "/")
}

func (s *site) file(w http.ResponseWriter, r *http.Request) {
	st, _ := s.board.look()
	name := nameOf(r.URL.Path)
	if st.pages == nil {
		s.standIn(w, r, st, name)
		return
	}
	f := st.pages.files[name]
	if f == nil {
		answer(w, r, http.StatusNotFound, "text/plain; charset=utf-8", []byte("The report has no page of this name. The board is at http://"+r.Host+"/\n"))
		return
	}
	head := w.Header()
	head.Set("Content-Security-Policy", f.policy)
	if f.page != nil {
		answer(w, r, http.StatusOK, f.kind, f.page.told(st))
		return
	}
	tag := `"` + f.version + `"`
	head.Set("ETag", tag)
	head.Set("Cache-Control", "no-cache") // kept, but asked for each time
	if known(r.Header.Get("If-None-Match"), tag) {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	answer(w, r, http.StatusOK, f.kind, f.body)
}

// standIn shows, in the place of any page, that there is none yet.
func (s *site) standIn(w http.ResponseWriter, r *http.Request, st state, name string) {
	if len(name) > mostBytesOfPageNames || !strings.HasSuffix(name, ".html") {
		answer(w, r, http.StatusNotFound, "text/plain; charset=utf-8", []byte("There is no report yet. The page is at http://"+r.Host+"/\n"))
		return
	}
	w.Header().Set("Content-Security-Policy", s.waiting.policy)
	answer(w, r, http.StatusOK, s.waiting.kind, s.waiting.page.told(st))
}

// known tells whether a browser has the version already.
func known(list, tag string) bool {
	for one := range strings.SplitSeq(list, ",") {
		if one = strings.TrimPrefix(strings.TrimSpace(one), "W/"); one == tag || one == "*" {
			return true
		}
	}
	return false
}
