// readPhoto makes of a file that was chosen a picture to work on, upright, of at most
// mostSide pixels at its long side: one bitmap of 20 MB or less, however many pixels the
// photo has. It is a promise of the ImageBitmap; it fails with words for the user.
async function readPhoto(file) {
  "use strict";

  const mostSide = 2560; // pixels
  const mostPixels = 64e6; // which the browser holds while it decodes, 4 bytes each
  const size = await photoSize(file).catch(() => null);
  if (size && size.width * size.height > mostPixels) {
    throw new Error(file.name + " has " + Math.round(size.width * size.height / 1e6) + " megapixels, more than a phone has room for: set the camera to " + mostPixels / 1e6 + " or fewer.");
  }

  // made decodes it; a browser that doesn't know how it is told to turn the photo
  // upright does so anyway.
  async function made(to) {
    try {
      return await createImageBitmap(file, { imageOrientation: "from-image", resizeQuality: "high", ...to });
    } catch (why) {
      if (why instanceof TypeError) {
        return createImageBitmap(file, { resizeQuality: "high", ...to });
      }
      throw why;
    }
  }

  try {
    let shape = size;
    if (!shape) { // a kind of file that isn't read here: it is looked at in small
      const glance = 64; // pixels
      const small = await made({ resizeWidth: glance });
      const most = mostSide / Math.max(small.width, small.height);
      shape = { width: small.width * most, height: small.height * most };
      small.close();
    }
    const by = Math.min(1, mostSide / Math.max(shape.width, shape.height));
    const across = shape.width >= shape.height ? { resizeWidth: Math.round(by * shape.width) } : { resizeHeight: Math.round(by * shape.height) };
    return await made(by < 1 || !size ? across : {});
  } catch {
    throw new Error(file.name + " is no picture that this browser can show. Some phones save HEIC: set the camera to save JPEG, and take the photo again.");
  }
}

// photoSize reads how many pixels a picture has, as it is seen upright, from the beginning of
// its file, without decoding it: of JPEG (ITU-T T.81, Annex B; orientation as Exif has it)
// and PNG. null: it is something else.
async function photoSize(file) {
  "use strict";

  const bytes = async (from, count) => new DataView(await file.slice(from, from + count).arrayBuffer());
  const head = await bytes(0, 24);
  const [png, jpeg] = [0x89504e47, 0xffd8];
  if (head.getUint32(0) === png) {
    return { width: head.getUint32(16), height: head.getUint32(20) };
  }
  if (head.getUint16(0) !== jpeg) {
    return null;
  }
  let turned = false; // upright, it is as wide as it is high in the file
  for (let at = 2; at + 4 <= file.size;) {
    const segment = await bytes(at, 18);
    const [fill, marker, long] = [segment.getUint8(0), segment.getUint8(1), segment.getUint16(2)];
    if (fill !== 0xff) {
      return null;
    }
    if (marker === 0xff) { // filled up
      at++;
      continue;
    }
    const frame = marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
    if (frame) {
      const [height, width] = [segment.getUint16(5), segment.getUint16(7)];
      return width > 0 && height > 0 ? turned ? { width: height, height: width } : { width, height } : null;
    }
    if (marker === 0xe1 && segment.getUint32(4) === 0x45786966) { // "Exif"
      turned = photoTurned(await bytes(at + 10, long - 8));
    }
    at += 2 + long;
  }
  return null;
}

// photoTurned says whether Exif (a TIFF header and what follows it) has the picture lie on
// its side: orientation, tag 0x0112, from 5 to 8.
function photoTurned(exif) {
  "use strict";

  const little = exif.getUint16(0) === 0x4949;
  const first = exif.getUint32(4, little);
  const count = exif.getUint16(first, little);
  for (let i = 0; i < count; i++) {
    const entry = first + 2 + 12 * i;
    if (exif.getUint16(entry, little) === 0x0112) {
      return exif.getUint16(entry + 8, little) >= 5;
    }
  }
  return false;
}

// photoStore keeps one photo in the browser's own storage, on this device alone, under a
// name of its own. Its promises never fail: keep and erase are of whether it was done, load
// is of the file, or null.
function photoStore() {
  "use strict";

  const [name, files, key] = ["fullfree page: photo", "files", "last"];

  function opened() {
    return new Promise((done, fail) => {
      const asked = indexedDB.open(name, 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore(files);
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => fail(asked.error);
      asked.onblocked = () => fail(new Error("another page holds it"));
    });
  }

  // within does something in the store, and returns what that gave.
  async function within(mode, does) {
    const base = await opened();
    try {
      return await new Promise((done, fail) => {
        const work = base.transaction(files, mode);
        const asked = does(work.objectStore(files));
        work.oncomplete = () => done(asked.result);
        work.onabort = () => fail(work.error);
      });
    } finally {
      base.close();
    }
  }

  return {
    keep: (file) => within("readwrite", (store) => store.put(file, key)).then(() => true, () => false),
    load: () => within("readonly", (store) => store.get(key)).then((file) => (file instanceof Blob ? file : null), () => null),
    erase: () => new Promise((done) => {
      try {
        const asked = indexedDB.deleteDatabase(name);
        asked.onsuccess = () => done(true);
        asked.onerror = asked.onblocked = () => done(false);
      } catch {
        done(false); // this browser keeps nothing
      }
    }),
  };
}
