// Package intake reads what a customer wrote and says what it understood: the order, the span of text behind each field, how sure it
// is, what it could not place, and what is odd. It is pure and never panics.
package intake
