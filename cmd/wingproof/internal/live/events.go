package live

import (
	"encoding/json"
	"fmt"
	"net/http"
	"time"

	"wingproof/cmd/wingproof/internal/report"
)

// event is what a page is told. Its words are for the reader, the rest for its script.
type event struct {
	Kind     string            `json:"kind"`
	Page     string            `json:"page"`  // digest of this page in the newest report; empty: it is not in it
	AsOf     string            `json:"as_of"` // of the newest report; empty: there is none yet
	Stage    string            `json:"stage"`
	Done     int               `json:"done"`
	Total    int               `json:"total"`
	Left     *float64          `json:"left_s"` // null: not known
	Status   string            `json:"status"`
	Progress string            `json:"progress"`
	Notes    []report.LiveNote `json:"notes"`
}

// eventOf is the state as the page of a name is told it.
func eventOf(s state, name string) event {
	e := event{Kind: s.kind, AsOf: s.asOf(), Stage: s.stage, Done: s.done, Total: s.total, Status: s.status(), Progress: s.progress()}
	if left, known := s.timeLeft(); known {
		seconds := left.Seconds()
		e.Left = &seconds
	}
	alarms := false
	if s.pages != nil {
		if f := s.pages.files[name]; f != nil && f.page != nil {
			e.Page, alarms = f.version, !f.page.alarmed
		}
	}
	e.Notes = s.notes(alarms)
	return e
}

// events tells a page every new state, the newest only: a reader who is slow misses what was overtaken meanwhile.
func (s *site) events(w http.ResponseWriter, r *http.Request) {
	name := r.URL.Query().Get("page")
	site := r.Header.Get("Sec-Fetch-Site")
	address := hostOf(r.RemoteAddr)
	switch {
	case len(name) > mostBytesOfPageNames:
		refuse(w, r, http.StatusBadRequest, "No page has a name as long as that.")
		return
	case site != "" && site != "same-origin" && site != "none":
		refuse(w, r, http.StatusForbidden, "Only pages of this server may listen.")
		return
	case r.Method == http.MethodHead:
		w.Header().Set("Content-Type", "text/event-stream; charset=utf-8")
		return
	case !s.streams.enter(address):
		w.Header().Set("Retry-After", "5")
		refuse(w, r, http.StatusServiceUnavailable, "Too many live pages are open already; this one does not renew itself.")
		return
	}
	defer s.streams.leave(address)
	newStream(w).follow(r, s.board, nameOf(name))
}

// stream writes events to one client.
type stream struct {
	w       http.ResponseWriter
	control *http.ResponseController
}

func newStream(w http.ResponseWriter) stream {
	w.Header().Set("Content-Type", "text/event-stream; charset=utf-8")
	return stream{w, http.NewResponseController(w)}
}

// follow writes the state and what comes after it until the client goes, the server ends, or a write takes too long.
func (s stream) follow(r *http.Request, b *board, name string) {
	if s.control.SetReadDeadline(time.Time{}) != nil { // a stream is no request that takes too long
		return
	}
	if s.write("retry: 1000\n\n") != nil {
		return
	}
	beat := time.NewTicker(beatTime)
	defer beat.Stop()
	rest := time.NewTicker(restTime)
	defer rest.Stop()
	for {
		now, changed := b.look()
		data, err := json.Marshal(eventOf(now, name))
		if err != nil || s.write(fmt.Sprintf("event: %s\ndata: %s\n\n", now.kind, data)) != nil {
			return
		}
		select {
		case <-rest.C:
		case <-r.Context().Done():
			return
		}
		for waiting := true; waiting; {
			select {
			case <-changed:
				waiting = false
			case <-beat.C:
				if s.write("event: beat\ndata: {}\n\n") != nil {
					return
				}
			case <-r.Context().Done():
				return
			}
		}
	}
}

// write sends one piece, or gives a client up that does not take it.
func (s stream) write(text string) error {
	if err := s.control.SetWriteDeadline(time.Now().Add(streamTime)); err != nil {
		return err
	}
	if _, err := s.w.Write([]byte(text)); err != nil {
		return err
	}
	return s.control.Flush()
}
