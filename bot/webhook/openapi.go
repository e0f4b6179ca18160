package webhook

import (
	_ "embed"
	"net/http"
)

// openAPI describes the API. Tests hold every answer to it and run every example in it.
//
//go:embed openapi.yaml
var openAPI []byte

func serveOpenAPI(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Content-Type", "application/yaml")
	w.Header().Set("Cache-Control", "public, max-age=300")
	_, _ = w.Write(openAPI)
}
