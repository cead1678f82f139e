// What a phone does on every page: it starts the service worker, sends what is kept when there is signal, says how
// much waits, brings a kept copy up to date, and warns before signing out.
"use strict";

(() => {
  const { outbox } = self;
  const LONGEST_WAIT = 60000; // milliseconds between tries
  let tries = 0;
  let timer = 0;
  let touched = false;
  let signedOut = false;
  let filled = Promise.resolve();

  const line = () => document.getElementById("outbox");
  const ofThisPhone = () => Boolean(document.getElementById("kept")); // the page made before anybody signed in
  const person = () => Number(document.body.dataset.person) || null;
  const say = (name, on, count) => {
    const said = line().querySelector(`[data-say=${name}]`);
    for (const place of said.querySelectorAll("[data-count]")) place.textContent = count.toLocaleString(document.documentElement.lang);
    said.hidden = !on;
  };

  // The line on every page.

  async function tellHowMany() {
    const rows = (await outbox.all()).filter((row) => row.kind === "log" && !row.undone);
    const own = person() ?? await outbox.fact("person");
    const mine = rows.filter((row) => row.author === own);
    const back = (await outbox.all()).filter((row) => row.state === "back" && row.author === own).length;
    const waiting = mine.filter((row) => row.state === "waiting").length;
    const away = signedOut || !own;
    const others = away ? 0 : rows.length - mine.length;
    say("waiting", waiting && !away, waiting);
    say("back", back && !away, back);
    say("others", others, others);
    say("sign-in", away && rows.length, rows.length);
    say("signed-out", signedOut && !rows.length && person(), 0);
  }

  // Sending.

  // Said where the browser opens no store, or has no room left in it.
  self.tellUnkept = () => say("unkept", true, 0);

  self.sendKept = () => send().catch(self.tellUnkept);

  async function send() {
    clearTimeout(timer);
    await tellHowMany();
    say("unkept", false, 0);
    const outcome = await outbox.flush(line().dataset.who);
    signedOut = outcome === "sign-in";
    if (outcome === "sent") refresh();
    tries = outcome === "later" ? tries + 1 : 0;
    if (outcome === "later") {
      timer = setTimeout(self.sendKept, Math.min(LONGEST_WAIT, 2000 * 2 ** tries));
      const registration = await navigator.serviceWorker?.getRegistration();
      registration?.sync?.register("outbox").catch(() => {});
    }
    await tellHowMany();
  }

  // A copy that the phone kept, shown because the garden was slow or out of reach.

  function askWorker() {
    return new Promise((resolve) => {
      const worker = navigator.serviceWorker.controller;
      if (!worker) return resolve({});
      const { port1, port2 } = new MessageChannel();
      setTimeout(resolve, 2000, {});
      port1.onmessage = (event) => (event.data.then ? fresher(event.data) : resolve(event.data));
      return worker.postMessage("how", [port2]);
    });
  }

  async function tellOfCopy(how) {
    if (!how.at) return;
    document.documentElement.dataset.copy = "";
    const at = new Date(how.at);
    const words = at.toLocaleString(document.documentElement.lang, { weekday: "long", hour: "numeric", minute: "2-digit" });
    for (const time of line().querySelectorAll("[data-copy-at]")) {
      time.textContent = words;
      time.dateTime = at.toISOString();
    }
  }

  // The garden's answer came after the copy was shown: `html` when there is a page, `kept` when it has taken the copy's
  // place, else why there is none.
  async function fresher({ then, html, kept }) {
    await filled.catch(() => {}); // else it would take the place of a form that is being filled
    if (then === "nothing") say("copy", true, 0);
    else if (then === "moved") signedOut = (await outbox.who(line().dataset.who))?.person === null;
    else {
      const page = new DOMParser().parseFromString(html, "text/html");
      const updated = kept && drawnWith(page) !== drawnWith(document);
      const show = () => (updated ? location.reload() : swap(page));
      if (!updated && words(page) === words(document)) renewProofs(page);
      else if (!touched && document.activeElement === document.body) show();
      else if (document.querySelector("form.log")) renewProofs(page); // what is typed there stays
      else offer(page, show);
    }
    await tellHowMany().catch(self.tellUnkept);
  }

  // Signal is back: the copy gives way to the page as it is now.
  async function refresh() {
    if (document.documentElement.dataset.copy === undefined || ofThisPhone()) return;
    const answer = await fetch(location.href, { headers: { Accept: "text/html" }, redirect: "manual" }).catch(() => null);
    if (!answer?.ok) return;
    delete document.documentElement.dataset.copy;
    say("copy", false, 0);
    await fresher({ then: "page", html: await answer.text(), kept: true });
  }

  // After an update a new page wants its own scripts and style sheets.
  const drawnWith = (page) => [...page.querySelectorAll("script[src], link[rel=stylesheet]")]
    .map((one) => one.getAttribute("src") ?? one.getAttribute("href")).join(" ");
  // What it says, and what stands chosen in it.
  const words = (page) => page.querySelector("main").textContent.replace(/\s+/g, " ")
    + [...page.querySelectorAll("[selected],[checked]")].map((one) => one.value);

  function renewProofs(page) {
    const proof = page.querySelector("[name=csrfmiddlewaretoken]")?.value;
    if (proof) for (const field of document.getElementsByName("csrfmiddlewaretoken")) field.value = proof;
    document.body.setAttribute("hx-headers", page.body.getAttribute("hx-headers"));
  }

  function offer(page, show) {
    renewProofs(page);
    say("newer", true, 0);
    line().querySelector("[data-show]").addEventListener("click", show, { once: true });
  }

  function swap(page) {
    for (const { name, value } of page.body.attributes) document.body.setAttribute(name, value);
    document.body.replaceChildren(...page.body.childNodes);
    self.htmx?.process(document.body);
    begin();
  }

  // Signing out with logs still here: once more, knowing it.

  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (!form.matches("[data-sign-out]") || form.dataset.warned !== undefined) return;
    event.preventDefault();
    outbox.all().then((rows) => {
      const mine = rows.filter((row) => row.kind === "log" && row.author === person()).length;
      form.dataset.warned = "";
      if (!mine) return form.requestSubmit();
      const warning = form.querySelector("[data-warning]");
      warning.querySelector("[data-count]").textContent = mine;
      warning.hidden = false;
      return warning.focus();
    }, () => form.submit());
  });

  // Starting.

  for (const kind of ["input", "pointerdown"]) addEventListener(kind, (event) => { touched ||= Boolean(event.target.closest?.("form")); });

  function begin() {
    self.openLogForm?.();
    say("plain", !outbox.works && document.querySelector("form[data-log]"), 0);
  }

  async function start() {
    begin();
    if (!outbox.works) return;
    outbox.listen(() => tellHowMany().catch(self.tellUnkept));
    const how = navigator.serviceWorker ? await askWorker() : {};
    filled = tellOfCopy(how).then(() => self.fillLogForm?.());
    await filled;
    await self.listKept?.();
    if (!how.at && !ofThisPhone()) await belongTo(person());
    await self.sendKept();
    await outbox.sweep();
    await registerWorker();
  }

  // Pages kept for somebody else are gone as soon as they have signed out, whether the worker saw it or not.
  async function belongTo(somebody) {
    await outbox.remember("person", somebody);
    for (const name of self.caches ? await caches.keys() : []) {
      if (name.startsWith("pages-") && name !== `pages-${somebody}`) await caches.delete(name);
    }
  }

  async function registerWorker() {
    const registered = await navigator.serviceWorker?.register(line().dataset.worker, { updateViaCache: "none" }).catch(() => null);
    if (!registered || !line().dataset.warm) return;
    const ready = await navigator.serviceWorker.ready;
    ready.active.postMessage({ warm: line().dataset.warm.split(" ") });
  }

  addEventListener("online", () => { self.sendKept().then(refresh); });
  document.addEventListener("visibilitychange", () => { if (!document.hidden) self.sendKept(); });
  addEventListener("pageshow", (event) => { if (event.persisted) self.sendKept(); });
  start().catch(self.tellUnkept);
})();
