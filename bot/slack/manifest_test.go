package slack

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"

	"strikeoff/bot/slack/fake"
)

// manifestPath is the app's manifest.
var manifestPath = filepath.Join("..", "..", "deploy", "slack", "manifest.yaml")

func readManifest(t testing.TB) map[string]any {
	t.Helper()
	b, err := os.ReadFile(manifestPath)
	if err != nil {
		t.Fatal(err)
	}
	var m map[string]any
	if err := yaml.Unmarshal(b, &m); err != nil {
		t.Fatal(err)
	}
	return m
}

// at walks into nested maps.
func at(m map[string]any, path ...string) any {
	var v any = m
	for _, p := range path {
		mm, _ := v.(map[string]any)
		v = mm[p]
	}
	return v
}

func texts(v any) []string {
	var out []string
	list, _ := v.([]any)
	for _, e := range list {
		if s, ok := e.(string); ok {
			out = append(out, s)
		}
	}
	return out
}

// manifestScopes are the bot scopes that the manifest asks for: the fake grants these and no others.
func manifestScopes(t testing.TB) []string {
	t.Helper()
	s := texts(at(readManifest(t), "oauth_config", "scopes", "bot"))
	if len(s) == 0 {
		t.Fatal("the manifest asks for no bot scopes")
	}
	return s
}

// rule is what a field of the manifest may hold, by the reference of app manifests (https://docs.slack.dev/reference/app-manifest). Lengths
// are in characters.
type rule struct {
	fields map[string]rule // of an object: these and no others
	each   *rule           // of a list: every element
	most   int             // of a text: its length; of a list: its elements
	like   string          // of a text: a pattern
	yes    bool            // a boolean
	number bool
	must   bool // it must be there
}

var (
	anyBool    = rule{yes: true}
	scopeName  = rule{like: `^[a-z_.]+(:[a-z_.]+)*$`}
	eventName  = rule{like: `^[a-z_]+(\.[a-z_]+)?$`}
	schemaRoot = rule{fields: map[string]rule{
		"_metadata": {fields: map[string]rule{"major_version": {number: true}, "minor_version": {number: true}}},
		"display_information": {must: true, fields: map[string]rule{"name": {must: true, most: 35}, "description": {most: 140}, "long_description": {most: 4000},
			"background_color": {like: `^#([0-9a-fA-F]{3}|[0-9a-fA-F]{6})$`}}},
		"features": {fields: map[string]rule{
			"app_home": {fields: map[string]rule{"home_tab_enabled": anyBool, "messages_tab_enabled": anyBool, "messages_tab_read_only_enabled": anyBool}},
			"bot_user": {fields: map[string]rule{"display_name": {must: true, most: 80, like: `^[a-z0-9._ -]+$`}, "always_online": anyBool}},
			"shortcuts": {most: 10, each: &rule{fields: map[string]rule{"name": {must: true, most: 24}, "type": {must: true, like: `^(message|global)$`},
				"callback_id": {must: true, most: 255}, "description": {must: true, most: 150}}}},
			"slash_commands": {most: 50, each: &rule{fields: map[string]rule{"command": {must: true, most: 32, like: `^/[a-z0-9_-]+$`}, "description": {must: true, most: 2000},
				"usage_hint": {most: 1000}, "should_escape": anyBool, "url": {like: `^https://`}}}},
		}},
		"oauth_config": {fields: map[string]rule{"redirect_urls": {most: 1000, each: &rule{like: `^https://`}},
			"scopes": {fields: map[string]rule{"bot": {most: 255, each: &scopeName}, "user": {most: 255, each: &scopeName}}}}},
		"settings": {fields: map[string]rule{
			"event_subscriptions": {fields: map[string]rule{"request_url": {like: `^https://`}, "bot_events": {most: 100, each: &eventName}, "user_events": {most: 100, each: &eventName}}},
			"interactivity":       {fields: map[string]rule{"is_enabled": {must: true, yes: true}, "request_url": {like: `^https://`}, "message_menu_options_url": {like: `^https://`}}},
			"org_deploy_enabled":  anyBool, "socket_mode_enabled": anyBool, "token_rotation_enabled": anyBool,
			"allowed_ip_address_ranges": {most: 10, each: &rule{}},
		}},
	}}
)

