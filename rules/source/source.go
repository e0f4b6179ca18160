// Package source names where figures and rules come from: a published standard or text with its clause or page, or common practice.
package source

// CommonPractice is the basis of a rule or figure that the trade holds without one published source.
const CommonPractice = "common practice"
