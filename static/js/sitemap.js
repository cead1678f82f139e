// Moves plots and other things on the map by mouse and by arrow keys. The form sends what has moved when its button
// is pressed; without this script the same places are typed into fields.
"use strict";

(() => {
  const form = document.getElementById("arrange");
  const map = form?.querySelector("svg");
  if (!map) return;

  const scale = Number(map.dataset.scale);
  const said = document.getElementById("arrange-said");
  const us = form.dataset.units === "us";
  const unit = us ? 0.3048 : 1;
  const step = us ? 0.5 * unit : 0.1;
  const moved = new Map();
  let dragged = null;

  map.setAttribute("role", "application");
  for (const thing of map.querySelectorAll("[data-thing]")) {
    thing.setAttribute("tabindex", "0");
    thing.setAttribute("role", "button");
    thing.setAttribute("aria-label", thing.dataset.name);
  }

  const start = (thing) => [Number(thing.dataset.left), Number(thing.dataset.top)];
  const placeOf = (thing) => moved.get(thing.dataset.thing) ?? start(thing);
  const rounded = (metres) => Math.round(metres / step) * step;

  function place(thing, left, top) {
    const [fromLeft, fromTop] = start(thing);
    const home = Math.abs(left - fromLeft) < 1e-4 && Math.abs(top - fromTop) < 1e-4;
    if (home) moved.delete(thing.dataset.thing);
    else moved.set(thing.dataset.thing, [left, top]);
    thing.classList.toggle("moved", !home);
    thing.setAttribute("transform", `translate(${(left - fromLeft) * scale} ${(top - fromTop) * scale})`);
  }

  function say(thing) {
    const [left, top] = placeOf(thing).map((metres) => {
      const number = Math.round((metres / unit) * 100) / 100;
      return `${number.toLocaleString(document.documentElement.lang)} ${form.dataset.unit}`;
    });
    said.textContent = form.dataset.said
      .replace("%name", thing.dataset.name).replace("%left", left).replace("%top", top);
  }

  function pointOf(event) {
    const matrix = map.getScreenCTM().inverse();
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix);
    return [point.x / scale, point.y / scale];
  }

  map.addEventListener("pointerdown", (event) => {
    const thing = event.target.closest("[data-thing]");
    if (!thing || event.button !== 0 || event.pointerType === "touch") return;
    event.preventDefault();
    thing.focus();
    thing.setPointerCapture(event.pointerId);
    dragged = { thing, from: pointOf(event), place: placeOf(thing) };
  });

  map.addEventListener("pointermove", (event) => {
    if (!dragged) return;
    const [x, y] = pointOf(event);
    const left = rounded(dragged.place[0] + x - dragged.from[0]);
    const top = rounded(dragged.place[1] + y - dragged.from[1]);
    place(dragged.thing, left, top);
    say(dragged.thing);
  });

  for (const end of ["pointerup", "pointercancel"]) map.addEventListener(end, () => { dragged = null; });

  const arrows = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  map.addEventListener("keydown", (event) => {
    const thing = event.target.closest("[data-thing]");
    if (!thing) return;
    const arrow = arrows[event.key];
    if (arrow) {
      const [left, top] = placeOf(thing);
      const far = step * (event.shiftKey ? 10 : 1);
      place(thing, left + arrow[0] * far, top + arrow[1] * far);
    } else if (event.key === "Escape") {
      place(thing, ...start(thing));
    } else {
      return;
    }
    event.preventDefault();
    say(thing);
  });

  form.addEventListener("formdata", (event) => {
    for (const [key, [left, top]] of moved) event.formData.append("place", `${key} ${left.toFixed(4)} ${top.toFixed(4)}`);
  });

  form.addEventListener("submit", () => moved.size && removeEventListener("beforeunload", warn));
  function warn(event) { if (moved.size) event.preventDefault(); }
  addEventListener("beforeunload", warn);
})();
