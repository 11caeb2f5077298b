package main

import (
	"regexp"
	"runtime"
	"testing"
)

// What is told of this build, and of one that .ci/release stamped, which tests itself
// that it is stamped.
func TestVersion(t *testing.T) {
	want := regexp.MustCompile(`^evenpull \S+\ncommit    .+\ntree      .+\nbuilt by  ` + regexp.QuoteMeta(runtime.Version()) + `\nfor       ` + runtime.GOOS + "/" + runtime.GOARCH + "\n$")
	code, out, errs := call(t, "", "version")
	if code != exitDone || errs != "" || !want.MatchString(out) {
		t.Errorf("exit %d, %s%s", code, errs, out)
	}
	if _, flag, _ := call(t, "", "--version"); flag != out {
		t.Errorf("--version tells %q, version %q", flag, out)
	}
	if (build{version: "v1"}).String() == (build{version: "v2"}).String() {
		t.Error("the version is not told")
	}
	wantExit(t, "version now", exitUsage, `found 1 argument: now`)
}
