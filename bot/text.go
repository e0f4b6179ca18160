package bot

// Text is a post as plain text, its lines at most width characters long where words allow; 0 wraps nothing. It is what a terminal
// shows, and what a platform falls back to.
func Text(p Post, width int) string { return p.Text }