// breaks lists what in v is not as the rule wants it.
func (r rule) breaks(path string, v any) []string {
	wrong := func(what string) []string { return []string{path + ": " + what} }
	switch {
	case r.fields != nil:
		m, ok := v.(map[string]any)
		if !ok {
			return wrong("no object")
		}
		var out []string
		for name, e := range m {
			f, known := r.fields[name]
			if !known {
				out = append(out, path+": there is no field "+name)
				continue
			}
			out = append(out, f.breaks(path+"."+name, e)...)
		}
		for name, f := range r.fields {
			if _, there := m[name]; f.must && !there {
				out = append(out, path+": the field "+name+" is missing")
			}
		}
		return out
	case r.each != nil:
		l, ok := v.([]any)
		if !ok {
			return wrong("no list")
		}
		if len(l) > r.most {
			return wrong("too many")
		}
		var out []string
		for i, e := range l {
			out = append(out, r.each.breaks(fmt.Sprintf("%s[%d]", path, i), e)...)
		}
		return out
	case r.yes:
		if _, ok := v.(bool); !ok {
			return wrong("neither true nor false")
		}
	case r.number:
		if _, ok := v.(int); !ok {
			return wrong("no number")
		}
	default:
		s, ok := v.(string)
		switch {
		case !ok || s == "":
			return wrong("no text")
		case r.most > 0 && utf8.RuneCountInString(s) > r.most:
			return wrong(fmt.Sprintf("%d characters, at most %d", utf8.RuneCountInString(s), r.most))
		case r.like != "" && !regexp.MustCompile(r.like).MatchString(s):
			return wrong(fmt.Sprintf("%q is not like %s", s, r.like))
		}
	}
	return nil
}

// Ensure that the manifest has the fields that Slack knows, each as Slack wants it.
func TestManifestFields(t *testing.T) {
	for _, b := range schemaRoot.breaks("manifest", readManifest(t)) {
		t.Error(b)
	}
	for _, bad := range []map[string]any{
		{},
		{"display_information": map[string]any{"name": strings.Repeat("x", 36)}},
		{"display_information": map[string]any{"name": "x", "colour": "red"}},
		{"display_information": map[string]any{"name": "x"}, "settings": map[string]any{"socket_mode_enabled": "yes"}},
		{"display_information": map[string]any{"name": "x"}, "features": map[string]any{"slash_commands": []any{map[string]any{"command": "strikeoff", "description": "x"}}}},
		{"display_information": map[string]any{"name": "x"}, "oauth_config": map[string]any{"scopes": map[string]any{"bot": []any{"chat write"}}}},
	} {
		if len(schemaRoot.breaks("manifest", bad)) == 0 {
			t.Errorf("the schema takes %v", bad)
		}
	}
}

// calls are the methods behind each call of the client library. A call that is not listed fails the test: say here what it calls.
var calls = map[string][]string{
	"AuthTestContext": {"auth.test"}, "StartSocketModeContext": {"apps.connections.open"}, "GetUserInfoContext": {"users.info"},
	"GetUserGroupsContext": {"usergroups.list"}, "GetConversationInfoContext": {"conversations.info"}, "GetConversationsForUserContext": {"users.conversations"},
	"GetConversationHistoryContext": {"conversations.history"}, "GetConversationRepliesContext": {"conversations.replies"},
	"OpenConversationContext": {"conversations.open"}, "PostMessageContext": {"chat.postMessage"}, "UpdateMessageContext": {"chat.update"},
	"DeleteMessageContext": {"chat.delete"}, "PostEphemeralContext": {"chat.postEphemeral"}, "OpenViewContext": {"views.open"},
	"UpdateViewContext": {"views.update"}, "PublishViewContext": {"views.publish"}, "GetFileInfoContext": {"files.info"}, "GetFileContext": {"files.info"},
	"UploadFileContext": {"files.getUploadURLExternal", "files.completeUploadExternal"},
}

