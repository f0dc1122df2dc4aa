// At the folder: large buttons change a measure by a step, so that nobody types with gloves on.
"use strict";
{
  const number = (text) => Number(text.trim().replace(/[\s\u00a0\u202f]/g, "").replace(",", "."));
  const mark = (input) => { if (input.dataset.set !== undefined) input.classList.toggle("differs", input.value.trim() !== input.dataset.set); };

  document.addEventListener("click", (e) => {
    const button = e.target.closest("[data-steps]");
    if (!button) return;
    const input = document.getElementById(button.dataset.steps), by = Number(button.dataset.by), now = number(input.value);
    if (!Number.isFinite(now)) return;
    const digits = Math.max((String(Math.abs(by)).split(".")[1] || "").length, (input.value.trim().split(/[.,]/)[1] || "").length);
    const comma = input.value.includes(",") || input.dataset.set.includes(",") || /^(de|es|fr)/.test(document.documentElement.lang);
    let text = String(Number((now + by).toFixed(digits)));
    if (comma) text = text.replace(".", ",");
    input.value = number(text) === number(input.dataset.set) ? input.dataset.set : text;
    mark(input);
  });
  document.addEventListener("input", (e) => { if (e.target.matches(".stepper input")) mark(e.target); });
  document.querySelectorAll(".stepper input").forEach(mark);
}
