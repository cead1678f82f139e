// The page of this phone: what waits, what came back and why, what another person left here, and which pages open
// without signal.
"use strict";

(() => {
  const { outbox } = self;
  const ASKED = ["work", "plot", "planting", "succession"]; // what the address of a log form may carry
  const part = (name) => document.querySelector(`[data-kept=${name}]`);
  const inRow = (row, name) => row.querySelector(`[data-row=${name}]`);
  const language = document.documentElement.lang;
  let discarded = [];

  self.listKept = async () => {
    document.getElementById("kept").hidden = false;
    const stake = document.getElementById("stake-unknown");
    stake.hidden = !location.pathname.startsWith(stake.dataset.at.slice(0, -2)); // without what stands for the code
    document.getElementById("not-kept").hidden = !stake.hidden || location.pathname === part("list").dataset.path;
    const rows = (await outbox.all()).filter((row) => !row.undone);
    const own = Number(document.body.dataset.person) || await outbox.fact("person");
    const mine = rows.filter((row) => row.author === own);
    const logs = new Set(mine.filter((row) => row.kind === "log").map((row) => row.key));
    const lines = mine.filter((row) => row.kind === "log" || row.state === "back" || !logs.has(row.key));
    part("list").replaceChildren(...lines.map((row) => entry(row, mine)));
    part("nothing").hidden = rows.length > 0;
    part("send").hidden = !lines.some((row) => row.state === "waiting");
    const others = new Set(rows.filter((row) => row.author !== own).map((row) => row.key));
    part("others").hidden = !others.size;
    part("others").querySelector("[data-count]").textContent = others.size;
    await listPages(own);
  };

  function entry(row, mine) {
    const line = document.getElementById("kept-row").content.firstElementChild.cloneNode(true);
    inRow(line, "said").textContent = row.said ?? row.name;
    inRow(line, "removes").hidden = !row.removes;
    const made = inRow(line, "made");
    if (row.made) {
      made.dateTime = new Date(row.made).toISOString();
      made.textContent = new Date(row.made).toLocaleString(language, { dateStyle: "medium", timeStyle: "short" });
    }
    const photos = row.kind === "log" ? mine.filter((each) => each.kind === "photo" && each.key === row.key).length : 0;
    inRow(line, "photos").hidden = !photos;
    line.querySelector("[data-count]").textContent = photos;
    if (row.state === "back") explain(line, row);
    inRow(line, "discard").addEventListener("click", () => discard([row]));
    return line;
  }

  function explain(line, row) {
    const box = inRow(line, "back");
    box.hidden = false;
    for (const sentence of Object.values(row.why ?? {}).flat()) {
      box.append(Object.assign(document.createElement("p"), { textContent: sentence }));
    }
    const edited = row.kind === "log" && !row.removes;
    const edit = inRow(line, "edit");
    const asked = new URLSearchParams(row.fields?.filter(([name]) => ASKED.includes(name)));
    edit.href = `${row.address}?${asked}#kept=${row.key}`;
    edit.hidden = !edited;
    const again = inRow(line, "again");
    again.hidden = edited;
    again.addEventListener("click", async () => {
      await outbox.change(row.id, (now) => ({ ...now, state: "waiting", why: null }));
      await self.sendKept();
    });
  }

  // By hand only, and with a way back as long as this page is open.
  async function discard(rows) {
    for (const row of rows) discarded.push(...await outbox.discard(row.kind === "photo" ? { id: row.id } : { key: row.key }));
    part("discarded").hidden = false;
    part("discarded").querySelector("button").focus();
  }

  async function listPages(person) {
    const pages = part("pages");
    const kept = self.caches && person ? await (await caches.open(`pages-${person}`)).keys() : [];
    const links = [];
    const seen = new Set();
    for (const request of kept) {
      const { pathname } = new URL(request.url);
      if (seen.has(pathname)) continue;
      seen.add(pathname);
      const html = await (await caches.match(request, { ignoreVary: true }))?.text();
      const title = new DOMParser().parseFromString(html ?? "", "text/html").title;
      const link = Object.assign(document.createElement("a"), { href: request.url, textContent: title });
      const line = document.createElement("li");
      line.append(link);
      links.push(line);
    }
    pages.querySelector("ul").replaceChildren(...links);
    pages.hidden = !links.length;
  }

  part("send").querySelector("button").addEventListener("click", () => self.sendKept());
  part("others").querySelector("button").addEventListener("click", async () => {
    const own = Number(document.body.dataset.person) || await outbox.fact("person");
    await discard((await outbox.all()).filter((row) => row.author !== own));
  });
  part("discarded").querySelector("button").addEventListener("click", async () => {
    await outbox.restore(discarded);
    discarded = [];
    part("discarded").hidden = true;
  });
  part("plain").hidden = outbox.works;
  if (outbox.works) outbox.listen(() => self.listKept().catch(self.tellUnkept));
})();
