// What this part answers: one note opened: all its fingerings in lanes, what each costs here and further on, where it comes from; pin,
// ban, hold still.
import { drawing, el, say, words } from '../base/dom.js';
import { sideNames } from '../base/instruments.js';
import { choose, on, set, state } from '../base/state.js';
import { complain, ofPlan } from '../base/work.js';
import { barOf, placeWords, timeWords } from '../base/places.js';
import { goTo, playedAt } from '../score/score.js';
import { nowHolding, pinnedTo, unpinned, withBan, withHold } from './choices.js';

/** @typedef {import('../base/types.d.ts').Option} Option */

/** @type {AbortController | undefined} */
let asking;
let most = 6;
let shownFor = '';

export function noteView() {
  const view = el('section', { class: 'note-panel', 'aria-label': 'Note', tabindex: -1, hidden: true });
  view.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') close();
  });
  on(['open'], () => {
    const key = state.open ? `${state.open.side} ${state.open.note}` : '';
    if (key !== shownFor) most = 6;
    if (state.open && !shownFor) queueMicrotask(() => view.scrollIntoView({ block: 'nearest' }));
    shownFor = key;
  });
  on(['open', 'plan'], () => void fill(view));
  return view;
}

export function close() {
  const at = state.open?.note;
  set({ open: null });
  /** @type {HTMLElement | null} */ (document.querySelector('.systems'))?.focus({ preventScroll: true });
  if (at !== undefined) goTo(at);
}

/** @param {HTMLElement} view */
async function fill(view) {
  asking?.abort();
  const open = state.open;
  const plan = state.plan;
  view.hidden = !open || !plan;
  document.body.classList.toggle('note-open', Boolean(open));
  if (!open || !plan) return;
  const own = (asking = new AbortController());
  view.setAttribute('aria-busy', 'true');
  try {
    const answer = await ofPlan('/api/note', {
      side: open.side, note: open.note, most, width: Math.max(240, Math.min(560, (view.clientWidth || 360) - 28)) }, own.signal);
    if (own !== asking || state.open?.note !== open.note) return;
    const focused = view.contains(document.activeElement) ? document.activeElement?.getAttribute('data-key') : null;
    view.replaceChildren(...head(open), ...answer.options.map((/** @type {Option} */ o, /** @type {number} */ i) => option(open, o, i, answer.options)),
      answer.options.length >= most ? el('button', { type: 'button', onclick: () => { most *= 4; void fill(view); } }, 'More fingerings') : '',
      stillness(open, answer.options[0]));
    view.setAttribute('aria-busy', 'false');
    /** @type {HTMLElement | null} */ (focused ? view.querySelector(`[data-key="${CSS.escape(focused)}"]`) : null)?.focus();
  } catch (fault) {
    if (own === asking) complain(fault);
  }
}

/** @param {{side: number, note: number}} open */
function head(open) {
  const plan = state.plan;
  const note = plan?.passage.notes[open.note];
  const planned = plan?.sides[open.side]?.notes[open.note];
  if (!plan || !note || !planned) return [];
  const pinned = pinnedTo(state.choices[open.side] ?? state.choices[0], open.note);
  const title = note.other ? `${note.name} with ${note.other}` : note.name;
  const time = planned.needs === undefined ? '' :
    `The hand needs ${Math.round(planned.needs)} ms, ${Math.round(planned.there_is ?? 0)} ms are there.`;
  const rate = planned.rate ? `${planned.rate.toFixed(1)} notes a second.` : '';
  return [
    el('div', { class: 'panel-head' }, el('h2', {}, `${title}, ${placeWords(open.note)}`),
      el('button', { type: 'button', class: 'plain', onclick: close, 'data-key': 'close', 'aria-label': 'Close the note' }, 'Close')),
    plan.sides.length > 1 ? el('p', { class: 'quiet' }, sideNames()[open.side]) : '',
    el('p', { class: 'steps' },
      el('button', { type: 'button', 'data-key': 'before', onclick: () => step(open, -1), disabled: open.note === 0 }, '← Note before'),
      el('button', { type: 'button', 'data-key': 'after', onclick: () => step(open, 1), disabled: open.note + 1 >= plan.passage.notes.length }, 'Note after →'),
      plan.sides.length > 1 ? el('button', { type: 'button', 'data-key': 'other', onclick: () => set({ open: { side: 1 - open.side, note: open.note } }) }, 'Other instrument') : ''),
    otherTimes(open),
    el('p', {}, [time, rate].filter(Boolean).join(' ')),
    (planned.warnings ?? []).length ? el('ul', { class: 'warning' }, (planned.warnings ?? []).map((w) => el('li', {}, words(w)))) : '',
    pinned ? el('p', {}, 'Pinned. ', el('button', { type: 'button', 'data-key': 'unpin', onclick: () => decide(open, unpinned, 'Pin taken off') }, 'Take the pin off')) : ''];
}

