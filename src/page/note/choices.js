// What this part answers: the player's own choices: how they change, and their list with what takes each off again.
import { el } from '../base/dom.js';
import { sideNames } from '../base/instruments.js';
import { choose, on, state } from '../base/state.js';
import { placeWords } from '../base/places.js';
import { goTo } from '../score/score.js';
import { inWords } from './note.js';

/** @typedef {import('../base/types.d.ts').Choices} Choices */

/** @param {Choices} choices @param {number} note */
export const pinnedTo = (choices, note) => choices.pins.find((p) => p.note === note);

/** @param {Choices} choices @param {number} note @returns {Choices} */
export const unpinned = (choices, note) => ({ ...choices, pins: choices.pins.filter((p) => p.note !== note) });

/** @param {Choices} choices @param {number} first @param {number} last @param {string[]} touches @returns {Choices} */
export const withBan = (choices, first, last, touches) => ({ ...unpinned(choices, first), bans: [...choices.bans, { first, last, touches }] });

/** @param {Choices} choices @param {number} first @param {number} last @param {string[]} touches @returns {Choices} */
export const withHold = (choices, first, last, touches) => ({ ...choices, holds: [...choices.holds, { first, last, touches }] });

/** @param {string} touch */
export const nowHolding = (touch) => `${inWords(touch)} is held still`;

export function choicesView() {
  const list = el('div', {});
  const view = el('section', { class: 'choices', hidden: true }, el('h2', {}, 'Your choices'), list);
  on(['choices', 'plan'], () => {
    const all = state.choices.map((c) => c.pins.length + c.bans.length + c.holds.length);
    view.hidden = all.every((n) => n === 0);
    const names = sideNames();
    list.replaceChildren(...state.choices.flatMap((choices, side) => all[side] === 0 ? [] : [
      names.length > 1 ? el('h3', {}, names[side]) : '', el('ul', {}, lines(choices, side))]));
  });
  return view;
}

/** @param {number} note */
const where = (note) => {
  const n = state.plan?.passage.notes[note];
  return n ? `${n.name}, ${placeWords(note)}` : `note ${note + 1}`;
};

/** @param {Choices} choices @param {number} side */
function lines(choices, side) {
  /** @type {[string, number, () => Choices][]} */
  const all = [
    ...choices.pins.map((p) => /** @type {[string, number, () => Choices]} */ ([`Pinned: ${where(p.note)}`, p.note, () => unpinned(choices, p.note)])),
    ...['bans', 'holds'].flatMap((kind) => {
      const stretches = kind === 'bans' ? choices.bans : choices.holds;
      return stretches.map((s, i) => /** @type {[string, number, () => Choices]} */ ([
        `${kind === 'bans' ? 'Never together' : 'Held still'}: ${s.touches.map(inWords).join(' + ')}; ${where(s.first)}${s.last !== s.first ? ` to ${where(s.last)}` : ''}`,
        s.first, () => ({ ...choices, [kind]: stretches.filter((_, j) => j !== i) })]));
    })];
  return all.map(([words, note, without]) => el('li', {},
    el('button', { type: 'button', class: 'link', onclick: () => goTo(note, true, side) }, words), ' ',
    el('button', { type: 'button', class: 'plain', 'aria-label': `Take off: ${words}`, onclick: () => choose(side, without()) }, 'Take off')));
}
