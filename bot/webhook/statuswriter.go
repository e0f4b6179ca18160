package webhook

import "net/http"

// StatusWriter remembers the status that was written, for logs, figures and traces.
type StatusWriter struct {
	http.ResponseWriter
	Status int // 0 while nothing was written
}

// WriteHeader remembers the first status: no other reaches the client.
func (w *StatusWriter) WriteHeader(status int) {
	if w.Status == 0 {
		w.Status = status
	}
	w.ResponseWriter.WriteHeader(status)
}

// Write counts as 200 where no status was written before.
func (w *StatusWriter) Write(b []byte) (int, error) {
	if w.Status == 0 {
		w.Status = http.StatusOK
	}
	return w.ResponseWriter.Write(b)
}

// Unwrap lets http.ResponseController reach the connection, as the board's live changes need.
func (w *StatusWriter) Unwrap() http.ResponseWriter { return w.ResponseWriter }