/** A printed note that is played again: each time has choices of its own. @param {{side: number, note: number}} open */
function otherTimes(open) {
  const times = playedAt(open.note);
  if (times.length < 2) return '';
  return el('p', { class: 'steps' }, times.map((note, i) => el('button', { type: 'button', 'data-key': `time-${i}`, 'aria-pressed': String(note === open.note),
    onclick: () => goTo(note, true, open.side) }, capital(timeWords(barOf(note)?.pass ?? i + 1)))));
}

/** @param {string} words */
const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

/** @param {{side: number, note: number}} open @param {number} by */
function step(open, by) {
  goTo(open.note + by, true, open.side);
}

/**
 * @param {{side: number, note: number}} open
 * @param {(choices: import('../base/types.d.ts').Choices, note: number) => import('../base/types.d.ts').Choices} change
 * @param {string} sentence
 */
function decide(open, change, sentence) {
  choose(open.side, change(structuredClone(state.choices[open.side] ?? state.choices[0]), open.note));
  say(sentence);
}

/** All that a fingering presses. @param {Option} o */
const pressed = (o) => [...(o.pin?.press ?? []), ...(o.pin?.half ?? [])];

/** A ban takes every fingering that holds these touches: something else must be left. @param {Option} o @param {Option[]} all */
const canBan = (o, all) => all.some((other) => other.pin && !pressed(o).every((t) => pressed(other).includes(t)));

/** @param {{side: number, note: number}} open @param {Option} o @param {number} i @param {Option[]} all */
function option(open, o, i, all) {
  const pin = pinnedTo(state.choices[open.side] ?? state.choices[0], open.note);
  const isPinned = pin !== undefined && same(pin, o.pin);
  const cost = i === 0 && o.dearer <= 0.05 ? 'Chosen in this plan' : `Costs the passage ${points(o.dearer)} more`;
  const elsewhere = o.elsewhere.length === 0 ? '' : `, and changes ${o.elsewhere.length === 1 ? 'one other note' : `${o.elsewhere.length} other notes`}`;
  const name = o.mark || 'plain fingering';
  return el('article', { class: i === 0 ? 'option chosen' : 'option', 'aria-label': `Fingering ${i + 1}: ${name}` },
    el('div', { class: 'option-head' }, el('h3', {}, `${i + 1}. ${name}`),
      !o.pin ? null : el('span', { class: 'group' },
        el('button', { type: 'button', 'data-key': `pin-${i}`, 'aria-pressed': String(isPinned),
          onclick: () => decide(open, (c, n) => (isPinned ? unpinned(c, n) : pinned(c, n, o)), isPinned ? 'Pin taken off' : 'Pinned') }, isPinned ? 'Pinned' : 'Pin'),
        canBan(o, all) ? el('button', { type: 'button', 'data-key': `ban-${i}`, onclick: () => decide(open, (c, n) => withBan(c, n, n, pressed(o)), 'Banned here') }, 'Ban here') : null)),
    el('p', { class: 'cost' }, cost, elsewhere, '.'),
    picture(o.svg, `Fingering ${i + 1} between its neighbours`),
    el('p', { class: 'compact' }, o.compact),
    el('p', { class: 'quiet' }, [o.origin === 'table' ? 'from the fingering table' : 'derived from the keywork', o.standing, o.way, o.tendency].filter(Boolean).join(' · ')),
    o.source || o.confidence ? el('p', { class: 'quiet' }, [o.source && `Source: ${o.source}`, o.confidence && `confidence ${o.confidence}`].filter(Boolean).join('; ')) : null,
    el('details', {}, el('summary', {}, 'Finger by finger, and what it costs here'),
      el('dl', {}, o.words.flatMap((w) => [el('dt', {}, w.finger), el('dd', {}, w.holds)])),
      o.here.length ? el('dl', { class: 'terms' }, o.here.flatMap((t) => [el('dt', {}, `${t.when}: ${t.term}`), el('dd', { class: 'number' }, points(t.points))])) : null,
      o.elsewhere.length ? el('p', {}, 'Other notes that change: ', o.elsewhere.slice(0, 12).flatMap((n) => [el('button', { type: 'button', class: 'link', onclick: () => goTo(n.note) }, n.where), ' '])) : null));
}

