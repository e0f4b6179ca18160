// Package rules holds the words Order and Plan and decides how a garment gets printed. It is pure: no clock, no input or output, and it
// never panics. Everything may know rules; rules knows nobody.
//
// # How an order becomes a plan
//
// [Decide] lays every print of the order on a bench (bench.go): the cloth by its fibres (cloth.go), the colours of garment and ink as
// CIELAB, the art, the wishes, the shop. Then it walks the policy (policy.go), one ordered list of small rules, each in a file of its own
// named rule_*.go. A rule speaks at up to three moments: while the seven methods are judged, once the print has its pick, and once the whole
// order has. What a rule can do is spelt out in effect.go: veto a method, limit its verdict, move its score, set base, additive or heat, warn,
// stop, ask, assume, put a step on the test print's checklist. Every effect carries the rule's id and basis, so that [Why] can tell the
// chain.
//
// Beside the rules stand the reckonings that they use: dye migration (migration.go, risk.go), screens and ink (screen.go), time (effort.go),
// what the print will look like (vivid.go), dates (schedule.go), the run's inspection (inspection.go), grey scales (grade.go). Where a
// fact that was not said decides the pick, whatif.go finds out and holds the pick back.
//
// # To add a rule
//
// Write rule_name.go with one *rule and rule_name_test.go with its cases, and put it into the list in policy.go where it belongs.
// TestPolicy fails until it has a known basis and a case that reaches it.
package rules
