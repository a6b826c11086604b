// What this part answers: the passage's name, whether it fits, and the facts of each side.
import { el, words } from '../base/dom.js';
import { sideNames } from '../base/instruments.js';
import { on, set, state } from '../base/state.js';

export function summaryView() {
  const view = el('header', { class: 'summary' });
  on(['plan', 'side', 'busy'], () => {
    view.setAttribute('aria-busy', String(state.busy));
    const plan = state.plan;
    if (!plan) return;
    const names = sideNames();
    view.replaceChildren(
      el('h1', {}, plan.passage.title || state.score?.name || 'Passage'),
      el('p', { class: 'subtitle' }, plan.sides.length > 1 ? 'Two instruments on one time axis' : `Fingerings for: ${names[0] ?? ''}`),
      plan.sides.length > 1 ? engravedChoice(names) : '',
      el('div', { class: 'sides' }, plan.sides.map((side, i) => sideFacts(side, names[i] ?? '', plan.sides.length > 1))),
      remarks(plan.remarks));
  });
  return view;
}

/** @param {import('../base/types.d.ts').Side} side @param {string} name @param {boolean} several */
function sideFacts(side, name, several) {
  const sign = side.fits && side.complete ? '✓' : '!';
  const verdict = !side.complete ? 'Not every note has a fingering.' : side.fits ? 'It fits the tempo.' : 'It does not fit the tempo.';
  return el('section', { class: 'side' }, several ? el('h2', {}, name) : null,
    el('p', { class: 'verdict' }, el('span', { class: side.fits ? 'sign good' : 'sign bad', 'aria-hidden': 'true' }, sign), ' ', el('strong', {}, verdict)),
    side.decides ? el('p', {}, `The ceiling is decided at ${side.decides}.`) : null,
    el('details', {}, el('summary', {}, 'Facts'), el('dl', {}, side.facts.flatMap((f) => [el('dt', {}, f.label), el('dd', {}, f.text)]))),
    list('Not playable', side.not_playable), list('Assumed', side.assumed));
}

/** @param {string} title @param {unknown[]} items */
function list(title, items) {
  if (!items || items.length === 0) return null;
  return el('details', { open: title === 'Not playable' }, el('summary', {}, `${title} (${items.length})`), el('ul', {}, items.map((item) => el('li', {}, words(item)))));
}

/** @param {unknown[]} items */
function remarks(items) {
  if (!items || items.length === 0) return '';
  return el('details', {}, el('summary', {}, `Remarks on the score (${items.length})`), el('ul', {}, items.map((item) => el('li', {}, words(item)))));
}

/** @param {string[]} names */
function engravedChoice(names) {
  return el('fieldset', { class: 'engraved-side' }, el('legend', {}, 'Marks in the music for'), names.map((name, i) => {
    const radio = el('input', { type: 'radio', name: 'engraved', id: `engraved-${i}`, checked: i === state.side });
    radio.addEventListener('change', () => set({ side: i }));
    return el('label', { for: `engraved-${i}` }, radio, name);
  }));
}
