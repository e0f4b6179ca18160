package bot

import (
	"context"
	"io"
)

// FileSink takes the files that come with messages. A door that carries files hands each one in after its message was kept, in the
// background, and again when the message comes again: what a sink has already, it need not read. The door has checked the size; the
// reader must not be used after the call. An error is logged and the file is tried a few times more.
type FileSink interface {
	KeepFile(ctx context.Context, in Inbound, f File, r io.Reader) error
}

// FileDoor is a door through which the files of messages can be fetched later, and files can be put up.
type FileDoor interface {
	// Fetch writes a file's bytes to w, at most as many as the door's limit; where the file is larger it is an error.
	Fetch(ctx context.Context, f File, w io.Writer) error
	// PutFile puts a file up in a room or thread: name is what people see, alt what is read out in place of a picture. It returns the
	// platform's id of the file.
	PutFile(ctx context.Context, at Place, name, alt string, data []byte) (id string, err error)
}