// eventScopes are the scopes that an event needs, as each event's reference page says.
var eventScopes = map[string]string{"app_home_opened": "", "app_mention": "app_mentions:read", "message.channels": "channels:history",
	"message.groups": "groups:history", "message.im": "im:history", "user_change": "users:read"}

// methodsCalled reads which methods the door calls out of its own source.
func methodsCalled(t *testing.T) map[string]bool {
	t.Helper()
	out := map[string]bool{}
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	found := regexp.MustCompile(`\bapi\.([A-Z]\w*)\(`)
	for _, f := range files {
		if strings.HasSuffix(f, "_test.go") {
			continue
		}
		src, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range found.FindAllStringSubmatch(string(src), -1) {
			ms, listed := calls[m[1]]
			if !listed {
				t.Errorf("%s calls %s: list it in calls, with its methods", f, m[1])
			}
			for _, name := range ms {
				out[name] = true
			}
		}
	}
	if len(out) < 10 {
		t.Fatalf("only %d methods were found in the source: the search finds nothing any more", len(out))
	}
	return out
}

// Ensure that every method that is called and every event that is asked for has a scope in the manifest, that no scope is there for nothing,
// and that each is explained on the page beside the manifest.
func TestManifestScopes(t *testing.T) {
	m := readManifest(t)
	have := map[string]bool{}
	used := map[string]bool{"commands": at(m, "features", "slash_commands") != nil && at(m, "features", "shortcuts") != nil}
	for _, s := range manifestScopes(t) {
		if have[s] {
			t.Errorf("the scope %s is there twice", s)
		}
		have[s] = true
	}
	for name := range methodsCalled(t) {
		scopes, app, known := fake.Scopes(name)
		if !known {
			t.Errorf("the fake does not know %s", name)
		}
		if app || len(scopes) == 0 {
			continue
		}
		some := false
		for _, s := range scopes {
			some, used[s] = some || have[s], true
		}
		if !some {
			t.Errorf("%s needs one of %q, and the manifest asks for none", name, scopes)
		}
	}
	events := texts(at(m, "settings", "event_subscriptions", "bot_events"))
	if len(events) == 0 {
		t.Error("the manifest subscribes to no events")
	}
	for _, e := range events {
		s, listed := eventScopes[e]
		if !listed {
			t.Errorf("the event %s is asked for and not listed in eventScopes", e)
		}
		if used[s] = true; s != "" && !have[s] {
			t.Errorf("the event %s needs the scope %s", e, s)
		}
	}
	readme, err := os.ReadFile(filepath.Join(filepath.Dir(manifestPath), "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	for s := range have {
		if !used[s] {
			t.Errorf("the scope %s is for nothing that is called or asked for", s)
		}
		if !strings.Contains(string(readme), "`"+s+"`") {
			t.Errorf("the page does not say what the scope %s is for", s)
		}
	}
	for _, e := range events {
		if !strings.Contains(string(readme), "`"+e+"`") {
			t.Errorf("the page does not say what the event %s is for", e)
		}
	}
	if c := fieldTexts(at(m, "features", "slash_commands"), "command"); !slices.Equal(c, []string{"/strikeoff"}) {
		t.Errorf("the slash commands are %q", c)
	}
}

// fieldTexts are the texts of one field in a list of objects.
func fieldTexts(v any, field string) []string {
	var out []string
	list, _ := v.([]any)
	for _, e := range list {
		if m, ok := e.(map[string]any); ok {
			s, _ := m[field].(string)
			out = append(out, s)
		}
	}
	return out
}
