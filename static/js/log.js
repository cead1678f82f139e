// Catches the forms that make a log (`data-log`): the phone keeps it first, says so, and sends it afterwards.
// Where the phone cannot keep anything the form goes the plain way.
"use strict";

(() => {
  const { outbox, shrink } = self;

  if (!outbox.works) return;
  const TYPED = "trugbook-typed";
  const SENT_AFTER = 50; // milliseconds, in which the words that a log is kept reach the screen
  const shown = new Map(); // key of a log: its form and what is said in its place
  const laidIn = new WeakMap(); // chosen file: its key, and when the phone has it
  const byHand = new Set(); // names of fields that a quick hand changed before the rest was filled in

  const line = () => document.getElementById("outbox");
  const person = () => Number(document.body.dataset.person) || null;
  // Today where the garden is, as 2026-05-04.
  const gardenDay = () => {
    const day = new Date().toLocaleDateString("sv-SE", { timeZone: line().dataset.zone || undefined });
    const { today = "" } = line().dataset; // when the page was made: a phone whose clock is slow may not go before it
    return day < today ? today : day;
  };
  const wrapper = (form, name) => [...form.elements].find((each) => each.name === name && each.type !== "hidden");

  document.addEventListener("change", (event) => {
    if (event.target.type !== "file" || !event.target.form?.matches("[data-log]")) return;
    for (const file of event.target.files) layIn(file);
  });

  // The phone takes a photo in when it is chosen: as it is, then as small as it travels.
  function layIn(file) {
    if (laidIn.has(file)) return laidIn.get(file);
    const photoKey = crypto.randomUUID();
    const kept = file.arrayBuffer().then((data) => outbox.layIn(photoKey, data, file.type));
    const small = Promise.all([shrink(file), kept]).then(async ([made]) => {
      if (made !== file) await outbox.shrunk(photoKey, await made.arrayBuffer(), made.type);
    });
    small.catch(() => laidIn.delete(file)); // the press tries once more, and says if there is no room
    laidIn.set(file, { photoKey, kept, small });
    return laidIn.get(file);
  }

  // What is typed outlives a page that is pulled down to be fetched anew; browsers forget it.
  document.addEventListener("input", (event) => {
    const form = event.target.form;
    if (!form?.matches("form.log[data-log]")) return;
    byHand.add(event.target.name);
    const fields = [...new FormData(form)].filter(([, value]) => typeof value === "string");
    sessionStorage.setItem(TYPED, JSON.stringify({ page: location.pathname, person: person(), fields }));
  });

  function typedBefore() {
    const typed = JSON.parse(sessionStorage.getItem(TYPED) ?? "null");
    const isReloaded = performance.getEntriesByType("navigation")[0]?.type === "reload";
    return isReloaded && typed?.page === location.pathname && typed.person === person() ? typed.fields : null;
  }

  // Before htmx and everybody else.
  document.addEventListener("submit", async (event) => {
    const form = event.target;
    if (!form.matches("form[data-log]") || form.dataset.plain !== undefined || !person()) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    if (form.dataset.busy !== undefined) return;
    form.dataset.busy = "";
    const again = form.dataset.kept ? JSON.parse(form.dataset.kept) : null;
    const key = again?.key ?? crypto.randomUUID();
    const log = await keep(form, event.submitter, key, again).catch(() => null);
    if (log) acknowledge(form, log);
    else await goPlainly(form, event.submitter, key);
    delete form.dataset.busy;
  }, true);

  // No room, or a browser that forbids it: the plain way, as the same log, where there is signal for it.
  async function goPlainly(form, submitter, key) {
    self.tellUnkept();
    if (form.elements.key) form.elements.key.value = key;
    if (await outbox.who(line().dataset.who)) {
      form.dataset.plain = "";
      form.requestSubmit(submitter);
    } else {
      complain(form, {}, "log-stuck");
    }
  }

  async function keep(form, submitter, key, again) {
    const data = new FormData(form, submitter);
    const fields = [...data].filter(([name, value]) => typeof value === "string" && name !== "csrfmiddlewaretoken");
    // A button for one job asks no day: it is the day of the press, whenever it is sent.
    const added = [["key", key], ...(data.has("day") ? [] : [["day", gardenDay()]])];
    const log = {
      key,
      author: person(),
      address: new URL(form.action).pathname,
      fields: fields.filter(([name]) => name !== "key" && name !== "author").concat(added),
      said: sentence(form),
      ...(again ? { id: again.id } : {}),
    };
    const consent = fields.filter(([name]) => name === "may_show");
    const files = [...form.elements].flatMap((field) => [...(field.files ?? [])]).filter((file) => file.size);
    const photos = files.map((file) => (
      { photoKey: layIn(file).photoKey, name: file.name, said: `${file.name}: ${log.said}`, fields: consent }
    ));
    await Promise.all(files.map((file) => layIn(file).kept));
    await outbox.keep(log, photos);
    const small = files.map((file) => layIn(file).small);
    for (const file of files) laidIn.delete(file); // kept once more, it is another photo
    setTimeout(() => {
      navigator.storage?.persist?.();
      Promise.allSettled(small).then(self.sendKept);
    }, SENT_AFTER);
    return log;
  }

  // What was logged, in the words of the form itself.
  function sentence(form) {
    if (form.dataset.said) return form.dataset.said;
    const parts = [];
    for (const field of form.elements) {
      const unseen = field.closest("[hidden]") || field.checkVisibility?.() === false;
      if (!field.name || field.type === "hidden" || field.type === "file" || unseen) continue;
      if ((field.type === "radio" || field.type === "checkbox") && !field.checked) continue;
      const value = wordsOf(field);
      // The unit belongs to its number, and says nothing without one.
      if (field.name === "unit") {
        if (form.elements.amount.value) parts.push(`${parts.pop()} ${value}`);
      } else if (value) parts.push(value);
    }
    return parts.join(", ");
  }

  function wordsOf(field) {
    if (field.selectedOptions) return [...field.selectedOptions].filter((one) => one.value).map((one) => one.text.trim()).join(", ");
    if (field.type === "checkbox" || field.type === "radio") return field.labels?.[0]?.textContent.trim() ?? "";
    if (field.type === "submit" || field.type === "button") return "";
    if (field.valueAsDate) return dayOf(field);
    return field.value.trim();
  }

  // With its year where that is another one: it may be a slip.
  function dayOf({ value, valueAsDate }) {
    const year = value.slice(0, 4) === gardenDay().slice(0, 4) ? undefined : "numeric";
    return valueAsDate.toLocaleDateString(document.documentElement.lang, { timeZone: "UTC", day: "numeric", month: "long", year });
  }

  // Says in the place of the form that the log is kept, with a way back.
  function acknowledge(form, log) {
    clear(form);
    const words = document.getElementById("log-kept").content.firstElementChild.cloneNode(true);
    words.querySelector("[data-said]").textContent = log.said;
    words.querySelector("[data-again]").hidden = Boolean(form.dataset.said);
    words.querySelector("[data-undo]").addEventListener("click", () => undo(log));
    words.querySelector("[data-again]").addEventListener("click", () => reopen(log.key));
    form.hidden = true;
    delete form.dataset.kept;
    sessionStorage.removeItem(TYPED);
    form.before(words);
    shown.set(log.key, { form, words, log });
    words.focus({ preventScroll: Boolean(form.dataset.said) });
  }

  function reopen(key, { empty = true } = {}) {
    const one = shown.get(key);
    if (!one) return;
    one.words.remove();
    one.form.hidden = false;
    if (empty) for (const field of one.form.querySelectorAll("input[type=file]")) field.value = "";
    one.form.querySelector("button:not([type=button]), [type=submit]")?.focus();
    shown.delete(key);
  }

  async function undo(log) {
    const sent = shown.get(log.key)?.told?.kept;
    await outbox.undo(log.key);
    if (sent) await outbox.takeBack(sent.map((one) => one.undo), log.author, log.said);
    reopen(log.key, { empty: false });
    line().querySelector("[data-say=undone]").hidden = false;
    self.sendKept();
  }

  // What the garden made of a log whose form is still on this page.
  outbox.listen((news) => {
    const one = shown.get(news.key);
    if (!one) return;
    if (news.state === "sent") {
      one.told = news.told;
      one.words.querySelector("[data-phone]").hidden = true;
      one.words.querySelector("[data-sent]").hidden = false;
      if (news.told.text) one.words.querySelector("[data-said]").textContent = news.told.text;
    } else if (news.state === "back" && news.kind === "log") {
      const { form } = one;
      reopen(news.key); // its photos wait with it
      bringBack(form, news.key);
    }
  });

  // A log that came back stands in its form again, with the reasons beside the fields.
  async function bringBack(form, key) {
    const row = (await outbox.all()).find((each) => each.key === key && each.kind === "log");
    if (!row) return;
    form.dataset.kept = JSON.stringify({ id: row.id, key });
    complain(form, row.why ?? {});
  }

  function complain(form, why, words = "log-back") {
    clear(form);
    const box = document.getElementById(words).content.firstElementChild.cloneNode(true);
    const list = box.querySelector("ul");
    for (const [name, sentences] of Object.entries(why)) {
      const field = wrapper(form, name);
      if (field) mark(field, sentences);
      else for (const sentence of sentences) list.append(Object.assign(document.createElement("li"), { textContent: sentence }));
    }
    if (!list.children.length) list.remove();
    form.prepend(box);
    const first = form.querySelector("[aria-invalid=true]") ?? box;
    first.focus({ preventScroll: true });
    first.scrollIntoView({ block: "center" });
  }

  function mark(field, sentences) {
    const id = `${field.id || field.name}_back`;
    const said = Object.assign(document.createElement("div"), { className: "error", id });
    said.dataset.back = "";
    for (const sentence of sentences) said.append(Object.assign(document.createElement("p"), { textContent: sentence }));
    const place = field.closest(".field") ?? field;
    place.classList.add("wrong");
    if (place === field) field.after(said);
    else place.append(said);
    field.setAttribute("aria-invalid", "true");
    field.dataset.described ??= field.getAttribute("aria-describedby") ?? "";
    field.setAttribute("aria-describedby", `${field.dataset.described} ${id}`.trim());
  }

  function clear(form) {
    for (const said of form.querySelectorAll("[data-back], .error")) said.remove();
    for (const place of form.querySelectorAll(".wrong")) place.classList.remove("wrong");
    for (const field of form.querySelectorAll("[aria-invalid]")) {
      field.removeAttribute("aria-invalid");
      if (field.dataset.described !== undefined) field.setAttribute("aria-describedby", field.dataset.described);
    }
    line().querySelector("[data-say=undone]").hidden = true;
  }

  // A button for one plot says `plot`; the form asks for `plots`.
  function set(form, name, values) {
    for (const field of form.querySelectorAll(`[name="${CSS.escape(name === "plot" ? "plots" : name)}"]`)) {
      if (field.type === "file" || field.type === "hidden") continue;
      if (field.type === "checkbox" || field.type === "radio") field.checked = values.includes(field.value);
      else if (field.multiple) for (const option of field.options) option.selected = values.includes(option.value);
      else if (!field.options || [...field.options].some((option) => option.value === values[0])) field.value = values[0] ?? "";
      field.dispatchEvent(new Event("change", { bubbles: true }));
    }
  }

  function setAll(form, fields) {
    for (const name of new Set([...form.elements].map((each) => each.name).filter(Boolean))) {
      const told = fields.filter(([each]) => each === name || (each === "plot" && name === "plots"));
      set(form, name, told.map(([, value]) => value));
    }
    form.dispatchEvent(new Event("input", { bubbles: true })); // as if typed: no newer page takes its place
  }

  // A form opened from what is kept on this phone, or, without signal, for another piece of work than it was kept for.
  async function fill() {
    const form = document.querySelector("form[data-log]:not([data-said])");
    if (!form) return;
    const key = location.hash.startsWith("#kept=") ? location.hash.slice(6) : "";
    const row = key && (await outbox.all()).find((each) => each.key === key && each.kind === "log");
    if (row && row.author === person()) {
      setAll(form, row.fields);
      bringBack(form, key);
    } else if (typedBefore()) {
      setAll(form, typedBefore());
    } else if (document.documentElement.dataset.copy !== undefined) {
      catchUp(form);
      const asked = new URLSearchParams(location.search);
      for (const name of new Set(asked.keys())) if (!byHand.has(name)) set(form, name, asked.getAll(name));
      nameUnoffered(form, asked.getAll("plots"));
    }
  }

  // A plot that the kept form does not offer to tick is named by its label.
  function nameUnoffered(form, plots) {
    const { labels } = form.elements;
    const offered = new Set([...form.querySelectorAll("[name=plots]")].map((one) => one.value));
    const missing = Object.values(JSON.parse(form.dataset.stakes ?? "{}"))
      .filter(([key]) => plots.includes(String(key)) && !offered.has(String(key)));
    if (!labels || !missing.length) return;
    labels.value = missing.map(([, label]) => label).join(", ");
    labels.closest("details").open = true;
  }

  // The day in a form that was kept is the day on which it was kept.
  function catchUp(form) {
    const { day } = form.elements;
    const today = gardenDay();
    if (!day || day.value !== form.dataset.today || today <= day.value) return;
    day.max = today;
    day.value = today;
  }

  self.fillLogForm = fill;
})();
