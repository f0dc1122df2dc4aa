package api

import (
	"context"
	"net/http"

	"foldwright/internal/access"
	"foldwright/internal/exchange"
)

// importMost is the longest shop file that is read.
const importMost = 10 << 20

type (
	importIn struct {
		Replace bool   `query:"replace" doc:"Take the place of the shop that is there."`
		RawBody []byte `contentType:"application/yaml"`
	}

	importOut struct {
		Body struct {
			Revision int64 `json:"revision" doc:"Of the change that the import was."`
			Jobs     int   `json:"jobs"`
			Folders  int   `json:"folders"`
			Sets     int   `json:"sets"`
		} `nameHint:"Imported"`
	}
)

func (a *API) shopFile() {
	register(a, call{id: "export-shop", method: http.MethodGet, path: "/shop/export", tag: "shop", says: "The whole shop as a shop file", need: access.See, media: mediaYAML}, a.export)
	register(a, call{id: "import-shop", method: http.MethodPost, path: "/shop/import", tag: "shop", says: "Take a shop file in, checked as a whole or not at all", need: access.Rule, most: importMost}, a.importShop)
}

func (a *API) export(ctx context.Context, in *IfNoneMatch) (*fileOut, error) {
	s, err := a.desk.Shop(ctx)
	if err != nil {
		return nil, err
	}
	return file(mediaYAML, "shop.yaml", exchange.WriteShop(s), *in), nil
}

func (a *API) importShop(ctx context.Context, in *importIn) (*importOut, error) {
	whole, err := exchange.ReadShop("", in.RawBody)
	if err != nil {
		return nil, err
	}
	now, err := a.desk.Import(ctx, whole, in.Replace)
	if err != nil {
		return nil, err
	}
	out := &importOut{}
	out.Body.Revision = now.Revision
	out.Body.Jobs, out.Body.Folders, out.Body.Sets = len(now.Shop.Jobs), len(now.Shop.Folders), len(now.Shop.Sets)
	return out, nil
}
