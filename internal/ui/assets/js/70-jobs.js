// A docket being typed: the names of schemes that are pressed go into their field, and what is wrong with a field stands beside it as soon
// as it was typed in.
"use strict";
{
  const fill = (id, value) => {
    const input = document.getElementById(id);
    if (!input) return;
    input.value = value;
    input.dispatchEvent(new Event("input", { bubbles: true }));
  };
  document.addEventListener("click", (e) => {
    const button = e.target.closest("[data-fills]");
    if (!button) return;
    if (button.dataset.empties) fill(button.dataset.empties, "");
    fill(button.dataset.fills, button.value);
    document.getElementById(button.dataset.fills)?.focus();
  });

  const touched = new Set();
  document.addEventListener("input", (e) => { if (e.target.closest("#job-form") && e.target.id) touched.add(e.target.id); });

  const beside = () => {
    document.querySelectorAll("#job-form [data-live-fault]").forEach((p) => {
      const input = document.getElementById(p.dataset.liveFault);
      p.remove();
      if (!input) return;
      input.removeAttribute("aria-invalid");
      const ids = (input.getAttribute("aria-describedby") || "").split(" ").filter((id) => id !== p.id);
      if (ids.join("")) input.setAttribute("aria-describedby", ids.join(" "));
      else input.removeAttribute("aria-describedby");
    });
    document.querySelectorAll("#job-live [data-for]").forEach((li) => {
      const input = document.getElementById(li.dataset.for);
      if (!input || !touched.has(input.id) || document.getElementById(input.id + "-fault")) return;
      const p = document.createElement("p");
      p.className = "fault";
      p.id = input.id + "-fault";
      p.lang = "en";
      p.dataset.liveFault = input.id;
      p.textContent = li.querySelector("[data-wrong]").textContent;
      input.closest(".field")?.append(p);
      input.setAttribute("aria-invalid", "true");
      input.setAttribute("aria-describedby", ((input.getAttribute("aria-describedby") || "") + " " + p.id).trim());
    });
  };
  // Who does not see the panel hears in one sentence what it says.
  const say = () => {
    const said = document.querySelector("[data-live-said]");
    if (said) said.textContent = [...document.querySelectorAll("#job-live [data-summary]")].map((el) => el.textContent.trim().replace(/\s+/g, " ")).join(". ");
  };
  document.addEventListener("htmx:after:swap", () => {
    if (!document.getElementById("job-live")) return;
    beside();
    say();
  });

  // What the page told of a field on loading goes as soon as somebody types in it; the live check tells anew.
  document.addEventListener("input", (e) => {
    if (!e.target.closest("#job-form") || !e.target.id) return;
    const old = document.getElementById(e.target.id + "-fault");
    if (old && !old.dataset.liveFault) {
      old.remove();
      e.target.removeAttribute("aria-invalid");
    }
  });
}
