package redisledger

import (
	_ "embed"

	"github.com/redis/go-redis/v9"
)

//go:embed keep.lua
var keepLua string

//go:embed take.lua
var takeLua string

//go:embed put.lua
var putLua string

//go:embed outbox.lua
var outboxLua string

//go:embed post.lua
var postLua string

//go:embed sent.lua
var sentLua string

//go:embed retry.lua
var retryLua string

//go:embed save.lua
var saveLua string

//go:embed load.lua
var loadLua string

//go:embed jobs.lua
var jobsLua string

//go:embed number.lua
var numberLua string

//go:embed count.lua
var countLua string

// The scripts. What each is given and what it returns stands at its head.
var (
	keepScript   = redis.NewScript(keepLua)
	takeScript   = redis.NewScript(takeLua)
	putScript    = redis.NewScript(putLua)
	postScript   = redis.NewScript(outboxLua + postLua)
	sentScript   = redis.NewScript(outboxLua + sentLua)
	retryScript  = redis.NewScript(outboxLua + retryLua)
	saveScript   = redis.NewScript(outboxLua + saveLua)
	loadScript   = redis.NewScript(loadLua)
	jobsScript   = redis.NewScript(jobsLua)
	countScript  = redis.NewScript(countLua)
	numberScript = redis.NewScript(numberLua)

	scripts = []*redis.Script{keepScript, takeScript, putScript, postScript, sentScript, retryScript, saveScript, loadScript, jobsScript, countScript, numberScript}
)
