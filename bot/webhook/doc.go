// Package webhook is the door for programs: a signed HTTP API that takes orders and tells about jobs, and signed events that go out when a
// job changes. It also carries what an operator watches: health, readiness and metrics.
//
// Start with [New] and [API.Register] for what comes in, [NewSender] for what goes out (the bot.Poster of the door named [Door]), and
// [NewWatch] for health and metrics. openapi.yaml is the API's description; it is served, and the tests hold every answer to it.
package webhook
