// Keys: an element with data-key is pressed or focused by that key when nobody is typing; "?" lists them.
"use strict";
{
  const typing = (el) => el.closest("input:not([type=checkbox]):not([type=radio]):not([type=button]), textarea, select, [contenteditable]");
  const shown = (el) => el.getClientRects().length > 0;
  const nameOf = (el) => (el.dataset.keyName || el.getAttribute("aria-label") || el.textContent || el.title).trim().replace(/\s+/g, " ");

  const list = () => {
    const into = document.querySelector("[data-keys]");
    into.replaceChildren();
    const add = (key, what) => {
      const dt = document.createElement("dt"), kbd = document.createElement("kbd"), dd = document.createElement("dd");
      kbd.textContent = key;
      dt.append(kbd);
      dd.textContent = what;
      into.append(dt, dd);
    };
    document.querySelectorAll("[data-key]").forEach((el) => { if (shown(el)) add(el.dataset.key, nameOf(el)); });
    add("?", into.dataset.help);
    add("Esc", into.dataset.close);
  };

  document.addEventListener("keydown", (e) => {
    if (e.ctrlKey || e.metaKey || e.altKey || e.defaultPrevented || typing(e.target) || document.querySelector("dialog[open]")) return;
    if (e.key === "?") {
      document.getElementById("keys").showModal();
      list();
      e.preventDefault();
      return;
    }
    const el = [...document.querySelectorAll("[data-key]")].find((x) => x.dataset.key === e.key && shown(x));
    if (!el) return;
    e.preventDefault();
    if (el.matches("input, select, textarea")) el.focus();
    else el.click();
  });
  document.addEventListener("click", (e) => { if (e.target.closest('[data-opens="keys"]')) list(); });
}
