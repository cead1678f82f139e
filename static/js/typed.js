// Typing lines in without the mouse: Enter goes down to where the line above was begun; what an empty field
// will say stands in it in grey.
"use strict";

(() => {
  const form = document.querySelector("form.typed");
  if (!form) return;
  const rows = [...form.querySelectorAll("tbody tr.line")];
  const fields = rows.map((row) => [...row.querySelectorAll("input:not([type=hidden])")]);
  const keep = form.querySelector("[data-keep]");
  const DITTO = ['"', "''", ",,", "″", "〃", "“", "”", "„"];
  const [PLOT, DAY, PERSON] = [0, 1, 5];
  let began = 0;
  let byTab = false;

  const place = (field) => {
    const row = fields.findIndex((line) => line.includes(field));
    return [row, row < 0 ? -1 : fields[row].indexOf(field)];
  };
  const isEmpty = (line) => line.every((field) => field.value.trim() === "");

  form.addEventListener("keydown", (event) => {
    byTab = event.key === "Tab";
    const [row, column] = place(event.target);
    if (event.key !== "Enter" || column < 0 || event.isComposing) return;
    event.preventDefault();
    const next = event.shiftKey ? row - 1 : row + 1;
    if (!event.shiftKey && (next === rows.length || isEmpty(fields[row]))) keep.focus();
    else fields[next]?.[began].focus();
  });

  form.addEventListener("focusin", (event) => {
    const [, column] = place(event.target);
    if (column >= 0 && !byTab) began = column;
    byTab = false;
  });

  // The server reads dittos and empty fields; this only shows the same.
  function foresee() {
    const above = [];
    for (const line of fields) {
      const empty = isEmpty(line);
      const moved = line[PLOT].value.trim() !== "" && line[PLOT].value.trim() !== above[PLOT];
      line.forEach((field, column) => {
        const carried = column === PLOT || column === DAY || (column === PERSON && !moved);
        field.placeholder = carried && field.value === "" && above[column] ? above[column] : "";
        if (empty) return;
        const typed = field.value.trim();
        if (!DITTO.includes(typed)) above[column] = typed || (carried ? above[column] : "");
      });
    }
  }

  form.addEventListener("change", foresee);
  foresee();
  const first = fields[Number(form.dataset.begin) - 1];
  (first.find((field) => field.getAttribute("aria-invalid") === "true") ?? first[0]).focus();
})();
