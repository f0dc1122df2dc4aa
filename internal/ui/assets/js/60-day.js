// The board of the day: puts the rows of its tables on a time axis, makes hours wider or narrower, finds jobs. The server says where
// things stand: so many minutes to scale, so many folded strips. Without this the very same rows are lists.
"use strict";
const dayBoard = (() => {
  const widths = [16, 24, 36, 54, 80, 120, 180, 270, 400]; // of an hour, px
  const strip = 28; // of hours that are folded away, px
  const root = () => document.getElementById("day");
  const board = () => document.querySelector("#day [data-board]");
  const kept = (key, otherwise) => { try { return localStorage.getItem("day-" + key) ?? otherwise; } catch { return otherwise; } };
  const keep = (key, value) => { try { localStorage.setItem("day-" + key, value); } catch { /* a browser that keeps nothing */ } };
  const pair = (text) => text.split(" ").map(Number);

  const place = () => {
    const b = board();
    if (!b) return;
    const [m, g] = pair(b.dataset.end);
    b.style.setProperty("--end-m", m);
    b.style.setProperty("--end-g", g);
    b.querySelectorAll("[data-at]").forEach((el) => {
      const [m, g] = pair(el.dataset.at);
      el.style.setProperty("--m", m);
      el.style.setProperty("--g", g);
      if (!el.dataset.to) return;
      const [n, h] = pair(el.dataset.to);
      el.style.setProperty("--dm", n - m);
      el.style.setProperty("--dg", h - g);
    });
  };

  const width = () => Number(kept("hour", 0)) || Math.min(160, Math.max(80, fitting()));
  const fitting = () => { // how wide an hour is when all of them are seen at once
    const b = board(), [m, g] = pair(b.dataset.end);
    return (b.clientWidth - (b.querySelector(".corner")?.offsetWidth || 0) - g * strip - 16) / m * 60;
  };
  const zoom = (px, around) => {
    const b = board();
    if (!b) return;
    const labels = b.querySelector(".corner")?.offsetWidth || 0;
    const middle = around ?? (b.clientWidth - labels) / 2;
    const before = px / (hour() || px);
    b.style.setProperty("--minute", px / 60 + "px");
    b.style.setProperty("--strip", strip + "px");
    b.classList.toggle("narrow-hours", px < 54);
    b.classList.toggle("very-narrow-hours", px < 24);
    b.scrollLeft = (b.scrollLeft + middle) * before - middle;
  };
  const fit = () => {
    zoom(Math.max(8, fitting()));
    board().scrollLeft = 0;
  };
  const step = (by) => {
    const now = hour();
    const to = by > 0 ? widths.find((w) => w > now + 1) ?? widths.at(-1) : widths.findLast((w) => w < now - 1) ?? widths[0];
    zoom(to);
    keep("hour", to);
  };
  const hour = () => parseFloat(board().style.getPropertyValue("--minute")) * 60;
  const left = (at) => {
    const [m, g] = pair(at);
    return m * hour() / 60 + g * strip;
  };

  const goTo = (at) => board().scrollTo({ left: Math.max(0, left(at) - 24) });

  const view = (to) => {
    root().dataset.view = to;
    keep("view", to);
    document.querySelectorAll("#day [data-view-to]").forEach((el) => el.setAttribute("aria-pressed", String(el.dataset.viewTo === to)));
  };
  const isBoard = () => root()?.dataset.view === "board" && matchMedia("(min-width: 48rem)").matches;

  // What is looked for stays in sight, the rest steps back; on the list it goes.
  const filter = () => {
    const find = document.getElementById("day-find"), late = document.getElementById("day-late"), told = document.querySelector("[data-found]");
    if (!find) return;
    const text = find.value.trim().toLowerCase(), on = text !== "" || late.checked;
    const rows = [...document.querySelectorAll("#day tr.task[data-job]")];
    const wanted = rows.filter((row) => row.dataset.find.toLowerCase().includes(text) && (!late.checked || row.hasAttribute("data-late")));
    rows.forEach((row) => row.classList.toggle("left-out", on && !wanted.includes(row)));
    rows.forEach((row) => row.classList.toggle("found", on && wanted.includes(row)));
    told.textContent = !on ? "" : wanted.length === 1 ? told.dataset.single : told.dataset.many.replace("2", wanted.length);
    if (text && wanted.length > 0 && isBoard()) show(wanted[0]);
  };
  const show = (row) => {
    const b = board(), labels = b.querySelector(".corner").offsetWidth;
    if (isBoard()) b.scrollTo({ left: Math.max(0, left(row.dataset.at) - (b.clientWidth - labels) / 3) });
    else row.scrollIntoView({ block: "center" });
  };

  const begin = () => {
    const r = root();
    if (!r || !board()) return;
    view(kept("view", "board"));
    if (board().style.getPropertyValue("--minute")) return;
    place();
    zoom(width(), 0);
    filter();
  };

  document.addEventListener("DOMContentLoaded", () => {
    begin();
    const b = board();
    if (!b) return;
    try { // whoever comes back to the day, such as after holding a job, sees it where they left it
      const [x, y] = JSON.parse(sessionStorage.getItem("day-scroll") || "[0,0]");
      b.scrollLeft = x;
      if (!location.hash) scrollTo(0, y);
    } catch { /* from the start, then */ }
    addEventListener("pagehide", () => { try { sessionStorage.setItem("day-scroll", JSON.stringify([board()?.scrollLeft || 0, scrollY])); } catch { /* no store */ } });
  });
  document.addEventListener("htmx:after:swap", begin);
  document.addEventListener("change", (e) => { if (e.target.matches("#day [data-jump-to]")) goTo(e.target.value); });
  document.addEventListener("input", (e) => { if (e.target.closest(".day-filter")) filter(); });
  document.addEventListener("submit", (e) => {
    if (!e.target.closest(".day-filter")) return;
    e.preventDefault();
    filter();
    document.querySelector("#day tr.task.found th a")?.focus();
  });
  document.addEventListener("click", (e) => {
    const to = e.target.closest("#day [data-view-to]"), by = e.target.closest("#day [data-zoom]"), jump = e.target.closest("#day [data-jump]");
    if (to) view(to.getAttribute("aria-pressed") === "true" && e.detail === 0 ? (to.dataset.viewTo === "board" ? "list" : "board") : to.dataset.viewTo);
    if (by) by.dataset.zoom === "0" ? fit() : step(Number(by.dataset.zoom));
    if (jump) goTo(jump.dataset.jump);
    const menu = e.target.closest("details[data-menu]");
    document.querySelectorAll("details[data-menu][open]").forEach((d) => { if (d !== menu) d.open = false; });
  });
  document.addEventListener("keydown", (e) => {
    if (e.key !== "Escape") return;
    document.querySelectorAll("details[data-menu][open]").forEach((d) => { d.open = false; d.querySelector("summary").focus(); });
  });
  return { board, isBoard, place, show };
})();
