// Package colour holds CIELAB arithmetic, colour differences, colour names, and how an ink looks on a fabric.
package colour
