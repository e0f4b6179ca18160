// Package intake reads what customers write and makes an order of it.
//
// [Read] understands a message, [Amend] a later one in the thread of an order that stands. Both are pure, safe for concurrent use, and never
// panic; what cannot be understood is said ([Oddity], Order.Unread), never guessed. [Explain] shows a text with each span that was read marked
// and named. [Restate] says an order in plain words that read as the same order: ownwords.go knows them by their form.
//
// # Stages
//
// A message goes through stages, each in files of its own that can be tried alone:
//
//   - clean.go leaves out quoted older mail, signatures and headings, and joins lines that a mail program broke;
//   - token.go, fold.go and typo.go cut the text into words, numbers and marks with their places in the text, and find the known word that a
//     misspelt one stands for;
//   - vocab.go, cue.go and item.go find the longest phrases of the vocabulary (words/*.tsv) and join numbers;
//   - table.go and tablecell.go find tables: a row that names columns, and the rows below it cell by cell;
//   - name*.go find whom the order is for, so that "Cedar" or "Red Barn" is no colour;
//   - fact.go and the files it calls (number.go, size*.go, blend.go, measure.go, date*.go, swatch.go) read facts, not yet knowing what they are of;
//   - sentence.go settles which facts hold: what is denied, what tells of the past, what replaces something said before;
//   - scope.go and the files it calls join facts to lines (lines.go, quantity.go, garment.go, fabric.go, colour.go, runs.go, tablerow.go) and to prints
//     (place.go, printed.go, focus.go, ink.go, method.go, same.go, moved.go);
//   - finish.go makes the order, judges whether the message asks for goods at all, and odd.go looks for what contradicts itself.
//
// Each stage goes through its input once, so that the time grows with the length of the message and no faster.
//
// # Teaching it
//
// A word that is not understood belongs in words/*.tsv, under the order's word for it; each file says where its words come from. When words of
// clothes, colours, fibres, places or methods are added, words/guard.tsv wants another look: it keeps everyday words from being taken for
// misspellings of them. Messages with the right reading are in testdata; a case is added there before the reader is changed.
package intake
