// Package intake reads what customers write and makes an order of it.
//
// [Read] understands a message, [Amend] a later one in the thread of an order that stands. Both are pure, safe for concurrent use, and never
// panic; what cannot be understood is said ([Oddity], Order.Unread), never guessed. [Explain] shows a text with each span that was read marked
// and named. [Restate] says an order in plain words that read as the same order: ownwords.go knows them by their form.
//
// # Stages
//
// A message goes through stages; the files of a stage begin with its name, and each stage can be tried alone:
//
//   - text: leaves out quoted older mail, signatures and headings, joins lines that a mail program broke, cuts the text into words, numbers and marks
//     with their places in it, finds the known word that a misspelt one stands for, and the longest phrases of the vocabulary;
//   - vocab: the vocabulary (words/*.tsv), and the classes of words that steer reading;
//   - table: a row that names columns, and the rows below it cell by cell;
//   - name: whom the order is for, so that "Cedar" or "Red Barn" is no colour;
//   - fact: numbers with units, sizes, fibres, colours, places, dates, uses, wishes, not yet knowing what they are of;
//   - sentence: which facts hold: what is denied, refused, only told of or said of the past, what replaces something said before;
//   - scope: joins facts to lines and to prints;
//   - finish: makes the order; isorder.go judges whether the message asks for goods at all, odd.go looks for what contradicts itself, marks.go
//     says which words each field was read from.
//
// Each stage goes through its input once, so that the time grows with the length of the message and no faster.
//
// # Teaching it
//
// A word that is not understood belongs in words/*.tsv, under the order's word for it; each file says where its words come from. When words of
// clothes, colours, fibres, places or methods are added, words/guard.tsv wants another look: it keeps everyday words from being taken for
// misspellings of them. Messages with the right reading are in testdata; a case is added there before the reader is changed.
package intake
