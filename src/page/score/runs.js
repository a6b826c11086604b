// What this part answers: where the notes of a drawn system stand, and the stretches of time that get lanes under it.
import { el } from '../base/dom.js';
import { barOf, timeWords } from '../base/places.js';
import { state } from '../base/state.js';
import { anchorsOf, splitAtRepeats } from './systems.js';

/** @typedef {import('./score.js').Box} Box */

/** Where a note's head stands in its box. @param {Box} box @param {string | null | undefined} id */
function headPlace(box, id) {
  const head = id ? box.music.querySelector(`[id="${CSS.escape(id)}"] .notehead`) ?? box.music.querySelector(`[id="${CSS.escape(id)}"]`) : null;
  if (!head) return undefined;
  return head.getBoundingClientRect().left - box.place.getBoundingClientRect().left;
}

/**
 * Gives a box its stretches, each with room for its lanes.
 * @param {Box} box @param {(string | null)[]} elements the printed note of each planned one @param {number} width
 */
export function makeRuns(box, elements, width) {
  const plan = state.plan;
  if (!plan) return;
  const place = (/** @type {number} */ index) => headPlace(box, elements[index]);
  // A last system may be shorter than the others.
  const drawn = box.music.querySelector('g.system')?.getBoundingClientRect().right;
  const right = Math.min(box.place.clientWidth - 8, drawn === undefined ? Infinity : drawn - box.place.getBoundingClientRect().left);
  const engravedBox = box.music.firstChild !== null;
  const runs = engravedBox ? box.system.runs.flatMap((run) => splitAtRepeats(run, place)) : box.system.runs;
  box.runs = runs.map((run) => {
    const after = place(run.last + 1);
    const end = after !== undefined && after > (place(run.last) ?? Infinity) ? after : right;
    return { ...run, anchors: engravedBox ? anchorsOf(plan, run, place, end) : linear(run, width), lanes: el('div', { class: 'lanes' }) };
  });
  box.under.replaceChildren(...box.runs.flatMap((run, i) => [
    box.runs.length > 1 ? el('p', { class: 'quiet pass' }, `Played the ${timeWords(barOf(run.first)?.pass ?? i + 1)}`) : null, run.lanes]).filter((n) => n !== null));
}

/** Anchors of a system that is drawn evenly in time. @param {{first: number, last: number}} run @param {number} width @returns {[number, number][]} */
function linear(run, width) {
  const notes = state.plan?.passage.notes ?? [];
  const first = notes[run.first];
  const last = notes[run.last];
  if (!first || !last) return [];
  return [[first.onset_ms, 98], [last.onset_ms + last.length_ms, width - 6]];
}
