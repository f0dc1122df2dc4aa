package serve

import (
	"crypto/tls"
	"log/slog"
	"os"
	"sync"
	"time"

	"foldwright/internal/fault"
)

// certificate is one that lies in files and is read again when they change, as programs that renew certificates leave it.
type certificate struct {
	cert, key string
	log       *slog.Logger

	mu   sync.Mutex
	read [2]time.Time // when the files that were read last had been written
	last *tls.Certificate
}

// certified is how TLS is spoken with the certificate of these files.
func certified(cert, key string, log *slog.Logger) (*tls.Config, error) {
	c := &certificate{cert: cert, key: key, log: log}
	written, err := c.written()
	if err == nil {
		err = c.load(written)
	}
	if err != nil {
		return nil, fault.Fault{Kind: fault.Input, Code: CodeListen, File: cert, Field: "tls-cert", Wrong: "it cannot be used: " + err.Error(), Right: "a certificate and its key as PEM files that may be read"}
	}
	return &tls.Config{MinVersion: tls.VersionTLS12, GetCertificate: c.get}, nil
}

// written tells when the files were written.
func (c *certificate) written() (at [2]time.Time, err error) {
	for i, path := range []string{c.cert, c.key} {
		info, err := os.Stat(path)
		if err != nil {
			return at, err
		}
		at[i] = info.ModTime()
	}
	return at, nil
}

func (c *certificate) load(written [2]time.Time) error {
	pair, err := tls.LoadX509KeyPair(c.cert, c.key)
	if err != nil {
		return err
	}
	c.last, c.read = &pair, written
	return nil
}

// get gives the certificate as it is in the files. While they are being written and do not fit each other, the last one that did goes on.
func (c *certificate) get(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	written, err := c.written()
	if err == nil && written != c.read {
		if err = c.load(written); err == nil {
			c.log.Info("the certificate was read anew", "file", c.cert)
		}
	}
	if err != nil {
		c.log.Error("the certificate cannot be read anew; the last one goes on", "file", c.cert, "error", err)
	}
	return c.last, nil
}
