// Asks only what the chosen work needs, and opens with what that work usually says.
"use strict";

// Called again when the page was brought up to date in place.
self.openLogForm = () => {
  const form = document.querySelector("form.log");
  if (!form) return;
  const usual = JSON.parse(form.dataset.usual);
  const needs = JSON.parse(form.dataset.needs ?? "{}");
  const work = form.elements.work;
  const touched = new Set();

  form.addEventListener("input", (event) => touched.add(event.target.name));
  work.addEventListener("change", () => { show(); suggest(); });
  // Also at a click: what the browser itself fills in makes no event.
  for (const kind of ["input", "change", "click"]) form.addEventListener(kind, need);

  function show() {
    for (const part of form.querySelectorAll("[data-for-work]")) {
      part.hidden = !part.dataset.forWork.split(" ").includes(work.value);
    }
  }

  // Nothing that somebody typed is replaced.
  function suggest() {
    for (const [name, value] of Object.entries(usual[work.value] ?? {})) {
      const field = form.elements[name];
      if (field && !touched.has(name)) field.value = value;
    }
  }

  // What the work cannot be without is asked before it is kept: without signal the garden answers much later.
  function need() {
    for (const name of new Set(Object.values(needs).flatMap((one) => one.fields))) form.elements[name]?.setCustomValidity("");
    const needed = needs[work.value];
    const fields = needed?.fields.map((name) => form.elements[name]).filter(Boolean) ?? [];
    if (fields.length && !fields.some((field) => field.value.trim())) fields[0].setCustomValidity(needed.words);
  }

  show();
  need();
};
