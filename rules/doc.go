// Package rules holds the words Order and Plan and decides how a garment gets printed. It is pure: no clock, no input or output, and it
// never panics. Everything may know rules; rules knows nobody.
package rules
