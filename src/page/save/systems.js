// What this part answers: the engraved systems with their anchors, for a page that stands by itself.
import { drawAll, systemBoxes } from '../score/score.js';

/** All systems as the server takes them. Those out of sight are drawn for it, and may be dropped again later. */
export async function engravedSystemsForSaving() {
  document.body.classList.add('printing');
  try {
    await drawAll();
    return systemBoxes().filter((b) => b.music.firstElementChild).flatMap((box) => {
      const svg = new XMLSerializer().serializeToString(/** @type {Element} */ (box.music.firstElementChild));
      const width = box.place.clientWidth;
      return box.runs.slice(0, 1).map(({ first, last, anchors }) => ({ svg, first, last, anchors, width }));
    });
  } finally {
    document.body.classList.remove('printing');
  }
}
