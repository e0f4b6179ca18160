// Package page shows jobs to people in a browser: a board of open jobs for the wall, a page for each job, and a ticket to print and hang on
// the press. Pages only show; what changes a job is said in chat, where people are known.
//
// Start with [New] and [Pages.Register]. Who holds a link may look: [Pages.JobLink] and [Pages.BoardLink] make short-lived ones, to be
// given in chat, [Pages.MakeWall] makes the one that the wall screen keeps, until [Pages.RevokeWall].
package page
