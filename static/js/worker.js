// The service worker: keeps the pages of the last visit and what they are drawn with, one person's at a time, and
// sends what waits when the browser says that there is signal. `about` comes from the garden; see `plots/phone.py`.
"use strict";

(() => {
  const { about, caches, clients, outbox } = self;
  const FILES = `files-${about.version}`;
  const PATIENCE = 200; // milliseconds to wait for the garden before showing a kept copy
  const SEARCH = 3000; // milliseconds to look for a copy, on a phone whose store does not answer
  const MOST = 60; // pages kept
  const GONE = [403, 404, 410]; // not this person's to see any more
  const FRESH = 86400000; // milliseconds in which a page fetched ahead is not fetched again
  const patterns = about.keep.map((pattern) => new RegExp(pattern));
  const shown = new Map(); // window: the copy it was shown, and the answer that may follow

  const pagesOf = (person) => `pages-${person}`;
  const isKept = (url) => url.pathname.startsWith(about.root)
    && patterns.some((pattern) => pattern.test(url.pathname.slice(about.root.length)));
  const datedBy = (answer) => Date.parse(answer?.headers.get("Date")) || 0;
  const wait = (milliseconds) => new Promise((resolve) => { setTimeout(resolve, milliseconds, null); });

  // A file whose name carries its digest never changes.
  const lasts = (path) => /\.[0-9a-f]{12}\./.test(path);

  // Where the browser can, it takes such files out of what is kept without waking this worker for each.
  function shortCut(event) {
    const ours = about.files.filter(lasts).map((pathname) => ({ urlPattern: { pathname } }));
    return event.addRoutes && ours.length
      ? event.addRoutes({ condition: { or: ours }, source: { cacheName: FILES } }).catch(() => {})
      : null;
  }

  self.addEventListener("install", (event) => event.waitUntil((async () => {
    await shortCut(event);
    // What cannot be had now is kept when a page asks for it: better to work with less than not at all.
    const files = await caches.open(FILES);
    await Promise.allSettled(about.files.map((file) => files.add(file)));
    const page = await fetch(about.page, { credentials: "omit" }).catch(() => null);
    if (page?.ok) await files.put(about.page, page);
    await self.skipWaiting();
  })()));

  self.addEventListener("activate", (event) => event.waitUntil((async () => {
    await clients.claim();
    await forgetOldFiles();
  })()));

  self.addEventListener("fetch", (event) => {
    const url = new URL(event.request.url);
    if (event.request.method !== "GET" || url.origin !== self.location.origin) return;
    if (event.request.mode === "navigate") event.respondWith(page(event, url));
    else if (about.files.includes(url.pathname) || lasts(url.pathname)) event.respondWith(file(event.request, url));
  });

  self.addEventListener("sync", (event) => {
    if (event.tag === "outbox") {
      event.waitUntil(outbox.flush(about.who).then((outcome) => { if (outcome === "later") throw new Error(outcome); }));
    }
  });

  self.addEventListener("message", (event) => {
    if (event.data === "how") event.waitUntil(tell(event.source.id, event.ports[0]));
    else if (event.data.warm) event.waitUntil(warm(event.data.warm));
  });

  // A file that may change is asked for while there is signal; one that does not may be of an older version.
  async function file(request, url) {
    const kept = await caches.match(request, { ignoreVary: true, ...(lasts(url.pathname) ? {} : { cacheName: FILES }) });
    if (kept && lasts(url.pathname)) return kept;
    const answer = await fetch(request).catch(() => null);
    if (answer?.ok && about.files.includes(url.pathname)) await (await caches.open(FILES)).put(request, answer.clone());
    return answer ?? kept ?? Response.error();
  }

  // After an update the files of the version before stay as long as a kept page is drawn with them.
  async function forgetOldFiles() {
    const names = await caches.keys();
    const old = names.filter((name) => name.startsWith("files-") && name !== FILES);
    if (!old.length) return;
    const pages = await Promise.all(names.filter((name) => name.startsWith("pages-")).map(async (name) => {
      const kept = await (await caches.open(name)).matchAll();
      return Promise.all(kept.map((page) => page.text()));
    }));
    const written = pages.flat().join();
    for (const name of old) {
      const files = await caches.open(name);
      for (const request of await files.keys()) {
        const { pathname } = new URL(request.url);
        const wanted = lasts(pathname) && !about.files.includes(pathname) && written.includes(pathname);
        if (!wanted) await files.delete(request, { ignoreVary: true });
      }
      if (!(await files.keys()).length) await caches.delete(name);
    }
  }

  // The garden's answer if it comes soon; else the copy of the last visit; else the page of this phone.
  async function page(event, url) {
    const copy = await Promise.race([copyOf(url).catch(() => null), wait(SEARCH)]);
    if (copy?.elsewhere && !copy.ifNeedBe) return Response.redirect(copy.elsewhere);
    const network = fetch(event.request);
    const after = network.then((answer) => store(url, answer)); // first in line, while the answer is unread
    event.waitUntil(after.catch(() => {}));
    const answer = await (copy ? Promise.race([network.catch(() => null), wait(PATIENCE)]) : network.catch(() => null));
    if (answer && !(copy && answer.status >= 502)) return answer;
    if (copy?.elsewhere) return Response.redirect(copy.elsewhere);
    if (!copy) return (await caches.match(about.page, { cacheName: FILES, ignoreVary: true })) ?? Response.error();
    shown.set(event.resultingClientId, { at: datedBy(copy), after });
    return copy;
  }

  // What is kept for an address: the page itself, for the start one's week, for a log the form as it was for another,
  // for a stake the form of a log that knows its code.
  async function copyOf(url) {
    const person = await outbox.fact("person");
    if (!person) return null;
    const pages = await caches.open(pagesOf(person));
    const exact = await pages.match(url.href, { ignoreVary: true });
    if (exact) return exact;
    if (url.pathname === about.root) {
      const week = (await pages.keys()).find((request) => new URL(request.url).pathname.endsWith("/week/"));
      return week ? { elsewhere: week.url } : null;
    }
    const stake = new RegExp(about.stake).exec(url.pathname.slice(about.root.length));
    if (stake) return formAt(stake[1], pages);
    return url.pathname.endsWith("/log/") ? pages.match(url.href, { ignoreVary: true, ignoreSearch: true }) : null;
  }

  async function formAt(typed, pages) {
    const code = decodeURIComponent(typed).toUpperCase().replace(/[^0-9A-Z]/g, "");
    const known = new RegExp(`data-stakes="[^"]*&quot;${code}&quot;: ?\\[(\\d+)`);
    for (const request of await pages.keys()) {
      const { href, pathname } = new URL(request.url);
      if (!pathname.endsWith("/log/")) continue;
      const html = await (await pages.match(href, { ignoreVary: true })).text();
      const plot = known.exec(html);
      if (plot) return { elsewhere: new URL(`${pathname}?plots=${plot[1]}`, href).href, ifNeedBe: true };
    }
    return null;
  }

  // Keeps a page for whoever it was made for, and forgets the pages of everybody else. Gives back what a window that
  // was shown a copy should know.
  async function store(url, answer) {
    if (answer.type === "opaqueredirect") return { then: "moved" };
    if (!(answer.headers.get("Content-Type") ?? "").startsWith("text/html") || answer.status >= 500) return { then: "nothing" };
    const html = await answer.clone().text();
    const found = /<body[^>]* data-person="(\d*)"/.exec(html);
    if (!found) return { then: "nothing" };
    const person = Number(found[1]) || null;
    await belongTo(person);
    const passing = html.includes("data-once") || (answer.headers.get("Cache-Control") ?? "").includes("no-store");
    const kept = person && answer.status === 200 && isKept(url) && !passing;
    if (kept) {
      const headers = new Headers(answer.headers);
      headers.delete("Content-Encoding");
      const pages = await caches.open(pagesOf(person));
      await pages.put(url.href, new Response(html, { headers })); // in one step: it is never missing in between
      await tidy(pages);
    } else if (person && GONE.includes(answer.status)) {
      await (await caches.open(pagesOf(person))).delete(url.href, { ignoreVary: true });
    }
    return { then: "page", html, kept };
  }

  // Lets the oldest pages go.
  async function tidy(pages) {
    const keys = await pages.keys();
    if (keys.length <= MOST) return;
    const dated = await Promise.all(keys.map(async (key) => [key, datedBy(await pages.match(key, { ignoreVary: true }))]));
    dated.sort(([, one], [, other]) => one - other);
    for (const [key] of dated.slice(0, keys.length - MOST)) await pages.delete(key, { ignoreVary: true });
  }

  async function belongTo(person) {
    if (person !== await outbox.fact("person")) await outbox.remember("person", person);
    for (const name of await caches.keys()) {
      if (name.startsWith("pages-") && name !== pagesOf(person)) await caches.delete(name);
    }
  }

  async function tell(client, port) {
    const copy = shown.get(client);
    shown.delete(client);
    port.postMessage(copy ? { at: copy.at } : {});
    if (copy) port.postMessage(await copy.after.catch(() => ({ then: "nothing" })));
  }

  // Fetches ahead what will be wanted at the plot.
  async function warm(addresses) {
    const person = await outbox.fact("person");
    for (const address of person ? addresses : []) {
      const url = new URL(address, self.location.origin);
      const kept = await (await caches.open(pagesOf(person))).match(url.href, { ignoreVary: true });
      if (kept && Math.abs(Date.now() - datedBy(kept)) < FRESH) continue; // a phone's clock may be wrong
      const answer = await fetch(url, { credentials: "same-origin", redirect: "manual" }).catch(() => null);
      if (answer) await store(url, answer);
    }
    await forgetOldFiles();
  }
})();
