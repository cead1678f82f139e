// Asks only what the chosen work needs, and opens with what that work usually says.
"use strict";

// Called again when the page was brought up to date in place.
self.openLogForm = () => {
  const form = document.querySelector("form.log");
  if (!form) return;
  const usual = JSON.parse(form.dataset.usual);
  const work = form.elements.work;
  const touched = new Set();

  form.addEventListener("input", (event) => touched.add(event.target.name));
  work.addEventListener("change", () => { show(); suggest(); });

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

  show();
};
