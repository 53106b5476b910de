package pages

import (
	"context"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// browser is the program that opens pages in tests; .ci/run installs it.
const browser = "chromium"

// opened is the document that a page has become in the browser, at an address.
func opened(t *testing.T, page, address string) string {
	return browsed(t, page, address, t.TempDir(), "--virtual-time-budget=5000", "--dump-dom")
}

// browsed is what the browser writes of a page at an address, with more flags; it may complain
// of nothing.
func browsed(t *testing.T, page, address, dir string, flags ...string) string {
	program, err := exec.LookPath(browser)
	if err != nil {
		t.Skip("no " + browser + " here: pages are not opened")
	}
	file := filepath.Join(dir, "page.html")
	require.NoError(t, os.WriteFile(file, []byte(page), 0o600))
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	flags = append([]string{"--headless", "--no-sandbox", "--disable-gpu", "--user-data-dir=" + dir, "--enable-logging=stderr"}, flags...)
	run := exec.CommandContext(ctx, program, append(flags, (&url.URL{Scheme: "file", Path: file}).String()+address)...)
	var said strings.Builder
	run.Stderr = &said
	out, err := run.Output()
	require.NoError(t, err, said.String())
	for _, line := range strings.Split(said.String(), "\n") {
		require.NotContains(t, line, "CONSOLE", "the page complained")
		require.NotContains(t, line, "Content Security Policy")
	}
	return string(out)
}

// rowsIn are the ids of the proposals in the table of a document, in their order.
func rowsIn(document string) (ids []string) {
	for _, m := range regexp.MustCompile(`<td class="id"><button type="button" aria-expanded="(?:true|false)">(.*?)</button>`).FindAllStringSubmatch(document, -1) {
		ids = append(ids, m[1])
	}
	return ids
}

// The list is filtered, sorted, paged and opened by its address; of 130 invented proposals
// (see made) every figure is worked by hand.
func TestTheListByItsAddress(t *testing.T) {
	page := made(t, 130)
	for _, c := range []struct {
		address, status string
		first           string
		rows            int
	}{
		{"#page=3", "130 proposals", "P-100", 30},
		{"#q=p-12", "11 of 130 proposals", "P-12", 11}, // 12 and 120 to 129
		{"#q=breakwater+005&s=-id", "9 of 130 proposals", "P-117", 9},
		{"#a=state&p=2&c=2", "29 of 130 proposals", "", 29}, // 2, 5, 11 ... 128: those that leave 2 by 3, without 8, 17 ...,
		{"#c=3", "28 of 130 proposals", "", 28},
		{"#r=1&s=ask", "44 of 130 proposals", "", 44}, // every third
		{"#s=-ask&q=p-", "120 of 130 proposals", "", 50},
		{"#open=P-101", "130 proposals", "P-100", 30},
	} {
		t.Run(c.address, func(t *testing.T) {
			document := opened(t, page, c.address)
			require.Contains(t, document, `data-ready="130"`)
			require.Contains(t, document, `role="status">`+c.status+`</p>`)
			ids := rowsIn(document)
			require.Len(t, ids, c.rows)
			if c.first != "" {
				require.Equal(t, c.first, ids[0])
			}
		})
	}
}

// What a hostile file says is shown and does nothing.
func TestHostileTextsAreShown(t *testing.T) {
	document := opened(t, made(t, 40), "#open=%3C%2Fscript%3E%3Cscript%3Edocument.title%3D%22owned%22%3C%2Fscript%3E")
	require.NotContains(t, document, "<title>owned")
	require.NotContains(t, document, "<img")
	require.Contains(t, document, `aria-expanded="true">&lt;/script&gt;&lt;script&gt;document.title="owned"&lt;/script&gt;</button>`)
	require.Contains(t, document, "state the fill of &lt;/script&gt;")
}
