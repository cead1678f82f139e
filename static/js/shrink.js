// Makes a photo small enough to travel, upright and without what the camera wrote into it. What cannot be read here
// goes as it is: the garden reads it, or says why not.
"use strict";

self.shrink = (() => {
  const LONGEST = 1600; // pixels, as many as the garden keeps
  const QUALITY = 0.82;
  const begun = new WeakMap();

  async function smaller(file) {
    let picture;
    try {
      picture = await createImageBitmap(file, { imageOrientation: "from-image" });
      const scale = Math.min(1, LONGEST / Math.max(picture.width, picture.height));
      const canvas = document.createElement("canvas");
      canvas.width = Math.max(1, Math.round(picture.width * scale));
      canvas.height = Math.max(1, Math.round(picture.height * scale));
      const pen = canvas.getContext("2d");
      pen.fillStyle = "#fff"; // under what is transparent
      pen.fillRect(0, 0, canvas.width, canvas.height);
      pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
      const made = await new Promise((resolve) => { canvas.toBlob(resolve, "image/jpeg", QUALITY); });
      return made && made.size < file.size ? made : file;
    } catch {
      return file;
    } finally {
      picture?.close();
    }
  }

  // In a form that goes the plain way the small photo takes the place of the large one.
  async function inPlace(field) {
    const small = await Promise.all([...field.files].map(async (file) => {
      const made = await self.shrink(file).ready;
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
  return (file) => {
    if (!begun.has(file)) {
      const one = { made: null };
      one.ready = before = before.then(() => smaller(file)).then((made) => { one.made = made; return made; });
      begun.set(file, one);
    }
    return begun.get(file);
  };
})();
