package main

import (
	"fmt"
	"os"
	"strings"
)

// secret reads a secret from the environment variable of that name, or from the file that NAME_FILE names, as container platforms hand
// them in. It is never a flag: what is typed can be read in a list of processes. "" means that neither is set.
func secret(name string) (string, error) {
	if v := os.Getenv(name); v != "" {
		return strings.TrimSpace(v), nil
	}
	path := os.Getenv(name + "_FILE")
	if path == "" {
		return "", nil
	}
	b, err := os.ReadFile(path)
	if err != nil {
		return "", fmt.Errorf("%s_FILE: %w", name, err)
	}
	v := strings.TrimSpace(string(b))
	if v == "" {
		return "", fmt.Errorf("%s_FILE names %s, which is empty", name, path)
	}
	return v, nil
}

// neededSecret is a secret that something named in the settings cannot do without.
func neededSecret(name, what string) (string, error) {
	v, err := secret(name)
	if err == nil && v == "" {
		err = fmt.Errorf("%s names the secret %s, and neither the environment variable %s nor %s_FILE is set", what, name, name, name)
	}
	return v, err
}
