// Dialogs, questions before something is done, and what is only there with scripts. Whoever has none reads and sends all the same.
"use strict";
document.documentElement.classList.add("scripted");

document.addEventListener("click", (e) => {
  const opener = e.target.closest("[data-opens]");
  if (opener) {
    const dialog = document.getElementById(opener.dataset.opens);
    if (dialog) dialog.showModal();
    return;
  }
  if (e.target.closest("[data-closes]")) {
    const dialog = e.target.closest("dialog");
    if (dialog) dialog.close();
  }
});

// A form or button with data-confirm asks first. The answer "yes" presses the same button again.
document.addEventListener("submit", (e) => {
  const asked = (e.submitter && e.submitter.dataset.confirm) || e.target.dataset.confirm;
  if (!asked || e.target.dataset.confirmed) {
    delete e.target.dataset.confirmed;
    return;
  }
  e.preventDefault();
  e.stopImmediatePropagation();
  const form = e.target, button = e.submitter, dialog = document.getElementById("confirm");
  dialog.querySelector("[data-question]").textContent = asked;
  dialog.returnValue = "";
  dialog.addEventListener("close", () => {
    if (dialog.returnValue !== "yes") return;
    form.dataset.confirmed = "yes";
    form.requestSubmit(button);
  }, { once: true });
  dialog.showModal();
}, true);

// A dialog that comes with the page, or is put into it, opens by itself.
const openNew = (root) => root.querySelectorAll("dialog[data-open]").forEach((d) => { if (!d.open) d.showModal(); });
document.addEventListener("DOMContentLoaded", () => {
  openNew(document);
  document.querySelector("[data-focus]")?.focus(); // what has to be seen first, such as what is wrong with a form
});
document.addEventListener("htmx:after:swap", () => openNew(document));

// data-copies="id" puts the text of an element on the clipboard; where that is not allowed it is selected instead.
document.addEventListener("click", async (e) => {
  const button = e.target.closest("[data-copies]");
  if (!button) return;
  const from = document.getElementById(button.dataset.copies);
  try {
    await navigator.clipboard.writeText(from.textContent.trim());
    button.querySelector("[data-done]")?.removeAttribute("hidden");
  } catch {
    getSelection().selectAllChildren(from);
  }
});
