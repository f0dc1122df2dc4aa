// Moving jobs on the day: by mouse, by a long touch, or with Alt and the arrow keys. What the move comes to is worked out by the server,
// which sends the whole day anew; a move that cannot be is said at the job, which stays where it was.
"use strict";
{
  const rowOf = (el) => el.closest?.("#day tr.task[data-job]");
  const laneOf = (el) => el.closest("[data-lane]");
  const rowsIn = (lane) => [...lane.querySelectorAll("tr.task[data-job]")];
  const byName = (job) => [...document.querySelectorAll("#day tr.task[data-job]")].find((row) => row.dataset.job === job);
  let last = ""; // the job that was moved, to find it again in the new day

  const send = (row, lane, before) => {
    const form = document.getElementById("day-move");
    last = row.dataset.job;
    form.elements.job.value = row.dataset.job;
    form.elements.folder.value = lane.dataset.lane;
    form.elements.before.value = before ? before.dataset.job : "";
    row.classList.add("going");
    form.requestSubmit();
  };
  const stays = (row, lane, before) => laneOf(row) === lane && nextOf(row, rowsIn(lane)) === (before || null);
  const nextOf = (row, rows) => rows[rows.indexOf(row) + 1] || null;

  // The row in front of which a job would come at a point of the page; null at the end.
  const before = (row, lane, x, y) => rowsIn(lane).find((other) => {
    if (other === row || other.getClientRects().length === 0) return false;
    const box = other.getBoundingClientRect();
    return dayBoard.isBoard() ? x < box.left + box.width / 2 : y < box.top + box.height / 2;
  }) || null;
  const laneAt = (y) => [...document.querySelectorAll("#day [data-lane]")].find((lane) => {
    const box = lane.getBoundingClientRect();
    return y >= box.top && y <= box.bottom;
  });

  let drag = null; // the hand that holds a job
  const mark = document.createElement("i");
  mark.className = "drop-mark";
  mark.setAttribute("aria-hidden", "true");

  const lift = () => {
    drag.lifted = true;
    drag.row.classList.add("lifted");
    document.documentElement.classList.add("dragging");
    getSelection().removeAllRanges();
  };
  const putMark = (lane, next) => {
    const into = lane.querySelector(".time"), box = into.getBoundingClientRect();
    const rows = rowsIn(lane).filter((row) => row !== drag.row);
    const at = (next || rows.at(-1))?.getBoundingClientRect();
    into.append(mark);
    if (dayBoard.isBoard()) {
      mark.style.left = (at ? (next ? at.left : at.right) - box.left : 2) + "px";
      mark.style.top = "";
    } else {
      mark.style.left = "";
      mark.style.top = (at ? (next ? at.top : at.bottom) - box.top : box.height) + "px";
    }
  };
  const near = (x, y) => { // the edge of what scrolls
    const b = dayBoard.board(), box = b.getBoundingClientRect(), edge = 48;
    if (dayBoard.isBoard()) b.scrollLeft += x > box.right - edge ? 14 : x < box.left + edge + 120 && x > box.left ? -14 : 0;
    if (y > innerHeight - edge) scrollBy(0, 12);
    if (y < edge + 48) scrollBy(0, -12);
  };
  const follow = () => {
    if (!drag?.lifted) return;
    const { x, y, row } = drag;
    near(x, y);
    row.style.transform = `translate(${x - drag.x0 + (dayBoard.board().scrollLeft - drag.left)}px, ${y - drag.y0 + (scrollY - drag.top)}px)`;
    drag.lane = laneAt(y);
    if (drag.lane) putMark(drag.lane, (drag.next = before(row, drag.lane, x, y)));
    else mark.remove();
    drag.frame = requestAnimationFrame(follow);
  };
  const drop = (take) => {
    if (!drag) return;
    const { row, lane, next, lifted } = drag;
    clearTimeout(drag.hold);
    cancelAnimationFrame(drag.frame);
    drag = null;
    mark.remove();
    document.documentElement.classList.remove("dragging");
    row.classList.remove("lifted");
    row.style.transform = "";
    if (!lifted) return;
    const gone = new AbortController(); // letting go is no click
    document.addEventListener("click", (e) => { e.preventDefault(); e.stopImmediatePropagation(); }, { capture: true, once: true, signal: gone.signal });
    setTimeout(() => gone.abort(), 100);
    if (take && lane && !stays(row, lane, next)) send(row, lane, next);
  };

  document.addEventListener("pointerdown", (e) => {
    const row = rowOf(e.target);
    if (!row || e.button !== 0 || !document.getElementById("day-move") || e.target.closest("button, input, select, summary")) return;
    const grip = e.target.closest("[data-grip]");
    if (!grip && !dayBoard.isBoard()) return; // on the list by the grip only, so that it can be scrolled and marked
    drag = { row, x: e.clientX, y: e.clientY, x0: e.clientX, y0: e.clientY, left: dayBoard.board().scrollLeft, top: scrollY, pointer: e.pointerId };
    if (grip) e.preventDefault();
    if (e.pointerType === "touch" && !grip) drag.hold = setTimeout(() => { lift(); follow(); }, 350);
  });
  document.addEventListener("pointermove", (e) => {
    if (!drag || e.pointerId !== drag.pointer) return;
    drag.x = e.clientX;
    drag.y = e.clientY;
    const far = Math.hypot(drag.x - drag.x0, drag.y - drag.y0);
    if (drag.lifted) return;
    if (drag.hold && far > 8) drop(false); // a touch that moves at once scrolls
    else if (!drag.hold && far > 6) { lift(); follow(); }
  });
  document.addEventListener("pointerup", (e) => { if (drag && e.pointerId === drag.pointer) { drag.x = e.clientX; drag.y = e.clientY; drop(true); } });
  document.addEventListener("pointercancel", () => drop(false));
  document.addEventListener("touchmove", (e) => { if (drag?.lifted) e.preventDefault(); }, { passive: false });
  document.addEventListener("contextmenu", (e) => { if (drag?.lifted) e.preventDefault(); });
  document.addEventListener("dragstart", (e) => { if (rowOf(e.target)) e.preventDefault(); });

  // Keys: arrows go from job to job, with Alt they take the job along.
  document.addEventListener("keydown", (e) => {
    if (e.key === "Escape" && drag) { drop(false); e.preventDefault(); return; }
    const row = rowOf(e.target);
    if (!row || !e.key.startsWith("Arrow") || e.ctrlKey || e.metaKey || e.shiftKey) return;
    const along = dayBoard.isBoard() ? ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown"] : ["ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight"];
    const lane = laneOf(row), rows = rowsIn(lane), at = rows.indexOf(row);
    const lanes = [...document.querySelectorAll("#day [data-lane]")];
    const way = along.indexOf(e.key);
    e.preventDefault();
    const other = lanes[lanes.indexOf(lane) + (way === 2 ? -1 : 1)];
    if (e.altKey && document.getElementById("day-move")) {
      if (way === 0 && at > 0) send(row, lane, rows[at - 1]);
      if (way === 1 && at < rows.length - 1) send(row, lane, rows[at + 2]);
      if (way > 1 && other) send(row, other, nearest(row, rowsIn(other)));
      return;
    }
    if (e.altKey) return;
    const to = way === 0 ? rows[at - 1] : way === 1 ? rows[at + 1] : other && (nearest(row, rowsIn(other)) || rowsIn(other).at(-1));
    to?.querySelector("th a").focus();
  });
  // The first job of another lane that begins no earlier.
  const nearest = (row, rows) => rows.find((other) => Number(other.dataset.at.split(" ")[0]) >= Number(row.dataset.at.split(" ")[0])) || null;

  // After a move: the same piece of the day, the job marked and in focus, what it did said.
  let scroll = [0, 0];
  document.addEventListener("htmx:before:swap", () => { scroll = [dayBoard.board()?.scrollLeft || 0, scrollY]; });
  document.addEventListener("htmx:after:swap", (e) => {
    const live = e.detail?.ctx?.target?.id === "day-live" || e.target.id === "day-live";
    refused();
    if (!live) return;
    document.getElementById("day-job")?.close();
    const b = dayBoard.board(), row = byName(last), said = document.querySelector("#day [data-said]");
    last = "";
    if (b) b.scrollLeft = scroll[0];
    scrollTo(0, scroll[1]);
    if (said) document.getElementById("day-status").textContent = said.textContent;
    if (!row) {
      document.querySelector("#day [data-day-step]")?.focus({ preventScroll: true });
      return;
    }
    row.classList.add("moved");
    row.querySelector("th a").focus({ preventScroll: true });
  });
  // What cannot be is said right below the job.
  const refused = () => {
    const note = document.querySelector("#day-refused [data-refused]"), row = note && byName(note.dataset.refused);
    document.querySelectorAll("#day tr.going").forEach((r) => r.classList.remove("going"));
    if (!note || note.dataset.placed) return;
    note.dataset.placed = "yes";
    last = "";
    row?.classList.add("refused");
    row?.querySelector("th a").focus({ preventScroll: true });
    if (!row) return;
    note.classList.add("at-job"); // out of the way before anything is measured
    const box = row.getBoundingClientRect();
    const room = document.querySelector("#day-refused").getBoundingClientRect();
    note.style.top = box.bottom - room.top + 6 + "px";
    note.style.left = Math.max(8, Math.min(box.left, innerWidth - note.offsetWidth - 16)) - room.left + "px";
  };
  document.addEventListener("click", (e) => {
    const note = e.target.closest("#day [data-dismiss]")?.closest("[data-refused]");
    if (!note) return;
    byName(note.dataset.refused)?.classList.remove("refused");
    note.remove();
  });
  document.addEventListener("submit", (e) => {
    const form = e.target.closest(".move-form");
    if (form && e.target.elements.here) last = e.target.elements.job.value;
    document.querySelector("#day-refused")?.replaceChildren();
    const menu = e.target.closest("details[data-menu]");
    if (menu) menu.open = false;
  });

  // A dialog about a job goes when it is closed, and the focus to the job.
  document.addEventListener("close", (e) => { if (e.target.id === "day-job") e.target.remove(); }, true);
  // Whoever asked for a search is led to what it found, unless they have gone on to something else.
  document.addEventListener("htmx:after:swap", () => {
    const found = document.querySelector("#day [data-follow]");
    if (!found || document.querySelector("dialog[open]") || drag) return;
    delete found.dataset.follow;
    found.removeAttribute("data-follow");
    location.assign(found.href);
  });
}
