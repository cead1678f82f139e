// The outbox: what was logged on this phone and has not reached the garden yet. Pages and the service worker share it,
// so it is a plain script with one name, `outbox`. A log stays here until the garden has answered that it has it; each
// carries its own key, so that sending it twice keeps it once.
"use strict";

self.outbox = (() => {
  const KEPT = "kept"; // one row a log or photo, in the order of making
  const BYTES = "bytes"; // the photos themselves, by their key
  const FACTS = "facts"; // who was signed in last; and of photos of no log yet, when they were chosen
  const DRAFT = "draft-";
  const DRAFTS_LAST = 86400000; // milliseconds after which a form that was left is not come back to
  const REFUSALS = [400, 403, 404, 413, 415, 422];
  const PATIENCE = 4000; // milliseconds in which a browser must open its store; some never answer
  const STUMBLES = 10; // errors of the garden in one go, after which it is left in peace
  const channel = "BroadcastChannel" in self ? new BroadcastChannel("trugbook-outbox") : null;
  const listeners = [];
  let opened = null;
  let line = Promise.resolve();

  // Browsers keep nothing on an address of plain http; there, forms go the plain way.
  const works = Boolean(self.isSecureContext && self.indexedDB && self.crypto?.randomUUID);

  const asked = (request) => new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

  function database() {
    if (opened) return opened;
    const opening = new Promise((resolve, reject) => {
      const request = indexedDB.open("trugbook", 1);
      setTimeout(reject, PATIENCE, new DOMException("The store does not open.", "TimeoutError"));
      request.onupgradeneeded = () => {
        request.result.createObjectStore(KEPT, { keyPath: "id", autoIncrement: true });
        request.result.createObjectStore(BYTES);
        request.result.createObjectStore(FACTS);
      };
      request.onsuccess = () => {
        // Let go for a newer page that changes it, and when the browser closes it behind our back.
        request.result.onversionchange = () => { request.result.close(); opened = null; };
        request.result.onclose = () => { opened = null; };
        resolve(request.result);
      };
      request.onerror = () => reject(request.error);
    });
    opened = opening;
    opening.catch(() => { if (opened === opening) opened = null; });
    return opening;
  }

  async function begun(stores, mode) {
    const options = { durability: "strict" };
    try {
      return (await database()).transaction(stores, mode, options);
    } catch (error) {
      if (error.name !== "InvalidStateError") throw error;
      opened = null; // closed without a word: once more
      return (await database()).transaction(stores, mode, options);
    }
  }

  // Does `work` with the stores in one transaction; the answer comes when it is on the disk.
  async function inside(stores, mode, work) {
    const transaction = await begun(stores, mode);
    let ended = false;
    const done = new Promise((resolve, reject) => {
      transaction.oncomplete = () => { ended = true; resolve(); };
      transaction.onabort = () => { ended = true; reject(transaction.error); };
    });
    done.catch(() => {});
    try {
      const result = await work(...stores.map((name) => transaction.objectStore(name)));
      await done;
      return result;
    } catch (error) {
      if (!ended) transaction.abort(); // never half of it
      throw error;
    }
  }

  const all = () => inside([KEPT], "readonly", (kept) => asked(kept.getAll()));
  const fact = (name) => inside([FACTS], "readonly", (facts) => asked(facts.get(name)));
  const remember = (name, value) => inside([FACTS], "readwrite", (facts) => asked(facts.put(value, name)));

  function tell(news) {
    channel?.postMessage(news);
    for (const listener of listeners) listener(news);
  }

  function listen(listener) {
    listeners.push(listener);
    if (channel && listeners.length === 1) {
      channel.onmessage = (event) => { for (const each of listeners) each(event.data); };
    }
  }

  // Lays in a photo as soon as it is chosen, so that keeping its log writes no more than a few lines.
  const layIn = (photoKey, data, type) => inside([BYTES, FACTS], "readwrite", async (bytes, facts) => {
    await asked(bytes.put(data, photoKey));
    await asked(facts.put({ at: Date.now(), type }, DRAFT + photoKey));
  });

  // Lets go of photos whose form was left.
  const sweep = () => inside([BYTES, FACTS], "readwrite", async (bytes, facts) => {
    for (const name of await asked(facts.getAllKeys(IDBKeyRange.bound(DRAFT, `${DRAFT}~`)))) {
      if (Date.now() - (await asked(facts.get(name))).at < DRAFTS_LAST) continue;
      await asked(bytes.delete(name.slice(DRAFT.length)));
      await asked(facts.delete(name));
    }
  });

  // Keeps a log with its photos, all or nothing. `log.id` replaces one that came back; its photos stay with it.
  async function keep(log, photos) {
    await inside([KEPT, FACTS], "readwrite", async (kept, facts) => {
      const row = { ...log, kind: "log", state: "waiting", made: log.made ?? Date.now() };
      await asked(kept.put(row));
      for (const photo of photos) {
        const { type } = await asked(facts.get(DRAFT + photo.photoKey));
        const address = `${log.address}${log.key}/photos/`;
        await asked(kept.put({ ...photo, type, kind: "photo", state: "waiting", key: log.key, author: log.author, address }));
        await asked(facts.delete(DRAFT + photo.photoKey));
      }
    });
    tell({ key: log.key, state: "waiting" });
  }

  // Rewrites one row by what `change` makes of it: `null` takes it away, with its photos; nothing leaves it alone.
  async function change(id, rewrite) {
    return inside([KEPT, BYTES], "readwrite", async (kept, bytes) => {
      const row = await asked(kept.get(id));
      if (!row) return null;
      const after = rewrite(row);
      if (after) await asked(kept.put(after));
      if (after !== null) return after ?? row;
      await asked(kept.delete(id));
      if (row.photoKey) await asked(bytes.delete(row.photoKey));
      return null;
    });
  }

  // Puts a smaller photo in the place of one that was laid in or waits.
  const shrunk = (photoKey, data, type) => inside([KEPT, BYTES, FACTS], "readwrite", async (kept, bytes, facts) => {
    const draft = await asked(facts.get(DRAFT + photoKey));
    const row = draft ? null : (await asked(kept.getAll())).find((each) => each.photoKey === photoKey);
    if (draft) await asked(facts.put({ ...draft, type }, DRAFT + photoKey));
    else if (row && !row.tried) await asked(kept.put({ ...row, type }));
    else return;
    await asked(bytes.put(data, photoKey));
  });

  // Takes out by hand a log with its photos, or one photo; gives back what `restore` needs.
  async function discard({ key, id }) {
    const out = await inside([KEPT, BYTES], "readwrite", async (kept, bytes) => {
      const found = (await asked(kept.getAll())).filter((row) => row.id === id || row.key === key);
      for (const row of found) {
        if (row.photoKey) row.data = await asked(bytes.get(row.photoKey));
        if (row.photoKey) await asked(bytes.delete(row.photoKey));
        await asked(kept.delete(row.id));
      }
      return found;
    });
    tell({ key, state: "discarded" });
    return out;
  }

  async function restore(rows) {
    await inside([KEPT, BYTES], "readwrite", async (kept, bytes) => {
      for (const { data, ...row } of rows) {
        await asked(kept.put(row));
        if (row.photoKey) await asked(bytes.put(data, row.photoKey));
      }
    });
    tell({ state: "waiting" });
  }

  // Takes back what may not be sent any more; what may have arrived already is taken back there, once that is known.
  async function undo(key) {
    for (const row of await all()) {
      if (row.key === key) await change(row.id, (now) => (now.tried && now.kind === "log" ? { ...now, undone: true } : null));
    }
    tell({ key, state: "undone" });
  }

  const removal = (address, author, said) => (
    { key: crypto.randomUUID(), kind: "log", removes: true, state: "waiting", address, author, said, fields: [], made: Date.now() }
  );

  // Queues taking back logs that the garden has.
  async function takeBack(addresses, author, said) {
    await inside([KEPT], "readwrite", async (kept) => {
      for (const address of addresses) await asked(kept.add(removal(address, author, said)));
    });
    tell({ state: "waiting" });
  }

  // Who is signed in, and a fresh proof of origin; `null` when the garden does not answer.
  async function who(address) {
    try {
      const options = { credentials: "same-origin", cache: "no-store", signal: AbortSignal.timeout(20000) };
      const answer = await fetch(address, options);
      const person = isJson(answer) && answer.ok ? await answer.json() : null;
      return person && "csrf" in person ? person : null;
    } catch {
      return null;
    }
  }

  const isJson = (answer) => (answer.headers.get("Content-Type") ?? "").startsWith("application/json");

  async function packed(row) {
    const body = new FormData();
    for (const [name, value] of row.fields ?? []) body.append(name, value);
    body.set("author", row.author);
    if (row.kind === "photo") {
      const data = await inside([BYTES], "readonly", (bytes) => asked(bytes.get(row.photoKey)));
      body.set("photo_key", row.photoKey);
      body.set("photo", new Blob([data], { type: row.type }), row.name);
    }
    return body;
  }

  // What became of sending one row: `kept`, `refused` with why, `sign-in`, `other` person, `stumbled` where the garden
  // has an error over this one, or `later`.
  async function sent(row, csrf) {
    const body = await packed(row);
    let answer;
    try {
      answer = await fetch(row.address, {
        method: "POST",
        body,
        redirect: "manual",
        credentials: "same-origin",
        headers: { "Accept": "application/json", "X-CSRFToken": csrf },
        signal: AbortSignal.timeout(row.kind === "photo" ? 300000 : 60000),
      });
      if (answer.type === "opaqueredirect" || answer.status === 401) return { outcome: "sign-in" };
      if (answer.status === 409) return { outcome: "other" };
      const told = isJson(answer) ? await answer.json() : null;
      if (answer.ok && told) return { outcome: "kept", told };
      if (answer.status === 500) return { outcome: "stumbled" };
      // A refusal without our words: the proof of origin has aged (403), or something in between is in the way.
      if (!REFUSALS.includes(answer.status) || (answer.status === 403 && !told)) return { outcome: "later" };
      return { outcome: "refused", why: told?.errors ?? (told?.error ? { __all__: [told.error] } : {}), code: answer.status };
    } catch {
      return { outcome: "later" };
    }
  }

  // Writes down that a log has arrived; one that was taken back meanwhile is taken back there as well.
  async function settle(row, told) {
    await inside([KEPT, BYTES], "readwrite", async (kept, bytes) => {
      const now = await asked(kept.get(row.id));
      if (now?.undone) {
        for (const one of told.kept ?? []) await asked(kept.add(removal(one.undo, row.author, row.said)));
      }
      await asked(kept.delete(row.id));
      if (row.photoKey) await asked(bytes.delete(row.photoKey));
    });
    tell({ key: row.key, state: row.kind === "photo" ? "photo" : "sent", told });
  }

  // The next row to send, none twice in one go: of this author, logs before photos, and no photo before its log.
  async function next(author, gone) {
    const rows = await all();
    const logs = new Set(rows.filter((row) => row.kind === "log").map((row) => row.key));
    const ready = rows.filter((row) => row.author === author && row.state === "waiting" && !gone.has(row.id)
      && !(row.kind === "photo" && logs.has(row.key)));
    return ready.find((row) => row.kind === "log") ?? ready[0];
  }

  async function sendAll(whoAddress) {
    if (!(await all()).some((row) => row.state === "waiting")) return "empty";
    const person = await who(whoAddress);
    if (!person) return "later";
    await remember("person", person.person);
    if (!person.person) return "sign-in";
    const gone = new Set();
    let stumbles = 0;
    for (let row = await next(person.person, gone); row; row = await next(person.person, gone)) {
      gone.add(row.id);
      // Marked before it goes: from here on it may have arrived, whatever happens to this phone.
      const marked = await change(row.id, (now) => (now.undone && !now.tried ? null : { ...now, tried: true }));
      if (!marked) continue;
      const { outcome, told, why, code } = await sent(marked, person.csrf);
      if (outcome === "kept") await settle(marked, told);
      else if (outcome === "refused") await comeBack(marked, why, code);
      else if (outcome !== "stumbled") return outcome;
      else if (++stumbles === STUMBLES) break;
    }
    return stumbles ? "later" : "sent";
  }

  async function comeBack(row, why, code) {
    // What was to be taken back anyway need not come back.
    await change(row.id, (now) => (now.undone ? null : { ...now, state: "back", tried: false, why, code }));
    tell({ key: row.key, kind: row.kind, state: "back", why });
  }

  // Sends what waits, in order and one at a time, in one place at a time however many pages are open.
  function flush(whoAddress) {
    if (!works) return Promise.resolve("empty");
    if (navigator.locks) return navigator.locks.request("trugbook-outbox", () => sendAll(whoAddress));
    line = line.then(() => sendAll(whoAddress), () => sendAll(whoAddress));
    return line;
  }

  return { works, all, fact, remember, listen, layIn, sweep, keep, change, shrunk, discard, restore, undo, takeBack, who, flush };
})();
