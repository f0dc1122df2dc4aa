// Light and dark change at once; the server keeps the choice for the next page.
"use strict";
document.addEventListener("submit", (e) => {
  const button = e.submitter;
  if (!button || button.dataset.themeTo === undefined) return;
  const to = button.dataset.themeTo;
  if (to) document.documentElement.dataset.theme = to;
  else delete document.documentElement.dataset.theme;
});
