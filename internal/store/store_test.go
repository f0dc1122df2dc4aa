package store_test

import (
	"path/filepath"
	"testing"

	"foldwright/internal/demo"
	"foldwright/internal/store/storetest"
)

func TestSQLite(t *testing.T) {
	storetest.Run(t, func(t *testing.T) string { return filepath.Join(t.TempDir(), "shop.db") }, demo.Shop)
}

func TestPostgreSQL(t *testing.T) {
	server := storetest.Server(t)
	storetest.Run(t, func(t *testing.T) string { return storetest.Schema(t, server) }, demo.Shop)
}
