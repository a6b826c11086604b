// What this part answers: the engraved systems with their anchors, for a page that stands by itself.
import { systemBoxes, withAllDrawn } from '../score/score.js';

/** All systems as the server takes them: a drawing, and the notes that stand under it. */
export const engravedSystemsForSaving = () => withAllDrawn(() =>
  systemBoxes().flatMap((box) => {
    const music = box.music.firstElementChild;
    if (!music) return [];
    const svg = new XMLSerializer().serializeToString(music);
    const width = box.place.clientWidth;
    return box.runs.map(({ first, last, anchors }, i) => ({ svg: i === 0 ? svg : '<svg xmlns="http://www.w3.org/2000/svg"/>', first, last, anchors, width }));
  }));
