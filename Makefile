# Everything a person or a machine does with this checkout. Needs Go and make; what else a target needs it fetches itself.
SHELL := /bin/bash
.SHELLFLAGS := -euo pipefail -c
.DEFAULT_GOAL := help

# The binary is told nothing about version control, so that a tarball builds as a clone does.
export GOFLAGS := -buildvcs=false
GO ?= go
FUZZTIME ?= 5s
BENCH ?= .
BENCHTIME ?= 1s
BENCH_DIR ?= ../shared/bench
BENCH_SETS ?= atsp sop wtsds sdst ssp
BENCH_SECONDS ?= 10
BENCH_WEEKS ?= 1 2 3

.PHONY: help build demo test test-tools check-format vet unit race fuzz bench bench-plan bench-model bench-week bench-web pages lint format soak cover clean

help: ## this list
	@grep -hE '^[a-z-]+:.*## ' $(MAKEFILE_LIST) | sed -E 's/^([a-z-]+):[^#]*## /\1\t/' | while IFS=$$'\t' read -r n t; do printf 'make %-14s %s\n' "$$n" "$$t"; done

build: ## bin/foldwright, one static binary
	CGO_ENABLED=0 $(GO) build -trimpath -ldflags '-s -w' -o bin/foldwright ./cmd/foldwright

demo: build ## plan the demo shop from a database, print the plan and serve the web app on this machine
	@.ci/demo

test: test-tools check-format vet unit fuzz ## what must pass before anything is committed

test-tools: ## poppler, qpdf, zbar, Chromium, PostgreSQL and cbc, which the tests need; installs what is missing
	@.ci/test-tools

check-format: ## fails when a file is not as gofmt writes it
	@bad=$$("$$($(GO) env GOROOT)/bin/gofmt" -l cmd internal tools); if [ -n "$$bad" ]; then echo "not as gofmt writes it (run: make format):"; echo "$$bad"; exit 1; fi

vet: ## go vet
	$(GO) vet ./...

unit: ## all tests
	$(GO) test ./...

race: ## all tests under the race detector; needs a C compiler
	CGO_ENABLED=1 $(GO) test -race ./...

fuzz: ## every fuzz target for FUZZTIME (now 5s unless given)
	@FUZZTIME=$(FUZZTIME) .ci/fuzz

bench: ## benchmarks matching BENCH (all unless given); figures belong into docs/performance.md
	$(GO) test -run '^$$' -bench '$(BENCH)' -benchtime $(BENCHTIME) -benchmem ./...

bench-plan: ## the planner on published instances in BENCH_DIR, a folder a set with a best.csv: instance, best known, ours, gap, seconds
	@[ -d '$(BENCH_DIR)' ] || { echo "there is no directory $(BENCH_DIR); name one that holds the sets: make bench-plan BENCH_DIR=…"; exit 1; }
	@$(GO) build -o bin/planbench ./tools/planbench
	@for set in $(BENCH_SETS); do dir='$(BENCH_DIR)'/$$set; [ -f "$$dir/best.csv" ] || continue; \
		tail -n +2 "$$dir/best.csv" | cut -d, -f1 | sed "s|^|$$dir/|" | xargs -d '\n' bin/planbench --set $$set --time $(BENCH_SECONDS)s --best "$$dir/best.csv"; done

bench-model: ## the planner beside the solver cbc, for BENCH_SECONDS each on the instances in BENCH_DIR/sdst; see test-tools
	@[ -f '$(BENCH_DIR)/sdst/best.csv' ] || { echo "there is no file $(BENCH_DIR)/sdst/best.csv; name a directory with the set sdst: make bench-model BENCH_DIR=…"; exit 1; }
	@$(GO) build -o bin/planbench ./tools/planbench
	@dir='$(BENCH_DIR)/sdst'; tail -n +2 "$$dir/best.csv" | cut -d, -f1 | sed "s|^|$$dir/|" | xargs -d '\n' bin/planbench --set sdst --cbc --time $(BENCH_SECONDS)s --best "$$dir/best.csv"

bench-week: build ## the planner on made weeks of 400 jobs on six folders, BENCH_SECONDS each, three seeds: what the plans cost
	@$(GO) build -o bin/weekshop ./tools/weekshop
	@dir=$$(mktemp -d); trap 'rm -rf "$$dir"' EXIT; for week in $(BENCH_WEEKS); do bin/weekshop --seed $$week >"$$dir/week.yaml"; for seed in 1 2 3; do \
		printf 'week %s, seed %s: ' $$week $$seed; bin/foldwright plan --shop "$$dir/week.yaml" --time $(BENCH_SECONDS)s --seed $$seed --json | sed -n '1,/"cost_min"/s/.*"cost_min": \([0-9.]*\),/\1/p'; done; done

bench-web: build ## 200 clients reading and writing for a minute while a plan is searched: answers, median, p95, p99 by what they do
	@$(GO) build -o bin/webload ./tools/webload
	@.ci/bench-web

pages: ## the pictures of docs/pages anew, from the demo shop in a real browser
	FOLDWRIGHT_PAGES=$(CURDIR)/docs/pages $(GO) test -count 1 -run TestPagesForTheReadme ./internal/ui/browsertest

bin/golangci-lint bin/gofumpt: tools/lint/go.mod tools/lint/go.sum
	cd tools/lint && $(GO) build -o ../../bin/ github.com/golangci/golangci-lint/v2/cmd/golangci-lint mvdan.cc/gofumpt

lint: bin/golangci-lint ## the linters of .golangci.yml (builds them first, about a minute of CPU)
	bin/golangci-lint run ./...

format: bin/gofumpt ## write all Go files as gofumpt does
	bin/gofumpt -w cmd internal tools

soak: ## a thousand writers killed in the middle of their work, on each database (some minutes)
	FOLDWRIGHT_KILL_ROUNDS=1000 $(GO) test -count 1 -timeout 60m -v -run KilledWriter ./internal/store

cover: ## statement coverage by package
	$(GO) test -cover ./...

clean: ## remove what was built
	rm -rf bin coverage*
