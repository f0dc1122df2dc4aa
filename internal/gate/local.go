package gate

import (
	"net/url"
	"strings"
)

// Local is where to go on after a log-in: a path of this app, or the start page when somebody made a link that leads elsewhere.
func Local(to string) string {
	u, err := url.Parse(to)
	switch {
	case err != nil, u.IsAbs(), u.Host != "", u.User != nil, u.Opaque != "":
		return "/"
	case !strings.HasPrefix(to, "/"), strings.HasPrefix(to, "//"), strings.ContainsAny(to, "\\\x00\r\n\t"):
		return "/" // browsers read \ as / and drop tabs and line breaks
	case strings.HasPrefix(u.Path, "//"), strings.Contains(u.Path, "\\"):
		return "/"
	case u.Path == LogInPath, strings.HasPrefix(u.Path, LogInPath+"/"):
		return "/" // would ask again and again
	}
	return to
}

func escaped(text string) string { return url.QueryEscape(text) }

// originOf is an address without its path, as browsers name where a page came from.
func originOf(address string) string {
	u, err := url.Parse(address)
	if err != nil {
		return address
	}
	return u.Scheme + "://" + u.Host
}
