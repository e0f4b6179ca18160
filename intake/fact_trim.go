package intake

// trimWords are parts of a garment whose colour is not the garment's own.
var trimWords = internAll("zip", "zips", "zipper", "zippers", "drawstring", "drawstrings", "drawcord", "drawcords", "laces", "buttons", "stitching", "lining", "trim", "trims", "piping",
	"cuffs", "collar", "collars", "handles", "straps", "strap", "ties", "binding", "contrast", "pompom", "brim")

// ofTrim reports whether the colour in fact f is that of a trim: "red with white zip".
func (s *scope) ofTrim(f int) bool {
	x := &s.r.facts[f]
	w := s.r.at(int(x.i1)).word
	return w != 0 && trimWords[w]
}
