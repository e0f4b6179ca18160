package bot

import "context"

// Around begins something that takes time, such as handling a message or asking the ledger, and returns what ends it: for traces. key is what
// it is done to, "" for nothing in particular. A nil Around does nothing.
type Around func(ctx context.Context, what, key string) (context.Context, func(error))

// Begin is the function itself, or nothing.
func (a Around) Begin(ctx context.Context, what, key string) (context.Context, func(error)) {
	if a == nil {
		return ctx, func(error) {}
	}
	return a(ctx, what, key)
}
