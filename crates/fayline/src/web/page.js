"use strict";
// Forms and links work without this script. With it, what has changed on a page is swapped in place, the focus stays
// where it was, and news from the server are shown as they come.
(() => {
  document.documentElement.classList.add("scripted");
  const boxes = new Map(); // how far each sheet is moved and magnified

  const keep = () => {
    const at = document.activeElement;
    const typed = at && at.matches("input,select") && at.value !== (at.defaultValue ?? at.value) ? at.value : null;
    const open = new Map([...document.querySelectorAll("details[data-keep]")].map((it) => [it.id, it.open]));
    return { id: at && at.id, typed, open, selection: at && at.matches("input:not([type=hidden])") ? at.selectionStart : null };
  };

  const restore = (kept) => {
    for (const [id, open] of kept.open) {
      const it = document.getElementById(id);
      if (it && !it.querySelector("[role=alert]")) it.open = open;
    }
    const at = kept.id && document.getElementById(kept.id);
    if (!at) return;
    if (kept.typed !== null) at.value = kept.typed;
    if (at !== document.activeElement) at.focus({ preventScroll: true });
    if (kept.selection !== null && at.setSelectionRange) at.setSelectionRange(kept.selection, kept.selection);
  };

  // Swaps by id what differs; a page of another shape is opened as a whole.
  const show = (text, url, mayTyped) => {
    const fresh = new DOMParser().parseFromString(text, "text/html");
    const old = [...document.querySelectorAll("[data-swap]")];
    const ids = (all) => all.map((it) => it.id).join();
    const kept = keep();
    if (!mayTyped) kept.typed = null;
    if (ids(old) !== ids([...fresh.querySelectorAll("[data-swap]")])) {
      document.getElementById("head").replaceWith(fresh.getElementById("head"));
      document.getElementById("main").replaceWith(fresh.getElementById("main"));
    } else {
      for (const part of old) {
        const now = fresh.getElementById(part.id);
        if (now.outerHTML !== part.dataset.was) {
          now.dataset.was = now.outerHTML;
          part.replaceWith(now);
        }
      }
    }
    document.title = fresh.title;
    if (fresh.body.dataset.job === undefined) delete document.body.dataset.job;
    else document.body.dataset.job = fresh.body.dataset.job;
    if (url && url !== location.href) history.pushState(null, "", url);
    restore(kept);
    begin();
  };

  // What is pressed must not be swapped before it is let go, or the press would be lost.
  let down = null;
  const released = () => down ?? Promise.resolve();
  document.addEventListener("pointerdown", () => {
    down = new Promise((done) => {
      const up = () => { down = null; setTimeout(done); };
      window.addEventListener("pointerup", up, { once: true });
      window.addEventListener("pointercancel", up, { once: true });
    });
  });

  let last = 0;
  const fetched = async (url, options, mayTyped) => {
    const turn = ++last;
    const answer = await fetch(url, options);
    const text = await answer.text();
    await released();
    if (turn === last) show(text, answer.redirected || answer.ok ? answer.url : null, mayTyped);
  };

  let sent = Promise.resolve(); // one after the other, in the order in which they were made
  const send = (form, button) => {
    const data = new URLSearchParams(new FormData(form, button));
    document.body.setAttribute("aria-busy", "true");
    sent = sent
      .then(() => fetched(form.action, { method: "POST", body: data }))
      .catch(() => form.submit())
      .finally(() => document.body.removeAttribute("aria-busy"));
  };

  let soon = null; // Enter changes a field and sends its form: that is one change
  document.addEventListener("submit", (event) => {
    if (event.target.method !== "post" || event.target.action.endsWith("/pair")) return;
    event.preventDefault();
    clearTimeout(soon);
    send(event.target, event.submitter);
  });
  document.addEventListener("change", (event) => {
    const form = event.target.closest("form[action$='/do/change']");
    const paint = event.target.closest("form.paint");
    if (form) soon = setTimeout(() => send(form, null));
    else if (paint) fetched(`${paint.action}?field=${encodeURIComponent(event.target.value)}`);
    else choose();
  });
  document.addEventListener("keydown", (event) => {
    if ((event.ctrlKey || event.metaKey) && event.key === "z" && !event.target.matches("input,select")) {
      const undo = document.getElementById("do-undo");
      if (undo) { event.preventDefault(); undo.click(); }
    }
  });
  window.addEventListener("popstate", () => fetched(location.href));

  // The form of a new job shows what the chosen form of joint asks for.
  const choose = () => {
    const form = document.getElementById("begin-form");
    if (!form) return;
    for (const part of document.querySelectorAll("[data-of]")) {
      const of = part.dataset.of.split(", ").includes(form.value);
      part.hidden = !of;
      if (part.matches("fieldset")) part.disabled = !of;
    }
  };

  // The sheet: moved by dragging or arrow keys, magnified by wheel, buttons or + and −, read by a tap.
  const sheet = (pan) => {
    const svg = pan.querySelector("svg");
    if (!svg || pan.dataset.ready) return;
    pan.dataset.ready = "yes";
    svg.setAttribute("role", "group"); // no mere picture: its rivets can be reached and read
    const whole = svg.viewBox.baseVal;
    const all = [whole.x, whole.y, whole.width, whole.height];
    let box = boxes.get(pan.id) ?? all;
    const set = (next) => { box = next; boxes.set(pan.id, box); svg.setAttribute("viewBox", box.join(" ")); };
    const zoom = (by, x = 0.5, y = 0.5) => {
      const width = Math.min(all[2], Math.max(all[2] / 20, box[2] * by));
      const height = width * all[3] / all[2];
      set(width >= all[2] ? all : [box[0] + (box[2] - width) * x, box[1] + (box[3] - height) * y, width, height]);
    };
    const move = (x, y) => set([box[0] + x * box[2], box[1] + y * box[3], box[2], box[3]]);
    if (boxes.has(pan.id)) set(box);
    const section = pan.closest("section");
    for (const button of section.querySelectorAll("[data-zoom]"))
      button.onclick = () => button.dataset.zoom === "all" ? set(all) : zoom(button.dataset.zoom === "in" ? 0.7 : 1 / 0.7);
    pan.onwheel = (event) => {
      if (!event.ctrlKey && !pan.matches(":focus-within")) return;
      event.preventDefault();
      const area = svg.getBoundingClientRect();
      zoom(event.deltaY < 0 ? 0.85 : 1 / 0.85, (event.clientX - area.x) / area.width, (event.clientY - area.y) / area.height);
    };
    let from = null;
    pan.onpointerdown = (event) => { from = [event.clientX, event.clientY, ...box]; };
    pan.onpointermove = (event) => {
      if (!from || !event.buttons) return;
      const area = svg.getBoundingClientRect();
      if (Math.hypot(event.clientX - from[0], event.clientY - from[1]) < 4) return;
      set([from[2] - (event.clientX - from[0]) / area.width * box[2], from[3] - (event.clientY - from[1]) / area.height * box[3], box[2], box[3]]);
    };
    const tell = (mark) => {
      const found = section.querySelector(`[data-for="${CSS.escape(mark.dataset.name)}"]`);
      if (!found) return;
      section.querySelectorAll(".read").forEach((it) => it.classList.remove("read"));
      mark.classList.add("read");
      section.querySelector(".reading").textContent = found.textContent;
    };
    svg.onclick = (event) => { const mark = event.target.closest("[data-name]"); if (mark) tell(mark); };
    for (const mark of svg.querySelectorAll("[data-name^=hole]")) { mark.setAttribute("tabindex", "0"); mark.setAttribute("role", "button"); mark.setAttribute("aria-label", mark.dataset.name.replace("-", " ")); }
    pan.onkeydown = (event) => {
      const mark = event.target.closest("[data-name]");
      const keys = { ArrowLeft: [-0.1, 0], ArrowRight: [0.1, 0], ArrowUp: [0, -0.1], ArrowDown: [0, 0.1] };
      if (mark && (event.key === "Enter" || event.key === " ")) tell(mark);
      else if (keys[event.key]) move(...keys[event.key]);
      else if (event.key === "+") zoom(0.7);
      else if (event.key === "-") zoom(1 / 0.7);
      else if (event.key === "0") set(all);
      else return;
      event.preventDefault();
    };
  };

  // Whatever tells how far it has come is asked again.
  let ask = null;
  const watch = () => {
    clearTimeout(ask);
    if (document.querySelector(".computing")) ask = setTimeout(() => fetched(location.href, undefined, true), 700);
  };

  let news = null;
  const begin = () => {
    watch();
    for (const part of document.querySelectorAll("[data-swap]")) part.dataset.was ??= part.outerHTML;
    choose();
    document.querySelectorAll(".pan").forEach(sheet);
    const job = document.body.dataset.job;
    if (news && news.job === job) return;
    if (news) news.close();
    news = null;
    if (job === undefined) return;
    news = new EventSource(`/events?job=${encodeURIComponent(job)}`);
    news.job = job;
    news.onmessage = () => fetched(location.href, undefined, true);
    // What was done before the line was open rang unheard.
    news.onopen = () => { if (document.querySelector(".computing")) news.onmessage(); };
  };
  begin();
})();
