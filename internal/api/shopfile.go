package api

import (
	"context"
	"net/http"

	"foldwright/internal/access"
	"foldwright/internal/exchange"
)

func (a *API) shopFile() {
	register(a, call{id: "export-shop", method: http.MethodGet, path: "/shop/export", tag: "shop", says: "The whole shop as a shop file", need: access.See, media: mediaYAML},
		func(ctx context.Context, in *IfNoneMatch) (*fileOut, error) {
			s, err := a.desk.Shop(ctx)
			if err != nil {
				return nil, err
			}
			return file(mediaYAML, "shop.yaml", exchange.WriteShop(s), *in), nil
		})
}
