// Makes a photo small enough to travel, upright and without what the camera wrote into it. What cannot be read here
// goes as it is: the garden reads it, or says why not. This script is also its own worker, so that a large photo holds up
// no press of a button.
"use strict";

(() => {
  const LONGEST = 1600; // pixels, as many as the garden keeps
  const QUALITY = 0.82;
  const inWorker = !("document" in self);

  // The smaller picture; `null` for a file that goes as it is.
  async function smaller(file) {
    let picture;
    try {
      picture = await createImageBitmap(file, { imageOrientation: "from-image" });
      const scale = Math.min(1, LONGEST / Math.max(picture.width, picture.height));
      const [width, height] = [picture.width, picture.height].map((side) => Math.max(1, Math.round(side * scale)));
      const canvas = inWorker ? new OffscreenCanvas(width, height) : Object.assign(document.createElement("canvas"), { width, height });
      const pen = canvas.getContext("2d");
      pen.fillStyle = "#fff"; // under what is transparent
      pen.fillRect(0, 0, width, height);
      pen.drawImage(picture, 0, 0, width, height);
      const made = await (inWorker
        ? canvas.convertToBlob({ type: "image/jpeg", quality: QUALITY })
        : new Promise((resolve) => { canvas.toBlob(resolve, "image/jpeg", QUALITY); }));
      return made && made.size < file.size ? made : null;
    } catch {
      return null;
    } finally {
      picture?.close();
    }
  }

  if (inWorker) {
    self.onmessage = async ({ data }) => self.postMessage(await smaller(data));
    return;
  }

  const script = document.currentScript.src;
  const begun = new WeakMap();
  let worker = null;

  function aside(file) {
    if (!self.Worker || !self.OffscreenCanvas) return smaller(file);
    return new Promise((resolve) => {
      worker ??= new Worker(script);
      worker.onmessage = ({ data }) => resolve(data);
      worker.onerror = () => { worker = null; resolve(smaller(file)); };
      worker.postMessage(file);
    });
  }

  // In a form that goes the plain way the small photo takes the place of the large one.
  async function inPlace(field) {
    const small = await Promise.all([...field.files].map(async (file) => {
      const made = await self.shrink(file);
      return made === file ? file : new File([made], file.name, { type: made.type });
    }));
    const files = new DataTransfer();
    for (const file of small) files.items.add(file);
    field.files = files.files;
  }

  document.addEventListener("change", (event) => {
    const field = event.target;
    if (field.matches("form:not([data-log]) input[data-photo]")) inPlace(field);
  });

  // One after the other, so that a phone has the memory for it.
  let before = Promise.resolve();
  self.shrink = (file) => {
    if (!begun.has(file)) begun.set(file, before = before.then(() => aside(file)).then((made) => made ?? file));
    return begun.get(file);
  };
})();