/** @param {string | undefined} svg @param {string} label */
function picture(svg, label) {
  if (!svg) return null;
  const drawn = drawing(svg);
  drawn.setAttribute('aria-label', label);
  return el('div', { class: 'option-lanes' }, drawn);
}

/** @param {number} value */
const points = (value) => `${value < 10 ? value.toFixed(1) : Math.round(value)} points`;

/** @param {any} a @param {any} b */
const same = (a, b) => ['press', 'half', 'flick'].every((k) => [...(a?.[k] ?? [])].sort().join() === [...(b?.[k] ?? [])].sort().join());

/** @param {import('../base/types.d.ts').Choices} choices @param {number} note @param {Option} o */
function pinned(choices, note, o) {
  const without = unpinned(choices, note);
  without.pins.push({ note, press: o.pin?.press ?? [], half: o.pin?.half ?? [], flick: o.pin?.flick ?? [], whole: true });
  without.pins.sort((a, b) => a.note - b.note);
  return without;
}

/** A touch held still, or never pressed, from this note to a later one. @param {{side: number, note: number}} open @param {Option | undefined} chosen */
function stillness(open, chosen) {
  const notes = state.plan?.passage.notes ?? [];
  const touches = chosen?.pin?.press ?? [];
  if (touches.length === 0) return '';
  const touch = el('select', { id: 'hold-touch', 'data-key': 'hold-touch' }, touches.map((t) => el('option', { value: t }, inWords(t))));
  const until = el('select', { id: 'hold-until', 'data-key': 'hold-until' }, notes.slice(open.note, open.note + 48).map((n) =>
    el('option', { value: String(n.i) }, `${n.name}, ${placeWords(n.i)}`)));
  until.selectedIndex = Math.min(1, until.options.length - 1);
  return el('section', { class: 'still' }, el('h3', {}, 'Over a stretch'),
    el('p', {}, el('label', { for: 'hold-touch' }, 'Touch '), touch, ' ', el('label', { for: 'hold-until' }, 'from here to '), until, ' ',
      el('button', { type: 'button', 'data-key': 'hold', onclick: () => decide(open, (c) => withHold(c, open.note, Number(until.value), [touch.value]), nowHolding(touch.value)) }, 'Hold it still'), ' ',
      el('button', { type: 'button', 'data-key': 'never', onclick: () => decide(open, (c) => withBan(c, open.note, Number(until.value), [touch.value]), 'Banned over the stretch') }, 'Never press it')));
}

const fingers = { T: 'thumb', 1: 'index finger', 2: 'middle finger', 3: 'ring finger', 4: 'little finger' };

/** "L4.low-eflat" as "left little finger, low E-flat". @param {string} touch */
export function inWords(touch) {
  const [finger = '', name = ''] = touch.split('.');
  const hand = finger[0] === 'L' ? 'left' : 'right';
  const said = name.replace(/-/g, ' ').replace(/\b([a-g])(flat|sharp)\b/g, (_, letter, sign) => `${letter.toUpperCase()}-${sign}`)
    .replace(/\b([a-g])\b/g, (letter) => letter.toUpperCase());
  return `${hand} ${/** @type {any} */ (fingers)[finger[1] ?? ''] ?? finger}, ${said}`;
}
